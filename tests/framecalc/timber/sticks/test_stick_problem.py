"""The problem of a cutting plan by itself: its name, its saw cut, its corners; and what is refused at its edges."""

import hashlib
import json
from decimal import Decimal
from math import sqrt
from typing import Any

import pytest
from cutting_jobs import loose

from framecalc.errors import FrameCalcError
from framecalc.records import replace
from framecalc.timber.sticks.problem import (
    Grain,
    Piece,
    Purpose,
    StickProblem,
    Stock,
    Stretch,
    clear_stretches,
    first_after,
    hash_of,
)
from framecalc.timber.sticks.refusals import LONGEST_MM, MOST_PIECES, MOST_STRIPS, refuse_impossible, refuse_stock

ASH = Stock(name="ash", length_mm=2400)
JOB = StickProblem(pieces=loose([348, 471]), stock=(ASH,), kerf_mm=3, width_mm=30)


@pytest.mark.parametrize("more", [{}, {"repeat_mm": 12.5}, {"slope_deg": 30}, {"repeat_mm": 4, "slope_deg": 0.5}])
@pytest.mark.parametrize("purpose", [Purpose.MEMBER, Purpose.TEST])
def test_a_hash_is_that_of_the_problem_written_with_its_keys_in_order(more: dict[str, Any], purpose: Purpose) -> None:
    """Lengths are written as decimals, counts as whole numbers, and no repeat and no slope not at all."""
    piece = {"frame": "job", "side": "piece", "purpose": str(purpose)}
    written = {
        "pieces": [piece | {"copy": 1, "length_mm": 348.0}, piece | {"copy": 2, "length_mm": 471.0}],
        "stock": [
            {
                "count": 5,
                "defects": [{"end_mm": 20.0, "start_mm": 10.0}],
                "first": 1,
                "id": "",
                "in_hand": False,
                "length_mm": 2400.0,
                "name": "ash",
                "price": "2.5",
                "strips": 1,
                "trim_mm": 0.0,
            }
        ],
        "kerf_mm": 3.0,
        "width_mm": 30.0,
        "sides": 4,
        "grain": "any piece from any stick",
        "corner": "bottom-left",
        "turned": False,
        "milled": False,
        "shortest_useful_mm": 300.0,
    }
    written |= {name: float(value) if name.endswith("_mm") else value for name, value in more.items()}
    text = json.dumps(written, sort_keys=True, ensure_ascii=False)
    begin = "sticks 4" if purpose is Purpose.TEST else "sticks 3"
    knot = Stretch(start_mm=10, end_mm=20)
    problem = replace(
        JOB,
        pieces=tuple(replace(one, purpose=purpose) for one in JOB.pieces),
        stock=(replace(ASH, count=5, price=Decimal("2.50"), defects=(knot,)),),
        **more,
    )
    assert hash_of(problem) == hashlib.sha256(f"{begin} {text}".encode()).hexdigest()


def test_a_saw_cut_runs_on_to_where_a_pattern_begins_again() -> None:
    assert replace(JOB, repeat_mm=50).cut_mm == pytest.approx(50 + 3 * sqrt(2))


@pytest.mark.parametrize(
    "corner", ["top", "", "top-right-bottom", "lid-top", "top-lid", "top-bottom", "lid-lid", "5-1", "right-right"]
)
def test_no_side_follows_what_is_no_corner(corner: str) -> None:
    assert first_after(corner, sides=4) == -1


def test_defects_side_by_side_and_one_in_another_leave_what_lies_between() -> None:
    defects = tuple(Stretch(start_mm=a, end_mm=b) for a, b in ((500, 600), (300, 301), (520, 530), (0, 10)))
    clear = clear_stretches(replace(ASH, length_mm=1000, defects=defects, trim_mm=5), cut_mm=4)
    assert [(part.start_mm, part.end_mm) for part in clear] == [(10, 300), (304, 500), (604 - 4, 995)]


def is_refused(problem: StickProblem) -> bool:
    try:
        refuse_impossible(problem)
    except FrameCalcError:
        return True
    return False


@pytest.mark.parametrize(("strips", "refused"), [(1, False), (MOST_STRIPS, False), (0, True), (MOST_STRIPS + 1, True)])
def test_a_board_has_at_least_a_strip_and_no_more_than_a_shop_rips(strips: int, refused: bool) -> None:
    assert is_refused(replace(JOB, stock=(replace(ASH, strips=strips),))) is refused


def test_as_many_pieces_as_are_cut_at_a_time_are_taken_and_the_longest_stick() -> None:
    many = loose([100.0] * MOST_PIECES)
    assert not is_refused(replace(JOB, pieces=many))
    assert is_refused(replace(JOB, pieces=(*many, replace(many[0], side="more"))))
    assert not is_refused(replace(JOB, stock=(replace(ASH, length_mm=LONGEST_MM),)))
    assert is_refused(replace(JOB, stock=(replace(ASH, length_mm=LONGEST_MM + 0.5),)))


