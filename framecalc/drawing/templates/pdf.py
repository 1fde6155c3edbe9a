"""A template as a PDF of true size, leaf by leaf, that hangs on no print dialogue's idea of a page.

Every place goes through the correction for the printer, if it has been checked; an arc becomes curves within a ten
thousandth of its radius. Each leaf carries its name, a map, and bars of 100 mm and 4 in both ways inside what is kept.
"""

from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime, time
from itertools import pairwise
from math import atan2, ceil, cos, pi, sin, tan
from typing import TYPE_CHECKING
from unicodedata import normalize

from framecalc.drawing.templates.tiles import Paper, Tile, Tiling, tile_name, tiling_of
from framecalc.errors import FrameCalcError
from framecalc.geometry.outline import Arc, Outline, Point, Segment, moved, sweep_rad
from framecalc.plan.templates import TemplateStamp
from framecalc.templates.printer import CHECK_MM, TRUE, Correction
from framecalc.templates.template import LETTER_ACROSS_RATIO, Template, Word
from framecalc.units import MM_PER_INCH

if TYPE_CHECKING:
    from fpdf import FPDF

LINE_MM, FAINT_MM = 0.2, 0.1
POINTS_PER_MM = 72 / 25.4
NOTE_MM, NOTE_STEP_MM = 3.0, 4.2
"""Type size of what a leaf says of itself, and from line to line."""

BARS_MM = ((100.0, "100 mm"), (4 * float(MM_PER_INCH), "4 in"))
FROM_CUT_MM, CROSS_MM, TICK_MM, CELL_MM = 5.0, 3.0, 1.5, 3.5
CHECKED = "Printed for a checked printer: true. The bars must still measure."
UNCHECKED = "Unchecked: measure the bars. If one is off, print at 100 %, actual size."


class _Leaf:
    """One leaf that is being drawn: it places millimetres from its lower left corner, through the correction."""

    def __init__(self, document: "FPDF", paper: Paper, correction: Correction) -> None:
        self._document, self._paper, self._correction = document, paper, correction
        self._about = (paper.across_mm / 2, paper.up_mm / 2)
        document.add_page(format=(paper.across_mm, paper.up_mm))

    def line(self, start: Point, end: Point, *, width_mm: float = LINE_MM, dashed: bool = False) -> None:
        """Draw a straight line."""
        self._document.set_line_width(width_mm)
        if dashed:
            self._document.set_dash_pattern(dash=3, gap=2)
        self._document.line(*self._at(start), *self._at(end))
        self._document.set_dash_pattern()

    def outline(self, segments: Iterable[Segment]) -> None:
        """Draw an outline: its straight lines, and its arcs as curves."""
        for segment in segments:
            if isinstance(segment, Arc):
                for curve in _curves(segment):
                    self._curve(curve)
            else:
                self.line(segment.start, segment.end)

    def text(self, text: str, at: Point, *, size_mm: float = NOTE_MM) -> None:
        """Write letters; those that the plain font of every reader lacks become plain ones."""
        self._document.set_font_size(size_mm * POINTS_PER_MM)
        self._document.text(*self._at(at), plain_text(text))

    def note(self, text: str, at: Point) -> None:
        """Write what a leaf says of itself, as far as it has room."""
        room_mm = self._paper.across_mm - self._paper.margin_mm - self._paper.overlap_mm - at[0]
        most = int(room_mm / (NOTE_MM * LETTER_ACROSS_RATIO))
        self.text(text if len(text) <= most else text[: most - 1] + "...", at)

    def fill(self, lower_left: Point, upper_right: Point) -> None:
        """Fill an upright rectangle."""
        (left, top), (right, bottom) = (
            self._at((lower_left[0], upper_right[1])),
            self._at((upper_right[0], lower_left[1])),
        )
        self._document.rect(left, top, right - left, bottom - top, style="F")

    def _curve(self, points: Sequence[Point]) -> None:
        start, one, other, end = (self._at(point) for point in points)
        self._document.set_line_width(LINE_MM)
        self._document.bezier([start, one, other, end])

    def _at(self, point: Point) -> Point:
        x, y = self._correction.at(point, about=self._about)
        return x, self._paper.up_mm - y


