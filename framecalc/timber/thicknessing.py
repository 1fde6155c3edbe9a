"""From a rough board to a flat stick of even thickness: what bow and twist cost, and in which order to cut.

Flattening one face takes away the *bow* (its rise over the whole length) and the *twist* (the lift of the fourth
corner); planing the other face parallel takes away a little more to *clean up*. The bow of a part falls with the square
of its length, since the rise of a flat arc is l²/8R; the twist falls with the length itself. So a bowed board that is
crosscut first yields thicker parts, down to the shortest piece that planer and jointer hold safely.
"""

from enum import StrEnum
from math import ceil, floor, sqrt

from framecalc.errors import ImpossibleTimber
from framecalc.findings import Finding, Severity
from framecalc.limits import require_between, require_not_negative, require_positive
from framecalc.records import Record
from framecalc.timber.boards import Allowances, Board
from framecalc.timber.sticks.problem import Stretch
from framecalc.units import TOLERANCE_MM

CLEAN_UP_MM = 1.5
"""What two faces lose at the least until saw marks are gone, 1/16 in. Source: common practice, no source."""

SHORTEST_MACHINED_MM = 300.0
"""The shortest piece for planer or jointer, 12 in, or the machine's own figure if that is longer. Source: common
practice, no source."""

MOST_LAYERS = 3
"""As many boards are glued face to face for a member at the most. Source: common practice, no source."""


class Order(StrEnum):
    """What comes first: the crosscut or the planer."""

    LONG = "mill long, crosscut afterwards"
    CROSSCUT = "crosscut first, then mill"
    NEITHER = "the board is too thin either way"


class MillingChoice(Record):
    """The thickness that can be reached both ways, and what follows. `part_mm`: of a part that is crosscut first."""

    needed_mm: float
    long_mm: float
    crosscut_mm: float
    part_mm: float
    order: Order


def bow_of_part_mm(bow_mm: float, *, length_mm: float, part_mm: float) -> float:
    """The bow of a part of a board whose whole length bows so much.

    ``b = B (l/L)²``, the rise of the same flat arc over a shorter chord.

    Args:
        bow_mm: over the whole length [mm], ≥ 0.
        length_mm: of the board [mm], > 0.
        part_mm: of the part [mm], above 0 and not longer than the board.
    Raises:
        OutOfRange: a length is out of its range.
    Source: derived (sagitta s ≈ l²/8R).

    >>> bow_of_part_mm(8, length_mm=2400, part_mm=1200)
    2.0
    """
    _require_part(bow_mm, length_mm=length_mm, part_mm=part_mm)
    return bow_mm * (part_mm / length_mm) ** 2


def twist_of_part_mm(twist_mm: float, *, length_mm: float, part_mm: float) -> float:
    """The twist of a part of a board that turns evenly along its length.

    ``t = T · l/L``

    Args:
        twist_mm: over the whole length [mm], ≥ 0.
        rest: as in `bow_of_part_mm`.
    Raises:
        OutOfRange: a length is out of its range.
    Source: derived.

    >>> twist_of_part_mm(4, length_mm=2400, part_mm=1200)
    2.0
    """
    _require_part(twist_mm, length_mm=length_mm, part_mm=part_mm)
    return twist_mm * part_mm / length_mm


def reachable_thickness_mm(
    *, rough_mm: float, bow_mm: float, twist_mm: float, clean_up_mm: float = CLEAN_UP_MM
) -> float:
    """The thickness that is left when both faces are flat.

    ``reachable = rough − bow − twist − clean-up``; negative when nothing is.

    Args:
        rough_mm: > 0. bow_mm, twist_mm, clean_up_mm: ≥ 0, all [mm].
    Raises:
        OutOfRange: a length is out of its range.
    Source: derived (the worst case: bow and twist add up).

    >>> reachable_thickness_mm(rough_mm=26, bow_mm=3, twist_mm=1)
    20.5
    """
    require_positive(rough_mm=rough_mm)
    require_not_negative(bow_mm=bow_mm, twist_mm=twist_mm, clean_up_mm=clean_up_mm)
    return rough_mm - bow_mm - twist_mm - clean_up_mm


def longest_part_mm(board: Board, *, needed_mm: float, clean_up_mm: float = CLEAN_UP_MM) -> float:
    """Find the longest part of a board that still reaches a thickness when it is milled by itself.

    ``B x² + T x = rough − clean-up − needed`` for its share x of the board's length; 0 where no part reaches it.

    Args:
        needed_mm: the thickness [mm], > 0.
    Raises:
        OutOfRange: a length is out of its range.
    Source: derived (as `bow_of_part_mm` and `twist_of_part_mm`).

    >>> board = Board(name="ash", species="white_ash", thickness_mm=26, width_mm=150, length_mm=2400, bow_mm=6)
    >>> round(longest_part_mm(board, needed_mm=23))
    1200
    """
    require_positive(needed_mm=needed_mm)
    require_not_negative(clean_up_mm=clean_up_mm)
    spare_mm = board.thickness_mm - clean_up_mm - needed_mm
    if spare_mm >= board.bow_mm + board.twist_mm:
        return board.length_mm
    if spare_mm <= 0:
        return 0.0
    if not board.bow_mm:
        return spare_mm / board.twist_mm * board.length_mm
    root = sqrt(board.twist_mm**2 + 4 * board.bow_mm * spare_mm)
    return (root - board.twist_mm) / (2 * board.bow_mm) * board.length_mm


