"""The widest member that a board yields: it fits, and a hair wider does not."""

from itertools import product
from math import floor, sqrt

import pytest

from framecalc.errors import ImpossibleTimber
from framecalc.records import replace
from framecalc.timber.boards import Allowances, Board
from framecalc.timber.sticks.problem import Grain, Stretch
from framecalc.timber.widest_member import FrameToCut, Saw, widest_member

SAW = Saw(rip_kerf_mm=3.2, kerf_mm=2.5, allowances=Allowances(width_mm=3))
HALL = (FrameToCut(name="hall", rabbet_across_mm=300, rabbet_up_mm=423),)
BOARD = Board(name="ash", species="white_ash", thickness_mm=26, width_mm=150, length_mm=1000, edge_mm=4, trim_mm=20)


def _can_make(board: Board, wanted: tuple[FrameToCut, ...], face_width_mm: float, *, rabbet_width_mm: float) -> bool:
    """Rip as many strips as the width of each board allows, and try every way to put the sides on them."""
    rough_mm = face_width_mm + SAW.allowances.width_mm
    strips = floor((board.width_mm - 2 * board.edge_mm + SAW.rip_kerf_mm + 1e-9) / (rough_mm + SAW.rip_kerf_mm))
    strips *= board.count or 1
    wider_mm, cut_mm = 2 * (face_width_mm - rabbet_width_mm), SAW.kerf_mm * sqrt(2)
    sides = [
        size + wider_mm + cut_mm
        for frame in wanted
        for size in (frame.rabbet_across_mm, frame.rabbet_up_mm) * 2 * frame.copies
    ]
    room_mm = board.length_mm - 2 * board.trim_mm + cut_mm + 1e-7
    return any(
        all(
            sum(side for side, place in zip(sides, places, strict=True) if place == strip) <= room_mm
            for strip in range(strips)
        )
        for places in product(range(strips), repeat=len(sides))
    )


@pytest.mark.parametrize("length_mm", [560.0, 700.0, 1000.0, 1300.0, 1900.0])
@pytest.mark.parametrize("width_mm", [60.0, 110.0, 150.0, 200.0])
def test_the_widest_member_fits_and_a_hair_wider_does_not(width_mm: float, length_mm: float) -> None:
    board = replace(BOARD, width_mm=width_mm, length_mm=length_mm)
    try:
        found = widest_member(board, wanted=HALL, rabbet_width_mm=6, saw=SAW)
    except ImpossibleTimber:
        assert not _can_make(board, HALL, 6.01, rabbet_width_mm=6)
        return
    assert found.exact
    assert _can_make(board, HALL, found.face_width_mm, rabbet_width_mm=6)
    wider = [found.face_width_mm + step for step in (0.002, 0.5, 3, 10, 25, 60)]
    assert not any(_can_make(board, HALL, width_mm, rabbet_width_mm=6) for width_mm in wider)


@pytest.mark.parametrize("width_mm", [40.0, 60.0, 110.0])
@pytest.mark.parametrize("count", [2, 3])
def test_several_boards_count_together(count: int, width_mm: float) -> None:
    """Boards 560 mm long give one side a strip, so that one board alone, ripped to one strip, makes no frame."""
    boards = replace(BOARD, width_mm=width_mm, length_mm=560, count=count)
    try:
        found = widest_member(boards, wanted=HALL, rabbet_width_mm=6, saw=SAW)
    except ImpossibleTimber:
        assert not _can_make(boards, HALL, 6.01, rabbet_width_mm=6)
        return
    assert _can_make(boards, HALL, found.face_width_mm, rabbet_width_mm=6)
    assert not any(_can_make(boards, HALL, found.face_width_mm + step, rabbet_width_mm=6) for step in (0.002, 1, 9, 30))


def test_two_boards_yield_a_wider_member_than_one() -> None:
    """Four sides from one board want four strips, from two boards two each: (142 + 3.2) / 2 − 3.2 − 3."""
    boards = replace(BOARD, length_mm=640, count=2)
    one, two = (
        widest_member(each, wanted=HALL, rabbet_width_mm=6, saw=SAW) for each in (replace(boards, count=1), boards)
    )
    assert two.face_width_mm == pytest.approx(66.4) and (two.strips, two.by_width) == (2, True)
    assert one.face_width_mm == pytest.approx((142 + 3.2) / 4 - 3.2 - 3) and one.strips == 4


def test_a_wider_or_longer_board_never_yields_a_narrower_member() -> None:
    widths = [
        widest_member(replace(BOARD, width_mm=w, length_mm=1100), wanted=HALL, rabbet_width_mm=6, saw=SAW)
        for w in (100, 120, 150, 180)
    ]
    lengths = [
        widest_member(replace(BOARD, length_mm=length), wanted=HALL, rabbet_width_mm=6, saw=SAW)
        for length in (900, 1100, 1500, 1900)
    ]
    for found in (widths, lengths):
        face_widths = [each.face_width_mm for each in found]
        assert face_widths == sorted(face_widths)


def test_grain_round_the_frame_and_more_copies_never_allow_a_wider_member() -> None:
    board = replace(BOARD, length_mm=1900, width_mm=200)
    free = widest_member(board, wanted=HALL, rabbet_width_mm=6, saw=SAW)
    order = widest_member(board, wanted=HALL, rabbet_width_mm=6, saw=SAW, grain=Grain.ROUND)
    twice = widest_member(board, wanted=(replace(HALL[0], copies=2),), rabbet_width_mm=6, saw=SAW)
    assert order.face_width_mm <= free.face_width_mm
    assert twice.face_width_mm <= free.face_width_mm


def test_the_longest_side_must_fit_beside_a_knot() -> None:
    board = replace(BOARD, length_mm=1300, defects=(Stretch(start_mm=550, end_mm=750),))
    found = widest_member(board, wanted=HALL, rabbet_width_mm=6, saw=SAW)
    assert (found.face_width_mm, found.by_width) == (6 + (530 - 423) / 2, False)


def test_a_board_too_small_is_refused() -> None:
    with pytest.raises(ImpossibleTimber, match="does not yield these frames") as refused:
        widest_member(replace(BOARD, length_mm=400), wanted=HALL, rabbet_width_mm=6, saw=SAW)
    assert refused.value.field == "board_width_mm"
    with pytest.raises(ImpossibleTimber, match="2 boards of this size do not yield these frames"):
        widest_member(replace(BOARD, length_mm=400, count=2), wanted=HALL, rabbet_width_mm=6, saw=SAW)
    with pytest.raises(ImpossibleTimber, match="No frame is wanted"):
        widest_member(BOARD, wanted=(), rabbet_width_mm=6, saw=SAW)


def test_a_width_is_exact_where_every_try_was_or_the_widest_fits_at_once() -> None:
    """24 sides are packed by rules of thumb: where these fail, a wider member might fit after all."""
    six = (replace(HALL[0], copies=6),)
    roomy = widest_member(replace(BOARD, count=12, length_mm=2400), wanted=six, rabbet_width_mm=6, saw=SAW)
    assert roomy.by_width and roomy.exact
    short = widest_member(replace(BOARD, count=4, length_mm=1500), wanted=six, rabbet_width_mm=6, saw=SAW)
    assert not short.by_width and not short.exact
    few = widest_member(replace(BOARD, length_mm=1250), wanted=HALL, rabbet_width_mm=6, saw=SAW)
    assert few.exact
