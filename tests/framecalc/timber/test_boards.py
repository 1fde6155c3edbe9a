"""Boards: board feet, surface measure, prices, strips, rough sizes."""

import tomllib
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from framecalc.errors import ImpossibleTimber, OutOfRange
from framecalc.records import replace
from framecalc.timber.boards import (
    Allowances,
    Board,
    PricedBy,
    price_of_board,
    rough_size,
    stock_of_board,
    strips_across,
    surface_measure_ft2,
    tallied_bf,
    timber_in,
    waste_pct,
)
from framecalc.timber.sticks.problem import Stretch

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/boards.toml").read_text("utf-8"))
INCH_MM = 25.4
BOARD = Board(name="cherry", species="black_cherry", thickness_mm=25.4, width_mm=152.4, length_mm=2438.4)


@pytest.mark.parametrize("check", CHECKS["board_feet"], ids=lambda check: check["name"])
def test_worked_board_feet(check: dict[str, Any]) -> None:
    thickness_mm, width_mm, length_mm = (INCH_MM * size for size in check["size_in"])
    found = timber_in(thickness_mm=thickness_mm, width_mm=width_mm, length_mm=length_mm)
    assert found.board_feet_bf == pytest.approx(check["expect_bf"], abs=check["tolerance_bf"])


def test_a_metric_board_is_nine_thousandths_of_a_cubic_metre() -> None:
    assert timber_in(thickness_mm=25, width_mm=150, length_mm=2400).m3 == 0.009


@pytest.mark.parametrize("check", CHECKS["surface_measure"], ids=lambda check: check["name"])
def test_surface_measure(check: dict[str, Any]) -> None:
    width_mm, length_mm = (INCH_MM * size for size in check["size_in"])
    found = surface_measure_ft2(width_mm=width_mm, length_mm=length_mm)
    assert found == pytest.approx(check["expect_ft2"], abs=check["tolerance_ft2"])
    tally = tallied_bf(thickness_mm=INCH_MM * check["thickness_in"], width_mm=width_mm, length_mm=length_mm)
    assert tally == check["expect_tally_bf"]


def test_a_board_under_an_inch_is_tallied_as_an_inch() -> None:
    assert tallied_bf(thickness_mm=19, width_mm=152.4, length_mm=2438.4) == 4


@pytest.mark.parametrize("check", CHECKS["strips"], ids=lambda check: check["name"])
def test_worked_strips(check: dict[str, Any]) -> None:
    sizes_mm = {f"{name}_mm": INCH_MM * check[f"{name}_in"] for name in ("width", "edge", "strip", "kerf")}
    assert strips_across(**sizes_mm) == check["expect_count"]


@pytest.mark.parametrize("kerf_mm", [0.0, 1.6, 3.2])
@pytest.mark.parametrize("edge_mm", [0.0, 6.0])
@pytest.mark.parametrize("width_mm", [40.0, 101.6, 150.0, 286.0])
def test_strips_and_cuts_fit_the_width_and_one_more_does_not(width_mm: float, edge_mm: float, kerf_mm: float) -> None:
    count = strips_across(width_mm=width_mm, edge_mm=edge_mm, strip_mm=33.0, kerf_mm=kerf_mm)
    net_mm = width_mm - 2 * edge_mm
    assert count * 33 + max(0, count - 1) * kerf_mm <= net_mm + 1e-6
    assert (count + 1) * 33 + count * kerf_mm > net_mm


@pytest.mark.parametrize(
    ("price", "priced_by", "expected"),
    [
        ("9.80", PricedBy.BOARD_FOOT, "39.20"),
        ("9.80", PricedBy.PIECE, "9.80"),
        ("4152.99", PricedBy.CUBIC_METRE, "39.20"),
        ("0", PricedBy.BOARD_FOOT, "0.00"),
    ],
)
def test_a_board_costs_what_its_wood_costs(price: str, priced_by: PricedBy, expected: str) -> None:
    assert price_of_board(replace(BOARD, price=Decimal(price), priced_by=priced_by)) == Decimal(expected)


def test_wood_of_two_halves_is_the_wood_of_the_whole() -> None:
    half = timber_in(thickness_mm=26.3, width_mm=141.7, length_mm=1111.1)
    whole = timber_in(thickness_mm=26.3, width_mm=141.7, length_mm=2222.2)
    assert 2 * half.mm3 == whole.mm3
    assert waste_pct(stock=whole, parts=half) == 50


def test_a_rough_size_is_the_finished_one_and_its_allowances() -> None:
    allowances = Allowances(width_mm=4, thickness_mm=2, length_mm=30, sanding_mm=0.5)
    rough = rough_size(thickness_mm=19, width_mm=40, length_mm=2000, allowances=allowances)
    assert (rough.thickness_mm, rough.width_mm, rough.length_mm) == (21.5, 44, 2030)


def test_a_board_is_seen_as_its_strips() -> None:
    knot = Stretch(start_mm=500, end_mm=560)
    board = replace(BOARD, count=2, edge_mm=5, trim_mm=50, defects=(knot,), price=Decimal("39.20"), in_hand=True)
    stock = stock_of_board(board, strip_mm=43, kerf_mm=3.2)
    assert (stock.strips, stock.count, stock.price, stock.in_hand) == (3, 2, Decimal("39.20"), True)
    assert (stock.length_mm, stock.trim_mm, stock.defects) == (2438.4, 50, (knot,))


def test_a_board_too_narrow_for_a_strip_is_refused() -> None:
    with pytest.raises(ImpossibleTimber, match=r"50 mm less 5 mm on each edge") as refused:
        stock_of_board(replace(BOARD, width_mm=50, edge_mm=5), strip_mm=43, kerf_mm=3.2)
    assert refused.value.field == "board_width_mm"


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: timber_in(thickness_mm=0, width_mm=1, length_mm=1), "thickness_mm"),
        (lambda: surface_measure_ft2(width_mm=-1, length_mm=1), "width_mm"),
        (lambda: strips_across(width_mm=100, edge_mm=-1, strip_mm=30, kerf_mm=3), "edge_mm"),
        (lambda: strips_across(width_mm=100, edge_mm=0, strip_mm=0, kerf_mm=3), "strip_mm"),
        (
            lambda: rough_size(thickness_mm=19, width_mm=40, length_mm=9, allowances=Allowances(sanding_mm=-1)),
            "sanding_mm",
        ),
    ],
)
def test_what_cannot_be_is_refused(call: Any, field: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        call()
    assert refused.value.field == field


@pytest.mark.parametrize(("width_in", "feet"), [(4.46, 4), (4.54, 5), (5.0, 5)])
@pytest.mark.parametrize("thick_in", [1, 2, 3])
def test_a_tally_is_the_nearest_whole_surface_foot_times_the_inches(width_in: float, feet: int, thick_in: int) -> None:
    """A board twelve feet long has as many feet of surface as it is inches wide."""
    size_mm = {"thickness_mm": INCH_MM * thick_in, "width_mm": INCH_MM * width_in, "length_mm": INCH_MM * 144}
    assert tallied_bf(**size_mm) == pytest.approx(feet * thick_in)


@pytest.mark.parametrize("edge_mm", [1.0, 7.5, 20.0])
def test_strips_of_a_board_are_those_of_what_its_edges_leave(edge_mm: float) -> None:
    for width_mm in range(60, 300, 7):
        whole, net = (
            strips_across(width_mm=wide, edge_mm=edge, strip_mm=20, kerf_mm=3)
            for wide, edge in ((width_mm, edge_mm), (width_mm - 2 * edge_mm, 0))
        )
        assert whole == net
