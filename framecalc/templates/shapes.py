"""The shapes of templates: a plate with windows, a polygon, a set-up block, a reference block, a story stick."""

from collections.abc import Iterable, Sequence
from itertools import accumulate
from math import radians, tan

from framecalc.errors import ImpossibleSize
from framecalc.geometry.outline import Arc, Line, Outline, Point, join, moved
from framecalc.limits import require_between, require_positive
from framecalc.records import Record
from framecalc.templates.template import (
    LETTER_ACROSS_RATIO,
    LETTER_MM,
    CutFrom,
    Side,
    Template,
    TemplateStep,
    Word,
    at_origin,
)
from framecalc.units import TOLERANCE_MM

FOOT_MM, BRIDGE_MM, OVER_MM = 22.0, 18.0, 22.0
"""A set-up block: how wide each of its feet is, how wide the arch between them, how much stands over the arch.

The arch straddles a table saw's blade or a router's bit, the feet stand clear of its opening. Common practice, no
source.
"""

APART_MM, IN_ROW = 8.0, 2
"""Between two parts of one template, and how many blocks stand in a row. Ours, no source."""

LEG_MM = 120.0
"""The long leg of a reference block: as long as the blade of a usual try square (common practice, no source)."""

HANGING_HOLE_MM = 8.0
"""The hole that a reference block hangs from. Ours, no source."""

HOLE_IN_RATIO, HOLE_RATIO, SAYS_ALONG_RATIO, SAYS_UP_RATIO, SAYS_RATIO = 0.22, 0.2, 0.55, 0.12, 0.1
"""A reference block: how far in its hole lies and how wide it is at most, how far along its long leg and how far up its
words begin, how high they are at most. Ours, no source."""

BESIDE_MM, FILLED_RATIO = 4.0, 0.8
"""What stays beside the name of a block; how much of a window its words may fill. Ours, no source."""

MARK_MM, ROW_MM, LEAST_ROWS, STICK_SPARE_MM = 14.0, LETTER_MM + 1, 4, 20.0
"""A story stick: how long its marks are above the words, the rows of words, how far it runs on after the last mark.
Ours, no source."""


class NamedLength(Record):
    """A length with its name, as it is written beside a mark or on a block."""

    label: str
    length_mm: float


def box(left_mm: float, bottom_mm: float, across_mm: float, up_mm: float) -> Outline:
    """An upright rectangle.

    Raises:
        OutOfRange: a side is not above zero.
    Source: derived.

    >>> len(box(0, 0, 4, 3).segments)
    4
    """
    require_positive(across_mm=across_mm, up_mm=up_mm)
    right_mm, top_mm = left_mm + across_mm, bottom_mm + up_mm
    return polygon([(left_mm, bottom_mm), (right_mm, bottom_mm), (right_mm, top_mm), (left_mm, top_mm)])


def polygon(corners: Sequence[Point]) -> Outline:
    """A polygon through corners given in either direction.

    Source: derived.

    >>> polygon([(0, 0), (0, 3), (4, 0)]).segments[0]
    Line(start=(4, 0), end=(0, 3))
    """
    twice_mm2 = sum(
        x * other_y - other_x * y
        for (x, y), (other_x, other_y) in zip(corners, (*corners[1:], corners[0]), strict=True)
    )
    points = list(corners) if twice_mm2 > 0 else list(reversed(corners))
    return Outline(segments=join([*points, points[0]]))


def disc(centre: Point, *, across_mm: float) -> Outline:
    """A circle, of two arcs.

    Raises:
        OutOfRange: it has no width.
    Source: derived.

    >>> len(disc((0, 0), across_mm=8).segments)
    2
    """
    require_positive(across_mm=across_mm)
    right, left = (centre[0] + across_mm / 2, centre[1]), (centre[0] - across_mm / 2, centre[1])
    halves = ((right, left), (left, right))
    return Outline(
        segments=tuple(
            Arc(start=start, end=end, centre=centre, radius_mm=across_mm / 2, turns_left=True) for start, end in halves
        )
    )


