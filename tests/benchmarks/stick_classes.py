"""Hard cutting plans made by published recipes: how many are proved best, and how far the others are from their bound.

    python -m tests.benchmarks.stick_classes [SEEDS] [SECONDS]

Prints; judges nothing. Seconds are those of the processor, so that a busy neighbour does not change the result much.
Only the solver, once it runs, ends by the clock on the wall as well: beside heavy work a large job may stay open.

Source of the classes `triplets` and `uniform`: E. Falkenauer, A hybrid grouping genetic algorithm for bin packing,
Journal of Heuristics 2 (1996) 5–30, from memory, not re-read. `planted` is our own: full sticks of a few large sizes,
one of which loses a little, so that the best plan is known.
"""

import sys
from collections.abc import Callable, Iterator
from random import Random
from time import process_time

from framecalc.search.watch import start_watch
from framecalc.timber.sticks.plan import plan_sticks
from framecalc.timber.sticks.problem import Piece, StickProblem, Stock
from tests.benchmarks.figures import Figure, print_figures

SECONDS = 20.0
UNIFORM_ROOM, TRIPLET_ROOM, PLANTED_ROOM = 150, 1000, 3000
UNIT_MM = {UNIFORM_ROOM: 20.0, TRIPLET_ROOM: 3.0, PLANTED_ROOM: 1.0}

Sizes = list[int]


def triplets(pieces: int, draw: Random) -> tuple[Sizes, int]:
    """Three to a stick, none wasted: the first 380–490 of 1000, the second at least 250, the third is the rest."""
    sizes = []
    for _ in range(pieces // 3):
        first = draw.randint(380, 490)
        second = draw.randint(250, (TRIPLET_ROOM - first) // 2)
        sizes += [first, second, TRIPLET_ROOM - first - second]
    return sizes, TRIPLET_ROOM


def uniform(pieces: int, draw: Random) -> tuple[Sizes, int]:
    """Sizes 20–100, each as likely as another, in 150."""
    return [draw.randint(20, 100) for _ in range(pieces)], UNIFORM_ROOM


def planted(pieces: int, draw: Random) -> tuple[Sizes, int]:
    """Full sticks of two, three or four large pieces, made of few sizes."""
    patterns = [_parted(draw.choice((2, 3, 3, 4)), draw) for _ in range(5)]
    sizes: Sizes = []
    while len(sizes) < pieces:
        sizes += draw.choice(patterns)
    sizes[-1] -= draw.randint(0, 40)
    return sizes, PLANTED_ROOM


def _parted(count: int, draw: Random) -> Sizes:
    """A stick parted into so many pieces, none shorter than a sixth of it."""
    while True:
        cuts = sorted(draw.sample(range(1, PLANTED_ROOM), count - 1))
        parts = [after - before for before, after in zip([0, *cuts], [*cuts, PLANTED_ROOM], strict=True)]
        if min(parts) >= PLANTED_ROOM // 6:
            return parts


CLASSES: tuple[tuple[str, Callable[[int, Random], tuple[Sizes, int]], tuple[int, ...]], ...] = (
    ("triplets", triplets, (60, 120, 249, 501)),
    ("uniform", uniform, (120, 250, 500)),
    ("planted", planted, (60, 120, 240)),
)


def problem_of(sizes: Sizes, room: int) -> StickProblem:
    """These sizes to be cut from sticks of one length, without kerf, as the recipes have it."""
    unit_mm = UNIT_MM[room]
    pieces = tuple(Piece(frame=f"f{n}", side="top", length_mm=size * unit_mm) for n, size in enumerate(sizes))
    return StickProblem(pieces=pieces, stock=(Stock(name="stick", length_mm=room * unit_mm),), kerf_mm=0, width_mm=30)


def figures(seeds: int = 5, seconds: float = SECONDS) -> Iterator[Figure]:
    """One line for each class and size: proved, the largest gap in sticks, the slowest."""
    for name, make, counts in CLASSES:
        for count in counts:
            yield _figure(name, [problem_of(*make(count, Random(seed))) for seed in range(seeds)], seconds)


def _figure(name: str, problems: list[StickProblem], seconds: float) -> Figure:
    gaps, took = [], []
    for problem in problems:
        started = process_time()
        plan = plan_sticks(problem, watch=start_watch(seconds, clock=process_time))
        took.append(process_time() - started)
        gaps.append(0 if plan.proof_status.name != "OPEN" else plan.stick_count - plan.least_sticks)
    settled = sum(gap == 0 for gap in gaps)
    return Figure(
        what=f"sticks: {name}, {len(problems[0].pieces)} pieces, settled",
        measured=settled,
        unit=f"of {len(gaps)}",
        beside=f"gap at most {max(gaps)}, {max(took):.1f} s CPU",
    )


def main() -> None:
    """Print a line for each class."""
    seeds = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    print_figures(figures(seeds, float(sys.argv[2]) if len(sys.argv) > 2 else SECONDS))


if __name__ == "__main__":
    main()
