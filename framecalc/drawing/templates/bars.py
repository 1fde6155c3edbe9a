"""The bars of a leaf, both ways, with what it says of itself; they lie where the template leaves most room.

A wrong scale shows without a rule too: a bank card is laid on its line, and ends at a mark.
"""

from collections.abc import Sequence
from itertools import chain
from textwrap import wrap

from framecalc.drawing.templates.leaf import Leaf
from framecalc.drawing.templates.tiles import BARS_ROOM_MM, Paper
from framecalc.geometry.outline import Point
from framecalc.units import MM_PER_INCH, TOLERANCE_MM

NOTE_STEP_MM, LETTERS_A_LINE = 4.2, 62
"""From line to line of what a leaf says of itself, and how long a line is."""

BARS_MM = ((100.0, "100 mm"), (4 * float(MM_PER_INCH), "4 in"))
FROM_CUT_MM, TICK_MM, STEP_MM = 5.0, 1.5, 8.0

CARD_MM = 85.6
"""How long a bank card is. Source: ISO/IEC 7810, size ID-1, from memory, not re-read."""

WRONG_SCALES = ((1.0, "100%"), (0.97, "97%"), (0.94, "94%"))
"""Where a card ends on a leaf that was printed so: 94% is an A4 fitted to Letter, 97% one fitted to its margins."""

WORDS_MM, MAP_MM = 22.0, 68.0
"""Where the words and the map of the leaves stand, above the corner of the bars; many words lift the map."""


def clear_corner(paper: Paper, lines: Sequence[tuple[Point, Point]]) -> Point:
    """Find where the bars start: inside what is kept of every leaf, and across as few lines as can be.

    Args:
        lines: what is drawn on the leaf.
    """
    kept_mm = paper.margin_mm + paper.overlap_mm / 2
    spare = (room_mm - paper.overlap_mm - BARS_ROOM_MM for room_mm in (paper.room_across_mm, paper.room_up_mm))
    across, up = ([kept_mm + FROM_CUT_MM + STEP_MM * step for step in range(1 + int(one / STEP_MM))] for one in spare)
    corners = [(x, y) for y in up for x in across]
    clear = (corner for corner in corners if not any(_meets(corner, *line) for line in lines))
    return next(clear, None) or min(corners, key=lambda corner: sum(_meets(corner, *line) for line in lines))


def draw_bars(leaf: Leaf, corner: Point, says: Sequence[str]) -> float:
    """Bars across and up, each with a tick at both ends, and the words of the leaf between them.

    Returns:
        How far above the corner there is room for a map, over the words.
    """
    x, y = corner
    _draw_card(leaf, (x + 10, y + 10))
    for number, (length_mm, label) in enumerate(BARS_MM):
        level, upright = y + 5 * number, x + 5 * number
        _bar(leaf, (x + 10, level), (x + 10 + length_mm, level))
        _bar(leaf, (upright, y + 10), (upright, y + 10 + length_mm))
        leaf.text(label, (x + 12, level + 0.8))
        leaf.text(label, (upright + 0.6, y + 12 + length_mm - 5 * number), size_mm=2)
    lines = list(chain.from_iterable(wrap(line, LETTERS_A_LINE) for line in says))
    for number, line in enumerate(lines):
        leaf.text(line, (x + 12, y + WORDS_MM + NOTE_STEP_MM * (len(lines) - number)))
    return max(MAP_MM, WORDS_MM + NOTE_STEP_MM * (len(lines) + 1))


def _meets(corner: Point, start: Point, end: Point) -> bool:
    """Whether a line meets the rectangle of the bars: whether it is within both pairs of sides at once."""
    first, last = 0.0, 1.0
    for axis in (0, 1):
        low_mm, high_mm = corner[axis] - 2, corner[axis] + BARS_ROOM_MM - FROM_CUT_MM
        along_mm = end[axis] - start[axis]
        if abs(along_mm) <= TOLERANCE_MM:
            if not low_mm < start[axis] < high_mm:
                return False
        else:
            enters, leaves = sorted((side_mm - start[axis]) / along_mm for side_mm in (low_mm, high_mm))
            first, last = max(first, enters), min(last, leaves)
    return first < last


def _draw_card(leaf: Leaf, start: Point) -> None:
    """A line to lay a bank card on: its far edge meets the first mark, or tells how small the leaf came out."""
    x, y = start
    leaf.line((x, y), (x + CARD_MM / WRONG_SCALES[-1][0], y))
    leaf.line((x, y - TICK_MM), (x, y + TICK_MM))
    for number, (ratio, label) in enumerate(WRONG_SCALES):
        at, top = x + CARD_MM / ratio, y + TICK_MM + 2.6 * (len(WRONG_SCALES) - 1 - number)
        leaf.line((at, y - TICK_MM), (at, top))
        leaf.text(label, (at + 0.6, top - 1.2), size_mm=2)
    leaf.text("Lay a bank card from the left mark: it ends at 100%.", (x + 2, y + 2.4), size_mm=2.4)


def _bar(leaf: Leaf, start: Point, end: Point) -> None:
    leaf.line(start, end)
    for x, y in (start, end):
        across, up = (0.0, TICK_MM) if start[1] == end[1] else (TICK_MM, 0.0)
        leaf.line((x - across, y - up), (x + across, y + up))