def template_pdf(
    template: Template, *, stamp: TemplateStamp, paper: Paper, correction: Correction | None = None
) -> bytes:
    """Write a template as a PDF, on as many leaves as it takes.

    Args:
        correction: what makes up for the printer; None where it has not been checked.
    Raises:
        ImpossibleSize: it would take more leaves than anybody puts together.
    """
    tiling = tiling_of(template.across_mm, template.up_mm, paper=paper)
    document = _document(template.title, stamp)
    for tile in tiling.tiles:
        leaf = _Leaf(document, paper, correction or TRUE)
        with document.rect_clip(x=paper.margin_mm, y=paper.margin_mm, w=paper.room_across_mm, h=paper.room_up_mm):
            _draw(template, tiling, tile, leaf)
        _draw_joining(tiling, tile, leaf)
        says = (*_says(template, stamp), CHECKED if correction else UNCHECKED)
        _draw_bars(leaf, _corner(paper), says)
        _draw_map(tiling, tile, leaf)
    return bytes(document.output())


def printer_leaf_pdf(paper: Paper, *, correction: Correction | None = None) -> bytes:
    """Write the leaf by which a printer is checked: a square with its diagonals, and the bars.

    Raises:
        FrameCalcError: the square does not lie between the margins.
    """
    if min(paper.room_across_mm, paper.room_up_mm) < CHECK_MM:
        raise FrameCalcError("Too small for the square: choose A4 or Letter.", field="paper")
    document = _document("Printer check", TemplateStamp(project="", frame="", revision="", date=""))
    leaf = _Leaf(document, paper, correction or TRUE)
    left, top = (paper.across_mm - CHECK_MM) / 2, paper.up_mm - paper.margin_mm - 2
    corners = [(left, top - CHECK_MM), (left + CHECK_MM, top - CHECK_MM), (left + CHECK_MM, top), (left, top)]
    for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
        leaf.line(start, end)
    leaf.line(corners[0], corners[2], width_mm=FAINT_MM)
    leaf.line(corners[3], corners[1], width_mm=FAINT_MM)
    corrected = "Corrected: it must measure." if correction else "If it is off, print at 100 %, actual size."
    square = f"Square: {CHECK_MM:g} mm each side, diagonals {CHECK_MM * 2**0.5:.1f} mm."
    says = ("Printer check", square, corrected)
    _draw_bars(leaf, _corner(paper), says)
    return bytes(document.output())


def plain_text(text: str) -> str:
    """Text in the letters that the plain font of every PDF reader has.

    >>> plain_text("café, 3 × 4 in −0.2 mm, “Łódź”, 絵")
    'café, 3 × 4 in -0.2 mm, "?ódz", ?'
    """
    for ours, plain in (("−", "-"), ("“", '"'), ("”", '"'), ("″", '"'), ("′", "'"), ("’", "'")):
        text = text.replace(ours, plain)
    return "".join(_letter(letter) for letter in text)


def _letter(letter: str) -> str:
    try:
        return letter.encode("latin-1").decode("latin-1")
    except UnicodeEncodeError:
        return normalize("NFKD", letter).encode("ascii", "ignore").decode() or "?"


def _document(title: str, stamp: TemplateStamp) -> "FPDF":
    from fpdf import FPDF

    document = FPDF(unit="mm")
    document.set_auto_page_break(False)
    document.set_title(plain_text(title))
    day = date.fromisoformat(stamp.date) if stamp.date[:1].isdigit() else date(2000, 1, 1)
    document.set_creation_date(datetime.combine(day, time(), UTC))
    document.set_font("Helvetica")
    return document


def _draw(template: Template, tiling: Tiling, tile: Tile, leaf: _Leaf) -> None:
    """The template itself, moved to where it lies on the leaf."""
    for outline in (*template.holes, *template.outlines, *template.zones):
        leaf.outline(_moved(outline, tiling, tile))
    for mark in template.marks:
        leaf.line(tiling.on_leaf(tile, mark.start), tiling.on_leaf(tile, mark.end))
    for word in template.words:
        _write(word, tiling, tile, leaf)


def _moved(outline: Outline, tiling: Tiling, tile: Tile) -> tuple[Segment, ...]:
    return moved(outline.segments, by=tiling.on_leaf(tile, (0.0, 0.0)))


def _write(word: Word, tiling: Tiling, tile: Tile, leaf: _Leaf) -> None:
    leaf.text(word.text, tiling.on_leaf(tile, word.at), size_mm=word.letter_mm)


