"""Differences between two states of a job, in words for a client: "outside width +1/8 in; mat colour".

A *fact* is one thing about a frame that a client sees: a label, a text, and, where the text is a size, its lengths by
name. Facts of the same name are compared; a size is compared by its lengths, everything else by its text.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from framecalc.findings import Rounding
from framecalc.records import replace
from framecalc.units import TOLERANCE_MM, Step, format_length
from framecalc.words import typed, worded

_CODE = re.compile(r"#[0-9a-f]{6}")


@dataclass(frozen=True, slots=True, kw_only=True)
class ClientFact:
    """One thing that a client is told. `lengths` are its exact sizes [mm] under the words that name them.

    `in_words` is a fact that is only seen, and whose text can be read all the same.
    """

    name: str
    label: str
    text: str
    lengths: tuple[tuple[str, float], ...] = ()
    in_words: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ClientFacts:
    """The facts of one frame that a client sees. `seen` are those that only the drawing shows: colours, the shape."""

    frame_id: str
    frame: str
    facts: tuple[ClientFact, ...]
    seen: tuple[ClientFact, ...] = ()


def differences(before: Sequence[ClientFacts], after: Sequence[ClientFacts], *, step: Step) -> tuple[str, ...]:
    """Report what differs, frame by frame; nothing where a client would see no difference.

    Args:
        step: what a difference in length is written to.
    Source: derived.

    >>> narrow = ClientFacts(frame_id="k3", frame="Oak", facts=(ClientFact(name="outside", label="Outside",
    ...     text="13 × 17 in", lengths=(("width", 330.2), ("height", 431.8))),))
    >>> wide = ClientFacts(frame_id="k3", frame="Oak", facts=(ClientFact(name="outside", label="Outside",
    ...     text="13 1/8 × 17 in", lengths=(("width", 333.375), ("height", 431.8))),))
    >>> differences([narrow], [wide], step=Step.SIXTEENTH)
    ('outside width +1/8 in',)
    """
    names_frames = len({told.frame_id for told in (*before, *after)}) > 1
    old, new = ({told.frame_id: told for told in some} for some in (before, after))
    said: list[str] = []
    for frame_id in dict.fromkeys([*old, *new]):
        said += _of_frame(old.get(frame_id), new.get(frame_id), step, names_frames)
    return tuple(said)


def signed_length(length_mm: float, *, step: Step) -> str:
    """A difference in length with its sign, to the step, or to the hundredth of a millimetre where it is finer.

    Source: derived.

    >>> signed_length(-3.175, step=Step.SIXTEENTH), signed_length(0.3, step=Step.MILLIMETRE)
    ('−1/8 in', '+0.3 mm')
    """
    written = format_length(abs(length_mm), step=step, rounding=Rounding.NEAREST)
    if abs(written.remainder_mm) > TOLERANCE_MM:
        written = format_length(abs(length_mm), step=Step.HUNDREDTH_MILLIMETRE)
    return f"{'+' if length_mm > 0 else '−'}{written.text} {written.unit}"


def _of_frame(before: ClientFacts | None, after: ClientFacts | None, step: Step, names_frames: bool) -> Iterator[str]:
    if before is None or after is None:
        yield typed(after.frame) + ": added" if after else typed(before.frame if before else "") + ": removed"
        return
    if before.frame != after.frame:
        yield worded("name: {before} → {after}", before=before.frame, after=after.frame)
    where = worded("{name}: ", name=after.frame) if names_frames else ""
    before = _in_words_of(before, after)
    old, new = ({fact.name: fact for fact in told.facts} for told in (before, after))
    for name in dict.fromkeys([*old, *new]):
        yield from (where + said for said in _of_fact(old.get(name), new.get(name), step))
    yield from (where + said for said in _of_seen(before, after))


def _in_words_of(before: ClientFacts, after: ClientFacts) -> ClientFacts:
    """Facts that older records told by a colour's code, in today's words: the colour is compared as it is seen."""
    new = {fact.name: fact for fact in after.facts}
    told = (
        replace(fact, text=new[fact.name].text) if _CODE.fullmatch(fact.text) and fact.name in new else fact
        for fact in before.facts
    )
    return replace(before, facts=tuple(told))


def _of_seen(before: ClientFacts, after: ClientFacts) -> Iterator[str]:
    """Facts that differ only in the drawing; a fact that either record does not know is left out."""
    old, new = ({fact.name: fact for fact in told.facts} for told in (before, after))
    looked = {fact.name: fact for fact in before.seen}
    for fact in after.seen:
        same_words = _text_of(old.get(fact.name)) == _text_of(new.get(fact.name))
        if same_words and fact.name in looked and looked[fact.name].text != fact.text:
            changed = _small(fact.label) + ": " + _told(looked[fact.name]) + " → " + _told(fact)
            yield changed if fact.in_words else _small(fact.label)


def _text_of(fact: ClientFact | None) -> str:
    return fact.text if fact else ""


def _of_fact(before: ClientFact | None, after: ClientFact | None, step: Step) -> Iterable[str]:
    if before is None:
        return [_small(after.label) + ": " + _told(after)] if after else []
    if after is None:
        return [f"{_small(before.label)}: none any more"]
    if before.lengths and after.lengths:
        return _of_lengths(before, after, step)
    changed = _small(before.label) + ": " + _told(before) + " → " + _told(after)
    return [changed] if before.text != after.text else []


def _told(fact: ClientFact) -> str:
    """The text of a fact: as it was typed, unless it is in words of ours."""
    return fact.text if fact.in_words else typed(fact.text)


def _of_lengths(before: ClientFact, after: ClientFact, step: Step) -> Iterator[str]:
    for (word, old_mm), (_, new_mm) in zip(before.lengths, after.lengths, strict=True):
        if abs(new_mm - old_mm) > TOLERANCE_MM:
            yield f"{_small(after.label)} {word} {signed_length(new_mm - old_mm, step=step)}".replace("  ", " ")


def _small(label: str) -> str:
    return label[:1].lower() + label[1:]
