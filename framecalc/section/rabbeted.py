"""The section of a member: its outline as milled, with its rabbet.

Across runs from the outer side (x = 0) to the sight edge (x = face width), up from the back (y = 0) to the face. The
*rabbet* is the void at the sight edge's back, rabbet width by rabbet depth. The *lip* is the wood over it, the *land*
the back left beside it, on which the member rests and into which hardware is screwed.

The *least lip* is the least solid height over the rabbet on the outline as milled, the sight edge included: a
round-over that comes down to 2 mm above the rabbet leaves 2 mm there. Where the outline steps, the lower side counts.
The *least wood* is the least between the face and the rabbet in any direction: a hollow beside the lip may come near
the rabbet's corner.
"""

from collections.abc import Sequence
from math import inf, radians, tan
from typing import Protocol

from framecalc.errors import ImpossibleSection
from framecalc.geometry.outline import (
    Outline,
    Segment,
    area_mm2,
    bounds,
    centroid,
    distance_mm,
    height_at,
    join,
    lowest_point,
    turned_right,
)
from framecalc.limits import require_between, require_positive
from framecalc.records import Record
from framecalc.section.profile import Edge, EdgeShape, FaceShape, Profile, milled_profile
from framecalc.section.typed_points import ProfilePoint
from framecalc.units import TOLERANCE_MM

KEPT_UNDER_FACE_MM = 3.0
"""Wood kept between a screw's point and the face. Source: common practice, no source."""


class MilledOutline(Protocol):
    """A member of any section: its outline, x from its outer side, and the area of that."""

    @property
    def outline(self) -> Outline:
        """As milled."""

    @property
    def area_mm2(self) -> float:
        """Of the outline."""


class Section(Record):
    """A member with a rabbet: what it was milled from, its outline, and what is measured on it.

    `sight_side_top_mm` and `outer_side_top_mm` are the heights at which the plane sides end and the shapes begin.
    """

    face_width_mm: float
    thickness_mm: float
    rabbet_width_mm: float
    rabbet_depth_mm: float
    sight_edge: Edge
    back_edge: Edge
    face: FaceShape
    face_drop_mm: float
    points: tuple[ProfilePoint, ...]
    outline: Outline
    lip_mm: float
    land_mm: float
    area_mm2: float
    least_lip_mm: float
    least_lip_at_mm: float
    least_wood_mm: float
    sight_side_top_mm: float
    outer_side_top_mm: float


