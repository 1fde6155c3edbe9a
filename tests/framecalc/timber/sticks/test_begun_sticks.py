"""Begun sticks: what was cut stays, what is left of them is wood for the rest, and the rest is solved like any job."""

from decimal import Decimal
from random import Random

import pytest
from cutting_jobs import cut, frame_of, loose, random_job

from framecalc.errors import ImpossibleTimber
from framecalc.records import replace
from framecalc.timber.sticks.answer import CutStick, PlacedPiece, ProofStatus, StickPlan
from framecalc.timber.sticks.begun import (
    BegunStick,
    CutPiece,
    LeftToCut,
    begun_first,
    left_to_cut,
    whole_plan,
    whole_sticks,
)
from framecalc.timber.sticks.check import faults_of
from framecalc.timber.sticks.problem import Piece, StickProblem, Stock, clear_stretches, hash_of, name_of

ASH = Stock(name="ash", length_mm=2400, price=Decimal(20), trim_mm=10, id="s1")


def begun_of(stick: CutStick, *, pieces: int = 99) -> BegunStick:
    """A stick of a plan of which the first pieces are cut."""
    placed = [CutPiece(strip=strip.number, placed=one) for strip in stick.strips for one in strip.pieces]
    return BegunStick(
        stock=replace(stick.stock, first=1), number=stick.number, cut=tuple(placed[:pieces]),
        strips=tuple(strip.number for strip in stick.strips if strip.pieces),
    )  # fmt: skip


def left_after(problem: StickProblem, begun: list[BegunStick]) -> LeftToCut:
    taken: dict[str, list[int]] = {}
    for one in begun:
        taken.setdefault(one.stock.id, []).append(one.number)
    done = {name_of(each.placed.piece) for one in begun for each in one.cut}
    (left,) = begun_first([left_to_cut(problem, begun=begun, taken=taken, done=done)])
    return left


def planned(left: LeftToCut) -> StickPlan:
    return whole_plan(None if left.is_done else cut(left.problem), left=left)


def told(problem: StickProblem) -> StickProblem:
    """The problem with stock that has ids, as every project has it."""
    return replace(problem, stock=tuple(replace(one, id=f"s{at}") for at, one in enumerate(problem.stock)))


@pytest.mark.parametrize("seed", range(40))
def test_as_many_sticks_as_are_cut_as_planned_cost_and_hold_what_the_plan_does(seed: int) -> None:
    problem = told(random_job(seed))
    plan = _plan_or_none(problem)
    if plan is None:
        return
    draw = Random(seed)
    begun = [begun_of(stick, pieces=draw.randint(1, 4)) for stick in plan.sticks if draw.random() < 0.6]
    whole = planned(left_after(problem, begun))
    taken = replace(problem, stock=tuple(dict.fromkeys(stick.stock for stick in whole.sticks)))
    bare = replace(whole, problem_hash=hash_of(taken), proof=replace(whole.proof, shares=()))
    assert faults_of(bare, problem=taken) == ()
    assert whole.proof_status is not ProofStatus.OPEN
    assert (whole.money, whole.stick_count) == (plan.money, plan.stick_count), "the plan itself is still there"
    assert whole.least_money == whole.money and whole.least_sticks == whole.stick_count


def _plan_or_none(problem: StickProblem) -> StickPlan | None:
    try:
        return cut(problem)
    except ImpossibleTimber:
        return None


@pytest.mark.parametrize("seed", range(12))
def test_with_sticks_cut_up_the_rest_is_what_the_solver_says_of_the_rest_alone(seed: int) -> None:
    problem = told(random_job(seed, limited=False))
    plan = cut(problem)
    begun = [replace(begun_of(stick), is_put_away=True) for stick in plan.sticks[: 1 + seed % 2]]
    left = left_after(problem, begun)
    done = {name_of(each.placed.piece) for one in begun for each in one.cut}
    alone = replace(problem, pieces=tuple(piece for piece in problem.pieces if name_of(piece) not in done))
    whole = planned(left)
    spent = sum((one.stock.price for one in begun), Decimal(0))
    if not alone.pieces:
        assert whole.money == spent and whole.stick_count == len(begun)
        return
    rest = cut(alone)
    assert whole.money == spent + rest.money and whole.stick_count == len(begun) + rest.stick_count


