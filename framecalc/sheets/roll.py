"""Paper from a roll: pieces cut in rows straight across it, and the length that they take.

Each size of piece has rows of its own, either way round, whichever takes less of the roll. A *row* is as long as its
pieces are up the roll; the last row of a size may be half empty.
"""

from collections.abc import Sequence
from math import ceil

from framecalc.errors import ImpossibleSize
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM


class RollPiece(Record):
    """Pieces alike: of what they are, across × up, and how many."""

    name: str
    across_mm: float
    up_mm: float
    count: int


class RollRows(Record):
    """The rows of one size: how many pieces stand side by side, how long each row is, how many rows."""

    piece: RollPiece
    beside: int
    row_mm: float
    rows: int

    @property
    def length_mm(self) -> float:
        """What they take of the roll."""
        return self.rows * self.row_mm


class RollCut(Record):
    """All rows cut from one roll."""

    width_mm: float
    rows: tuple[RollRows, ...]

    @property
    def length_mm(self) -> float:
        """What they take of the roll together."""
        return sum(one.length_mm for one in self.rows)


def cut_from_roll(pieces: Sequence[RollPiece], *, width_mm: float, over_mm: float = 0.0) -> RollCut:
    """Cut pieces from a roll, each larger by so much on all sides, to be trimmed.

    ``rows = ⌈count / ⌊width / across⌋⌉``, ``length = rows · up``, and the same turned; the shorter counts.

    Args:
        pieces: sizes [mm], > 0.
        width_mm: of the roll [mm], > 0.
        over_mm: larger on each side [mm], ≥ 0.
    Raises:
        OutOfRange: a quantity is out of range.
        ImpossibleSize: a piece is wider than the roll, either way round.
    Source: derived; rows are common practice, no source.

    >>> cover = RollPiece(name="hall", across_mm=400, up_mm=300, count=5)
    >>> cut = cut_from_roll([cover], width_mm=900)
    >>> cut.length_mm, cut.rows[0].beside
    (800.0, 3)
    """
    require_positive(width_mm=width_mm)
    require_not_negative(over_mm=over_mm)
    return RollCut(width_mm=width_mm, rows=tuple(_rows(piece, width_mm, over_mm) for piece in pieces))


def _rows(piece: RollPiece, width_mm: float, over_mm: float) -> RollRows:
    require_positive(across_mm=piece.across_mm, up_mm=piece.up_mm)
    across_mm, up_mm = piece.across_mm + 2 * over_mm, piece.up_mm + 2 * over_mm
    ways = ((across_mm, up_mm), (up_mm, across_mm))
    fitting = [(int((width_mm + TOLERANCE_MM) // wide_mm), long_mm) for wide_mm, long_mm in ways]
    found = [
        RollRows(piece=piece, beside=beside, row_mm=long_mm, rows=ceil(piece.count / beside))
        for beside, long_mm in fitting
        if beside
    ]
    if not found:
        raise ImpossibleSize(
            "Take a roll of {least} and wider for the dust cover.",
            field="roll_width_mm",
            lengths={"least": min(across_mm, up_mm)},
        )
    return min(found, key=lambda rows: rows.length_mm)
