"""The labels of a drawn sheet layout: numbers on the cuts, names in the parts, a legend for small ones.

Labels never overlap: one without a free place is left out of the drawing and goes into the legend. A *mark* stands on
a small part instead of its name: a letter for its kind, and its number.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, groupby
from string import ascii_lowercase

from framecalc.drawing.lettering import shortened, text_across_mm
from framecalc.drawing.sheet import Area, View
from framecalc.geometry.outline import Point
from framecalc.plan.figures import fine_figure
from framecalc.records import Record
from framecalc.sheets.answer import CutSheet, LeftOver, PlacedPart, SheetCut
from framecalc.units import Unit

LINE_MM = 4.6
"""From one line of letters to the next."""

TAG_UP_MM = 4.4
"""Height of the little box around the number of a cut."""

CLEAR_MM = 0.7
"""Left free around a label."""

_ALONG = (0.5, 0.3, 0.7, 0.15, 0.85, 0.4, 0.6, 0.22, 0.78, 0.08, 0.92)
"""Where along a cut its number may stand, tried in this order."""

_SHIFTS = (0.0, -0.25, 0.25, -0.4, 0.4)
"""By how much of the room a label may leave the middle of its part."""


class SheetLabel(Record):
    """Lines of letters around a middle; turned where they read from the right."""

    lines: tuple[str, ...]
    middle: Point
    is_turned: bool = False


class Tag(Record):
    """The number of a cut in its box."""

    text: str
    box: Area


class Labels(Record):
    """All labels of one sheet. A cut's line is left out inside its own tag."""

    tags: dict[int, Tag]
    parts: tuple[SheetLabel, ...]
    left_overs: tuple[SheetLabel, ...]
    legend: tuple[str, ...]


class _Places:
    """The places on the sheet that are taken."""

    def __init__(self, boxes: Iterable[Area] = ()) -> None:
        self._boxes = list(boxes)

    def is_free(self, box: Area, *, but: Area | None = None) -> bool:
        """Whether nothing is there; `but` is ignored."""
        return not any(_overlap(box, other) for other in self._boxes if other is not but)

    def take(self, box: Area) -> None:
        """Take a place."""
        self._boxes.append(box)


def label_sheet(sheet: CutSheet, view: View, *, unit: Unit, off_cut: str, legend_mm: float) -> Labels:
    """Place all labels of a sheet.

    Args:
        sheet: one sheet of a layout.
        view: how the sheet lies on the paper or the panel.
        unit: the project's unit.
        off_cut: what is written on a left-over.
        legend_mm: how long a line of the legend may be [mm of the drawing].
    """
    lines = {cut.number: _line_box(view.at(cut.start), view.at(cut.end)) for cut in sheet.cuts}
    edges = _edges(_box(view, 0, 0, sheet.stock.across_mm, sheet.stock.up_mm))
    taken = _Places(chain(lines.values(), edges))
    tags = dict(_tags(sheet.cuts, view, lines, taken))
    free = _Places(tag.box for tag in tags.values())
    marks = _marks(sheet.parts)
    labels, small = [], []
    for part in sheet.parts:
        label, is_marked = _part_label(part, view, free, marks[_kind(part)], unit)
        labels.append(label)
        if is_marked or label is None:
            small.append(part)
    left_overs = (_left_over_label(left, view, free, unit, off_cut) for left in sheet.left_overs)
    return Labels(
        tags=tags,
        parts=tuple(label for label in labels if label),
        left_overs=tuple(label for label in left_overs if label),
        legend=tuple(_legend(small, marks, [cut for cut in sheet.cuts if cut.number not in tags], unit, legend_mm)),
    )


def size_on_drawing(across_mm: float, up_mm: float, *, unit: Unit) -> str:
    """Across × up without the unit, which a drawing says once.

    >>> size_on_drawing(400, 332.5, unit=Unit.MM)
    '400 × 332.5'
    """
    across, up = (fine_figure("size", "size", length_mm, unit=unit).text for length_mm in (across_mm, up_mm))
    return f"{across} × {up}"


def _tags(cuts: Sequence[SheetCut], view: View, lines: dict[int, Area], taken: _Places) -> Iterator[tuple[int, Tag]]:
    for cut in cuts:
        text, own = str(cut.number), lines[cut.number]
        half_mm = text_across_mm(text, bold=True) / 2 + CLEAR_MM
        places = (_between(view.at(cut.start), view.at(cut.end), ratio) for ratio in _ALONG)
        boxes = (_around(place, half_mm, TAG_UP_MM / 2) for place in places)
        box = next((box for box in boxes if taken.is_free(box, but=own)), None)
        if box:
            taken.take(box)
            yield cut.number, Tag(text=text, box=box)


def _part_label(part: PlacedPart, view: View, free: _Places, mark: str, unit: Unit) -> tuple[SheetLabel | None, bool]:
    """The fullest label that a part has room for, and whether it is only its mark."""
    room = _box(view, part.x_mm, part.y_mm, part.across_mm, part.up_mm)
    size = size_on_drawing(part.across_mm, part.up_mm, unit=unit)
    for shifts in (_SHIFTS[:1], _SHIFTS):
        for lines in ((part.label, size), (*_wrapped(part.label), size)):
            label = _placed(lines, room, free, shifts=shifts)
            if label:
                return label, False
    short = f"{mark}{part.number}" if part.of > 1 else mark
    return _placed((short, size), room, free) or _placed((short,), room, free), True


def _wrapped(text: str) -> tuple[str, ...]:
    """A text on two lines, broken at the space nearest to its middle; on one line without a space."""
    spaces = [at for at, letter in enumerate(text) if letter == " "]
    if not spaces:
        return (text,)
    at = min(spaces, key=lambda space: abs(2 * space - len(text)))
    return text[:at], text[at + 1 :]


