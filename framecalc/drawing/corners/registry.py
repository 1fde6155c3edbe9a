"""Which drawings the corners page has; each is drawn once for each record that it reads."""

from collections.abc import Hashable
from functools import lru_cache
from typing import Any

from framecalc.drawing.corners.closing import CLOSING
from framecalc.drawing.corners.gaps import GAPS
from framecalc.drawing.corners.gauge import GAUGE
from framecalc.drawing.corners.joint_plan import PLAN
from framecalc.drawing.corners.lap import LAP
from framecalc.drawing.corners.lean import LEAN
from framecalc.drawing.corners.mitre_face import FACE
from framecalc.drawing.corners.polygon import POLYGON
from framecalc.drawing.corners.slope import SLOPE
from framecalc.drawing.corners.strap import STRAP
from framecalc.drawing.corners.year import YEAR
from framecalc.drawing.page import draw_scale_bar, panel
from framecalc.drawing.page_drawing import ACROSS_MM, PageDrawing
from framecalc.drawing.pen import Pen
from framecalc.plan import FramePlan
from framecalc.units import Unit

KEPT = 256

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
    return _panel(name, CORNER_DRAWINGS[name].read(plan))


@lru_cache(maxsize=KEPT)
def _panel(name: str, record: Hashable) -> str:
    drawing = CORNER_DRAWINGS[name]
    sheet = panel(ACROSS_MM, drawing.up_mm(record))
    pen = Pen(name=name, across_mm=sheet.across_mm, up_mm=sheet.up_mm, title=drawing.title(record), inline=True)
    scale = drawing.draw(record, sheet, pen, sheet.room)
    if scale:
        draw_scale_bar(pen, sheet, scale=scale, unit=_unit(record))
    return pen.svg()


def _unit(record: Any) -> Unit:
    unit: Unit = record.unit
    return unit
