"""What stands in the back of a side beside a hanger: retainers, splines, pins and tenons of its corners.

A side is seen from behind: along it from one of its tips, across it from its outer edge.
"""

from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from itertools import pairwise
from math import cos, dist, radians, sin, tan
from typing import TYPE_CHECKING

from framecalc.corners.joints.clash import Prism
from framecalc.errors import FrameCalcError
from framecalc.geometry.outline import Point
from framecalc.package.retainer_section import Foothold, retainer_parts
from framecalc.project.hanging import Hanging
from framecalc.records import replace

if TYPE_CHECKING:
    from framecalc.plan.frame import FramePlan

RETAINER_MM = 12.0
"""How wide a retainer is along the side (1/2 in). Source: common practice, no source."""

PLATE_OUT_MM, SCREW_MM = 2.0, 3.5
"""How far the plate of a hanger stands off the back, and how thick its screw is. Source: common practice, no source."""

BELOW_RATIO = 1 / 4
"""This part of a hanger is below its screw, the rest above. Source: common practice, no source."""


class PlaceOnSide:
    """The side that a place on the back belongs to: its length, and where the place is along it."""

    def __init__(self, plan: "FramePlan", place: Point) -> None:
        sizes = plan.sizes
        corners = plan.shape.corners(sizes.outside_across_mm, sizes.outside_up_mm)
        edges = list(pairwise((*corners, corners[0])))
        self.number = min(range(len(edges)), key=lambda number: _off_mm(edges[number], place))
        self.start, self.end = edges[self.number]
        self.length_mm = dist(self.start, self.end)
        along = self._unit
        self.along_mm = (place[0] - self.start[0]) * along[0] + (place[1] - self.start[1]) * along[1]
        self.across_mm = _off_mm(edges[self.number], place)

    @property
    def is_level(self) -> bool:
        """Whether it lies at the top or the bottom."""
        return abs(self._unit[1]) < abs(self._unit[0])

    @property
    def up_is_forward(self) -> bool:
        """Whether it rises from its first tip."""
        return self._unit[1] >= 0

    @property
    def _unit(self) -> Point:
        return (self.end[0] - self.start[0]) / self.length_mm, (self.end[1] - self.start[1]) / self.length_mm


def hanger_parts(typed: Hanging, *, screw_mm: float) -> "Callable[[FramePlan, Point], tuple[Prism, ...]]":
    """What makes the parts of a hanger at a place: its plate on the back, and its screw in the wood."""

    def parts(plan: "FramePlan", place: Point) -> tuple[Prism, ...]:
        side, wide_mm, long_mm = PlaceOnSide(plan, place), typed.plate_wide.mm / 2, typed.plate_long.mm
        at_mm, across_mm = side.along_mm, side.across_mm
        if side.is_level:
            low_mm = high_mm = long_mm / 2
        else:
            low_mm, high_mm = long_mm * BELOW_RATIO, long_mm * (1 - BELOW_RATIO)
        start_mm, end_mm = (low_mm, high_mm) if side.up_is_forward else (high_mm, low_mm)
        plate = _rectangle(at_mm - start_mm, at_mm + end_mm, across_mm - wide_mm, across_mm + wide_mm)
        half_mm = SCREW_MM / 2
        shank = _rectangle(at_mm - half_mm, at_mm + half_mm, across_mm - half_mm, across_mm + half_mm)
        return (
            Prism(name="plate", plan=plate, low_mm=-PLATE_OUT_MM, high_mm=-0.01),
            Prism(name="screw", plan=shank, low_mm=-PLATE_OUT_MM, high_mm=screw_mm),
        )

    return parts


def beside(plan: "FramePlan", place: Point) -> tuple[Prism, ...]:
    """Everything that is in or on the side of a place; what cannot be worked out is said at its own place."""
    side, found = PlaceOnSide(plan, place), list[Prism]()
    for find in (_retainers, _corners):
        with suppress(FrameCalcError):
            found += find(plan, side)
    return tuple(found)


def _retainers(plan: "FramePlan", side: PlaceOnSide) -> Iterator[Prism]:
    retainers = plan.package.retainers
    if retainers is None:
        return
    land_mm = plan.sizes.face_width_mm - plan.sizes.rabbet_width_mm
    foothold = Foothold(
        land_mm=land_mm,
        foot_mm=min(retainers.foot_mm, land_mm),
        gap_mm=0.0,
        from_wall_mm=retainers.from_wall_mm,
        screw_mm=retainers.screwing.screw.length_mm if retainers.screwing else 0.0,
    )
    inset_mm = land_mm * tan(radians(plan.shape.half_turn_deg))
    across, up = retainers.spacings
    for part in retainer_parts(retainers.retention, at=foothold):
        for place_mm in (across if side.is_level else up).places_mm:
            at_mm = inset_mm + place_mm
            yield Prism(
                name=retainers.retention.retainer.value,
                plan=_rectangle(at_mm - RETAINER_MM / 2, at_mm + RETAINER_MM / 2, part.left_mm, part.right_mm),
                low_mm=part.bottom_mm,
                high_mm=part.top_mm,
            )


def _corners(plan: "FramePlan", side: PlaceOnSide) -> Iterator[Prism]:
    """The joint at both tips, and whichever of the two sides of a corner this is."""
    for prism in plan.corners.joint.prisms:
        for outline in (prism.plan, _turned(prism.plan, half_turn_deg=plan.shape.half_turn_deg)):
            yield replace(prism, plan=tuple(outline))
            yield replace(prism, plan=tuple((side.length_mm - x, y) for x, y in outline))


def _turned(outline: Sequence[Point], *, half_turn_deg: float) -> tuple[Point, ...]:
    """The same as seen along the other side of the corner."""
    inner_rad = radians(180 - 2 * half_turn_deg)
    return tuple((x * cos(inner_rad) + y * sin(inner_rad), x * sin(inner_rad) - y * cos(inner_rad)) for x, y in outline)


def _off_mm(edge: tuple[Point, Point], place: Point) -> float:
    """How far a place is from the line of an edge."""
    (x, y), (u, v) = edge
    return abs((u - x) * (place[1] - y) - (v - y) * (place[0] - x)) / dist(*edge)


def _rectangle(left_mm: float, right_mm: float, low_mm: float, high_mm: float) -> tuple[Point, ...]:
    return (left_mm, low_mm), (right_mm, low_mm), (right_mm, high_mm), (left_mm, high_mm)
