"""The section: a member cut across, face up, with the package in place against the lip and the picture to the right.

The outline is the true profile, its arcs arcs; the wood shows its end grain. Layers lie in their order and thickness;
what is left over behind them, or how far they stand proud, is dimensioned. The package is drawn centred, so the gap at
the rabbet wall is half the clearance.
"""

from dataclasses import dataclass

from framecalc.drawing.dimension import Axis, Span, draw_dimension, draw_on_shelf
from framecalc.drawing.layers import (
    LABEL_MM,
    LEADER_MM,
    Sheetlike,
    draw_leaders_left,
    draw_leaders_right,
    draw_strips,
    read_layers,
    stack_strips,
    widest_label_mm,
)
from framecalc.drawing.page import Box, Sheet, View, fit_scale
from framecalc.drawing.pen import Pen, outline_path
from framecalc.drawing.style import LETTER_MM, Hatch, Role
from framecalc.figures import Figure
from framecalc.outline import Outline
from framecalc.plan import FramePlan
from framecalc.units import TOLERANCE_MM, Unit
from framecalc.words import Words, localise

TO_LEADERS_MM, TO_BREAK_MM = 4.0, 3.0
"""From the sight edge to the first leader, and from the last one to where the package is broken off."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """The sizes written on a section."""

    face_width: Figure
    thickness: Figure
    rabbet_width: Figure
    rabbet_depth: Figure
    clearance: Figure
    spare: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class RabbetSection:
    """All that the drawing of a rabbeted section reads from a plan."""

    outline: Outline
    face_width_mm: float
    thickness_mm: float
    rabbet_width_mm: float
    rabbet_depth_mm: float
    gap_mm: float
    spare_mm: float
    layers: tuple[Sheetlike, ...]
    figures: Figures
    unit: Unit
    words: Words
    name: str

    @property
    def land_mm(self) -> float:
        """From the outside to the rabbet wall."""
        return self.face_width_mm - self.rabbet_width_mm

    @property
    def proud_mm(self) -> float:
        """How far the package stands out behind the member."""
        return max(0.0, -self.spare_mm)


def read_rabbet_section(plan: FramePlan) -> RabbetSection:
    """Take from a plan what the section of a rabbeted member shows."""
    section, gap_mm = plan.section, plan.sizes.clearance_across_mm / 2
    figures = plan.figures
    return RabbetSection(
        outline=section.outline,
        face_width_mm=figures["face_width"].exact_mm,
        thickness_mm=figures["thickness"].exact_mm,
        rabbet_width_mm=figures["rabbet_width"].exact_mm,
        rabbet_depth_mm=figures["rabbet_depth"].exact_mm,
        gap_mm=gap_mm,
        spare_mm=plan.seat.left_over_mm,
        layers=read_layers(plan, sight_mm=figures["rabbet_width"].exact_mm - gap_mm),
        figures=Figures(
            face_width=figures["face_width"],
            thickness=figures["thickness"],
            rabbet_width=figures["rabbet_width"],
            rabbet_depth=figures["rabbet_depth"],
            clearance=figures["clearance_across"],
            spare=figures["left_over"] if "left_over" in figures else figures["proud"],
        ),
        unit=plan.unit,
        words=plan.project.shop.words,
        name=plan.frame.name,
    )


def rabbet_section_title(section: RabbetSection) -> str:
    """What a reader who cannot see the drawing is told."""
    state = "left over behind the package" if section.spare_mm >= 0 else "of the package stand proud"
    told = f"Section of {section.name}: {section.figures.spare.text} {section.unit} {state}"
    return localise(told, section.words)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Layout:
    """Where the parts of the drawing lie on the sheet."""

    view: View
    labels_left: bool
    labels_mm: float
    leaders_mm: float
    break_mm: float


def draw_rabbet_section(section: RabbetSection, sheet: Sheet, pen: Pen, room: Box) -> float:
    """Draw the section; returns the scale, which a paper states."""
    layout = _laid_out(section, sheet, room)
    view = layout.view
    path = outline_path(section.outline, scale=view.scale, left_mm=view.left_mm, base_mm=view.base_mm)
    pen.area(path, Role.LAYER, hatch=Hatch.END_GRAIN)
    pen.line(path, Role.OUTLINE)
    _draw_package(section, sheet, layout, pen)
    _draw_member_sizes(section, sheet, view, pen)
    _draw_clearance(section, sheet, view, pen)
    _draw_depths(section, sheet, layout, pen)
    return view.scale


def _laid_out(section: RabbetSection, sheet: Sheet, room: Box) -> _Layout:
    """Put the labels above the member, or to the right of its lip, whichever leaves the member larger."""
    room = _inner(room, sheet)
    above, beside = _largest_above(section, sheet, room), _largest_beside(section, sheet, room)
    labels_left = above >= beside
    scale = fit_scale(max(above, beside), sheet=sheet, unit=section.unit)
    labels_up_mm = len(section.layers) * LABEL_MM
    top_mm = (labels_up_mm if labels_left else 0) + sheet.lanes_above(1)
    if not labels_left:
        top_mm = max(top_mm, labels_up_mm + 2 - (section.thickness_mm - section.rabbet_depth_mm) * scale)
    up_mm = top_mm + (section.thickness_mm + section.proud_mm) * scale
    across_mm = section.face_width_mm * scale + _beside_mm(section)
    start_mm = room.top_mm + (room.up_mm - up_mm) / 2
    view = View(
        scale=scale,
        left_mm=room.left_mm + max(0.0, (room.across_mm - across_mm) / 2),
        base_mm=start_mm + top_mm + section.thickness_mm * scale,
    )
    leaders_mm = view.x(section.face_width_mm) + TO_LEADERS_MM
    return _Layout(
        view=view,
        labels_left=labels_left,
        labels_mm=start_mm + LABEL_MM / 2,
        leaders_mm=leaders_mm,
        break_mm=leaders_mm + _leaders_mm(section) + TO_BREAK_MM,
    )


def _leaders_mm(section: RabbetSection) -> float:
    return max(0, len(section.layers) - 1) * LEADER_MM


def _beside_mm(section: RabbetSection) -> float:
    """From the sight edge to the break."""
    return TO_LEADERS_MM + _leaders_mm(section) + TO_BREAK_MM


def _inner(room: Box, sheet: Sheet) -> Box:
    """What is left for member, package and labels inside the dimension lanes."""
    return room.less(left_mm=sheet.first_lane_mm + LETTER_MM, right_mm=sheet.lane(1) + 1.2, bottom_mm=sheet.lanes(2))


def _largest_above(section: RabbetSection, sheet: Sheet, room: Box) -> float:
    up_mm = room.up_mm - len(section.layers) * LABEL_MM - sheet.lanes_above(1)
    return min(
        up_mm / (section.thickness_mm + section.proud_mm),
        (room.across_mm - _beside_mm(section)) / section.face_width_mm,
    )


def _largest_beside(section: RabbetSection, sheet: Sheet, room: Box) -> float:
    labels_mm = TO_LEADERS_MM + _leaders_mm(section) + 2 + widest_label_mm(section.layers)
    right_mm = max(_beside_mm(section), labels_mm - sheet.lane(1))
    under_lip_mm = section.rabbet_depth_mm + section.proud_mm
    return min(
        (room.up_mm - sheet.lanes_above(1)) / (section.thickness_mm + section.proud_mm),
        (room.up_mm - len(section.layers) * LABEL_MM - 2) / under_lip_mm,
        (room.across_mm - right_mm) / section.face_width_mm,
    )


def _draw_package(section: RabbetSection, sheet: Sheet, layout: _Layout, pen: Pen) -> None:
    view = layout.view
    strips = stack_strips(
        section.layers,
        left_mm=view.x(section.land_mm + section.gap_mm),
        top_mm=view.y(section.rabbet_depth_mm),
        right_mm=layout.break_mm,
        scale=view.scale,
    )
    draw_strips(pen, strips, break_mm=layout.break_mm)
    if layout.labels_left:
        draw_leaders_left(pen, strips, first_mm=layout.leaders_mm, labels_mm=layout.labels_mm)
    else:
        draw_leaders_right(
            pen, strips, first_mm=layout.leaders_mm, labels_mm=layout.labels_mm, limit_mm=sheet.across_mm - 1
        )


def _draw_member_sizes(section: RabbetSection, sheet: Sheet, view: View, pen: Pen) -> None:
    """Face width above, thickness to the left, rabbet width below."""
    figures, top_mm, base_mm = section.figures, view.y(section.thickness_mm), view.y(0)
    wall_mm, sight_mm = view.x(section.land_mm), view.x(section.face_width_mm)
    face = Span(
        from_mm=view.x(0),
        to_mm=sight_mm,
        feet_mm=(top_mm, top_mm),
        figure=figures.face_width,
        wordings=("face width {}", "{}"),
    )
    thickness = Span(
        from_mm=top_mm,
        to_mm=base_mm,
        feet_mm=(view.x(0), view.x(0)),
        figure=figures.thickness,
        wordings=("thickness {}", "{}"),
    )
    rabbet = Span(
        from_mm=wall_mm,
        to_mm=sight_mm,
        feet_mm=(base_mm, view.y(section.rabbet_depth_mm)),
        figure=figures.rabbet_width,
        wordings=(localise("rabbet {}", section.words), "{}"),
    )
    draw_dimension(pen, face, axis=Axis.ACROSS, lane_mm=top_mm - sheet.lane_above(0), toward=-1, limit_mm=view.x(0))
    draw_dimension(pen, thickness, axis=Axis.UP, lane_mm=view.x(0) - sheet.lane(0), toward=1, limit_mm=base_mm)
    draw_dimension(
        pen, rabbet, axis=Axis.ACROSS, lane_mm=_lane_below(section, sheet, view, 1), toward=1, limit_mm=sight_mm
    )


def _lane_below(section: RabbetSection, sheet: Sheet, view: View, lane: int) -> float:
    return view.y(-section.proud_mm) + sheet.lane(lane)


def _draw_clearance(section: RabbetSection, sheet: Sheet, view: View, pen: Pen) -> None:
    """The gap at the rabbet wall: half the clearance, as the package is drawn centred."""
    wall_mm, lane_mm = view.x(section.land_mm), _lane_below(section, sheet, view, 0)
    if section.gap_mm <= TOLERANCE_MM:
        pen.text("no clearance", (wall_mm - 1.5, lane_mm), anchor="end", role=Role.STRONG, figure="clearance_across")
        return
    gap = Span(
        from_mm=wall_mm,
        to_mm=view.x(section.land_mm + section.gap_mm),
        feet_mm=(view.y(0), view.y(min(section.spare_mm, section.rabbet_depth_mm))),
        figure=section.figures.clearance,
        wordings=(),
        beyond="clearance ½ × {}",
    )
    draw_dimension(pen, gap, axis=Axis.ACROSS, lane_mm=lane_mm, toward=-1, limit_mm=wall_mm)


def _draw_depths(section: RabbetSection, sheet: Sheet, layout: _Layout, pen: Pen) -> None:
    """Beside the break: what is left over or proud, then the depth of the rabbet."""
    view, base_mm = layout.view, layout.view.y(0)
    back_mm, lip_mm = view.y(section.spare_mm), view.y(section.rabbet_depth_mm)
    spare_lane_mm, depth_lane_mm = layout.break_mm + sheet.lane(0) - 1, layout.break_mm + sheet.lane(1) - 1
    wall_mm = view.x(section.land_mm)
    if abs(section.spare_mm) > TOLERANCE_MM:
        word = "spare {}" if section.spare_mm > 0 else "proud {}"
        ends = sorted((back_mm, base_mm))
        feet = (layout.break_mm, wall_mm) if back_mm < base_mm else (wall_mm, layout.break_mm)
        spare = Span(
            from_mm=ends[0], to_mm=ends[1], feet_mm=feet, figure=section.figures.spare, wordings=(word,), beyond=word
        )
        draw_on_shelf(pen, spare, lane_mm=spare_lane_mm, shelf_mm=_lane_below(section, sheet, view, 0))
    depth = Span(
        from_mm=lip_mm,
        to_mm=base_mm,
        feet_mm=(layout.break_mm, layout.break_mm),
        figure=section.figures.rabbet_depth,
        wordings=("depth {}", "{}"),
    )
    limit_mm = max(base_mm, back_mm)
    draw_dimension(pen, depth, axis=Axis.UP, lane_mm=depth_lane_mm, toward=1, limit_mm=limit_mm)
