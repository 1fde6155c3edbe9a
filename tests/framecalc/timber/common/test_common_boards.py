"""Common boards against an exhaustive search, and what the independent check finds."""

from decimal import Decimal
from itertools import product
from random import Random
from time import monotonic

import pytest
from sheet_jobs import ticks

from framecalc.errors import ImpossibleTimber
from framecalc.records import replace
from framecalc.search.solver import Outcome, Solution, solve
from framecalc.search.watch import SoFar, start_watch
from framecalc.sizes.members import slant_kerf_mm
from framecalc.timber.common.check import SharedWidth, faults_of_sharing
from framecalc.timber.common.plan import CommonPlan, _bound, _model, least_fill_ratio, plan_common_boards
from framecalc.timber.common.problem import MOST_RIPS, CommonProblem, CommonStock, alone, taken_mm, ways_to_rip
from framecalc.timber.sticks.answer import ProofStatus, StickPlan
from framecalc.timber.sticks.plan import plan_sticks
from framecalc.timber.sticks.problem import Piece, StickProblem, Stock

KERF_MM, EDGE_MM = 3.0, 5.0
CUT_MM = slant_kerf_mm(KERF_MM, sides=4)


def pieces(*lengths_mm: float) -> tuple[Piece, ...]:
    return tuple(Piece(frame="hall", side=f"s{number}", length_mm=length) for number, length in enumerate(lengths_mm))


def section(stock: tuple[Stock, ...], *lengths_mm: float) -> StickProblem:
    return StickProblem(pieces=pieces(*lengths_mm), stock=stock, kerf_mm=KERF_MM, width_mm=30)


def problem_of(
    boards: dict[str, tuple[float, Stock]], lengths_mm: list[list[float]], strips_mm: list[float]
) -> CommonProblem:
    """Sections with strips of these widths, out of boards of a width each; one without a width is a stick."""
    stock = tuple(one for _, one in boards.values())
    rips = {
        key: ways_to_rip(width_mm=width, edge_mm=EDGE_MM, strips_mm=strips_mm, kerf_mm=KERF_MM)
        if width
        else alone([1] * len(strips_mm))
        for key, (width, _) in boards.items()
    }
    return CommonProblem(
        sections=tuple(section(stock, *lengths) for lengths in lengths_mm),
        stock=tuple(CommonStock(id=key, rips=ways) for key, ways in rips.items() if ways),
    )


def solved(problem: CommonProblem) -> CommonPlan:
    return plan_common_boards(problem, watch=start_watch(20, clock=monotonic))


WALNUT = {"b": (180.0, Stock(name="walnut", length_mm=2400, price=Decimal(60), id="b"))}


def test_a_wall_and_its_ledge_come_out_of_one_board() -> None:
    """Strips of 66 and 36 mm and the cut between them take 105 mm of the 170 mm between the edges."""
    plan = solved(problem_of(WALNUT, [[1100, 1100], [1000, 1000]], [66, 36]))
    assert [(one.rip, one.count) for one in plan.ripped] == [((1, 1), 1)]
    assert (plan.count, plan.money, plan.proof_status) == (1, Decimal(60), ProofStatus.PROVED)


def test_a_search_tells_its_bound_and_every_better_plan() -> None:
    told: list[SoFar] = []
    problem = problem_of(WALNUT, [[1100.0] * 6, [1000.0] * 5, [430.0] * 7], [66, 36, 21])
    plan = plan_common_boards(problem, watch=start_watch(20, clock=monotonic, tell=told.append))
    assert (told[0].money, told[0].sticks) == (None, None)
    assert {(one.least_money, one.least_sticks) for one in told} == {(60 * told[0].least_sticks, told[0].least_sticks)}
    found = [(one.money, one.sticks) for one in told if one.sticks is not None]
    assert found == sorted(set(found), reverse=True) and found[-1] == (plan.money, plan.count)
    assert 0 < told[0].least_sticks <= plan.least_count == plan.count and plan.least_money == plan.money