@pytest.mark.parametrize("seed", range(60))
def test_a_small_rest_is_cut_as_exhaustive_trial_would(seed: int) -> None:
    """Least money, then fewest new sticks, over whole sticks and what is left of the begun ones."""
    draw = Random(seed)
    lengths = [float(draw.randint(200, 900)) for _ in range(draw.randint(2, 5))]
    price = Decimal(draw.choice([0, 0, 12]))
    problem = StickProblem(
        pieces=loose(lengths), stock=(replace(ASH, price=price, length_mm=1800), replace(ASH, id="s2", name="long",
        length_mm=2500, price=price * 2)), kerf_mm=0, width_mm=30)  # fmt: skip
    begun = [
        BegunStick(stock=problem.stock[0], number=number, cut=(CutPiece(strip=1, placed=_placed(number, draw)),))
        for number in range(1, 1 + draw.randint(1, 2))
    ]
    whole = planned(left_after(problem, begun))
    rooms = [stretch.length_mm for one in begun for stretch in clear_stretches(one.left(1, cut_mm=0.0))]
    least = _by_trial(lengths, rooms, [(1780.0, price), (2480.0, price * 2)])
    new = [stick for stick in whole.sticks if not stick.is_begun]
    assert (sum((stick.stock.price for stick in new), Decimal(0)), len(new)) == least


def _placed(number: int, draw: Random) -> PlacedPiece:
    piece = Piece(frame="cut", copy=number, side="piece", length_mm=float(draw.randint(200, 1200)))
    return PlacedPiece(piece=piece, start_mm=10.0 + draw.choice([0, 0, 300]))


def _by_trial(lengths: list[float], rooms: list[float], kinds: list[tuple[float, Decimal]]) -> tuple[Decimal, int]:
    """The least money and new sticks, by putting every piece everywhere."""
    best: list[tuple[Decimal, int]] = []

    def place(rest: list[float], open_mm: list[float], spent: tuple[Decimal, int]) -> None:
        if best and spent >= best[0]:
            return
        if not rest:
            best[:] = [spent]
            return
        for at, room in enumerate(open_mm):
            if room >= rest[0] - 1e-6:
                place(rest[1:], [*open_mm[:at], room - rest[0], *open_mm[at + 1 :]], spent)
        for room, price in kinds:
            if room >= rest[0] - 1e-6:
                place(rest[1:], [*open_mm, room - rest[0]], (spent[0] + price, spent[1] + 1))

    place(sorted(lengths, reverse=True), rooms, (Decimal(0), 0))
    return best[0]


def old(copy: int) -> Piece:
    return Piece(frame="old", copy=copy, side="top", length_mm=900)


def test_two_begun_sticks_are_taken_before_one_new_one_that_costs_nothing() -> None:
    sides = frame_of("hall", across_mm=600, up_mm=800)
    free = replace(ASH, price=Decimal(0), count=9, in_hand=True)
    problem = StickProblem(pieces=sides, stock=(free,), kerf_mm=3, width_mm=30)
    one, two = (
        BegunStick(
            stock=free,
            number=number,
            cut=(CutPiece(strip=1, placed=PlacedPiece(piece=old(number), start_mm=10)),),
        )
        for number in (1, 3)
    )
    whole = planned(left_after(problem, [one, two]))
    assert [stick.label for stick in whole.sticks] == ["ash #1", "ash #3"]


def test_a_stick_that_is_begun_keeps_its_number_and_no_other_takes_it() -> None:
    assert [(run.first, run.count) for run in whole_sticks(replace(ASH, count=4), numbers=(2,))] == [(1, 1), (3, 2)]
    assert [(run.first, run.count) for run in whole_sticks(ASH, numbers=(1, 2))] == [(3, None)]
    assert whole_sticks(replace(ASH, count=2), numbers=(1, 2)) == ()
    assert whole_sticks(ASH, numbers=()) == (ASH,)


def cut_of(stock: Stock, *, strip: int = 1, number: int = 1, strips: tuple[int, ...] = (1,)) -> BegunStick:
    """A stick or a board with one piece of 900 mm cut from the beginning of a strip."""
    placed = PlacedPiece(piece=old(number), start_mm=stock.trim_mm)
    return BegunStick(stock=stock, number=number, cut=(CutPiece(strip=strip, placed=placed),), strips=strips)


