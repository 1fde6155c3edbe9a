"""One leaf of a PDF: it places millimetres from its lower left corner, through the correction for a printer.

An arc becomes curves within a ten thousandth of its radius.
"""

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from math import atan2, ceil, cos, pi, sin, tan
from typing import TYPE_CHECKING
from unicodedata import normalize

from framecalc.drawing.templates.tiles import Paper
from framecalc.geometry.outline import Arc, Point, Segment, sweep_rad
from framecalc.templates.printer import Correction

if TYPE_CHECKING:
    from fpdf import FPDF

LINE_MM, FAINT_MM = 0.2, 0.1
POINTS_PER_MM = 72 / 25.4
NOTE_MM = 3.0
"""Type size of what a leaf says of itself."""


class Leaf:
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

    def fill(self, lower_left: Point, upper_right: Point) -> None:
        """Fill an upright rectangle."""
        (left, top), (right, bottom) = (
            self._at((lower_left[0], upper_right[1])),
            self._at((upper_right[0], lower_left[1])),
        )
        self._document.rect(left, top, right - left, bottom - top, style="F")

    @contextmanager
    def only_in_room(self) -> Iterator[None]:
        """Draw nothing on the margins, wherever the printer puts them."""
        paper = self._paper
        low, high = (
            (paper.margin_mm, paper.margin_mm),
            (
                paper.across_mm - paper.margin_mm,
                paper.up_mm - paper.margin_mm,
            ),
        )
        corners = [self._at(point) for point in (low, (low[0], high[1]), high, (high[0], low[1]))]
        across, up = [x for x, _ in corners], [y for _, y in corners]
        with self._document.rect_clip(x=min(across), y=min(up), w=max(across) - min(across), h=max(up) - min(up)):
            yield

    def _curve(self, points: Sequence[Point]) -> None:
        start, one, other, end = (self._at(point) for point in points)
        self._document.set_line_width(LINE_MM)
        self._document.bezier([start, one, other, end])

    def _at(self, point: Point) -> Point:
        x, y = self._correction.at(point, about=self._about)
        return x, self._paper.up_mm - y


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
