"""A template as a small drawing for its page."""

from framecalc.drawing.pen import Pen, outline_path, run
from framecalc.drawing.ring import Size
from framecalc.drawing.sheet import View
from framecalc.drawing.style import Role
from framecalc.templates.template import Template

AIR_MM = 1.0
PANEL_MM: Size = (48.0, 34.0)
WIDE_MM, TALLEST_MM = 106.0, 60.0
"""A template that stands alone is so wide on its page, and no higher than this."""


def template_thumbnail(template: Template, *, name: str, panel_mm: Size = PANEL_MM) -> str:
    """Draw a template into a small panel, as SVG for a page.

    Args:
        name: where the drawing's ids begin, different for each on a page.
        panel_mm: how large the panel is.
    """
    pen = Pen(name=name, across_mm=panel_mm[0], up_mm=panel_mm[1], title=template.title, inline=True)
    view = _view(template, panel_mm)
    for part in template.outlines:
        path = outline_path(part, scale=view.scale, left_mm=view.left_mm, base_mm=view.base_mm)
        pen.area(path, Role.MAT)
        pen.line(path, Role.OUTLINE)
    for hole in template.holes:
        path = outline_path(hole, scale=view.scale, left_mm=view.left_mm, base_mm=view.base_mm)
        pen.area(path, Role.PICTURE)
        pen.line(path, Role.OUTLINE)
    for zone in template.zones:
        pen.line(outline_path(zone, scale=view.scale, left_mm=view.left_mm, base_mm=view.base_mm), Role.HIDDEN)
    for mark in template.marks:
        pen.line(run([view.at(mark.start), view.at(mark.end)]), Role.EDGE)
    return pen.svg()


def wide_panel_mm(template: Template) -> Size:
    """The panel of a template that stands alone, no higher than it needs."""
    return WIDE_MM, min(TALLEST_MM, (WIDE_MM - 2 * AIR_MM) * template.up_mm / template.across_mm + 2 * AIR_MM)


def _view(template: Template, panel_mm: Size) -> View:
    """Fill the panel, in its middle."""
    across_mm, up_mm = panel_mm
    scale = min((across_mm - 2 * AIR_MM) / template.across_mm, (up_mm - 2 * AIR_MM) / template.up_mm)
    return View(
        scale=scale,
        left_mm=(across_mm - template.across_mm * scale) / 2,
        base_mm=(up_mm + template.up_mm * scale) / 2,
    )