def equal_part_mm(board: Board, *, needed_mm: float, least_mm: float, clean_up_mm: float = CLEAN_UP_MM) -> float:
    """Find the longest equal part of a board that reaches a thickness and is no shorter than it must be.

    ``L/n`` for the least n from 2 on with ``L/n ≤ longest part``; the least part itself where no equal part does.

    Args:
        needed_mm: the thickness [mm], > 0. least_mm: the shortest part allowed [mm], > 0.
        clean_up_mm: as in `reachable_thickness_mm`.
    Raises:
        OutOfRange: a length is out of its range.
    Source: derived.

    >>> board = Board(name="ash", species="white_ash", thickness_mm=26, width_mm=150, length_mm=2400, bow_mm=6)
    >>> equal_part_mm(board, needed_mm=23, least_mm=700), equal_part_mm(board, needed_mm=24, least_mm=700)
    (1200.0, 700)
    """
    require_positive(least_mm=least_mm)
    longest_mm = longest_part_mm(board, needed_mm=needed_mm, clean_up_mm=clean_up_mm)
    most = floor(board.length_mm / least_mm)
    parts = (board.length_mm / number for number in range(2, most + 1))
    return next((part_mm for part_mm in parts if part_mm <= longest_mm + TOLERANCE_MM), min(least_mm, board.length_mm))


def crosscuts_mm(board: Board, *, part_mm: float, kerf_mm: float) -> tuple[float, ...]:
    """Find the middles of the saw cuts that part a board, from its left end; the last part takes what is left.

    Args:
        part_mm: from the middle of one cut to the next [mm], > 0. kerf_mm: the cut [mm], ≥ 0.
    Raises:
        OutOfRange: a length is out of its range.
    Source: derived.

    >>> board = Board(name="ash", species="white_ash", thickness_mm=26, width_mm=150, length_mm=2400)
    >>> crosscuts_mm(board, part_mm=800, kerf_mm=3), crosscuts_mm(board, part_mm=1000, kerf_mm=3)
    ((800, 1600), (1000, 2000))
    """
    require_positive(part_mm=part_mm)
    require_not_negative(kerf_mm=kerf_mm)
    last_mm = board.length_mm - kerf_mm / 2 - TOLERANCE_MM
    return tuple(number * part_mm for number in range(1, ceil(last_mm / part_mm)))


def parts_of(board: Board, *, part_mm: float, kerf_mm: float) -> tuple[Stretch, ...]:
    """Find the parts that crosscuts make of a board, rough, from its left end; one, where it is not cut.

    Args:
        part_mm, kerf_mm: as in `crosscuts_mm`.
    Raises:
        OutOfRange: a length is out of its range.
    Source: derived.

    >>> board = Board(name="ash", species="white_ash", thickness_mm=26, width_mm=150, length_mm=2400)
    >>> [part.length_mm for part in parts_of(board, part_mm=800, kerf_mm=3)]
    [798.5, 797.0, 798.5]
    """
    cuts_mm = crosscuts_mm(board, part_mm=part_mm, kerf_mm=kerf_mm)
    starts_mm = (0.0, *(at_mm + kerf_mm / 2 for at_mm in cuts_mm))
    ends_mm = (*(at_mm - kerf_mm / 2 for at_mm in cuts_mm), board.length_mm)
    return tuple(Stretch(start_mm=start, end_mm=end) for start, end in zip(starts_mm, ends_mm, strict=True))


def choose_milling(
    board: Board,
    *,
    thickness_mm: float,
    part_mm: float,
    allowances: Allowances,
    clean_up_mm: float = CLEAN_UP_MM,
    shortest_mm: float = SHORTEST_MACHINED_MM,
) -> MillingChoice:
    """Find the thickness that a board yields milled long, and crosscut first; long where both do.

    Args:
        thickness_mm: finished thickness of the member [mm], > 0.
        part_mm: the length of a part if the board is crosscut first [mm]; no shorter than planer and jointer hold.
        shortest_mm: the shortest piece for planer and jointer [mm], > 0.
    Raises:
        OutOfRange: a length is out of its range.
        ImpossibleTimber: the part is too short for the machines.
    Source: derived; the shortest piece is common practice, no source.

    >>> board = Board(name="ash", species="white_ash", thickness_mm=26, width_mm=150, length_mm=2400, bow_mm=6)
    >>> choice = choose_milling(board, thickness_mm=20, part_mm=1200, allowances=Allowances())
    >>> choice.long_mm, choice.crosscut_mm, choice.order.name
    (18.5, 23.0, 'CROSSCUT')
    """
    require_positive(thickness_mm=thickness_mm)
    _refuse_short_part(part_mm, shortest_mm=shortest_mm)
    needed_mm = thickness_mm + allowances.sanding_mm
    long_mm, crosscut_mm = (
        reachable_thickness_mm(
            rough_mm=board.thickness_mm,
            bow_mm=bow_of_part_mm(board.bow_mm, length_mm=board.length_mm, part_mm=length_mm),
            twist_mm=twist_of_part_mm(board.twist_mm, length_mm=board.length_mm, part_mm=length_mm),
            clean_up_mm=clean_up_mm,
        )
        for length_mm in (board.length_mm, part_mm)
    )
    return MillingChoice(
        needed_mm=needed_mm,
        long_mm=long_mm,
        crosscut_mm=crosscut_mm,
        part_mm=part_mm,
        order=_order(needed_mm, long_mm=long_mm, crosscut_mm=crosscut_mm),
    )


