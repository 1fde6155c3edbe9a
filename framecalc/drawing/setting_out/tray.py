"""The section of a tray: an L with the artwork on its ledge, face up, an even gap to the wall, and nothing over it."""

from framecalc.drawing.dimension import Axis, DimensionSpan, draw_dimension, draw_lanes
from framecalc.drawing.package.layers import (
    LABEL_MM,
    LEADER_MM,
    DrawnLayer,
    draw_leaders_left,
    draw_strips,
    read_layers,
    section_up_mm,
    stack_strips,
)
from framecalc.drawing.pen import Pen, outline_path, run
from framecalc.drawing.record import Drawing
from framecalc.drawing.sheet import Area, Sheet, View, fit_scale
from framecalc.drawing.style import HEART_MM, Role
from framecalc.geometry.outline import Outline
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM, Unit
from framecalc.words import Words, joined, say, worded

LEDGE_LANE_MM, TO_LEADERS_MM, TO_BREAK_MM = 5.0, 9.0, 3.0
"""From the ledge's edge to its dimension line and to the first leader; from the last leader to the break."""


class TrayDrawing(Record):
    """All that the drawing of a tray's section reads from a plan; `is_glued`: its ledge is a strip of its own."""

    outline: Outline
    is_glued: bool
    wall: Figure
    height: Figure
    gap: Figure
    ledge_width: Figure
    ledge_thickness: Figure
    spare: Figure
    spare_mm: float
    layers: tuple[DrawnLayer, ...]
    moulding: str
    unit: Unit
    words: Words
    name: str

    @property
    def foot_mm(self) -> float:
        """From the outside to the ledge's edge."""
        return self.wall.exact_mm + self.ledge_width.exact_mm

    @property
    def proud_mm(self) -> float:
        """How far the artwork stands over the wall."""
        return max(0.0, -self.spare_mm)


def read_tray(plan: FramePlan) -> TrayDrawing:
    """Read from a plan what the section of a tray shows."""
    figures = plan.figures
    return TrayDrawing(
        outline=plan.section.outline,
        is_glued=plan.has_loose_ledge,
        wall=figures["face_width"],
        height=figures["thickness"],
        gap=figures["tray_gap"],
        ledge_width=figures["ledge_width"],
        ledge_thickness=figures["ledge_thickness"],
        spare=figures["left_over"] if "left_over" in figures else figures["proud"],
        spare_mm=plan.seat.left_over_mm,
        layers=read_layers(plan),
        moulding=plan.bought_as,
        unit=plan.unit,
        words=plan.project.shop.words,
        name=plan.frame.name,
    )


def tray_title(tray: TrayDrawing) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    state = "below the top of the wall" if tray.spare_mm >= 0 else "above the top of the wall"
    glued = ", on a ledge that is glued to the wall" if tray.is_glued else ""
    lies = f"the artwork lies {tray.spare.text} {tray.unit} {state}{glued}"
    what = joined(", ", filter(None, (tray.name, tray.moulding)))
    return say("Section of {name}: {lies}", tray.words, name=what, lies=worded(lies))


