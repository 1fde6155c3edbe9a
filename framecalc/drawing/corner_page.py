"""Three drawings of the corners page: the mitre face with its joint, the four corners magnified, the year's gaps.

Each is a panel for the page. Figures in them are the true ones; what is magnified says so.
"""

from collections.abc import Callable

from framecalc.drawing.page import Box, Sheet, panel
from framecalc.drawing.pen import Pen, rectangle, run
from framecalc.drawing.style import Role
from framecalc.outline import Point
from framecalc.plan.corner import CornerPlan
from framecalc.plan.joint import JointPlan
from framecalc.polygons import polygon_corners
from framecalc.seasons import OpensAt
from framecalc.units import Unit, describe_length

MAGNIFIED = 20
"""By how much gaps and steps are magnified in the drawing of the four corners."""

LINE_MM = 4.6
"""From one line of letters to the next."""


def draw_mitre_face(plan: CornerPlan, *, unit: Unit) -> str:
    """Draw the mitre face with the slot or spline in it; the tip is on the left, the back below."""
    stock, joint, sheet = plan.stock, plan.joint, panel(80, 70)
    assert stock is not None and joint is not None
    pen = _pen("mitre-face", sheet, "The mitre face, seen square, with its joint")
    scale = min(66 / stock.mitre_length_mm, 36 / stock.thickness_mm)
    left_mm, base_mm = (80 - stock.mitre_length_mm * scale) / 2, 46.0

    def place(point: Point) -> Point:
        return left_mm + point[0] * scale, base_mm - point[1] * scale

    pen.area(run(map(place, stock.mitre_shape), closed=True), Role.WOOD)
    pen.line(run(map(place, stock.mitre_shape), closed=True), Role.OUTLINE)
    lines = _draw_joint(pen, joint, place, unit)
    pen.text("tip", (left_mm, base_mm + LINE_MM), role=Role.FAINT)
    pen.text("sight edge", (left_mm + stock.mitre_length_mm * scale, base_mm + LINE_MM), role=Role.FAINT, anchor="end")
    for number, line in enumerate(lines):
        pen.text(line, (2, 56 + number * LINE_MM))
    return pen.svg()


def draw_closing(plan: CornerPlan) -> str:
    """Draw the four corners as well as they close: gaps and steps magnified, their figures true."""
    assert plan.closing is not None
    sheet = panel(80, 84)
    pen = _pen("closing", sheet, f"The four corners at their best, gaps shown ×{MAGNIFIED}")
    boxes = {"top-left": (4, 6), "top-right": (44, 6), "bottom-left": (4, 44), "bottom-right": (44, 44)}
    for corner in plan.closing.corners:
        left_mm, top_mm = boxes[corner.corner]
        box = Box(left_mm=left_mm, top_mm=top_mm, right_mm=left_mm + 22, bottom_mm=top_mm + 22)
        _draw_corner(pen, box, corner.corner, corner.outside_gap_mm, corner.inside_gap_mm)
        pen.text(corner.corner, (left_mm, top_mm - 1.4), role=Role.STRONG)
        lines = (
            f"out {_millimetres(corner.outside_gap_mm)}, in {_millimetres(corner.inside_gap_mm)}",
            f"step {_millimetres(abs(corner.step_mm))}",
        )
        for number, line in enumerate(lines):
            pen.text(line, (left_mm, top_mm + 27 + number * LINE_MM))
    pen.text("in mm", (4, 83), role=Role.FAINT)
    pen.text(f"gaps shown ×{MAGNIFIED}", (78, 83), role=Role.FAINT, anchor="end")
    return pen.svg()


def draw_polygon(plan: CornerPlan, *, unit: Unit) -> str:
    """Draw the polygon from the front: outside, sight edge, rabbet size dashed, mitres, corners numbered."""
    sizes = plan.polygon
    assert sizes is not None
    pen = _pen("polygon", panel(80, 82), f"A frame of {sizes.sides} sides, from the front")
    scale, middle = 60 / sizes.outside_corners_mm, (40.0, 37.0)

    def ring(flats_mm: float) -> list[Point]:
        corners = polygon_corners(flats_mm, sides=sizes.sides)
        return [(middle[0] + x_mm * scale, middle[1] - y_mm * scale) for x_mm, y_mm in corners]

    outside, sight = ring(sizes.outside_flats_mm), ring(sizes.sight_flats_mm)
    pen.area(run(outside, closed=True) + run(sight, closed=True), Role.WOOD)
    pen.area(run(sight, closed=True), Role.PICTURE)
    for shape, role in ((outside, Role.OUTLINE), (sight, Role.OUTLINE), (ring(sizes.rabbet_flats_mm), Role.HIDDEN)):
        pen.line(run(shape, closed=True), role)
    for corner, inner in zip(outside, sight, strict=True):
        pen.line(run([corner, inner]), Role.MITRE)
    pen.text(f"outside {describe_length(sizes.outside_flats_mm, unit=unit)} across the flats", (2, 75))
    pen.text(f"sight {describe_length(sizes.sight_flats_mm, unit=unit)}, {sizes.sides} corners alike", (2, 80))
    return pen.svg()


