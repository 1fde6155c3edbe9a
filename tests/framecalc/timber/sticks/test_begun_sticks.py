"""Begun sticks: what was cut stays, what is left of them is wood for the rest, and the rest is solved like any job."""

from decimal import Decimal
from random import Random

import pytest
from cutting_jobs import cut, frame_of, loose, random_job

from framecalc.errors import ImpossibleTimber
from framecalc.records import replace
from framecalc.timber.sticks.answer import CutStick, PlacedPiece, ProofStatus, StickPlan
from framecalc.timber.sticks.begun import (
    BegunStick,
    CutPiece,
    LeftToCut,
    begun_first,
    left_to_cut,
    whole_plan,
    whole_sticks,
)
from framecalc.timber.sticks.check import faults_of
from framecalc.timber.sticks.problem import Piece, StickProblem, Stock, clear_stretches, hash_of, name_of

ASH = Stock(name="ash", length_mm=2400, price=Decimal(20), trim_mm=10, id="s1")


def begun_of(stick: CutStick, *, pieces: int = 99) -> BegunStick:
    """A stick of a plan of which the first pieces are cut."""
    placed = [CutPiece(strip=strip.number, placed=one) for strip in stick.strips for one in strip.pieces]
    return BegunStick(
        stock=replace(stick.stock, first=1), number=stick.number, cut=tuple(placed[:pieces]),
        strips=tuple(strip.number for strip in stick.strips if strip.pieces),
    )  # fmt: skip


def left_after(problem: StickProblem, begun: list[BegunStick]) -> LeftToCut:
    taken: dict[str, list[int]] = {}
    for one in begun:
        taken.setdefault(one.stock.id, []).append(one.number)
    done = {name_of(each.placed.piece) for one in begun for each in one.cut}
    (left,) = begun_first([left_to_cut(problem, begun=begun, taken=taken, done=done)])
    return left


def planned(left: LeftToCut) -> StickPlan:
    return whole_plan(None if left.is_done else cut(left.problem), left=left)


def told(problem: StickProblem) -> StickProblem:
    """The problem with stock that has ids, as every project has it."""
    return replace(problem, stock=tuple(replace(one, id=f"s{at}") for at, one in enumerate(problem.stock)))


@pytest.mark.parametrize("seed", range(40))
def test_as_many_sticks_as_are_cut_as_planned_cost_and_hold_what_the_plan_does(seed: int) -> None:
    problem = told(random_job(seed))
    plan = _plan_or_none(problem)
    if plan is None:
        return
    draw = Random(seed)
    begun = [begun_of(stick, pieces=draw.randint(1, 4)) for stick in plan.sticks if draw.random() < 0.6]
    whole = planned(left_after(problem, begun))
    taken = replace(problem, stock=tuple(dict.fromkeys(stick.stock for stick in whole.sticks)))
    bare = replace(whole, problem_hash=hash_of(taken), proof=replace(whole.proof, shares=()))
    assert faults_of(bare, problem=taken) == ()
    assert whole.proof_status is not ProofStatus.OPEN
    assert (whole.money, whole.stick_count) == (plan.money, plan.stick_count), "the plan itself is still there"
    assert whole.least_money == whole.money and whole.least_sticks == whole.stick_count


def _plan_or_none(problem: StickProblem) -> StickPlan | None:
    try:
        return cut(problem)
    except ImpossibleTimber:
        return None


@pytest.mark.parametrize("seed", range(12))
def test_with_sticks_cut_up_the_rest_is_what_the_solver_says_of_the_rest_alone(seed: int) -> None:
    problem = told(random_job(seed, limited=False))
    plan = cut(problem)
    begun = [replace(begun_of(stick), is_put_away=True) for stick in plan.sticks[: 1 + seed % 2]]
    left = left_after(problem, begun)
    done = {name_of(each.placed.piece) for one in begun for each in one.cut}
    alone = replace(problem, pieces=tuple(piece for piece in problem.pieces if name_of(piece) not in done))
    whole = planned(left)
    spent = sum((one.stock.price for one in begun), Decimal(0))
    if not alone.pieces:
        assert whole.money == spent and whole.stick_count == len(begun)
        return
    rest = cut(alone)
    assert whole.money == spent + rest.money and whole.stick_count == len(begun) + rest.stick_count


