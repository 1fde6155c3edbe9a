"""The front: edges where the plan has them, hidden edges dashed, a crooked artwork that says how it is exaggerated."""

import pytest
from drawn_plans import plan_of
from shapely import Polygon
from svg_reading import Drawn, Point

from framecalc.drawing.registry import draw_panel
from framecalc.drawing.setting_out.crooked import FACTORS, exaggerated, exaggeration, is_crooked
from framecalc.plan import FramePlan


def front(plan: FramePlan) -> Drawn:
    return Drawn(draw_panel("front", plan))


def box(run: list[Point]) -> tuple[float, float, float, float]:
    across, up = [x for x, _ in run], [y for _, y in run]
    return min(across), min(up), max(across), max(up)


def size(run: list[Point]) -> tuple[float, float]:
    left, top, right, bottom = box(run)
    return right - left, bottom - top


def middle(run: list[Point]) -> Point:
    left, top, right, bottom = box(run)
    return (left + right) / 2, (top + bottom) / 2


def scale_of(drawn: Drawn, plan: FramePlan) -> float:
    return size(drawn.runs("outline")[0])[0] / plan.sizes.outside_across_mm


@pytest.mark.parametrize(("name", "frame_id"), [("cafe-prints", "oak5"), ("ash-relief", "box1")])
def test_outside_sight_and_rabbet_are_to_one_scale_about_one_middle(name: str, frame_id: str) -> None:
    plan = plan_of(name, frame_id)
    drawn, sizes = front(plan), plan.sizes
    outside, sight = drawn.runs("outline")
    scale = scale_of(drawn, plan)
    rabbet = drawn.runs("hidden")[0]
    wanted = {
        "outside": (sizes.outside_across_mm, sizes.outside_up_mm),
        "sight": (sizes.sight_across_mm, sizes.sight_up_mm),
        "rabbet": (sizes.rabbet_across_mm, sizes.rabbet_up_mm),
    }
    for run, (across_mm, up_mm) in zip((outside, sight, rabbet), wanted.values(), strict=True):
        assert size(run) == pytest.approx((across_mm * scale, up_mm * scale), abs=0.003)
        assert middle(run) == pytest.approx(middle(outside), abs=0.003)


def test_mitres_run_from_the_outer_corners_to_the_sight_corners() -> None:
    drawn = front(plan_of("cafe-prints", "oak5"))
    outside, sight = (set(run) for run in drawn.runs("outline"))
    mitres = [run for run in drawn.runs("edge") if len(run) == 2]
    assert len(mitres) == 4
    assert {start for start, _ in mitres} == outside
    assert {end for _, end in mitres} == sight


def test_the_strip_that_is_covered_reaches_to_the_edge_of_the_package() -> None:
    plan = plan_of("ash-relief", "box1")
    drawn = front(plan)
    scale = scale_of(drawn, plan)
    package = (plan.sizes.package_across_mm * scale, plan.sizes.package_up_mm * scale)
    assert size(drawn.runs("covered")[0]) == pytest.approx(package, abs=0.003)


def test_a_window_stands_higher_where_the_bottom_border_is_the_wider() -> None:
    plan = plan_of("cafe-prints", "oak5")
    drawn = front(plan)
    mat = plan.mat
    assert mat is not None
    rise_mm = middle(drawn.runs("mat")[0])[1] - middle(drawn.runs("picture")[0])[1]
    wanted_mm = (mat.border_bottom_mm - mat.border_top_mm) / 2 * scale_of(drawn, plan)
    assert rise_mm == pytest.approx(wanted_mm, abs=0.003)


def test_the_place_of_the_picture_is_shown_by_its_diagonals() -> None:
    drawn = front(plan_of("cafe-prints", "oak5"))
    picture = drawn.runs("picture")[0]
    assert {point for run in drawn.runs("diagonal") for point in run} == set(picture)


def test_a_crooked_artwork_says_by_how_much_its_error_is_exaggerated() -> None:
    plan = plan_of("maple-canvas", "map1")
    drawn = front(plan)
    factor = exaggeration(plan.play.corners, scale=scale_of(drawn, plan))
    assert [text.text for text in drawn.texts if "shown" in text.text] == [f"corners shown ×{factor}"]
    assert drawn.figures()["outside_across"] == [f"outside {plan.figures['outside_across'].text}"]


def test_a_square_artwork_says_nothing_of_the_kind() -> None:
    for name, frame_id in (("cafe-prints", "oak5"), ("ash-relief", "box1")):
        assert not [text for text in front(plan_of(name, frame_id)).texts if "shown" in text.text]


LEANING = ((0.0, 0.0), (500.0, 0.0), (504.0, 400.0), (4.0, 400.0))