def draw_tray(tray: TrayDrawing, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the section of a tray; returns the scale, which a paper prints."""
    view, break_mm, labels_mm = _laid_out(tray, sheet, room)
    path = outline_path(tray.outline, scale=view.scale, left_mm=view.left_mm, base_mm=view.base_mm)
    heart = (view.x(tray.foot_mm * 0.7), view.base_mm + HEART_MM)
    pen.area(path, Role.LAYER, fill=pen.rings(heart))
    pen.line(path, Role.OUTLINE)
    if tray.is_glued:
        seam_mm = view.x(tray.wall.exact_mm)
        pen.line(run([(seam_mm, view.y(0)), (seam_mm, view.y(tray.ledge_thickness.exact_mm))]), Role.OUTLINE)
    strips = stack_strips(
        tray.layers,
        left_mm=view.x(tray.wall.exact_mm + tray.gap.exact_mm),
        top_mm=view.y(tray.height.exact_mm - tray.spare_mm),
        right_mm=break_mm,
        scale=view.scale,
    )
    draw_strips(pen, strips, break_mm=break_mm)
    draw_leaders_left(pen, strips, first_mm=view.x(tray.foot_mm) + TO_LEADERS_MM, labels_mm=labels_mm)
    _draw_above(tray, sheet, view, pen)
    _draw_beside(tray, sheet, view, break_mm, pen)
    _draw_ledge(tray, sheet, view, pen)
    return view.scale


def _laid_out(tray: TrayDrawing, sheet: Sheet, room: Area) -> tuple[View, float, float]:
    """Fill the room: lanes above and to both sides, under the ledge its width, and then the labels."""
    beside_mm = TO_LEADERS_MM + max(0, len(tray.layers) - 1) * LEADER_MM + TO_BREAK_MM
    above_mm, below_mm = sheet.lanes_above(2), sheet.lanes(1) + len(tray.layers) * LABEL_MM
    room = room.less(left_mm=sheet.first_lane_mm + sheet.figure_mm, right_mm=sheet.lane(0) + 1.2)
    up_mm = tray.height.exact_mm + tray.proud_mm
    largest = min((room.across_mm - beside_mm) / tray.foot_mm, (room.up_mm - above_mm - below_mm) / up_mm)
    scale = fit_scale(largest, sheet=sheet, unit=tray.unit)
    spare_up_mm = (room.up_mm - above_mm - below_mm - up_mm * scale) / 2
    spare_across_mm = (room.across_mm - beside_mm - tray.foot_mm * scale) / 2
    view = View(
        scale=scale,
        left_mm=room.left_mm + max(0.0, spare_across_mm),
        base_mm=room.top_mm + spare_up_mm + above_mm + up_mm * scale,
    )
    return view, view.x(tray.foot_mm) + beside_mm, view.base_mm + sheet.lanes(1) + LABEL_MM / 2


def _draw_above(tray: TrayDrawing, sheet: Sheet, view: View, pen: Pen) -> None:
    """The gap, and over it the wall."""
    wall_mm, artwork_mm = view.x(tray.wall.exact_mm), view.x(tray.wall.exact_mm + tray.gap.exact_mm)
    top_mm, face_mm = view.y(tray.height.exact_mm), view.y(tray.height.exact_mm - tray.spare_mm)
    highest_mm = min(top_mm, face_mm)
    gap = DimensionSpan(
        from_mm=wall_mm,
        to_mm=artwork_mm,
        feet_mm=(top_mm, face_mm),
        figure=tray.gap,
        wordings=("gap {}",),
        beyond="gap {}",
    )
    wall = DimensionSpan(
        from_mm=view.x(0),
        to_mm=wall_mm,
        feet_mm=(top_mm, top_mm),
        figure=tray.wall,
        wordings=("wall {}",),
        beyond="wall {}",
    )
    lanes = [highest_mm - sheet.lane_above(lane) for lane in range(2)]
    draw_lanes(pen, (gap, wall), axis=Axis.ACROSS, lanes_mm=lanes, toward=1)


def _draw_beside(tray: TrayDrawing, sheet: Sheet, view: View, break_mm: float, pen: Pen) -> None:
    """The wall's height to the left; beside the break how far the artwork lies below the wall's top, or above it."""
    top_mm, base_mm = view.y(tray.height.exact_mm), view.y(0)
    height = DimensionSpan(
        from_mm=top_mm,
        to_mm=base_mm,
        feet_mm=(view.x(0), view.x(0)),
        figure=tray.height,
        wordings=("height {}", "{}"),
    )
    draw_dimension(pen, height, axis=Axis.UP, lane_mm=view.x(0) - sheet.lane(0), toward=1, limit_mm=base_mm)
    if abs(tray.spare_mm) <= TOLERANCE_MM:
        return
    face_mm, wall_mm = view.y(tray.height.exact_mm - tray.spare_mm), view.x(tray.wall.exact_mm)
    below = tray.spare_mm > 0
    word = "recess" if below else "proud"
    spare = DimensionSpan(
        from_mm=top_mm if below else face_mm,
        to_mm=face_mm if below else top_mm,
        feet_mm=(wall_mm, break_mm) if below else (break_mm, wall_mm),
        figure=tray.spare,
        wordings=(f"{word} {{}}",),
        beyond=f"{word} {{}}",
    )
    draw_dimension(pen, spare, axis=Axis.UP, lane_mm=break_mm + sheet.lane(0) - 1, toward=1, limit_mm=spare.to_mm)


def _draw_ledge(tray: TrayDrawing, sheet: Sheet, view: View, pen: Pen) -> None:
    """The ledge's width under it, its thickness beside its edge."""
    top_mm, base_mm = view.y(tray.ledge_thickness.exact_mm), view.y(0)
    wall_mm, edge_mm = view.x(tray.wall.exact_mm), view.x(tray.foot_mm)
    width = DimensionSpan(
        from_mm=wall_mm,
        to_mm=edge_mm,
        feet_mm=(top_mm, base_mm),
        figure=tray.ledge_width,
        wordings=("ledge {}", "{}"),
    )
    thickness = DimensionSpan(
        from_mm=top_mm, to_mm=base_mm, feet_mm=(edge_mm, edge_mm), figure=tray.ledge_thickness, wordings=("{}",)
    )
    draw_dimension(pen, width, axis=Axis.ACROSS, lane_mm=base_mm + sheet.lane(0), toward=-1, limit_mm=wall_mm)
    draw_dimension(pen, thickness, axis=Axis.UP, lane_mm=edge_mm + LEDGE_LANE_MM, toward=1, limit_mm=base_mm)


TRAY = Drawing(
    name="tray", read=read_tray, title=tray_title, draw=draw_tray, up_mm=lambda tray: section_up_mm(tray.layers)
)
