"""The cutting plan: published examples, laws, what is promised when time runs out, and what is refused."""

import tomllib
from collections import Counter
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from random import Random
from time import monotonic
from typing import Any

import pytest
from cutting_jobs import cut, frame_of, loose, random_job

from framecalc.errors import FrameCalcError, ImpossibleTimber, OutOfRange
from framecalc.records import replace
from framecalc.search.watch import SoFar, Watch, start_watch
from framecalc.sizes.members import slant_kerf_mm
from framecalc.timber.sticks.answer import ProofStatus
from framecalc.timber.sticks.check import faults_of
from framecalc.timber.sticks.plan import plan_sticks
from framecalc.timber.sticks.problem import Grain, StickProblem, Stock, Stretch

CHECKS = tomllib.loads((Path(__file__).parents[3] / "check_values/sticks.toml").read_text("utf-8"))

YARD = (
    Stock(name="short", length_mm=1800, price=Decimal("14.50"), trim_mm=15),
    Stock(name="long", length_mm=2700, price=Decimal("21.00"), trim_mm=15),
)


def _cutting_stock(check: dict[str, Any]) -> StickProblem:
    lengths = [width for width, count in zip(check["widths_mm"], check["demands"], strict=True) for _ in range(count)]
    stock = (Stock(name="raw", length_mm=check["stock_mm"]),)
    return StickProblem(pieces=loose(lengths), stock=stock, kerf_mm=0, width_mm=1)


@pytest.mark.parametrize("check", CHECKS["cutting_stock"], ids=lambda check: check["name"])
def test_published_cutting_stock_example(check: dict[str, Any]) -> None:
    plan = cut(_cutting_stock(check))
    assert plan.proof_status is ProofStatus.PROVED
    assert plan.stick_count == plan.least_sticks == check["optimum"]


@pytest.mark.parametrize("check", CHECKS["cutting_stock"], ids=lambda check: check["name"])
def test_published_shares(check: dict[str, Any]) -> None:
    (shares,) = cut(_cutting_stock(check)).proof.shares
    published = dict(zip(check["widths_mm"], map(Fraction, check["worths"]), strict=True))
    assert {piece.length_mm: piece.share for piece in shares.pieces} == published
    assert shares.total == Fraction(check["total_worth"])
    assert [stick.most for stick in shares.sticks] == [1]


def test_one_frame_from_one_stick_leaves_what_three_slant_cuts_and_the_last_leave() -> None:
    check = next(check for check in CHECKS["stick"] if check["cuts"] == 3)
    across_mm, up_mm = (25.4 * outside for outside in check["outside_in"])
    needed_mm = 25.4 * check["expect_in"]
    pieces = frame_of("hall", across_mm=across_mm, up_mm=up_mm)
    for spare_mm, sticks in ((0.02, 1), (-0.02, 2)):
        stock = (Stock(name="ash", length_mm=needed_mm + spare_mm),)
        kerf_mm = 25.4 * check["kerf_in"]
        assert cut(StickProblem(pieces=pieces, stock=stock, kerf_mm=kerf_mm, width_mm=38.1)).stick_count == sticks


def test_pieces_that_fill_a_stick_to_the_micrometre_fit() -> None:
    stock = (Stock(name="ash", length_mm=1000),)
    problem = StickProblem(pieces=loose([400, 300, 300]), stock=stock, kerf_mm=0, width_mm=30)
    assert cut(problem).stick_count == 1
    assert cut(replace(problem, kerf_mm=0.001)).stick_count == 2


def test_least_money_goes_before_fewest_sticks() -> None:
    dear = Stock(name="long", length_mm=2000, price=Decimal("30"))
    cheap = Stock(name="short", length_mm=1000, price=Decimal("14"))
    problem = StickProblem(pieces=loose([900, 900]), stock=(dear, cheap), kerf_mm=3, width_mm=30)
    assert (cut(problem).money, cut(problem).stick_count) == (28, 2)
    same = replace(problem, stock=(dear, replace(cheap, price=Decimal("15"))))
    assert (cut(same).money, cut(same).stick_count) == (30, 1)


def test_what_is_in_hand_is_used_before_anything_is_bought() -> None:
    rack = Stock(name="off-cut", length_mm=950, count=2, in_hand=True)
    sale = Stock(name="ash", length_mm=2000, price=Decimal("30"))
    problem = StickProblem(pieces=loose([900, 900, 900]), stock=(sale, rack), kerf_mm=3, width_mm=30)
    plan = cut(problem)
    assert plan.money == 30
    assert Counter(stick.stock.name for stick in plan.sticks) == {"ash": 1, "off-cut": 1}


