"""Bounds by shares: exact where theory says so, the coarsest units that do, and never above what a plan costs."""

from decimal import Decimal
from fractions import Fraction
from itertools import product
from random import Random

import pytest
from cutting_jobs import cut, loose, random_job

from framecalc.records import replace
from framecalc.timber.sticks.bounds import (
    FEWEST_UNITS,
    MOST_UNITS,
    PARTS_FOR_MONEY,
    PLAIN_UNITS,
    UNITS_OF_A_STICK,
    ShareMeasure,
    StickCertificate,
    _least_rooms,
    _roundings,
    _within_reach,
    certify_against,
    certify_by_counting,
    certify_by_length,
    certify_prices,
    certify_shares,
    most_shares,
    stronger,
)
from framecalc.timber.sticks.problem import StickProblem, Stock
from framecalc.timber.sticks.whole_numbers import WholeNumbers, coin_of, in_whole_numbers, money_of

PRICED = (
    Stock(name="short", length_mm=1000, price=Decimal("7.50")),
    Stock(name="long", length_mm=1700, price=Decimal("12.25")),
)


def counted(lengths_mm: list[float], *stock: Stock) -> WholeNumbers:
    return in_whole_numbers(StickProblem(pieces=loose(lengths_mm), stock=stock, kerf_mm=0, width_mm=30))


def by_chance(seed: int) -> tuple[WholeNumbers, list[float]]:
    """A small job and prices of its parts, now and then none."""
    draw = Random(seed)
    whole_numbers = in_whole_numbers(random_job(seed, most_pieces=6))
    dear = max(kind.cost for kind in whole_numbers.kinds)
    return whole_numbers, [draw.choice([0.0, draw.random(), draw.random()]) * dear for _ in whole_numbers.counts]


def hidden(parts: int) -> list[float]:
    """A little over 1/(k+1) of a metre 3k + 1 times, and crumbs with which three metres could hold all by length."""
    return [1000 / (parts + 1) + 0.01] * (3 * parts + 1) + [50 / (parts + 1)] * 30


@pytest.mark.parametrize("parts", range(1, 9))
def test_parts_over_a_fraction_of_a_stick_are_counted_where_crumbs_hide_it_from_their_length(parts: int) -> None:
    """Of what is a little over 1/(k+1) of a stick k fit, so that 3k + 1 of these need four."""
    whole_numbers = counted(hidden(parts), Stock(name="bar", length_mm=1000))
    assert certify_by_length(whole_numbers).cost == 3
    assert certify_by_counting(whole_numbers, target=4).cost == 4


@pytest.mark.parametrize("seed", range(16))
def test_a_bound_is_no_higher_than_the_best_plan_and_counting_no_lower_than_length(seed: int) -> None:
    problem = replace(random_job(seed, most_pieces=6, limited=False))
    whole_numbers, plan = in_whole_numbers(problem), cut(problem)
    by_length, counting = certify_by_length(whole_numbers), certify_by_counting(whole_numbers, target=10**9)
    assert by_length.cost is not None and counting.cost is not None
    assert by_length.cost <= counting.cost
    assert money_of(counting.cost, whole_numbers=whole_numbers) <= (plan.money, plan.stick_count)
    assert stronger(by_length, counting).cost == counting.cost


def test_counting_ends_at_the_target_and_states_a_part_of_the_dearest_price() -> None:
    whole_numbers = counted(hidden(1), PRICED[0], replace(PRICED[1], length_mm=1000))
    most = certify_by_counting(whole_numbers, target=10**9)
    assert most.measure is ShareMeasure.MONEY
    assert most.unit in {Fraction("12.25") / parts for parts in PARTS_FOR_MONEY}
    assert money_of(most.cost or 0, whole_numbers=whole_numbers) == (4 * Decimal("7.50"), 4)
    by_length = certify_by_length(whole_numbers)
    assert by_length.cost is not None and most.cost is not None and by_length.cost < most.cost
    assert certify_by_counting(whole_numbers, target=by_length.cost) == by_length


@pytest.mark.parametrize(("first", "second"), list(product((None, 1, 2), repeat=2)))
def test_the_stronger_bound_is_the_higher_and_too_little_stock_the_highest(
    first: int | None, second: int | None
) -> None:
    some = certify_by_length(counted([400.0], *PRICED))
    one, other = replace(some, cost=first), replace(some, cost=second, shares=())
    is_second = (float("inf") if second is None else second) > (float("inf") if first is None else first)
    assert stronger(one, other) is (other if is_second else one)


@pytest.mark.parametrize("seed", range(16))
def test_prices_are_stated_in_the_coarsest_units_that_prove_as_much(seed: int) -> None:
    whole_numbers, prices = by_chance(seed)
    stated = [
        certify_shares(whole_numbers, shares=shares, unit=unit) for shares, unit in _roundings(whole_numbers, prices)
    ]
    reach = _within_reach(whole_numbers, prices)
    for target in (1, reach, 10**9):
        enough = [one for one in stated if one.cost is None or one.cost >= min(target, reach)]
        best = max(one.cost for one in stated if one.cost is not None) if not enough else 0
        expected = enough[0] if enough else next(one for one in stated if one.cost == best)
        assert certify_prices(whole_numbers, prices=prices, target=target) == expected


@pytest.mark.parametrize("seed", range(16))
def test_prices_reach_the_cheapest_purchase_that_costs_what_all_parts_do(seed: int) -> None:
    whole_numbers, prices = by_chance(seed)
    needed = sum(price * count for price, count in zip(prices, whole_numbers.counts, strict=True))
    every = product(*(range(kind.limit + 1) for kind in whole_numbers.kinds))
    costs = [sum(n * kind.cost for n, kind in zip(taken, whole_numbers.kinds, strict=True)) for taken in every]
    enough = [cost for cost in costs if cost >= needed - 1e-6]
    assert _within_reach(whole_numbers, prices) == (min(enough) if enough else pytest.approx(needed, abs=1))


