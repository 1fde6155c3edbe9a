"""Sheet and image through the whole plan: a crooked sheet is lapped everywhere, and what is to be seen is seen."""

from typing import Any

import pytest
from drawn_plans import plan_of
from hypothesis import assume, given
from hypothesis import strategies as some
from shapely import Polygon, box
from shapely.affinity import rotate

from framecalc.artwork.turning import best_turn_behind
from framecalc.drawing.registry import draw_panel, draw_paper
from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.plan import FramePlan
from framecalc.plan.client import client_facts
from framecalc.plan.light import Stage

PLATE = {
    "artwork.across": "300 mm",
    "artwork.up": "400 mm",
    "artwork.image_across": "200 mm",
    "artwork.image_up": "250 mm",
    "package.mat.overlap": "3 mm",
    "package.mat.shows": "8 mm",
    "package.mat.border": "90 mm",
    "package.mat.bottom": "100 mm",
}
BARE = PLATE | {"package.mat": None}


def linocut(changes: dict[str, Any]) -> FramePlan:
    return plan_of("cafe-prints", "oak5", changes)


def stops_before_cutting(plan: FramePlan) -> list[str]:
    return [
        concern.code
        for concern in plan.concerns
        if concern.severity is Severity.STOP and concern.stage is Stage.CUTTING
    ]


@given(
    taper=some.integers(-40, 40),
    slant=some.integers(-40, 40),
    skew=some.integers(-60, 60),
    overlap=some.integers(0, 100),
)
def test_a_skewed_sheet_is_lapped_by_the_overlap_everywhere(taper: int, slant: int, skew: int, overlap: int) -> None:
    changes = {
        "artwork.across": "280 mm",
        "artwork.across_bottom": f"{280 + taper / 10} mm",
        "artwork.up": "200 mm",
        "artwork.up_right": f"{200 + slant / 10} mm",
        "artwork.diagonal_rising": f"{(280**2 + 200**2) ** 0.5 + skew / 10:.2f} mm",
        "package.mat.overlap": f"{overlap / 10} mm",
    }
    try:
        plan = linocut(changes)
        window, fit = plan.package.mats.windows.windows[0], plan.fit  # type: ignore[union-attr]
    except FrameCalcError:
        assume(False)
    behind = best_turn_behind(fit.corners, across_mm=fit.least_across_mm, up_mm=fit.least_up_mm)
    sheet = rotate(Polygon(fit.corners), behind.turn_deg, origin=(0, 0))
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = list(sheet.exterior.coords)[:4]
    middle_x, middle_y = (max(x0, x3) + min(x1, x2)) / 2, (max(y0, y1) + min(y2, y3)) / 2
    x, y = window.across_mm / 2, window.up_mm / 2
    opening = box(middle_x - x, middle_y - y, middle_x + x, middle_y + y)
    assert sheet.buffer(1e-6).contains(opening)
    assert opening.distance(sheet.exterior) >= overlap / 10 - 1e-6


def test_a_tapered_sheet_is_lapped_at_its_smallest() -> None:
    tapered = linocut({"artwork.across_bottom": "276 mm", "package.mat.overlap": "3 mm"})
    assert tapered.figures["window_across"].text == "270"
    assert linocut({"package.mat.overlap": "3 mm"}).figures["window_across"].text == "274"
    assert tapered.package.mats is not None and tapered.package.mats.mat.overlap_mm == pytest.approx(3, abs=0.02)


def test_blank_is_all_of_the_sheet_as_before() -> None:
    blank = linocut({name: None for name in ("artwork.image_across", "artwork.image_up", "artwork.image_left")})
    assert blank.figures == linocut({}).figures and "image_across" not in blank.figures


def test_the_window_follows_the_image_and_the_frame_follows_the_mat() -> None:
    plan = linocut(PLATE)
    names = ("image", "artwork", "window", "package")
    assert [plan.figures[f"{name}_across"].text for name in names] == ["200", "300", "216", "396"]
    assert stops_before_cutting(plan) == []
    assert plan.package.mats is not None and not plan.package.mats.floats
    assert plan.package.mats.laps[0].least_mm == pytest.approx(42)


def test_an_image_that_the_lip_covers_stops_the_work_before_cutting() -> None:
    assert stops_before_cutting(linocut(BARE)) == []
    assert stops_before_cutting(linocut(BARE | {"artwork.image_left": "3 mm"})) == ["image.covered-across"]


def test_a_sheet_that_reaches_past_its_mat_stops_the_work() -> None:
    low = PLATE | {"artwork.image_below": "140 mm", "package.mat.bottom": "90 mm"}
    (advice,) = [one for one in linocut(low).advice if one.code == "image.sheet-past-mat"]
    assert stops_before_cutting(linocut(low | {"package.mat.bottom": advice.ways[0].text})) == []


def test_in_a_tray_all_of_the_sheet_is_seen() -> None:
    tray = linocut(PLATE | {"section.kind": "tray", "section.thickness": "30 mm"})
    assert tray.settled.seen is None and not [f for f in tray.findings if f.code.startswith("image.")]


def test_an_image_of_one_size_alone_is_refused_beside_its_field() -> None:
    with pytest.raises(FrameCalcError) as refused:
        linocut(PLATE | {"artwork.image_up": None}).compute_all()
    assert refused.value.field == "frames.oak5.artwork.image_up"


def test_front_and_mat_show_the_sheet_and_the_image() -> None:
    plan, plain = linocut(PLATE), linocut(PLATE | {"artwork.image_across": None, "artwork.image_up": None})
    assert "image 200 × 250" in draw_paper("front", plan, "a4") and "image" not in draw_paper("front", plain, "a4")
    assert draw_panel("mat", plan).count('class="hidden"') > draw_panel("mat", plain).count('class="hidden"')


def test_the_client_reads_what_is_to_be_seen() -> None:
    seen = next(fact for fact in client_facts(linocut(PLATE)).facts if fact.name == "picture")
    assert "216 × 266" in seen.text


@pytest.mark.parametrize("given", ["artwork", "wall", "stock", "stick"])
def test_every_starting_point_keeps_the_image_on_its_sheet(given: str) -> None:
    start = {
        "start.given": given,
        "start.wall_across": "600 mm",
        "start.wall_up": "700 mm",
        "start.stock": "A2",
        "start.stick_length": "2600 mm",
        "start.stick_solves": "picture",
    }
    plan = linocut(PLATE | start)
    seen, settled = plan.settled.seen, plan.settled
    assert seen is not None
    assert seen.across_mm / settled.artwork_across_mm == pytest.approx(200 / 300)
    assert plan.package.mats is not None
    assert plan.package.mats.images[0].seen == seen
