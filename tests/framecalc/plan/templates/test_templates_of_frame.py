"""The templates of a frame: what is cut by them has the sizes of the plan."""

from math import hypot
from typing import Any

import pytest
from drawn_plans import FRAMES, demo, plan_of

from framecalc.geometry.outline import area_mm2, bounds
from framecalc.plan.sheets.parts import size_of_part
from framecalc.plan.templates.templates import FrameTemplates, templates_of
from framecalc.templates.dust_cover import INSET_MM
from framecalc.templates.template import Side, Template

TWO_MATS = {
    "package.mat.reveal": "6 mm",
    "package.layers": [
        {"id": "g1", "name": "glass", "kind": "glazing", "thickness": "2 mm", "tolerance": "0.1 mm"},
        {"id": "u1", "name": "top board", "kind": "mat", "thickness": "1.5 mm", "tolerance": "0.1 mm"},
        {"id": "m1", "name": "under board", "kind": "mat", "thickness": "1.5 mm", "tolerance": "0.1 mm"},
        {"id": "a1", "name": "print", "kind": "artwork", "thickness": "0.2 mm", "tolerance": "0.1 mm"},
        {"id": "b1", "name": "board", "kind": "back", "thickness": "3 mm", "tolerance": "0.1 mm"},
        {"id": "c1", "name": "board", "kind": "back", "thickness": "3 mm", "tolerance": "0.1 mm"},
        {"id": "d1", "name": "paper", "kind": "dust cover", "thickness": "0.1 mm", "tolerance": "0 mm"},
    ],
}
HEXAGON = {"shape.sides": "6", "shape.size": "300 mm", "package.mat": None}


def made(demo: str = "cafe-prints", frame: str = "oak5", changes: dict[str, Any] | None = None) -> FrameTemplates:
    return templates_of(plan_of(demo, frame, changes))


def named(templates: FrameTemplates, name: str) -> Template:
    found = templates.named(name)
    assert found is not None, [one.name for one in templates.templates]
    return found


@pytest.mark.parametrize(("demo", "frame"), FRAMES)
def test_every_demo_has_templates_of_different_names(demo: str, frame: str) -> None:
    templates = made(demo, frame)
    names = [one.name for one in templates.templates]
    assert templates.refusals == ()
    assert len(names) == len(set(names)) >= 3
    assert {"reference-block", "story-stick"} <= set(names)


@pytest.mark.parametrize("from_behind", [True, False])
def test_a_mat_has_its_windows_where_they_lie_before_the_cutter(from_behind: bool) -> None:
    changes = {
        "package.mat.from_behind": from_behind,
        "package.mat.windows": [{"id": "p2", "across": "90 mm", "up": "60 mm"}],
    }
    plan = plan_of("cafe-prints", "oak5", changes)
    mat = named(templates_of(plan), "mat")
    assert mat.side is (Side.BACK if from_behind else Side.FACE)
    assert plan.package.mats is not None
    laid = plan.package.mats.cut[0].laid
    assert (mat.across_mm, mat.up_mm) == (laid.across_mm, laid.up_mm)
    for hole, window in zip(mat.holes, laid.windows, strict=True):
        cut = bounds(hole.segments)
        assert (cut.left_mm, cut.bottom_mm) == pytest.approx((window.left_mm, window.bottom_mm))
        assert (cut.right_mm, cut.top_mm) == pytest.approx((window.right_mm, window.top_mm))


def test_two_mats_are_two_templates_and_equal_layers_are_told_apart() -> None:
    templates = made(changes=TWO_MATS)
    assert [one.name for one in templates.templates[:6]] == [
        "upper-mat",
        "lower-mat",
        "glazing",
        "back",
        "back-2",
        "dust-cover",
    ]
    upper, lower = (bounds(named(templates, f"{which}-mat").holes[0].segments) for which in ("upper", "lower"))
    assert lower.left_mm - upper.left_mm == pytest.approx(6)


def test_the_sheets_are_as_the_layout_of_sheets_cuts_them() -> None:
    plan = plan_of("cafe-prints", "oak5", TWO_MATS)
    back, size = named(templates_of(plan), "back"), size_of_part(plan)
    assert (back.across_mm, back.up_mm) == (size.across_mm, size.up_mm)
    cover = named(templates_of(plan), "dust-cover")
    assert cover.across_mm == pytest.approx(plan.sizes.outside_across_mm - 2 * INSET_MM)


