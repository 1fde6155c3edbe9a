"""Drawings of a frame plan: panels for the screen, papers to take to the bench.

Each drawing is one `Drawing` beside its draw functions; `registry.py` lists them all.
"""

from framecalc.drawing.registry import (
    FURTHER_PAPERS,
    PANELS,
    PAPER_DRAWINGS,
    draw_panel,
    draw_paper,
    paper_showing,
    papers_of,
    papers_showing,
)
from framecalc.drawing.setting_out.field_sketches import draw_field_sketch
from framecalc.drawing.sheet import PAPERS, usual_paper

__all__ = [
    "FURTHER_PAPERS",
    "PANELS",
    "PAPERS",
    "PAPER_DRAWINGS",
    "draw_field_sketch",
    "draw_panel",
    "draw_paper",
    "paper_showing",
    "papers_of",
    "papers_showing",
    "usual_paper",
]
