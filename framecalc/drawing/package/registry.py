"""Which drawings the package page has; each is drawn once for each record that it reads."""

from framecalc.drawing.package.exploded import EXPLODED
from framecalc.drawing.package.mat import MAT, UPPER_MAT
from framecalc.drawing.package.retainers import HELD
from framecalc.drawing.panel import PageDrawing, draw_page_panel
from framecalc.plan import FramePlan

PACKAGE_DRAWINGS: dict[str, PageDrawing] = {
    "exploded": EXPLODED,
    "held": HELD,
    "mat": MAT,
    "upper-mat": UPPER_MAT,
}


def draw_package_panel(name: str, plan: FramePlan) -> str:
    """Draw one panel of the package page, as SVG to stand in it.

    Args:
        name: one of PACKAGE_DRAWINGS.
    Raises:
        FrameCalcError: what it shows cannot be computed, or the frame has no such thing.
    """
    drawing = PACKAGE_DRAWINGS[name]
    return draw_page_panel(name, drawing, drawing.read(plan))
