"""The independent check finds what is wrong with a plan: each fault is made on purpose."""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest
from cutting_jobs import cut, frame_of

from framecalc.records import replace
from framecalc.timber.sticks.answer import CutStretch, ProofStatus, StickPlan
from framecalc.timber.sticks.check import SAME_MM, faults_of
from framecalc.timber.sticks.problem import Grain, StickProblem, Stock, Stretch
from framecalc.timber.sticks.proof import StickShares
from framecalc.timber.sticks.whole_numbers import UM_PER_MM

STOCK = (
    Stock(
        name="ash", length_mm=1300, count=3, price=Decimal("12"), trim_mm=20, defects=(Stretch(start_mm=30, end_mm=60),)
    ),
)
PROBLEM = StickProblem(pieces=frame_of("hall", across_mm=348, up_mm=471), stock=STOCK, kerf_mm=3, width_mm=30)
PLAN = cut(PROBLEM)
(SHARES,) = PLAN.proof.shares


def _with_stretch(plan: StickPlan, change: Callable[[CutStretch], CutStretch]) -> StickPlan:
    """Change the last stretch of the first stick."""
    stick = plan.sticks[0]
    strip = stick.strips[0]
    stretches = (*strip.stretches[:-1], change(strip.stretches[-1]))
    changed = replace(stick, strips=(replace(strip, stretches=stretches), *stick.strips[1:]))
    return replace(plan, sticks=(changed, *plan.sticks[1:]))


def _with_most(plan: StickPlan, most: Fraction) -> StickPlan:
    """A proof that says of every stick that it holds at most so much."""
    (shares,) = plan.proof.shares
    sticks = tuple(replace(stick, most=most) for stick in shares.sticks)
    return _with_shares(plan, replace(shares, sticks=sticks))


def _with_shares(plan: StickPlan, shares: StickShares) -> StickPlan:
    return replace(plan, proof=replace(plan.proof, shares=(shares,)))


def _moved(stretch: CutStretch, index: int, by_mm: float) -> CutStretch:
    placed = stretch.pieces[index]
    moved = replace(placed, start_mm=placed.start_mm + by_mm)
    return replace(stretch, pieces=(*stretch.pieces[:index], moved, *stretch.pieces[index + 1 :]))


def _turned(stretch: CutStretch) -> CutStretch:
    return replace(stretch, pieces=(replace(stretch.pieces[0], turned=True), *stretch.pieces[1:]))


def test_a_good_plan_has_no_fault() -> None:
    assert faults_of(PLAN, problem=PROBLEM) == ()


@pytest.mark.parametrize(
    ("plan", "says"),
    [
        (replace(PLAN, problem_hash=""), "another problem"),
        (replace(PLAN, sticks=PLAN.sticks[:1]), "too often for what is cut"),
        (replace(PLAN, sticks=(*PLAN.sticks, replace(PLAN.sticks[0], number=3))), "more than asked"),
        (replace(PLAN, sticks=(PLAN.sticks[0], replace(PLAN.sticks[1], number=1))), "is taken 2 times"),
        (replace(PLAN, sticks=(PLAN.sticks[0], replace(PLAN.sticks[1], number=4))), "is not there"),
        (replace(PLAN, sticks=(PLAN.sticks[0], replace(PLAN.sticks[1], stock=replace(STOCK[0], name="oak")))), "stock"),
        (replace(PLAN, money=Decimal("12")), "cost 24, not 12"),
        (replace(PLAN, least_money=Decimal("36")), "is above"),
        (_with_shares(PLAN, replace(SHARES, total=SHARES.total + 1)), "are worth"),
        (_with_most(PLAN, Fraction(1)), "the sticks of the plan can hold 2"),
        (_with_shares(PLAN, replace(SHARES, sticks=())), "the sticks of the plan can hold 0 of"),
        (_with_stretch(PLAN, lambda part: _moved(part, 0, -0.002)), "leaves its clear stretch"),
        (_with_stretch(PLAN, lambda part: _moved(part, 1, -0.002)), "less than a saw cut apart"),
        (_with_stretch(PLAN, lambda part: replace(part, left_over_mm=part.left_over_mm + 0.002)), "do not add up"),
        (_with_stretch(PLAN, lambda part: replace(part, left_over_mm=part.left_over_mm - 0.002)), "do not add up"),
        (_with_stretch(PLAN, lambda part: replace(part, start_mm=part.start_mm - 0.002)), "over the defect"),
        (_with_stretch(PLAN, lambda part: replace(part, end_mm=part.end_mm + 0.002)), "into the trim"),
        (_with_stretch(PLAN, _turned), "is turned"),
    ],
)
def test_a_fault_is_found(plan: StickPlan, says: str) -> None:
    assert any(says in fault for fault in faults_of(plan, problem=PROBLEM))


