"""The members as cut and the corner: long edge up, both ends sloping inward, the same figures as the table."""

from itertools import pairwise

import pytest
from drawn_plans import plain, plan_of
from svg_reading import Drawn

from framecalc.drawing.registry import draw_panel
from framecalc.drawing.setting_out.corner import spread
from framecalc.drawing.setting_out.members import CORNERS
from framecalc.plan import FramePlan
from framecalc.sizes.shape import RECTANGLE_CORNERS


def members(plan: FramePlan) -> Drawn:
    return Drawn(draw_panel("members", plan))


def corner(plan: FramePlan) -> Drawn:
    return Drawn(draw_panel("corner", plan))


def test_an_unbroken_member_is_a_trapezoid_to_scale_with_its_long_edge_up() -> None:
    plan = plain(500, 400, 60)
    across, up = plan.members
    for member, run in zip((across, up), members(plan).runs("wood"), strict=True):
        (left, top), (right, _), (right_foot, bottom), (left_foot, _), _ = run
        assert top < bottom
        scale = (right - left) / member.long_mm
        assert right_foot - left_foot == pytest.approx(member.short_mm * scale, abs=0.003)
        assert left_foot - left == pytest.approx(bottom - top, abs=0.003)
        assert right - right_foot == pytest.approx(bottom - top, abs=0.003)


def test_both_pairs_are_drawn_to_one_scale() -> None:
    plan = plain(500, 400, 60)
    scales = [
        (run[1][0] - run[0][0]) / member.long_mm
        for member, run in zip(plan.members, members(plan).runs("wood"), strict=True)
    ]
    assert scales[0] == pytest.approx(scales[1], rel=1e-4)


def test_a_slender_member_is_drawn_broken_with_its_true_figures() -> None:
    plan = plan_of("cafe-prints", "oak5")
    drawn = members(plan)
    assert len(drawn.runs("break")) == 4
    assert drawn.figures()["outside_across"] == [f"long points {plan.figures['outside_across'].text}"]


def test_a_member_counts_for_every_frame_of_the_batch() -> None:
    texts = [text.text for text in members(plan_of("cafe-prints", "oak5")).texts]
    assert "10 × top, bottom" in texts
    assert "10 × left, right" in texts


def test_the_rabbet_wall_is_hidden_and_the_wall_of_a_tray_is_seen() -> None:
    assert members(plan_of("cafe-prints", "oak5")).runs("hidden")
    tray = members(plan_of("ash-relief", "tray1"))
    assert not tray.runs("hidden")
    assert tray.runs("edge")


def test_each_end_names_the_two_corners_it_belongs_to() -> None:
    """A side that is turned until its outer edge is up, face up, has the corners of its two ends left and right."""
    letters = {corner: "".join(word[0].upper() for word in corner.split("-")) for corner in RECTANGLE_CORNERS}
    clockwise = [letters[corner] for corner in ("top-left", "top-right", "bottom-right", "bottom-left")]
    for place, side in enumerate(("top", "right", "bottom", "left")):
        left, right = clockwise[place], clockwise[(place + 1) % 4]
        pair = next(pair for pair in CORNERS if side in pair)
        at = pair.index(side)
        assert (CORNERS[pair][0][at], CORNERS[pair][1][at]) == (left, right)


def test_the_corner_gives_face_width_rabbet_width_and_mitre_length() -> None:
    plan = plan_of("cafe-prints", "oak5")
    assert set(corner(plan).figures()) == {"face_width", "rabbet_width", "mitre_length"}


def test_the_mitre_runs_from_the_tip_to_the_sight_corner() -> None:
    drawn = corner(plan_of("cafe-prints", "oak5"))
    ((start, end),) = drawn.segments("mitre")
    outer, sight = drawn.runs("outline")
    assert start == outer[1]
    assert end == sight[1]
    assert end[0] - start[0] == pytest.approx(end[1] - start[1], abs=0.002)


def test_names_that_would_touch_are_spread_in_their_order() -> None:
    for places in ([0.0, 0.0, 0.0], [0.0, 1.0, 9.0, 9.5], [5.0], [3.0, 20.0]):
        moved = spread(places, apart_mm=4.8, least_mm=-1)
        assert all(later - earlier >= 4.8 - 1e-9 for earlier, later in pairwise(moved))
        assert moved[0] >= -1
