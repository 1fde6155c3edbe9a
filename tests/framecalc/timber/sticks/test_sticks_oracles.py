"""Small random jobs against two oracles that share nothing with the search: exhaustive trial, and SciPy's milp."""

from decimal import Decimal
from math import inf, sqrt
from random import Random

import numpy as np
import pytest
from cutting_jobs import cut, random_job
from scipy.optimize import Bounds, LinearConstraint, milp

from framecalc.errors import ImpossibleTimber
from framecalc.records import replace
from framecalc.timber.sticks.answer import ProofStatus
from framecalc.timber.sticks.problem import StickProblem, Stock
from tests.benchmarks.stick_classes import problem_of, triplets

NEAR_MM = 1e-6


def _room_mm(stock: Stock, problem: StickProblem) -> float:
    """What a stick without defects holds, when each piece brings one saw cut."""
    return stock.length_mm - 2 * stock.trim_mm + problem.kerf_mm * sqrt(2)


def _parts_mm(problem: StickProblem) -> list[float]:
    return sorted((piece.length_mm + problem.kerf_mm * sqrt(2) for piece in problem.pieces), reverse=True)


def _by_trial(problem: StickProblem) -> tuple[Decimal, int] | None:
    """The least money and sticks, by trying every way of putting every piece into an open or a new stick."""
    best: list[tuple[Decimal, int]] = []

    def place(parts: list[float], open_mm: list[float], taken: list[int], spent: tuple[Decimal, int]) -> None:
        if best and spent >= best[0]:
            return
        if not parts:
            best[:] = [spent]
            return
        for at in range(len(open_mm)):
            if open_mm[at] >= parts[0] - NEAR_MM:
                place(parts[1:], [*open_mm[:at], open_mm[at] - parts[0], *open_mm[at + 1 :]], taken, spent)
        for kind, stock in enumerate(problem.stock):
            room_mm = _room_mm(stock, problem)
            if (stock.count is None or taken[kind] < stock.count) and room_mm >= parts[0] - NEAR_MM:
                more = [count + (index == kind) for index, count in enumerate(taken)]
                place(parts[1:], [*open_mm, room_mm - parts[0]], more, (spent[0] + stock.price, spent[1] + 1))

    place(_parts_mm(problem), [], [0] * len(problem.stock), (Decimal(0), 0))
    return best[0] if best else None


def _by_milp(problem: StickProblem) -> tuple[int, int] | None:
    """The least money, then the fewest sticks for it: one variable for each stick and each piece in each stick."""
    parts = _parts_mm(problem)
    units = [stock for stock in problem.stock for _ in range(len(parts) if stock.count is None else stock.count)]
    prices = np.array([float(stock.price) for stock in units] + [0.0] * (len(parts) * len(units)))
    ones = np.array([1.0] * len(units) + [0.0] * (len(parts) * len(units)))
    conditions = _conditions(problem, parts, units)
    cheapest = _least(prices, conditions)
    if cheapest is None:
        return None
    fewest = _least(ones, [*conditions, LinearConstraint(prices, -inf, cheapest + 0.5)])
    return cheapest, fewest or 0


def _conditions(problem: StickProblem, parts: list[float], units: list[Stock]) -> list[LinearConstraint]:
    size = len(units) * (1 + len(parts))
    where = {
        (unit, part): len(units) + unit * len(parts) + part for unit in range(len(units)) for part in range(len(parts))
    }
    placed = np.zeros((len(parts), size))
    held = np.zeros((len(units), size))
    for (unit, part), variable in where.items():
        placed[part, variable] = 1
        held[unit, variable] = parts[part]
    for unit, stock in enumerate(units):
        held[unit, unit] = -_room_mm(stock, problem)
    return [LinearConstraint(placed, 1, 1), LinearConstraint(held, -inf, NEAR_MM)]


def _least(costs: np.ndarray, conditions: list[LinearConstraint]) -> int | None:
    solved = milp(costs, constraints=conditions, integrality=np.ones(len(costs)), bounds=Bounds(0, 1))
    return None if solved.x is None else round(float(costs @ np.round(solved.x)))


@pytest.mark.parametrize("seed", range(60))
def test_small_jobs_agree_with_exhaustive_trial(seed: int) -> None:
    job = random_job(seed, most_pieces=7)
    expected = _by_trial(job)
    if expected is None:
        with pytest.raises(ImpossibleTimber):
            cut(job)
        return
    plan = cut(job)
    assert plan.proof_status is not ProofStatus.OPEN
    assert (plan.money, plan.stick_count) == expected


@pytest.mark.parametrize("seed", range(100, 130))
def test_jobs_agree_with_an_integer_programme(seed: int) -> None:
    job = random_job(seed, most_pieces=14, stocks=2)
    plan = cut(job)
    assert plan.proof_status is not ProofStatus.OPEN
    assert (plan.money, plan.stick_count) == _by_milp(job)


@pytest.mark.parametrize("seed", range(200, 220))
def test_jobs_with_limited_stock_agree_with_an_integer_programme_on_whether_they_can_be_cut(seed: int) -> None:
    job = random_job(seed, most_pieces=10)
    scarce = replace(job, stock=tuple(replace(stock, count=2) for stock in job.stock))
    expected = _by_milp(scarce)
    if expected is None:
        with pytest.raises(ImpossibleTimber):
            cut(scarce)
    else:
        plan = cut(scarce)
        assert (plan.money, plan.stick_count) == expected


@pytest.mark.parametrize(("pieces", "seed"), [(60, 0), (60, 1), (120, 0), (120, 1)])
def test_three_to_a_stick_and_nothing_wasted_is_found_and_settled(pieces: int, seed: int) -> None:
    sizes, room = triplets(pieces, Random(seed))
    plan = cut(problem_of(sizes, room))
    assert plan.proof_status is not ProofStatus.OPEN
    assert plan.stick_count == pieces // 3


@pytest.mark.parametrize("seed", range(8))
def test_sticks_that_could_just_hold_all_agree_with_an_integer_programme(seed: int) -> None:
    draw = Random(seed)
    sizes, room = triplets(18, draw)
    for _ in range(3):
        longer, shorter = draw.sample(range(len(sizes)), 2)
        sizes[longer] += 7
        sizes[shorter] -= 7
    job = problem_of(sizes, room)
    plan = cut(job)
    assert plan.proof_status is not ProofStatus.OPEN
    assert plan.stick_count == (_by_milp(replace(job, stock=(replace(job.stock[0], count=7),))) or (0, 0))[1]
