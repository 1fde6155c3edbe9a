"""A drawing is kept under all that it shows: kept or drawn anew, it is the same."""

from math import hypot
from typing import Any

import pytest
from drawn_plans import FRAMES, plan_of

from framecalc.drawing.record import panel_svg, paper_svg
from framecalc.drawing.registry import PANELS, PAPER_DRAWINGS, draw_panel, draw_paper

CHANGES: dict[str, Any] = {
    "name": "another name",
    "count": 7,
    "package.clearance_across": "4 mm",
    "package.clearance_up": "5 mm",
    "package.mat": None,
    "package.layers": [],
    "section.face_width": "35 mm",
    "section.thickness": "72 mm",
    "section.rabbet_width": "6 mm",
    "section.rabbet_depth": "11 mm",
    "section.face": "bevelled away from the picture",
    "section.face_drop": "1.5 mm",
    "section.sight_edge.shape": "step",
    "section.sight_edge.size": "1.5 mm",
    "section.back_edge.shape": "chamfer",
    "section.back_edge.size": "2.5 mm",
    "section.tray_gap": "5 mm",
    "section.ledge": "strip",
    "section.ledge_width": "22 mm",
    "section.ledge_thickness": "9 mm",
    "species": "cherry",
    "known.outside_across": "500 mm",
}


MEASURED = ("across", "across_bottom", "up", "up_right", "diagonal_rising", "diagonal_falling")


def changed(name: str, frame_id: str, path: str) -> dict[str, Any]:
    """A change of a field; measurements of the artwork stay such as a piece with four corners can have."""
    if path in CHANGES:
        return {path: CHANGES[path]}
    artwork = plan_of(name, frame_id).frame.artwork
    across_mm, up_mm = artwork.across.mm, artwork.up.mm
    usual_mm = {"across": across_mm, "across_bottom": across_mm, "up": up_mm, "up_right": up_mm}
    typed = getattr(artwork, path.removeprefix("artwork."))
    length_mm = typed.mm if typed else usual_mm.get(path.removeprefix("artwork."), hypot(across_mm, up_mm))
    return {path: f"{length_mm + 1.5:.3f} mm"}


def forget() -> None:
    panel_svg.cache_clear()
    paper_svg.cache_clear()


def all_of(plan: Any) -> dict[str, str]:
    panels = {name: draw_panel(name, plan) for name in PANELS}
    return panels | {f"{name} on paper": draw_paper(name, plan, "a4") for name in PAPER_DRAWINGS}


@pytest.mark.parametrize("change", [*CHANGES, *(f"artwork.{name}" for name in MEASURED)])
@pytest.mark.parametrize(("name", "frame_id"), FRAMES)
def test_a_kept_drawing_equals_a_fresh_one(name: str, frame_id: str, change: str) -> None:
    before, after = plan_of(name, frame_id), plan_of(name, frame_id, changed(name, frame_id, change))
    forget()
    all_of(before)
    kept = all_of(after)
    forget()
    assert kept == all_of(after)


@pytest.mark.parametrize(
    "project",
    [
        {"unit": "in"},
        {"name": "another job"},
        {"shop": {"blade": "b", "kerf": "3 mm", "end_trim": "0 mm", "fence_length": "900 mm", "mm_step": "0.1 mm"}},
        {"shop": {"blade": "b", "kerf": "3 mm", "end_trim": "0 mm", "fence_length": "900 mm", "words": "UK"}},
        {"saved": {"revision": 3, "when": "2026-11-25T09:00:00Z", "equals": 3}},
    ],
)
def test_a_change_of_the_project_shows_too(project: dict[str, Any]) -> None:
    forget()
    before = all_of(plan_of("cafe-prints", "oak5"))
    kept = all_of(plan_of("cafe-prints", "oak5", **project))
    forget()
    assert kept == all_of(plan_of("cafe-prints", "oak5", **project))
    assert kept != before


def test_what_a_drawing_does_not_show_does_not_draw_it_again() -> None:
    forget()
    draw_panel("section", plan_of("cafe-prints", "oak5"))
    draw_panel("section", plan_of("cafe-prints", "oak5", {"artwork.up": "204 mm", "known.outside_up": "500 mm"}))
    assert panel_svg.cache_info().hits == 1


def test_a_drawing_that_there_is_not_is_refused() -> None:
    plan = plan_of("cafe-prints", "oak5")
    with pytest.raises(KeyError):
        draw_panel("beside", plan)
    with pytest.raises(KeyError):
        draw_paper("front", plan, "a9")
