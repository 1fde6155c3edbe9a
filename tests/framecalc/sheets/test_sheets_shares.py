"""Shares of lengths as published, what they prove at the least, and what whole and broken sheets of it cost."""

from fractions import Fraction
from itertools import pairwise
from math import ceil, floor
from random import Random

import pytest
from sheet_jobs import MOUNT_BOARD, asked

from framecalc.sheets import bounds
from framecalc.sheets.bounds import (
    DIVISIONS,
    FEW_SIDES,
    SheetCertificate,
    SheetKind,
    SheetShares,
    _all_or_nothing,
    _growths,
    _in_parts,
    _simple_shares,
    _spread,
    _steps_from_both_ends,
    certified,
    growths,
    least_price,
    price_in_fractions,
    shares_of_ways,
    simple_certificate,
    stronger,
)
from framecalc.sheets.packing import fill, first_layout, ordered, price_of
from framecalc.sheets.problem import StockSheet
from framecalc.sheets.whole_numbers import JobSheet, LayoutJob, WholePart, job_of

WIDE, HIGH = (StockSheet(name=f"{a}", across_mm=a, up_mm=u) for a, u in ((900, 300), (400, 700)))


def job_with(sheets: list[tuple[int, int, int]], *, pieces: list[tuple[int, int, int]] | None = None) -> LayoutJob:
    """Sheets by across, price and count, a unit high; pieces by across, up and count, one wanted by itself if none."""
    return LayoutJob(
        pieces=tuple(
            WholePart(across=across, up=up, count=count, may_turn=True, parts=(0,) * count)
            for across, up, count in pieces or [(1, 1, 1)]
        ),
        sheets=tuple(
            JobSheet(across=across, up=across, count=count, price=price, stock=0) for across, price, count in sheets
        ),
        kerf=0,
        least_strip=0,
        unit=2,
        coin=1,
    )