def draw_year(plan: CornerPlan) -> str:
    """Draw the gap of every month: up where the mitre opens at the outside, down where at the inside."""
    year = plan.seasons.year
    assert year is not None
    sheet = panel(80, 58)
    pen = _pen("year", sheet, "How far the mitres would open month by month, if nothing held them")
    zero_mm, step_mm = 27.0, 76 / 12
    scale = 18 / max(year.worst_mm, 0.05)
    for month in year.months:
        left_mm = 2 + (month.month - 1) * step_mm
        up = month.opens is OpensAt.OUTSIDE
        end_mm = zero_mm - month.gap_mm * scale if up else zero_mm + month.gap_mm * scale
        bar = rectangle(left_mm + 1, min(zero_mm, end_mm), left_mm + step_mm - 1, max(zero_mm, end_mm))
        pen.area(bar, Role.PICTURE if up else Role.COVERED)
        pen.line(bar, Role.EDGE)
        pen.text("JFMAMJJASOND"[month.month - 1], (left_mm + step_mm / 2, 57), anchor="middle")
    pen.line(run([(2, zero_mm), (78, zero_mm)]), Role.OUTLINE)
    pen.text(f"opens at the outside, at most {describe_length(year.outside_mm, unit=Unit.MM)}", (2, 4.6))
    pen.text(f"opens at the inside, at most {describe_length(year.inside_mm, unit=Unit.MM)}", (2, 51.6))
    return pen.svg()


def _millimetres(length_mm: float) -> str:
    """A gap as a feeler reads it; the unit is said once in the drawing."""
    return describe_length(max(length_mm, 0.0), unit=Unit.MM).removesuffix(" mm")


def _pen(name: str, sheet: Sheet, title: str) -> Pen:
    return Pen(name=name, across_mm=sheet.across_mm, up_mm=sheet.up_mm, title=title, inline=True)


def _draw_joint(pen: Pen, plan: JointPlan, place: Callable[[Point], Point], unit: Unit) -> list[str]:
    """Draw the slot or the spline, and return the lines that say its marks and walls."""
    if plan.slot_place:
        marks, slot = plan.slot_place.marks, plan.slot_place.slot
        low_mm, high_mm = plan.height_mm - slot.thickness_mm / 2, plan.height_mm + slot.thickness_mm / 2
        _draw_hole(pen, place((marks.near_mm, high_mm)), place((marks.far_mm, low_mm)))
        walls = plan.slot_place.walls
        return [
            f"from {describe_length(marks.near_mm, unit=unit)} off the tip",
            f"to {describe_length(marks.far_mm, unit=unit)} off the tip",
            f"thinnest wall {describe_length(walls.least_mm, unit=unit)}",
        ]
    if plan.spline:
        spline = plan.spline
        low_mm, high_mm = spline.height_mm - spline.kerf_mm / 2, spline.height_mm + spline.kerf_mm / 2
        _draw_hole(pen, place((0, high_mm)), place((spline.depth_mm, low_mm)))
        return [
            f"depth {describe_length(spline.depth_mm, unit=unit)}",
            f"at most {describe_length(spline.deepest_mm, unit=unit)}",
        ]
    return []


def _draw_hole(pen: Pen, upper_left: Point, lower_right: Point) -> None:
    hole = rectangle(*upper_left, *lower_right)
    pen.area(hole, Role.SHADOW)
    pen.line(hole, Role.EDGE)


def _draw_corner(pen: Pen, box: Box, corner: str, outside_mm: float, inside_mm: float) -> None:
    """Two members meeting in the corner of a box, a wedge of light between them."""
    up, across = corner.split("-")
    tip = (box.left_mm if across == "left" else box.right_mm, box.top_mm if up == "top" else box.bottom_mm)
    toward_x, toward_y = (1 if across == "left" else -1), (1 if up == "top" else -1)
    width_mm, reach_mm = 12.0, box.across_mm
    outside_mm, inside_mm = (min(max(gap_mm, 0) * MAGNIFIED / 2**0.5, 9) for gap_mm in (outside_mm, inside_mm))

    def at(along_mm: float, in_mm: float) -> Point:
        return tip[0] + toward_x * along_mm, tip[1] + toward_y * in_mm

    level = [at(outside_mm, 0), at(reach_mm, 0), at(reach_mm, width_mm), at(width_mm + inside_mm, width_mm)]
    upright = [at(0, 0), at(width_mm, width_mm), at(width_mm, reach_mm), at(0, reach_mm)]
    for shape in (level, upright):
        pen.area(run(shape, closed=True), Role.WOOD)
        pen.line(run(shape, closed=True), Role.EDGE)
