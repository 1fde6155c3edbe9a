"""The section: a member cut across, face up, with the package in place against the lip and the picture to the right.

The outline is the true profile, its arcs arcs; the wood shows its end grain. Layers lie in their order and thickness;
the room behind them, or how far they stand proud, is dimensioned. The package is drawn centred, so the gap at
the rabbet wall is half the clearance.
"""

from framecalc.drawing.breaks import break_line
from framecalc.drawing.dimension import Axis, DimensionSpan, draw_dimension, draw_on_shelf
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.package.layers import (
    DrawnLayer,
    LayerStrip,
    Named,
    Pointed,
    draw_leaders_left,
    draw_leaders_right,
    draw_strips,
    read_cover,
    read_layers,
    section_up_mm,
    stack_strips,
)
from framecalc.drawing.pen import Pen, number, outline_path
from framecalc.drawing.record import Drawing, PaperDrawing
from framecalc.drawing.setting_out.section_layout import Body, Layout, lay_out
from framecalc.drawing.setting_out.section_retainer import DrawnRetainer, draw_retainer, read_retainer
from framecalc.drawing.setting_out.tray import TRAY
from framecalc.drawing.sheet import Area, Sheet, View
from framecalc.drawing.style import HEART_MM, Role
from framecalc.geometry.outline import Outline
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure, named_figure
from framecalc.records import Record, replace
from framecalc.units import TOLERANCE_MM, Unit
from framecalc.words import Words, joined, say, worded

BAR_MM = 38.0
"""How far from the left the scale bar of a panel and its words reach at most."""

COVER_INSIDE_MM = 1.0
"""How far the dust cover is drawn inside the outer edge, on the sheet."""


class Figures(Record):
    """The sizes written on a section."""

    face_width: Figure
    thickness: Figure
    rabbet_width: Figure
    rabbet_depth: Figure
    each_side: Figure
    spare: Figure


class RabbetSection(Record):
    """All that the drawing of a rabbeted section reads from a plan."""

    outline: Outline
    face_width_mm: float
    thickness_mm: float
    rabbet_width_mm: float
    rabbet_depth_mm: float
    gap_mm: float
    spare_mm: float
    layers: tuple[DrawnLayer, ...]
    cover: DrawnLayer | None
    retainer: DrawnRetainer | None
    figures: Figures
    moulding: str
    unit: Unit
    words: Words
    name: str

    @property
    def land_mm(self) -> float:
        """From the outside to the rabbet wall."""
        return self.face_width_mm - self.rabbet_width_mm

    @property
    def body(self) -> Body:
        """The parts that take room on the sheet."""
        return Body(
            outline=self.outline,
            face_width_mm=self.face_width_mm,
            thickness_mm=self.thickness_mm,
            land_mm=self.land_mm,
            rabbet_depth_mm=self.rabbet_depth_mm,
            below_mm=self.below_mm,
            layers=self.named,
        )

    @property
    def named(self) -> tuple[Named, ...]:
        """All that is labelled: the package, the dust cover behind it, and what holds it."""
        return (*self.layers, *(one for one in (self.cover, self.retainer) if one))

    @property
    def proud_mm(self) -> float:
        """How far the package stands proud of the back."""
        return max(0.0, -self.spare_mm)

    @property
    def below_mm(self) -> float:
        """How far the package or its retainer reaches below the back."""
        return max(self.proud_mm, self.retainer.below_mm if self.retainer else 0.0)


def read_rabbet_section(plan: FramePlan) -> RabbetSection:
    """Read from a plan what the section of a rabbeted member shows."""
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
        cover=read_cover(plan),
        retainer=read_retainer(plan, gap_mm=gap_mm),
        figures=Figures(
            face_width=figures["face_width"],
            thickness=figures["thickness"],
            rabbet_width=figures["rabbet_width"],
            rabbet_depth=figures["rabbet_depth"],
            each_side=named_figure("", "clearance, each side", gap_mm, step=plan.step.finer),
            spare=figures["left_over"] if "left_over" in figures else figures["proud"],
        ),
        moulding=plan.bought_as,
        unit=plan.unit,
        words=plan.project.shop.words,
        name=plan.frame.name,
    )


def rabbet_section_title(section: RabbetSection) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    state = "of room behind the package" if section.spare_mm >= 0 else "of the package stands proud"
    spare = f"{section.figures.spare.text} {section.unit}"
    what = joined(", ", filter(None, (section.name, section.moulding)))
    held = (section.retainer.kind.value,) if section.retainer else ()
    told = joined(", ", [worded(state), *(worded("held by {it}", it=worded(it)) for it in held)])
    return say("Section of {name}: {spare} {told}", section.words, name=what, spare=spare, told=told)


