"""Cutting plans for 1, 5, 50 and 200 frames: time, price and proved gap, beside first-fit-decreasing, in one run.

    python -m tests.bench.sticks

Prints; judges nothing. Times depend on the machine, prices do not, except where a search is stopped by its time limit.
"""

from collections.abc import Sequence
from decimal import Decimal
from random import Random
from time import monotonic, perf_counter

from framecalc.search.watch import start_watch
from framecalc.timber.sticks.plan import plan_sticks
from framecalc.timber.sticks.problem import Grain, Piece, StickProblem, Stock

TIME_LIMIT_S = 5.0
KERF_MM, WIDTH_MM = 3.2, 30.0

ONE_LENGTH = (Stock(name="3000", length_mm=3000, price=Decimal("24.90"), trim_mm=15),)
THREE_LENGTHS = (
    Stock(name="2400", length_mm=2400, price=Decimal("18.50"), trim_mm=15),
    Stock(name="3000", length_mm=3000, price=Decimal("24.90"), trim_mm=15),
    Stock(name="3600", length_mm=3600, price=Decimal("31.20"), trim_mm=15),
)
WITH_RACK = (
    *THREE_LENGTHS,
    *(Stock(name=f"off-cut {mm}", length_mm=mm, count=1, in_hand=True) for mm in (620, 745, 980, 1130, 1410, 1655)),
)
JOBS = ((1, 1), (5, 5), (50, 3), (50, 10), (50, 50), (200, 3), (200, 40))
"""Frames, and sizes of frame among them."""


def frames_of(frames: int, *, sizes: int, seed: int) -> tuple[Piece, ...]:
    """The sides of a batch of frames of random sizes."""
    draw = Random(seed)
    outside_mm = [(draw.randint(200, 900) + draw.choice([0, 0.5]), draw.randint(250, 1200)) for _ in range(sizes)]
    pieces = []
    for frame in range(frames):
        across, up = outside_mm[frame % sizes]
        sides = (("top", across), ("right", up), ("bottom", across), ("left", up))
        pieces += [Piece(frame=f"f{frame}", side=side, length_mm=float(length)) for side, length in sides]
    return tuple(pieces)


def first_fit_decreasing(problem: StickProblem) -> Decimal:
    """The price of the usual rule of thumb: longest piece first, into the first stick that has room.

    Off-cuts are filled first; of the lengths for sale one is used throughout, the cheapest that way.
    """
    sale = [stock for stock in problem.stock if stock.count is None]
    return min(_first_fit(problem, bought=stock) for stock in sale)


def _first_fit(problem: StickProblem, *, bought: Stock) -> Decimal:
    rooms = [_room_mm(stock, problem) for stock in problem.stock if stock.count for _ in range(stock.count)]
    money = Decimal(0)
    for piece in sorted(problem.pieces, key=lambda piece: -piece.length_mm):
        part_mm = piece.length_mm + problem.cut_mm
        at = next((at for at, room in enumerate(rooms) if room >= part_mm), len(rooms))
        if at == len(rooms):
            rooms.append(_room_mm(bought, problem))
            money += bought.price
        rooms[at] -= part_mm
    return money


def _room_mm(stock: Stock, problem: StickProblem) -> float:
    return stock.length_mm - 2 * stock.trim_mm + problem.cut_mm


def run(frames: int, *, sizes: int, stock: Sequence[Stock], grain: Grain = Grain.FREE, seed: int = 0) -> str:
    """Plan one job and tell how it went, in one line."""
    pieces = frames_of(frames, sizes=sizes, seed=seed)
    problem = StickProblem(pieces=pieces, stock=tuple(stock), kerf_mm=KERF_MM, width_mm=WIDTH_MM, grain=grain)
    started = perf_counter()
    plan = plan_sticks(problem, watch=start_watch(TIME_LIMIT_S, clock=monotonic))
    took_s = perf_counter() - started
    greedy = first_fit_decreasing(problem) if grain is Grain.FREE else Decimal(0)
    dearest = max(kind.price for kind in stock)
    return (
        f"{frames:4} frames {sizes:3} sizes  {took_s:7.3f} s  {plan.money:9} in {plan.stick_count:3}  "
        f"{plan.proof_status.name:9}  at most {plan.saves_at_most:6} ({plan.saves_at_most_pct:4.2f}%, "
        f"{plan.saves_at_most / dearest:4.2f} sticks) better  "
        + (f"first fit {greedy:9} = × {greedy / plan.money:5.3f}  " if plan.money and greedy else "")
        + f"off-cut {plan.longest_left_mm:6.1f} of at most {plan.longest_possible_mm:6.1f} mm"
    )


def main() -> None:
    """Print a line for every job."""
    for title, stock in (("one length", ONE_LENGTH), ("three lengths", THREE_LENGTHS), ("and six off-cuts", WITH_RACK)):
        print(title)
        for frames, sizes in JOBS:
            for seed in range(1 if frames < 50 else 3):
                print(run(frames, sizes=sizes, stock=stock, seed=seed), flush=True)
    print("grain round the frame, one length of 4.5 m")
    long = (Stock(name="4500", length_mm=4500, price=Decimal("39.00"), trim_mm=15),)
    for frames, sizes in ((1, 1), (5, 5), (50, 10), (50, 50)):
        print(run(frames, sizes=sizes, stock=long, grain=Grain.ROUND), flush=True)


if __name__ == "__main__":
    main()
