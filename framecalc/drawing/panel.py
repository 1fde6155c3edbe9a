"""What every drawing of a page of answers is made of: what it reads, how it is told and drawn, how tall it is."""

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from framecalc.drawing.pen import Pen
from framecalc.drawing.sheet import Area, Sheet, draw_scale_bar, panel
from framecalc.plan import FramePlan
from framecalc.units import Unit

KEPT = 384
"""How many panels are kept."""

ACROSS_MM = 80.0
"""How wide a panel of the page is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageDrawing:
    """One drawing: what it reads from a plan, its title, how it is drawn, how tall its panel is for a record [mm].

    `draw` returns the scale that its scale bar tells, or 0 for a drawing that is to no scale.
    """

    read: Callable[[FramePlan], Any]
    title: Callable[[Any], str]
    draw: Callable[[Any, Sheet, Pen, Area], float]
    up_mm: Callable[[Any], float]


@lru_cache(maxsize=KEPT)
def draw_page_panel(name: str, drawing: PageDrawing, record: Hashable) -> str:
    """Draw one panel of a page of answers, as SVG to stand in it; once for each record.

    Args:
        name: distinguishes the drawings of one page.
        record: what the drawing has read from a plan.
    """
    sheet = panel(ACROSS_MM, drawing.up_mm(record))
    pen = Pen(name=name, across_mm=sheet.across_mm, up_mm=sheet.up_mm, title=drawing.title(record), inline=True)
    scale = drawing.draw(record, sheet, pen, sheet.room)
    if scale:
        draw_scale_bar(pen, sheet, scale=scale, unit=_unit(record))
    return pen.svg()


def _unit(record: Any) -> Unit:
    unit: Unit = record.unit
    return unit
