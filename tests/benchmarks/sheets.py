"""Sheet layouts of shop-like jobs: sheets by greedy filling, by the search, and the proved bound, in one run.

    python -m tests.bench.sheets

Prints; judges nothing. Times depend on the machine; sheets do not, except where the time limit stops a search.
"""

from random import Random
from statistics import median
from time import monotonic, perf_counter

from framecalc.search.watch import start_watch
from framecalc.sheets.answer import SheetLayout
from framecalc.sheets.packing import first_layout
from framecalc.sheets.plan import lay_out_sheets
from framecalc.sheets.problem import LEAST_GLASS_STRIP_MM, SheetPart, SheetProblem, StockSheet, sheet_problem
from framecalc.sheets.whole_numbers import job_of

TIME_LIMIT_S = 10.0
SEEDS = range(6)
JOBS = ((3, 10), (3, 50), (3, 200), (10, 10), (12, 12), (20, 20), (50, 50), (20, 200))
"""Sizes of part, and parts among them."""

WAYS = {"scored glass": (0.0, LEAST_GLASS_STRIP_MM), "mat board": (0.0, 0.0), "sawn panel": (3.2, 0.0)}
"""Kerf and least strip of each way of cutting [mm]."""

SHEET = StockSheet(name="815 × 1120", across_mm=815, up_mm=1120)


def job(seed: int, *, sizes: int, parts: int, kerf_mm: float, least_strip_mm: float) -> SheetProblem:
    """Parts of some random sizes, all of which may turn."""
    draw = Random(seed)
    kinds = [(draw.randrange(150, 600), draw.randrange(150, 750)) for _ in range(sizes)]
    counts = [1 + (parts - sizes) // sizes + (number < (parts - sizes) % sizes) for number in range(sizes)]
    named = (
        SheetPart(name=f"part {number}", across_mm=across, up_mm=up, count=count)
        for number, ((across, up), count) in enumerate(zip(kinds, counts, strict=True), start=1)
    )
    return sheet_problem(parts=named, stock=[SHEET], kerf_mm=kerf_mm, least_strip_mm=least_strip_mm)


def measure(way: str, sizes: int, parts: int) -> str:
    """One line: how many are proved, the gaps, the times, and what greedy filling alone would buy."""
    kerf_mm, least_strip_mm = WAYS[way]
    layouts: list[SheetLayout] = []
    times, greedy = [], 0
    for seed in SEEDS:
        problem = job(seed, sizes=sizes, parts=parts, kerf_mm=kerf_mm, least_strip_mm=least_strip_mm)
        greedy += len(first_layout(job_of(problem), random=Random(seed), tries=1))
        start = perf_counter()
        layouts.append(lay_out_sheets(problem, watch=start_watch(TIME_LIMIT_S, clock=monotonic)))
        times.append(perf_counter() - start)
    bought = sum(layout.bought for layout in layouts)
    gaps = sum(layout.bought - layout.least_bought for layout in layouts)
    proved = sum(layout.is_proved for layout in layouts)
    return (
        f"{way:12}  {sizes:3} sizes {parts:4} parts  proved {proved} of {len(layouts)}  "
        f"{bought:4} sheets, greedy {greedy:4}, at most {gaps} too many  "
        f"median {median(times):5.2f} s, longest {max(times):5.2f} s"
    )


if __name__ == "__main__":
    for way in WAYS:
        for sizes, parts in JOBS:
            print(measure(way, sizes, parts), flush=True)
