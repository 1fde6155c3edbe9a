"""Trying every way: with a list of all blocks of a job, find whether any layout is cheaper than a price.

The piece with the largest share that is still needed must come from some sheet; every block that has it is tried on
every kind of sheet in turn. A branch ends when the shares prove that the money is not enough, and a state that failed
once with as much money is not tried again.
"""

from collections.abc import Iterator
from operator import ge, mul, sub

from framecalc.records import Mutable, Record, field
from framecalc.search.watch import Watch
from framecalc.sheets.blocks import Blocks, Counts
from framecalc.sheets.bounds import SheetCertificate, SheetKind, kinds_of, price_in_fractions
from framecalc.sheets.packing import FilledSheet, filled_sheet
from framecalc.sheets.whole_numbers import LayoutJob

MOST_STATES = 20_000
"""Stages of cutting that are looked at before the trial is given up. Ours."""


class Trial(Record):
    """The result: a cheaper layout, or none, and whether every way was tried."""

    layout: tuple[FilledSheet, ...] = ()
    is_complete: bool


class _GaveUp(Exception):
    """There are more ways than are tried."""


class _State(Mutable):
    """The state of the trial: blocks, shares, and for each remainder the money that was not enough."""

    blocks: Blocks
    job: LayoutJob
    shares: tuple[int, ...]
    kinds: tuple[SheetKind, ...]
    watch: Watch
    failed: dict[tuple[Counts, Counts], int] = field(default_factory=dict)
    stages: int = 0


def try_every_way(blocks: Blocks, *, job: LayoutJob, certificate: SheetCertificate, below: int, watch: Watch) -> Trial:
    """Look for a layout with a price below one.

    Args:
        certificate: its shares show which branches are hopeless.
    Source: derived (branch and bound).
    """
    state = _State(
        blocks=blocks,
        job=job,
        shares=certificate.shares.pieces,
        kinds=kinds_of(certificate.shares, job=job),
        watch=watch,
    )
    room = tuple(sheet.count for sheet in job.sheets)
    try:
        found = _finish(tuple(job.counts), room, below - 1, state)
    except _GaveUp:
        return Trial(is_complete=False)
    return Trial(layout=tuple(found or ()), is_complete=True)


def _finish(wanted: Counts, room: Counts, money: int, state: _State) -> list[FilledSheet] | None:
    """A list of sheets that yields all that is wanted for the money; nothing where there is none."""
    if not any(wanted):
        return []
    share = sum(map(mul, wanted, state.shares))
    if price_in_fractions(state.kinds, share, enough=money + 1) > money:
        return None
    failed = state.failed.get((wanted, room))
    if failed is not None and failed >= money:
        return None
    state.stages += 1
    if state.stages > MOST_STATES or state.watch.over:
        raise _GaveUp
    for sheet, filled, left in _ways(wanted, room, money, state):
        fewer = (*room[:sheet], room[sheet] - 1, *room[sheet + 1 :])
        rest = _finish(left, fewer, money - state.job.sheets[sheet].price, state)
        if rest is not None:
            return [filled, *rest]
    state.failed[wanted, room] = money
    return None


def _ways(wanted: Counts, room: Counts, money: int, state: _State) -> Iterator[tuple[int, FilledSheet, Counts]]:
    """Each kind of sheet that there is money for, with each block that has the hardest piece and spoils nothing."""
    hardest = max(range(len(wanted)), key=lambda piece: (wanted[piece] > 0, state.shares[piece]))
    for sheet, outlines in enumerate(state.blocks.on_sheets):
        if not room[sheet] or state.job.sheets[sheet].price > money:
            continue
        useful = [(counts, outline) for counts, outline in outlines if counts[hardest] and all(map(ge, wanted, counts))]
        useful.sort(key=lambda block: -sum(map(mul, block[0], state.shares)))
        tried: list[Counts] = []
        for counts, outline in useful:
            if any(all(map(ge, other, counts)) for other in tried):
                continue
            tried.append(counts)
            node = outline.node(state.blocks.sizes[sheet])
            yield sheet, filled_sheet(sheet, node, job=state.job), tuple(map(sub, wanted, counts))