def draw_rabbet_section(section: RabbetSection, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the section; returns the scale, which a paper prints."""
    layout = lay_out(section.body, sheet=sheet, room=room, unit=section.unit)
    _draw_member(section, layout, pen)
    _draw_package(section, sheet, layout, pen)
    _draw_member_sizes(section, sheet, layout, pen)
    if section.layers:
        _draw_clearance(section, sheet, layout, pen)
    _draw_depths(section, sheet, layout, pen)
    _name_moulding(section, sheet, layout, pen)
    return layout.view.scale


def _draw_member(section: RabbetSection, layout: Layout, pen: Pen) -> None:
    """The wood, in one piece or in the two parts of a broken member."""
    view, rings = layout.view, pen.rings((layout.leaders_mm - 15, layout.view.base_mm + HEART_MM))
    if layout.cut_mm is None:
        path = _outline(section, view)
        pen.area(path, Role.LAYER, fill=rings)
        pen.line(path, Role.OUTLINE)
        return
    outer = replace(view, left_mm=layout.outer_mm)
    for part, x_mm in ((outer, outer.x(layout.cut_mm[0])), (view, view.x(layout.cut_mm[1]))):
        _draw_part(section, part, x_mm, pen, rings, is_outer=part is outer)


def _name_moulding(section: RabbetSection, sheet: Sheet, layout: Layout, pen: Pen) -> None:
    """Under the land of a bought moulding what it is called, or where that is too long, that it is bought."""
    room_mm = layout.view.x(section.land_mm) - layout.outer_mm
    names = (section.moulding, "bought moulding", "bought") if section.moulding else ()
    fitting = (name for one in names if text_across_mm(name := say(one, section.words)) <= room_mm)
    for name in [*fitting][:1]:
        pen.text(name, (layout.outer_mm, _lane_below(section, sheet, layout.view, 2)))


def _draw_part(section: RabbetSection, view: View, x_mm: float, pen: Pen, rings: str, *, is_outer: bool) -> None:
    """One side of a broken member, up to its break line."""
    wave = break_line((x_mm, view.y(section.thickness_mm) - 1), (x_mm, view.y(0) + 1))
    far_mm = x_mm - 200 if is_outer else x_mm + 200
    clip = pen.clip(f"{wave}H{number(far_mm)}V{number(view.y(section.thickness_mm) - 1)}Z")
    path = _outline(section, view)
    pen.area(path, Role.LAYER, fill=rings, clip=clip)
    pen.area(path, Role.OUTLINE, clip=clip)
    pen.line(wave, Role.BREAK)


def _outline(section: RabbetSection, view: View) -> str:
    return outline_path(section.outline, scale=view.scale, left_mm=view.left_mm, base_mm=view.base_mm)


def _draw_package(section: RabbetSection, sheet: Sheet, layout: Layout, pen: Pen) -> None:
    view = layout.view
    strips = stack_strips(
        section.layers,
        left_mm=view.x(section.land_mm + section.gap_mm),
        top_mm=view.y(section.rabbet_depth_mm),
        right_mm=layout.break_mm,
        scale=view.scale,
    )
    strips += _cover_strips(section, layout)
    draw_strips(pen, strips, break_mm=layout.break_mm)
    pointed: list[Pointed] = [*strips]
    if section.retainer:
        from_mm = layout.cut_mm[1] if layout.cut_mm else 0.0
        pointed.append(draw_retainer(section.retainer, view, pen, from_mm=from_mm, break_mm=layout.break_mm))
    pointed.sort(key=lambda one: one.middle_mm)
    if layout.labels_left:
        draw_leaders_left(pen, pointed, first_mm=layout.leaders_mm, labels_mm=layout.labels_mm)
    else:
        draw_leaders_right(
            pen, pointed, first_mm=layout.leaders_mm, labels_mm=layout.labels_mm, limit_mm=sheet.across_mm - 1
        )


def _cover_strips(section: RabbetSection, layout: Layout) -> list[LayerStrip]:
    """The dust cover: over the back of the member, a little inside its outer edge, and over a package that is proud."""
    if section.cover is None:
        return []
    view = layout.view
    return stack_strips(
        (section.cover,),
        left_mm=layout.outer_mm + COVER_INSIDE_MM,
        top_mm=view.y(-section.proud_mm),
        right_mm=layout.break_mm,
        scale=view.scale,
    )


def _draw_member_sizes(section: RabbetSection, sheet: Sheet, layout: Layout, pen: Pen) -> None:
    """Face width above, thickness to the left, rabbet width below."""
    view, figures, outer_mm = layout.view, section.figures, layout.outer_mm
    top_mm, base_mm = view.y(section.thickness_mm), view.y(0)
    wall_mm, sight_mm = view.x(section.land_mm), view.x(section.face_width_mm)
    face = DimensionSpan(
        from_mm=outer_mm,
        to_mm=sight_mm,
        feet_mm=(top_mm, top_mm),
        figure=figures.face_width,
        wordings=("face width {}", "{}"),
    )
    thickness = _thickness(section, layout)
    rabbet = DimensionSpan(
        from_mm=wall_mm,
        to_mm=sight_mm,
        feet_mm=(base_mm, view.y(_lowest_mm(section))),
        figure=figures.rabbet_width,
        wordings=tuple(say(wording, section.words) for wording in ("rabbet width {}", "rabbet {}", "{}")),
    )
    draw_dimension(pen, face, axis=Axis.ACROSS, lane_mm=top_mm - sheet.lane_above(0), toward=-1, limit_mm=outer_mm)
    draw_dimension(pen, thickness, axis=Axis.UP, lane_mm=outer_mm - sheet.lane(0), toward=1, limit_mm=base_mm)
    draw_dimension(
        pen, rabbet, axis=Axis.ACROSS, lane_mm=_lane_below(section, sheet, view, 1), toward=1, limit_mm=sight_mm
    )


def _thickness(section: RabbetSection, layout: Layout) -> DimensionSpan:
    return DimensionSpan(
        from_mm=layout.view.y(section.thickness_mm),
        to_mm=layout.view.y(0),
        feet_mm=(layout.outer_mm, layout.outer_mm),
        figure=section.figures.thickness,
        wordings=("thickness {}", "{}"),
    )


def _lowest_mm(section: RabbetSection) -> float:
    """How far above the back the lowest part under the lip lies: where an extension line goes through no layer."""
    return min(section.spare_mm, section.rabbet_depth_mm) if section.layers else section.rabbet_depth_mm


def _lane_below(section: RabbetSection, sheet: Sheet, view: View, lane: int) -> float:
    return view.y(-section.below_mm) + sheet.lane(lane)


def _draw_clearance(section: RabbetSection, sheet: Sheet, layout: Layout, pen: Pen) -> None:
    """The gap at the rabbet wall: half the clearance, as the package is drawn centred."""
    view = layout.view
    wall_mm, lane_mm = view.x(section.land_mm), _lane_below(section, sheet, view, 0)
    if section.gap_mm <= TOLERANCE_MM:
        pen.text("no clearance", (wall_mm - 1.5, lane_mm), anchor="end", role=Role.STRONG, figure="clearance_across")
        return
    gap = DimensionSpan(
        from_mm=wall_mm,
        to_mm=view.x(section.land_mm + section.gap_mm),
        feet_mm=(view.y(0), view.y(_lowest_mm(section))),
        figure=section.figures.each_side,
        wordings=(),
    )
    is_low = _thickness(section, layout).on(sheet).inside is None  # its figure stands beside this one
    free_mm = wall_mm - 5 - (layout.outer_mm - sheet.lane(0) if is_low else 0)
    fullest = ("clearance {} each side", "{} each side", "{}")
    fits = next((one for one in fullest if gap.on(sheet).across_mm(one) <= free_mm), "")
    toward, limit_mm = (-1, wall_mm) if fits else (1, view.x(section.face_width_mm))
    gap = replace(gap, beyond=fits or "{}")
    draw_dimension(pen, gap, axis=Axis.ACROSS, lane_mm=lane_mm, toward=toward, limit_mm=limit_mm)


def _draw_depths(section: RabbetSection, sheet: Sheet, layout: Layout, pen: Pen) -> None:
    """Beside the break: the room behind or how far it is proud, then the depth of the rabbet."""
    view, base_mm = layout.view, layout.view.y(0)
    back_mm, lip_mm = view.y(section.spare_mm), view.y(section.rabbet_depth_mm)
    spare_lane_mm, depth_lane_mm = layout.break_mm + sheet.lane(0) - 1, layout.break_mm + sheet.lane(1)
    wall_mm = view.x(section.land_mm)
    if section.layers and abs(section.spare_mm) > TOLERANCE_MM:
        word = _room_word(section, sheet, spare_lane_mm)
        words = (word, word.replace("room behind", "room"))
        ends = sorted((back_mm, base_mm))
        feet = (layout.break_mm, wall_mm if section.spare_mm > 0 else layout.break_mm)
        spare = DimensionSpan(
            from_mm=ends[0], to_mm=ends[1], feet_mm=feet, figure=section.figures.spare, wordings=words, beyond=word
        )
        draw_on_shelf(pen, spare, lane_mm=spare_lane_mm, shelf_mm=_lane_below(section, sheet, view, 2))
    depth = DimensionSpan(
        from_mm=lip_mm,
        to_mm=base_mm,
        feet_mm=(layout.break_mm, layout.break_mm),
        figure=section.figures.rabbet_depth,
        wordings=("depth {}", "{}"),
    )
    limit_mm = max(base_mm, back_mm)
    draw_dimension(pen, depth, axis=Axis.UP, lane_mm=depth_lane_mm, toward=1, limit_mm=limit_mm)


def _room_word(section: RabbetSection, sheet: Sheet, lane_mm: float) -> str:
    """What is dimensioned behind the package; in few words where the full ones would reach the scale bar."""
    if section.spare_mm < 0:
        return "proud {}"
    across_mm = text_across_mm(f"room behind {section.figures.spare.text}", size_mm=sheet.figure_mm)
    return "room behind {}" if lane_mm - across_mm > BAR_MM or sheet.is_paper else "room {}"


SECTION = Drawing(
    name="section",
    label="Section",
    read=read_rabbet_section,
    title=rabbet_section_title,
    draw=draw_rabbet_section,
    up_mm=lambda section: section_up_mm(section.named),
    of_every_frame=True,
    paper=PaperDrawing(name="section", label="Section"),
    in_tray=TRAY,
)