def milled_section(
    *,
    face_width_mm: float,
    thickness_mm: float,
    rabbet_width_mm: float,
    rabbet_depth_mm: float,
    sight_edge: Edge,
    back_edge: Edge,
    face: FaceShape,
    face_drop_mm: float,
    points: Sequence[ProfilePoint] = (),
) -> Section:
    """Mill a member: rabbet, face and both edges of the face.

    `lip = thickness - rabbet depth` and `land = face width - rabbet width`, before anything is milled on the face.

    Args:
        face_width_mm, thickness_mm: the blank [mm], > 0.
        rabbet_width_mm: [mm], > 0 and less than the face width.
        rabbet_depth_mm: [mm], > 0 and less than the thickness.
        face_drop_mm: fall of a bevelled face over the face width [mm]; ignored on a flat face.
        points: of a face through typed points; ignored on any other.
    Raises:
        OutOfRange: a length is not above zero.
        ImpossibleSection: all of the lip, the land, the outer side or the face is milled away.
    Source: derived; the shapes are common practice, no source.

    >>> square = Edge(shape=EdgeShape.SQUARE, size_mm=1)
    >>> section = milled_section(face_width_mm=30, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12,
    ...     sight_edge=Edge(shape=EdgeShape.ROUND, size_mm=3), back_edge=square, face=FaceShape.FLAT, face_drop_mm=0)
    >>> section.lip_mm, section.land_mm, section.least_lip_mm, section.least_lip_at_mm
    (8, 24, 5.0, 30)
    """
    require_positive(face_width_mm=face_width_mm, thickness_mm=thickness_mm)
    require_positive(rabbet_width_mm=rabbet_width_mm, rabbet_depth_mm=rabbet_depth_mm)
    land_mm, lip_mm = _land_mm(rabbet_width_mm, face_width_mm), _lip_mm(rabbet_depth_mm, thickness_mm)
    profile = milled_profile(
        width_mm=face_width_mm,
        height_mm=thickness_mm,
        floor_mm=rabbet_depth_mm,
        sight_side="lip",
        sight_edge=sight_edge,
        back_edge=back_edge,
        face=face,
        face_drop_mm=face_drop_mm,
        points=points,
    )
    least_at_mm, least_up_mm = lowest_point(profile.shaped, from_mm=land_mm, to_mm=face_width_mm)
    least_lip_mm = least_up_mm - rabbet_depth_mm
    _require_wood_over_rabbet(least_lip_mm, back_edge, face)
    least_wood_mm = _least_wood_mm(profile.shaped, least_lip_mm, land_mm=land_mm, depth_mm=rabbet_depth_mm)
    _require_wood_over_rabbet(least_wood_mm, back_edge, face)
    outline = _rabbeted(profile, land_mm=land_mm, depth_mm=rabbet_depth_mm, width_mm=face_width_mm)
    return Section(
        face_width_mm=face_width_mm,
        thickness_mm=thickness_mm,
        rabbet_width_mm=rabbet_width_mm,
        rabbet_depth_mm=rabbet_depth_mm,
        sight_edge=sight_edge,
        back_edge=back_edge,
        face=face,
        face_drop_mm=face_drop_mm,
        points=tuple(points),
        outline=outline,
        lip_mm=lip_mm,
        land_mm=land_mm,
        area_mm2=area_mm2(outline),
        least_lip_mm=least_lip_mm,
        least_lip_at_mm=least_at_mm,
        least_wood_mm=least_wood_mm,
        sight_side_top_mm=profile.sight_side_top_mm,
        outer_side_top_mm=profile.back_side_top_mm,
    )


def _rabbeted(profile: Profile, *, land_mm: float, depth_mm: float, width_mm: float) -> Outline:
    """The outline of a member: the milled face over the land and the rabbet."""
    rabbet = join([(0, 0), (land_mm, 0), (land_mm, depth_mm), (width_mm, depth_mm)])
    return Outline(segments=(*rabbet, *profile.chain))


def local_thickness_mm(section: Section, *, x_mm: float) -> float:
    """Solid wood between the back (or the rabbet) and the face at a place across the member.

    Args:
        x_mm: from the outer side [mm], 0 to the face width.
    Raises:
        OutOfRange: the place lies beside the member.
    Source: derived.

    >>> square = Edge(shape=EdgeShape.SQUARE, size_mm=1)
    >>> section = milled_section(face_width_mm=30, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12,
    ...     sight_edge=square, back_edge=square, face=FaceShape.TOWARD, face_drop_mm=6)
    >>> local_thickness_mm(section, x_mm=10), round(local_thickness_mm(section, x_mm=27), 3)
    (18.0, 2.6)
    """
    require_between(0, section.face_width_mm, x_mm=x_mm)
    return height_at(section.outline, x_mm)


def longest_screw_mm(section: Section, *, x_mm: float, keep_mm: float = KEPT_UNDER_FACE_MM) -> float:
    """The longest screw driven in from the back at a place: local thickness less what is kept under the face.

    Nothing or less means that no screw goes there.

    Args:
        x_mm: from the outer side [mm], 0 to the face width.
        keep_mm: wood kept under the face [mm].
    Raises:
        OutOfRange: the place lies beside the member.
    Source: common practice, no source.

    >>> square = Edge(shape=EdgeShape.SQUARE, size_mm=1)
    >>> section = milled_section(face_width_mm=30, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12,
    ...     sight_edge=square, back_edge=square, face=FaceShape.FLAT, face_drop_mm=0)
    >>> longest_screw_mm(section, x_mm=12)
    17.0
    """
    return local_thickness_mm(section, x_mm=x_mm) - keep_mm


