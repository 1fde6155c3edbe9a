"""A template as a PDF of true size, leaf by leaf, that hangs on no print dialogue's idea of a page.

Each leaf carries its name, a map, and bars of 100 mm and 4 in both ways inside what is kept.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from itertools import pairwise
from math import atan, degrees
from typing import TYPE_CHECKING

from framecalc.drawing.templates.bars import MAP_MM, clear_corner, draw_bars
from framecalc.drawing.templates.leaf import FAINT_MM, NOTE_MM, Leaf, plain_text
from framecalc.drawing.templates.tiles import Paper, Tile, Tiling, tile_name, tiling_of
from framecalc.errors import FrameCalcError
from framecalc.geometry.outline import Outline, Point, Segment, moved
from framecalc.plan.templates.templates import TemplateStamp
from framecalc.templates.printer import CHECK_MM, TRUE, Correction
from framecalc.templates.template import Template, Word

if TYPE_CHECKING:
    from fpdf import FPDF

CROSS_MM, CELL_MM = 3.0, 3.5
UNCHECKED = "Unchecked: measure the bars. If one is off, print at 100%, actual size."


@dataclass(frozen=True, slots=True, kw_only=True)
class PrinterUsed:
    """A printer that has been checked: its name, and what makes up for it."""

    name: str
    correction: Correction

    @property
    def says(self) -> str:
        """What a leaf says of it."""
        across_pct, up_pct = (100 * ratio for ratio in (self.correction.across_ratio, self.correction.up_ratio))
        lean_deg = degrees(atan(self.correction.lean_ratio))
        by = f"across {across_pct:.2f}%, up {up_pct:.2f}%, skew {lean_deg:.2f}°".replace("-", "−")
        return f"True on {self.name} only: corrected by {by}."


def template_pdf(
    template: Template, *, stamp: TemplateStamp, paper: Paper, printer: PrinterUsed | None = None
) -> bytes:
    """Write a template as a PDF, on as many leaves as it takes.

    Args:
        printer: the printer, with what makes up for it; None where it has not been checked.
    Raises:
        ImpossibleSize: it would take more leaves than anybody puts together.
    """
    return templates_pdf([(template, stamp)], title=template.title, paper=paper, printer=printer)


def templates_pdf(
    stamped: Sequence[tuple[Template, TemplateStamp]],
    *,
    title: str,
    paper: Paper,
    printer: PrinterUsed | None = None,
) -> bytes:
    """Write templates as one PDF, one after the other; the arguments are those of `template_pdf`.

    Raises:
        ImpossibleSize: one would take more leaves than anybody puts together.
    """
    tilings = [tiling_of(one.across_mm, one.up_mm, paper=paper) for one, _ in stamped]
    document = _document(title, stamped[0][1] if stamped else _NO_STAMP)
    for (template, stamp), tiling in zip(stamped, tilings, strict=True):
        says = (*_says(template, stamp), printer.says if printer else UNCHECKED)
        for tile in tiling.tiles:
            _draw_leaf(document, template, tiling, tile, says, printer.correction if printer else TRUE)
    return bytes(document.output())


def _draw_leaf(
    document: "FPDF", template: Template, tiling: Tiling, tile: Tile, says: Sequence[str], correction: Correction
) -> None:
    """One leaf of a template: what of it lies in the room, how leaves are joined, bars and words."""
    leaf = Leaf(document, tiling.paper, correction)
    with leaf.only_in_room():
        _draw(template, tiling, tile, leaf)
    _draw_joining(tiling, tile, leaf)
    corner = clear_corner(tiling.paper, _lines(template, tiling, tile))
    draw_bars(leaf, corner, says)
    _draw_map(tiling, tile, leaf, corner)


def _lines(template: Template, tiling: Tiling, tile: Tile) -> list[tuple[Point, Point]]:
    """Where the lines and words of a template lie on a leaf, arcs as their chords."""
    outlines = (*template.outlines, *template.holes, *template.zones)
    ends = [(one.start, one.end) for outline in outlines for one in outline.segments]
    ends += [(mark.start, mark.end) for mark in template.marks]
    ends += [(word.at, (word.at[0] + word.across_mm, word.at[1])) for word in (*template.words, *template.notes)]
    return [(tiling.on_leaf(tile, start), tiling.on_leaf(tile, end)) for start, end in ends]


def printer_leaf_pdf(paper: Paper, *, printer: PrinterUsed | None = None) -> bytes:
    """Write the leaf by which a printer is checked: a square with its diagonals, and the bars.

    Args:
        printer: one that has been checked, to see whether it now prints true.

    Raises:
        FrameCalcError: the square does not lie between the margins.
    """
    if min(paper.room_across_mm, paper.room_up_mm) < CHECK_MM:
        raise FrameCalcError("Too small for the square: choose A4 or Letter.", field="paper")
    document = _document("Printer check", _NO_STAMP)
    leaf = Leaf(document, paper, printer.correction if printer else TRUE)
    left, top = (paper.across_mm - CHECK_MM) / 2, paper.up_mm - paper.margin_mm - 2
    corners = [(left, top - CHECK_MM), (left + CHECK_MM, top - CHECK_MM), (left + CHECK_MM, top), (left, top)]
    for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
        leaf.line(start, end)
    leaf.line(corners[0], corners[2], width_mm=FAINT_MM)
    leaf.line(corners[3], corners[1], width_mm=FAINT_MM)
    corrected = printer.says if printer else "Measure sides and diagonals, type them on the Shop page."
    square = f"Square: {CHECK_MM:g} mm each side, diagonals {CHECK_MM * 2**0.5:.1f} mm."
    leaf.text("rising", _beside(corners[0], corners[2]))
    leaf.text("falling", _beside(corners[3], corners[1]))
    says = ("Printer check: print at 100%, actual size.", square, corrected)
    draw_bars(leaf, clear_corner(paper, ()), says)
    return bytes(document.output())


_NO_STAMP = TemplateStamp(project="", frame="", revision="", date="")


def _beside(start: Point, end: Point) -> Point:
    """A place for a word on a diagonal, a quarter from its start."""
    return start[0] + (end[0] - start[0]) / 4 + 4, start[1] + (end[1] - start[1]) / 4


def _document(title: str, stamp: TemplateStamp) -> "FPDF":
    from fpdf import FPDF

    document = FPDF(unit="mm")
    document.set_auto_page_break(False)
    document.set_title(plain_text(title))
    day = date.fromisoformat(stamp.date) if stamp.date[:1].isdigit() else date(2000, 1, 1)
    document.set_creation_date(datetime.combine(day, time(), UTC))
    document.set_font("Helvetica")
    return document


def _draw(template: Template, tiling: Tiling, tile: Tile, leaf: Leaf) -> None:
    """The template itself, moved to where it lies on the leaf."""
    for outline in (*template.holes, *template.outlines, *template.zones):
        leaf.outline(_moved(outline, tiling, tile))
    for mark in template.marks:
        leaf.line(tiling.on_leaf(tile, mark.start), tiling.on_leaf(tile, mark.end))
    for word in (*template.words, *template.notes):
        _write(word, tiling, tile, leaf)


def _moved(outline: Outline, tiling: Tiling, tile: Tile) -> tuple[Segment, ...]:
    return moved(outline.segments, by=tiling.on_leaf(tile, (0.0, 0.0)))


def _write(word: Word, tiling: Tiling, tile: Tile, leaf: Leaf) -> None:
    leaf.text(word.text, tiling.on_leaf(tile, word.at), size_mm=word.letter_mm)


def _draw_joining(tiling: Tiling, tile: Tile, leaf: Leaf) -> None:
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


def _draw_map(tiling: Tiling, tile: Tile, leaf: Leaf, corner: Point) -> None:
    """The name of the leaf and all leaves as they lie, this one filled."""
    last = tile_name(tiling.rows - 1, tiling.columns - 1)
    x, y = corner
    left, top = x + 12, y + MAP_MM + CELL_MM * min(tiling.rows, 8)
    says = "One leaf" if last == "A1" else f"Leaf {tile.name} of A1 to {last}"
    leaf.text(says, (left, top + 2), size_mm=NOTE_MM * 1.4)
    for row in range(tiling.rows):
        for column in range(tiling.columns):
            lower_left = (left + column * CELL_MM, top - (row + 1) * CELL_MM)
            upper_right = (lower_left[0] + CELL_MM, lower_left[1] + CELL_MM)
            if (row, column) == (tile.row, tile.column):
                leaf.fill(lower_left, upper_right)
            _cell(leaf, lower_left, upper_right)


def _cell(leaf: Leaf, lower_left: Point, upper_right: Point) -> None:
    (left, bottom), (right, top) = lower_left, upper_right
    corners = [(left, bottom), (right, bottom), (right, top), (left, top), (left, bottom)]
    for start, end in pairwise(corners):
        leaf.line(start, end, width_mm=FAINT_MM)
