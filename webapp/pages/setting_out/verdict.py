"""The ready-to-cut light of a frame: its state, its word, one sentence, and where on the page to go."""

from dataclasses import dataclass
from enum import StrEnum

from framecalc.findings import Severity
from framecalc.words import typed
from webapp.live.answer import FrameAnswer


class Light(StrEnum):
    """The three states of the ready-to-cut light, with their names on the page."""

    READY = "ready"
    CHECK = "check"
    NOT_YET = "not-yet"


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """The light, its word, one sentence, and the id of the place on the page to go to."""

    light: Light
    word: str
    sentence: str
    goes_to: str = ""


def verdict_of(answer: FrameAnswer) -> Verdict:
    """Whether the frame is ready to cut: no field in error, no stop, no unconfirmed value that matters."""
    if answer.messages:
        return _in_error(answer)
    stops = [advice for advice in answer.advice if advice.severity is Severity.STOP]
    if stops:
        return Verdict(light=Light.NOT_YET, word="Not yet", sentence=stops[0].sentence, goes_to="findings")
    unconfirmed = answer.plan.unconfirmed
    if unconfirmed:
        return Verdict(light=Light.CHECK, word="Check first", sentence=_assumed(answer), goes_to=unconfirmed[0])
    return Verdict(light=Light.READY, word="Ready to cut", sentence=_warnings(answer))


def _in_error(answer: FrameAnswer) -> Verdict:
    path, sentence = next(iter(answer.messages.items()))
    label, more = answer.label(path), len(answer.messages) - 1
    said = _closed(label + ": " + typed(sentence) if label else typed(sentence))
    said = said + f" And {more} more." if more else said
    return Verdict(light=Light.NOT_YET, word="Not yet", sentence=said, goes_to=path if label else "")


def _assumed(answer: FrameAnswer) -> str:
    labels = [answer.label(path) for path in answer.plan.unconfirmed]
    if len(labels) == 1:
        return labels[0] + " is only assumed."
    return f"{len(labels)} values are only assumed. The first: " + labels[0] + "."


def _warnings(answer: FrameAnswer) -> str:
    warnings = [advice for advice in answer.advice if advice.severity is Severity.WARN]
    if not warnings:
        return "Nothing stands in the way."
    return warnings[0].sentence if len(warnings) == 1 else f"With {len(warnings)} warnings below."


def _closed(sentence: str) -> str:
    return sentence if sentence.endswith((".", "?", "!")) else sentence + "."
