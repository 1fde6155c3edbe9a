"""A frame with a photo of its artwork beside a sheet: what the tape is held against, and a photo that tells nothing."""

from typing import Any

import pytest
from camera import ACROSS_PX, UP_PX, plain_scene

from framecalc.plan import FramePlan, Plan
from framecalc.project import project_document, read_project
from webapp.pages.projects.demos import demo

CORNERS = ("upper_left", "upper_right", "lower_right", "lower_left")


def sizing(**more: Any) -> dict[str, Any]:
    """A photo of a print of 400 × 300 mm, its marks on their corners."""
    places = [{"across": f"{x:.2f}", "down": f"{y:.2f}"} for x, y in plain_scene().pixels]
    marks = {
        "sheet": dict(zip(CORNERS, places[:4], strict=True)),
        "artwork": dict(zip(CORNERS, places[4:], strict=True)),
    }
    return {"id": "0" * 32, "across": ACROSS_PX, "up": UP_PX, **marks, **more}


def planned(artwork: dict[str, str], **frame: Any) -> FramePlan:
    document = project_document(read_project(demo("cafe-prints.demo")))
    document["frames"][0]["artwork"] |= artwork
    document["frames"][0] |= frame
    project = read_project(document)
    return Plan(project).frames[project.frames[0].id]


def codes(plan: FramePlan) -> list[str]:
    return [finding.code for finding in plan.findings if finding.code.startswith("photo.")]


def test_without_a_photo_nothing_is_held_against_the_tape() -> None:
    plan = planned({"across": "400 mm", "up": "300 mm"})
    assert plan.by_photo is None and codes(plan) == []


def test_a_size_within_the_interval_says_where_it_is_from_and_one_beyond_is_found() -> None:
    plan = planned({"across": "400 mm", "up": "330 mm"}, sizing=sizing())
    here = f"frames.{plan.frame.id}.artwork"
    assert plan.origin_of(f"{here}.across").startswith("By photo ± ") and plan.origin_of(f"{here}.up") == ""
    assert plan.origin_of(f"{here}.across_bottom") == "" and plan.origin_of("note") == ""
    assert codes(plan) == ["photo.tape-differs-up-left"]
    concern = next(one for one in plan.concerns if one.code == "photo.tape-differs-up-left")
    assert plan.field_of(concern) == f"{here}.up" and "330 mm typed, 300 mm ± " in plan.sentence_of(concern)


@pytest.mark.parametrize("gone", ["sheet", "artwork"])
def test_a_photo_whose_marks_are_not_all_put_tells_nothing_yet(gone: str) -> None:
    marks = sizing()
    del marks[gone]["lower_left"]
    assert planned({"across": "9 mm"}, sizing=marks).by_photo is None


def test_marks_out_of_turn_leave_the_frame_as_it_is() -> None:
    marks = sizing()
    marks["sheet"]["upper_left"], marks["sheet"]["upper_right"] = (
        marks["sheet"]["upper_right"],
        marks["sheet"]["upper_left"],
    )
    plan = planned({"across": "400 mm", "up": "330 mm"}, sizing=marks)
    assert plan.by_photo is None and codes(plan) == []


def test_a_mark_counts_as_found_only_where_it_was_found() -> None:
    marks = sizing()
    first = marks["sheet"]["upper_left"]
    by_hand = planned({}, sizing=marks).by_photo
    for mark in (*marks["sheet"].values(), *marks["artwork"].values()):
        mark |= {"found_across": mark["across"], "found_down": mark["down"]}
    found = planned({}, sizing=marks).by_photo
    first["across"] = "2000"
    moved = planned({}, sizing=marks).frame.sizing
    assert by_hand and found and moved
    assert found.across_top.marks_mm == pytest.approx(by_hand.across_top.marks_mm / 4)
    assert [mark.is_found for mark in moved.sheet.four] == [False, True, True, True]