def _left_over_label(left: LeftOver, view: View, free: _Places, unit: Unit, off_cut: str) -> SheetLabel | None:
    room = _box(view, left.x_mm, left.y_mm, left.across_mm, left.up_mm)
    size = size_on_drawing(left.across_mm, left.up_mm, unit=unit)
    return _placed((off_cut, size), room, free) or _placed((size,), room, free)


def _placed(
    lines: tuple[str, ...], room: Area, free: _Places, *, shifts: Sequence[float] = _SHIFTS
) -> SheetLabel | None:
    """A label in a room, level or turned, near its middle, clear of other labels."""
    long_mm = max(text_across_mm(line) for line in lines) / 2 + CLEAR_MM
    high_mm = len(lines) * LINE_MM / 2 + CLEAR_MM / 2
    for is_turned in (False, True):
        half = (high_mm, long_mm) if is_turned else (long_mm, high_mm)
        for place in _places(room, half, shifts):
            box = _around(place, *half)
            if free.is_free(box):
                free.take(box)
                return SheetLabel(lines=lines, middle=place, is_turned=is_turned)
    return None


def _places(room: Area, half: tuple[float, float], shifts: Sequence[float]) -> Iterator[Point]:
    """The places for the middle of a label that keep all of it in the room."""
    across_mm, up_mm = room.across_mm - 2 * half[0], room.up_mm - 2 * half[1]
    if min(across_mm, up_mm) < 0:
        return
    middle = ((room.left_mm + room.right_mm) / 2, (room.top_mm + room.bottom_mm) / 2)
    for up in shifts:
        for across in shifts:
            yield middle[0] + across * across_mm, middle[1] + up * up_mm


def _marks(parts: Iterable[PlacedPart]) -> dict[tuple[str, float, float], str]:
    """A letter for each kind of part: a … z, aa, ab …"""
    kinds = dict.fromkeys(_kind(part) for part in parts)
    letters = chain(ascii_lowercase, (one + other for one in ascii_lowercase for other in ascii_lowercase))
    return dict(zip(kinds, letters, strict=False))


def _kind(part: PlacedPart) -> tuple[str, float, float]:
    size = (part.up_mm, part.across_mm) if part.is_turned else (part.across_mm, part.up_mm)
    return part.name, *size


def _legend(
    small: Sequence[PlacedPart],
    marks: dict[tuple[str, float, float], str],
    unnumbered: Sequence[SheetCut],
    unit: Unit,
    legend_mm: float,
) -> Iterator[str]:
    """The labels that the drawing has no room for: small parts by their marks, cuts without a number."""
    for kind, parts in groupby(sorted(small, key=lambda part: list(marks).index(_kind(part))), key=_kind):
        name, across_mm, up_mm = kind
        count, size = sum(1 for _ in parts), size_on_drawing(across_mm, up_mm, unit=unit)
        before, after = f"{marks[kind]}: {count} × ", f", {size}"
        room_mm = legend_mm - text_across_mm(before) - text_across_mm(after)
        yield f"{before}{shortened(name, to_mm=room_mm)}{after}"
    if unnumbered:
        words = f"Cuts without room for a number: {_runs([cut.number for cut in unnumbered])}".split()
        yield from _broken(words, legend_mm)


def _broken(words: Sequence[str], to_mm: float) -> Iterator[str]:
    """Words on as many lines as they need."""
    line = words[0]
    for word in words[1:]:
        if text_across_mm(f"{line} {word}") > to_mm:
            yield line
            line = word
        else:
            line = f"{line} {word}"
    yield line


def _runs(numbers: Sequence[int]) -> str:
    """Numbers, with runs as ranges.

    >>> _runs([1, 2, 3, 7, 9, 10])
    '1–3, 7, 9–10'
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)


def _box(view: View, x_mm: float, y_mm: float, across_mm: float, up_mm: float) -> Area:
    """A rectangle of the sheet as it lies on the drawing."""
    return Area(
        left_mm=view.x(x_mm),
        top_mm=view.y(y_mm + up_mm),
        right_mm=view.x(x_mm + across_mm),
        bottom_mm=view.y(y_mm),
    )


def _line_box(start: Point, end: Point) -> Area:
    """A line as a thin box; a tag keeps a little clear of it."""
    half_mm = CLEAR_MM / 2
    return Area(
        left_mm=min(start[0], end[0]) - half_mm,
        top_mm=min(start[1], end[1]) - half_mm,
        right_mm=max(start[0], end[0]) + half_mm,
        bottom_mm=max(start[1], end[1]) + half_mm,
    )


def _edges(box: Area) -> Iterator[Area]:
    corners = (
        (box.left_mm, box.top_mm),
        (box.right_mm, box.top_mm),
        (box.right_mm, box.bottom_mm),
        (box.left_mm, box.bottom_mm),
    )
    for number, corner in enumerate(corners):
        yield _line_box(corner, corners[(number + 1) % 4])


def _around(middle: Point, half_across_mm: float, half_up_mm: float) -> Area:
    return Area(
        left_mm=middle[0] - half_across_mm,
        top_mm=middle[1] - half_up_mm,
        right_mm=middle[0] + half_across_mm,
        bottom_mm=middle[1] + half_up_mm,
    )


def _between(start: Point, end: Point, ratio: float) -> Point:
    return start[0] + ratio * (end[0] - start[0]), start[1] + ratio * (end[1] - start[1])


def _overlap(one: Area, other: Area) -> bool:
    across_mm = min(one.right_mm, other.right_mm) - max(one.left_mm, other.left_mm)
    return across_mm > 0 and min(one.bottom_mm, other.bottom_mm) - max(one.top_mm, other.top_mm) > 0