def test_two_prices_are_told_in_money_and_boards() -> None:
    told: list[SoFar] = []
    problem = problem_of(yard((2100.0, "3", None), (1005.0, "1.40", None)), [[1000] * 3], [30])
    plan = plan_common_boards(problem, watch=start_watch(20, clock=monotonic, tell=told.append))
    assert (plan.money, plan.count) == (plan.least_money, plan.least_count) == (Decimal("4.20"), 3)
    assert (told[-1].money, told[-1].sticks) == (Decimal("4.20"), 3)
    assert Decimal("4.19") < told[-1].least_money <= Decimal("4.20")


def test_strips_and_cuts_fill_so_much_of_a_board() -> None:
    """Strips of 66 and 36 mm with a cut of 3 mm beside each, out of 173 mm and 2400 mm with one cut more."""
    problem = problem_of(WALNUT, [[1100, 1100], [1000, 1000]], [66, 36])
    filled_mm2 = 2 * (1100 + CUT_MM) * 69 + 2 * (1000 + CUT_MM) * 39
    for count in (1, 2, 5):
        ratio = least_fill_ratio(problem, strips_mm=[69, 39], room_mm=173, count=count)
        assert ratio == pytest.approx(filled_mm2 / (count * 173 * (2400 + CUT_MM)), rel=1e-5)


@pytest.mark.parametrize("seed", range(12))
def test_no_plan_fills_more_than_its_boards(seed: int) -> None:
    dice = Random(seed)
    strips_mm = [dice.choice([38.0, 66.0]), dice.choice([15.0, 24.0])]
    lengths_mm = [[float(dice.randint(200, 900)) for _ in range(dice.randint(2, 9))] for _ in strips_mm]
    problem = problem_of(WALNUT, lengths_mm, strips_mm)
    taken_mm = [strip + KERF_MM for strip in strips_mm]
    ratio = least_fill_ratio(problem, strips_mm=taken_mm, room_mm=173, count=solved(problem).count)
    assert 0 < ratio <= 1


def test_strips_that_are_too_wide_together_take_two_boards() -> None:
    """Two walls and a ledge would take 66 + 3 + 66 + 3 + 36 = 174 mm."""
    plan = solved(problem_of(WALNUT, [[1100, 1100, 1100, 1100], [1000, 1000]], [66, 36]))
    assert (plan.count, plan.money, plan.proof_status) == (2, Decimal(120), ProofStatus.PROVED)


def test_no_more_strips_are_ripped_than_are_needed() -> None:
    plan = solved(problem_of(WALNUT, [[600], [500]], [50, 20]))
    assert [(one.rip, one.count) for one in plan.ripped] == [((1, 1), 1)]


