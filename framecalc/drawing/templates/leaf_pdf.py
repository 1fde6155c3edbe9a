"""A leaf of a PDF."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING
from unicodedata import normalize

from framecalc.drawing.templates.curves import curves_of
from framecalc.drawing.templates.leaf import DASH_GAP_MM, DASH_MM, LINE_MM, NOTE_MM, Leaf
from framecalc.drawing.templates.tiles import Paper
from framecalc.geometry.outline import Arc, Point
from framecalc.templates.printer import Correction

if TYPE_CHECKING:
    from fpdf import FPDF

POINTS_PER_MM = 72 / 25.4


class PdfLeaf(Leaf):
    """A new page of a PDF."""

    def __init__(self, document: "FPDF", paper: Paper, correction: Correction) -> None:
        super().__init__(paper, correction)
        self._document = document
        document.add_page(format=(paper.across_mm, paper.up_mm))

    def line(self, start: Point, end: Point, *, width_mm: float = LINE_MM, dashed: bool = False) -> None:
        """Draw a straight line."""
        self._document.set_line_width(width_mm)
        if dashed:
            self._document.set_dash_pattern(dash=DASH_MM, gap=DASH_GAP_MM)
        self._document.line(*self._at(start), *self._at(end))
        self._document.set_dash_pattern()

    def arc(self, arc: Arc) -> None:
        """Draw an arc as curves."""
        self._document.set_line_width(LINE_MM)
        for curve in curves_of(arc):
            self._document.bezier([self._at(point) for point in curve])

    def text(self, text: str, at: Point, *, size_mm: float = NOTE_MM) -> None:
        """Write letters; those that the plain font of every reader lacks become plain ones."""
        self._document.set_font_size(size_mm * POINTS_PER_MM)
        self._document.text(*self._at(at), plain_text(text))

    def fill(self, lower_left: Point, upper_right: Point) -> None:
        """Fill an upright rectangle."""
        left, top = self._at((lower_left[0], upper_right[1]))
        right, bottom = self._at((upper_right[0], lower_left[1]))
        self._document.rect(left, top, right - left, bottom - top, style="F")

    @contextmanager
    def only_in_room(self) -> Iterator[None]:
        """Draw nothing on the margins, wherever the printer puts them."""
        (left, top), (right, bottom) = self._room()
        with self._document.rect_clip(x=left, y=top, w=right - left, h=bottom - top):
            yield


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