@pytest.mark.parametrize("scale", [0.02, 0.1, 0.5, 2.0])
def test_the_factor_is_the_largest_that_keeps_the_error_small_on_the_sheet(scale: float) -> None:
    factor = exaggeration(LEANING, scale=scale)
    shown = [one for one in FACTORS if one * 4 * scale <= 2.5]
    assert factor == max(shown, default=1)


def test_exaggerated_corners_stay_inside_the_rectangle_around_the_true_ones() -> None:
    assert is_crooked(LEANING)
    for shown, (x, y) in zip(exaggerated(LEANING, 1), LEANING, strict=True):
        assert shown == pytest.approx((x - 252, y - 200))
    assert all(abs(x) <= 252 and abs(y) <= 200 for x, y in exaggerated(LEANING, 10))


def test_an_error_that_a_tape_does_not_show_is_not_drawn() -> None:
    assert not is_crooked([(0, 0), (500, 0), (500.3, 400), (0.3, 400)])


def test_turning_artwork_and_space_turns_the_drawing() -> None:
    lying = plan_of("ash-relief", "box1", {"artwork.across": "210 mm", "artwork.up": "150 mm"})
    across, up = size(front(lying).runs("outline")[0])
    other_across, other_up = size(front(plan_of("ash-relief", "box1")).runs("outline")[0])
    assert across / up == pytest.approx(other_up / other_across, abs=1e-3)


def test_in_a_tray_the_gap_shows_and_the_ledge_is_hidden_behind_the_artwork() -> None:
    plan = plan_of("ash-relief", "tray1", {"artwork.across_bottom": None, "artwork.up_right": None})
    drawn = front(plan)
    scale = scale_of(drawn, plan)
    inside, artwork, ledge = drawn.runs("shadow")[0], drawn.runs("picture")[0], drawn.runs("hidden")[0]
    gap_mm = (size(inside)[0] - size(artwork)[0]) / 2 / scale
    assert gap_mm == pytest.approx(plan.figures["tray_gap"].exact_mm, abs=0.05)
    assert size(ledge)[0] / scale == pytest.approx(plan.figures["ledge_across"].exact_mm, abs=0.05)


@pytest.mark.parametrize(("words", "word"), [("US", "rabbet"), ("UK", "rebate")])
def test_trade_words_are_those_of_the_shop(words: str, word: str) -> None:
    document = {"blade": "blade", "kerf": "3 mm", "end_trim": "0 mm", "fence_length": "900 mm", "words": words}
    texts = [text.text for text in front(plan_of("cafe-prints", "oak5", shop=document)).texts]
    assert [text for text in texts if text.startswith(word)]


def test_a_thumbnail_has_the_same_proportions_and_no_words() -> None:
    plan = plan_of("cafe-prints", "oak5")
    small = Drawn(draw_panel("thumbnail", plan))
    assert small.texts == []
    assert small.title == front(plan).title
    across_mm, up_mm = size(small.runs("outline")[0])
    assert across_mm == pytest.approx(38, abs=0.002)
    assert up_mm / across_mm == pytest.approx(plan.sizes.outside_up_mm / plan.sizes.outside_across_mm, abs=1e-4)


@pytest.mark.parametrize("sides", [3, 5, 6, 8])
def test_a_polygon_is_drawn_with_its_own_outlines(sides: int) -> None:
    """Fault: the front of a hexagon was a rectangle."""
    plan = plan_of("maple-canvas", "map1", {"shape.sides": sides, "shape.size": "300 mm"})
    drawn, sizes = front(plan), plan.sizes
    outside, sight = (Polygon(run) for run in drawn.runs("outline"))
    (scale,) = {round(size(drawn.runs("outline")[0])[0] / plan.figures["outside_across"].exact_mm, 5)}
    wanted = [plan.shape.area_mm2(one_mm, one_mm) for one_mm in (sizes.outside_across_mm, sizes.sight_across_mm)]
    assert [outside.area, sight.area] == pytest.approx([area * scale**2 for area in wanted], rel=1e-3)
    assert outside.contains(sight)
    assert outside.exterior.distance(sight) == pytest.approx(sizes.face_width_mm * scale, abs=0.01)


def test_the_sizes_beside_a_polygon_are_those_of_the_rectangle_round_it() -> None:
    plan = plan_of("maple-canvas", "map1", {"shape.sides": 6, "shape.size": "12.99 in"})
    texts = [text.text for text in front(plan).texts]
    for name in ("outside_across", "outside_up", "sight_across", "sight_up"):
        assert any(text.endswith(plan.figures[name].text) for text in texts)
