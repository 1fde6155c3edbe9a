"""Small and random cutting jobs for the tests of this folder."""

from collections.abc import Iterable
from decimal import Decimal
from random import Random
from time import monotonic

from framecalc.search.watch import start_watch
from framecalc.timber.sticks.answer import StickPlan
from framecalc.timber.sticks.check import faults_of
from framecalc.timber.sticks.plan import plan_sticks
from framecalc.timber.sticks.problem import Piece, StickProblem, Stock

INCH_MM = 25.4


def frame_of(name: str, *, across_mm: float, up_mm: float, copies: int = 1) -> tuple[Piece, ...]:
    """The sides of a rectangular frame, for each of its copies."""
    sides = (("top", across_mm), ("right", up_mm), ("bottom", across_mm), ("left", up_mm))
    return tuple(
        Piece(frame=name, copy=copy, side=side, length_mm=length)
        for copy in range(1, copies + 1)
        for side, length in sides
    )


def loose(lengths_mm: Iterable[float]) -> tuple[Piece, ...]:
    """Loose pieces of these lengths."""
    return tuple(
        Piece(frame="job", copy=number, side="piece", length_mm=length)
        for number, length in enumerate(lengths_mm, start=1)
    )


def cut(problem: StickProblem, *, time_limit_s: float = 20.0) -> StickPlan:
    """Plan a job, and run the independent check on it."""
    plan = plan_sticks(problem, watch=start_watch(time_limit_s, clock=monotonic))
    assert faults_of(plan, problem=problem) == ()
    return plan


def random_job(seed: int, *, most_pieces: int = 9, stocks: int = 2, limited: bool = True) -> StickProblem:
    """A small job: some pieces of a few lengths, one or two kinds of stick for sale, perhaps an off-cut on hand."""
    draw = Random(seed)
    lengths_mm = [float(draw.randint(150, 900)) for _ in range(draw.randint(1, 4))]
    pieces = loose(draw.choice(lengths_mm) for _ in range(draw.randint(2, most_pieces)))
    stock = [
        Stock(
            name=f"sale {n}",
            length_mm=float(draw.randint(1000, 2400)),
            price=Decimal(draw.randint(5, 30)),
            trim_mm=10.0,
        )
        for n in range(draw.randint(1, stocks))
    ]
    if limited:
        stock.append(
            Stock(name="off-cut", length_mm=float(draw.randint(400, 1200)), count=draw.randint(0, 2), in_hand=True)
        )
    return StickProblem(pieces=pieces, stock=tuple(stock), kerf_mm=draw.choice([0.0, 2.0, 3.2]), width_mm=30.0)
