"""The longest off-cut by each of its ways, against plain trial; the ways that only propose promise no less than is."""

from itertools import product
from time import monotonic

import pytest
from cutting_jobs import loose, random_job

from framecalc.search.watch import start_watch
from framecalc.timber.sticks import offcut
from framecalc.timber.sticks.offcut import NEAR_UM, OffCutPlan, gather_off_cut
from framecalc.timber.sticks.opening_sticks import purchase_of, rooms_of
from framecalc.timber.sticks.problem import StickProblem, Stock, Stretch
from framecalc.timber.sticks.search import find_plan
from framecalc.timber.sticks.whole_numbers import OpenedStick, WholeNumbers, in_whole_numbers

SEEDS = range(24)


def found(problem: StickProblem) -> tuple[WholeNumbers, tuple[OpenedStick, ...]]:
    whole_numbers = in_whole_numbers(problem)
    return whole_numbers, find_plan(whole_numbers, watch=start_watch(20, clock=monotonic)).opened


def job(seed: int) -> StickProblem:
    """A small job; every third one on boards of two strips with a knot."""
    problem = random_job(seed, most_pieces=6, stocks=1, limited=False)
    if seed % 3:
        return problem
    knot = Stretch(start_mm=500, end_mm=530)
    stock = (Stock(name="board", length_mm=1500, strips=2, defects=(knot,)),)
    pieces = tuple(piece for piece in problem.pieces if piece.length_mm < 950)
    return StickProblem(pieces=pieces or loose([400, 300]), stock=stock, kerf_mm=problem.kerf_mm, width_mm=30)


def longest_by_trial(whole_numbers: WholeNumbers, rooms: list[int]) -> int:
    """The longest left of a bay over all ways to put the parts into the bays."""
    parts = [kind for kind, count in enumerate(whole_numbers.counts) for _ in range(count)]
    longest = 0
    for places in product(range(len(rooms)), repeat=len(parts)):
        left = list(rooms)
        for kind, place in zip(parts, places, strict=True):
            left[place] -= whole_numbers.lengths_um[kind]
        if min(left) >= 0:
            longest = max(longest, *left)
    return longest


def gathered(problem: StickProblem, *, useful_um: int = 0) -> tuple[OffCutPlan, int, WholeNumbers]:
    """What is gathered, and the longest by trial."""
    whole_numbers, opened = found(problem)
    rooms = rooms_of(purchase_of(opened, whole_numbers=whole_numbers), whole_numbers=whole_numbers)
    watch = start_watch(20, clock=monotonic)
    plan = gather_off_cut(whole_numbers, opened=opened, useful_um=useful_um, watch=watch)
    left = [
        room - whole_numbers.length_um(pattern)
        for stick in plan.opened
        for room, pattern in zip(whole_numbers.kinds[stick.kind].rooms_um, stick.patterns, strict=True)
    ]
    assert min(left) >= 0 and max(left) == plan.left_um
    patterns = [pattern for stick in plan.opened for pattern in stick.patterns]
    assert tuple(map(sum, zip(*patterns, strict=True))) == whole_numbers.counts
    assert purchase_of(plan.opened, whole_numbers=whole_numbers) == purchase_of(opened, whole_numbers=whole_numbers)
    return plan, longest_by_trial(whole_numbers, list(rooms)), whole_numbers


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("few_parts", [99, 0], ids=["exactly", "by all columns"])
def test_the_longest_off_cut_is_that_of_plain_trial(seed: int, few_parts: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(offcut, "FEW_PARTS", few_parts)
    plan, longest, _ = gathered(job(seed))
    assert longest - (0 if few_parts else NEAR_UM) <= plan.left_um <= longest <= plan.most_um
    assert plan.most_um <= plan.left_um + NEAR_UM


def test_filling_anew_comes_near_and_rules_out_nothing_that_can_be(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(offcut, "FEW_PARTS", 0)
    monkeypatch.setattr(offcut, "FAR", 1.0)
    monkeypatch.setattr(offcut, "all_columns", lambda *_, **__: None)
    monkeypatch.setattr(offcut, "pack_snugly", lambda *_, **__: None)
    for seed in SEEDS:
        plan, longest, _ = gathered(job(seed))
        assert longest - NEAR_UM <= plan.left_um <= longest <= plan.most_um, seed


def test_snug_packing_alone_comes_near_and_rules_out_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(offcut, "FEW_PARTS", 0)
    monkeypatch.setattr(offcut, "MOST_LENGTHS", 0)
    monkeypatch.setattr(offcut, "all_columns", lambda *_, **__: None)
    for seed in SEEDS:
        plan, longest, _ = gathered(job(seed))
        assert longest - NEAR_UM <= plan.left_um <= longest <= plan.most_um, seed


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_too_short_to_be_of_use_is_left_as_it_is(seed: int) -> None:
    _, opened = found(job(seed))
    plan, longest, _ = gathered(job(seed), useful_um=10**9)
    assert plan.opened == opened and plan.left_um <= longest <= plan.most_um
    assert gathered(job(seed), useful_um=longest)[0].left_um == longest


def test_a_search_that_is_over_leaves_all_as_it_is() -> None:
    for seed in SEEDS:
        whole_numbers, opened = found(job(seed))
        over = start_watch(0, clock=monotonic)
        plan = gather_off_cut(whole_numbers, opened=opened, useful_um=0, watch=over)
        assert plan.opened == opened and plan.left_um <= plan.most_um
