"""The lists of a timber job, by machine: what to buy, joint and rip, and what happens to every off-cut."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from enum import StrEnum

from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.timber.boards import Board
from framecalc.timber.rack import Ripping
from framecalc.timber.sticks.answer import CutStick, CutStrip, StickPlan
from framecalc.timber.sticks.problem import Stock, Stretch
from framecalc.timber.thicknessing import bow_of_part_mm, twist_of_part_mm
from framecalc.units import TOLERANCE_MM


class Fate(StrEnum):
    """What becomes of an off-cut."""

    RACK = "to the rack"
    SCRAP = "too short to keep"


class ShoppingLine(Record):
    """Sticks or boards to buy."""

    name: str
    length_mm: float
    count: int
    each: Decimal
    total: Decimal


class RipLine(Record):
    """A board to rip: what comes off its first edge, where the fence stands, how many strips come of it, and the rest.

    The rest is what lies beyond the last strip and its saw cut, across the board. `part` numbers the parts of a board
    that is crosscut first, from 1 on; 0 is a whole board.
    """

    board: str
    part: int
    edge_mm: float
    fence_mm: float
    strips: int
    rest_mm: float


class JointLine(Record):
    """A board, or a part of one, to flatten before it is ripped, and how far it is from flat: bow and twist together.

    `part` as in `RipLine`.
    """

    board: str
    part: int
    length_mm: float
    off_mm: float


class WidthLine(Record):
    """Strips of one rough width, and the width that they are jointed and ripped to."""

    rough_mm: float
    finished_mm: float
    strips: int


class OffCut(Record):
    """What is left of one stretch of one strip, from where to where, and what happens to it.

    Unused strips stay together as one board, `rest_mm` wide; None where it is left of one strip.
    """

    stick: str
    strips: tuple[int, ...]
    start_mm: float
    length_mm: float
    fate: Fate
    rest_mm: float | None = None


def shopping_list(plan: StickPlan) -> tuple[ShoppingLine, ...]:
    """List what must be bought; what is in hand, or begun, is left out.

    Source: derived.
    """
    bought: Counter[Stock] = Counter(stick.stock for stick in plan.sticks if stick.is_to_buy)
    return tuple(
        ShoppingLine(
            name=stock.name, length_mm=stock.length_mm, count=count, each=stock.price, total=count * stock.price
        )
        for stock, count in bought.items()
    )


def rip_list(
    plan: StickPlan,
    *,
    boards: Mapping[str, Board],
    parts: Mapping[str, tuple[Stretch, ...]],
    strips_mm: Mapping[str, float],
    kerf_mm: float,
) -> tuple[RipLine, ...]:
    """List the boards to rip, or the parts that they were crosscut into, with the strips that the plan needs of them.

    ``rest = W − edge − n (strip + k)``

    Args:
        boards: what of the stock is a board, by the stock's id.
        parts: what each is crosscut into before, by the same id; one, where it stays whole.
        strips_mm: the rough width of its strips by the same id [mm], > 0: the fence stands so far from the blade.
        kerf_mm: the rip cut [mm], ≥ 0.
    Raises:
        OutOfRange: a width is not above zero, or the cut below it.
    Source: derived.
    """
    require_not_negative(kerf_mm=kerf_mm)
    for strip_mm in strips_mm.values():
        require_positive(strip_mm=strip_mm)
    return tuple(
        line
        for stick in plan.sticks
        if (key := stick.stock.id) in boards
        for line in _rip_lines(stick, boards[key], parts[key], strips_mm[key], kerf_mm)
    )


def _rip_lines(
    stick: CutStick, board: Board, parts: Sequence[Stretch], strip_mm: float, kerf_mm: float
) -> Iterator[RipLine]:
    for number, part in enumerate(parts, start=1):
        strips = strips_from(stick, part)
        rest_mm = board.width_mm - board.edge_mm - strips * (strip_mm + kerf_mm)
        if strips:
            yield RipLine(
                board=stick.label,
                part=number if len(parts) > 1 else 0,
                edge_mm=board.edge_mm,
                fence_mm=strip_mm,
                strips=strips,
                rest_mm=max(0.0, rest_mm),
            )


def strips_from(stick: CutStick, part: Stretch) -> int:
    """Count the strips of a part of a board that are used.

    Source: derived.
    """
    return sum(any(part.start_mm <= placed.start_mm < part.end_mm for placed in strip.pieces) for strip in stick.strips)


def joint_list(
    plan: StickPlan, *, boards: Mapping[str, Board], parts: Mapping[str, tuple[Stretch, ...]]
) -> tuple[JointLine, ...]:
    """List what is flattened on the jointer: every board, or part of one, that a strip comes of.

    Args:
        boards, parts: as in `rip_list`.
    Source: derived; bow and twist of a part as in `thicknessing`.
    """
    return tuple(
        JointLine(
            board=stick.label,
            part=number if len(parts[stick.stock.id]) > 1 else 0,
            length_mm=part.length_mm,
            off_mm=_off_flat_mm(boards[stick.stock.id], part_mm=part.length_mm),
        )
        for stick in plan.sticks
        if stick.stock.id in boards
        for number, part in enumerate(parts[stick.stock.id], start=1)
        if strips_from(stick, part)
    )


def _off_flat_mm(board: Board, *, part_mm: float) -> float:
    bow_mm = bow_of_part_mm(board.bow_mm, length_mm=board.length_mm, part_mm=part_mm)
    return bow_mm + twist_of_part_mm(board.twist_mm, length_mm=board.length_mm, part_mm=part_mm)


def width_list(lines: Iterable[RipLine], *, allowance_mm: float) -> tuple[WidthLine, ...]:
    """List the strips that are jointed and ripped to their finished width, the widest first.

    ``finished = rough − allowance``

    Args:
        lines: the boards as ripped.
        allowance_mm: how much wider than finished they are ripped [mm], ≥ 0.
    Raises:
        OutOfRange: the allowance is negative.
    Source: derived.
    """
    require_not_negative(allowance_mm=allowance_mm)
    strips: Counter[float] = Counter()
    for line in lines:
        strips[line.fence_mm] += line.strips
    return tuple(
        WidthLine(rough_mm=rough_mm, finished_mm=rough_mm - allowance_mm, strips=count)
        for rough_mm, count in sorted(strips.items(), reverse=True)
    )


def off_cuts(
    plan: StickPlan, *, shortest_useful_mm: float, rippings: Mapping[str, Ripping] | None = None
) -> tuple[OffCut, ...]:
    """Find what happens to every off-cut, the longest first.

    Args:
        shortest_useful_mm: the shortest off-cut worth keeping [mm], ≥ 0.
        rippings: the boards whose strips stay together where they are unused, by the stock's id.
    Raises:
        OutOfRange: a negative length.
    Source: derived.
    """
    require_not_negative(shortest_useful_mm=shortest_useful_mm)
    ripped = rippings or {}
    found = [one for stick in plan.sticks for one in _left_of(stick, ripped.get(stick.stock.id), shortest_useful_mm)]
    return tuple(sorted(found, key=lambda off_cut: -off_cut.length_mm))


def _left_of(stick: CutStick, ripping: Ripping | None, shortest_useful_mm: float) -> Iterator[OffCut]:
    whole = [strip.number for strip in stick.strips if ripping and not strip.pieces]
    if ripping and whole:
        yield OffCut(
            stick=stick.label,
            strips=tuple(whole),
            start_mm=0.0,
            length_mm=stick.stock.length_mm,
            fate=_fate(stick.stock.length_mm, shortest_useful_mm),
            rest_mm=ripping.rest_mm(len(stick.strips) - len(whole)),
        )
    for strip in stick.strips:
        if strip.number not in whole:
            yield from _left_of_strip(stick, strip, shortest_useful_mm)


def _left_of_strip(stick: CutStick, strip: CutStrip, shortest_useful_mm: float) -> Iterator[OffCut]:
    for stretch in strip.stretches:
        if stretch.left_over_mm > TOLERANCE_MM:
            yield OffCut(
                stick=stick.label,
                strips=(strip.number,),
                start_mm=stretch.end_mm - stretch.left_over_mm,
                length_mm=stretch.left_over_mm,
                fate=_fate(stretch.left_over_mm, shortest_useful_mm),
            )


def _fate(length_mm: float, shortest_useful_mm: float) -> Fate:
    return Fate.RACK if length_mm >= shortest_useful_mm - TOLERANCE_MM else Fate.SCRAP
