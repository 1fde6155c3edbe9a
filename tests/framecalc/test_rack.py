"""The rack: what is offered, what a job takes and brings back, and that it can be undone."""

import sys
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent / "sticks"))

from cutting_jobs import cut, loose

from framecalc.errors import ImpossibleTimber, OutOfRange
from framecalc.rack import RackStick, StickSection, change_of, make_change, offers, take_back
from framecalc.sticks.problem import StickProblem, Stock, Stretch

ASH = StickSection(species="white_ash", width_mm=30, thickness_mm=20)


def _stick(tag: str, length_mm: float, *, off_cut: bool = False) -> RackStick:
    return RackStick(
        tag=tag, species="white_ash", length_mm=length_mm, width_mm=30, thickness_mm=20, is_off_cut=off_cut
    )


RACK = (_stick("A", 2400), _stick("B", 700, off_cut=True), _stick("C", 1000, off_cut=True))
SALE = Stock(name="yard", length_mm=2400, price=Decimal(20))
PROBLEM = StickProblem(
    pieces=loose([650, 900, 900, 900]), stock=(*offers(RACK, section=ASH), SALE), kerf_mm=3, width_mm=30
)


def test_off_cuts_are_offered_first_and_the_shortest_of_them() -> None:
    assert [stock.name for stock in offers(RACK, section=ASH)] == ["B", "C", "A"]
    assert all(stock.in_hand and stock.count == 1 and stock.price == 0 for stock in offers(RACK, section=ASH))


@pytest.mark.parametrize(
    "section",
    [
        replace(ASH, species="white_oak"),
        replace(ASH, width_mm=30.1),
        replace(ASH, thickness_mm=19.9),
        replace(ASH, profile="cove"),
    ],
)
def test_another_section_is_not_offered(section: StickSection) -> None:
    assert offers(RACK, section=section) == ()


def test_defects_and_trims_are_offered_with_the_stick() -> None:
    knot = Stretch(start_mm=100, end_mm=130)
    (stock,) = offers((replace(RACK[0], defects=(knot,), trim_mm=20),), section=ASH)
    assert (stock.defects, stock.trim_mm) == ((knot,), 20)


def test_what_goes_is_what_is_cut_and_what_comes_back_is_long_enough() -> None:
    plan = cut(PROBLEM)
    change = change_of(plan, rack=RACK, section=ASH, shortest_useful_mm=300)
    assert sorted(stick.tag for stick in change.taken) == ["A", "B", "C"]
    assert [round(stick.length_mm, 1) for stick in change.returned] == [591.5]
    (back,) = change.returned
    assert (back.species, back.width_mm, back.thickness_mm, back.is_off_cut) == ("white_ash", 30, 20, True)
    assert back.origin == "off-cut of A #1"


def test_wood_is_neither_lost_nor_made() -> None:
    plan = cut(PROBLEM)
    change = change_of(plan, rack=RACK, section=ASH, shortest_useful_mm=0.001)
    before_mm = sum(stick.length_mm for stick in change.taken)
    after_mm = sum(stick.length_mm for stick in change.returned) + sum(piece.length_mm for piece in PROBLEM.pieces)
    cuts_mm = before_mm - after_mm
    assert 0 <= cuts_mm <= len(PROBLEM.pieces) * PROBLEM.cut_mm + 1e-6


def test_a_change_can_be_taken_back() -> None:
    change = change_of(cut(PROBLEM), rack=RACK, section=ASH, shortest_useful_mm=300)
    after = make_change(RACK, change)
    assert {stick.tag for stick in after} == {stick.tag for stick in change.returned}
    assert take_back(after, change) == RACK


def test_a_change_cannot_be_made_twice() -> None:
    change = change_of(cut(PROBLEM), rack=RACK, section=ASH, shortest_useful_mm=300)
    with pytest.raises(ImpossibleTimber, match="no longer on the rack"):
        make_change(make_change(RACK, change), change)
    only_returns = replace(change, taken=())
    with pytest.raises(ImpossibleTimber, match="on the rack already"):
        make_change(make_change(RACK, only_returns), only_returns)


def test_a_change_cannot_be_taken_back_when_its_off_cut_is_used() -> None:
    change = change_of(cut(PROBLEM), rack=RACK, section=ASH, shortest_useful_mm=300)
    after = tuple(stick for stick in make_change(RACK, change) if stick not in change.returned)
    with pytest.raises(ImpossibleTimber, match="no longer on the rack"):
        take_back(after, change)


def test_off_cuts_of_bought_sticks_come_to_the_rack() -> None:
    problem = replace(PROBLEM, pieces=loose([2000]), stock=(SALE,))
    change = change_of(cut(problem), rack=(), section=ASH, shortest_useful_mm=300)
    assert change.taken == ()
    assert [round(stick.length_mm, 1) for stick in change.returned] == [395.8]


def test_a_plan_with_a_stick_that_is_gone_is_refused() -> None:
    with pytest.raises(ImpossibleTimber, match="plan the job again"):
        change_of(cut(PROBLEM), rack=RACK[1:], section=ASH, shortest_useful_mm=300)


def test_a_useful_length_of_nothing_is_refused() -> None:
    with pytest.raises(OutOfRange):
        change_of(cut(PROBLEM), rack=RACK, section=ASH, shortest_useful_mm=0)
