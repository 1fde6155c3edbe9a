"""A retainer where a member is cut across: its parts at their place and size.

Places are measured from the outer edge of the member inward, and from its back up, toward the face: what lies below
the back is negative. The package lies `left over` above the back, or stands proud below it.
"""

from collections.abc import Iterator
from enum import StrEnum

from framecalc.limits import require_not_negative, require_positive
from framecalc.package.retainers import PLATE_MM, Retainer, Retention
from framecalc.records import Record

REACH_MM = 12.0
"""How far a button or a clip reaches over the package, from the rabbet wall (1/2 in). Common practice, no source."""

POINT_MM, POINT_THICK_MM, DRIVEN_RATIO = 16.0, 0.6, 0.4
"""A point as sold (5/8 in), its thickness, and how much of it is in the wood. Common practice, no source."""

SCREW_THICK_MM = 3.0
"""The shank of a screw that holds a retainer (No. 4). Common practice, no source."""


class PartOf(StrEnum):
    """What a part of a retainer is made of."""

    METAL = "metal"
    WOOD = "wood"


class RetainerPart(Record):
    """An upright rectangle of a retainer."""

    of: PartOf
    left_mm: float
    bottom_mm: float
    right_mm: float
    top_mm: float


class Foothold(Record):
    """The place of a retainer: the land it stands on, its foot, the gap beside the package, and its screw.

    The screw is none for points, and where none is short enough.
    """

    land_mm: float
    foot_mm: float
    gap_mm: float
    from_wall_mm: float = 0.0
    screw_mm: float = 0.0


def retainer_parts(retention: Retention, *, at: Foothold) -> tuple[RetainerPart, ...]:
    """Place the parts of a retainer in the section of a member, its screw first, what presses on the package last.

    Args:
        retention: what holds, and its size.
        at: where it stands.
    Raises:
        OutOfRange: there is no land, or a foot of less than nothing.
    Source: derived; what is not typed is common practice, no source.

    >>> held = Retention(retainer=Retainer.CLIPS, size_mm=6.35, left_over_mm=-7, why="")
    >>> plate = retainer_parts(held, at=Foothold(land_mm=15, foot_mm=12, gap_mm=1.5))[-1]
    >>> plate.bottom_mm, plate.top_mm, plate.right_mm
    (-8.0, -7, 27.0)
    """
    require_positive(land_mm=at.land_mm)
    require_not_negative(foot_mm=at.foot_mm)
    if retention.retainer is Retainer.POINTS:
        return (_point(retention, at),)
    return tuple(_screwed(retention, at))


def _point(retention: Retention, at: Foothold) -> RetainerPart:
    left_mm, top_mm = at.land_mm - DRIVEN_RATIO * POINT_MM, retention.left_over_mm
    return _metal(left_mm, top_mm - POINT_THICK_MM, left_mm + POINT_MM, top_mm)


def _screwed(retention: Retention, at: Foothold) -> Iterator[RetainerPart]:
    """A screw, what lies under the plate, and the plate."""
    strip_mm = retention.size_mm if retention.retainer is Retainer.STRIP else 0.0
    outer_mm, wall_mm, inner_mm = at.land_mm - at.foot_mm, at.land_mm, at.land_mm + REACH_MM
    if at.screw_mm:
        middle_mm, head_mm = at.land_mm - at.from_wall_mm, -strip_mm - PLATE_MM
        yield _metal(middle_mm - SCREW_THICK_MM / 2, head_mm, middle_mm + SCREW_THICK_MM / 2, head_mm + at.screw_mm)
    if strip_mm:
        yield RetainerPart(of=PartOf.WOOD, left_mm=outer_mm, bottom_mm=-strip_mm, right_mm=wall_mm, top_mm=0)
    if retention.retainer is Retainer.SHIM:
        edge_mm = wall_mm + at.gap_mm
        yield RetainerPart(
            of=PartOf.WOOD, left_mm=edge_mm, bottom_mm=0, right_mm=inner_mm, top_mm=retention.left_over_mm
        )
    if retention.retainer is Retainer.CLIPS:
        yield from _clip(retention.left_over_mm, outer_mm, wall_mm, inner_mm)
    else:
        yield _metal(outer_mm, -strip_mm - PLATE_MM, inner_mm, -strip_mm)


def _clip(back_mm: float, outer_mm: float, wall_mm: float, inner_mm: float) -> Iterator[RetainerPart]:
    """Its foot on the land, its step at the rabbet wall, and its plate on the package, bent as it presses."""
    is_proud = back_mm < 0
    step_mm = wall_mm - PLATE_MM if is_proud else wall_mm
    yield _metal(outer_mm, -PLATE_MM, wall_mm, 0)
    yield _metal(step_mm, min(back_mm, 0) - PLATE_MM, step_mm + PLATE_MM, max(back_mm, 0))
    yield _metal(step_mm, back_mm - PLATE_MM, inner_mm, back_mm)


def _metal(left_mm: float, bottom_mm: float, right_mm: float, top_mm: float) -> RetainerPart:
    return RetainerPart(of=PartOf.METAL, left_mm=left_mm, bottom_mm=bottom_mm, right_mm=right_mm, top_mm=top_mm)
