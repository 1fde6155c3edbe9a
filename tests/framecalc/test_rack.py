"""The rack: what is offered, what a job takes and brings back, and that it can be undone."""

import sys
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent / "sticks"))

from cutting_jobs import cut, loose

from framecalc.boards import RoughSize
from framecalc.errors import ImpossibleTimber, OutOfRange
from framecalc.rack import RackChange, RackStick, StickSection, change_of, fitting, make_change, take_back
from framecalc.sticks.answer import StickPlan
from framecalc.sticks.problem import StickProblem, Stock

ASH = StickSection(species="white_ash", width_mm=30, thickness_mm=20)


def _stick(tag: str, length_mm: float, *, off_cut: bool = False) -> RackStick:
    return RackStick(
        tag=tag, species="white_ash", length_mm=length_mm, width_mm=30, thickness_mm=20, is_off_cut=off_cut
    )


RACK = (_stick("A", 2400), _stick("B", 700, off_cut=True), _stick("C", 1000, off_cut=True))
SALE = Stock(name="yard", length_mm=2400, price=Decimal(20))
ROUGH = RoughSize(thickness_mm=23.3, width_mm=33, length_mm=700)
PROBLEM = StickProblem(
    pieces=loose([650, 900, 900, 900]),
    stock=(*(Stock(name=stick.tag, length_mm=stick.length_mm, count=1, in_hand=True) for stick in RACK), SALE),
    kerf_mm=3,
    width_mm=30,
)


def _change(
    plan: StickPlan, *, rack: tuple[RackStick, ...] = RACK, tags: str = "ABC", shortest_useful_mm: float = 300
) -> RackChange:
    return change_of(plan, rack=rack, tags=frozenset(tags), section=ASH, shortest_useful_mm=shortest_useful_mm)


def test_off_cuts_come_first_and_the_shortest_of_them() -> None:
    assert [stick.tag for stick in fitting(RACK, section=ASH, rough=ROUGH)] == ["B", "C", "A"]


def test_the_name_of_a_wood_is_read_without_its_capitals() -> None:
    assert len(fitting(RACK, section=replace(ASH, species="White_Ash"), rough=ROUGH)) == 3


@pytest.mark.parametrize(
    ("thickness_mm", "width_mm", "profile", "serves"),
    [
        (26, 150, "", True),
        (23.3, 33, "", True),
        (23.2, 150, "", False),
        (26, 32.9, "", False),
        (26, 150, "cove", False),
    ],
)
def test_a_board_serves_when_one_rough_strip_comes_of_it(
    thickness_mm: float, width_mm: float, profile: str, serves: bool
) -> None:
    board = replace(RACK[0], tag="D", width_mm=width_mm, thickness_mm=thickness_mm, is_board=True)
    found = fitting((board,), section=replace(ASH, profile=profile), rough=ROUGH)
    assert found == ((board,) if serves else ())


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
    assert fitting(RACK, section=section, rough=ROUGH) == ()


def test_what_goes_is_what_is_cut_and_what_comes_back_is_long_enough() -> None:
    plan = cut(PROBLEM)
    change = _change(plan)
    assert sorted(stick.tag for stick in change.taken) == ["A", "B", "C"]
    assert [round(stick.length_mm, 1) for stick in change.returned] == [591.5]
    (back,) = change.returned
    assert (back.species, back.width_mm, back.thickness_mm, back.is_off_cut) == ("white_ash", 30, 20, True)
    assert back.origin == "off-cut of A #1"


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
    with pytest.raises(ImpossibleTimber, match="no longer on the rack"):
        make_change(make_change(RACK, change), change)
    only_returns = replace(change, taken=())
    with pytest.raises(ImpossibleTimber, match="on the rack already"):
        make_change(make_change(RACK, only_returns), only_returns)


def test_a_change_cannot_be_taken_back_when_its_off_cut_is_used() -> None:
    change = _change(cut(PROBLEM))
    after = tuple(stick for stick in make_change(RACK, change) if stick not in change.returned)
    with pytest.raises(ImpossibleTimber, match="no longer on the rack"):
        take_back(after, change)


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
