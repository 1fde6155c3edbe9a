"""One cut on a sheet: a stick, or a board from edge to edge, with its strips, pieces, defects and saw cuts.

Lengths and widths have a scale each, since a stick is a hundred times as long as it is wide. Crossed out is what is
avoided; grey is lost; pale is left over; a dashed line is cut across before the board is milled.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, rectangle, run
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, Role
from framecalc.drawing.timber.cuts import DrawnCut, DrawnPiece, DrawnStrip
from framecalc.geometry.outline import Point
from framecalc.timber.sticks.problem import Stretch

PAD_MM = 1.0
"""Room between a letter and what stands beside it."""

MARKS_FROM = 0.3
"""The share of a piece's length that its chalk marks leave free for its number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutView:
    """The place and scales of a cut on the sheet; `with_words` writes the names of the pieces instead of marks."""

    left_mm: float
    top_mm: float
    along: float
    across: float
    with_words: bool = False

    def x(self, at_mm: float) -> float:
        """A place along the stick, on the sheet."""
        return self.left_mm + at_mm * self.along

    def y(self, at_mm: float) -> float:
        """A place across it, from its first edge, on the sheet."""
        return self.top_mm + at_mm * self.across

    def box(self, start_mm: float, end_mm: float, from_mm: float, to_mm: float) -> str:
        """Path data of a part of the cut."""
        return rectangle(self.x(start_mm), self.y(from_mm), self.x(end_mm), self.y(to_mm))


def draw_cut(pen: Pen, cut: DrawnCut, view: CutView) -> None:
    """Draw a stick or a board with everything on it, but without its title."""
    pen.area(view.box(0, cut.length_mm, 0, cut.width_mm), Role.SHADOW)
    at_mm = cut.edge_mm
    for strip in cut.strips:
        _draw_strip(pen, strip, cut, view, at_mm)
        at_mm += cut.strip_mm + cut.kerf_mm
    if cut.rest_mm * view.across > 0.4:
        pen.area(view.box(0, cut.length_mm, at_mm, at_mm + cut.rest_mm), Role.MAT)
    for defect in cut.defects:
        _draw_defect(pen, defect, cut, view)
    for crosscut in cut.crosscuts:
        middle = view.x((crosscut.start_mm + crosscut.end_mm) / 2)
        pen.line(run([(middle, view.y(0)), (middle, view.y(cut.width_mm) + 1.2)]), Role.HIDDEN)
    pen.line(view.box(0, cut.length_mm, 0, cut.width_mm), Role.OUTLINE)


def _draw_strip(pen: Pen, strip: DrawnStrip, cut: DrawnCut, view: CutView, at_mm: float) -> None:
    to_mm = at_mm + cut.strip_mm
    for left in strip.left:
        pen.area(view.box(left.start_mm, left.end_mm, at_mm, to_mm), Role.MAT)
        pen.line(run([(view.x(left.start_mm), view.y(at_mm)), (view.x(left.start_mm), view.y(to_mm))]), Role.HIDDEN)
    base_mm = (view.y(at_mm) + view.y(to_mm) + LETTER_MM * CAPITAL_RATIO) / 2
    written_to = view.left_mm
    for piece in strip.pieces:
        _draw_piece(pen, piece, cut, view, at_mm)
        text, centre = _word(piece, cut, view)
        half_mm = text_across_mm(text, bold=not view.with_words) / 2
        if centre - half_mm >= written_to:
            pen.text(text, (centre, base_mm), anchor="middle", role=Role.LETTER if view.with_words else Role.STRONG)
            written_to = centre + half_mm
    if cut.edge_mm or cut.kerf_mm:
        pen.line(view.box(0, cut.length_mm, at_mm, to_mm), Role.EDGE)


def _draw_piece(pen: Pen, piece: DrawnPiece, cut: DrawnCut, view: CutView, at_mm: float) -> None:
    """A member lies with its long edge at the first edge of the strip, or at the other when it is turned."""
    left, right = view.x(piece.start_mm), view.x(piece.end_mm)
    slant = min(cut.slope_mm * view.along, (right - left) / 2)
    long, short = view.y(at_mm), view.y(at_mm + cut.strip_mm)
    if piece.turned:
        long, short = short, long
    shape = run([(left, long), (right, long), (right - slant, short), (left + slant, short)], closed=True)
    pen.area(shape, Role.WOOD)
    pen.line(shape, Role.EDGE)
    for mark in _marks(piece) if _has_marks(piece, cut, view) else ():
        pen.line(run([(left + u * (right - left), long + v * (short - long)) for u, v in mark]), Role.GIVEN)


def _word(piece: DrawnPiece, cut: DrawnCut, view: CutView) -> tuple[str, float]:
    """The text on a piece and its middle: beside the chalk marks, if there are any.

    If pieces are so short that their numbers would touch, every other number is left out.
    """
    text = piece.words if view.with_words and words_fit(cut, along=view.along) else str(piece.number)
    left, right = view.x(piece.start_mm), view.x(piece.end_mm)
    if not _has_marks(piece, cut, view):
        return text, (left + right) / 2
    slant = min(cut.slope_mm * view.along, (right - left) / 2)
    return text, left + (slant / 2 + MARKS_FROM * (right - left)) / 2


def _has_marks(piece: DrawnPiece, cut: DrawnCut, view: CutView) -> bool:
    """Whether the number leaves room for chalk marks; on paper words stand in their place."""
    free = MARKS_FROM * (piece.end_mm - piece.start_mm) * view.along - cut.slope_mm * view.along / 2
    wanted = text_across_mm(str(piece.number), bold=True) + PAD_MM
    return bool(piece.marks) and not view.with_words and wanted <= free


@lru_cache(maxsize=256)
def words_fit(cut: DrawnCut, *, along: float) -> bool:
    """Whether every piece has room for its words; else all are numbered.

    Source: derived.
    """
    pieces = [piece for strip in cut.strips for piece in strip.pieces]
    rooms = ((piece.end_mm - piece.start_mm - 2 * cut.slope_mm) * along - 2 * PAD_MM for piece in pieces)
    return all(text_across_mm(piece.words) <= room for piece, room in zip(pieces, rooms, strict=True))


def _draw_defect(pen: Pen, defect: Stretch, cut: DrawnCut, view: CutView) -> None:
    """Draw a crossed box: nothing is cut from here."""
    left, right = view.x(defect.start_mm), view.x(defect.end_mm)
    top, bottom = view.y(0), view.y(cut.width_mm)
    pen.area(rectangle(left, top, right, bottom), Role.COVERED)
    pen.line(rectangle(left, top, right, bottom), Role.EDGE)
    pen.line(run([(left, top), (right, bottom)]) + run([(left, bottom), (right, top)]), Role.EDGE)


def _marks(piece: DrawnPiece) -> Iterator[tuple[Point, ...]]:
    """The chalk marks of a piece as it lies: along from its left tip, and down from its long edge, both 0 to 1."""
    for mark in piece.marks:
        yield tuple(_as_it_lies(piece.side, point, turned=piece.turned) for point in mark)


def _as_it_lies(side: str, point: Point, *, turned: bool) -> Point:
    """Turn a point of the hung frame so that the outer edge of its side is on top, the way it lies on the stick."""
    u, v = point
    along, down = {"top": (u, 1 - v), "bottom": (1 - u, v), "left": (v, u), "right": (1 - v, 1 - u)}[side]
    return (1 - along if turned else along), down
