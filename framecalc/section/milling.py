"""Milling a member: what is cut first, rabbet or profile, in how many passes, and the usual cautions.

The *bearing* is the plain strip of sight edge, between rabbet and edge shape, on which a fence or a bit's bearing runs
once the rabbet is there.
"""

from enum import StrEnum
from math import ceil

from framecalc.limits import require_positive
from framecalc.records import Record
from framecalc.section.findings import LEAST_LAND_MM, LEAST_LIP_MM
from framecalc.section.profile import Edge, EdgeShape, FaceShape
from framecalc.section.rabbeted import Section
from framecalc.units import TOLERANCE_MM

LEAST_BEARING_MM = 6.0
"""Height of sight edge, 1/4 in, that a fence or a bit's bearing needs. Source: common practice, no source."""

CAUTIONS = (
    "Feed against the cutter's rotation; never climb-cut.",
    "Guards in place, hold-downs or featherboards set, push blocks in hand.",
    "More than one pass, the last one light.",
    "Mill in lengths of two pieces or more and mitre afterwards; never mill a short piece by hand.",
    "Eyes and ears protected, dust drawn off; the machine's manual comes before this advice.",
)
"""The usual cautions at saw and router table. Source: common practice, no source."""

_NO_PROFILE = "the blank is still square and sits flat whichever way it runs; arrises are broken last, by hand."
_ROOM_LEFT = (
    "It leaves sight edge, lip and land enough to guide and carry the profile cut, and the show face comes last."
)
_NO_BEARING = "the rabbet would leave too little plain sight edge for a fence or a bearing to run on"
_LIP_WOULD_CHIP = "the lip left over the rabbet would give under the cutter and chip"
_LAND_WOULD_TIP = "the land is too narrow for the blank to stand on without tipping"


class MillingStep(StrEnum):
    """The two steps of milling a blank."""

    RABBET = "rabbet"
    PROFILE = "profile"


class MillingOrder(Record):
    """The step that comes first, and the reason; it follows a colon."""

    first: MillingStep
    why: str


class Passes(Record):
    """A cut taken in equal passes."""

    count: int
    each_mm: float


def milling_order(section: Section) -> MillingOrder:
    """Choose whether the rabbet or the profile is milled first, from the surface that each leaves for the other.

    The hidden cut comes first as long as it leaves enough: then the show face is cut last and is handled least. The
    profile comes first, in the full blank, where the rabbet would leave too little sight edge for fence or bearing,
    too thin a lip to bear the cutter, or too narrow a land to stand on.

    Source: common practice, no source.

    >>> from framecalc.section.rabbeted import milled_section
    >>> square, round_over = Edge(shape=EdgeShape.SQUARE, size_mm=1), Edge(shape=EdgeShape.ROUND, size_mm=5)
    >>> section = milled_section(face_width_mm=30, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12,
    ...     sight_edge=round_over, back_edge=square, face=FaceShape.FLAT, face_drop_mm=0)
    >>> milling_order(section).first.value
    'profile'
    """
    if not shapes_the_face(section):
        return MillingOrder(first=MillingStep.RABBET, why=_NO_PROFILE)
    if reasons := _reasons_for_profile(section):
        why = f"in the full blank, because {', and '.join(reasons)}; back and sides stay plain to guide the rabbet."
        return MillingOrder(first=MillingStep.PROFILE, why=why)
    return MillingOrder(first=MillingStep.RABBET, why=_ROOM_LEFT)


def passes(depth_mm: float, *, per_pass_mm: float) -> Passes:
    """Take a cut in the fewest equal passes, none deeper than allowed.

    Args:
        depth_mm: of the whole cut [mm], > 0.
        per_pass_mm: the deepest pass [mm], > 0; the machine's manual says.
    Raises:
        OutOfRange: a depth is not above zero.
    Source: common practice, no source.

    >>> passes(13.5, per_pass_mm=4)
    Passes(count=4, each_mm=3.375)
    """
    require_positive(depth_mm=depth_mm, per_pass_mm=per_pass_mm)
    count = max(1, ceil((depth_mm - TOLERANCE_MM) / per_pass_mm))
    return Passes(count=count, each_mm=depth_mm / count)


def shapes_the_face(section: Section) -> bool:
    """Whether a machine shapes the face or one of its edges.

    Source: derived.
    """
    return section.face is FaceShape.POINTS or is_milled(section.back_edge) or _works_on_lip(section)


def is_milled(edge: Edge) -> bool:
    """Whether a machine shapes the edge; an arris is broken by hand.

    Source: common practice, no source.

    >>> is_milled(Edge(shape=EdgeShape.ARRIS, size_mm=1))
    False
    """
    return edge.shape not in (EdgeShape.SQUARE, EdgeShape.ARRIS)


def _works_on_lip(section: Section) -> bool:
    """Whether the cutter that shapes the face passes over the lip."""
    if section.face is FaceShape.POINTS:
        return section.least_lip_mm < section.lip_mm - TOLERANCE_MM
    return is_milled(section.sight_edge) or section.face is not FaceShape.FLAT


def _reasons_for_profile(section: Section) -> list[str]:
    bearing_mm = section.sight_side_top_mm - section.rabbet_depth_mm
    reasons = {
        _NO_BEARING: _works_on_lip(section) and bearing_mm < LEAST_BEARING_MM - TOLERANCE_MM,
        _LIP_WOULD_CHIP: _works_on_lip(section) and section.least_lip_mm < LEAST_LIP_MM - TOLERANCE_MM,
        _LAND_WOULD_TIP: section.land_mm < LEAST_LAND_MM - TOLERANCE_MM,
    }
    return [why for why, holds in reasons.items() if holds]