def cheapest(
    boards: dict[str, tuple[float, Stock]], lengths_mm: list[list[float]], strips_mm: list[float]
) -> tuple[Decimal, int] | None:
    """The least money, then the fewest boards, by trying every place for every piece."""
    wanted = sorted(((length, place) for place, each in enumerate(lengths_mm) for length in each), reverse=True)
    best: list[tuple[Decimal, int]] = []

    def place(index: int, opened: list[tuple[str, float, list[tuple[int, float]]]]) -> None:
        cost = sum((boards[key][1].price for key, _, _ in opened), Decimal(0)), len(opened)
        if best and cost >= best[0]:
            return
        if index == len(wanted):
            best[:] = [cost]
            return
        length, section_of = wanted[index]
        for number, (key, room, strips) in enumerate(opened):
            for at, (owner, left) in enumerate(strips):
                if owner == section_of and length + CUT_MM <= left + 1e-6:
                    changed = [*strips[:at], (owner, left - length - CUT_MM), *strips[at + 1 :]]
                    place(index + 1, [*opened[:number], (key, room, changed), *opened[number + 1 :]])
            opens(index, opened, number, key, room, strips)
        for key, (width, stock) in boards.items():
            if stock.count is None or sum(one[0] == key for one in opened) < stock.count:
                room = width - 2 * EDGE_MM + KERF_MM if width else 0.0
                opens(index, [*opened, (key, room, [])], len(opened), key, room, [])

    def opens(
        index: int,
        opened: list[tuple[str, float, list[tuple[int, float]]]],
        number: int,
        key: str,
        room: float,
        strips: list[tuple[int, float]],
    ) -> None:
        """Rip one more strip of a board for the next piece; a stick is one strip."""
        length, section_of = wanted[index]
        width, stock = boards[key]
        takes = strips_mm[section_of] + KERF_MM if width else 0.0
        clear = stock.length_mm - 2 * stock.trim_mm + CUT_MM
        if (not width and strips) or takes > room + 1e-6 or length + CUT_MM > clear + 1e-6:
            return
        changed = [*strips, (section_of, clear - length - CUT_MM)]
        place(index + 1, [*opened[:number], (key, room - takes, changed), *opened[number + 1 :]])

    place(0, [])
    return best[0] if best else None


@pytest.mark.parametrize("seed", range(60))
def test_no_plan_is_beaten_by_an_exhaustive_search(seed: int) -> None:
    dice = Random(seed)
    boards: dict[str, tuple[float, Stock]] = {}
    for number in range(dice.choice([1, 2, 2, 3])):
        is_stick = number == 2
        stock = Stock(
            name=f"board {number}",
            length_mm=dice.choice([900.0, 1200.0, 1500.0]),
            count=dice.choice([None, 1, 2]) if number else None,
            price=Decimal(dice.choice([10, 14, 15, 21])),
            trim_mm=10,
            id=f"b{number}",
        )
        boards[f"b{number}"] = (0.0 if is_stick else dice.choice([90.0, 120.0, 150.0]), stock)
    strips_mm = [dice.choice([38.0, 45.0, 66.0]), dice.choice([15.0, 24.0, 36.0])]
    lengths_mm = [
        [dice.choice([250.0, 310.0, 420.0, 560.0, 800.0]) for _ in range(dice.randint(1, 4))] for _ in strips_mm
    ]
    expected = cheapest(boards, lengths_mm, strips_mm)
    assert expected is not None
    plan = solved(problem_of(boards, lengths_mm, strips_mm))
    assert (plan.money, plan.count) == expected
    assert plan.proof_status is not ProofStatus.OPEN


@pytest.mark.parametrize("seed", range(20))
def test_every_section_can_be_cut_from_what_it_gets(seed: int) -> None:
    dice = Random(1000 + seed)
    boards = {
        "b": (
            dice.choice([150.0, 180.0, 220.0]),
            Stock(name="wide", length_mm=2400, price=Decimal(50), id="b", trim_mm=20),
        ),
        "c": (100.0, Stock(name="slim", length_mm=1800, price=Decimal(24), id="c", trim_mm=20)),
    }
    strips_mm = [66.0, 36.0, 21.0]
    lengths_mm = [[float(dice.randint(200, 900)) for _ in range(dice.randint(4, 10))] for _ in strips_mm]
    problem = problem_of(boards, lengths_mm, strips_mm)
    plan = solved(problem)
    for place, asked in enumerate(problem.sections):
        gets = tuple(
            replace(
                boards[one.id][1], id=f"{one.id}.{entry}", strips=one.rip[place], count=one.count, first=1 + 100 * entry
            )
            for entry, one in enumerate(plan.ripped)
            if one.rip[place]
        )
        plan_sticks(replace(asked, stock=gets), watch=start_watch(20, clock=monotonic))
    for one in plan.ripped:
        assert taken_mm(one.rip, strips_mm=strips_mm, kerf_mm=KERF_MM) - KERF_MM <= boards[one.id][0] - 2 * EDGE_MM


