"""What came out beside the plan: the same sizes change nothing, others are planned again, and the plan stays."""

from collections.abc import Mapping

import pytest
from drawn_plans import demo
from frame_jobs import shaped
from hypothesis import given
from hypothesis import strategies as st

from framecalc.bench.as_cut import ALL_SIDES, Quantity
from framecalc.findings import Severity
from framecalc.plan import FramePlan, Plan
from framecalc.project import read_project

DEPTH, WIDTH, FACE = Quantity.RABBET_DEPTH, Quantity.RABBET_WIDTH, Quantity.FACE_WIDTH
Said = tuple[Quantity, str, str]


def measured(name: str, *said: Said, long: Mapping[str, str] | None = None) -> FramePlan:
    """The first frame of a demo with measurements; long points by their side."""
    document = demo(name)
    frame = document["frames"][0]
    frame["as_cut"] = [
        {"id": f"m{number:02}", "quantity": quantity, "side": side, "size": size}
        for number, (quantity, side, size) in enumerate(said)
    ]
    for side, size in (long or {}).items():
        frame["corner"]["sides"][side]["long"] = size
    return Plan(read_project(document)).frames[frame["id"]]


def planned(name: str) -> FramePlan:
    return measured(name)


@pytest.mark.parametrize("name", ["ash-relief", "cafe-prints", "maple-canvas"])
def test_what_came_out_as_planned_changes_nothing(name: str) -> None:
    before = planned(name)
    same = [(quantity, ALL_SIDES, f"{size_mm:.6f} mm") for quantity, size_mm in before.as_cut.planned_mm.items()]
    plan = measured(name, *same)
    assert plan.as_cut.is_as_planned and plan.as_cut.by_least is plan
    assert plan.as_cut.findings == () and plan.as_cut.concerns == ()
    assert plan.sizes == before.sizes
    assert {one.code for one in plan.concerns} == {one.code for one in before.concerns}


@given(off_mm=st.floats(min_value=-1.5, max_value=1.5).filter(lambda off_mm: abs(off_mm) > 0.01))
def test_until_the_saw_a_wider_rabbet_lengthens_no_opening(off_mm: float) -> None:
    before = planned("cafe-prints")
    width_mm = before.as_cut.planned_mm[WIDTH] + off_mm
    plan = measured("cafe-prints", (WIDTH, ALL_SIDES, f"{width_mm:.4f} mm"))
    cut = plan.as_cut.for_the_saw
    assert plan.sizes == before.sizes
    assert cut.sizes.rabbet_across_mm == pytest.approx(before.sizes.rabbet_across_mm)
    assert cut.sizes.outside_across_mm == pytest.approx(before.sizes.outside_across_mm - 2 * off_mm, abs=1e-3)


def test_once_long_points_are_cut_the_clearance_follows() -> None:
    before = planned("cafe-prints").sizes
    short = {side: f"{before.outside_across_mm - 1:.4f} mm" for side in ("top", "bottom")}
    plan = measured("cafe-prints", (WIDTH, ALL_SIDES, f"{before.rabbet_width_mm:.4f} mm"), long=short)
    cut = plan.as_cut.by_least.sizes
    assert cut.outside_across_mm == pytest.approx(before.outside_across_mm - 1, abs=1e-3)
    assert cut.clearance_across_mm == pytest.approx(before.clearance_across_mm - 1, abs=1e-3)
    assert cut.package_across_mm == before.package_across_mm


def test_a_shallow_rabbet_says_what_is_left_behind_the_package() -> None:
    before = planned("cafe-prints")
    room_mm = before.seat.left_over_mm
    depth_mm = before.as_cut.planned_mm[DEPTH]
    plan = measured("cafe-prints", (DEPTH, ALL_SIDES, f"{depth_mm} mm"), (DEPTH, "left", f"{depth_mm - 0.4:.4f} mm"))
    (said,) = [finding for finding in plan.as_cut.findings if finding.code == "as-cut.rabbet-depth"]
    assert said.lengths["off"] == pytest.approx(0.4)
    assert said.lengths["room"] == pytest.approx(room_mm - 0.4)
    assert plan.as_cut.by_least.seat.left_over_mm == pytest.approx(room_mm - 0.4)


def test_a_package_that_stands_proud_warns() -> None:
    plan = measured("cafe-prints", (DEPTH, ALL_SIDES, "4 mm"))
    assert Severity.WARN in {concern.severity for _, concern in plan.as_cut.concerns}
    (said,) = [finding for finding in plan.as_cut.findings if finding.code == "as-cut.rabbet-depth"]
    assert "proud" in said.sentence


def test_what_no_frame_is_planned_with_is_a_stop() -> None:
    plan = measured("cafe-prints", long={"top": "20 mm"})
    assert [finding.code for finding in plan.as_cut.findings] == ["as-cut.beyond"]


def test_the_light_of_the_job_counts_what_came_out() -> None:
    document = demo("cafe-prints")
    document["frames"][0]["as_cut"] = [{"id": "m01", "quantity": "rabbet depth", "size": "4 mm"}]
    said = [one for one in Plan(read_project(document)).obstacles if one.page == "bench"]
    assert said and any(one.severity is Severity.WARN for one in said)
    assert all(", as cut: " in one.sentence for one in said)


def test_the_clearance_of_a_polygon_follows_its_shortest_side_as_cut() -> None:
    """Each millimetre of a hexagon's side is √3 across its flats."""
    document = shaped(sides=6, size="400 mm")
    planned = Plan(read_project(document)).frames[document["frames"][0]["id"]]
    long_mm = planned.figures["member_long"].exact_mm
    document["frames"][0].setdefault("corner", {})["numbered"] = [
        {"id": "s2", "long": f"{long_mm - 1:.4f} mm"},
        {"id": "s5", "long": f"{long_mm + 1:.4f} mm"},
    ]
    cut = Plan(read_project(document)).frames[document["frames"][0]["id"]].as_cut
    assert cut.is_measured and not cut.is_as_planned
    lost_mm = planned.sizes.clearance_across_mm - cut.for_the_saw.sizes.clearance_across_mm
    assert lost_mm == pytest.approx(3**0.5, abs=1e-3)
    assert cut.for_the_saw.sizes.outside_across_mm == pytest.approx(planned.sizes.outside_across_mm - 3**0.5, abs=1e-3)
