"""Sheet problems for the tests: made by hand, or at random from a seed."""

from collections.abc import Callable
from decimal import Decimal
from itertools import count
from random import Random
from typing import Any

from framecalc.search.watch import start_watch
from framecalc.sheets.answer import SheetLayout
from framecalc.sheets.plan import lay_out_sheets
from framecalc.sheets.problem import Goal, SheetPart, SheetProblem, StockSheet, sheet_problem

MOUNT_BOARD = StockSheet(name="815 × 1120", across_mm=815, up_mm=1120, cost=Decimal("12.50"))
PLYWOOD = StockSheet(name="1220 × 2440", across_mm=1220, up_mm=2440, cost=Decimal("40"))


def ticks(*, step_s: float = 0.0) -> Callable[[], float]:
    """A clock that advances one step each time it is read, so that a test does not depend on the machine."""
    numbers = count()
    return lambda: next(numbers) * step_s


def laid_out(problem: SheetProblem) -> SheetLayout:
    """A layout without a time limit, found from one beginning."""
    return lay_out_sheets(problem, watch=start_watch(1.0, clock=ticks()), most_beginnings=0)


def asked(
    *sizes: tuple[float, float, int], stock: Any = (MOUNT_BOARD,), turn: bool = True, **ways: Any
) -> SheetProblem:
    """Parts given as across, up and count."""
    parts = [
        SheetPart(name=f"part {number}", across_mm=across, up_mm=up, count=times, may_turn=turn)
        for number, (across, up, times) in enumerate(sizes, start=1)
    ]
    return sheet_problem(parts=parts, stock=stock, **({"kerf_mm": 0.0} | ways))


def by_chance(seed: int) -> SheetProblem:
    """A shop-like job: some kinds of parts, sheets to buy and off-cuts, glass or board."""
    random = Random(seed)
    strip, kerf, trim = random.choice([(12, 0, 0), (12, 0, 15), (0, 3.2, 0), (0, 3.2, 10), (0, 0, 0), (12, 3, 20)])
    stock = random.choice([[MOUNT_BOARD], [MOUNT_BOARD, PLYWOOD], [PLYWOOD]])
    stock = [*stock, *(_off_cut(number, random) for number in range(random.choice([0, 0, 2, 4])))]
    parts = [_part(number, random) for number in range(random.choice([1, 2, 3, 6]))]
    return sheet_problem(
        parts=parts,
        stock=stock,
        kerf_mm=kerf,
        trim_mm=trim,
        least_strip_mm=strip,
        goal=random.choice(list(Goal)),
    )


def _part(number: int, random: Random) -> SheetPart:
    inches = random.choice([1.0, 25.4 / 16])
    return SheetPart(
        name=f"part {number}",
        across_mm=random.randrange(150, 600) // inches * inches,
        up_mm=random.randrange(150, 700) // inches * inches,
        count=random.choice([1, 2, 5, 12]),
        may_turn=random.random() < 0.7,
    )


def _off_cut(number: int, random: Random) -> StockSheet:
    return StockSheet(
        name=f"off-cut {number}",
        across_mm=random.randrange(300, 900),
        up_mm=random.randrange(300, 900),
        count=random.choice([1, 2]),
    )
