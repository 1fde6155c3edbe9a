"""Cutters that a shop owns, and which of them makes a profile: in which order, how high, and how far from the fence.

The *face* comes first, since both edges are set from it; then shapes that end in a wall, then those that run out: each
cut leaves the side below it plain. On that side a *bearing* rolls, if enough of it is left; else the fence guides.
"""

from collections.abc import Iterable, Iterator
from enum import StrEnum
from math import atan2, degrees

from framecalc.records import Record, replace
from framecalc.section.milling import LEAST_BEARING_MM, is_milled
from framecalc.section.profile import HOLLOW, QUIRK_RATIO, Edge, EdgeShape
from framecalc.section.rabbeted import Section, milled_section
from framecalc.units import TOLERANCE_MM


class CutterKind(StrEnum):
    """What a cutter leaves."""

    STRAIGHT = "straight"
    ROUND_NOSE = "round nose"
    COVE = "cove"
    ROUND_OVER = "round-over"
    CHAMFER = "chamfer"
    BEAD = "bead"


class Cutter(Record):
    """A cutter: the diameter of a straight or round nose one, the radius of a cove, round-over or bead, a chamfer's
    leg.
    """

    kind: CutterKind
    size_mm: float
    has_bearing: bool = False


class CutPlace(StrEnum):
    """Where on a member a profile is cut."""

    FACE = "face"
    OUTER = "outer edge"
    SIGHT = "sight edge"


class ProfileCut(Record):
    """One cut of a profile: where, which shape, and by which cutter; None where the shop has none for it.

    `nearest` is the one of the right kind that comes closest. `height_mm` is how high it stands over a table on which
    the highest of the face lies, `out_mm` how far out of the fence. `bearing_mm` is the plain side that is left under
    it, 0 on the face.
    """

    place: CutPlace
    shape: str
    size_mm: float
    cutter: Cutter | None
    nearest: Cutter | None
    height_mm: float
    out_mm: float
    bearing_mm: float
    before: Section
    after: Section

    @property
    def rolls(self) -> bool:
        """Whether its bearing guides it."""
        return bool(self.cutter and self.cutter.has_bearing) and self.bearing_mm >= LEAST_BEARING_MM - TOLERANCE_MM


SAME_SIZE_MM = 0.05
"""A cutter this near to a radius makes it. Source: derived: no eye sees it."""

_KINDS: dict[EdgeShape, tuple[CutterKind, ...]] = {
    EdgeShape.ROUND: (CutterKind.ROUND_OVER,),
    EdgeShape.COVE: (CutterKind.COVE, CutterKind.ROUND_NOSE),
    EdgeShape.CHAMFER: (CutterKind.CHAMFER,),
    EdgeShape.STEP: (CutterKind.STRAIGHT,),
    EdgeShape.BEAD: (CutterKind.BEAD,),
}


def profile_cuts(section: Section, *, cutters: Iterable[Cutter], is_rabbeted: bool) -> tuple[ProfileCut, ...]:
    """List the cuts on the edges of a face in their order, each with the section before and after it.

    Args:
        is_rabbeted: the rabbet is there already, and the sight side begins on its floor.
    Raises:
        ImpossibleSection: a section on the way cannot be milled.
    Source: derived; the order is common practice, no source.

    >>> from framecalc.section.profile import FaceShape
    >>> square, cove = Edge(shape=EdgeShape.SQUARE, size_mm=1), Edge(shape=EdgeShape.COVE, size_mm=4)
    >>> section = milled_section(face_width_mm=30, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=8,
    ...     sight_edge=Edge(shape=EdgeShape.ROUND, size_mm=3), back_edge=cove, face=FaceShape.FLAT, face_drop_mm=0)
    >>> owned = [Cutter(kind=CutterKind.ROUND_OVER, size_mm=3, has_bearing=True)]
    >>> [(cut.place.value, cut.rolls, round(cut.bearing_mm, 1)) for cut in
    ...     profile_cuts(section, cutters=owned, is_rabbeted=True)]
    [('outer edge', False, 16.0), ('sight edge', True, 9.0)]
    """
    owned = tuple(cutters)
    edges = [(CutPlace.OUTER, section.back_edge), (CutPlace.SIGHT, section.sight_edge)]
    milled = sorted((one for one in edges if is_milled(one[1])), key=lambda one: one[1].shape not in HOLLOW)
    return tuple(_in_order(section, milled, owned, is_rabbeted=is_rabbeted))


