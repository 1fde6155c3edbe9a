"""The rack: what is offered, what a job takes and brings back, and that it can be undone."""

from decimal import Decimal
from itertools import count
from random import Random

import pytest
from cutting_jobs import cut, loose

from framecalc.errors import ImpossibleTimber, OutOfRange
from framecalc.records import replace
from framecalc.timber.boards import Board, stock_of_board, timber_in
from framecalc.timber.rack import (
    RackChange,
    RackStick,
    Ripping,
    StickSection,
    StockSource,
    change_of,
    make_change,
    of_section,
    take_back,
)
from framecalc.timber.sticks.answer import CutStick, StickPlan
from framecalc.timber.sticks.problem import StickProblem, Stock

ASH = StickSection(species="white_ash", width_mm=30, thickness_mm=20)


def _stick(tag: str, length_mm: float, *, off_cut: bool = False) -> RackStick:
    return RackStick(
        tag=tag, species="white_ash", length_mm=length_mm, width_mm=30, thickness_mm=20, is_off_cut=off_cut
    )


RACK = (_stick("A", 2400), _stick("B", 700, off_cut=True), _stick("C", 1000, off_cut=True))
SALE = Stock(name="yard", length_mm=2400, price=Decimal(20))
PROBLEM = StickProblem(
    pieces=loose([650, 900, 900, 900]),
    stock=(*(Stock(name=stick.tag, length_mm=stick.length_mm, count=1, in_hand=True) for stick in RACK), SALE),
    kerf_mm=3,
    width_mm=30,
)


def _change(
    plan: StickPlan,
    *,
    rack: tuple[RackStick, ...] = RACK,
    tags: str = "ABC",
    shortest_useful_mm: float = 300,
    ripping: Ripping | None = None,
) -> RackChange:
    def source_of(stick: CutStick) -> StockSource:
        return StockSource(section=ASH, tag=stick.stock.name if stick.stock.name in tags else "", ripping=ripping)

    new = (f"ash {number}" for number in count(1))
    return change_of(plan, rack=rack, source_of=source_of, tags=new, shortest_useful_mm=shortest_useful_mm)


def test_off_cuts_come_first_and_the_shortest_of_them() -> None:
    assert [stick.tag for stick in of_section(RACK, section=ASH)] == ["B", "C", "A"]


def test_the_name_of_a_wood_is_read_without_its_capitals() -> None:
    assert len(of_section(RACK, section=replace(ASH, species="White_Ash"))) == 3


def test_boards_come_last_and_a_profile_is_not_ripped_from_one() -> None:
    board = replace(RACK[0], tag="D", width_mm=150, thickness_mm=26, is_board=True, is_off_cut=True)
    assert [stick.tag for stick in of_section((board, *RACK), section=ASH)] == ["B", "C", "A", "D"]
    assert of_section((board,), section=replace(ASH, profile="cove")) == ()


@pytest.mark.parametrize(
    "section",
    [
        replace(ASH, species="white_oak"),
        replace(ASH, width_mm=30.1),
        replace(ASH, thickness_mm=19.9),
        replace(ASH, profile="cove"),
    ],
)
def test_another_section_does_not_serve(section: StickSection) -> None:
    assert of_section(RACK, section=section) == ()


def test_what_goes_is_what_is_cut_and_what_comes_back_is_long_enough() -> None:
    plan = cut(PROBLEM)
    change = _change(plan)
    assert sorted(stick.tag for stick in change.taken) == ["A", "B", "C"]
    assert [round(stick.length_mm, 1) for stick in change.returned] == [591.5]
    (back,) = change.returned
    assert (back.species, back.width_mm, back.thickness_mm, back.is_off_cut) == ("white_ash", 30, 20, True)
    assert (back.tag, back.origin) == ("ash 1", "off-cut of A")
    assert _change(plan, shortest_useful_mm=back.length_mm).returned == (back,)
    assert not _change(plan, shortest_useful_mm=back.length_mm + 0.1).returned


def test_wood_is_neither_lost_nor_made() -> None:
    plan = cut(PROBLEM)
    change = _change(plan, shortest_useful_mm=0.001)
    before_mm = sum(stick.length_mm for stick in change.taken)
    after_mm = sum(stick.length_mm for stick in change.returned) + sum(piece.length_mm for piece in PROBLEM.pieces)
    cuts_mm = before_mm - after_mm
    assert 0 <= cuts_mm <= len(PROBLEM.pieces) * PROBLEM.cut_mm + 1e-6


def test_a_change_can_be_taken_back() -> None:
    change = _change(cut(PROBLEM))
    after = make_change(RACK, change)
    assert {stick.tag for stick in after} == {stick.tag for stick in change.returned}
    assert take_back(after, change) == RACK


def test_a_change_cannot_be_made_twice() -> None:
    change = _change(cut(PROBLEM))
    with pytest.raises(ImpossibleTimber, match="“A” has left the rack: plan the job again"):
        make_change(make_change(RACK, change), change)
    only_returns = replace(change, taken=())
    with pytest.raises(ImpossibleTimber, match="on the rack already"):
        make_change(make_change(RACK, only_returns), only_returns)


