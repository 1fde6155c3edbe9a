"""Lists by machine: shopping, jointing, ripping, off-cuts."""

from collections import Counter
from decimal import Decimal

import pytest
from cutting_jobs import cut, frame_of, loose

from framecalc.errors import OutOfRange
from framecalc.records import replace
from framecalc.timber.boards import Board
from framecalc.timber.lists import Fate, joint_list, off_cuts, rip_list, shopping_list, width_list
from framecalc.timber.planing import rough_pieces
from framecalc.timber.rack import Ripping
from framecalc.timber.sticks.problem import StickProblem, Stock, Stretch

BOARD = Stock(name="5/4 board", length_mm=2400, strips=3, price=Decimal("31.50"), trim_mm=50, id="b")
ROUGH = Board(name="5/4 board", species="ash", thickness_mm=31.75, width_mm=150, length_mm=2400, edge_mm=5)
WHOLE = (Stretch(start_mm=0, end_mm=2400),)
RACK = Stock(name="off-cut", length_mm=900, count=1, in_hand=True, id="r")
PROBLEM = StickProblem(
    pieces=frame_of("hall", across_mm=700, up_mm=800, copies=3), stock=(RACK, BOARD), kerf_mm=3, width_mm=40
)
PLAN = cut(PROBLEM)


def test_the_shopping_list_adds_up_to_the_price_of_the_plan_and_leaves_out_what_is_in_hand() -> None:
    lines = shopping_list(PLAN)
    assert [(line.name, line.count, line.each) for line in lines] == [("5/4 board", 2, Decimal("31.50"))]
    assert sum(line.total for line in lines) == PLAN.money


def test_only_the_strips_that_are_needed_are_ripped() -> None:
    lines = rip_list(PLAN, boards={"b": ROUGH}, parts={"b": WHOLE}, strips_mm={"b": 43}, kerf_mm=3)
    used = sum(1 for stick in PLAN.sticks if stick.stock is not RACK for strip in stick.strips if strip.pieces)
    assert sum(line.strips for line in lines) == used
    assert all(line.fence_mm == 43 and 1 <= line.strips <= 3 for line in lines)


def test_edge_strips_saw_cuts_and_rest_add_up_to_the_width_of_the_board() -> None:
    for line in rip_list(PLAN, boards={"b": ROUGH}, parts={"b": WHOLE}, strips_mm={"b": 43}, kerf_mm=3):
        assert line.edge_mm + line.strips * (43 + 3) + line.rest_mm == ROUGH.width_mm


def test_a_board_that_yields_one_strip_is_ripped_too() -> None:
    stock = (Stock(name="narrow", length_mm=2400, id="n"),)
    plan = cut(StickProblem(pieces=loose([600]), stock=stock, kerf_mm=3, width_mm=40))
    (line,) = rip_list(
        plan, boards={"n": replace(ROUGH, width_mm=50)}, parts={"n": WHOLE}, strips_mm={"n": 43}, kerf_mm=3
    )
    assert (line.strips, line.rest_mm) == (1, 0)


def test_every_board_is_flattened_before_it_is_ripped() -> None:
    bowed = replace(ROUGH, bow_mm=8, twist_mm=4)
    lines = joint_list(PLAN, boards={"b": bowed}, parts={"b": WHOLE})
    ripped = rip_list(PLAN, boards={"b": bowed}, parts={"b": WHOLE}, strips_mm={"b": 43}, kerf_mm=3)
    assert [(line.board, line.part) for line in lines] == [(line.board, line.part) for line in ripped]
    assert {(line.length_mm, line.off_mm) for line in lines} == {(2400, 12)}
    halves = (Stretch(start_mm=0, end_mm=1200), Stretch(start_mm=1200, end_mm=2400))
    parts = joint_list(PLAN, boards={"b": bowed}, parts={"b": halves})
    assert {(line.length_mm, line.off_mm) for line in parts} == {(1200, 2 + 2)}