def test_one_long_off_cut_is_kept_rather_than_two_short_ones() -> None:
    stock = (Stock(name="ash", length_mm=1000),)
    problem = StickProblem(pieces=loose([500, 300, 200, 400]), stock=stock, kerf_mm=0, width_mm=30)
    plan = cut(problem)
    assert plan.stick_count == 2
    assert plan.longest_left_mm == pytest.approx(600)
    assert plan.longest_possible_mm == pytest.approx(600)


@pytest.mark.parametrize("seed", range(3))
def test_an_off_cut_of_many_patterns_is_kept_within_what_these_sticks_can_leave(seed: int) -> None:
    draw = Random(seed)
    lengths_mm = [float(draw.randint(250, 1200)) for _ in range(16)]
    pieces = loose(draw.choice(lengths_mm) for _ in range(120))
    stock = (*YARD, Stock(name="off-cut", length_mm=1655, count=2, defects=(Stretch(start_mm=900, end_mm=910),)))
    plan = cut(StickProblem(pieces=pieces, stock=stock, kerf_mm=3.2, width_mm=30))
    left_mm = [stretch.left_over_mm for _, _, stretch in plan.stretches()]
    assert plan.longest_left_mm == max(left_mm) <= plan.longest_possible_mm
    in_one_place_mm = sum(left + slant_kerf_mm(3.2) for left in left_mm)
    assert plan.longest_possible_mm <= in_one_place_mm + 1e-3, "no more than all that is left, without a cut"


def test_the_longest_pieces_are_cut_first() -> None:
    for stick in cut(StickProblem(pieces=loose([200, 700, 300]), stock=YARD, kerf_mm=3, width_mm=30)).sticks:
        lengths = [placed.piece.length_mm for placed in stick.strips[0].pieces]
        assert lengths == sorted(lengths, reverse=True)


@pytest.mark.parametrize("seed", range(12))
def test_more_stock_never_costs_more(seed: int) -> None:
    job = random_job(seed)
    before = cut(job)
    more = Stock(name="found behind the door", length_mm=700.0, count=2, in_hand=True)
    after = cut(replace(job, stock=(*job.stock, more)))
    assert before.proof_status is not ProofStatus.OPEN
    assert after.proof_status is not ProofStatus.OPEN
    assert after.money <= before.money


@pytest.mark.parametrize("seed", range(12))
def test_a_thinner_kerf_never_costs_more(seed: int) -> None:
    job = replace(random_job(seed), kerf_mm=4.0)
    costs = [cut(replace(job, kerf_mm=kerf_mm)).money for kerf_mm in (4.0, 3.2, 1.6, 0.0)]
    assert costs == sorted(costs, reverse=True)


@pytest.mark.parametrize("seed", range(12))
def test_joining_two_sticks_end_to_end_never_costs_more(seed: int) -> None:
    job = random_job(seed, limited=False)
    bar = Stock(name="bar", length_mm=900.0, count=2, in_hand=True, trim_mm=10.0)
    joined = replace(bar, length_mm=1800.0, count=1)
    apart, together = (cut(replace(job, stock=(*job.stock, bars))) for bars in (bar, joined))
    assert together.money <= apart.money


@pytest.mark.parametrize("seed", range(12))
def test_the_order_of_pieces_and_stock_does_not_change_the_value(seed: int) -> None:
    job = random_job(seed)
    turned = replace(job, pieces=job.pieces[::-1], stock=job.stock[::-1])
    first, second = cut(job), cut(turned)
    assert (first.money, first.stick_count, first.longest_left_mm) == pytest.approx(
        (second.money, second.stick_count, second.longest_left_mm)
    )


def test_when_time_is_up_at_once_a_plan_and_a_bound_come_back() -> None:
    problem = StickProblem(pieces=_many(40), stock=YARD, kerf_mm=3.2, width_mm=30)
    plan = plan_sticks(problem, watch=start_watch(0, clock=lambda: 0.0))
    assert faults_of(plan, problem=problem) == ()
    assert plan.least_money <= plan.money
    assert plan.saves_at_most == (plan.money - plan.least_money if plan.proof_status is ProofStatus.OPEN else 0)
    dear = replace(plan, money=Decimal(80), least_money=Decimal(60), proof_status=ProofStatus.OPEN)
    assert (dear.saves_at_most, dear.saves_at_most_pct) == (20, 25)
    assert replace(dear, money=Decimal(0), least_money=Decimal(0)).saves_at_most_pct == 0