def test_a_change_cannot_be_taken_back_when_its_off_cut_is_used() -> None:
    change = _change(cut(PROBLEM))
    after = tuple(stick for stick in make_change(RACK, change) if stick not in change.returned)
    with pytest.raises(ImpossibleTimber, match="put it back as it was"):
        take_back(after, change)


def test_a_change_cannot_be_taken_back_when_its_off_cut_was_cut_shorter() -> None:
    change = _change(cut(PROBLEM))
    shorter = tuple(replace(stick, length_mm=stick.length_mm - 1) for stick in make_change(RACK, change))
    with pytest.raises(ImpossibleTimber, match="has changed or left the rack"):
        take_back(shorter, change)


def test_a_change_cannot_be_taken_back_over_a_stick_of_the_same_tag() -> None:
    change = _change(cut(PROBLEM))
    other = (*make_change(RACK, change), _stick("A", 500))
    with pytest.raises(ImpossibleTimber, match="another tag"):
        take_back(other, change)


def test_off_cuts_of_bought_sticks_come_to_the_rack() -> None:
    problem = replace(PROBLEM, pieces=loose([2000]), stock=(SALE,))
    change = _change(cut(problem), rack=())
    assert change.taken == ()
    assert [round(stick.length_mm, 1) for stick in change.returned] == [395.8]


def test_a_plan_with_a_stick_that_is_gone_is_refused() -> None:
    with pytest.raises(ImpossibleTimber, match="plan the job again"):
        _change(cut(PROBLEM), rack=RACK[1:])


def test_a_useful_length_of_nothing_is_refused() -> None:
    with pytest.raises(OutOfRange):
        _change(cut(PROBLEM), shortest_useful_mm=0)


def test_a_stick_in_hand_that_is_not_on_the_rack_does_not_leave_it() -> None:
    change = _change(cut(PROBLEM), rack=RACK[1:], tags="BC")
    assert sorted(stick.tag for stick in change.taken) == ["B", "C"]


BOARD = Board(
    name="A", species="white_ash", thickness_mm=26, width_mm=160, length_mm=1500, edge_mm=5, trim_mm=20, in_hand=True
)
STRIP_MM, KERF_MM = 33.0, 3.0


@pytest.mark.parametrize(("sides", "used"), [(1, 1), (3, 2), (5, 3), (8, 4)])
def test_strips_that_nothing_is_cut_from_stay_together(sides: int, used: int) -> None:
    """Of 700 mm each, two go into a strip of 1500 mm; 160 mm of width yield four strips."""
    stock = stock_of_board(BOARD, strip_mm=STRIP_MM, kerf_mm=KERF_MM)
    assert stock.strips == 4
    plan = cut(replace(PROBLEM, pieces=loose([700.0] * sides), stock=(stock,)))
    on_rack = replace(_stick("A", 1500), width_mm=160, thickness_mm=26, is_board=True)
    ripping = Ripping(board=BOARD, strip_mm=STRIP_MM, kerf_mm=KERF_MM)
    change = _change(plan, rack=(on_rack,), shortest_useful_mm=100, ripping=ripping)
    ripped = sum(bool(strip.pieces) for strip in plan.sticks[0].strips)
    boards = [stick for stick in change.returned if stick.is_board]
    assert ripped >= used and len(boards) == (ripped < 4)
    for board in boards:
        assert board.width_mm == pytest.approx(160 - 5 - ripped * (STRIP_MM + KERF_MM))
        assert (board.length_mm, board.thickness_mm, board.origin) == (1500, 26, "rest of A")
    assert _volume(change.returned) <= _volume(change.taken)


@pytest.mark.parametrize("whole", [True, False], ids=["milled long", "crosscut first"])
@pytest.mark.parametrize("seed", range(12))
def test_a_cut_never_leaves_more_wood_than_there_was(seed: int, whole: bool) -> None:
    """Pieces, off-cuts and the rest of a board together are no more than what was taken, whatever the job."""
    draw = Random(seed)
    lengths = [float(draw.randint(200, 800)) for _ in range(draw.randint(1, 6))]
    board = replace(BOARD, width_mm=float(draw.randint(45, 240)), length_mm=float(draw.randint(900, 2400)))
    stock = stock_of_board(replace(board, count=8), strip_mm=STRIP_MM, kerf_mm=KERF_MM)
    plan = cut(replace(PROBLEM, pieces=loose(lengths), stock=(stock,)))
    rack = (replace(_stick("A", board.length_mm), width_mm=board.width_mm, thickness_mm=26, is_board=True),)
    ripping = Ripping(board=board, strip_mm=STRIP_MM, kerf_mm=KERF_MM)
    change = _change(plan, rack=rack, shortest_useful_mm=0.001, ripping=ripping if whole else None)
    pieces = sum(timber_in(thickness_mm=20, width_mm=30, length_mm=length).m3 for length in lengths)
    assert _volume(change.returned) + pieces <= _volume(rack) * plan.stick_count


def _volume(sticks: tuple[RackStick, ...]) -> float:
    return sum(
        timber_in(thickness_mm=one.thickness_mm, width_mm=one.width_mm, length_mm=one.length_mm).m3 for one in sticks
    )