def set_up_blocks(measures: Iterable[NamedLength], *, name: str, title: str, purpose: str) -> Template:
    """Make a block for each measure: an arch as high as the measure, between two feet, its name engraved over it.

    On the saw table the arch gives the height of a blade or bit; against the fence, with the arch over a tooth, it
    gives the distance of the fence.

    Raises:
        OutOfRange: a measure is not above zero.
        ImpossibleSize: there is nothing to measure.
    Source: plane geometry.

    >>> blocks = set_up_blocks([NamedLength(label="lip 5 mm", length_mm=5)], name="blocks", title="Blocks", purpose="")
    >>> blocks.across_mm, blocks.up_mm, len(blocks.outlines[0].segments)
    (62.0, 27.0, 8)
    """
    listed = tuple(measures)
    if not listed:
        raise ImpossibleSize("Enter a measure for the set-up blocks.")
    places = _in_rows(listed)
    return at_origin(
        Template(
            name=name,
            title=title,
            purpose=purpose,
            side=Side.EITHER,
            step=TemplateStep.MILL,
            outlines=tuple(map(_arch, listed, places)),
            words=tuple(map(_on_block, listed, places)),
        )
    )


def reference_block(mitre_deg: float, *, title: str, purpose: str, says: str) -> Template:
    """Make a right-angled block whose sharp corner is the mitre angle, with a hole to hang it from.

    ``short leg = long leg · tan M``

    Args:
        mitre_deg: from a square cut [degrees], 1 to 80.
    Raises:
        OutOfRange: no such block can be held.
    Source: plane geometry.

    >>> block = reference_block(45, title="Block", purpose="", says="45°")
    >>> round(block.across_mm, 3), round(block.up_mm, 3)
    (120.0, 120.0)
    """
    require_between(1, 80, mitre_deg=mitre_deg)
    short_mm = LEG_MM * tan(radians(mitre_deg))
    side_mm = min(LEG_MM, short_mm)
    centre = (LEG_MM - HOLE_IN_RATIO * side_mm, HOLE_IN_RATIO * side_mm)
    hole_mm = min(HANGING_HOLE_MM, HOLE_RATIO * side_mm)
    return Template(
        name="reference-block",
        title=title,
        purpose=purpose,
        side=Side.EITHER,
        step=TemplateStep.CUT,
        outlines=(polygon([(0, 0), (LEG_MM, 0), (LEG_MM, short_mm)]),),
        holes=(disc(centre, across_mm=hole_mm),),
        words=(
            Word(
                text=says,
                at=(SAYS_ALONG_RATIO * LEG_MM, SAYS_UP_RATIO * side_mm),
                letter_mm=min(LETTER_MM, SAYS_RATIO * side_mm),
            ),
        ),
    )


def story_stick(measures: Iterable[NamedLength], *, title: str, purpose: str) -> Template:
    """Make a stick with a mark at each length, counted from its left end; equal lengths share a mark.

    Names stand in rows, so that near marks can be told apart.

    Raises:
        OutOfRange: a length is not above zero.
        ImpossibleSize: there is no length.
    Source: plane geometry.

    >>> measures = [NamedLength(label=label, length_mm=300) for label in ("a", "b")]
    >>> stick = story_stick(measures, title="", purpose="")
    >>> stick.across_mm, [word.text for word in stick.words], len(stick.marks)
    (320.0, ['a, b'], 1)
    """
    listed = _merged(sorted(measures, key=lambda measure: measure.length_mm))
    if not listed:
        raise ImpossibleSize("Enter a length for the story stick.")
    require_positive(length_mm=listed[0].length_mm)
    rows = _rows(listed)
    up_mm = MARK_MM + ROW_MM * max(LEAST_ROWS, 1 + max(rows))
    at_mm = [up_mm - MARK_MM - LETTER_MM - row * ROW_MM for row in rows]
    words = [_beside(measure, at_mm=up) for measure, up in zip(listed, at_mm, strict=True)]
    ends_mm = max(listed[-1].length_mm + STICK_SPARE_MM, *(word.at[0] + word.across_mm for word in words))
    return Template(
        name="story-stick",
        title=title,
        purpose=purpose,
        side=Side.FACE,
        step=TemplateStep.CUT,
        outlines=(box(0, 0, ends_mm, up_mm),),
        marks=tuple(
            Line(start=(measure.length_mm, up_mm), end=(measure.length_mm, up))
            for measure, up in zip(listed, at_mm, strict=True)
        ),
        words=tuple(words),
    )


