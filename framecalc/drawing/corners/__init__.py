"""Drawings of the corners page: settings, test cuts, closing, clamps, joint, seasons.

Each reads a small frozen record from the plan and is kept under it, so that a drawing whose record has not changed is
not drawn again. Figures in them are the true ones; what is magnified says so, and by how much.
"""

from framecalc.drawing.corners.registry import CORNER_DRAWINGS, draw_corner_panel

__all__ = ["CORNER_DRAWINGS", "draw_corner_panel"]
