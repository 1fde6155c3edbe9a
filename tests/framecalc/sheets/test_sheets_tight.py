"""Ways to fill a sheet that waste next to nothing: none is missed, and what they rule out is out of the question."""

from functools import cache
from random import Random

import pytest
from sheet_jobs import asked, ticks
from sheet_yields import all_yields

from framecalc.search.watch import start_watch
from framecalc.sheets.blocks import Blocks, list_blocks
from framecalc.sheets.bounds import SheetCertificate, SheetShares
from framecalc.sheets.columns import FRUITLESS, ColumnSearch
from framecalc.sheets.fewer import most_waste
from framecalc.sheets.layout import TIGHT_RATIO, _by_tight_blocks, find_layout
from framecalc.sheets.packing import first_layout
from framecalc.sheets.plan import lay_out_sheets
from framecalc.sheets.whole_numbers import JobSheet, LayoutJob, WholePart, job_of

SHEET = (14, 11)


def job(sizes: list[tuple[int, int]], *, sheet: tuple[int, int] = SHEET, strip: int = 0, kerf: int = 0) -> LayoutJob:
    """A job in whole millimetres, of one kind of sheet."""
    return LayoutJob(
        pieces=tuple(
            WholePart(across=across, up=up, count=1, may_turn=True, parts=(number,))
            for number, (across, up) in enumerate(sizes)
        ),
        sheets=(JobSheet(across=sheet[0], up=sheet[1], count=9, price=10, stock=0),),
        kerf=kerf,
        least_strip=strip,
        unit=9,
        coin=1,
    )


def cut_by_chance(draw: Random, across: int, up: int, parts: int) -> list[tuple[int, int]]:
    """A rectangle cut edge to edge into so many parts, a few of them a little too small."""
    if parts == 1 or max(across, up) < 4:
        return [(max(1, across - draw.choice((0, 0, 0, 1))), up)]
    if across >= up:
        at = draw.randint(2, across - 2)
        return cut_by_chance(draw, at, up, parts // 2) + cut_by_chance(draw, across - at, up, parts - parts // 2)
    return [(wide, high) for high, wide in cut_by_chance(draw, up, across, parts)]


def fewest_sheets(sizes: list[tuple[int, int]]) -> int:
    """The fewest sheets that yield all parts, by trying every set of parts on one."""
    on_one = all_yields(tuple(sizes), 0)(*SHEET)

    @cache
    def fewest(wanted: int) -> int:
        first = wanted & -wanted
        return 1 + min(fewest(wanted & ~some) for some in on_one if some & first) if wanted else 0

    return fewest((1 << len(sizes)) - 1)


def listed(posed: LayoutJob, most: int | None) -> Blocks:
    blocks = list_blocks(posed, watch=start_watch(1, clock=ticks()), most_waste=most)
    assert blocks
    return blocks


@pytest.mark.parametrize("strip", [0, 2])
@pytest.mark.parametrize("seed", range(6))
def test_of_all_ways_to_fill_a_sheet_those_that_waste_little_are_listed_and_no_other(seed: int, strip: int) -> None:
    draw = Random(seed)
    sizes = sorted({(draw.randint(3, 9), draw.randint(3, 8)) for _ in range(6)})
    posed = job(sizes, strip=strip)
    (every,) = listed(posed, None).on_sheets
    for most in (5, 20, 60):
        (tight,) = listed(posed, most).on_sheets
        wasted = {
            counts: SHEET[0] * SHEET[1]
            - sum(count * across * up for count, (across, up) in zip(counts, sizes, strict=True))
            for counts, _ in every
        }
        assert {counts for counts, _ in tight} == {counts for counts, lost in wasted.items() if lost <= most}


@pytest.mark.parametrize("seed", range(20))
def test_what_is_found_or_ruled_out_is_what_trying_every_set_of_parts_says(seed: int) -> None:
    draw = Random(seed)
    sizes = cut_by_chance(draw, *SHEET, 4) + cut_by_chance(draw, *SHEET, 4)
    posed = job(sizes)
    begun = tuple(first_layout(posed, random=draw, tries=1))
    nothing = SheetCertificate(shares=SheetShares(pieces=(0,) * len(posed.pieces), capacities=(1,)), bound=0)
    search = ColumnSearch(job=posed, layout=begun, certificate=nothing)
    before = search.price
    _by_tight_blocks(search, random=draw, watch=start_watch(1, clock=ticks()))
    waste = most_waste(posed, below=before)
    assert waste == (before // 10 - 1) * SHEET[0] * SHEET[1] - sum(across * up for across, up in sizes)
    if waste <= TIGHT_RATIO * SHEET[0] * SHEET[1]:
        assert search.is_proved and search.price == 10 * fewest_sheets(sizes)
    else:
        assert search.price == before and not search.is_proved


def test_nothing_is_ruled_out_where_the_saw_and_the_least_strip_both_count() -> None:
    posed = job([(7, 11), (7, 10)], strip=2, kerf=1)
    begun = tuple(first_layout(posed, random=Random(1)))
    nothing = SheetCertificate(shares=SheetShares(pieces=(0, 0), capacities=(1,)), bound=0)
    search = ColumnSearch(job=posed, layout=begun, certificate=nothing)
    _by_tight_blocks(search, random=Random(1), watch=start_watch(1, clock=ticks()))
    assert not search.ruled_out


STUBBORN = [(337, 536), (379, 273), (391, 447), (614, 435), (507, 316), (538, 519), (425, 388), (663, 307)]
"""Three sheets of mount board are found, two are not ruled out: saw and least strip both count, so no way is listed."""


def test_a_search_ends_when_beginning_anew_meets_nothing_new(monkeypatch: pytest.MonkeyPatch) -> None:
    """The clock stands still: nothing but the search itself ends it, after so many beginnings in vain."""
    begun: list[tuple[int, int]] = []
    monkeypatch.setattr("framecalc.sheets.layout.STEPS", ())
    monkeypatch.setattr("framecalc.sheets.layout.ANEW_ROUNDS", 60)
    search = find_layout(
        job_of(asked(*((across, up, 1) for across, up in STUBBORN), kerf_mm=3.2, least_strip_mm=12)),
        watch=start_watch(1, clock=lambda: 0.0),
        report=lambda search: begun.append((search.price, len(search.met))),
    )
    in_vain = begun[-FRUITLESS - 2 : -1]
    assert search.is_exhausted and not search.is_proved and len(begun) > FRUITLESS + 2
    assert len(set(in_vain)) == 1 and begun[-FRUITLESS - 3] != in_vain[0]


def test_a_search_that_time_ends_is_not_exhausted() -> None:
    problem = asked(*((across, up, 1) for across, up in STUBBORN), kerf_mm=3.2, least_strip_mm=12)
    found = lay_out_sheets(problem, watch=start_watch(0, clock=lambda: 0.0))
    assert not found.is_exhausted and not found.is_proved and found.bought > found.least_bought
