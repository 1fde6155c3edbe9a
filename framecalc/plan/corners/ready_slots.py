"""The slots of a joint: for the loose tenon as typed, and for the sizes that are offered of every kind."""

from framecalc.corners.joints.slot_kinds import (
    USUAL_GLUE_ROOM_MM,
    USUAL_TENON_MM,
    Slot,
    biscuit_slot,
    dowel_hole,
    mortise,
    usual_tenons,
)
from framecalc.project.joint import Joint
from framecalc.records import replace
from framecalc.tables.wood import TenonThickness, biscuits, dowels, tenon_thicknesses
from framecalc.units import Length, Unit

SLOT_KINDS = ("loose tenon", "biscuit", "dowel")


def ready_slots(kind: str, joint: Joint, *, unit: Unit) -> tuple[Slot, ...]:
    """The slots of every size that is offered of a kind of joint; none if it needs no slot.

    Args:
        kind: the kind of joint, one of `SLOT_KINDS`.
        joint: gives the width and depth of a mortise, or the length of its tenon.
        unit: that of the project, in which the thicknesses of tenons are plain.
    """
    if kind == "loose tenon":
        plain = (one for one in reversed(tenon_thicknesses()) if one.is_metric is (unit is Unit.MM))
        return tuple(_mortise(joint, tenon_name(one), one.thickness_mm) for one in plain)
    if kind == "biscuit":
        return tuple(biscuit_slot(biscuit) for biscuit in biscuits())
    if kind == "dowel":
        return tuple(dowel_hole(dowel) for dowel in dowels())
    return ()


def chosen_slot(kind: str, joint: Joint, *, offered: tuple[Slot, ...]) -> Slot | None:
    """The slot for the tenon as typed, or that of the size chosen among those offered."""
    if kind == "loose tenon":
        return typed_mortise(joint)
    return next((slot for slot in offered if slot.name == joint.size), None)


def typed_mortise(joint: Joint) -> Slot | None:
    """The slot for the tenon as typed, named by its sizes; nothing while its thickness or its depth is not known."""
    if joint.tenon_thickness is None or not (joint.depth or joint.tenon_length):
        return None
    name = _sizes(joint.tenon_thickness, joint.tenon_length)
    return _mortise(joint, f"tenon {name}", joint.tenon_thickness.mm)


def usual_tenon_names(*, thickness_mm: float) -> frozenset[str]:
    """The plain tenons that are no thicker than a third of the stock."""
    return frozenset(map(tenon_name, usual_tenons(tenon_thicknesses(), thickness_mm=thickness_mm)))


def tenon_name(thickness: TenonThickness) -> str:
    """The name of a slot for a tenon of a plain thickness."""
    return f"tenon {thickness.size}"


def _mortise(joint: Joint, name: str, thickness_mm: float) -> Slot:
    """As wide as typed and as deep; else half of the tenon and its glue room deep."""
    length_mm = joint.tenon_length.mm if joint.tenon_length else USUAL_TENON_MM
    depth_mm = joint.depth.mm if joint.depth else (length_mm + USUAL_GLUE_ROOM_MM) / 2
    return replace(mortise(width_mm=joint.width.mm, depth_mm=depth_mm, thickness_mm=thickness_mm), name=name)


def _sizes(thickness: Length, length: Length | None) -> str:
    """Thickness × length as typed, their unit once where it is the same."""
    if length is None:
        return thickness.text
    number, _, unit = thickness.text.rpartition(" ")
    return f"{number if length.text.endswith(f' {unit}') else thickness.text} × {length.text}"
