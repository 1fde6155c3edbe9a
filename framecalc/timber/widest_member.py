"""The widest member that a board, or several equal ones, yield for a job.

A wider member takes more of the board's width, so that it yields fewer strips, and makes the frame larger, so that its
sides grow: long edge = rabbet size + 2 (face width − rabbet width). For each number of strips the widest member
that the width allows is tried first; where its sides do not fit, a narrower one is found by halving.
"""

from math import floor

from framecalc.errors import ImpossibleTimber
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.timber.boards import Allowances, Board
from framecalc.timber.sticks.packing import GaveUp, pack_exactly, pack_snugly
from framecalc.timber.sticks.problem import Grain, Piece, StickProblem, Stock
from framecalc.timber.sticks.whole_numbers import UM_PER_MM, in_whole_numbers
from framecalc.units import TOLERANCE_MM

MOST_STRIPS, FEW_SIDES = 40, 20
"""Strips of a board that are tried, and sides up to which packing is exact. Ours."""


class FrameToCut(Record):
    """A frame to cut from the board: its rabbet size and the number of copies."""

    name: str
    rabbet_across_mm: float
    rabbet_up_mm: float
    copies: int = 1


class Saw(Record):
    """The widths of the rip cut and the crosscut, and how much wider a strip is than the member."""

    rip_kerf_mm: float
    kerf_mm: float
    allowances: Allowances


class WidestMember(Record):
    """The widest member, rounded down to the micrometre, and the strips that each board is ripped into for it.

    `by_width`: the board's width is the limit, otherwise the length of its strips. `exact`: no wider member fits.
    """

    face_width_mm: float
    strips: int
    by_width: bool
    exact: bool


def widest_member(
    board: Board, *, wanted: tuple[FrameToCut, ...], rabbet_width_mm: float, saw: Saw, grain: Grain = Grain.FREE
) -> WidestMember:
    """Find the widest member for which the boards in hand yield all sides of the frames wanted.

    Args:
        board: as many as its count says, all ripped the same way; None counts as one.
        rabbet_width_mm: the member must be wider than this [mm], ≥ 0.
        grain: what must come from one strip.
    Raises:
        OutOfRange: a length is out of its range.
        ImpossibleTimber: no member is wide enough for its rabbet, or the sides do not fit at any width.
    Source: derived (bisection: a wider member never fits where a narrower one does not).

    >>> board = Board(name="ash", species="white_ash", thickness_mm=26, width_mm=100, length_mm=1000)
    >>> saw = Saw(rip_kerf_mm=3, kerf_mm=3, allowances=Allowances(width_mm=3))
    >>> wanted = (FrameToCut(name="hall", rabbet_across_mm=200, rabbet_up_mm=250),)
    >>> found = widest_member(board, wanted=wanted, rabbet_width_mm=6, saw=saw)
    >>> found.face_width_mm, found.strips, found.by_width
    (45.5, 2, True)
    """
    require_not_negative(rabbet_width_mm=rabbet_width_mm, rip_kerf_mm=saw.rip_kerf_mm, kerf_mm=saw.kerf_mm)
    if not wanted:
        raise ImpossibleTimber("No frame is wanted of this board: add one.", field="wanted")
    for frame in wanted:
        require_positive(rabbet_across_mm=frame.rabbet_across_mm, rabbet_up_mm=frame.rabbet_up_mm)
    best = _best(board, wanted, rabbet_width_mm, saw, grain)
    if best is None:
        raise ImpossibleTimber(
            f"{_these(board)} not yield these frames, rabbet {{rabbet}}: enter a larger board.",
            field="board_width_mm",
            lengths={"rabbet": rabbet_width_mm},
        )
    return best


def _these(board: Board) -> str:
    return f"{board.count} boards of this size do" if (board.count or 1) > 1 else "A board of this size does"


