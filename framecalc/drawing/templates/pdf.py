"""Templates as a PDF of true size, leaf by leaf, that hangs on no print dialogue's idea of a page."""

from collections.abc import Iterator, Sequence
from datetime import UTC, date, datetime, time
from itertools import groupby
from typing import TYPE_CHECKING

from framecalc.artwork.photo_sheet import FRAME_LINE_MM, FRAME_LONG_MM, FRAME_SHORT_MM
from framecalc.drawing.templates.bars import clear_corner, draw_bars
from framecalc.drawing.templates.labels import LaidLabel, draw_labels, labels_a_leaf
from framecalc.drawing.templates.leaf import FAINT_MM, PrinterUsed
from framecalc.drawing.templates.leaf_pdf import PdfLeaf, plain_text
from framecalc.drawing.templates.on_leaves import UNCHECKED, leaves_of
from framecalc.drawing.templates.tiles import Paper
from framecalc.errors import FrameCalcError
from framecalc.geometry.outline import Point
from framecalc.plan.templates.templates import TemplateStamp
from framecalc.templates.printer import CHECK_MM, TRUE
from framecalc.templates.template import Template

if TYPE_CHECKING:
    from fpdf import FPDF


def template_pdf(
    template: Template, *, stamp: TemplateStamp, paper: Paper, printer: PrinterUsed | None = None
) -> bytes:
    """Write a template as a PDF, on as many leaves as it takes.

    Args:
        printer: the printer, with what makes up for it; None where it has not been checked.
    Raises:
        ImpossibleSize: it would take more leaves than anybody puts together.
    """
    return b"".join(pdf_in_steps([(template, stamp)], title=template.title, paper=paper, printer=printer))


def pdf_in_steps(
    stamped: Sequence[tuple[Template, TemplateStamp]],
    *,
    title: str,
    paper: Paper,
    printer: PrinterUsed | None = None,
) -> Iterator[bytes]:
    """Write templates as one PDF, one after the other; the arguments are those of `template_pdf`.

    A PDF is put together when all its leaves are drawn: each leaf is a step with nothing to hand out yet, so that
    whoever answers with it can do something else between two of them.

    Raises:
        ImpossibleSize: one would take more leaves than anybody puts together.
    """
    document = _document(title, stamped[0][1] if stamped else _NO_STAMP)
    for one in leaves_of(stamped, paper=paper, printer=printer):
        one.draw_on(PdfLeaf(document, paper, one.correction))
        yield b""
    yield bytes(document.output())


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
    leaf = PdfLeaf(document, paper, printer.correction if printer else TRUE)
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


def photo_sheet_pdf(paper: Paper) -> bytes:
    """Write the sheet that lies beside an artwork in a photo: a thick black frame of known size, and the bars.

    Raises:
        FrameCalcError: the frame does not lie between the margins.
    """
    if paper.room_across_mm < FRAME_SHORT_MM or paper.room_up_mm < FRAME_LONG_MM:
        raise FrameCalcError("Too small for the black frame: choose A4 or Letter.", field="paper")
    document = _document("Sheet for a photo", _NO_STAMP)
    leaf, line = PdfLeaf(document, paper, TRUE), FRAME_LINE_MM
    left, low = (paper.across_mm - FRAME_SHORT_MM) / 2, (paper.up_mm - FRAME_LONG_MM) / 2
    right, top = left + FRAME_SHORT_MM, low + FRAME_LONG_MM
    for lower_left, upper_right in (
        ((left, low), (right, low + line)),
        ((left, top - line), (right, top)),
        ((left, low), (left + line, top)),
        ((right - line, low), (right, top)),
    ):
        leaf.fill(lower_left, upper_right)
    says = (
        "Sheet for a photo. Print at 100%, actual size.",
        f"Black frame, outside: {FRAME_SHORT_MM:g} × {FRAME_LONG_MM:g} mm. Measure it, and the bars.",
        "Lay it flat beside the artwork, in the same plane. Take the photo from in front, all corners in view.",
        "In the photo, mark the outer corners of the black frame.",
    )
    draw_bars(leaf, (left + line + 8, low + line + 30), says)
    return bytes(document.output())


def labels_pdf(
    labels: Sequence[LaidLabel], *, stamp: TemplateStamp, paper: Paper, printer: PrinterUsed | None = None
) -> bytes:
    """Write labels as one PDF, those of one size together, several on a leaf.

    Raises:
        ImpossibleSize: a label is larger than the paper.
    """
    document = _document("Labels", stamp)
    correction, says = (printer.correction, printer.says) if printer else (TRUE, UNCHECKED)
    for leaf_of in _leaves_of_labels(labels, paper):
        draw_labels(PdfLeaf(document, paper, correction), leaf_of, paper, says=says)
    return bytes(document.output())


def _leaves_of_labels(labels: Sequence[LaidLabel], paper: Paper) -> Iterator[Sequence[LaidLabel]]:
    for _, alike in groupby(labels, key=lambda label: (label.across_mm, label.up_mm)):
        rest = list(alike)
        columns, rows = labels_a_leaf(rest[0], paper)
        while rest:
            yield rest[: columns * rows]
            del rest[: columns * rows]


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