def test_pieces_out_of_order_are_found() -> None:
    problem = replace(PROBLEM, grain=Grain.ROUND, stock=(replace(STOCK[0], length_mm=2400),))
    plan = cut(problem)
    stretch = plan.sticks[0].strips[0].stretches[-1]
    first, second = stretch.pieces[:2]
    swapped = (replace(first, piece=second.piece), replace(second, piece=first.piece), *stretch.pieces[2:])
    assert any(
        "do not follow each other" in fault
        for fault in faults_of(_with_stretch(plan, lambda part: replace(part, pieces=swapped)), problem=problem)
    )


def test_two_entries_of_one_name_are_told_apart_by_their_id() -> None:
    stock = tuple(Stock(name="ash", length_mm=1000, count=1, id=name) for name in ("one", "two"))
    problem = StickProblem(pieces=frame_of("hall", across_mm=348, up_mm=471), stock=stock, kerf_mm=3, width_mm=30)
    plan = cut(problem)
    assert {stick.stock.id for stick in plan.sticks} == {"one", "two"}


def test_numbers_go_on_after_the_sticks_that_another_plan_has_taken() -> None:
    stock = (Stock(name="ash", length_mm=1000, count=2, first=4),)
    problem = StickProblem(pieces=frame_of("hall", across_mm=348, up_mm=471), stock=stock, kerf_mm=3, width_mm=30)
    plan = cut(problem)
    assert [stick.label for stick in plan.sticks] == ["ash #4", "ash #5"]
    again = replace(plan, sticks=(replace(plan.sticks[0], number=3), *plan.sticks[1:]))
    assert any("is not there" in fault for fault in faults_of(again, problem=problem))


def test_sticks_of_one_name_and_length_are_told_apart_by_their_trims() -> None:
    clear = Stock(name="ash", length_mm=1000)
    checked = replace(clear, count=1, trim_mm=300)
    pieces = frame_of("hall", across_mm=348, up_mm=400)
    problem = StickProblem(pieces=pieces, stock=(clear, checked), kerf_mm=3, width_mm=30)
    assert [stick.stock for stick in cut(problem).sticks] == [clear, clear]


@pytest.mark.parametrize(
    ("least_money", "least_sticks", "saves"),
    [("18", 2, ("6", 25, 0)), ("24", 1, ("0", 0, 1)), ("24", 2, ("0", 0, 0))],
)
def test_what_a_better_plan_could_save_is_told_of_a_plan_without_proof_alone(
    least_money: str, least_sticks: int, saves: tuple[str, float, int]
) -> None:
    """Two sticks of 12: money comes before sticks, so that these are only told where no money is left to save."""
    bound = replace(PLAN, least_money=Decimal(least_money), least_sticks=least_sticks)
    for plan, (money, pct, sticks) in (
        (replace(bound, proof_status=ProofStatus.OPEN), saves),
        (replace(bound, proof_status=ProofStatus.PROVED), ("0", 0, 0)),
    ):
        assert (plan.saves_at_most, plan.saves_at_most_sticks) == (Decimal(money), sticks)
        assert plan.saves_at_most_pct == pytest.approx(pct)


def test_lengths_are_told_apart_to_the_micrometre_that_plans_are_made_in() -> None:
    assert SAME_MM * UM_PER_MM == 1