def _best(
    board: Board, wanted: tuple[FrameToCut, ...], rabbet_width_mm: float, saw: Saw, grain: Grain
) -> WidestMember | None:
    """The widest for any number of strips: more strips are tried only while their width allows more than is found."""
    best: WidestMember | None = None
    for strips in range(1, MOST_STRIPS + 1):
        if best is not None and _by_width_mm(board, strips, saw) <= best.face_width_mm:
            return best
        found = _widest_of_strips(board, strips, wanted, rabbet_width_mm, saw, grain)
        if found is not None and (best is None or found.face_width_mm > best.face_width_mm):
            best = found
    return best


def _by_width_mm(board: Board, strips: int, saw: Saw) -> float:
    """The widest member that the board's width allows for so many strips."""
    net_mm = board.width_mm - 2 * board.edge_mm
    return (net_mm + saw.rip_kerf_mm) / strips - saw.rip_kerf_mm - saw.allowances.width_mm


def _widest_of_strips(
    board: Board, strips: int, wanted: tuple[FrameToCut, ...], rabbet_width_mm: float, saw: Saw, grain: Grain
) -> WidestMember | None:
    """The widest member when the board is ripped into so many strips; None where none is wider than its rabbet."""
    by_width_mm = _by_width_mm(board, strips, saw)
    low, high = floor(rabbet_width_mm * UM_PER_MM), floor((by_width_mm + TOLERANCE_MM) * UM_PER_MM)
    top, exact = high, True
    stock = Stock(
        name=board.name,
        length_mm=board.length_mm,
        count=board.count or 1,
        strips=strips,
        trim_mm=board.trim_mm,
        defects=board.defects,
    )
    tried = high
    while low < high:
        fits, sure = _fits(stock, wanted, rabbet_width_mm, tried / UM_PER_MM, saw, grain)
        low, high = (tried, high) if fits else (low, tried - 1)
        exact = exact and (fits or sure)
        tried = (low + high + 1) // 2
    if low <= floor(rabbet_width_mm * UM_PER_MM):
        return None
    return WidestMember(face_width_mm=low / UM_PER_MM, strips=strips, by_width=low == top, exact=exact)


def _fits(
    stock: Stock,
    wanted: tuple[FrameToCut, ...],
    rabbet_width_mm: float,
    face_width_mm: float,
    saw: Saw,
    grain: Grain,
) -> tuple[bool, bool]:
    """Whether all sides fit the strips, and whether the answer is exact."""
    wider_mm = 2 * (face_width_mm - rabbet_width_mm)
    boards = stock.count or 1
    if _total_mm(wanted, wider_mm) > boards * stock.strips * stock.length_mm:
        return False, True
    pieces = tuple(piece for frame in wanted for piece in _sides(frame, wider_mm))
    problem = StickProblem(pieces=pieces, stock=(stock,), kerf_mm=saw.kerf_mm, width_mm=face_width_mm, grain=grain)
    whole_numbers = in_whole_numbers(problem)
    if not whole_numbers.kinds:
        return False, True
    rooms = sorted(whole_numbers.kinds[0].rooms_um * boards, reverse=True)[: len(pieces)]
    if len(pieces) <= FEW_SIDES:
        try:
            return pack_exactly(whole_numbers.lengths_um, counts=whole_numbers.counts, rooms_um=rooms) is not None, True
        except GaveUp:
            pass
    return pack_snugly(whole_numbers.lengths_um, counts=whole_numbers.counts, rooms_um=rooms) is not None, False


def _total_mm(wanted: tuple[FrameToCut, ...], wider_mm: float) -> float:
    """The long edges of all sides together."""
    return sum(2 * frame.copies * (frame.rabbet_across_mm + frame.rabbet_up_mm + 2 * wider_mm) for frame in wanted)


def _sides(frame: FrameToCut, wider_mm: float) -> tuple[Piece, ...]:
    across_mm, up_mm = frame.rabbet_across_mm + wider_mm, frame.rabbet_up_mm + wider_mm
    sides = (("top", across_mm), ("right", up_mm), ("bottom", across_mm), ("left", up_mm))
    return tuple(
        Piece(frame=frame.name, copy=copy, side=side, length_mm=length_mm)
        for copy in range(1, frame.copies + 1)
        for side, length_mm in sides
    )
