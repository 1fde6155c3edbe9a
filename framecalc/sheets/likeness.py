"""One way of cutting for all sheets that yield the same parts: the largest left-over, then the fewest cuts.

A layout is paid for by its sheets; how each is cut up is free. Sheets that are cut alike are cut faster and with fewer
mistakes, and each of them keeps one large left-over instead of several small ones.
"""

from collections.abc import Iterable, Sequence
from random import Random

from framecalc.records import replace
from framecalc.search.watch import Watch
from framecalc.sheets.guillotine import FilledArea, cut_count
from framecalc.sheets.packing import FilledSheet, fill, ordered
from framecalc.sheets.whole_numbers import LayoutJob

TRIES = 40
"""How often a sheet is filled again with its own parts."""

Yield = tuple[int, int, tuple[int, ...]]
"""What sheets must have in common to be cut alike: across, up, and the pieces."""


def cut_alike(
    layout: Sequence[FilledSheet], *, job: LayoutJob, random: Random, watch: Watch
) -> tuple[FilledSheet, ...]:
    """Cut all sheets that yield the same pieces in the same way, the best one known or found by some tries.

    Source: derived.
    """
    best: dict[Yield, FilledSheet] = {}
    for filled in layout:
        best[_yield(filled, job)] = min(best.get(_yield(filled, job), filled), filled, key=lambda one: _cost(one, job))
    for key, filled in best.items():
        best[key] = min(filled, *_tried(filled, job, random, watch), key=lambda one: _cost(one, job))
    return tuple(replace(best[_yield(filled, job)], sheet=filled.sheet) for filled in layout)


def _tried(filled: FilledSheet, job: LayoutJob, random: Random, watch: Watch) -> Iterable[FilledSheet]:
    """The same pieces on the same sheet in other orders, where they find a place again."""
    yield filled
    for _ in range(TRIES if len(filled.pieces) > 1 else 0):
        if watch.over:
            return
        other, rest = fill(filled.sheet, ordered(filled.pieces, job, random), job=job, random=random)
        if not rest:
            yield other


def _yield(filled: FilledSheet, job: LayoutJob) -> Yield:
    sheet = job.sheets[filled.sheet]
    return sheet.across, sheet.up, tuple(sorted(filled.pieces))


def _cost(filled: FilledSheet, job: LayoutJob) -> tuple[int, int]:
    """The lower the better: by the largest left-over, then by the number of cuts."""
    sheet = job.sheets[filled.sheet]
    return -filled.left_over, cut_count(FilledArea(0, 0, sheet.across, sheet.up, filled.node))
