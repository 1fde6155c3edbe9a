"""Pieces off a roll: rows that hold all of them, the shorter way round, a roll that is too narrow."""

from math import ceil

import pytest

from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.sheets.roll import RollPiece, cut_from_roll


def piece(across_mm: float = 400, up_mm: float = 300, count: int = 5) -> RollPiece:
    return RollPiece(name="hall", across_mm=across_mm, up_mm=up_mm, count=count)


@pytest.mark.parametrize("width_mm", [300.0, 420.0, 900.0, 1220.0])
@pytest.mark.parametrize("count", [1, 2, 5, 40])
def test_rows_hold_every_piece_side_by_side_and_none_is_empty(width_mm: float, count: int) -> None:
    (rows,) = cut_from_roll([piece(count=count)], width_mm=width_mm).rows
    wide_mm = 700 - rows.row_mm
    assert rows.row_mm in (300, 400) and rows.beside * wide_mm <= width_mm
    assert (rows.rows - 1) * rows.beside < count <= rows.rows * rows.beside


def test_the_shorter_way_round_counts_and_sizes_add_up() -> None:
    cut = cut_from_roll([piece(count=5), piece(across_mm=700, up_mm=200, count=1)], width_mm=900)
    assert [one.length_mm for one in cut.rows] == [min(ceil(5 / 2) * 300, ceil(5 / 3) * 400), 200]
    assert cut.length_mm == 1000


def test_pieces_are_cut_larger_on_all_sides() -> None:
    (rows,) = cut_from_roll([piece(count=1)], width_mm=430, over_mm=15).rows
    assert (rows.beside, rows.row_mm) == (1, 330)


def test_a_roll_that_is_too_narrow_and_one_of_no_width_are_refused() -> None:
    with pytest.raises(ImpossibleSize) as refused:
        cut_from_roll([piece()], width_mm=299)
    assert (refused.value.field, refused.value.lengths) == ("roll_width_mm", {"least": 300})
    with pytest.raises(OutOfRange):
        cut_from_roll([piece()], width_mm=0)


@pytest.mark.parametrize("width_mm", [331.0, 430.0, 870.0, 1300.0])
@pytest.mark.parametrize("over_mm", [0.0, 5.0, 15.0])
def test_over_on_all_sides_is_a_piece_larger_by_twice_as_much(width_mm: float, over_mm: float) -> None:
    over = cut_from_roll([piece()], width_mm=width_mm, over_mm=over_mm)
    larger = cut_from_roll([piece(across_mm=400 + 2 * over_mm, up_mm=300 + 2 * over_mm)], width_mm=width_mm)
    assert over.length_mm == larger.length_mm and over.rows[0].beside == larger.rows[0].beside


@pytest.mark.parametrize(("width_mm", "beside"), [(1199.5, 2), (1200, 3), (1200.5, 3), (1599.5, 3), (1600, 4)])
def test_pieces_that_just_fit_side_by_side_do(width_mm: float, beside: int) -> None:
    (rows,) = cut_from_roll([piece(across_mm=400, up_mm=5, count=99)], width_mm=width_mm).rows
    upright = cut_from_roll([piece(across_mm=400, up_mm=9000, count=99)], width_mm=width_mm).rows[0]
    assert upright.beside == beside and upright.rows == ceil(99 / beside)
    assert rows.length_mm <= ceil(99 / beside) * 5


def test_the_roll_that_is_wide_enough_is_named_with_what_is_cut_larger() -> None:
    with pytest.raises(ImpossibleSize) as refused:
        cut_from_roll([piece()], width_mm=320, over_mm=15)
    assert refused.value.lengths == {"least": 330}
    assert cut_from_roll([piece()], width_mm=330, over_mm=15).rows[0].beside == 1
