"""Several windows, two mats, fillets, floating sheets, dust covers: in the front, the section, the client's drawing."""

from typing import Any

import pytest
from drawn_plans import plan_of
from svg_reading import Drawn

from framecalc.drawing.client.framed import draw_client
from framecalc.drawing.client.inside import BEVEL_EDGE, NO_PICTURE
from framecalc.drawing.client.seen import read_client
from framecalc.drawing.package.layers import read_cover, read_layers
from framecalc.drawing.registry import draw_panel
from framecalc.plan import FramePlan

PAIR = [{"id": "p2", "across": "200 mm", "up": "150 mm"}, {"id": "p3", "across": "100 mm", "up": "150 mm"}]


def matted(**changes: Any) -> FramePlan:
    return plan_of("cafe-prints", "oak5", {path.replace("__", "."): one for path, one in changes.items()})


def layer(name: str, kind: str, thickness: str) -> dict[str, str]:
    return {"id": name, "name": name, "kind": kind, "thickness": thickness, "tolerance": "0 mm"}


def box(run: list[tuple[float, float]]) -> tuple[float, float, float, float]:
    """The upright box around a run: middle across and up the sheet, width, height."""
    xs, ys = [x for x, _ in run], [y for _, y in run]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2, max(xs) - min(xs), max(ys) - min(ys)


@pytest.mark.parametrize("arrangement", ["row", "column", "grid"])
def test_every_window_is_drawn_where_it_is_cut(arrangement: str) -> None:
    plan = matted(package__mat__windows=PAIR, package__mat__arrangement=arrangement)
    mats = plan.package.mats
    assert mats is not None
    drawn = Drawn(draw_panel("front", plan))
    frame = box(drawn.runs("wood")[0])
    scale = frame[2] / plan.sizes.outside_across_mm
    windows = drawn.runs("picture")
    assert len(windows) == 3
    for run, window in zip(windows, mats.windows.windows, strict=True):
        x, y, across, up = box(run)
        assert (across, up) == pytest.approx((window.across_mm * scale, window.up_mm * scale), abs=0.01)
        assert x - frame[0] == pytest.approx(
            (window.left_mm + window.across_mm / 2 - mats.mat.across_mm / 2) * scale, abs=0.01
        )
        assert frame[1] - y == pytest.approx(
            (window.bottom_mm + window.up_mm / 2 - mats.mat.up_mm / 2) * scale, abs=0.01
        )


def test_a_client_sees_every_window_and_the_picture_in_the_first_alone() -> None:
    svg = draw_client(read_client(matted(package__mat__windows=PAIR)), name="c", picture="data:image/png;base64,AA==")
    assert svg.count(f'fill="{NO_PICTURE}"') == 2 and svg.count("<image") == 1


def test_a_second_mat_and_a_bevel_show_around_the_window() -> None:
    plan = matted(package__mat__reveal="6 mm")
    edge = f'stroke="{BEVEL_EDGE}"'
    single, double = (draw_client(read_client(one), name="c").count(edge) for one in (matted(), plan))
    assert double == single + 1


def test_a_sheet_that_floats_lies_smaller_in_its_window() -> None:
    plan = matted(package__mat__shows="10 mm")
    drawn = Drawn(draw_panel("front", plan))
    (picture,), shadows = drawn.runs("picture"), drawn.runs("shadow")
    assert box(picture)[2] < min(box(run)[2] for run in shadows)


def test_a_fillet_is_a_strip_of_wood_inside_the_sight_edge() -> None:
    layers = [layer("fi", "fillet or liner", "4 mm"), layer("ar", "artwork", "1 mm")]
    plan = matted(package__mat=None, package__layers=layers, package__fillet_shows="8 mm")
    drawn = Drawn(draw_panel("front", plan))
    frame, sight = drawn.runs("wood")
    scale = box(frame)[2] / plan.sizes.outside_across_mm
    assert box(sight)[2] == pytest.approx(plan.sizes.sight_across_mm * scale, abs=0.01)
    assert plan.figures["in_view_across"].exact_mm == pytest.approx(plan.sizes.sight_across_mm - 16)


def test_in_the_section_each_layer_reaches_as_far_in_as_it_does() -> None:
    layers = [
        layer("fi", "fillet or liner", "4 mm"),
        layer("m1", "mat", "1.5 mm"),
        layer("m2", "mat", "1.5 mm"),
        layer("ar", "artwork", "1 mm"),
        layer("du", "dust cover", "0.1 mm"),
    ]
    plan = matted(package__layers=layers, package__mat__reveal="6 mm", package__fillet_shows="5 mm")
    fillet, upper, lower, artwork = read_layers(plan, sight_mm=10.0)
    assert plan.mat is not None
    assert (fillet.reach_mm, artwork.reach_mm) == (15.0, None)
    assert (upper.reach_mm, lower.reach_mm) == (plan.mat.border_sides_mm - 6, plan.mat.border_sides_mm)
    cover = read_cover(plan)
    assert cover is not None and cover.name == "du"
    assert "du 0.1" in [text.text for text in Drawn(draw_panel("section", plan)).texts]
