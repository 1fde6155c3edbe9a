"""Fields with their slots: the text in a field, and the lines under it.

A *slot* is the part under a field that changes while a person types: the echo in both units, the sentence for a text
that is refused, the value that the starting point solves, the mark of an assumed value, the findings.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from functools import lru_cache

from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.project.form import Field
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM, Length, Step, format_length, parse_length
from webapp.live.render import html_id
from webapp.live.typed.answer import Answer
from webapp.live.typed.inches import inches_instead
from webapp.live.typed.texts import shown

THIN_MM = 12
"""Under this the echo turns millimetres into sixty-fourths, whatever the tape is read to: calipers measure it."""

_IN_INCHES = re.compile(r"""(?:in|ft|inch|inches|feet|foot|['"′″’”])\s*$""", re.IGNORECASE)


class FieldSlot(Record):
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


class FieldView(Record):
    """One field as the page shows it; `name` is its label, after what it is of where there are several."""

    path: str
    id: str
    field: Field
    text: str
    slot: FieldSlot
    name: str = ""


class FieldViews(Mapping[str, FieldView]):
    """Every field of a page, by its path without `frames.<id>.` and a common part; each is made when it is asked for.

    `slots` are those under the fields, by the same paths: an answer to typing shows all of them, and few fields.
    """

    def __init__(
        self, answer: Answer, above: str = "", *, turned: Callable[[FieldView], FieldView] | None = None
    ) -> None:
        """Begin with the slots.

        Args:
            above: what all paths of the page begin with, after the frame.
            turned: what the page makes of each field.
        """
        self._answer, self._turned = answer, turned
        self._paths = {path.removeprefix(answer.here).removeprefix(above): path for path in answer.fields.fields}
        self.slots = dict(zip(self._paths, slots_of(answer), strict=True))
        self._made: dict[str, FieldView] = {}

    def __getitem__(self, name: str) -> FieldView:
        """A field of the page."""
        if name not in self._made:
            made = self._view(name, self._paths[name])
            self._made[name] = self._turned(made) if self._turned else made
        return self._made[name]

    def __iter__(self) -> Iterator[str]:
        """The paths, in the order of the page."""
        return iter(self._paths)

    def __len__(self) -> int:
        """How many fields the page has."""
        return len(self._paths)

    def __contains__(self, name: object) -> bool:
        """Whether the page has a field."""
        return name in self._paths

    def _view(self, name: str, path: str) -> FieldView:
        answer, one = self._answer, self._answer.fields.fields[path]
        return FieldView(
            path=path,
            id=f"in-{html_id(path)}",
            field=one,
            text=_text(answer, path, one),
            slot=self.slots[name],
            name=answer.label(path),
        )


def slots_in(fields: Mapping[str, FieldView]) -> tuple[FieldSlot, ...]:
    """The slots under some fields, in their order."""
    if isinstance(fields, FieldViews):
        return tuple(fields.slots.values())
    return tuple(view.slot for view in fields.values())


def slots_of(answer: Answer) -> Iterable[FieldSlot]:
    """The slot of every field of the page."""
    found = _found(answer)
    messages, solved, lengths = answer.messages, answer.solved, _lengths(answer)
    inch_step, unit = answer.project.shop.inch_step, answer.project.unit
    for path in answer.fields.fields:
        error, assumed = messages.get(path, ""), answer.is_assumed(path)
        length = lengths.get(path) or (_typed_length(answer, path) if error else None)
        yield _slot(
            path,
            lengths.get(path),
            inch_step,
            error,
            solved.get(path, ""),
            assumed and not error,
            found.get(path, ()),
            inches_instead(path, length, unit=unit) if length else "",
            answer.origin(path) if assumed else "",
        )


@lru_cache(maxsize=4096)
def _slot(
    path: str,
    length: Length | None,
    inch_step: Step,
    error: str,
    solved: str,
    assumed: bool,
    found: tuple[tuple[str, str], ...],
    inches: str,
    origin: str,
) -> FieldSlot:
    """A slot: the same one as long as nothing in it changes."""
    return FieldSlot(
        id=f"slot-{html_id(path)}",
        path=path,
        echo=echo(length, inch_step) if length else "",
        error=error,
        solved=solved,
        assumed=assumed,
        found=found,
        inches=inches,
        origin=origin or "Assumed",
    )


def _typed_length(answer: Answer, path: str) -> Length | None:
    """The length of a text that is refused, where it is one."""
    if answer.fields.fields[path].is_length and path in answer.reading_messages:
        with suppress(FrameCalcError):
            return parse_length(answer.typed.get(path, ""), bare=answer.project.unit)
    return None


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
