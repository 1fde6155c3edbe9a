"""Planing strips to thickness: which pieces go through the planer, and in which passes."""

from collections.abc import Mapping, Sequence
from math import ceil

from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.timber.boards import Board
from framecalc.timber.lists import strips_from
from framecalc.timber.sticks.answer import StickPlan
from framecalc.timber.sticks.problem import Stretch
from framecalc.units import TOLERANCE_MM

PLANER_PASS_MM = 1.5
"""The most that one pass through the planer takes off, 1/16 in. Source: common practice, no source."""


class RoughPiece(Record):
    """What goes through the planer in one piece: a strip of a board, or of one part of a board; rough."""

    thickness_mm: float
    length_mm: float


class PlaningRun(Record):
    """Equally thick pieces on their way through the planer: the first setting, the last, and the passes between.

    Each pass takes `pass_mm`, but the first where thicker pieces are planed down to these, and the last.
    """

    rough_mm: float
    first_mm: float
    finished_mm: float
    pass_mm: float
    passes: int
    last_mm: float
    pieces: tuple[RoughPiece, ...]


def rough_pieces(
    plan: StickPlan, *, boards: Mapping[str, Board], parts: Mapping[str, tuple[Stretch, ...]]
) -> tuple[RoughPiece, ...]:
    """List what goes through the planer: every strip that is used, part by part.

    Args:
        boards, parts: as in `rip_list`.
    Source: derived.
    """
    return tuple(
        RoughPiece(thickness_mm=boards[stick.stock.id].thickness_mm, length_mm=part.length_mm)
        for stick in plan.sticks
        if stick.stock.id in boards
        for part in parts[stick.stock.id]
        for _ in range(strips_from(stick, part))
    )


def planing_list(
    pieces: Sequence[RoughPiece], *, finished_mm: float, pass_mm: float = PLANER_PASS_MM
) -> tuple[PlaningRun, ...]:
    """List the passes through the planer from rough to finished, the thickest pieces first.

    Every pass takes as much as one may, and the last what is left. All pieces go through each setting before it is
    changed, so that all come out alike; thinner ones join in where the planer comes down to them.

    Args:
        pieces: as they come from the saw, none thinner than finished.
        finished_mm: > 0 [mm].
        pass_mm: the deepest pass [mm], > 0.
    Raises:
        OutOfRange: a number is out of its range.
    Source: derived; the usual depth is common practice, no source.

    >>> pieces = [RoughPiece(thickness_mm=24, length_mm=2400), RoughPiece(thickness_mm=22, length_mm=800)]
    >>> runs = planing_list(pieces, finished_mm=20, pass_mm=1.5)
    >>> [(run.rough_mm, run.first_mm, run.passes, run.last_mm) for run in runs]
    [(24, 22.5, 3, 1.0), (22, 21.0, 2, 1.0)]
    """
    require_positive(finished_mm=finished_mm, pass_mm=pass_mm)
    for piece in pieces:
        require_not_negative(to_plane_mm=piece.thickness_mm - finished_mm)
    thick_mm = {piece.thickness_mm for piece in pieces if piece.thickness_mm > finished_mm + TOLERANCE_MM}
    rough_mm = sorted(thick_mm, reverse=True)
    settings_mm = _settings_mm(rough_mm[0], finished_mm=finished_mm, pass_mm=pass_mm) if rough_mm else ()
    return tuple(_planing_run(pieces, settings_mm, thickness_mm=one_mm, pass_mm=pass_mm) for one_mm in rough_mm)


def _settings_mm(rough_mm: float, *, finished_mm: float, pass_mm: float) -> tuple[float, ...]:
    """Every setting of the planer from the thickest piece down."""
    passes = ceil((rough_mm - finished_mm - TOLERANCE_MM) / pass_mm)
    return (*(rough_mm - number * pass_mm for number in range(1, passes)), finished_mm)


def _planing_run(
    pieces: Sequence[RoughPiece], settings_mm: Sequence[float], *, thickness_mm: float, pass_mm: float
) -> PlaningRun:
    mine_mm = [setting_mm for setting_mm in settings_mm if setting_mm < thickness_mm - TOLERANCE_MM]
    before_mm = [thickness_mm, *mine_mm][-2]
    return PlaningRun(
        rough_mm=thickness_mm,
        first_mm=mine_mm[0],
        finished_mm=mine_mm[-1],
        pass_mm=pass_mm,
        passes=len(mine_mm),
        last_mm=before_mm - mine_mm[-1],
        pieces=tuple(piece for piece in pieces if piece.thickness_mm == thickness_mm),
    )
