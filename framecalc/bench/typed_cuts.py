"""Cuts of a face through typed points: which lines of it a cutter makes, in which order, and what none makes.

A cut is *closed* where it has walls on both sides: a hollow, a groove. It is *open* toward a side where nothing beyond
it stands higher: a round, a chamfer, a step; that side runs on the fence. A straight slope that runs out at a side is a
*bevel*, cut at the table saw. A cut may take nothing that stays, and a
bearing may not run into wood: it needs a shape that ends at its side. Closed cuts come first, then open ones, the least
deep first, so that their side stays plain; bevels come last, from a face that still lies flat until then.

The face is looked at in narrow *cells*, each with its height.
"""

from collections.abc import Iterable, Iterator, Sequence
from math import atan2, degrees

from framecalc.bench.cutters import SAME_SIZE_MM, CutPlace, Cutter, CutterKind, makes_radius, nearest_of
from framecalc.bench.face_cells import CELLS, FaceInCells, Floor, rise_mm
from framecalc.geometry.outline import Arc, Point, Segment
from framecalc.records import Record, replace
from framecalc.section.milling import LEAST_BEARING_MM
from framecalc.section.rabbeted import Section
from framecalc.units import TOLERANCE_MM

_SAME_SLOPE = 0.01
_STEEPEST_DEG = 45.0
"""A table saw tilts no further. Source: common practice, no source."""


class TypedCut(Record):
    """One cut: its shape and size, where its fence stands, by which cutter; None where the shop has none for it.

    `place` is the side on the fence of an open cut, the face for a closed one. `fence_mm` is how far an open cut comes
    out of the fence; of a closed one how far its middle is from the outer edge; of a bevel, fence to blade.
    `height_mm` stands over a table on which the highest of the face lies. `takes_mm` is as deep as it cuts.
    """

    shape: str
    size_mm: float
    place: CutPlace
    height_mm: float
    fence_mm: float
    takes_mm: float
    tilt_deg: float = 0.0
    bearing_mm: float = 0.0
    cutter: Cutter | None = None
    nearest: Cutter | None = None
    ends_at_side: bool = False
    before: tuple[Point, ...] = ()
    after: tuple[Point, ...] = ()

    @property
    def is_sawn(self) -> bool:
        """Whether it is cut at the table saw."""
        return self.tilt_deg > 0

    @property
    def rolls(self) -> bool:
        """Whether its bearing guides it."""
        has_room = self.ends_at_side and self.bearing_mm >= LEAST_BEARING_MM - TOLERANCE_MM
        return has_room and bool(self.cutter and self.cutter.has_bearing)


class TypedCuts(Record):
    """All cuts of a face, and how many of its lines none of them makes."""

    cuts: tuple[TypedCut, ...]
    unmade: int


class _Tried(Record):
    """A cut that is thought of, and how low it comes."""

    cut: TypedCut
    floor: Floor


def typed_cuts(section: Section, *, cutters: Iterable[Cutter], is_rabbeted: bool) -> TypedCuts:
    """List the cuts of a face through typed points.

    Args:
        section: with square edges; shapes on its edges are cut by themselves.
        is_rabbeted: the rabbet is there already, and the sight side begins on its floor.
    Source: derived; the order is common practice, no source.
    """
    face, owned = FaceInCells(section), tuple(cutters)
    tried = [(segment, _first_that_fits(segment, face, owned)) for segment in face.shaped]
    cuts = sorted((one for _, one in tried if one), key=_order)
    return TypedCuts(
        cuts=tuple(_one_by_one(face, cuts, is_rabbeted=is_rabbeted)),
        unmade=sum(one is None for _, one in tried),
    )


def _order(tried: _Tried) -> tuple[bool, bool, float]:
    cut = tried.cut
    return (
        cut.is_sawn,
        cut.place is not CutPlace.FACE,
        cut.height_mm if cut.place is not CutPlace.FACE else cut.fence_mm,
    )


def _one_by_one(face: FaceInCells, cuts: Iterable[_Tried], *, is_rabbeted: bool) -> Iterator[TypedCut]:
    """The cuts that take something, each with the face before and after it."""
    whole_mm = face.section.thickness_mm
    now_mm, sides_mm = [whole_mm] * CELLS, {CutPlace.SIGHT: whole_mm, CutPlace.OUTER: whole_mm, CutPlace.FACE: 0.0}
    for one in cuts:
        after_mm = [min(height, one.floor(x_mm)) for height, x_mm in zip(now_mm, face.middles_mm, strict=True)]
        if max(was - now for was, now in zip(now_mm, after_mm, strict=True)) <= SAME_SIZE_MM:
            continue
        place = one.cut.place
        sides_mm[place] = min(sides_mm[place], one.floor(face.width_mm if place is CutPlace.SIGHT else 0.0))
        floor_mm = face.section.rabbet_depth_mm if is_rabbeted and place is CutPlace.SIGHT else 0.0
        bearing_mm = sides_mm[place] - floor_mm
        yield replace(one.cut, bearing_mm=bearing_mm, before=face.points(now_mm), after=face.points(after_mm))
        now_mm = after_mm


