"""A template as a small drawing for its page."""

from framecalc.drawing.pen import Pen, outline_path, run
from framecalc.drawing.sheet import View
from framecalc.drawing.style import Role
from framecalc.templates.template import Template

ACROSS_MM, UP_MM, AIR_MM = 48.0, 34.0, 1.0


def template_thumbnail(template: Template, *, name: str) -> str:
    """Draw a template into a small panel, as SVG for a page.

    Args:
        name: where the drawing's ids begin, different for each on a page.
    """
    pen = Pen(name=name, across_mm=ACROSS_MM, up_mm=UP_MM, title=template.title, inline=True)
    view = _view(template)
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


def _view(template: Template) -> View:
    """Fill the panel, in its middle."""
    scale = min((ACROSS_MM - 2 * AIR_MM) / template.across_mm, (UP_MM - 2 * AIR_MM) / template.up_mm)
    return View(
        scale=scale,
        left_mm=(ACROSS_MM - template.across_mm * scale) / 2,
        base_mm=(UP_MM + template.up_mm * scale) / 2,
    )
