"""Fields with their slots: the text in a field, and the lines under it.

A *slot* is the part under a field that changes while a person types: the echo in both units, the sentence for a text
that is refused, the value that the starting point solves, the mark of an assumed value, the findings.
"""

import re
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from functools import lru_cache

from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.project.form import Field
from framecalc.units import TOLERANCE_MM, Length, Step, format_length, parse_length
from webapp.live.answer import Answer
from webapp.live.inches import inches_instead
from webapp.live.render import html_id
from webapp.live.texts import shown

THIN_MM = 12
"""Under this the echo turns millimetres into sixty-fourths, whatever the tape is read to: calipers measure it."""

_IN_INCHES = re.compile(r"""(?:in|ft|inch|inches|feet|foot|['"′″’”])\s*$""", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldSlot:
    """The lines under a field: echo in both units, error, solved value, assumed mark, findings, inches to ask for.

    `origin` says where an assumed value comes from.
    """

    id: str
    path: str
    echo: str
    error: str
    solved: str
    assumed: bool
    found: tuple[tuple[str, str], ...]
    inches: str = ""
    origin: str = "Assumed"


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldView:
    """One field as the page shows it; `name` is its label, after what it is of where there are several."""

    path: str
    id: str
    field: Field
    text: str
    slot: FieldSlot
    name: str = ""


def field_views(answer: Answer, above: str = "") -> dict[str, FieldView]:
    """Every field of the page with its slot, by its path without `frames.<id>.` and the common part `above`."""
    slots = {slot.path: slot for slot in slots_of(answer)}
    return {
        path.removeprefix(answer.here).removeprefix(above): FieldView(
            path=path,
            id=f"in-{html_id(path)}",
            field=one,
            text=_text(answer, path, one),
            slot=slots[path],
            name=answer.label(path),
        )
        for path, one in answer.fields.items()
    }


def slots_of(answer: Answer) -> Iterable[FieldSlot]:
    """The slot of every field of the page."""
    found = _found(answer)
    lengths, inch_step = _lengths(answer), answer.project.shop.inch_step
    for path in answer.fields.fields:
        yield FieldSlot(
            id=f"slot-{html_id(path)}",
            path=path,
            echo=echo(lengths[path], inch_step) if path in lengths else "",
            error=answer.messages.get(path, ""),
            solved=answer.solved.get(path, ""),
            assumed=answer.is_assumed(path) and path not in answer.messages,
            found=found.get(path, ()),
            inches=_inches(answer, path, lengths.get(path)),
            origin=answer.origin(path) or "Assumed",
        )


def _inches(answer: Answer, path: str, length: Length | None) -> str:
    """What the length at a path is in inches, where that is likelier meant; of a refused text too."""
    with suppress(FrameCalcError):
        if length is None and answer.fields.fields[path].is_length and path in answer.reading_messages:
            length = parse_length(answer.typed.get(path, ""), bare=answer.project.unit)
        return inches_instead(path, length, unit=answer.project.unit) if length else ""
    return ""


def _text(answer: Answer, path: str, one: Field) -> str:
    """The text in a field: the typed one if it is refused, else that of the document."""
    if path in answer.typed and (answer.is_unsaved or path in answer.reading_messages):
        return answer.typed[path]
    return shown(answer.document, path, one, unit=answer.project.unit)


def _found(answer: Answer) -> Mapping[str, tuple[tuple[str, str], ...]]:
    found: dict[str, tuple[tuple[str, str], ...]] = {}
    for advice in answer.advice:
        if advice.severity is not Severity.NOTE:
            found[advice.path] = (*found.get(advice.path, ()), (advice.severity.value, advice.sentence))
    return found


def _lengths(answer: Answer) -> dict[str, Length]:
    """The checked length at every path of the page that has one."""
    lengths: dict[str, Length] = {}
    parts: dict[str, object] = {"": answer.project}
    for path, one in answer.fields.items():
        if one.is_length and path not in answer.reading_messages:
            above, _, name = path.rpartition(".")
            length = _step_into(_part(parts, above), name)
            if isinstance(length, Length):
                lengths[path] = length
    return lengths


def _part(parts: dict[str, object], path: str) -> object:
    """The part of the checked project at a path; parts found before are known."""
    if path not in parts:
        above, _, name = path.rpartition(".")
        parts[path] = _step_into(_part(parts, above), name)
    return parts[path]


def _step_into(found: object, name: str) -> object:
    if isinstance(found, tuple):
        return next((item for item in found if item.id == name), None)
    return getattr(found, name, None)


@lru_cache(maxsize=4096)
def echo(length: Length, inch_step: Step) -> str:
    """A length in the other unit, once: "=" where it is exact, "≈" where it is rounded.

    Args:
        length: the length as typed.
        inch_step: the step that inches are rounded to.

    >>> echo(parse_length("10 in"), Step.SIXTEENTH), echo(parse_length("150 mm"), Step.SIXTEENTH)
    ('= 254 mm', '≈ 5 7/8 in')
    """
    if _IN_INCHES.search(length.text):
        step = Step.TENTH_MILLIMETRE if abs(length.exact_mm) >= 1 else Step.HUNDREDTH_MILLIMETRE
    elif abs(length.exact_mm) < Step.SIXTY_FOURTH.size_mm:
        return f"under {Step.SIXTY_FOURTH}" if length.exact_mm else ""
    else:
        step = inch_step if abs(length.exact_mm) >= THIN_MM else Step.SIXTY_FOURTH
    written = format_length(length.exact_mm, step=step)
    sign = "=" if abs(written.remainder_mm) <= TOLERANCE_MM else "≈"
    return f"{sign} {written.text} {written.unit}"