@pytest.mark.parametrize(
    ("change", "refused"),
    [
        ({"count": 0}, False),
        ({"count": -1}, True),
        ({"price": Decimal(0)}, False),
        ({"price": Decimal("-0.0001")}, True),
        ({"price": Decimal("0.0001")}, False),
        ({"price": Decimal("0.00005")}, True),
        ({"price": Decimal("Infinity")}, True),
        ({"trim_mm": 0.0}, False),
        ({"trim_mm": -0.5}, True),
        ({"defects": (Stretch(start_mm=0, end_mm=2400),)}, False),
        ({"defects": (Stretch(start_mm=-0.5, end_mm=20),)}, True),
        ({"defects": (Stretch(start_mm=20, end_mm=2400.5),)}, True),
        ({"defects": (Stretch(start_mm=20, end_mm=19.5),)}, True),
    ],
)
def test_sticks_are_refused_at_their_edges(change: dict[str, Any], refused: bool) -> None:
    if refused:
        with pytest.raises(FrameCalcError):
            refuse_stock(replace(ASH, **change))
    else:
        refuse_stock(replace(ASH, **change))


def test_of_sticks_that_are_not_there_nothing_is_cut() -> None:
    gone, short = replace(ASH, count=0), replace(ASH, length_mm=400)
    says = r"471 mm in one piece, and the longest clear stretch is 400 mm: enter a stick with at least 471 mm clear\.$"
    with pytest.raises(FrameCalcError, match=says):
        refuse_impossible(replace(JOB, stock=(gone, short)))
    assert is_refused(replace(JOB, stock=(gone,))) and not is_refused(replace(JOB, stock=(gone, ASH)))
    nothing_clear = replace(ASH, defects=(Stretch(start_mm=0, end_mm=2400),))
    with pytest.raises(FrameCalcError, match="the longest clear stretch is 0 mm") as refused:
        refuse_impossible(replace(JOB, stock=(nothing_clear,)))
    assert refused.value.lengths == {"needed": 471, "longest": 0}


@pytest.mark.parametrize(("spare_mm", "refused"), [(0.5, False), (0, False), (-0.5, True)])
def test_a_frame_whose_grain_runs_round_needs_its_sides_and_three_cuts_in_one_piece(
    spare_mm: float, refused: bool
) -> None:
    sides = tuple(Piece(frame="hall", side=side, length_mm=400) for side in ("top", "right", "bottom", "left"))
    stock = (replace(ASH, length_mm=4 * 400 + 3 * JOB.cut_mm + spare_mm),)
    problem = replace(JOB, pieces=sides, grain=Grain.ROUND, stock=stock)
    assert is_refused(problem) is refused
    mates = replace(ASH, length_mm=2 * 400 + JOB.cut_mm + spare_mm)
    assert is_refused(replace(problem, grain=Grain.MATES, stock=(mates,))) is refused
    if refused:
        with pytest.raises(FrameCalcError, match="or let any piece come from any stick"):
            refuse_impossible(replace(problem, grain=Grain.MATES, stock=(mates,)))


@pytest.mark.parametrize(("long_mm", "refused"), [(210, False), (209.5, True), (300, False)])
def test_a_piece_is_turned_where_its_short_edge_can_be_held(long_mm: float, refused: bool) -> None:
    """A short edge of 150 mm, and a slope of 30 mm at both ends."""
    assert is_refused(replace(JOB, pieces=loose([400, long_mm]), turned=True)) is refused


@pytest.mark.parametrize(("sides", "refused"), [(6, False), (5, True)])
def test_only_an_even_number_of_sides_has_mates(sides: int, refused: bool) -> None:
    pieces = tuple(Piece(frame="f", side=str(number), length_mm=200) for number in range(1, sides + 1))
    problem = replace(JOB, pieces=pieces, sides=sides, grain=Grain.MATES, corner=f"{sides}-1")
    assert is_refused(problem) is refused
    assert is_refused(replace(problem, grain=Grain.ROUND)) is False


def test_a_saw_cut_as_long_as_the_stick_is_refused_and_one_that_leaves_something_is_not() -> None:
    stock = (replace(ASH, length_mm=471),)
    assert not is_refused(replace(JOB, stock=stock, kerf_mm=470 / sqrt(2)))
    with pytest.raises(FrameCalcError, match="enter a narrower kerf"):
        refuse_impossible(replace(JOB, stock=stock, kerf_mm=471.5 / sqrt(2)))


def test_spares_may_be_called_by_any_side_where_the_grain_runs_round() -> None:
    sides = tuple(Piece(frame="hall", side=side, length_mm=400) for side in ("top", "right", "bottom", "left"))
    spare = Piece(frame="hall", side="any", length_mm=400, purpose=Purpose.SPARE)
    assert not is_refused(replace(JOB, pieces=(*sides, spare), grain=Grain.ROUND))
    member = replace(spare, purpose=Purpose.MEMBER)
    assert is_refused(replace(JOB, pieces=(*sides, member), grain=Grain.ROUND))
