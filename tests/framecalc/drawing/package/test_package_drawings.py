"""The package apart, the mats as they are cut, the back with its retainers: true to the plan, on the sheet, legible."""

from typing import Any

import pytest
from drawn_plans import demo, plan_of
from legible import require_legible
from svg_reading import Drawn

from framecalc.drawing.package.mat_seen import read_lower_mat
from framecalc.drawing.registry import draw_panel, draw_paper
from framecalc.plan import FramePlan

PAIR = [{"id": "p2", "across": "200 mm", "up": "150 mm"}, {"id": "p3", "across": "100 mm", "up": "150 mm"}]
GRID = [{"id": f"p{number}", "across": "100 mm", "up": "150 mm"} for number in range(12)]
CASES: dict[str, dict[str, Any]] = {
    "one": {},
    "row": {"package__mat__windows": PAIR},
    "grid": {"package__mat__windows": GRID, "package__mat__arrangement": "grid", "package__mat__columns": 4},
    "in front": {"package__mat__windows": PAIR, "package__mat__from_behind": False},
    "narrow": {"package__mat__border": "22 mm", "package__mat__bottom": "22 mm"},
}


def matted(**changes: Any) -> FramePlan:
    return plan_of("cafe-prints", "oak5", {path.replace("__", "."): one for path, one in changes.items()})


def layer(name: str, kind: str, thickness: str) -> dict[str, str]:
    return {"id": name, "name": f"The {name} {kind}", "kind": kind, "thickness": thickness, "tolerance": "0 mm"}


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("name", ["mat", "held", "exploded"])
def test_every_drawing_can_be_read_and_stays_on_its_sheet(name: str, case: str, unit: str) -> None:
    changes = {path.replace("__", "."): one for path, one in CASES[case].items()}
    drawn = Drawn(draw_panel(name, plan_of("cafe-prints", "oak5", changes, unit=unit)))
    require_legible(drawn)
    for x, y in drawn.all_points():
        assert -0.01 <= x <= drawn.across_mm + 0.01 and -0.01 <= y <= drawn.up_mm + 0.01


def test_a_mat_from_behind_is_the_mirror_image_and_says_so() -> None:
    behind, front = (
        Drawn(draw_panel("mat", matted(**CASES["row"], package__mat__from_behind=side, package__mat__bevel="90")))
        for side in (True, False)
    )
    assert "from behind, face down" in [text.text for text in behind.texts]
    boards = [drawn.runs("mat")[0] for drawn in (behind, front)]
    middles = [(board[0][0] + board[1][0]) / 2 for board in boards]
    for one, other in zip(behind.runs("picture"), front.runs("picture"), strict=True):
        left, right = min(x for x, _ in one), max(x for x, _ in other)
        assert left - middles[0] == pytest.approx(middles[1] - right, abs=0.01)


def test_the_drawing_says_the_distances_that_the_cutter_is_set_to() -> None:
    plan = matted(**CASES["row"])
    mats = plan.package.mats
    assert mats is not None
    figures = Drawn(draw_panel("mat", plan)).figures()
    for name in ("left", "right", "top", "bottom"):
        wanted = {plan.said(getattr(setting, f"{name}_mm")) for setting in mats.cut[0].settings}
        assert set(figures[f"from_{name}"]) == wanted


def test_the_layers_are_numbered_as_they_are_laid_in_and_named_with_what_they_are_of() -> None:
    layers = [layer("aa", "glazing", "2 mm"), layer("bb", "mat", "1.5 mm"), layer("cc", "artwork", "0.3 mm")]
    drawn = Drawn(draw_panel("exploded", matted(package__layers=layers)))
    names = [text.text for text in sorted(drawn.texts, key=lambda text: -text.top) if text.text.startswith("The ")]
    assert names == ["The aa glazing", "The bb mat", "The cc artwork"]
    assert any(text.text.startswith("2, Soda-lime") for text in drawn.texts)


def test_what_a_layer_is_called_and_of_is_written_in_full_on_as_many_lines_as_it_needs() -> None:
    layers = [layer("aa", "glazing", "2 mm") | {"name": "Glass with little glare"}, layer("bb", "mat", "1.5 mm")]
    drawn = Drawn(draw_panel("exploded", matted(package__layers=layers)))
    require_legible(drawn)
    words = " ".join(text.text for text in drawn.texts)
    assert "…" not in words
    assert "Glass with little glare" in words and "2, Soda-lime float glass" in words


def test_as_many_retainers_are_drawn_as_there_are() -> None:
    plan = matted()
    held = plan.package.retainers
    assert held is not None
    assert len(Drawn(draw_panel("held", plan)).runs("mitre")) == held.count


def test_a_double_mat_has_a_drawing_for_each_of_its_mats() -> None:
    plan = matted(package__mat__reveal="6 mm")
    upper, lower = (Drawn(draw_panel(name, plan)) for name in ("upper-mat", "mat"))
    assert "upper, from behind" in [text.text for text in upper.texts]
    assert upper.figures()["from_top"] != lower.figures()["from_top"]


def test_the_size_a_mat_is_cut_to_is_rounded_down_in_its_drawing_too() -> None:
    plan = matted(package__mat__border="60.2 mm", package__mat__bottom="60.2 mm")
    for figure in read_lower_mat(plan).outside:
        assert figure.exact_mm - 0.5 < float(figure.text) <= figure.exact_mm
        assert figure.exact_mm % 0.5 > 0.25


def test_the_size_of_a_mat_is_dimensioned() -> None:
    """Fault: it stood in a corner of the sheet, as two numbers."""
    plan = plan_of("cafe-prints", "oak5")
    for drawn in (Drawn(draw_panel("mat", plan)), Drawn(draw_paper("mat", plan, "a4"))):
        figures = drawn.figures()
        assert (figures["mat_across"], figures["mat_up"]) == (["400"], ["332"])


@pytest.mark.parametrize(("words", "said"), [("US", "Foam-center"), ("UK", "Foam-centre")])
def test_materials_are_called_in_the_words_of_the_shop(words: str, said: str) -> None:
    foam = {"package.layers.bk1.material": "foamboard_5"}
    plan = plan_of("cafe-prints", "oak5", foam, shop=demo("cafe-prints")["shop"] | {"words": words})
    assert any(said in text.text for text in Drawn(draw_panel("exploded", plan)).texts)
