"""The ready sizes of tenons, biscuits and dowels."""

from dataclasses import replace

from framecalc.corners.joints.slot_kinds import USUAL_GLUE_ROOM_MM, Slot, biscuit_slot, dowel_hole, mortise
from framecalc.project.joint import Joint
from framecalc.tables.wood import Tenon, biscuits, dowels, loose_tenons

SLOT_KINDS = ("loose tenon", "biscuit", "dowel")


def ready_slots(kind: str, joint: Joint) -> tuple[Slot, ...]:
    """The slots of every ready size of a kind of joint; none if it needs no slot.

    Args:
        kind: the kind of joint, one of `SLOT_KINDS`.
        joint: gives the width and depth of a mortise.
    """
    if kind == "loose tenon":
        return _tenon_slots(joint)
    if kind == "biscuit":
        return tuple(biscuit_slot(biscuit) for biscuit in biscuits())
    if kind == "dowel":
        return tuple(dowel_hole(dowel) for dowel in dowels())
    return ()


def tenon_name(tenon: Tenon) -> str:
    """The name of a slot for a ready tenon."""
    return f"tenon {tenon.size}"


def _tenon_slots(joint: Joint) -> tuple[Slot, ...]:
    """Mortises for the ready tenons, as wide as typed and as deep; else half of each tenon and its glue room deep."""
    return tuple(
        replace(
            mortise(
                width_mm=joint.width.mm,
                depth_mm=joint.depth.mm if joint.depth else (tenon.length_mm + USUAL_GLUE_ROOM_MM) / 2,
                thickness_mm=tenon.thickness_mm,
            ),
            name=tenon_name(tenon),
        )
        for tenon in loose_tenons()
    )
