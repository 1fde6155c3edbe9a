"""The ten classes of two-dimensional bin packing by their published recipes: how many layouts are proved best.

    python -m tests.benchmarks.sheet_classes [SEEDS] [SECONDS] [PARTS …]

Prints; judges nothing. Seconds are those of the processor, so that a busy neighbour does not change the result much.
All cuts run edge to edge; the best known numbers of the literature allow other cuts, so they are not compared.

Source: classes 1–6: J. O. Berkey and P. Y. Wang, Two-dimensional finite bin-packing algorithms, Journal of the
Operational Research Society 38 (1987) 423–429; classes 7–10: S. Martello and D. Vigo, Exact solution of the
two-dimensional finite bin packing problem, Management Science 44 (1998) 388–399. Recipes from memory, not re-read.
"""

import sys
from collections.abc import Iterator
from random import Random
from time import process_time

from framecalc.search.watch import start_watch
from framecalc.sheets.plan import lay_out_sheets
from framecalc.sheets.problem import SheetPart, SheetProblem, StockSheet, sheet_problem
from tests.benchmarks.figures import Figure, print_figures

SECONDS, PARTS = 20.0, (20, 40, 60)
UNIT_MM = 10.0
SQUARE = {1: (10, 10), 2: (10, 30), 3: (35, 40), 4: (35, 100), 5: (100, 100), 6: (100, 300)}
"""The longest side of a part and the side of the sheet; sides are drawn from 1 on."""

MIXED_SHEET, MOSTLY = 100, 0.7
"""The side of the sheet of classes 7–10, and the share of their own kind of part."""

Sides = tuple[int, int]


def sides_of(number: int, draw: Random) -> Sides:
    """The sides of one part of a class."""
    if number in SQUARE:
        longest, _ = SQUARE[number]
        return draw.randint(1, longest), draw.randint(1, longest)
    own = number - 6
    kind = own if draw.random() < MOSTLY else draw.choice([other for other in (1, 2, 3, 4) if other != own])
    return _mixed(kind, draw)


def _mixed(kind: int, draw: Random) -> Sides:
    """Wide and low, narrow and high, large, small."""
    whole, half, most = MIXED_SHEET, MIXED_SHEET // 2, MIXED_SHEET * 2 // 3
    ranges = {
        1: ((most, whole), (1, half)),
        2: ((1, half), (most, whole)),
        3: ((half, whole), (half, whole)),
        4: ((1, half), (1, half)),
    }
    across, up = ranges[kind]
    return draw.randint(*across), draw.randint(*up)


def problem_of(number: int, *, parts: int, may_turn: bool, seed: int) -> SheetProblem:
    """So many parts of a class, to be cut from its sheets without kerf."""
    draw = Random(f"{number} {parts} {seed}")
    side_mm = UNIT_MM * (SQUARE[number][1] if number in SQUARE else MIXED_SHEET)
    wanted = [
        SheetPart(name=f"part {index}", across_mm=UNIT_MM * across, up_mm=UNIT_MM * up, may_turn=may_turn)
        for index, (across, up) in enumerate((sides_of(number, draw) for _ in range(parts)), start=1)
    ]
    sheet = StockSheet(name="sheet", across_mm=side_mm, up_mm=side_mm)
    return sheet_problem(parts=wanted, stock=[sheet], kerf_mm=0, least_strip_mm=0)


def figures(seeds: int = 3, seconds: float = SECONDS, sizes: tuple[int, ...] = PARTS) -> Iterator[Figure]:
    """One line for each class, number of parts and turning rule."""
    for number in range(1, 11):
        for parts in sizes:
            for may_turn in (False, True):
                yield _figure(number, parts, may_turn, seeds, seconds)


def _figure(number: int, parts: int, may_turn: bool, seeds: int, seconds: float) -> Figure:
    gaps, took, bought = [], [], 0
    for seed in range(seeds):
        problem = problem_of(number, parts=parts, may_turn=may_turn, seed=seed)
        started = process_time()
        layout = lay_out_sheets(problem, watch=start_watch(seconds, clock=process_time))
        took.append(process_time() - started)
        gaps.append(0 if layout.is_proved else layout.bought - layout.least_bought)
        bought += layout.bought
    proved = sum(gap == 0 for gap in gaps)
    turning = "turned" if may_turn else "upright"
    return Figure(
        what=f"sheets: class {number}, {parts} parts, {turning}, settled",
        measured=proved,
        unit=f"of {len(gaps)}",
        beside=f"{bought} sheets, gap at most {max(gaps)}, {max(took):.1f} s CPU",
    )


def main() -> None:
    """Print a line for each class."""
    given = [float(text) for text in sys.argv[1:]]
    seeds, seconds = int(given[0]) if given else 3, given[1] if len(given) > 1 else SECONDS
    print_figures(figures(seeds, seconds, tuple(map(int, given[2:])) or PARTS))


if __name__ == "__main__":
    main()