def mitred_volume_mm3(section: MilledOutline, *, long_edges_mm: Sequence[float], mitre_deg: float = 45) -> float:
    """Wood in mitred members of this section: at x from its outer side a member is ``long - 2x * tan M`` long.

    ``volume = area * (sum of long edges - 2 * n * x of the centroid * tan M)``

    Args:
        long_edges_mm: of each of the n members, laid flat [mm], each longer than both its mitres.
        mitre_deg: M, the slant of an end from a square cut, 0 to 80 [degrees].
    Source: derived.

    >>> square = Edge(shape=EdgeShape.SQUARE, size_mm=1)
    >>> section = milled_section(face_width_mm=30, thickness_mm=20, rabbet_width_mm=10, rabbet_depth_mm=10,
    ...     sight_edge=square, back_edge=square, face=FaceShape.FLAT, face_drop_mm=0)
    >>> round(mitred_volume_mm3(section, long_edges_mm=(100,) * 4), 6)
    148000.0
    """
    slant_mm = 2 * len(long_edges_mm) * centroid(section.outline)[0] * tan(radians(mitre_deg))
    return section.area_mm2 * (sum(long_edges_mm) - slant_mm)


def _least_wood_mm(chain: Sequence[Segment], lip_mm: float, *, land_mm: float, depth_mm: float) -> float:
    """The least of the lip over the rabbet, the way to the rabbet's corner, and the wood beside its wall."""
    beside = turned_right(chain)
    around = bounds(beside)
    to_wall_mm = inf
    if around.left_mm < depth_mm - TOLERANCE_MM:
        _, least_mm = lowest_point(beside, from_mm=around.left_mm, to_mm=depth_mm)
        to_wall_mm = land_mm + least_mm
    return min(lip_mm, distance_mm(chain, (land_mm, depth_mm)), to_wall_mm)


def _land_mm(rabbet_width_mm: float, face_width_mm: float) -> float:
    """The wood beside the rabbet."""
    if rabbet_width_mm > face_width_mm - TOLERANCE_MM:
        raise ImpossibleSection(
            "No land left: enter a rabbet width under {member}.",
            field="rabbet_width_mm",
            lengths={"member": face_width_mm},
        )
    return face_width_mm - rabbet_width_mm


def _lip_mm(rabbet_depth_mm: float, thickness_mm: float) -> float:
    """The wood in front of the rabbet, before anything is milled on the face."""
    if rabbet_depth_mm > thickness_mm - TOLERANCE_MM:
        raise ImpossibleSection(
            "No lip left: enter a rabbet depth under {member}, not {rabbet}.",
            field="rabbet_depth_mm",
            lengths={"rabbet": rabbet_depth_mm, "member": thickness_mm},
        )
    return thickness_mm - rabbet_depth_mm


def _require_wood_over_rabbet(least_lip_mm: float, back_edge: Edge, face: FaceShape) -> None:
    """Refuse a face or a back edge that comes down to the rabbet; the sight edge was refused by its own side."""
    if least_lip_mm > TOLERANCE_MM:
        return
    if face is FaceShape.POINTS:
        says = "The typed points come down to the rabbet: enter less down, or cut the rabbet shallower."
        raise ImpossibleSection(says, field="face_shape")
    if back_edge.shape is EdgeShape.SQUARE:
        raise ImpossibleSection(f"A face {face} meets the rabbet: enter less fall, or narrow it.", field="face_drop_mm")
    raise ImpossibleSection(
        f"The back {back_edge.shape} cuts into the rabbet: enter under {{size}}.",
        field="back_edge_mm",
        lengths={"size": back_edge.size_mm},
    )
