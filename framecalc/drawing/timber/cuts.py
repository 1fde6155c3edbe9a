"""What a drawing of a cutting plan shows: each stick or board with its pieces; sticks cut alike only once.

*Alike* are sticks of one stock whose pieces have the same lengths in the same places. They are drawn once and counted;
a list beside the drawing says which piece lies where on each.
"""

from collections.abc import Callable, Iterable, Iterator
from functools import partial

from framecalc.plan.timber.group import TimberGroup
from framecalc.records import Record
from framecalc.timber.sticks.answer import CutStick, PlacedPiece, StickPlan
from framecalc.timber.sticks.problem import Piece, Stretch
from framecalc.units import Unit, describe_length


class DrawnPiece(Record):
    """A piece on its strip: its number on the stick, its two tips [mm], its direction.

    `names` are what it may be called, the fullest first; if sticks drawn once differ, only what they share. `words` are
    its name and length, or its length alone. One that was cut before the rest was planned is said to be.
    """

    number: int
    start_mm: float
    end_mm: float
    turned: bool
    words: str
    length: str
    names: tuple[str, ...]


class DrawnLeft(Record):
    """What is left of a stretch, useful or not [mm], its length in words, and what it is called."""

    start_mm: float
    end_mm: float
    length: str
    name: str


class DrawnStrip(Record):
    """One strip with its pieces, and what is left of each of its stretches."""

    pieces: tuple[DrawnPiece, ...]
    left: tuple[DrawnLeft, ...]


class Written(Record):
    """How lengths are written, a long point and what is left over, and what is left is called."""

    long_point: Callable[[float], str]
    left_over: Callable[[float], str]
    off_cut: str = "off-cut"


class DrawnCut(Record):
    """A stick, or a board with its strips from its first edge on; lengths and widths of the work [mm].

    `slope_mm` is the visible run of a mitre along it: zero for a board ripped on edge. `edge_mm` is the waste on both
    edges of a board; `rest_mm` is the rest of its width beyond the strips.
    """

    title: str
    length_mm: float
    width_mm: float
    strip_mm: float
    kerf_mm: float
    edge_mm: float
    rest_mm: float
    slope_mm: float
    strips: tuple[DrawnStrip, ...]
    defects: tuple[Stretch, ...]
    crosscuts: tuple[Stretch, ...]
    unit: Unit


def cuts_of(plan: StickPlan, *, group: TimberGroup, unit: Unit, written: Written | None = None) -> tuple[DrawnCut, ...]:
    """Turn a plan into drawings, one for all sticks cut alike.

    Args:
        written: writes lengths as the lists do; they are exact without it.
    Source: derived.
    """
    exact = partial(describe_length, unit=unit)
    written = written or Written(long_point=exact, left_over=exact)
    return tuple(_drawn(sticks, group, unit, written) for sticks in alike(plan.sticks).values())


def alike(sticks: Iterable[CutStick]) -> dict[object, list[CutStick]]:
    """Group sticks cut alike, in the order of the first of each.

    Source: derived.
    """
    gathered: dict[object, list[CutStick]] = {}
    for stick in sticks:
        lies = tuple(
            (strip.number, placed.start_mm, placed.piece.length_mm, placed.turned, placed.is_cut)
            for strip in stick.strips
            for placed in strip.pieces
        )
        gathered.setdefault((stick.stock, lies), []).append(stick)
    return gathered


def _drawn(sticks: list[CutStick], group: TimberGroup, unit: Unit, written: Written) -> DrawnCut:
    first, offer = sticks[0], group.offer_of(sticks[0])
    board, crosscuts = (offer.board, offer.crosscuts) if offer else (None, ())
    strip_mm = offer.strip_mm if offer and board else group.section.width_mm
    strips = tuple(_strips(sticks, written))
    kerf_mm = group.problem.kerf_mm
    used_mm = len(strips) * (strip_mm + kerf_mm)
    return DrawnCut(
        title=_title(sticks, board.width_mm if board else None, unit),
        length_mm=first.stock.length_mm,
        width_mm=board.width_mm if board else group.section.width_mm,
        strip_mm=strip_mm,
        kerf_mm=kerf_mm if board else 0.0,
        edge_mm=board.edge_mm if board else 0.0,
        rest_mm=max(0.0, board.width_mm - 2 * board.edge_mm - used_mm) if board else 0.0,
        slope_mm=0.0 if offer and offer.on_edge else group.problem.slope_mm,
        strips=strips,
        defects=tuple(defect for defect in first.stock.defects if defect not in crosscuts),
        crosscuts=crosscuts,
        unit=unit,
    )


def _title(sticks: list[CutStick], width_mm: float | None, unit: Unit) -> str:
    """The tags and the size of the sticks."""
    numbers = ", ".join(f"#{stick.number}" for stick in sticks)
    across = f" × {describe_length(width_mm, unit=unit)}" if width_mm else ""
    times = f"{len(sticks)} × " if len(sticks) > 1 else ""
    return f"{times}{sticks[0].stock.name} {numbers}: {describe_length(sticks[0].stock.length_mm, unit=unit)}{across}"


def _strips(sticks: list[CutStick], written: Written) -> Iterator[DrawnStrip]:
    """The strips that pieces are cut from; pieces are numbered on through all of them."""
    number = 0
    for place, strip in enumerate(sticks[0].strips):
        if not strip.pieces:
            continue
        columns = zip(*(stick.strips[place].pieces for stick in sticks), strict=True)
        pieces = tuple(_piece(number + n, column, written.long_point) for n, column in enumerate(columns, start=1))
        number += len(pieces)
        left = (
            DrawnLeft(
                start_mm=stretch.end_mm - stretch.left_over_mm,
                end_mm=stretch.end_mm,
                length=written.left_over(stretch.left_over_mm),
                name=written.off_cut,
            )
            for stretch in strip.stretches
            if stretch.left_over_mm > 0
        )
        yield DrawnStrip(pieces=pieces, left=tuple(left))


def _piece(number: int, column: tuple[PlacedPiece, ...], written: Callable[[float], str]) -> DrawnPiece:
    """One piece on the sticks; if several are drawn as one, only what they share."""
    placed = column[0]
    length = written(placed.piece.length_mm)
    labels, sides = ({piece.label for piece in _pieces(column)}, {piece.side for piece in _pieces(column)})
    is_cut = ", cut" if placed.is_cut else ""
    names = tuple(next(iter(shared)) + is_cut for shared in (labels, sides) if len(shared) == 1)
    return DrawnPiece(
        number=number,
        start_mm=placed.start_mm,
        end_mm=placed.end_mm,
        turned=placed.turned,
        words=f"{placed.piece.label}{is_cut}, {length}" if len(column) == 1 else length,
        length=length,
        names=names,
    )


def _pieces(column: Iterable[PlacedPiece]) -> Iterator[Piece]:
    return (placed.piece for placed in column)
