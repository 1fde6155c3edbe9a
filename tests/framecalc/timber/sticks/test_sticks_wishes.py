"""Grain round the frame, mates, turned pieces, defects, boards of several strips, and the longest off-cut."""

from decimal import Decimal
from itertools import permutations, product
from math import cos, pi, sqrt, tan

import pytest
from cutting_jobs import cut, frame_of, loose, random_job

from framecalc.records import replace
from framecalc.timber.sticks.answer import ProofStatus, StickPlan
from framecalc.timber.sticks.problem import Grain, Piece, Purpose, StickProblem, Stock, Stretch, clear_stretches

ASH = Stock(name="ash", length_mm=2400, trim_mm=20, price=Decimal("20"))


def _runs(plan: StickPlan) -> list[list[Piece]]:
    return [[placed.piece for placed in stretch.pieces] for _, _, stretch in plan.stretches() if stretch.pieces]


@pytest.mark.parametrize(
    ("corner", "order"),
    [
        ("bottom-left", ["left", "top", "right", "bottom"]),
        ("left-bottom", ["left", "top", "right", "bottom"]),
        ("top-right", ["right", "bottom", "left", "top"]),
        ("top-left", ["top", "right", "bottom", "left"]),
    ],
)
def test_the_grain_runs_round_the_frame_from_the_corner_that_carries_the_break(corner: str, order: list[str]) -> None:
    pieces = frame_of("hall", across_mm=348, up_mm=471, copies=3)
    plan = cut(StickProblem(pieces=pieces, stock=(ASH,), kerf_mm=3, width_mm=30, grain=Grain.ROUND, corner=corner))
    assert plan.proof_status is ProofStatus.PROVED
    assert [[piece.side for piece in run] for run in _runs(plan)] == [order] * 3
    assert all(len({piece.copy for piece in run}) == 1 for run in _runs(plan))


def test_a_polygon_runs_round_by_its_numbers() -> None:
    pieces = tuple(Piece(frame="tondo", side=str(side), length_mm=165.685) for side in range(1, 9))
    problem = StickProblem(
        pieces=pieces, stock=(ASH,), kerf_mm=3, width_mm=30, sides=8, grain=Grain.ROUND, corner="3-4"
    )
    assert [[piece.side for piece in run] for run in _runs(cut(problem))] == [["4", "5", "6", "7", "8", "1", "2", "3"]]


def test_mates_come_from_one_stretch_side_by_side() -> None:
    pieces = frame_of("hall", across_mm=700, up_mm=1000, copies=4)
    plan = cut(StickProblem(pieces=pieces, stock=(ASH,), kerf_mm=3, width_mm=30, grain=Grain.MATES))
    for run in _runs(plan):
        pairs = [{piece.side for piece in run[at : at + 2]} for at in range(0, len(run), 2)]
        assert all(pair in ({"top", "bottom"}, {"left", "right"}) for pair in pairs)


def test_spares_and_test_pieces_are_cut_from_any_stick() -> None:
    extra = (
        Piece(frame="hall", side="top", length_mm=348, purpose=Purpose.SPARE),
        Piece(frame="hall", side="corner", length_mm=200, purpose=Purpose.TEST),
    )
    pieces = (*frame_of("hall", across_mm=348, up_mm=471), *extra)
    plan = cut(StickProblem(pieces=pieces, stock=(ASH,), kerf_mm=3, width_mm=30, grain=Grain.ROUND))
    assert sum(len(run) for run in _runs(plan)) == 6


@pytest.mark.parametrize("seed", range(8))
def test_a_wish_about_grain_never_makes_a_plan_cheaper(seed: int) -> None:
    pieces = frame_of("hall", across_mm=300 + 40.0 * seed, up_mm=400 + 25.0 * seed, copies=3)
    job = StickProblem(pieces=pieces, stock=(replace(ASH, length_mm=2900),), kerf_mm=3, width_mm=30)
    free, mates, order = (cut(replace(job, grain=grain)).money for grain in Grain)
    assert free <= mates <= order


@pytest.mark.parametrize("sides", [3, 4, 6, 8])
def test_each_joint_of_turned_pieces_saves_the_run_of_one_slant(sides: int) -> None:
    pieces = tuple(Piece(frame="f", side=str(side), length_mm=400) for side in range(1, 5))
    cut_mm, run_mm = 3 / cos(pi / sides), 20 * tan(pi / sides)
    needed_mm = 4 * 400 + 3 * (cut_mm - run_mm)
    for spare_mm, sticks in ((0.02, 1), (-0.02, 2)):
        stock = (Stock(name="ash", length_mm=needed_mm + spare_mm),)
        problem = StickProblem(pieces=pieces, stock=stock, kerf_mm=3, width_mm=20, sides=sides, turned=True)
        plan = cut(problem)
        assert plan.stick_count == sticks
        assert [placed.turned for placed in plan.sticks[0].strips[0].pieces][:2] == [False, True]