def test_what_no_board_holds_is_refused() -> None:
    with pytest.raises(ImpossibleTimber):
        solved(problem_of(WALNUT, [[2500], [500]], [66, 36]))


SHARED = SharedWidth(width_mm=180, edge_mm=5, kerf_mm=KERF_MM, count=1, strips_mm=(66, 36))


def plan_from(stock: Stock, *lengths_mm: float) -> StickPlan:
    return plan_sticks(section((stock,), *lengths_mm), watch=start_watch(20, clock=monotonic))


def test_the_check_finds_strips_too_wide_boards_paid_twice_and_boards_that_are_not_there() -> None:
    wide = Stock(name="walnut", length_mm=1200, price=Decimal(60), id="b.1", count=1, strips=2)
    rest = replace(wide, strips=1, price=Decimal(0), in_hand=True)
    walls, ledge = plan_from(wide, 1000, 1000), plan_from(rest, 1000)
    assert faults_of_sharing([walls, ledge], boards={"b": replace(SHARED, width_mm=185)}) == ()
    (narrow,) = faults_of_sharing([walls, ledge], boards={"b": SHARED})
    assert "take 174.00 mm" in narrow
    twice = plan_from(replace(wide, strips=1), 1000)
    assert faults_of_sharing([walls, twice], boards={"b": replace(SHARED, width_mm=185)}) == (
        "walnut #1 is paid for twice",
    )
    gone = plan_from(replace(wide, first=2), 1000, 1000)
    assert faults_of_sharing([gone], boards={"b": SHARED}) == ("walnut #2 is not there",)


def test_strips_that_fill_a_board_to_the_last_cut_are_ripped() -> None:
    rips = ways_to_rip(width_mm=3 * 30.1 + 2 * 3.2 + 2 * 5, edge_mm=5, strips_mm=(30.1,), kerf_mm=3.2)
    assert rips == ((1,), (2,), (3,))


@pytest.mark.parametrize(("width_mm", "strips_mm"), [(180.0, (66.0, 36.0)), (40.0, (2.0, 9.0)), (97.0, (25.5, None))])
def test_every_way_to_rip_that_fits_is_listed_and_no_other(
    width_mm: float, strips_mm: tuple[float | None, ...]
) -> None:
    """Strips and the cuts between them lie within the edges; also strips narrower than the saw."""
    room_mm = width_mm - 2 * EDGE_MM + KERF_MM
    every = product(*(range(30) if strip else (0,) for strip in strips_mm))
    fitting = {
        rip
        for rip in every
        if any(rip) and sum(n * (strip + KERF_MM) for n, strip in zip(rip, strips_mm, strict=True) if strip) <= room_mm
    }
    listed = ways_to_rip(width_mm=width_mm, edge_mm=EDGE_MM, strips_mm=strips_mm, kerf_mm=KERF_MM)
    assert len(listed) == len(fitting) and set(listed) == fitting


@pytest.mark.parametrize(("more", "is_listed"), [(0, True), (1, False)])
def test_the_most_ways_to_rip_are_listed_and_one_more_is_not(more: int, is_listed: bool) -> None:
    """A board of so many millimetres makes 1, 2, 3 … strips a millimetre wide."""
    rips = ways_to_rip(width_mm=MOST_RIPS + more, edge_mm=0, strips_mm=(1,), kerf_mm=0)
    assert len(rips) == (MOST_RIPS if is_listed else 0)


def yard(*boards: tuple[float, str, int | None]) -> dict[str, tuple[float, Stock]]:
    """Boards that make one strip: the length, the price and how many there are."""
    return {
        f"b{at}": (40.0, Stock(name=f"b{at}", length_mm=length, price=Decimal(price), count=there, id=f"b{at}"))
        for at, (length, price, there) in enumerate(boards)
    }