def layers_to_glue(*, reached_mm: float, needed_mm: float, clean_up_mm: float = CLEAN_UP_MM) -> int:
    """Count the boards that, each milled flat and glued face to face, are thick enough; 0 where too many would be.

    ``n · reached − clean-up ≥ needed``: what is glued up is cleaned up once more.

    Args:
        reached_mm: the thickness that one board reaches; not above 0 where nothing of it is left [mm].
        needed_mm: > 0. clean_up_mm: ≥ 0, both [mm].
    Raises:
        OutOfRange: a length is out of its range.
    Source: derived; the most layers is common practice, no source.

    >>> layers_to_glue(reached_mm=24.5, needed_mm=40), layers_to_glue(reached_mm=24.5, needed_mm=90)
    (2, 0)
    """
    require_positive(needed_mm=needed_mm)
    require_not_negative(clean_up_mm=clean_up_mm)
    if reached_mm <= 0:
        return 0
    layers = max(2, ceil((needed_mm + clean_up_mm - TOLERANCE_MM) / reached_mm))
    return layers if layers <= MOST_LAYERS else 0


def milling_findings(choice: MillingChoice) -> tuple[Finding, ...]:
    """Report what the board's thickness allows, where that is not simply "mill long".

    Source: derived.
    """
    if choice.order is Order.LONG:
        return ()
    lengths = {
        "needed": choice.needed_mm,
        "long": choice.long_mm,
        "crosscut": choice.crosscut_mm,
        "part": choice.part_mm,
    }
    if choice.order is Order.CROSSCUT:
        return (_crosscut_first(lengths),)
    return (_too_thin(lengths),)


def _crosscut_first(lengths: dict[str, float]) -> Finding:
    return Finding(
        code="thicknessing.crosscut-first",
        severity=Severity.WARN,
        sentence=f"{_milled_long(lengths)}; {{needed}} is needed. Crosscut to {{part}} first: then it reaches "
        "{crosscut}.",
        why="Bow falls with the square of the length, so a short piece loses less in flattening.",
        source="derived",
        argument="board_thickness_mm",
        lengths=lengths,
    )


def _milled_long(lengths: dict[str, float]) -> str:
    """What is left of a board that is flattened in one piece: of a very crooked one nothing at all."""
    return (
        "Milled long, the board reaches {long}" if lengths["long"] > 0 else "Milled long, nothing of the board is left"
    )


def _too_thin(lengths: dict[str, float]) -> Finding:
    return Finding(
        code="thicknessing.too-thin",
        severity=Severity.STOP,
        sentence=f"{_milled_long(lengths)}{_crosscut(lengths)}; {{needed}} is needed.",
        why="Bow, twist and the clean-up cuts take more than the board has to spare.",
        source="derived",
        argument="board_thickness_mm",
        lengths=lengths,
    )


def _crosscut(lengths: dict[str, float]) -> str:
    """What cutting it across first gains: nothing, where the board is flat or too short to be parted."""
    if lengths["crosscut"] <= lengths["long"] + TOLERANCE_MM:
        return ", and crosscutting it first gains nothing"
    reached = ", crosscut to {part} first it reaches {crosscut}"
    return reached if lengths["crosscut"] > 0 else ", nor of a part of {part}"


def _order(needed_mm: float, *, long_mm: float, crosscut_mm: float) -> Order:
    if long_mm >= needed_mm - TOLERANCE_MM:
        return Order.LONG
    return Order.CROSSCUT if crosscut_mm >= needed_mm - TOLERANCE_MM else Order.NEITHER


def _require_part(rise_mm: float, *, length_mm: float, part_mm: float) -> None:
    require_not_negative(rise_mm=rise_mm)
    require_positive(length_mm=length_mm, part_mm=part_mm)
    require_between(0, length_mm, part_mm=part_mm)


def _refuse_short_part(part_mm: float, *, shortest_mm: float) -> None:
    require_positive(part_mm=part_mm, shortest_mm=shortest_mm)
    if part_mm < shortest_mm - TOLERANCE_MM:
        raise ImpossibleTimber(
            "Part of {part} too short for planer and jointer: {shortest} or more.",
            field="part_mm",
            lengths={"part": part_mm, "shortest": shortest_mm},
        )