def _draw_joining(tiling: Tiling, tile: Tile, leaf: _Leaf) -> None:
    """Cut lines, and the crosses by which leaves are laid on each other."""
    paper, right, below = tiling.paper, tiling.cut_right_mm(tile), tiling.cut_below_mm(tile)
    if right is not None:
        leaf.line((right, paper.margin_mm), (right, paper.up_mm - paper.margin_mm), width_mm=FAINT_MM, dashed=True)
    if below is not None:
        leaf.line((paper.margin_mm, below), (paper.across_mm - paper.margin_mm, below), width_mm=FAINT_MM, dashed=True)
    for x, y in tiling.crosses(tile):
        leaf.line((x - CROSS_MM, y), (x + CROSS_MM, y))
        leaf.line((x, y - CROSS_MM), (x, y + CROSS_MM))


def _says(template: Template, stamp: TemplateStamp) -> tuple[str, ...]:
    return (
        f"{template.title}: {template.side.value}",
        f"{stamp.project}, {stamp.frame}, {stamp.revision}, {stamp.date}",
        template.purpose,
    )


def _corner(paper: Paper) -> Point:
    """Where the bars start: inside what is kept of every leaf."""
    from_edge_mm = paper.margin_mm + paper.overlap_mm / 2 + FROM_CUT_MM
    return from_edge_mm, from_edge_mm


def _draw_bars(leaf: _Leaf, corner: Point, says: Sequence[str]) -> None:
    """Bars across and up, each with a tick at both ends, and the words of the leaf between them."""
    x, y = corner
    for number, (length_mm, label) in enumerate(BARS_MM):
        level, upright = y + 5 * number, x + 5 * number
        _bar(leaf, (x + 10, level), (x + 10 + length_mm, level))
        _bar(leaf, (upright, y + 10), (upright, y + 10 + length_mm))
        leaf.text(label, (x + 12, level + 0.8))
        leaf.text(label, (upright + 0.6, y + 12 + length_mm - 5 * number), size_mm=2)
    for number, line in enumerate(says):
        leaf.note(line, (x + 12, y + 12 + NOTE_STEP_MM * (len(says) - number)))


def _bar(leaf: _Leaf, start: Point, end: Point) -> None:
    leaf.line(start, end)
    for x, y in (start, end):
        across, up = (0.0, TICK_MM) if start[1] == end[1] else (TICK_MM, 0.0)
        leaf.line((x - across, y - up), (x + across, y + up))


def _draw_map(tiling: Tiling, tile: Tile, leaf: _Leaf) -> None:
    """The name of the leaf and all leaves as they lie, this one filled."""
    last = tile_name(tiling.rows - 1, tiling.columns - 1)
    x, y = _corner(tiling.paper)
    left, top = x + 12, y + 60 + CELL_MM * min(tiling.rows, 8)
    leaf.text(f"Leaf {tile.name} of A1 to {last}", (left, top + 2), size_mm=NOTE_MM * 1.4)
    for row in range(tiling.rows):
        for column in range(tiling.columns):
            lower_left = (left + column * CELL_MM, top - (row + 1) * CELL_MM)
            upper_right = (lower_left[0] + CELL_MM, lower_left[1] + CELL_MM)
            if (row, column) == (tile.row, tile.column):
                leaf.fill(lower_left, upper_right)
            _cell(leaf, lower_left, upper_right)


def _cell(leaf: _Leaf, lower_left: Point, upper_right: Point) -> None:
    (left, bottom), (right, top) = lower_left, upper_right
    corners = [(left, bottom), (right, bottom), (right, top), (left, top), (left, bottom)]
    for start, end in pairwise(corners):
        leaf.line(start, end, width_mm=FAINT_MM)


def _curves(arc: Arc) -> list[tuple[Point, Point, Point, Point]]:
    """An arc as cubic curves of at most an eighth of a turn: `4/3 tan(φ/4)` of the radius to each handle.

    Source: derived; such a curve is off by less than 0.00001 of the radius.
    """
    sweep, radius = sweep_rad(arc), arc.radius_mm
    pieces = ceil(abs(sweep) / (pi / 4))
    start_rad = atan2(arc.start[1] - arc.centre[1], arc.start[0] - arc.centre[0])
    turn, handle = sweep / pieces, 4 / 3 * tan(sweep / pieces / 4)

    def on(angle: float, out: float) -> Point:
        """A place on the arc, `out` radii along its tangent."""
        x, y = cos(angle) - out * sin(angle), sin(angle) + out * cos(angle)
        return arc.centre[0] + radius * x, arc.centre[1] + radius * y

    angles = [start_rad + turn * number for number in range(pieces)]
    return [(on(a, 0), on(a, handle), on(a + turn, -handle), on(a + turn, 0)) for a in angles]
