"""Drawings of a frame plan: panels for the screen, papers to take to the bench.

Each drawing reads a small frozen record from the plan and draws from nothing else, so a drawing whose record has not
changed is not drawn again: the record is the key under which it is kept.
"""

from framecalc.drawing.registry import (
    CORNER_DRAWINGS,
    PACKAGE_PAPERS,
    PANELS,
    PAPER_DRAWINGS,
    draw_panel,
    draw_paper,
    draw_thumbnail,
)
from framecalc.drawing.setting_out.field_sketches import draw_where
from framecalc.drawing.sheet import PAPERS

__all__ = [
    "CORNER_DRAWINGS",
    "PACKAGE_PAPERS",
    "PANELS",
    "PAPERS",
    "PAPER_DRAWINGS",
    "draw_panel",
    "draw_paper",
    "draw_thumbnail",
    "draw_where",
]
