"""The package: how thick the layers are together, and what is wrong with their order."""

import tomllib
from itertools import pairwise
from math import hypot
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.artwork.measuring import ArtworkKind
from framecalc.errors import ImpossibleSize
from framecalc.findings import Severity
from framecalc.package.layers import Layer, LayerKind, Stack, package_findings, stack_layers
from framecalc.units import TOLERANCE_MM

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/package.toml").read_text("utf-8"))
G, M, S, A, B = LayerKind.GLAZING, LayerKind.MAT, LayerKind.SPACER, LayerKind.ARTWORK, LayerKind.BACKING
F = LayerKind.FILLET


def layer(thickness_mm: float, tolerance_mm: float = 0.0, kind: LayerKind = LayerKind.BACKING) -> Layer:
    return Layer(name="board", kind=kind, thickness_mm=thickness_mm, tolerance_mm=tolerance_mm)


def stack_of(*kinds: LayerKind) -> Stack:
    return stack_layers(layer(2.0, kind=kind) for kind in kinds)


layers = st.lists(
    st.builds(layer, st.floats(min_value=1, max_value=50), st.floats(min_value=0, max_value=0.9)), max_size=8
)


@pytest.mark.parametrize("check", CHECKS["stack"], ids=lambda check: check["name"])
def test_worked_stack(check: dict[str, Any]) -> None:
    stack = stack_layers(map(layer, check["thickness_mm"], check["tolerance_mm"]))
    assert stack.nominal_mm == pytest.approx(check["expect_mm"], abs=TOLERANCE_MM)
    assert stack.worst_mm == pytest.approx(check["worst_mm"], abs=TOLERANCE_MM)


@given(layers=layers)
def test_the_likely_stack_lies_between_the_nominal_and_the_worst(layers: list[Layer]) -> None:
    stack = stack_layers(layers)
    rising = stack.least_mm, stack.likely_least_mm, stack.nominal_mm, stack.likely_worst_mm, stack.worst_mm
    assert all(low_mm <= high_mm + TOLERANCE_MM for low_mm, high_mm in pairwise(rising))


@given(layers=layers, order=st.randoms())
def test_the_order_of_the_layers_changes_no_thickness(layers: list[Layer], order: Any) -> None:
    shuffled = list(layers)
    order.shuffle(shuffled)
    one, other = stack_layers(layers), stack_layers(shuffled)
    assert (one.nominal_mm, one.worst_mm, one.likely_worst_mm) == pytest.approx(
        (other.nominal_mm, other.worst_mm, other.likely_worst_mm), abs=TOLERANCE_MM
    )


def test_tolerances_add_up_at_worst_and_by_root_sum_square_as_is_likely() -> None:
    stack = stack_layers((layer(2, 0.3), layer(5, 0.4), layer(1, 1.2 / 2)))
    assert stack.worst_mm - stack.nominal_mm == pytest.approx(1.3)
    assert stack.likely_worst_mm - stack.nominal_mm == pytest.approx(hypot(0.3, 0.4, 0.6))


def test_a_band_that_is_not_even_is_kept_at_both_ends() -> None:
    """Glass of 2.5 mm after ASTM C1036 is 2.16 to 2.57 mm thick (tables/glass_thickness.csv)."""
    glass = Layer(name="glass", kind=G, thickness_mm=2.5, tolerance_mm=0.07, thinner_mm=0.34)
    stack = stack_layers((glass,))
    assert (stack.least_mm, stack.worst_mm) == pytest.approx((2.16, 2.57))
    assert (stack.likely_least_mm, stack.likely_worst_mm) == pytest.approx((2.16, 2.57))


def test_a_dust_cover_takes_nothing_of_the_rabbet() -> None:
    stack = stack_layers((layer(2, 0.3), layer(0.1, 0.0, LayerKind.DUST_COVER)))
    assert (stack.nominal_mm, len(stack.layers)) == (2, 1)


def test_sheets_are_what_is_cut_out_of_a_sheet() -> None:
    assert [kind.value for kind in LayerKind if kind.is_sheet] == ["glazing", "mat", "backing", "back"]


def test_no_layers_stack_to_nothing_and_stop_the_work() -> None:
    stack = stack_of()
    assert (stack.nominal_mm, stack.worst_mm, stack.likely_worst_mm) == (0, 0, 0)
    (finding,) = package_findings(stack, ArtworkKind.PAPER)
    assert (finding.code, finding.severity) == ("package.empty", Severity.STOP)


@pytest.mark.parametrize(
    ("kinds", "kind", "codes"),
    [
        ((G, M, A, B), ArtworkKind.PAPER, []),
        ((G, S, A, B), ArtworkKind.FRIABLE, []),
        ((A,), ArtworkKind.CANVAS, []),
        ((A,), ArtworkKind.OBJECT, []),
        ((G, A), ArtworkKind.PANEL, []),
        ((G, M, B), ArtworkKind.PAPER, ["package.no-artwork"]),
        ((M, G, A, B), ArtworkKind.PANEL, ["package.glazing-behind"]),
        ((G, S, A), ArtworkKind.CANVAS, ["package.glazed-canvas"]),
        ((G, M, A), ArtworkKind.CANVAS, ["package.glazed-canvas", "package.matted-canvas"]),
        ((M, A, B), ArtworkKind.PHOTOGRAPH, ["package.no-glazing"]),
        ((F, G, M, A, B), ArtworkKind.PAPER, []),
        ((F, M, G, A, B), ArtworkKind.PAPER, ["package.glazing-behind"]),
        ((G, F, M, A, B), ArtworkKind.PAPER, []),
        ((G, M, F, A, B), ArtworkKind.PAPER, ["package.fillet-behind"]),
    ],
)
def test_what_is_wrong_with_the_layers_is_found(
    kinds: tuple[LayerKind, ...], kind: ArtworkKind, codes: list[str]
) -> None:
    assert [finding.code for finding in package_findings(stack_of(*kinds), kind)] == codes


@pytest.mark.parametrize(
    ("thickness_mm", "tolerance_mm"), [(0.0, 0.0), (-1.0, 0.0), (2.0, 2.0), (2.0, -0.1), (float("inf"), 0.0)]
)
def test_a_layer_that_cannot_be_is_refused(thickness_mm: float, tolerance_mm: float) -> None:
    with pytest.raises(ImpossibleSize, match="Enter a thickness above its tolerance") as refusal:
        stack_layers((layer(thickness_mm, tolerance_mm),))
    assert refusal.value.field == "layer"
