"""Labels: what is chalked on every piece, so that it finds its place and its mate, whatever happens at the bench.

The *carpenter's triangle* is drawn across two sides laid together, top over bottom or left beside right, its tip up.
Each side keeps its part of the triangle, which says where it belongs and which way up. Marks are given in the unit
square of the piece as it sits in the frame on the wall: u from left to right, v from below upward, both from 0 to 1.
"""

from framecalc.records import Record
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.timber.sticks.problem import Piece, Purpose, place_round

Mark = tuple[tuple[float, float], tuple[float, float]]

TRIANGLE: dict[str, tuple[Mark, ...]] = {
    "top": (((0.4, 0.0), (0.5, 1.0)), ((0.5, 1.0), (0.6, 0.0))),
    "bottom": (((0.3, 0.0), (0.4, 1.0)), ((0.6, 1.0), (0.7, 0.0)), ((0.3, 0.0), (0.7, 0.0))),
    "left": (((0.0, 0.35), (1.0, 0.65)), ((0.0, 0.35), (1.0, 0.35))),
    "right": (((0.0, 0.65), (1.0, 0.35)), ((0.0, 0.35), (1.0, 0.35))),
}
"""The part of the triangle on each side of a rectangle. Source: common practice, no source; the numbers are our own."""


class PieceLabel(Record):
    """What is chalked on one piece. `ends`: the corners at its two ends, clockwise; `mate`: the side opposite."""

    piece: Piece
    text: str
    ends: tuple[str, str]
    mate: str
    marks: tuple[Mark, ...]


def label_of(piece: Piece, *, sides: int = 4) -> PieceLabel:
    """Word the label of a piece; spares and test pieces carry their name only.

    Args:
        sides: of the frame.
    Source: derived.

    >>> label = label_of(Piece(frame="hall", copy=2, side="right", length_mm=471))
    >>> label.text, label.ends, label.mate
    ('hall/2 right', ('top-right', 'right-bottom'), 'left')
    """
    names = RECTANGLE_SIDES if sides == len(RECTANGLE_SIDES) else tuple(str(1 + n) for n in range(sides))
    place = place_round(piece.side, sides=sides)
    if place < 0 or piece.purpose not in (Purpose.MEMBER, Purpose.AGAIN):
        return PieceLabel(piece=piece, text=piece.label, ends=("", ""), mate="", marks=())
    before, after = names[place - 1], names[(place + 1) % sides]
    return PieceLabel(
        piece=piece,
        text=piece.label,
        ends=(f"{before}-{piece.side}", f"{piece.side}-{after}"),
        mate=names[place - sides // 2] if sides % 2 == 0 else "",
        marks=TRIANGLE.get(piece.side, ()),
    )