@pytest.mark.parametrize("longest", [60, 61, 120])
def test_shares_of_lengths_are_those_that_were_published(longest: int) -> None:
    """u(k) and U(e) of Fekete and Schepers 2001, f(1) of Carlier, Clautiaux and Moukrim 2007; from memory."""
    for length in range(longest + 1):
        part = Fraction(length, longest)
        for number in range(2, 9):
            k = number - 1
            u = part if (part * number).denominator == 1 else Fraction(floor(part * number), k)
            assert _in_parts(length, longest=longest, number=number) == u * k * longest
        for side in range(1, longest // 2 + 1):
            rest = longest - length
            all_or_nothing = longest if rest < side else length if length >= side else 0
            assert _all_or_nothing(length, longest=longest, side=side) == all_or_nothing
            steps = longest // side if 2 * length == longest else 2 * (length // side)
            both = 2 * (longest // side - rest // side) if 2 * length > longest else steps
            assert _steps_from_both_ends(length, longest=longest, step=side) == both


def test_plain_lengths_come_first_and_each_side_up_to_half_is_a_step_from_both_ends() -> None:
    sides = [30, 50, 51, 70]
    found = list(_growths(100, sides))
    assert [found[0](length) for length in (1, 7, 100)] == [1, 7, 100]
    for number in DIVISIONS:
        assert any(grow(100) == number - 1 and grow(100 // number + 1) == 1 for grow in found)
    steps = {side: [grow for grow in found if side in grow.keywords.values()] for side in sides}  # type: ignore[attr-defined]
    assert {side: len(each) for side, each in steps.items()} == {30: 3, 50: 3, 51: 2, 70: 1}


def test_the_steps_of_an_axis_are_the_sides_of_which_two_fit() -> None:
    job = job_of(asked((350, 100, 1), (450, 360, 1), (200, 100, 1), stock=[HIGH, WIDE]))
    for axis, longest in enumerate(job.longest):
        plain, *rest = growths(job, axis)
        assert plain(7) == 7
        sides = sorted({way[axis] for piece in job.pieces for way in piece.ways})
        steps = [(grow.keywords["step"], grow.keywords["longest"]) for grow in rest]  # type: ignore[attr-defined]
        assert steps == [(side, longest) for side in sides if 2 * side <= longest]
    two = job_with([(100, 1, 1)], pieces=[(50, 50, 1), (51, 51, 1), (2, 2, 1)])
    assert [grow.keywords["step"] for grow in list(growths(two, 0))[1:]] == [2, 50]  # type: ignore[attr-defined]


@pytest.mark.parametrize("number", [1, 3, 5, 6, 11, 12, 13, 40])
def test_sides_are_spread_evenly_over_all(number: int) -> None:
    sides = list(range(number))
    found = _spread(sides, most=FEW_SIDES)
    assert min(number, FEW_SIDES) <= len(found) < 2 * FEW_SIDES
    assert len({after - before for before, after in pairwise(found)}) <= 1 and found[0] == 0
    assert found == sides or number >= 2 * FEW_SIDES


@pytest.mark.parametrize("seed", range(25))
def test_a_bound_is_the_price_of_the_cheapest_fractions_of_sheets_that_have_the_capacity(seed: int) -> None:
    draw = Random(seed)
    sheets = [(1, draw.randint(1, 9), draw.randint(1, 4)) for _ in range(3)]
    capacities = tuple(draw.randint(0, 6) for _ in sheets)
    held = sum(most * count for most, (_, _, count) in zip(capacities, sheets, strict=True))
    if not held:
        return
    share = draw.randint(1, held)
    found = certified(SheetShares(pieces=(share,), capacities=capacities), job=job_with(sheets))
    units = sorted(
        (Fraction(price, most), most * count)
        for most, (_, price, count) in zip(capacities, sheets, strict=True)
        if most
    )
    left, spent = Fraction(share), Fraction(0)
    for price, there in units:
        taken = min(left, there)
        left, spent = left - taken, spent + taken * price
    assert (left, found.bound) == (0, spent)


@pytest.mark.parametrize("seed", range(25))
def test_whole_sheets_cost_what_plain_trial_finds_and_fractions_no_more(seed: int) -> None:
    draw = Random(seed)
    kinds = [
        SheetKind(price=draw.randint(0, 9), capacity=draw.randint(1, 6), count=draw.randint(1, 3)) for _ in range(3)
    ]
    kinds.sort(key=lambda kind: Fraction(kind.price, kind.capacity))
    wanted = draw.randint(1, 20)
    costs = [
        sum(n * kind.price for n, kind in zip(numbers, kinds, strict=True))
        for numbers in ((a, b, c) for a in range(4) for b in range(4) for c in range(4))
        if all(n <= kind.count for n, kind in zip(numbers, kinds, strict=True))
        and sum(n * kind.capacity for n, kind in zip(numbers, kinds, strict=True)) >= wanted
    ]
    least = price_in_fractions(tuple(kinds), wanted, enough=77)
    left, spent = wanted, Fraction(0)
    for kind in kinds:
        taken = min(left, kind.capacity * kind.count)
        left, spent = left - taken, spent + Fraction(taken * kind.price, kind.capacity)
    assert least == (77 if left else ceil(spent))
    if costs:
        shares = SheetShares(pieces=(wanted,), capacities=tuple(kind.capacity for kind in kinds))
        job = job_with([(1, kind.price, kind.count) for kind in kinds])
        certificate = certified(shares, job=job)
        for known in (0, min(costs) - 1, min(costs), 999):
            assert least_price(certificate, job=job, known=known) == min(known, min(costs))


def test_where_there_are_too_many_purchases_fractions_of_sheets_are_the_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bounds, "MOST_TRIED", 0)
    job = job_with([(1, 5, 9), (1, 7, 9)])
    certificate = certified(SheetShares(pieces=(8,), capacities=(3, 4)), job=job)
    assert certificate.bound == Fraction(40, 3)
    assert [least_price(certificate, job=job, known=known) for known in (9, 99)] == [9, 14]


def test_shares_without_any_capacity_prove_nothing() -> None:
    found = certified(SheetShares(pieces=(3,), capacities=(0,)), job=job_with([(1, 5, 9)]))
    assert found.bound == 0


def test_the_stronger_of_two_proves_more_and_of_equals_the_first_is_kept() -> None:
    shares = SheetShares(pieces=(1,), capacities=(1,))
    low, high, again = (SheetCertificate(shares=shares, bound=Fraction(n)) for n in (1, 2, 2))
    assert stronger(low, high) is high and stronger(high, low) is high and stronger(high, again) is high


def test_parts_over_half_of_a_sheet_both_ways_are_proved_to_take_a_sheet_each_without_a_search() -> None:
    job = job_of(asked((500, 700, 6), turn=False))
    assert simple_certificate(job).bound == 6 * job.sheets[0].price


def test_a_mirror_image_doubles_what_fits_and_adds_up_what_all_ways_are_worth() -> None:
    square = job_with([(9, 2, 1)], pieces=[(4, 3, 1), (2, 2, 1)])
    assert shares_of_ways([[3, 5], [4]], [10], job=square) == SheetShares(pieces=(8, 8), capacities=(20,))
    oblong = job_of(asked((4, 3, 1), (2, 2, 1), stock=[MOUNT_BOARD]))
    assert shares_of_ways([[3, 5], [4]], [10], job=oblong) == SheetShares(pieces=(3, 4), capacities=(10,))


@pytest.mark.parametrize("seed", range(4))
def test_no_filling_of_sheets_of_unlike_shapes_is_worth_more_than_shares_say(seed: int) -> None:
    draw = Random(seed)
    sizes = [(draw.randrange(60, 500), draw.randrange(60, 290), 2) for _ in range(2)]
    job = job_of(asked(*sizes, stock=[WIDE, HIGH]))
    everything = [number for number, piece in enumerate(job.pieces) for _ in range(piece.count)]
    filled = [
        fill(sheet, ordered(everything, job, draw), job=job, random=draw)[0] for sheet in (0, 1) for _ in range(8)
    ]
    price = price_of(first_layout(job, random=draw), job)
    for shares in _simple_shares(job):
        for one in filled:
            assert sum(shares.pieces[piece] for piece in one.pieces) <= shares.capacities[one.sheet]
        assert certified(shares, job=job).bound <= price