def _first_that_fits(segment: Segment, face: FaceInCells, cutters: tuple[Cutter, ...]) -> _Tried | None:
    """The first way to make a line that takes nothing that stays."""
    ways = _of_arc(segment, face, cutters) if isinstance(segment, Arc) else _of_line(segment, face, cutters)
    return next((one for one in ways if face.takes_nothing_that_stays(one.floor)), None)


def _of_arc(arc: Arc, face: FaceInCells, cutters: tuple[Cutter, ...]) -> Iterator[_Tried]:
    yield from _rounds(arc, face, cutters) if arc.turns_left else _hollows(arc, face, cutters)


def _hollows(arc: Arc, face: FaceInCells, cutters: tuple[Cutter, ...]) -> Iterator[_Tried]:
    """A round nose, wholly on the face; or half out of a side, or a cove there."""
    (x_mm, y_mm), radius_mm = arc.centre, arc.radius_mm
    kinds: tuple[CutterKind, ...] = (CutterKind.ROUND_NOSE,)
    place, fence_mm = CutPlace.FACE, x_mm
    if x_mm + radius_mm > face.width_mm + TOLERANCE_MM or x_mm < radius_mm - TOLERANCE_MM:
        place = CutPlace.SIGHT if x_mm > face.width_mm / 2 else CutPlace.OUTER
        fence_mm = face.out_mm(place, x_mm) + radius_mm
        kinds = (CutterKind.COVE, *kinds) if abs(face.out_mm(place, x_mm)) <= SAME_SIZE_MM else kinds
    yield _Tried(
        cut=TypedCut(
            shape="hollow",
            size_mm=radius_mm,
            place=place,
            height_mm=face.thickness_mm - y_mm + radius_mm,
            fence_mm=fence_mm,
            takes_mm=face.thickness_mm - y_mm + radius_mm,
            ends_at_side=kinds[0] is CutterKind.COVE,
            cutter=makes_radius(kinds, radius_mm, _without_trouble(cutters, ends_at_side=kinds[0] is CutterKind.COVE)),
            nearest=nearest_of(kinds, radius_mm, cutters),
        ),
        floor=lambda at_mm: y_mm - rise_mm(radius_mm, at_mm - x_mm) if abs(at_mm - x_mm) < radius_mm else _NOT_THERE,
    )


def _rounds(arc: Arc, face: FaceInCells, cutters: tuple[Cutter, ...]) -> Iterator[_Tried]:
    """A round-over, open toward the side that it falls to."""
    (x_mm, y_mm), radius_mm = arc.centre, arc.radius_mm
    place = CutPlace.SIGHT if arc.start[0] + arc.end[0] > 2 * x_mm else CutPlace.OUTER
    centre_out_mm = face.out_mm(place, x_mm)

    def floor(at_mm: float) -> float:
        beyond_mm = centre_out_mm - face.out_mm(place, at_mm)
        if beyond_mm < 0:
            return _NOT_THERE
        return y_mm + (rise_mm(radius_mm, beyond_mm) if beyond_mm < radius_mm else 0.0)

    kinds, ends_at_side = (CutterKind.ROUND_OVER,), abs(centre_out_mm - radius_mm) <= SAME_SIZE_MM
    yield _Tried(
        cut=TypedCut(
            shape="round-over",
            size_mm=radius_mm,
            place=place,
            height_mm=face.thickness_mm - y_mm,
            fence_mm=centre_out_mm,
            takes_mm=face.thickness_mm - y_mm,
            ends_at_side=ends_at_side,
            cutter=makes_radius(kinds, radius_mm, _without_trouble(cutters, ends_at_side=ends_at_side)),
            nearest=nearest_of(kinds, radius_mm, cutters),
        ),
        floor=floor,
    )


def _of_line(line: Segment, face: FaceInCells, cutters: tuple[Cutter, ...]) -> Iterator[_Tried]:
    (low, high) = sorted((line.start, line.end), key=lambda point: point[1])
    if high[1] - low[1] <= TOLERANCE_MM:
        yield from _flats(line, face, cutters)
        return
    place = CutPlace.SIGHT if low[0] > high[0] else CutPlace.OUTER
    slope = (high[1] - low[1]) / abs(high[0] - low[0])
    if abs(slope - 1) <= _SAME_SLOPE:
        yield _chamfer(low, place, face, cutters)
    if face.out_mm(place, low[0]) <= SAME_SIZE_MM and degrees(atan2(slope, 1)) <= _STEEPEST_DEG + _SAME_SLOPE:
        yield _bevel(low, slope, place, face)


