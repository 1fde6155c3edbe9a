"""What every drawing of a page of answers is made of: what it reads, how it is told and drawn, how tall it is."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from framecalc.drawing.page import Box, Sheet
from framecalc.drawing.pen import Pen
from framecalc.plan import FramePlan

ACROSS_MM = 80.0
"""How wide a panel of the page is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageDrawing:
    """One drawing: what it reads from a plan, its title, how it is drawn, how tall its panel is for a record [mm].

    `draw` returns the scale that its scale bar tells, or 0 for a drawing that is to no scale.
    """

    read: Callable[[FramePlan], Any]
    title: Callable[[Any], str]
    draw: Callable[[Any, Sheet, Pen, Box], float]
    up_mm: Callable[[Any], float]
