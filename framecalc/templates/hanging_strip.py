"""The hanging strip: paper that is laid on the wall, with the top edge of each frame and a cross at each hook.

Its upper edge is the *top line*, the highest top edge among its frames. A cross is where the hook's bearing point goes:
where the ring or the wire rests. Taped up with its middle mark on the mark of the wall it gives every nail at once.
"""

from collections.abc import Sequence

from framecalc.errors import ImpossibleSize
from framecalc.geometry.outline import Line
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.templates.shapes import box
from framecalc.templates.template import LETTER_MM, Side, Template, TemplateStep, Word

FOOT_MM, CROSS_MM, BESIDE_MM = 30.0, 6.0, 2.0
"""Paper under the lowest cross, how far a cross reaches, what stays between words and lines. Common practice, no
source."""


class StripPiece(Record):
    """One frame on a strip: its name, its left edge and its top edge from the strip's, its width, its hooks.

    `hooks_mm` are across from the left end of the strip and down from its upper edge.
    """

    name: str
    left_mm: float
    top_mm: float
    across_mm: float
    hooks_mm: tuple[tuple[float, float], ...]


def hanging_strip(pieces: Sequence[StripPiece], *, name: str, title: str, purpose: str) -> Template:
    """Make a strip for one frame or for a row of them.

    Args:
        pieces: from the left; the strip ends with the last.
    Raises:
        ImpossibleSize: there is no frame, or it hangs over its own top edge.
        OutOfRange: a frame without a width.
    Source: plane geometry.

    >>> piece = StripPiece(name="hall", left_mm=0, top_mm=0, across_mm=400, hooks_mm=((100, 80), (300, 80)))
    >>> strip = hanging_strip([piece], name="hanging-strip", title="", purpose="")
    >>> strip.across_mm, strip.up_mm, len(strip.marks)
    (400, 110.0, 8)
    """
    if not pieces:
        raise ImpossibleSize("There is no frame to hang.", field="hanging")
    for piece in pieces:
        require_positive(frame_across_mm=piece.across_mm)
        require_not_negative(frame_top_mm=piece.top_mm, frame_left_mm=piece.left_mm)
    downs_mm = (down for piece in pieces for down in (piece.top_mm, *(hook[1] for hook in piece.hooks_mm)))
    up_mm = max(downs_mm) + FOOT_MM
    across_mm = max(piece.left_mm + piece.across_mm for piece in pieces)
    return Template(
        name=name,
        title=title,
        purpose=purpose,
        side=Side.FACE,
        step=TemplateStep.HANG,
        outlines=(box(0, 0, across_mm, up_mm),),
        marks=tuple(mark for piece in pieces for mark in _marks(piece, up_mm=up_mm)),
        words=tuple(word for piece in pieces for word in _words(piece, up_mm=up_mm)),
    )


def _marks(piece: StripPiece, *, up_mm: float) -> list[Line]:
    """Its ends and its middle at its top edge, that edge where it is not the strip's, and a cross at each hook."""
    top_mm, left_mm = up_mm - piece.top_mm, piece.left_mm
    right_mm, middle_mm = left_mm + piece.across_mm, left_mm + piece.across_mm / 2
    ticks = [Line(start=(x, top_mm), end=(x, top_mm - CROSS_MM)) for x in (left_mm, middle_mm, right_mm)]
    edge = Line(start=(left_mm, top_mm), end=(right_mm, top_mm))
    crosses = [line for across, down in piece.hooks_mm for line in _cross(across, up_mm - down)]
    return [*ticks, edge, *crosses]


def _cross(x_mm: float, y_mm: float) -> tuple[Line, Line]:
    return (
        Line(start=(x_mm - CROSS_MM, y_mm), end=(x_mm + CROSS_MM, y_mm)),
        Line(start=(x_mm, y_mm - CROSS_MM), end=(x_mm, y_mm + CROSS_MM)),
    )


def _words(piece: StripPiece, *, up_mm: float) -> list[Word]:
    """What hangs there, under the middle of its top edge."""
    middle_mm = piece.left_mm + piece.across_mm / 2
    return [
        Word(
            text=f"{piece.name}: top edge, middle",
            at=(middle_mm + BESIDE_MM, up_mm - piece.top_mm - LETTER_MM - BESIDE_MM),
        )
    ]