def test_what_a_stick_has_left_keeps_its_number_and_what_a_board_has_left_that_of_its_strip() -> None:
    stick, board = cut_of(ASH, number=3), cut_of(replace(ASH, strips=2), number=3, strip=2, strips=(1, 2))
    found = [stick.left(1, cut_mm=4), board.left(1, cut_mm=4), board.left(2, cut_mm=4)]
    assert [(one.id, one.name, one.first, one.count, one.strips) for one in found] == [
        ("s1-3-1", "ash", 3, 1, 1),
        ("s1-3-1", "ash #3, strip", 1, 1, 1),
        ("s1-3-2", "ash #3, strip", 2, 1, 1),
    ]
    clear = [[(part.start_mm, part.end_mm) for part in clear_stretches(one, cut_mm=4)] for one in found]
    assert clear == [[(914, 2390)], [(10, 2390)], [(914, 2390)]]


@pytest.mark.parametrize(("ripped", "is_away", "is_part"), [(2, False, True), (3, False, False), (2, True, False)])
def test_a_board_is_part_ripped_while_strips_of_it_are_to_be_had(ripped: int, is_away: bool, is_part: bool) -> None:
    begun = cut_of(replace(ASH, strips=3), strips=tuple(range(1, ripped + 1)))
    assert replace(begun, is_put_away=is_away).is_part_ripped is is_part


@pytest.mark.parametrize("price", ["20", "12.35", "0.07"])
def test_the_whole_plan_costs_what_its_sticks_do_to_the_coin_and_tells_the_longest_off_cut(price: str) -> None:
    stock = (replace(ASH, price=Decimal(price), strips=2), replace(ASH, id="s2", price=Decimal(price) * 3))
    problem = StickProblem(pieces=loose([1400, 1400, 1400, 1400]), stock=stock, kerf_mm=3, width_mm=30)
    left = left_after(problem, [cut_of(stock[0], strips=(1, 2))])
    whole = planned(left)
    assert whole.money == whole.least_money == Decimal(price) * 2
    assert [(stick.number, stick.stock.first, stick.stock.count) for stick in whole.sticks if stick.is_begun] == [
        (1, 1, 1)
    ]
    over_mm = [stretch.left_over_mm for _, _, stretch in whole.stretches()]
    assert whole.longest_left_mm == max(over_mm) > min(over_mm)
    assert whole.longest_possible_mm >= whole.longest_left_mm
    assert left.money_of(Decimal(left.weight * 5 + 2)) == (5 * Decimal(str(float(left.coin))), 2)


def test_where_no_stick_is_begun_prices_are_as_typed_and_of_nothing_nothing_is_left() -> None:
    empty = LeftToCut(problem=StickProblem(pieces=(), stock=(ASH,), kerf_mm=3, width_mm=30), begun=())
    assert empty.money_of(Decimal("12.35")) == (Decimal("12.35"), 0)
    whole = planned(empty)
    assert (whole.stick_count, whole.money, whole.least_money, whole.least_sticks) == (0, 0, 0, 0)
    assert (whole.longest_left_mm, whole.longest_possible_mm) == (0, 0)


def test_what_is_allotted_of_a_begun_stick_is_cut_from_it() -> None:
    problem = StickProblem(pieces=loose([1000]), stock=(ASH,), kerf_mm=3, width_mm=30)
    left = left_after(problem, [cut_of(ASH)])
    allotted = tuple(replace(one, id=f"{one.id}.7") for one in left.problem.stock)
    (stick,) = whole_plan(cut(replace(left.problem, stock=allotted)), left=left).sticks
    assert stick.is_begun and [placed.piece.length_mm for placed in stick.strips[0].pieces] == [900, 1000]


@pytest.mark.parametrize("in_hand", [True, False])
@pytest.mark.parametrize("is_cut", [True, False])
def test_only_what_is_neither_in_hand_nor_begun_is_to_buy(in_hand: bool, is_cut: bool) -> None:
    (stick,) = cut(StickProblem(pieces=loose([1000]), stock=(ASH,), kerf_mm=3, width_mm=30)).sticks
    stretch = stick.strips[0].stretches[0]
    placed = (replace(stretch.pieces[0], is_cut=is_cut),)
    strips = (replace(stick.strips[0], stretches=(replace(stretch, pieces=placed),)),)
    found = replace(stick, stock=replace(ASH, in_hand=in_hand), strips=strips)
    assert (found.is_begun, found.is_to_buy) == (is_cut, not in_hand and not is_cut)
