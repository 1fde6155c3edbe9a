"""The sizes of one frame that are shown to anybody, by the names of their figures."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from framecalc.plan.inputs import repeat_mm
from framecalc.section.rabbeted import Section
from framecalc.sizes.from_one_stick import stick_round_mm
from framecalc.sizes.members import mitre_length_mm, slant_kerf_mm

if TYPE_CHECKING:
    from framecalc.plan.frame import FramePlan


def lengths_of(plan: "FramePlan") -> Iterable[tuple[str, float]]:
    """Every size of a frame that is shown to anybody, by the name of its figure [mm]."""
    yield from _size_lengths(plan)
    if not plan.shape.is_rectangle:
        yield from _polygon_lengths(plan)
    yield from _mat_lengths(plan)
    yield from _section_lengths(plan)
    yield "play_across", plan.play.across_mm
    yield "play_up", plan.play.up_mm
    yield "mitre_length", mitre_length_mm(plan.settled.face_width_mm, shape=plan.shape)
    yield "slant_kerf", slant_kerf_mm(plan.project.shop.kerf.mm, sides=plan.shape.sides)
    yield "stick_needed", _stick_mm(plan, plan.sizes.outside_across_mm, plan.sizes.outside_up_mm)


def _stick_mm(plan: "FramePlan", across_mm: float, up_mm: float) -> float:
    """The length of stick for the strips round an outline, by their long edges; a pattern to match takes more."""
    shop, edges_mm = plan.project.shop, plan.shape.edges_mm(across_mm, up_mm)
    matching_mm = len(edges_mm) * repeat_mm(plan.frame)
    return matching_mm + stick_round_mm(edges_mm, kerf_mm=shop.kerf.mm, trim_mm=shop.end_trim.mm)


def _size_lengths(plan: "FramePlan") -> Iterable[tuple[str, float]]:
    sizes, settled = plan.sizes, plan.settled
    yield from _extent(plan, "outside", sizes.outside_across_mm, sizes.outside_up_mm)
    yield from _extent(plan, "sight", sizes.sight_across_mm, sizes.sight_up_mm)
    yield from _extent(plan, "rabbet", sizes.rabbet_across_mm, sizes.rabbet_up_mm)
    yield from _extent(plan, "package", sizes.package_across_mm, sizes.package_up_mm)
    yield "clearance_across", sizes.clearance_across_mm
    yield "clearance_up", sizes.clearance_up_mm
    if plan.package.fillet_mm:
        yield from _extent(plan, "in_view", plan.package.in_view.across_mm, plan.package.in_view.up_mm)
    yield from _extent(plan, "artwork", settled.artwork_across_mm, settled.artwork_up_mm)
    if settled.seen:
        yield "image_across", settled.seen.across_mm
        yield "image_up", settled.seen.up_mm
    if plan.cover:
        for direction in ("across", "up"):
            yield f"cover_worst_{direction}", getattr(plan.cover, f"worst_{direction}_mm")
            yield f"cover_centred_{direction}", getattr(plan.cover, f"centred_{direction}_mm")

    if plan.tray:
        yield from _extent(plan, "ledge", plan.tray.opening_across_mm, plan.tray.opening_up_mm)
        if plan.has_loose_ledge:
            across_mm, up_mm, *_ = plan.shape.edges_mm(plan.tray.inside_across_mm, plan.tray.inside_up_mm)
            yield "ledge_long_across", across_mm
            yield "ledge_long_up", up_mm
            yield "ledge_stick", _stick_mm(plan, plan.tray.inside_across_mm, plan.tray.inside_up_mm)


def _extent(plan: "FramePlan", name: str, across_mm: float, up_mm: float) -> Iterable[tuple[str, float]]:
    """The upright rectangle round one of the outlines of the frame."""
    extent = plan.shape.extent(across_mm, up_mm)
    yield f"{name}_across", extent.across_mm
    yield f"{name}_up", extent.up_mm


def _polygon_lengths(plan: "FramePlan") -> Iterable[tuple[str, float]]:
    """What a polygon is set out by: across its flats, from corner to corner, and its one member."""
    sizes, (member,) = plan.sizes, plan.members
    for name in ("outside", "sight", "rabbet", "package"):
        yield f"{name}_flats", getattr(sizes, f"{name}_across_mm")
    yield "artwork_flats", plan.settled.artwork_across_mm
    if plan.mat:
        yield "window_flats", plan.mat.window_across_mm
    yield "outside_corners", plan.shape.corner_to_corner_mm(sizes.outside_across_mm, sizes.outside_up_mm)
    yield "package_corners", plan.shape.corner_to_corner_mm(sizes.package_across_mm, sizes.package_up_mm)
    yield "member_long", member.long_mm
    yield "member_short", member.short_mm
    if plan.tray:
        yield "ledge_short", plan.shape.edges_mm(plan.tray.opening_across_mm, plan.tray.opening_up_mm)[0]


def _mat_lengths(plan: "FramePlan") -> Iterable[tuple[str, float]]:
    if plan.mat:
        yield from _extent(plan, "window", plan.mat.window_across_mm, plan.mat.window_up_mm)
        yield "border_sides", plan.mat.border_sides_mm
        yield "border_top", plan.mat.border_top_mm
        yield "border_bottom", plan.mat.border_bottom_mm


def _section_lengths(plan: "FramePlan") -> Iterable[tuple[str, float]]:
    section = plan.frame.section
    yield "face_width", plan.settled.face_width_mm
    yield "thickness", section.thickness.mm
    if isinstance(plan.section, Section):
        yield "rabbet_width", section.rabbet_width.mm
        yield "rabbet_depth", section.rabbet_depth.mm
        yield "lip", plan.section.lip_mm
        yield "least_lip", plan.section.least_lip_mm
        yield "land", plan.section.land_mm
    else:
        yield "tray_gap", min(plan.sizes.clearance_across_mm, plan.sizes.clearance_up_mm) / 2
        yield "ledge_width", section.ledge_width.mm
        yield "ledge_thickness", section.ledge_thickness.mm
    yield "stack", plan.stack.nominal_mm
    left_over_mm = plan.seat.left_over_mm
    yield ("left_over", left_over_mm) if left_over_mm >= 0 else ("proud", -left_over_mm)