def plate(
    corners: Sequence[Point],
    *,
    windows: Iterable[Sequence[Point]] = (),
    says: Iterable[str] = (),
    name: str,
    title: str,
    purpose: str,
    side: Side,
    step: TemplateStep,
    cut_from: CutFrom = CutFrom.GAUGES,
    no_laser: str = "",
) -> Template:
    """Make a plate through corners, with windows in it.

    Args:
        windows: the corners of each, from where the others are counted.
        says: what is written in each window, on what falls out of it.
    Raises:
        ImpossibleSize: a window reaches the edge.
    Source: plane geometry.

    >>> corners = [(0, 0), (4, 0), (4, 3), (0, 3)]
    >>> plate(corners, name="back", title="Back", purpose="", side=Side.EITHER, step=TemplateStep.SHEET).across_mm
    4
    """
    opened = tuple(windows)
    return at_origin(
        Template(
            name=name,
            title=title,
            purpose=purpose,
            side=side,
            step=step,
            outlines=(polygon(corners),),
            holes=tuple(map(polygon, opened)),
            words=tuple(_in_window(window, text) for window, text in zip(opened, says, strict=False)),
            cut_from=cut_from,
            no_laser=no_laser,
        )
    )


def _in_window(corners: Sequence[Point], text: str) -> Word:
    """Words in the middle of a window, as large as it has room for."""
    across, up = [x for x, _ in corners], [y for _, y in corners]
    letter_mm = min(LETTER_MM, FILLED_RATIO * (max(across) - min(across)) / (LETTER_ACROSS_RATIO * max(len(text), 1)))
    half_mm = len(text) * letter_mm * LETTER_ACROSS_RATIO / 2
    at = ((max(across) + min(across)) / 2 - half_mm, (max(up) + min(up)) / 2)
    return Word(text=text, at=at, letter_mm=letter_mm)


def _beside(measure: NamedLength, *, at_mm: float) -> Word:
    return Word(text=measure.label, at=(measure.length_mm + 1, at_mm))


def _rows(measures: Sequence[NamedLength]) -> list[int]:
    """A row for each name: below those of all marks that come down into it, so that no mark crosses a name."""
    rows: list[int] = []
    for place, measure in reversed(list(enumerate(measures))):
        word = _beside(measure, at_mm=0)
        after = zip(measures[place + 1 :], rows, strict=True)
        meets = (row for other, row in after if other.length_mm <= word.at[0] + word.across_mm)
        rows.insert(0, max(meets, default=-1) + 1)
    return rows


def _in_rows(measures: Sequence[NamedLength]) -> list[Point]:
    """The lower left corner of each block: two in a row, so that a leaf takes them; the first stands lowest."""
    step_mm, places, low_mm = 2 * FOOT_MM + BRIDGE_MM + APART_MM, list[Point](), 0.0
    for row in range(0, len(measures), IN_ROW):
        blocks = measures[row : row + IN_ROW]
        places += [(number * step_mm, low_mm) for number in range(len(blocks))]
        low_mm += max(block.length_mm for block in blocks) + OVER_MM + APART_MM
    return places


def _on_block(measure: NamedLength, lower_left: Point) -> Word:
    """The name of a block, over its arch, as large as it has room for."""
    room_mm = 2 * FOOT_MM + BRIDGE_MM - 2 * BESIDE_MM
    letter_mm = min(LETTER_MM, room_mm / (LETTER_ACROSS_RATIO * max(len(measure.label), 1)))
    return Word(
        text=measure.label,
        at=(lower_left[0] + BESIDE_MM, lower_left[1] + measure.length_mm + OVER_MM - 3 - LETTER_MM),
        letter_mm=letter_mm,
    )


def _arch(measure: NamedLength, lower_left: Point) -> Outline:
    require_positive(length_mm=measure.length_mm)
    widths_mm = list(accumulate((FOOT_MM, BRIDGE_MM, FOOT_MM)))
    first, second, across = widths_mm
    arch, top = measure.length_mm, measure.length_mm + OVER_MM
    corners = [(0.0, 0.0), (first, 0), (first, arch), (second, arch), (second, 0), (across, 0), (across, top), (0, top)]
    return Outline(segments=moved(polygon(corners).segments, by=lower_left))


def _merged(measures: Sequence[NamedLength]) -> list[NamedLength]:
    """Measures with equal lengths made one, their names beside each other, each name once."""
    merged: list[tuple[float, list[str]]] = []
    for measure in measures:
        if not merged or measure.length_mm - merged[-1][0] > TOLERANCE_MM:
            merged.append((measure.length_mm, []))
        merged[-1][1].append(measure.label)
    return [NamedLength(label=", ".join(dict.fromkeys(names)), length_mm=length_mm) for length_mm, names in merged]
