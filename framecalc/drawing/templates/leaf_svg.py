"""A leaf on a page of a browser: an SVG as large as its paper, less a little.

Browsers shrink a whole page where anything of it is wider than the paper, and round the paper down; what is cut off
lies in the margin, or is on the next leaf too.
"""

from collections.abc import Iterator
from contextlib import contextmanager

from framecalc.drawing.pen import escaped, number
from framecalc.drawing.style import FONTS
from framecalc.drawing.templates.curves import curves_of
from framecalc.drawing.templates.leaf import DASH_GAP_MM, DASH_MM, LINE_MM, NOTE_MM, Leaf
from framecalc.drawing.templates.tiles import Paper
from framecalc.geometry.outline import Arc, Point
from framecalc.templates.printer import Correction

LESS_MM = 0.5
"""A leaf is so much smaller than its paper."""


class SvgLeaf(Leaf):
    """One leaf; `name` is where its ids begin, different for each on a page."""

    def __init__(self, paper: Paper, correction: Correction, *, name: str) -> None:
        super().__init__(paper, correction)
        self._name = name
        self._drawn: list[str] = []

    def line(self, start: Point, end: Point, *, width_mm: float = LINE_MM, dashed: bool = False) -> None:
        """Draw a straight line."""
        dashes = f' stroke-dasharray="{number(DASH_MM)} {number(DASH_GAP_MM)}"' if dashed else ""
        self._path(f"M{self._place(start)} L{self._place(end)}", width_mm=width_mm, more=dashes)

    def arc(self, arc: Arc) -> None:
        """Draw an arc as curves."""
        curves = curves_of(arc)
        runs = (" ".join(map(self._place, curve[1:])) for curve in curves)
        self._path(f"M{self._place(curves[0][0])} " + " ".join(f"C{run}" for run in runs), width_mm=LINE_MM)

    def text(self, text: str, at: Point, *, size_mm: float = NOTE_MM) -> None:
        """Write letters."""
        x, y = self._at(at)
        place = f'x="{number(x)}" y="{number(y)}" font-size="{number(size_mm)}"'
        self._drawn.append(f'<text {place} fill="black" stroke="none">{escaped(text)}</text>')

    def fill(self, lower_left: Point, upper_right: Point) -> None:
        """Fill an upright rectangle."""
        left, top = self._at((lower_left[0], upper_right[1]))
        right, bottom = self._at((upper_right[0], lower_left[1]))
        self._drawn.append(f'<rect {_rectangle((left, top), (right, bottom))} fill="black"/>')

    @contextmanager
    def only_in_room(self) -> Iterator[None]:
        """Draw nothing on the margins, wherever the printer puts them."""
        room = f"<rect {_rectangle(*self._room())}/>"
        self._drawn.append(f'<clipPath id="{self._name}">{room}</clipPath><g clip-path="url(#{self._name})">')
        yield
        self._drawn.append("</g>")

    def svg(self, *, title: str) -> str:
        """The leaf as it was drawn, one unit a millimetre."""
        across, up = number(self._paper.across_mm - LESS_MM), number(self._paper.up_mm - LESS_MM)
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{across}mm" height="{up}mm" viewBox="0 0 {across} {up}" '
            f'role="img" font-family="{FONTS}" fill="none" stroke="black"><title>{escaped(title)}</title>'
            f"{''.join(self._drawn)}</svg>"
        )

    def _path(self, data: str, *, width_mm: float, more: str = "") -> None:
        self._drawn.append(f'<path d="{data}" stroke-width="{number(width_mm)}"{more}/>')

    def _place(self, point: Point) -> str:
        x, y = self._at(point)
        return f"{number(x)},{number(y)}"


def _rectangle(upper_left: Point, lower_right: Point) -> str:
    (left, top), (right, bottom) = upper_left, lower_right
    return f'x="{number(left)}" y="{number(top)}" width="{number(right - left)}" height="{number(bottom - top)}"'