def test_prices_that_add_up_to_a_whole_cost_reach_it_and_no_more() -> None:
    whole_numbers = counted([400.0] * 4, Stock(name="bar", length_mm=1000))
    assert _within_reach(whole_numbers, [0.5]) == 2
    assert _within_reach(whole_numbers, [0.5 + 1e-8]) == 2
    assert _within_reach(whole_numbers, [0.51]) == 3


@pytest.mark.parametrize("seed", range(16))
def test_a_purchase_is_ruled_out_in_the_coarsest_units_that_do(seed: int) -> None:
    whole_numbers, prices = by_chance(seed)
    purchase = (1, *(0 for _ in whole_numbers.kinds[1:]))
    stated = [
        certify_shares(whole_numbers, shares=shares, unit=unit) for shares, unit in _roundings(whole_numbers, prices)
    ]
    expected = next((one for one in stated if one.most[0] < one.needed), None)
    assert certify_against(whole_numbers, prices=prices, purchase=purchase) == expected
    assert all(one.covers(()) for one in stated)


@pytest.mark.parametrize("dear", ["0.40", "4", "7.35", "12", "19.99", "250"])
def test_units_of_money_are_powers_of_ten_neither_too_coarse_nor_too_fine(dear: str) -> None:
    stock = (Stock(name="a", length_mm=1000, price=Decimal(dear)), Stock(name="b", length_mm=900))
    whole_numbers = counted([400.0], *stock)
    units = [unit for _, unit in _roundings(whole_numbers, [1.0])]
    powers = [Fraction(10) ** exponent for exponent in range(9, -9, -1)]
    parts = [Fraction(dear) / power for power in powers]
    assert units == [power for power, part in zip(powers, parts, strict=True) if FEWEST_UNITS <= part <= MOST_UNITS]


@pytest.mark.parametrize("seed", range(20))
def test_shares_are_prices_in_whole_units_rounded_down(seed: int) -> None:
    whole_numbers, prices = by_chance(seed)
    cost = whole_numbers.weight / whole_numbers.coin if whole_numbers.by_money else Fraction(1)
    for shares, unit in _roundings(whole_numbers, [*prices[1:], -0.5]):
        assert shares[-1] == 0
        for share, price in zip(shares[:-1], prices[1:], strict=True):
            assert share * unit * cost <= price + 1e-5 * float(unit * cost)
            assert price < (share + 1) * unit * cost


def test_a_share_of_a_stick_is_stated_so_that_the_fullest_holds_one() -> None:
    whole_numbers = counted([400.0] * 3, Stock(name="bar", length_mm=1000))
    for share, unit in (
        (1, Fraction(1, 2)),
        (PLAIN_UNITS // 2, Fraction(1, PLAIN_UNITS)),
        (PLAIN_UNITS, Fraction(1, 7)),
    ):
        found = certify_shares(whole_numbers, shares=[share], unit=Fraction(1, 7))
        assert (found.measure, found.unit, found.most) == (ShareMeasure.STICKS, unit, (2 * share,))
    nothing: StickCertificate = certify_shares(whole_numbers, shares=[0], unit=Fraction(1, 7))
    assert (nothing.unit, nothing.needed, nothing.cost) == (Fraction(1, 7), 0, 0)


@pytest.mark.parametrize("seed", range(16))
def test_the_most_shares_of_each_stick_are_those_of_plain_trial(seed: int) -> None:
    draw, whole_numbers = Random(seed), in_whole_numbers(random_job(seed, most_pieces=6))
    shares = [draw.randint(0, 5) for _ in whole_numbers.counts]
    every = list(product(*(range(count + 1) for count in whole_numbers.counts)))
    most = {
        room: max(sum(map(int.__mul__, each, shares)) for each in every if whole_numbers.length_um(each) <= room)
        for kind in whole_numbers.kinds
        for room in kind.rooms_um
    }
    found = most_shares(whole_numbers, shares=shares)
    assert found == tuple(sum(most[room] for room in kind.rooms_um) for kind in whole_numbers.kinds)
    room = max(most)
    sums = {sum(map(int.__mul__, each, shares)): 0 for each in every}
    least = _least_rooms(whole_numbers, shares, room)
    assert least[0] == 0 and len(least) - 1 <= max(sums)
    for share, taken in enumerate(least):
        rooms = [whole_numbers.length_um(each) for each in every if sum(map(int.__mul__, each, shares)) == share]
        assert min([*rooms, room + 1]) == min(taken, room + 1)


def test_units_of_a_stick_are_its_whole_parts_the_coarsest_first() -> None:
    whole_numbers = counted([400.0], Stock(name="bar", length_mm=1000))
    units = [unit for _, unit in _roundings(whole_numbers, [1.0])]
    assert units == [Fraction(1, parts) for parts in UNITS_OF_A_STICK] == sorted(units, reverse=True)


@pytest.mark.parametrize(
    ("prices", "coin"),
    [(("0", "0"), "1"), (("12.35", "0"), "12.35"), (("12.50", "20"), "2.5"), (("0.3", "0.2"), "0.1")],
)
def test_a_coin_is_the_largest_amount_of_which_every_price_is_so_many(prices: tuple[str, ...], coin: str) -> None:
    assert coin_of(map(Decimal, prices)) == Fraction(coin)
