"""From counts to wood: which stick comes first, how its strips are numbered, and which off-cuts are worth a search."""

from decimal import Decimal
from itertools import pairwise
from time import monotonic

import pytest
from cutting_jobs import cut, frame_of, loose

from framecalc.records import replace
from framecalc.search.watch import start_watch
from framecalc.timber.sticks.answer import CutStick, StickPlan
from framecalc.timber.sticks.plan import plan_sticks
from framecalc.timber.sticks.problem import Purpose, StickProblem, Stock
from framecalc.timber.sticks.search import _State, find_plan
from framecalc.timber.sticks.whole_numbers import cost_of, in_whole_numbers

ASH = Stock(name="ash", length_mm=1000)


def job(lengths_mm: list[float], *stock: Stock, kerf_mm: float = 0) -> StickProblem:
    return StickProblem(pieces=loose(lengths_mm), stock=stock, kerf_mm=kerf_mm, width_mm=30)


def used_mm(stick: CutStick) -> float:
    return sum(placed.piece.length_mm for strip in stick.strips for placed in strip.pieces)


def test_strips_of_a_board_are_numbered_from_one_on() -> None:
    plan = cut(job([900] * 5, replace(ASH, strips=3)))
    assert [[strip.number for strip in stick.strips] for stick in plan.sticks] == [[1, 2, 3], [1, 2, 3]]


def test_sticks_come_in_the_order_of_the_stock_and_by_their_numbers_and_the_fullest_is_the_first() -> None:
    scrap = Stock(name="scrap", length_mm=450, count=2, in_hand=True, first=3)
    plan = cut(job([700, 600, 500, 450, 440, 330, 250], replace(ASH, price=Decimal(9)), scrap))
    assert [stick.stock.name for stick in plan.sticks] == ["ash"] * 3 + ["scrap"]
    for name, first in (("ash", 1), ("scrap", 3)):
        sticks = [stick for stick in plan.sticks if stick.stock.name == name]
        assert [stick.number for stick in sticks] == list(range(first, first + len(sticks)))
        assert all(used_mm(one) >= used_mm(next_one) for one, next_one in pairwise(sticks))
    assert used_mm(plan.sticks[0]) > used_mm(plan.sticks[2])


def test_sticks_in_hand_of_one_kind_are_taken_before_those_of_the_yard() -> None:
    free = replace(ASH, price=Decimal(0))
    yard, own = replace(free, name="yard"), replace(free, name="own", in_hand=True, count=2)
    plan = cut(job([900] * 3, yard, own))
    assert [stick.label for stick in plan.sticks] == ["yard #1", "own #1", "own #2"]


def test_in_a_stretch_test_pieces_come_first_and_then_the_longest() -> None:
    pieces = loose([100, 300, 200, 50])
    pieces = (*pieces[:3], replace(pieces[3], purpose=Purpose.TEST))
    plan = cut(StickProblem(pieces=pieces, stock=(ASH,), kerf_mm=0, width_mm=30))
    assert [placed.piece.length_mm for placed in plan.sticks[0].strips[0].pieces] == [50, 300, 200, 100]


@pytest.mark.parametrize("turned", [False, True])
def test_pieces_lie_a_saw_cut_apart_or_share_a_slant_and_the_rest_is_left_over(turned: bool) -> None:
    problem = StickProblem(
        pieces=frame_of("hall", across_mm=300, up_mm=400),
        stock=(replace(ASH, length_mm=1700, trim_mm=20),),
        kerf_mm=3,
        width_mm=30,
        turned=turned,
    )
    (stick,) = cut(problem).sticks
    (stretch,) = stick.strips[0].stretches
    assert [placed.turned for placed in stretch.pieces] == [False, turned, False, turned]
    assert stretch.pieces[0].start_mm == 20
    for one, other in pairwise(stretch.pieces):
        apart_mm = other.start_mm - one.end_mm
        assert apart_mm == pytest.approx(problem.cut_mm - (problem.slope_mm if turned else 0))
    assert stretch.left_over_mm == pytest.approx(1680 - stretch.pieces[-1].end_mm - problem.cut_mm)


UNEVEN = [430.0, 330.0, 340.0, 210.0]


def planned(useful_mm: float) -> StickPlan:
    problem = replace(job(UNEVEN, ASH, kerf_mm=20), shortest_useful_mm=useful_mm)
    return plan_sticks(problem, watch=start_watch(20, clock=monotonic))


def test_an_off_cut_is_made_longer_only_where_it_can_become_long_enough_to_be_of_use() -> None:
    best = planned(0)
    assert best.longest_left_mm == pytest.approx(best.longest_possible_mm, abs=0.01)
    assert in_whole_numbers(job(UNEVEN, ASH, kerf_mm=20)).cut_um == pytest.approx(20_000 * 2**0.5, abs=1)
    useful = planned(best.longest_possible_mm - 0.1)
    useless = planned(best.longest_possible_mm + 0.1)
    assert useful.longest_left_mm == best.longest_left_mm > useless.longest_left_mm + 1
    assert useless.longest_possible_mm == pytest.approx(best.longest_possible_mm, abs=0.2)


def test_a_search_without_a_plan_costs_more_than_all_the_stock_and_is_open_until_it_is_proved_or_ruled_out() -> None:
    stock = (replace(ASH, count=2, price=Decimal(3)), replace(ASH, length_mm=1500, count=3, price=Decimal(4)))
    whole_numbers = in_whole_numbers(job([600, 700], *stock))
    everything = sum(kind.cost * kind.limit for kind in whole_numbers.kinds)
    nothing = _State(opened=None, certificates=(), least=0)
    assert nothing.cost(whole_numbers) > everything
    opened = find_plan(whole_numbers, watch=start_watch(20, clock=monotonic)).opened
    cost = cost_of(opened, whole_numbers=whole_numbers)
    for least, ruled_out in ((cost - 1, False), (cost, False), (cost - 1, True), (cost, True)):
        state = _State(opened=opened, certificates=(), least=least, ruled_out=ruled_out)
        assert (state.cost(whole_numbers), state.proved(whole_numbers)) == (cost, least == cost)
        assert state.open(whole_numbers) is (least < cost and not ruled_out)
