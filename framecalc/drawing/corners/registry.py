"""Which drawings the corners page has; each is drawn once for each record that it reads."""

from framecalc.drawing.corners.closing import CLOSING
from framecalc.drawing.corners.gauge import GAUGE
from framecalc.drawing.corners.joint_plan import PLAN
from framecalc.drawing.corners.lap import LAP
from framecalc.drawing.corners.lean import LEAN
from framecalc.drawing.corners.mitre_face import FACE
from framecalc.drawing.corners.polygon import POLYGON
from framecalc.drawing.corners.slope import SLOPE
from framecalc.drawing.corners.strap import STRAP
from framecalc.drawing.corners.test_joint import GAPS
from framecalc.drawing.corners.year import YEAR
from framecalc.drawing.panel import PageDrawing, draw_page_panel
from framecalc.plan import FramePlan

CORNER_DRAWINGS: dict[str, PageDrawing] = {
    "closing": CLOSING,
    "face": FACE,
    "gaps": GAPS,
    "gauge": GAUGE,
    "lap": LAP,
    "lean": LEAN,
    "plan": PLAN,
    "polygon": POLYGON,
    "slope": SLOPE,
    "strap": STRAP,
    "year": YEAR,
}


def draw_corner_panel(name: str, plan: FramePlan) -> str:
    """Draw one panel of the corners page, as SVG to stand in it.

    Args:
        name: one of CORNER_DRAWINGS.
    Raises:
        FrameCalcError: what it shows cannot be computed.
        ValueError: it shows what has not been measured or chosen.
    """
    drawing = CORNER_DRAWINGS[name]
    return draw_page_panel(name, drawing, drawing.read(plan))
