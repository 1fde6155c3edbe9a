"""Cuts of a face through typed points: together they leave the section, and none takes what stays."""

import pytest
from shapely import Polygon

from framecalc.bench.cutters import CutPlace, Cutter, CutterKind
from framecalc.bench.sections import milled_top
from framecalc.bench.typed_cuts import TypedCuts, typed_cuts
from framecalc.section.profile import Edge, EdgeShape, FaceShape
from framecalc.section.rabbeted import Section, milled_section
from framecalc.section.typed_points import ProfilePoint, WayToPoint

LINE, HOLLOW, ROUND = WayToPoint.LINE, WayToPoint.HOLLOW, WayToPoint.ROUND
OWNED = (
    Cutter(kind=CutterKind.ROUND_NOSE, size_mm=20),
    Cutter(kind=CutterKind.STRAIGHT, size_mm=6),
    Cutter(kind=CutterKind.ROUND_OVER, size_mm=5, has_bearing=True),
    Cutter(kind=CutterKind.CHAMFER, size_mm=10, has_bearing=True),
    Cutter(kind=CutterKind.COVE, size_mm=6, has_bearing=True),
    Cutter(kind=CutterKind.ROUND_OVER, size_mm=5),
    Cutter(kind=CutterKind.CHAMFER, size_mm=12),
)

Typed = tuple[float, float, WayToPoint, float | None]


def at(across_mm: float, down_mm: float, way: WayToPoint = LINE, radius_mm: float | None = None) -> ProfilePoint:
    return ProfilePoint(across_mm=across_mm, down_mm=down_mm, way=way, radius_mm=radius_mm)


def through(*points: ProfilePoint) -> Section:
    square = Edge(shape=EdgeShape.SQUARE, size_mm=1)
    return milled_section(
        face_width_mm=40, thickness_mm=24, rabbet_width_mm=7, rabbet_depth_mm=8, sight_edge=square, back_edge=square,
        face=FaceShape.POINTS, face_drop_mm=0, points=points,
    )  # fmt: skip


def cut(section: Section) -> TypedCuts:
    return typed_cuts(section, cutters=OWNED, is_rabbeted=False)


FACES = {
    "hollow": (at(14, 0), at(26, 0, HOLLOW, 10)),
    "cove at the sight edge": (at(0, 6), at(6, 0, HOLLOW, 6)),
    "round": (at(0, 5), at(5, 0, ROUND, 5)),
    "chamfer": (at(0, 8), at(8, 0)),
    "step": (at(0, 4), at(9, 4), at(9, 0)),
    "groove": (at(15, 0), at(15, 3), at(25, 3), at(25, 0)),
    "step with a round over it": (at(0, 9), at(4, 9), at(4, 7), at(9, 2, ROUND, 5), at(9, 0)),
    "bevel": (at(0, 6), at(18, 0)),
    "step and chamfer outside": (at(30, 0), at(34, 4), at(34, 6), at(40, 6)),
}


@pytest.mark.parametrize("name", FACES)
def test_all_cuts_together_leave_the_section(name: str) -> None:
    section = through(*FACES[name])
    found = cut(section)
    assert found.unmade == 0 and found.cuts
    assert all(one.is_sawn or one.cutter for one in found.cuts)
    before = Polygon([(0, 0), (40, 0), (40, 24), (0, 24)])
    for one in found.cuts:
        after = Polygon([(0, 0), (40, 0), *one.after])
        assert after.difference(before).area < 0.3, "a cut adds nothing"
        before = after
    wanted = Polygon([(0, 0), (40, 0), *milled_top(section.outline)])
    assert wanted.symmetric_difference(before).area < 1.0
    assert wanted.difference(before).area < 0.5, "nothing is taken that stays"


def test_height_and_fence_of_each() -> None:
    def numbers(name: str) -> list[tuple[str, CutPlace, float, float]]:
        return [(one.shape, one.place, round(one.height_mm, 2), round(one.fence_mm, 2)) for one in
                cut(through(*FACES[name])).cuts]  # fmt: skip

    assert numbers("hollow") == [("hollow", CutPlace.FACE, 2.0, 20.0)]
    assert numbers("cove at the sight edge") == [("hollow", CutPlace.SIGHT, 6.0, 6.0)]
    assert numbers("step") == [("step", CutPlace.SIGHT, 4.0, 9.0)]
    assert numbers("groove") == [("groove", CutPlace.FACE, 3.0, 20.0)]
    assert numbers("step with a round over it") == [
        ("round-over", CutPlace.SIGHT, 7.0, 9.0),
        ("step", CutPlace.SIGHT, 9.0, 4.0),
    ]
    (bevel,) = cut(through(*FACES["bevel"])).cuts
    assert (bevel.fence_mm, bevel.height_mm) == pytest.approx((18, 18)) and bevel.tilt_deg == pytest.approx(
        18.43, abs=0.01
    )


def test_a_bearing_rolls_only_where_the_shape_ends_at_the_side() -> None:
    (round_over,) = cut(through(*FACES["round"])).cuts
    assert round_over.rolls and round_over.bearing_mm == pytest.approx(19, abs=0.2)
    (first, _) = cut(through(*FACES["step with a round over it"])).cuts
    assert not first.rolls and first.cutter and not first.cutter.has_bearing, "a bearing would meet the step"


def test_a_bead_in_the_middle_is_left_for_the_hand_and_said() -> None:
    bead = through(at(10, 0), at(10, 5), at(20, 5, ROUND, 5), at(20, 0))
    assert cut(bead).unmade > 0


def test_a_cutter_that_is_not_there_is_named_by_its_nearest() -> None:
    found = typed_cuts(
        through(*FACES["round"]), cutters=[Cutter(kind=CutterKind.ROUND_OVER, size_mm=6)], is_rabbeted=False
    )
    (one,) = found.cuts
    assert one.cutter is None and one.nearest and one.nearest.size_mm == 6


def test_of_chamfer_cutters_that_are_too_small_the_largest_is_the_nearest() -> None:
    small = [Cutter(kind=CutterKind.CHAMFER, size_mm=size_mm) for size_mm in (6, 4)]
    cuts = typed_cuts(through(*FACES["chamfer"]), cutters=small, is_rabbeted=False).cuts
    (one,) = [cut for cut in cuts if cut.shape == "chamfer"] or cuts
    assert one.cutter is None and one.nearest == small[0]
