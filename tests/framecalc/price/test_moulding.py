"""How much of a bought moulding is ordered: by hand, by laws, at the edges."""

from decimal import Decimal
from fractions import Fraction
from itertools import product

import pytest

from framecalc.errors import ImpossibleSize
from framecalc.price.moulding import (
    CUTTING_PLAN,
    LONGEST_FIRST,
    NET_LENGTH,
    THE_LEAST,
    Sale,
    SidesToBuy,
    Sticks,
    is_net,
    moulding_ordered,
    price_of_stick,
    up_to_least_order,
)

HALL = SidesToBuy(count=2, long_points_mm=(400.0, 300.0, 400.0, 300.0))
STUDIO = SidesToBuy(count=1, long_points_mm=(600.0, 500.0, 600.0, 500.0))
UNKNOWN = Sticks(length_mm=0, kerf_mm=4, trim_mm=20)
THREE_METRES = Sticks(length_mm=3000, kerf_mm=4, trim_mm=20)


def ordered(sale: Sale, sticks: Sticks = THREE_METRES, least_mm: float = 0.0) -> Decimal:
    return moulding_ordered(sale, sides=[HALL, STUDIO], sticks=sticks, least_mm=least_mm).total


def test_sides_cut_to_size_are_charged_long_point_to_long_point() -> None:
    """2 × 1400 + 2200 mm = 5.000 m = 16.404 ft; eight sides and four; three frames."""
    assert ordered(Sale.CUT_METRE) == Decimal("5.000")
    assert ordered(Sale.CUT_FOOT) == Decimal("16.404")
    assert ordered(Sale.CUT_SIDE) == 12
    assert ordered(Sale.JOINED) == 3


def test_without_a_stick_length_each_frame_takes_its_sides_cuts_and_trims() -> None:
    """Three cuts of 4 and two trims of 20 for each of three frames: 5000 + 3 × 52."""
    found = moulding_ordered(Sale.METRE, sides=[HALL, STUDIO], sticks=UNKNOWN)
    assert (found.total, found.estimate) == (Decimal("5.156"), NET_LENGTH)
    assert is_net(Sale.METRE, sticks=UNKNOWN)


def test_whole_sticks_are_paid_for_where_their_length_is_known() -> None:
    """2960 mm are clear: 600 600 500 500 400 300, then 400 400 400 300 300 300."""
    found = moulding_ordered(Sale.METRE, sides=[HALL, STUDIO], sticks=THREE_METRES)
    assert (found.total, found.estimate) == (Decimal("6.000"), LONGEST_FIRST)
    assert ordered(Sale.STICK) == 2
    assert not is_net(Sale.METRE, sticks=THREE_METRES)


def test_a_finished_cutting_plan_counts_the_sticks() -> None:
    counted = Sticks(length_mm=3000, kerf_mm=4, trim_mm=20, counted=3)
    found = moulding_ordered(Sale.FOOT, sides=[HALL, STUDIO], sticks=counted)
    assert (found.total, found.counted_by, found.estimate) == (Decimal("29.528"), CUTTING_PLAN, "")


@pytest.mark.parametrize(
    ("least_mm", "metres", "why"), [(4000, "5.000", ""), (5000, "5.000", ""), (6000, "6", THE_LEAST)]
)
def test_no_less_is_ordered_than_is_sold(least_mm: float, metres: str, why: str) -> None:
    found = moulding_ordered(Sale.CUT_METRE, sides=[HALL, STUDIO], sticks=UNKNOWN, least_mm=least_mm)
    assert (found.total, found.estimate) == (Decimal(metres), why)


@pytest.mark.parametrize("sale", [Sale.CUT_SIDE, Sale.JOINED, Sale.STICK])
def test_what_is_sold_by_the_piece_knows_no_least_length(sale: Sale) -> None:
    assert ordered(sale, least_mm=20_000) == ordered(sale)