def test_a_defect_splits_a_stick() -> None:
    knot = Stretch(start_mm=1000, end_mm=1050)
    problem = StickProblem(
        pieces=loose([980, 1300, 900]),
        stock=(replace(ASH, defects=(knot,)),),
        kerf_mm=3,
        width_mm=30,
    )
    plan = cut(problem)
    assert plan.stick_count == 2
    for _, _, stretch in plan.stretches():
        for placed in stretch.pieces:
            assert placed.end_mm <= 1000 + 1e-6 or placed.start_mm >= 1050 - 1e-6


def test_a_defect_narrower_than_the_saw_cut_takes_the_whole_cut() -> None:
    check = Stretch(start_mm=500, end_mm=501)
    stock = Stock(name="ash", length_mm=1000, defects=(check,))
    assert [part.start_mm for part in clear_stretches(stock, cut_mm=4)] == [0, 504]
    for length_mm, sticks in ((496, 1), (496.01, 2)):
        problem = StickProblem(pieces=loose([500, length_mm]), stock=(stock,), kerf_mm=4 / sqrt(2), width_mm=30)
        assert cut(problem).stick_count == sticks


@pytest.mark.parametrize(
    "defects", [((0, 30),), ((2370, 2400),), ((0, 2400),), ((100, 300), (200, 400)), ((50, 60), (60, 70)), ()]
)
def test_clear_stretches_and_what_is_lost_add_up_to_the_stick(defects: tuple[tuple[float, float], ...]) -> None:
    stock = replace(ASH, defects=tuple(Stretch(start_mm=start, end_mm=end) for start, end in defects))
    clear = clear_stretches(stock)
    bad = [any(start <= at < end for start, end in defects) or not 20 <= at < 2380 for at in range(2400)]
    assert sum(part.length_mm for part in clear) == bad.count(False)
    assert all(not any(bad[int(part.start_mm) : int(part.end_mm)]) for part in clear)


def test_a_board_is_bought_whole_and_yields_its_strips() -> None:
    board = Stock(name="5/4 × 6", length_mm=1000, strips=3, price=Decimal("18"))
    problem = StickProblem(pieces=loose([450] * 7), stock=(board,), kerf_mm=3, width_mm=30)
    plan = cut(problem)
    assert (plan.stick_count, plan.money) == (2, 36)
    assert [len(stick.strips) for stick in plan.sticks] == [3, 3]
    assert plan.longest_left_mm == 1000
    assert plan.proof_status is ProofStatus.PROVED


def test_a_board_with_a_knot_loses_it_in_every_strip() -> None:
    board = Stock(name="board", length_mm=2000, strips=2, defects=(Stretch(start_mm=900, end_mm=1000),))
    problem = StickProblem(pieces=loose([950, 950, 880, 880]), stock=(board,), kerf_mm=3, width_mm=30)
    assert cut(problem).stick_count == 1
    assert cut(replace(problem, pieces=loose([950, 950, 950, 880]))).stick_count == 2


@pytest.mark.parametrize("seed", range(30))
def test_the_longest_off_cut_agrees_with_exhaustive_trial(seed: int) -> None:
    job = replace(random_job(seed, most_pieces=6), shortest_useful_mm=0)
    plan = cut(job)
    assert plan.longest_left_mm == pytest.approx(_longest_by_trial(plan, job), abs=0.01)
    assert plan.longest_possible_mm == pytest.approx(plan.longest_left_mm, abs=0.01)


def _longest_by_trial(plan: StickPlan, job: StickProblem) -> float:
    """The longest off-cut of all ways to put the pieces on the sticks of the plan."""
    cut_mm = job.kerf_mm * sqrt(2)
    clear_mm = [stick.stock.length_mm - 2 * stick.stock.trim_mm for stick in plan.sticks]
    longest_mm = 0.0
    for places in product(range(len(clear_mm)), repeat=len(job.pieces)):
        used_mm = [0.0] * len(clear_mm)
        for piece, place in zip(job.pieces, places, strict=True):
            used_mm[place] += piece.length_mm + cut_mm
        left_mm = [clear - used for clear, used in zip(clear_mm, used_mm, strict=True)]
        if min(left_mm) >= -cut_mm - 1e-6 and all(used_mm):
            longest_mm = max(longest_mm, *left_mm)
    return longest_mm


def test_no_stick_is_opened_only_to_leave_a_longer_off_cut() -> None:
    stock = (Stock(name="ash", length_mm=1000), Stock(name="spare", length_mm=3000, count=1, price=Decimal(50)))
    plan = cut(StickProblem(pieces=loose([450, 450]), stock=stock, kerf_mm=0, width_mm=30))
    assert [stick.stock.name for stick in plan.sticks] == ["ash"]


def test_any_order_of_the_sides_gives_the_same_grain() -> None:
    for sides in permutations(frame_of("hall", across_mm=348, up_mm=471)):
        problem = StickProblem(pieces=sides, stock=(ASH,), kerf_mm=3, width_mm=30, grain=Grain.ROUND)
        assert [[piece.side for piece in run] for run in _runs(cut(problem))] == [["left", "top", "right", "bottom"]]
