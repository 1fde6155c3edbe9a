"""Jobs with sizes rounded to a coarse grid, where the exact sizes leave too many places for a table.

Rounded down, whatever fits the job fits the coarse one: what is proved about it holds for the job. Rounded up, whatever
fits the coarse job fits the real one: its cuts are good for the job, once they are set out again with the real sizes.
"""

from math import ceil

from framecalc.records import Record, replace
from framecalc.sheets.guillotine import WASTE, Node, leaves_strips, outline_of, refitted
from framecalc.sheets.places import PlaceTable, pattern_table
from framecalc.sheets.whole_numbers import LayoutJob

COARSE_WORK = 2_000_000
"""Sums that the table of a coarse job may take, about a tenth of a second."""


class CoarseTable(Record):
    """A table of a job with the pieces rounded up: its cuts are set out for the real job."""

    job: LayoutJob
    table: PlaceTable

    def best_yields(self, shares: tuple[int, ...]) -> tuple[tuple[int, Node], ...]:
        """What each kind of sheet yields in the coarse job, and a tree of cuts of the real one, or none."""
        return tuple(
            (share, set_out(node, sheet=sheet, job=self.job) or WASTE)
            for sheet, (share, node) in enumerate(self.table.best_yields(shares))
        )


def coarse_table(job: LayoutJob) -> CoarseTable | None:
    """A table that finds good ways to cut a sheet of a job with very many places.

    Source: derived.
    """
    table = pattern_table(rounded(job, up=True), keeps_strips=False)
    return CoarseTable(job=job, table=table) if table else None


def rounded(job: LayoutJob, *, up: bool) -> LayoutJob:
    """Round the pieces of a job to a grid, up or down, and its sheets down.

    Source: derived: since ⌊a⌋ + ⌊b⌋ ≤ ⌊a + b⌋, what adds up to no more than a length still does when all are rounded
        down.

    >>> from framecalc.sheets.whole_numbers import JobSheet, WholePart
    >>> piece = WholePart(across=999, up=1500, count=1, may_turn=False, parts=(0,))
    >>> sheet = JobSheet(across=400_000, up=400_000, count=1, price=2, stock=0)
    >>> job = LayoutJob(pieces=(piece,), sheets=(sheet,), kerf=0, least_strip=0, unit=2, coin=1)
    >>> rounded(job, up=False).piece_sizes, rounded(job, up=True).piece_sizes
    (((0, 0),), ((1, 1),))
    """
    across, high = job.longest
    grid = ceil((across * high * (across + high) / 4 / COARSE_WORK) ** (1 / 3))
    lift = grid - 1 if up else 0
    return replace(
        job,
        kerf=0,
        least_strip=0,
        pieces=tuple(
            replace(piece, across=(piece.across + lift) // grid, up=(piece.up + lift) // grid) for piece in job.pieces
        ),
        sheets=tuple(replace(sheet, across=sheet.across // grid, up=sheet.up // grid) for sheet in job.sheets),
    )


def set_out(node: Node, *, sheet: int, job: LayoutJob) -> Node | None:
    """Set out cuts with the pieces as they really are; nothing where they do not fit or leave too narrow a strip.

    Source: derived.
    """
    across, up = job.sizes[sheet]
    wide, high = outline_of(node, sizes=job.piece_sizes)
    if wide > across or high > up:
        return None
    real = refitted(node, across=across, up=up, sizes=job.piece_sizes)
    return real if leaves_strips(real, across=across, up=up, can_be_left=job.can_be_left) else None