@pytest.mark.parametrize(
    ("sale", "sticks"),
    [*product((Sale.METRE, Sale.FOOT), (UNKNOWN, THREE_METRES)), (Sale.STICK, THREE_METRES)],
)
def test_a_pattern_to_match_never_takes_less(sale: Sale, sticks: Sticks) -> None:
    totals = [
        ordered(sale, Sticks(length_mm=sticks.length_mm, kerf_mm=4, trim_mm=20, repeat_mm=repeat_mm))
        for repeat_mm in (0.0, 10.0, 80.0, 300.0)
    ]
    assert totals == sorted(totals)


def test_a_pattern_takes_one_repeat_for_every_side() -> None:
    matched = Sticks(length_mm=0, kerf_mm=4, trim_mm=20, repeat_mm=25)
    assert ordered(Sale.METRE, matched) - ordered(Sale.METRE, UNKNOWN) == Decimal("0.300")


@pytest.mark.parametrize(("sale", "copies"), list(product(Sale, (1, 3))))
def test_batches_share_by_the_length_of_their_sides(sale: Sale, copies: int) -> None:
    one = SidesToBuy(count=copies, long_points_mm=(400.0, 300.0, 400.0, 300.0))
    first, second = moulding_ordered(sale, sides=[one, STUDIO], sticks=THREE_METRES).weights
    assert Fraction(first) / Fraction(second) == Fraction(copies * 1400, 2200)


def test_a_side_longer_than_a_stick_is_refused() -> None:
    with pytest.raises(ImpossibleSize, match="does not fit"):
        ordered(Sale.METRE, Sticks(length_mm=590, kerf_mm=4, trim_mm=20))


def test_sticks_of_no_known_length_cannot_be_counted() -> None:
    with pytest.raises(ImpossibleSize, match="Enter the length of a stick"):
        ordered(Sale.STICK, UNKNOWN)


def test_the_price_of_a_stick() -> None:
    assert price_of_stick(Sale.FOOT, price=Decimal("2.50"), stick_mm=3048) == Decimal("25")
    assert price_of_stick(Sale.STICK, price=Decimal("19.90"), stick_mm=3048) == Decimal("19.90")
    assert price_of_stick(Sale.JOINED, price=Decimal("60"), stick_mm=3048) == 0
    assert price_of_stick(Sale.METRE, price=Decimal("60"), stick_mm=0) == 0


def test_an_order_at_the_least_lacks_nothing() -> None:
    assert up_to_least_order(Decimal("49.99"), least=Decimal(50)) == Decimal("0.01")
    assert up_to_least_order(Decimal(50), least=Decimal(50)) == 0


def test_chops_are_added_up_before_they_are_rounded() -> None:
    """240 sides of 433.4 mm: 104.016 m, and not 240 × 0.433 m; a third of a foot is counted to a thousandth."""
    sixty = [SidesToBuy(count=60, long_points_mm=(433.4,) * 4)]
    assert moulding_ordered(Sale.CUT_METRE, sides=sixty, sticks=UNKNOWN).total == Decimal("104.016")
    third = [SidesToBuy(count=1, long_points_mm=(101.6,))]
    assert moulding_ordered(Sale.CUT_FOOT, sides=third, sticks=UNKNOWN).total == Decimal("0.333")


@pytest.mark.parametrize("sale", Sale)
def test_each_batch_weighs_as_many_metres_as_its_sides_are_long(sale: Sale) -> None:
    found = moulding_ordered(sale, sides=[HALL, STUDIO], sticks=THREE_METRES)
    assert found.weights == (Decimal("2.800"), Decimal("2.200"))


@pytest.mark.parametrize("sale", [Sale.METRE, Sale.FOOT])
@pytest.mark.parametrize(("counted", "is_so"), [(None, True), (0, False), (3, False)])
def test_waste_goes_on_top_where_nothing_whole_was_counted(sale: Sale, counted: int | None, is_so: bool) -> None:
    assert is_net(sale, sticks=Sticks(length_mm=0, kerf_mm=4, trim_mm=20, counted=counted)) is is_so
    assert not is_net(sale, sticks=Sticks(length_mm=3000, kerf_mm=4, trim_mm=20, counted=counted))
