"""The parts of the search by themselves, each against plain listing; and the search in a thread of its own."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import product
from random import Random
from threading import Event, Thread
from time import monotonic

import pytest
from cutting_jobs import frame_of, loose, random_job

from framecalc.records import replace
from framecalc.search.solver import Condition, Outcome, Programme, solve
from framecalc.search.watch import Watch, start_watch
from framecalc.timber.sticks.answer import StickPlan
from framecalc.timber.sticks.bounds import most_shares
from framecalc.timber.sticks.check import faults_of
from framecalc.timber.sticks.column_lists import all_columns
from framecalc.timber.sticks.columns import least_by_prices, price_columns
from framecalc.timber.sticks.filling import cannot_hold, fill, given_sticks, price_given, prices_in_costs
from framecalc.timber.sticks.packing import fill_snugly, fullest, pack_exactly, pack_snugly, reachable
from framecalc.timber.sticks.patterns import all_patterns, richer_patterns
from framecalc.timber.sticks.plan import plan_sticks
from framecalc.timber.sticks.problem import Piece, StickProblem, Stock, Stretch, hash_of
from framecalc.timber.sticks.purchases import least_cost, purchases
from framecalc.timber.sticks.search import find_plan
from framecalc.timber.sticks.whole_numbers import (
    Bay,
    Pattern,
    StickKind,
    WholeNumbers,
    cost_of,
    in_whole_numbers,
    money_of,
)


def _job(seed: int) -> tuple[list[int], list[int], int]:
    """Lengths, the longest first, their counts, and a room."""
    draw = Random(seed)
    lengths = sorted(draw.sample(range(3, 40), draw.randint(1, 4)), reverse=True)
    return lengths, [draw.randint(1, 3) for _ in lengths], draw.randint(40, 90)


def _fitting(lengths: Sequence[int], counts: Sequence[int], room: int) -> list[Pattern]:
    every = product(*(range(count + 1) for count in counts))
    return [each for each in every if sum(n * length for n, length in zip(each, lengths, strict=True)) <= room]


def _counted(lengths: Sequence[int], counts: Sequence[int], room: int) -> WholeNumbers:
    pieces = loose(float(length) for length, count in zip(lengths, counts, strict=True) for _ in range(count))
    stock = (Stock(name="bar", length_mm=room),)
    return in_whole_numbers(StickProblem(pieces=pieces, stock=stock, kerf_mm=0, width_mm=1))


@pytest.mark.parametrize("seed", range(40))
def test_the_fullest_bay_is_found(seed: int) -> None:
    lengths, counts, room = _job(seed)
    most = max(
        sum(n * length for n, length in zip(each, lengths, strict=True)) for each in _fitting(lengths, counts, room)
    )
    assert fullest(reachable(lengths, counts=counts, room_um=room), room_um=room) == most
    snug = fill_snugly(lengths, left=counts, room_um=room)
    assert sum(n * length for n, length in zip(snug, lengths, strict=True)) == most


@pytest.mark.parametrize("seed", range(40))
def test_listed_patterns_are_the_maximal_ones(seed: int) -> None:
    lengths, counts, room = _job(seed)
    fitting = _fitting(lengths, counts, room)
    maximal = {
        each
        for each in fitting
        if not any(more != each and all(a >= b for a, b in zip(more, each, strict=True)) for more in fitting)
    }
    listed = all_patterns(_counted(lengths, counts, room), room_um=1000 * room)
    assert listed is not None
    assert len(listed) == len(set(listed))
    assert set(listed) == maximal


@pytest.mark.parametrize("seed", range(40))
def test_the_richest_pattern_is_found_and_shares_are_exact(seed: int) -> None:
    lengths, counts, room = _job(seed)
    draw = Random(seed)
    shares = [draw.randint(0, 9) for _ in lengths]
    whole_numbers = _counted(lengths, counts, room)
    most = max(
        sum(n * share for n, share in zip(each, shares, strict=True)) for each in _fitting(lengths, counts, room)
    )
    assert most_shares(whole_numbers, shares=shares) == (most,)
    found = richer_patterns(whole_numbers, left=counts, prices=shares, room_um=1000 * room, above=0.5)
    richest = [sum(n * share for n, share in zip(each, shares, strict=True)) for each in found]
    assert richest[-1:] == ([most] if most else [])


@pytest.mark.parametrize("seed", range(60))
def test_exact_packing_agrees_with_plain_trial(seed: int) -> None:
    draw = Random(seed)
    lengths, counts, _ = _job(seed)
    rooms = [draw.randint(20, 60) for _ in range(draw.randint(1, 3))]
    parts = [length for length, count in zip(lengths, counts, strict=True) for _ in range(min(count, 2))]
    counts = [min(count, 2) for count in counts]
    possible = any(
        all(
            sum(part for part, place in zip(parts, places, strict=True) if place == bay) <= room
            for bay, room in enumerate(rooms)
        )
        for places in product(range(len(rooms)), repeat=len(parts))
    )
    packed = pack_exactly(lengths, counts=counts, rooms_um=rooms)
    assert (packed is not None) == possible
    for found in (packed, pack_snugly(lengths, counts=counts, rooms_um=rooms)):
        if found is not None:
            assert [sum(column) for column in zip(*found, strict=True)] == counts
            for pattern, room in zip(found, rooms, strict=True):
                assert sum(n * length for n, length in zip(pattern, lengths, strict=True)) <= room


def _kinds(seed: int) -> tuple[list[StickKind], list[int], int]:
    draw = Random(seed)
    kinds = [
        StickKind(
            cost=draw.randint(1, 9),
            coins=1,
            limit=draw.randint(1, 4),
            bays=(Bay(room_um=10, count=1),),
            members=(number,),
        )
        for number in range(draw.randint(1, 3))
    ]
    return kinds, [draw.randint(1, 12) for _ in kinds], draw.randint(1, 30)


def _covers(kinds: list[StickKind], most: list[int], needed: int) -> Iterator[tuple[int, tuple[int, ...]]]:
    for taken in product(*(range(kind.limit + 1) for kind in kinds)):
        if sum(n * held for n, held in zip(taken, most, strict=True)) >= needed:
            yield sum(n * kind.cost for n, kind in zip(taken, kinds, strict=True)), taken


@pytest.mark.parametrize("seed", range(60))
def test_purchases_are_complete_and_come_the_cheapest_first(seed: int) -> None:
    kinds, most, needed = _kinds(seed)
    expected = sorted(_covers(kinds, most, needed))
    found = list(purchases(kinds, most=most, needed=needed, below=1000))
    assert [cost for cost, _ in found] == [cost for cost, _ in expected]
    assert {taken for _, taken in found} == {taken for _, taken in expected}
    assert least_cost(kinds, most=most, needed=needed) == (expected[0][0] if expected else None)
    cheaper = list(purchases(kinds, most=most, needed=needed, below=6))
    assert {taken for _, taken in cheaper} == {taken for cost, taken in expected if cost < 6}


def test_a_cost_splits_into_money_and_sticks() -> None:
    stock = (
        Stock(name="a", length_mm=1000, price=Decimal("18.50")),
        Stock(name="b", length_mm=1500, price=Decimal("24.90")),
        Stock(name="c", length_mm=800, count=1, in_hand=True),
    )
    whole_numbers = in_whole_numbers(StickProblem(pieces=loose([500] * 7), stock=stock, kerf_mm=0, width_mm=30))
    by_name = {stock[kind.members[0]].name: kind.cost for kind in whole_numbers.kinds}
    assert money_of(2 * by_name["a"] + by_name["b"] + by_name["c"], whole_numbers=whole_numbers) == (Decimal("61.9"), 4)


def test_prices_of_stock_that_no_piece_fits_do_not_count() -> None:
    stock = (Stock(name="free", length_mm=1000), Stock(name="short", length_mm=300, price=Decimal(5)))
    whole_numbers = in_whole_numbers(StickProblem(pieces=loose([500] * 3), stock=stock, kerf_mm=0, width_mm=30))
    assert [kind.cost for kind in whole_numbers.kinds] == [1]


@pytest.mark.parametrize("seed", range(60))
def test_given_sticks_are_filled_or_priced_out(seed: int) -> None:
    draw = Random(seed)
    lengths, counts, room = _job(seed)
    whole_numbers = _counted(lengths, counts, room)
    sticks = draw.randint(1, 3)
    given = given_sticks(whole_numbers, purchase=(sticks,))
    watch = start_watch(20, clock=monotonic)
    priced = price_given(given, columns=(), watch=watch)
    packed = pack_exactly(whole_numbers.lengths_um, counts=whole_numbers.counts, rooms_um=[1000 * room] * sticks)
    if priced.uncut_um > 1:
        assert packed is None
        return
    opened = fill(given, priced=priced, watch=watch)
    assert (opened is None) == (packed is None)
    if opened is not None:
        patterns = [stick.patterns[0] for stick in opened]
        assert len(patterns) <= sticks
        assert [sum(column) for column in zip(*patterns, strict=True)] == counts
        assert all(whole_numbers.length_um(pattern) <= 1000 * room for pattern in patterns)


def test_a_piece_that_fits_none_of_the_given_sticks_is_priced_no_higher_than_the_dearest_stick() -> None:
    stock = (Stock(name="short", length_mm=612), Stock(name="long", length_mm=2000, price=Decimal("12.5")))
    whole_numbers = in_whole_numbers(StickProblem(pieces=loose([881, 596]), stock=stock, kerf_mm=0, width_mm=30))
    given = given_sticks(whole_numbers, purchase=(2, 0))
    priced = price_given(given, columns=(), watch=start_watch(20, clock=monotonic))
    prices = prices_in_costs(whole_numbers, given=given, priced=priced)
    assert 0 < max(prices) <= max(kind.cost for kind in whole_numbers.kinds)


@pytest.mark.parametrize("seed", range(40))
def test_shares_near_the_prices_never_rule_out_what_can_be_packed(seed: int) -> None:
    lengths, counts, room = _job(seed)
    given = given_sticks(_counted(lengths, counts, room), purchase=(1 + seed % 3,))
    priced = price_given(given, columns=(), watch=start_watch(20, clock=monotonic))
    if cannot_hold(given, priced=priced):
        assert pack_exactly(given.lengths_um, counts=counts, rooms_um=[1000 * room] * (1 + seed % 3)) is None


@pytest.mark.parametrize("seed", range(40))
def test_prices_never_promise_more_than_the_best_plan_costs(seed: int) -> None:
    problem = random_job(seed)
    whole_numbers = in_whole_numbers(problem)
    columns = all_columns(whole_numbers)
    assert columns is not None
    watch = start_watch(20, clock=monotonic)
    priced = price_columns(whole_numbers, columns=columns, settled={}, rounds=1, watch=watch)
    found = find_plan(whole_numbers, watch=watch)
    assert least_by_prices(whole_numbers, priced=priced) <= cost_of(found.opened, whole_numbers=whole_numbers) + 1e-6


def test_the_solver_tells_the_best_from_the_impossible() -> None:
    watch = start_watch(10, clock=monotonic)
    rows = (Condition(terms=((0, 2), (1, 3)), least=7),)
    programme = Programme(costs=(3, 5), floors=(0, 0), limits=(None, None), rows=rows)
    assert solve(programme, whole=True, watch=watch).counts == (2, 1)
    assert solve(programme, whole=False, watch=watch).prices == pytest.approx((1.5,))
    never = replace(programme, limits=(1, 1))
    assert solve(never, whole=True, watch=watch).outcome is Outcome.IMPOSSIBLE
    assert solve(programme, whole=True, watch=start_watch(0, clock=monotonic)).outcome is Outcome.NOTHING


HALL = StickProblem(
    pieces=frame_of("hall", across_mm=348, up_mm=471),
    stock=(Stock(name="ash", length_mm=2400, price=Decimal("20.00")),),
    kerf_mm=3,
    width_mm=30,
)


@pytest.mark.parametrize(
    "other",
    [
        replace(HALL, kerf_mm=3.2),
        replace(HALL, turned=True),
        replace(HALL, pieces=HALL.pieces[:3]),
        replace(HALL, pieces=(*HALL.pieces[:3], replace(HALL.pieces[3], copy=2))),
        replace(HALL, stock=(replace(HALL.stock[0], price=Decimal("20.01")),)),
        replace(HALL, stock=(replace(HALL.stock[0], defects=(Stretch(start_mm=1, end_mm=2),)),)),
    ],
)
def test_another_problem_has_another_hash(other: StickProblem) -> None:
    assert hash_of(other) != hash_of(HALL)


def test_the_same_problem_has_the_same_hash() -> None:
    pieces = tuple(replace(piece, length_mm=float(piece.length_mm)) for piece in HALL.pieces)
    same = replace(HALL, pieces=pieces, stock=(replace(HALL.stock[0], price=Decimal("20")),))
    assert hash_of(same) == hash_of(HALL)


def test_two_searches_in_threads_are_called_off_and_hand_over_their_plans() -> None:
    pieces = tuple(
        Piece(frame=f"f{number}", side="top", length_mm=200.0 + 37 * (number * number % 23)) for number in range(400)
    )
    stock = tuple(
        Stock(name=f"{length}", length_mm=length, price=Decimal(price))
        for length, price in ((2400, "18.50"), (3000, "24.90"), (3600, "31.20"))
    )
    problem = StickProblem(pieces=pieces, stock=stock, kerf_mm=3.2, width_mm=30)
    called_off, plans = Event(), list[StickPlan]()

    def search() -> None:
        watch = Watch(clock=monotonic, until_s=monotonic() + 600, cancelled=called_off.is_set)
        plans.append(plan_sticks(problem, watch=watch))

    threads = [Thread(target=search) for _ in range(2)]
    for thread in threads:
        thread.start()
    threads[0].join(timeout=1)
    called_off.set()
    for thread in threads:
        thread.join(timeout=60)
    assert len(plans) == 2
    assert all(faults_of(plan, problem=problem) == () for plan in plans)