@pytest.mark.parametrize("seed", range(60))
def test_a_small_rest_is_cut_as_exhaustive_trial_would(seed: int) -> None:
    """Least money, then fewest new sticks, over whole sticks and what is left of the begun ones."""
    draw = Random(seed)
    lengths = [float(draw.randint(200, 900)) for _ in range(draw.randint(2, 5))]
    price = Decimal(draw.choice([0, 0, 12]))
    problem = StickProblem(
        pieces=loose(lengths), stock=(replace(ASH, price=price, length_mm=1800), replace(ASH, id="s2", name="long",
        length_mm=2500, price=price * 2)), kerf_mm=0, width_mm=30)  # fmt: skip
    begun = [
        BegunStick(stock=problem.stock[0], number=number, cut=(CutPiece(strip=1, placed=_placed(number, draw)),))
        for number in range(1, 1 + draw.randint(1, 2))
    ]
    whole = planned(left_after(problem, begun))
    rooms = [stretch.length_mm for one in begun for stretch in clear_stretches(one.left(1, cut_mm=0.0))]
    least = _by_trial(lengths, rooms, [(1780.0, price), (2480.0, price * 2)])
    new = [stick for stick in whole.sticks if not stick.is_begun]
    assert (sum((stick.stock.price for stick in new), Decimal(0)), len(new)) == least


def _placed(number: int, draw: Random) -> PlacedPiece:
    piece = Piece(frame="cut", copy=number, side="piece", length_mm=float(draw.randint(200, 1200)))
    return PlacedPiece(piece=piece, start_mm=10.0 + draw.choice([0, 0, 300]))


def _by_trial(lengths: list[float], rooms: list[float], kinds: list[tuple[float, Decimal]]) -> tuple[Decimal, int]:
    """The least money and new sticks, by putting every piece everywhere."""
    best: list[tuple[Decimal, int]] = []

    def place(rest: list[float], open_mm: list[float], spent: tuple[Decimal, int]) -> None:
        if best and spent >= best[0]:
            return
        if not rest:
            best[:] = [spent]
            return
        for at, room in enumerate(open_mm):
            if room >= rest[0] - 1e-6:
                place(rest[1:], [*open_mm[:at], room - rest[0], *open_mm[at + 1 :]], spent)
        for room, price in kinds:
            if room >= rest[0] - 1e-6:
                place(rest[1:], [*open_mm, room - rest[0]], (spent[0] + price, spent[1] + 1))

    place(sorted(lengths, reverse=True), rooms, (Decimal(0), 0))
    return best[0]


def old(copy: int) -> Piece:
    return Piece(frame="old", copy=copy, side="top", length_mm=900)


def test_two_begun_sticks_are_taken_before_one_new_one_that_costs_nothing() -> None:
    sides = frame_of("hall", across_mm=600, up_mm=800)
    free = replace(ASH, price=Decimal(0), count=9, in_hand=True)
    problem = StickProblem(pieces=sides, stock=(free,), kerf_mm=3, width_mm=30)
    one, two = (
        BegunStick(
            stock=free,
            number=number,
            cut=(CutPiece(strip=1, placed=PlacedPiece(piece=old(number), start_mm=10)),),
        )
        for number in (1, 3)
    )
    whole = planned(left_after(problem, [one, two]))
    assert [stick.label for stick in whole.sticks] == ["ash #1", "ash #3"]


def test_a_stick_that_is_begun_keeps_its_number_and_no_other_takes_it() -> None:
    assert [(run.first, run.count) for run in whole_sticks(replace(ASH, count=4), numbers=(2,))] == [(1, 1), (3, 2)]
    assert [(run.first, run.count) for run in whole_sticks(ASH, numbers=(1, 2))] == [(3, None)]
    assert whole_sticks(replace(ASH, count=2), numbers=(1, 2)) == ()
    assert whole_sticks(ASH, numbers=()) == (ASH,)
