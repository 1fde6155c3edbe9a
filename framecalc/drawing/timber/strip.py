"""One cut on a sheet: a stick, or a board from edge to edge, with its strips, pieces, defects and saw cuts.

Lengths and widths have a scale each, since a stick is a hundred times as long as it is wide. Hatched is what is
avoided; grey is lost; pale is left over; a dashed line is cut across before the board is milled. No other line lies
across a piece, so that nothing is taken for a cut.
"""

from collections.abc import Iterator
from functools import lru_cache

from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, rectangle, run
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, Role
from framecalc.drawing.timber.cuts import DrawnCut, DrawnPiece, DrawnStrip
from framecalc.geometry.outline import Point
from framecalc.records import Record
from framecalc.timber.sticks.problem import Stretch

PAD_MM = 1.0
"""Room between a letter and what stands beside it."""

HATCH_MM = 1.6
"""How far apart the lines of a hatch stand, along the sheet."""


class CutView(Record):
    """The place and scales of a cut on the sheet; `is_upright`: its left end is on top, as on a phone."""

    left_mm: float
    top_mm: float
    along: float
    across: float
    is_upright: bool = False

    def x(self, at_mm: float) -> float:
        """A place along the stick, on the sheet."""
        return self.left_mm + at_mm * self.along

    def y(self, at_mm: float) -> float:
        """A place across it, from its first edge, on the sheet."""
        return self.top_mm + at_mm * self.across

    def at(self, along_mm: float, across_mm: float) -> Point:
        """A point of the cut, on the sheet."""
        if self.is_upright:
            return self.left_mm + across_mm * self.across, self.top_mm + along_mm * self.along
        return self.x(along_mm), self.y(across_mm)

    def box(self, start_mm: float, end_mm: float, from_mm: float, to_mm: float) -> str:
        """Path data of a part of the cut."""
        return rectangle(*self.at(start_mm, from_mm), *self.at(end_mm, to_mm))


def draw_cut(pen: Pen, cut: DrawnCut, view: CutView) -> None:
    """Draw a stick or a board with everything on it, but without its title and its letters."""
    pen.area(view.box(0, cut.length_mm, 0, cut.width_mm), Role.SHADOW)
    for strip, at_mm in places_of(cut):
        _draw_strip(pen, strip, cut, view, at_mm)
    if cut.rest_mm * view.across > 0.4:
        pen.area(view.box(0, cut.length_mm, rest_from_mm(cut), rest_from_mm(cut) + cut.rest_mm), Role.MAT)
    for defect in cut.defects:
        _draw_defect(pen, defect, cut, view)
    for crosscut in cut.crosscuts:
        middle_mm = (crosscut.start_mm + crosscut.end_mm) / 2
        pen.line(run([view.at(middle_mm, 0), view.at(middle_mm, cut.width_mm + 1.2 / view.across)]), Role.HIDDEN)
    pen.line(view.box(0, cut.length_mm, 0, cut.width_mm), Role.OUTLINE)


def places_of(cut: DrawnCut) -> Iterator[tuple[DrawnStrip, float]]:
    """Each strip, and where it begins across the board."""
    at_mm = cut.edge_mm
    for strip in cut.strips:
        yield strip, at_mm
        at_mm += cut.strip_mm + cut.kerf_mm


def rest_from_mm(cut: DrawnCut) -> float:
    """Where the rest of the width begins, beyond the strips."""
    return cut.edge_mm + len(cut.strips) * (cut.strip_mm + cut.kerf_mm)


def letter_on_paper(pen: Pen, cut: DrawnCut, view: CutView) -> None:
    """Write on each piece its words, where all of them have room; else its number, for the key.

    If pieces are so short that their numbers would touch, every other number is left out.
    """
    fits = words_fit(cut, along=view.along)
    for strip, at_mm in places_of(cut):
        written_to = view.left_mm
        base_mm = view.y(at_mm + cut.strip_mm / 2) + LETTER_MM * CAPITAL_RATIO / 2
        for piece in strip.pieces:
            text, centre = piece.words if fits else str(piece.number), view.x((piece.start_mm + piece.end_mm) / 2)
            half_mm = text_across_mm(text) / 2
            if centre - half_mm >= written_to:
                pen.text(text, (centre, base_mm), anchor="middle")
                written_to = centre + half_mm


def _draw_strip(pen: Pen, strip: DrawnStrip, cut: DrawnCut, view: CutView, at_mm: float) -> None:
    to_mm = at_mm + cut.strip_mm
    for left in strip.left:
        pen.area(view.box(left.start_mm, left.end_mm, at_mm, to_mm), Role.MAT)
    for piece in strip.pieces:
        _draw_piece(pen, piece, cut, view, at_mm)
    if cut.edge_mm or cut.kerf_mm:
        pen.line(view.box(0, cut.length_mm, at_mm, to_mm), Role.EDGE)


def _draw_piece(pen: Pen, piece: DrawnPiece, cut: DrawnCut, view: CutView, at_mm: float) -> None:
    """A member lies with its long edge at the first edge of the strip, or at the other when it is turned."""
    start, end = piece.start_mm, piece.end_mm
    slant = min(cut.slope_mm, (end - start) / 2)
    long, short = at_mm, at_mm + cut.strip_mm
    if piece.turned:
        long, short = short, long
    corners = ((start, long), (end, long), (end - slant, short), (start + slant, short))
    shape = run([view.at(*corner) for corner in corners], closed=True)
    pen.area(shape, Role.WOOD)
    pen.line(shape, Role.EDGE)


@lru_cache(maxsize=256)
def words_fit(cut: DrawnCut, *, along: float) -> bool:
    """Whether every piece has room for its words; else all are numbered.

    Source: derived.
    """
    pieces = [piece for strip in cut.strips for piece in strip.pieces]
    rooms = ((piece.end_mm - piece.start_mm - 2 * cut.slope_mm) * along - 2 * PAD_MM for piece in pieces)
    return all(text_across_mm(piece.words) <= room for piece, room in zip(pieces, rooms, strict=True))


def _draw_defect(pen: Pen, defect: Stretch, cut: DrawnCut, view: CutView) -> None:
    """Hatch a stretch from edge to edge: nothing is cut from here."""
    box = view.box(defect.start_mm, defect.end_mm, 0, cut.width_mm)
    (left, top), (right, bottom) = view.at(defect.start_mm, 0), view.at(defect.end_mm, cut.width_mm)
    pen.area(box, Role.MAT)
    for line in _hatch(left, top, right, bottom):
        pen.line(run(line), Role.DEFECT)
    pen.line(box, Role.DEFECT)


def _hatch(left: float, top: float, right: float, bottom: float) -> Iterator[tuple[Point, Point]]:
    """Lines that rise to the right at half a right angle, within a rectangle of the sheet.

    >>> [len(line) for line in _hatch(0, 0, 2, 2)]
    [2, 2]
    """
    count = int((right - left + bottom - top) / HATCH_MM)
    for offset in (HATCH_MM * number for number in range(1, count + 1)):
        low = (left + max(0.0, offset - (bottom - top)), min(bottom, top + offset))
        high = (min(right, left + offset), top + max(0.0, offset - (right - left)))
        yield low, high