def test_a_search_that_is_called_off_stops_and_hands_over_its_plan() -> None:
    asked: list[int] = []

    def called_off() -> bool:
        asked.append(1)
        return len(asked) > 3

    problem = StickProblem(pieces=_many(60), stock=YARD, kerf_mm=3.2, width_mm=30)
    plan = plan_sticks(problem, watch=Watch(clock=lambda: 0.0, until_s=3600.0, cancelled=called_off))
    assert faults_of(plan, problem=problem) == ()


def test_more_time_never_gives_a_dearer_plan() -> None:
    problem = StickProblem(pieces=_many(30), stock=YARD, kerf_mm=3.2, width_mm=30)
    hasty = plan_sticks(problem, watch=start_watch(0, clock=lambda: 0.0))
    assert cut(problem, time_limit_s=5).money <= hasty.money


@pytest.mark.parametrize("seed", range(40))
def test_purchases_that_are_too_many_to_list_stay_open(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    problem = random_job(seed, most_pieces=30)
    best = cut(problem)
    monkeypatch.setattr("framecalc.timber.sticks.purchases.MOST_STEPS", 3)
    plan = cut(problem)
    assert (plan.least_money, plan.least_sticks) <= (best.money, best.stick_count)
    assert plan.proof_status is ProofStatus.OPEN or (plan.money, plan.stick_count) == (best.money, best.stick_count)


def test_two_thousand_pieces_all_different_are_planned_in_the_time() -> None:
    problem = StickProblem(
        pieces=loose(200 + 0.37 * number for number in range(2000)), stock=YARD, kerf_mm=3.2, width_mm=30
    )
    plan = cut(problem, time_limit_s=2)
    assert plan.least_money <= plan.money


def test_three_hundred_different_lengths_in_one_stick_are_planned() -> None:
    stock = (Stock(name="long", length_mm=20_000),)
    problem = StickProblem(
        pieces=loose(67 + 0.01 * number for number in range(280)), stock=stock, kerf_mm=0, width_mm=5
    )
    assert cut(problem, time_limit_s=2).stick_count == 1


def _many(frames: int) -> tuple[Any, ...]:
    return tuple(
        piece
        for number in range(frames)
        for piece in frame_of(f"f{number}", across_mm=300 + 7.5 * (number % 11), up_mm=400 + 13.0 * (number % 7))
    )


ASH = Stock(name="ash", length_mm=2400)
JOB = StickProblem(pieces=frame_of("hall", across_mm=348, up_mm=471), stock=(ASH,), kerf_mm=3, width_mm=30)


@pytest.mark.parametrize(
    ("problem", "error", "field", "says"),
    [
        (replace(JOB, pieces=()), ImpossibleTimber, "pieces", "nothing to cut"),
        (replace(JOB, stock=()), ImpossibleTimber, "stock", "Enter a stick on hand, or a length that the yard sells"),
        (
            replace(JOB, stock=(replace(ASH, count=0),)),
            ImpossibleTimber,
            "stock",
            "Enter a stick on hand, or a length that the yard sells",
        ),
        (replace(JOB, pieces=loose([2500])), ImpossibleTimber, "stock", "needs 2500 mm in one piece"),
        (replace(JOB, kerf_mm=2400), ImpossibleTimber, "kerf_mm", "One saw cut takes 3394.11 mm"),
        (replace(JOB, kerf_mm=-1), OutOfRange, "kerf_mm", "Enter 0 mm or more"),
        (replace(JOB, kerf_mm=float("nan")), OutOfRange, "kerf_mm", "nan"),
        (replace(JOB, pieces=loose([0])), OutOfRange, "length_mm", "Enter more than 0 mm"),
        (replace(JOB, pieces=JOB.pieces * 2), ImpossibleTimber, "pieces", "2 pieces are called “hall/1 top”"),
        (replace(JOB, stock=(replace(ASH, count=-1),)), OutOfRange, "stock", "enter 0 or more"),
        (replace(JOB, stock=(replace(ASH, strips=0),)), OutOfRange, "stock", "enter 1 to 100"),
        (
            replace(JOB, stock=(replace(ASH, price=Decimal("-1")),)),
            OutOfRange,
            "stock",
            "“ash”: enter a price of 0 or more, not -1",
        ),
        (
            replace(JOB, stock=(replace(ASH, price=Decimal("NaN")),)),
            OutOfRange,
            "stock",
            "“ash”: enter a price of 0 or more, not NaN",
        ),
        (replace(JOB, stock=(replace(ASH, length_mm=30_000),)), OutOfRange, "stock", "enter up to 20000 mm"),
        (
            replace(JOB, stock=(replace(ASH, defects=(Stretch(start_mm=2300, end_mm=2500),)),)),
            ImpossibleTimber,
            "stock",
            "within the 2400 mm of the board",
        ),
        (
            replace(JOB, stock=(replace(ASH, defects=(Stretch(start_mm=50, end_mm=40),)),)),
            ImpossibleTimber,
            "stock",
            "end after it starts",
        ),
        (
            replace(JOB, stock=(replace(ASH, length_mm=500, count=2),)),
            ImpossibleTimber,
            "stock",
            "holds at most",
        ),
        (replace(JOB, pieces=loose([500] * 2001)), ImpossibleTimber, "pieces", "2000 pieces at most"),
        (replace(JOB, turned=True, milled=True), ImpossibleTimber, "turned", "cannot be turned"),
        (replace(JOB, turned=True, grain=Grain.ROUND), ImpossibleTimber, "turned", "break the grain"),
        (
            replace(JOB, turned=True, pieces=frame_of("hall", across_mm=200, up_mm=471)),
            ImpossibleTimber,
            "turned",
            "its short edge is 140 mm, under 150 mm",
        ),
        (replace(JOB, grain=Grain.ROUND, corner="top-bottom"), ImpossibleTimber, "corner", "two sides that meet"),
        (replace(JOB, grain=Grain.MATES, sides=5, corner="5-1"), ImpossibleTimber, "grain", "have no opposites"),
        (
            replace(JOB, grain=Grain.ROUND, pieces=loose([300])),
            ImpossibleTimber,
            "pieces",
            "“job/1 piece”: enter top, right, bottom or left (or 1, 2, 3 …)",
        ),
        (
            replace(JOB, grain=Grain.ROUND, stock=(replace(ASH, length_mm=1000),)),
            ImpossibleTimber,
            "stock",
            "let any piece come from any stick",
        ),
    ],
)
def test_what_cannot_be_is_refused_with_a_sentence(
    problem: StickProblem, error: type[FrameCalcError], field: str, says: str
) -> None:
    with pytest.raises(error) as refused:
        plan_sticks(problem, watch=start_watch(1, clock=lambda: 0.0))
    assert refused.value.field == field
    assert says in refused.value.sentence


def test_stock_that_is_long_enough_but_cannot_be_packed_is_refused() -> None:
    problem = StickProblem(
        pieces=loose([600, 600, 600]), stock=(Stock(name="ash", length_mm=1000, count=2),), kerf_mm=0, width_mm=30
    )
    with pytest.raises(ImpossibleTimber, match=r"holds at most|cannot hold"):
        cut(problem)


def test_what_is_missing_is_what_is_needed_less_what_the_stock_holds() -> None:
    """Six pieces of 400 mm, two of which a metre holds; mitres 1 mm wide nest by as much a piece, at most."""
    problem = StickProblem(
        pieces=loose([400] * 6), stock=(Stock(name="ash", length_mm=1000, count=2),), kerf_mm=0, width_mm=1
    )
    with pytest.raises(ImpossibleTimber, match="holds at most") as refused:
        cut(problem)
    assert [refused.value.lengths[name] for name in ("needed", "held", "missing")] == pytest.approx(
        [2400, 1600, 800], abs=6
    )
    assert refused.value.lengths["missing"] == pytest.approx(
        refused.value.lengths["needed"] - refused.value.lengths["held"]
    )


def test_a_search_tells_of_ever_better_plans_and_bounds() -> None:
    told: list[SoFar] = []
    draw = Random(3)
    pieces = loose(float(draw.randint(200, 1200)) for _ in range(60))
    stock = (Stock(name="ash", length_mm=3000, trim_mm=15),)
    problem = StickProblem(pieces=pieces, stock=stock, kerf_mm=3.2, width_mm=30)
    plan = plan_sticks(problem, watch=start_watch(20, clock=monotonic, tell=told.append))
    assert told
    sticks = [so_far.sticks for so_far in told if so_far.sticks is not None]
    least = [so_far.least_sticks for so_far in told]
    assert sticks == sorted(sticks, reverse=True) and least == sorted(least)
    assert (sticks[-1], least[-1]) == (plan.stick_count, plan.least_sticks)


def test_a_stick_of_many_hundred_unlike_crumbs_is_planned() -> None:
    pieces = loose(5 + index / 100 for index in range(600))
    plan = cut(StickProblem(pieces=pieces, stock=(Stock(name="ash", length_mm=6000),), kerf_mm=1, width_mm=3))
    assert (plan.stick_count, plan.proof_status) == (1, ProofStatus.PROVED)