def test_the_sheets_of_a_polygon_are_polygons_and_its_block_has_its_angle() -> None:
    plan = plan_of("cafe-prints", "oak5", HEXAGON)
    templates = templates_of(plan)
    (back,), size = named(templates, "back").outlines, size_of_part(plan)
    assert len(back.segments) == 6
    assert area_mm2(back) == pytest.approx(plan.shape.area_mm2(size.across_mm, size.up_mm))
    assert named(templates, "reference-block").title == "Reference block, 30°"
    assert [one.name for one in templates.templates if "mat" in one.name] == []


def test_blocks_and_stick_carry_the_text_of_drawings_and_lists() -> None:
    plan = plan_of("maple-canvas", "map1")
    templates = templates_of(plan)
    assert [word.text for word in named(templates, "set-up-blocks").words][:2] == [
        f"rabbet width {plan.figures['rabbet_width'].written.full}",
        f"rabbet depth {plan.figures['rabbet_depth'].written.full}",
    ]
    stick = named(templates, "story-stick")
    marks = [mark.start[0] for mark in stick.marks]
    assert pytest.approx(plan.figures["outside_up"].exact_mm) == marks[-1]
    assert stick.words[-1].text == f"outside, up {plan.figures['outside_up'].written.full}"
    assert not any("width" in word.text for word in stick.words)


def test_a_bought_moulding_is_not_milled_and_has_no_set_up_blocks() -> None:
    plan = plan_of("cafe-prints", "oak5", {"section.source": "bought"})
    assert plan.is_bought
    assert templates_of(plan).named("set-up-blocks") is None


def test_a_tray_has_no_sight_edge() -> None:
    """Fault: its section was to be held with the sight edge on the right."""
    frame = demo("ash-relief")["frames"][0]
    purpose = named(made("ash-relief", frame["id"]), "section").purpose
    assert frame["section"]["kind"] == "tray" and purpose.endswith("face above, inside on the right.")


def test_british_shops_read_their_own_words() -> None:
    templates = made("ash-relief", "box1")
    assert named(templates, "set-up-blocks").words[0].text.startswith("rebate width")
    assert "rebate size" in named(templates, "back").purpose


def test_the_stamp_says_job_frame_revision_and_day() -> None:
    stamp = made().stamp
    assert (stamp.project, stamp.frame) == ("Prints for a café wall", "5 × Linocut, matted")
    assert (stamp.revision, stamp.date) == ("not saved", "no date")


def test_what_stays_in_view_of_the_artwork_is_what_the_mat_leaves_and_without_one_the_lip() -> None:
    matted = named(made(), "artwork")
    plan = plan_of("cafe-prints", "oak5")
    assert plan.package.mats is not None
    window = plan.package.mats.in_view.windows[0]
    view = bounds(matted.zones[0].segments)
    assert (view.right_mm - view.left_mm, view.top_mm - view.bottom_mm) == pytest.approx(
        (min(window.across_mm, matted.across_mm), min(window.up_mm, matted.up_mm))
    )
    assert "1.15 mm by a 60° bit, 2 mm by a 90° bit" in matted.purpose
    bare = plan_of("cafe-prints", "oak5", {"package.mat": None})
    view = bounds(named(templates_of(bare), "artwork").zones[0].segments)
    assert view.right_mm - view.left_mm == pytest.approx(bare.sizes.sight_across_mm)


def test_ends_and_joint_lie_where_the_joint_page_says() -> None:
    plan = plan_of("maple-canvas", "map1")
    templates = templates_of(plan)
    place = plan.corners.joint.slot_places[0]
    face = named(templates, "mitre-face")
    hole = bounds(face.holes[0].segments)
    assert (hole.left_mm, hole.right_mm) == pytest.approx((place.marks.near_mm, place.marks.far_mm))
    assert face.across_mm == pytest.approx(plan.corners.mitre_length_mm)
    behind = named(templates, "end-from-behind")
    assert behind.up_mm == pytest.approx(plan.figures["face_width"].exact_mm)
    tip = (behind.across_mm, 0.0)
    marked = [hypot(tip[0] - mark.start[0], tip[1] - mark.start[1]) for mark in behind.marks[1:]]
    assert marked == pytest.approx([place.marks.near_mm, place.marks.centre_mm, place.marks.far_mm])


def test_sides_that_slope_have_no_ends_and_no_refusals() -> None:
    templates = templates_of(plan_of("cafe-prints", "oak5", {"shape.slope": "20"}))
    assert templates.refusals == ()
    assert templates.named("end-from-behind") is None and templates.named("section") is not None