def _chamfer(low: Point, place: CutPlace, face: FaceInCells, cutters: tuple[Cutter, ...]) -> _Tried:
    """A chamfer, whose slope a cutter carries on up to the face."""
    depth_mm, out_mm = face.thickness_mm - low[1], face.out_mm(place, low[0])
    owned = sorted((one for one in cutters if one.kind is CutterKind.CHAMFER), key=lambda one: one.size_mm)
    usable = _without_trouble(owned, ends_at_side=out_mm <= SAME_SIZE_MM)
    enough = [one for one in usable if one.size_mm >= depth_mm - SAME_SIZE_MM]
    return _Tried(
        cut=TypedCut(
            shape="chamfer",
            size_mm=depth_mm,
            place=place,
            height_mm=depth_mm,
            fence_mm=out_mm + depth_mm,
            takes_mm=depth_mm,
            ends_at_side=out_mm <= SAME_SIZE_MM,
            cutter=next(iter(sorted(enough, key=lambda one: not one.has_bearing)), None),
            nearest=owned[-1] if owned else None,
        ),
        floor=lambda at_mm: low[1] + max(0.0, face.out_mm(place, at_mm) - out_mm),
    )


def _without_trouble(cutters: Iterable[Cutter], *, ends_at_side: bool) -> tuple[Cutter, ...]:
    """The cutters whose bearing does not run into wood."""
    return tuple(one for one in cutters if ends_at_side or not one.has_bearing)


def _bevel(low: Point, slope: float, place: CutPlace, face: FaceInCells) -> _Tried:
    out_mm = (face.thickness_mm - low[1]) / slope
    return _Tried(
        cut=TypedCut(
            shape="bevel",
            size_mm=out_mm,
            place=place,
            height_mm=out_mm,
            fence_mm=low[1],
            takes_mm=face.thickness_mm - low[1],
            tilt_deg=degrees(atan2(slope, 1)),
        ),
        floor=lambda at_mm: low[1] + slope * face.out_mm(place, at_mm),
    )


def _flats(line: Segment, face: FaceInCells, cutters: tuple[Cutter, ...]) -> Iterator[_Tried]:
    """A step, open toward a side; else a groove between its walls."""
    straight = sorted((one for one in cutters if one.kind is CutterKind.STRAIGHT), key=lambda one: one.size_mm)
    left_mm, right_mm = sorted((line.start[0], line.end[0]))
    for place, wall_mm in ((CutPlace.SIGHT, left_mm), (CutPlace.OUTER, right_mm)):
        if face.is_open(place, from_mm=wall_mm, low_mm=line.start[1]):
            yield _step(face, place, out_mm=face.out_mm(place, wall_mm), level_mm=line.start[1], straight=straight)
    yield _groove(face, left_mm, right_mm, level_mm=line.start[1], straight=straight)


def _step(face: FaceInCells, place: CutPlace, *, out_mm: float, level_mm: float, straight: Sequence[Cutter]) -> _Tried:
    depth_mm = face.thickness_mm - level_mm
    return _Tried(
        cut=TypedCut(
            shape="step",
            size_mm=out_mm,
            place=place,
            height_mm=depth_mm,
            fence_mm=out_mm,
            takes_mm=depth_mm,
            cutter=straight[-1] if straight else None,
        ),
        floor=lambda at_mm: level_mm if face.out_mm(place, at_mm) < out_mm else _NOT_THERE,
    )


def _groove(
    face: FaceInCells, left_mm: float, right_mm: float, *, level_mm: float, straight: Sequence[Cutter]
) -> _Tried:
    depth_mm, wide_mm = face.thickness_mm - level_mm, right_mm - left_mm
    fits = [one for one in straight if one.size_mm <= wide_mm + SAME_SIZE_MM]
    return _Tried(
        cut=TypedCut(
            shape="groove",
            size_mm=wide_mm,
            place=CutPlace.FACE,
            height_mm=depth_mm,
            fence_mm=(left_mm + right_mm) / 2,
            takes_mm=depth_mm,
            cutter=fits[-1] if fits else None,
            nearest=straight[0] if straight else None,
        ),
        floor=lambda at_mm: level_mm if left_mm < at_mm < right_mm else _NOT_THERE,
    )


_NOT_THERE = float("inf")