def test_every_ripped_strip_comes_to_its_finished_width() -> None:
    lines = rip_list(PLAN, boards={"b": ROUGH}, parts={"b": WHOLE}, strips_mm={"b": 43}, kerf_mm=3)
    (line,) = width_list(lines, allowance_mm=3)
    assert (line.rough_mm, line.finished_mm) == (43, 40)
    assert line.strips == sum(one.strips for one in lines)


def test_parts_of_a_board_are_ripped_and_planed_one_by_one() -> None:
    halves = (Stretch(start_mm=0, end_mm=1198.5), Stretch(start_mm=1201.5, end_mm=2400))
    stock = replace(BOARD, defects=(Stretch(start_mm=1173.5, end_mm=1226.5),))
    plan = cut(StickProblem(pieces=loose([1000, 900, 800, 700]), stock=(stock,), kerf_mm=3, width_mm=40))
    lines = rip_list(plan, boards={"b": ROUGH}, parts={"b": halves}, strips_mm={"b": 43}, kerf_mm=3)
    where = {
        (placed.start_mm > 1200, strip.number)
        for stick in plan.sticks
        for strip in stick.strips
        for placed in strip.pieces
    }
    assert {line.part: line.strips for line in lines} == Counter(1 + is_right for is_right, _ in where)
    flat = joint_list(plan, boards={"b": ROUGH}, parts={"b": halves})
    assert [(line.part, line.length_mm) for line in flat] == [(line.part, 1198.5) for line in lines]
    pieces = rough_pieces(plan, boards={"b": ROUGH}, parts={"b": halves})
    assert [(piece.thickness_mm, piece.length_mm) for piece in pieces] == [(31.75, 1198.5)] * len(where)
    assert len(where) == 4


def test_every_off_cut_has_its_story() -> None:
    found = off_cuts(PLAN, shortest_useful_mm=300)
    left = [stretch.left_over_mm for _, _, stretch in PLAN.stretches() if stretch.left_over_mm > 0]
    assert sorted(off_cut.length_mm for off_cut in found) == sorted(left)
    assert [off_cut.length_mm for off_cut in found] == sorted(left, reverse=True)
    for off_cut in found:
        assert off_cut.fate is (Fate.RACK if off_cut.length_mm >= 300 else Fate.SCRAP)


def test_an_off_cut_lies_at_the_end_of_its_stretch() -> None:
    stock = (Stock(name="ash", length_mm=1000),)
    plan = cut(StickProblem(pieces=loose([600]), stock=stock, kerf_mm=0, width_mm=30))
    (off_cut,) = off_cuts(plan, shortest_useful_mm=0)
    assert (off_cut.stick, off_cut.strips, off_cut.start_mm, off_cut.length_mm) == ("ash #1", (1,), 600, 400)


def test_strips_that_nothing_is_cut_from_stay_together_as_one_board() -> None:
    plan = cut(StickProblem(pieces=loose([600]), stock=(BOARD,), kerf_mm=3, width_mm=40))
    rippings = {"b": Ripping(board=ROUGH, strip_mm=43, kerf_mm=3)}
    rest, strip = off_cuts(plan, shortest_useful_mm=300, rippings=rippings)
    (line,) = rip_list(plan, boards={"b": ROUGH}, parts={"b": WHOLE}, strips_mm={"b": 43}, kerf_mm=3)
    assert (rest.strips, rest.length_mm, rest.rest_mm, rest.fate) == ((2, 3), 2400, line.rest_mm, Fate.RACK)
    assert rest.start_mm == 0
    assert (strip.strips, strip.rest_mm) == ((1,), None)


def test_of_a_board_with_a_cut_in_every_strip_no_board_is_left() -> None:
    plan = cut(StickProblem(pieces=loose([2000] * 3), stock=(BOARD,), kerf_mm=3, width_mm=40))
    found = off_cuts(plan, shortest_useful_mm=0, rippings={"b": Ripping(board=ROUGH, strip_mm=43, kerf_mm=3)})
    assert sorted(one.strips for one in found) == [(1,), (2,), (3,)]


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(OutOfRange):
        width_list([], allowance_mm=-1)
    with pytest.raises(OutOfRange):
        rip_list(PLAN, boards={}, parts={}, strips_mm={"b": 0}, kerf_mm=3)