def tilt_deg(section: Section) -> float:
    """How far a blade is tilted for a bevelled face.

    ``tan = fall / width``

    Source: derived (plane geometry).
    """
    return degrees(atan2(section.face_drop_mm, section.face_width_mm))


def makes_radius(kinds: tuple[CutterKind, ...], radius_mm: float, cutters: Iterable[Cutter]) -> Cutter | None:
    """The cutter of these kinds that has a radius: one with a bearing before one without.

    Source: common practice, no source.
    """
    found = (one for one in cutters if one.kind in kinds and abs(_radius_mm(one) - radius_mm) <= SAME_SIZE_MM)
    return next(iter(sorted(found, key=lambda one: not one.has_bearing)), None)


def nearest_of(kinds: tuple[CutterKind, ...], size_mm: float, cutters: Iterable[Cutter]) -> Cutter | None:
    """The cutter of these kinds that comes closest to a radius, a leg or a width.

    Source: derived.
    """
    of_kind = [one for one in cutters if one.kind in kinds]
    return min(of_kind, key=lambda one: abs(_radius_mm(one) - size_mm), default=None)


def cutter_for(edge: Edge, cutters: Iterable[Cutter]) -> Cutter | None:
    """The cutter that makes the shape of an edge: one with a bearing before one without.

    Source: common practice, no source.

    >>> owned = [Cutter(kind=CutterKind.ROUND_NOSE, size_mm=8), Cutter(kind=CutterKind.CHAMFER, size_mm=10)]
    >>> [cutter_for(Edge(shape=shape, size_mm=4), owned).kind.value for shape in (EdgeShape.COVE, EdgeShape.CHAMFER)]
    ['round nose', 'chamfer']
    """
    found = (one for kind in _KINDS.get(edge.shape, ()) for one in cutters if one.kind is kind and _makes(one, edge))
    return next(iter(sorted(found, key=lambda one: not one.has_bearing)), None)


def _in_order(
    section: Section, milled: Iterable[tuple[CutPlace, Edge]], cutters: tuple[Cutter, ...], *, is_rabbeted: bool
) -> Iterator[ProfileCut]:
    before = _with_edges(section, frozenset())
    done: frozenset[CutPlace] = frozenset()
    for place, edge in milled:
        done |= {place}
        after = _with_edges(section, done)
        floor_mm = section.rabbet_depth_mm if is_rabbeted and place is CutPlace.SIGHT else 0.0
        is_mm = _side_top_mm(after, place)
        yield ProfileCut(
            place=place,
            shape=edge.shape.value,
            size_mm=edge.size_mm,
            cutter=cutter_for(edge, cutters),
            nearest=nearest_of(_KINDS.get(edge.shape, ()), edge.size_mm, cutters),
            height_mm=section.thickness_mm - is_mm,
            out_mm=2 * (1 + QUIRK_RATIO) * edge.size_mm if edge.shape is EdgeShape.BEAD else edge.size_mm,
            bearing_mm=is_mm - floor_mm,
            before=before,
            after=after,
        )
        before = after


def _with_edges(section: Section, shaped: frozenset[CutPlace]) -> Section:
    """The section with only some of its edges milled."""
    return milled_section(
        face_width_mm=section.face_width_mm,
        thickness_mm=section.thickness_mm,
        rabbet_width_mm=section.rabbet_width_mm,
        rabbet_depth_mm=section.rabbet_depth_mm,
        sight_edge=section.sight_edge if CutPlace.SIGHT in shaped else _square(section.sight_edge),
        back_edge=section.back_edge if CutPlace.OUTER in shaped else _square(section.back_edge),
        face=section.face,
        face_drop_mm=section.face_drop_mm,
        points=section.points,
    )


def _square(edge: Edge) -> Edge:
    return replace(edge, shape=EdgeShape.SQUARE)


def _side_top_mm(section: Section, place: CutPlace) -> float:
    return section.sight_side_top_mm if place is CutPlace.SIGHT else section.outer_side_top_mm


def _makes(cutter: Cutter, edge: Edge) -> bool:
    if cutter.kind is CutterKind.STRAIGHT:
        return True
    if cutter.kind is CutterKind.CHAMFER:
        return cutter.size_mm >= edge.size_mm - SAME_SIZE_MM
    return abs(_radius_mm(cutter) - edge.size_mm) <= SAME_SIZE_MM


def _radius_mm(cutter: Cutter) -> float:
    return cutter.size_mm / 2 if cutter.kind is CutterKind.ROUND_NOSE else cutter.size_mm
