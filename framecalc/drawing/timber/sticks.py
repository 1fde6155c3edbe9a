"""The sticks and boards of a cutting plan, one panel each: pieces by number, chalk marks, and a rule from the left end.

A piece carries its number and its part of the carpenter's triangle, as chalked. Lengths are to scale, shown by the
rule; widths are to a scale of their own.
"""

from functools import lru_cache

from framecalc.drawing.lettering import shortened
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.style import Role
from framecalc.drawing.timber.cuts import DrawnCut
from framecalc.drawing.timber.strip import CutView, draw_cut
from framecalc.units import MM_PER_INCH, Unit

ACROSS_MM, LEFT_MM, LENGTH_MM = 92.0, 1.0, 90.0
"""The panel, where a stick begins on it, and how long it is drawn, whatever its length."""

TOP_MM, STRIP_MM, TALLEST_MM = 6.0, 8.4, 90.0
"""Where a stick begins, how high a strip of it is drawn, and how high a whole board may be."""

RULE_MM, LEAST_STEP_MM = 6.4, 14.5
"""Room for the rule, and how near its figures may stand."""


@lru_cache(maxsize=512)
def draw_stick(cut: DrawnCut, *, name: str) -> str:
    """Draw a stick or a board, as SVG for a page.

    Args:
        name: the start of this drawing's ids, unique on the page.
    """
    across = min(STRIP_MM / cut.strip_mm, TALLEST_MM / cut.width_mm)
    view = CutView(left_mm=LEFT_MM, top_mm=TOP_MM, along=LENGTH_MM / cut.length_mm, across=across)
    bottom_mm = view.y(cut.width_mm) + (1.2 if cut.crosscuts else 0)
    pen = Pen(name=name, across_mm=ACROSS_MM, up_mm=bottom_mm + RULE_MM, title=cut.title, inline=True)
    pen.text(shortened(cut.title, to_mm=LENGTH_MM, bold=True), (LEFT_MM, 4.0), role=Role.STRONG)
    draw_cut(pen, cut, view)
    _draw_rule(pen, bottom_mm, cut, view)
    return pen.svg()


def _draw_rule(pen: Pen, top_mm: float, cut: DrawnCut, view: CutView) -> None:
    """A rule from the left end, in steps that leave room for its figures."""
    step_mm, step = (12 * float(MM_PER_INCH), 12) if cut.unit is Unit.INCH else (250.0, 250)
    while step_mm * view.along < LEAST_STEP_MM:
        step_mm, step = 2 * step_mm, 2 * step
    for count in range(int(cut.length_mm / step_mm) + 1):
        at_mm = view.x(count * step_mm)
        pen.line(run([(at_mm, top_mm), (at_mm, top_mm + 1.5)]), Role.DIMENSION)
        if at_mm < LEFT_MM + LENGTH_MM - 5:
            text = f"{count * step}" if count else f"0 {'in' if cut.unit is Unit.INCH else 'mm'}"
            pen.text(text, (at_mm, top_mm + 5.2), anchor="middle" if count else "start", role=Role.FAINT)
    pen.line(run([(LEFT_MM, top_mm), (LEFT_MM + LENGTH_MM, top_mm)]), Role.DIMENSION)
