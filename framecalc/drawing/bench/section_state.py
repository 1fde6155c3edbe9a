"""The section of a member after one cut, true to itself: what stands in wood, what the cut took in grey."""

from collections.abc import Iterable, Sequence

from framecalc.bench.cards import SectionState
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.style import Role
from framecalc.geometry.outline import Point

ACROSS_MM, UP_MM, MARGIN_MM = 62.0, 46.0, 2.0
"""The panel, and the room round the section."""


def draw_section_state(state: SectionState, *, name: str) -> str:
    """Draw a section before and after a cut, the back below, as SVG for a page.

    Args:
        name: the start of this drawing's ids, unique on the page.
    """
    points = (*state.before, *state.after)
    wide_mm, high_mm = max(x for x, _ in points), max(y for _, y in points)
    scale = min((ACROSS_MM - 2 * MARGIN_MM) / wide_mm, (UP_MM - 2 * MARGIN_MM) / high_mm)
    base_mm = high_mm * scale + MARGIN_MM
    pen = Pen(
        name=name,
        across_mm=wide_mm * scale + 2 * MARGIN_MM,
        up_mm=base_mm + MARGIN_MM,
        title=f"Section after: {state.caption}",
        inline=True,
    )
    before, after = (_placed(one, scale, base_mm) for one in (state.before, state.after))
    pen.area(run(before, closed=True), Role.SHADOW)
    pen.area(run(after, closed=True), Role.WOOD)
    pen.line(run(before, closed=True), Role.HIDDEN)
    pen.line(run(after, closed=True), Role.OUTLINE)
    return pen.svg()


def _placed(points: Iterable[Point], scale: float, base_mm: float) -> Sequence[Point]:
    return [(MARGIN_MM + x * scale, base_mm - y * scale) for x, y in points]