@pytest.mark.parametrize("prices", [("0.30", "0.10"), ("3", "1"), ("25", "12.45")])
@pytest.mark.parametrize("dear_first", [True, False])
def test_two_cheap_boards_are_taken_before_one_that_costs_more(prices: tuple[str, str], dear_first: bool) -> None:
    dear, cheap = (2100.0, prices[0], None), (1005.0, prices[1], None)
    boards = yard(*((dear, cheap) if dear_first else (cheap, dear)))
    plan = solved(problem_of(boards, [[1000, 1000]], [30]))
    assert (plan.count, plan.money) == (2, 2 * Decimal(prices[1]))


@pytest.mark.parametrize("dear_first", [True, False])
def test_of_two_boards_that_hold_one_piece_the_cheaper_is_taken(dear_first: bool) -> None:
    boards = yard(*[(1000.0, "2", None), (1000.0, "1", None)][:: 1 if dear_first else -1])
    assert solved(problem_of(boards, [[1000]], [30])).money == 1


def test_no_more_boards_are_taken_than_there_are() -> None:
    plan = solved(problem_of(yard((1005.0, "1", 2), (1005.0, "5", None)), [[1000, 1000, 1000]], [30]))
    assert sorted((one.id, one.count) for one in plan.ripped) == [("b0", 2), ("b1", 1)]


def test_whenever_the_time_is_up_all_is_cut_or_refused_and_nothing_more_is_promised() -> None:
    """The clock stops the search after each of its looks at the time in turn; two boards hold all but the lengths."""
    problem = problem_of(WALNUT, [[701, 650, 510, 333] * 3, [1000, 430, 390] * 3], [66, 36])
    seen = set[ProofStatus]()
    for looks in range(1, 60):
        try:
            plan = plan_common_boards(problem, watch=start_watch(looks + 0.5, clock=ticks(step_s=1.0)))
        except ImpossibleTimber:
            continue
        is_open = plan.proof_status is ProofStatus.OPEN
        assert plan.count >= 3 and plan.money == 60 * plan.count
        assert (plan.least_money, plan.least_count) == ((120, 2) if is_open else (180, 3))
        seen.add(plan.proof_status)
        if not is_open:
            break
    assert seen == {ProofStatus.OPEN, ProofStatus.RULED_OUT}


@pytest.mark.parametrize("seed", range(12))
def test_no_prices_prove_more_than_the_least_cost_and_those_of_the_solver_prove_nearly_all(seed: int) -> None:
    dice = Random(seed)
    boards = yard(*((dice.choice([900.0, 1300.0]), str(dice.choice([3, 4, 7])), None) for _ in range(2)))
    lengths_mm = [[dice.choice([250.0, 310.0, 420.0, 560.0, 800.0]) for _ in range(4)] for _ in range(2)]
    model = _model(problem_of(boards, lengths_mm, [30, 12]))
    plan = solved(model.problem)
    least = sum(
        cost * one.count
        for one in plan.ripped
        for taken, cost in zip(model.taken, model.costs, strict=True)
        if (model.problem.stock[taken.stock].id, taken.rip) == (one.id, one.rip)
    )
    parts = sum(len(numbers.counts) for numbers in model.numbers)
    for scale in (1e-3, 1.0, 1e3):
        prices = tuple(scale * dice.random() for _ in range(parts))
        assert 0 < _bound(model, Solution(outcome=Outcome.BEST, prices=prices)) <= least
    relaxed = solve(model.programme(model.costs), whole=False, watch=start_watch(20, clock=monotonic))
    least_in_fractions = sum(cost * value for cost, value in zip(model.costs, relaxed.values, strict=False))
    assert _bound(model, relaxed) == pytest.approx(least_in_fractions, rel=1e-4)
    assert _bound(model, Solution(outcome=Outcome.BEST, prices=(0.0,) * parts)) == 0
    assert _bound(model, Solution(outcome=Outcome.NOTHING)) == 0
