"""The search for a layout: by trial first, by proof as soon as it can be had, for left-overs and likeness last.

What comes back has a price and a lower bound on the price of any layout. Where they meet, the layout is proved best;
where they do not, the difference is all that could still be saved.
"""

from collections.abc import Callable, Iterable, Sequence
from itertools import chain, repeat
from random import Random

from framecalc.records import replace
from framecalc.search.watch import Watch
from framecalc.sheets.bars import bar_certificates
from framecalc.sheets.blocks import Blocks, list_blocks
from framecalc.sheets.bounds import simple_certificate
from framecalc.sheets.coarse import coarse_table, rounded, set_out
from framecalc.sheets.columns import ColumnSearch, Yields, choose_whole, make_columns
from framecalc.sheets.counted import counted_certificates
from framecalc.sheets.exhaustion import try_every_way
from framecalc.sheets.fewer import ROUNDS, cheaper_purchases, filled_purchase, most_waste
from framecalc.sheets.likeness import cut_alike
from framecalc.sheets.packing import (
    FilledSheet,
    by_crowding,
    by_left_over,
    filled_sheet,
    first_layout,
    improved,
    price_of,
)
from framecalc.sheets.places import MOST_WORK, pattern_table
from framecalc.sheets.whole_numbers import LayoutJob

FIRST_ROUNDS, MORE_ROUNDS, LEFT_OVER_ROUNDS = 400, 2_500, 1_000
"""Rounds of breaking up and filling again: before the proof, after it where it failed, and for the left-over."""

ANEW_ROUNDS = 1_000
"""Rounds after each beginning from another layout. Ours."""

BARS_SHARE_S = 5.0
"""The longest that bounds by bars may take [s]. Ours."""

CHEAPER_AT_FIRST = 2_000
"""Rounds of filling cheaper purchases before bounds that take longer."""

CHEAPER_A_PART = 200
"""Rounds for each part: small jobs need fewer."""

MEASURED_PARTS = 60
"""Parts up to which a round is quick; beyond, the time of a round grows with their square."""

CHEAPER_SHARE_S = 6.0
"""The longest that cheaper purchases may be filled at a time [s]."""

COUNTED_SHARE_S = 8.0
"""The longest that the bound by counted pieces may take [s]."""

LAST_RATIO = 0.1
"""The share of the time that is kept for the left-overs, when the proof has not come by then. Ours."""

LAST_S = 2.0
"""What left-overs and likeness may take in any case [s]; they take no longer than the proof if that took more."""

MORE_TRIALS = 3
"""How often trial and choice take turns in the end. Ours."""

FEW_PARTS, FEW_KINDS = 14, 6
"""Jobs of so few parts, or of so few kinds, have their blocks listed. Ours."""

TIGHT_RATIO = 0.1
"""What a cheaper layout may waste, as a share of the largest sheet, for such ways to be listed. Ours."""

TIGHT_SHARE_S = 4.0
"""The longest that listing and trying them may take [s]. Ours."""

LEAST_ALIKE = 2
"""Parts of a kind, on average, from which a bound that uses each kind any number of times pays for its time. Ours."""

SHARE_S = 4.0
"""The longest that one search for columns may take [s]. Ours."""

MOST_POOLED = 3_000
"""Fillings met by trial that are kept for the choice of whole columns. Ours."""

WELL_FILLED_RATIO = 0.75
"""What a filling must use of its sheet to be kept for that choice. Ours."""

Report = Callable[[ColumnSearch], None]


def nobody_asked(search: ColumnSearch) -> None:
    """Tell nobody how the search is going. Source: derived."""


def find_layout(
    job: LayoutJob,
    *,
    watch: Watch,
    report: Report = nobody_asked,
    seed: int = 1,
    most_beginnings: int | None = None,
) -> ColumnSearch:
    """Find the layout with the lowest price, or the best that the time allows, with a bound.

    Args:
        watch: when it is over, the best so far is returned.
        report: called with the search after each step that may have bettered it.
        seed: of the random choices; the same seed and enough time give the same layout.
        most_beginnings: how often to begin anew where the proof fails; None while the time lasts.
    Source: derived.
    """
    random, began_s = Random(seed), watch.clock()
    layout = tuple(first_layout(job, random=random, is_enough=watch.cancelled))
    certificate = simple_certificate(job, is_enough=watch.cancelled)
    search = ColumnSearch(job=job, layout=layout, certificate=certificate)
    to_the_proof = watch.at_most((1 - LAST_RATIO) * watch.remaining_s)
    anew = repeat(_by_beginning_anew) if most_beginnings is None else repeat(_by_beginning_anew, most_beginnings)
    for step in chain(STEPS, anew):
        report(search)
        if search.is_proved or search.is_exhausted or to_the_proof.over:
            break
        step(search, random=random, watch=to_the_proof)
    last = watch.at_most(max(LAST_S, watch.clock() - began_s))
    _for_left_over(search, random=random, watch=last)
    search.layout = cut_alike(search.layout, job=job, random=random, watch=last)
    report(search)
    return search


def _by_first_trial(search: ColumnSearch, *, random: Random, watch: Watch) -> None:
    _by_trial(search, search.layout, rounds=FIRST_ROUNDS, random=random, watch=watch)


def _by_trial(
    search: ColumnSearch, layout: Sequence[FilledSheet], *, rounds: int, random: Random, watch: Watch
) -> None:
    """Break a layout up and fill it again; well filled sheets are kept as columns."""
    tried = improved(
        layout,
        job=search.job,
        random=random,
        rounds=rounds,
        measure=by_crowding,
        is_done=lambda layout: watch.over or search.is_proved,
    )
    for layout in tried:
        _keep(search, layout)


def _keep(search: ColumnSearch, layout: Sequence[FilledSheet]) -> None:
    if price_of(layout, search.job) < search.price:
        search.layout = tuple(layout)
    for filled in _well_filled(layout, search.job):
        if filled.contents not in search.met:
            search.met.add(filled.contents)
            if len(search.columns) < MOST_POOLED:
                search.columns[filled] = None


def _well_filled(layout: Iterable[FilledSheet], job: LayoutJob) -> Iterable[FilledSheet]:
    return (filled for filled in layout if filled.used > WELL_FILLED_RATIO * job.sheets[filled.sheet].size)


def _by_quick_columns(search: ColumnSearch, *, random: Random, watch: Watch) -> None:
    """Bound the price by the best ways to cut a sheet, and choose among these ways."""
    free = replace(search.job, least_strip=0)
    _by_columns_of(free, search, pattern_table(free, keeps_strips=False), random=random, watch=watch)
    if search.job.least_strip and not search.is_proved:
        heeding = pattern_table(search.job, keeps_strips=True)
        make_columns(search, yields=heeding, proves=False, random=random, watch=watch.at_most(SHARE_S))
        choose_whole(search, watch=watch)


def _by_bars(search: ColumnSearch, *, random: Random, watch: Watch) -> None:
    """Bound the price by bars."""
    for certificate in bar_certificates(search.job, watch=watch.at_most(BARS_SHARE_S)):
        search.take(certificate)
        if search.is_proved:
            return


def _by_cheaper_purchases(search: ColumnSearch, *, random: Random, watch: Watch, rounds: int = ROUNDS) -> None:
    """Fill cheaper purchases, as long as one of them takes all parts."""
    share, found = watch.at_most(CHEAPER_SHARE_S), True
    while found and not search.is_proved:
        found = _is_filled_cheaper(search, random=random, watch=share, rounds=rounds)


def _by_cheaper_at_first(search: ColumnSearch, *, random: Random, watch: Watch) -> None:
    _by_cheaper_purchases(search, random=random, watch=watch, rounds=CHEAPER_AT_FIRST)


def _is_filled_cheaper(search: ColumnSearch, *, random: Random, watch: Watch, rounds: int) -> bool:
    """Whether a cheaper purchase takes all parts; that layout is kept."""
    purchases = tuple(cheaper_purchases(search.job, certificate=search.certificate, below=search.price))
    for purchase in purchases:
        each = _rounds_for(search.job, rounds) // len(purchases)
        layout = filled_purchase(search.job, purchase, random=random, watch=watch, rounds=each)
        if layout:
            _keep(search, layout)
            return True
    return False


def _by_counted_pieces(search: ColumnSearch, *, random: Random, watch: Watch) -> None:
    """Bound the price by tables in which pieces are counted."""
    free = replace(search.job, least_strip=0)
    table = pattern_table(free, keeps_strips=False)
    if not table:
        return
    found = counted_certificates(
        table,
        (*search.layout, *search.columns),
        job=free,
        best=search.certificate,
        known=search.price,
        watch=watch.at_most(COUNTED_SHARE_S),
    )
    for certificate in found:
        search.take(certificate)
        if search.is_proved:
            return


def _rounds_for(job: LayoutJob, rounds: int) -> int:
    """The rounds that a job is worth: fewer for few parts, which need less, and for many, of which each takes longer.

    >>> from framecalc.sheets.whole_numbers import WholePart
    >>> job = LayoutJob(pieces=(), sheets=(), kerf=0, least_strip=0, unit=2, coin=1)
    >>> parts = [WholePart(across=9, up=5, count=count, may_turn=False, parts=()) for count in (5, 60, 120)]
    >>> [_rounds_for(replace(job, pieces=(part,)), 12_000) for part in parts]
    [1000, 12000, 3000]
    """
    parts = sum(job.counts)
    return min(rounds, CHEAPER_A_PART * parts, rounds * MEASURED_PARTS**2 // parts**2)


def _by_blocks(search: ColumnSearch, *, random: Random, watch: Watch) -> None:
    """The same from a list of all ways to cut a sheet, where there are few."""
    if sum(search.job.counts) <= FEW_PARTS or len(search.job.pieces) <= FEW_KINDS:
        listed = replace(search.job, least_strip=0) if search.job.kerf else search.job
        blocks = list_blocks(listed, watch=watch.at_most(SHARE_S))
        _by_columns_of(listed, search, blocks, random=random, watch=watch)
        if blocks and listed == search.job:
            _by_every_way(search, blocks, watch=watch.at_most(SHARE_S))


def _by_tight_blocks(search: ColumnSearch, *, random: Random, watch: Watch) -> None:
    """Where a cheaper layout can waste next to nothing, list the ways to fill a sheet that waste no more."""
    job = search.job
    waste = most_waste(job, below=search.price)
    if (job.kerf and job.least_strip) or waste is None or waste > TIGHT_RATIO * max(sheet.size for sheet in job.sheets):
        return
    share = watch.at_most(TIGHT_SHARE_S)
    blocks = list_blocks(job, watch=share, most_waste=waste)
    if blocks:
        _by_every_way(search, blocks, watch=share)


def _by_every_way(search: ColumnSearch, blocks: Blocks, *, watch: Watch) -> None:
    """Try every way that is cheaper, until there is none."""
    while not search.is_proved:
        trial = try_every_way(blocks, job=search.job, certificate=search.certificate, below=search.price, watch=watch)
        if not trial.is_complete:
            return
        if trial.layout:
            search.layout = trial.layout
        else:
            search.ruled_out = search.price


def _by_coarse_columns(search: ColumnSearch, *, random: Random, watch: Watch) -> None:
    """Where many parts are alike: ways to cut a sheet from sizes rounded up, a bound from sizes rounded down."""
    if not _are_alike(search.job):
        return
    rising = coarse_table(search.job)
    make_columns(search, yields=rising, proves=False, random=random, watch=watch.at_most(SHARE_S))
    choose_whole(search, watch=watch)
    if not search.is_proved:
        coarse = rounded(search.job, up=False)
        table = pattern_table(coarse, keeps_strips=False)
        _by_columns_of(coarse, search, table, random=random, watch=watch)


def _by_slow_columns(search: ColumnSearch, *, random: Random, watch: Watch) -> None:
    """Bound the price by a table that was too large to begin with."""
    free = replace(search.job, least_strip=0)
    if _are_alike(free) and not pattern_table(free, keeps_strips=False):
        table = pattern_table(free, keeps_strips=False, most_work=MOST_WORK)
        _by_columns_of(free, search, table, random=random, watch=watch)


def _are_alike(job: LayoutJob) -> bool:
    """Whether there are enough parts of a kind for bounds that may use a kind any number of times."""
    return sum(job.counts) >= LEAST_ALIKE * len(job.pieces)


def _by_columns_of(
    job: LayoutJob, search: ColumnSearch, yields: Yields | None, *, random: Random, watch: Watch
) -> None:
    """Make columns of a job that is no harder: its bound holds, and of its columns those that can really be cut."""
    if not yields:
        return
    same = job == search.job
    other = ColumnSearch(job=job, layout=search.layout, certificate=search.certificate, is_for_bound=not same)
    other.columns = search.columns if same else {}
    make_columns(other, yields=yields, proves=True, random=random, watch=watch.at_most(SHARE_S))
    search.take(other.certificate)
    for column in () if same else other.columns:
        node = set_out(column.node, sheet=column.sheet, job=search.job)
        if node:
            search.columns |= {filled_sheet(column.sheet, node, job=search.job): None}
    if not search.is_proved:
        choose_whole(search, watch=watch)


def _by_more_trial(search: ColumnSearch, *, random: Random, watch: Watch) -> None:
    """Break up and fill again for longer, then choose among all fillings met."""
    if not search.is_proved:
        _by_trial(search, search.layout, rounds=MORE_ROUNDS, random=random, watch=watch)
    if not search.is_proved:
        make_columns(search, yields=None, proves=False, random=random, watch=watch)
        choose_whole(search, watch=watch)


def _by_beginning_anew(search: ColumnSearch, *, random: Random, watch: Watch) -> None:
    """Begin with another layout, break up and fill again, choose among the fillings of all beginnings, and fill
    cheaper purchases from another beginning; and note whether that met anything new.
    """
    known = search.price, len(search.met)
    if len(search.columns) >= MOST_POOLED:
        kept = random.sample(tuple(search.columns), k=MOST_POOLED // 2)
        search.columns = dict.fromkeys((*search.layout, *kept))
    start = first_layout(search.job, random=random, tries=1)
    _by_trial(search, start, rounds=ANEW_ROUNDS, random=random, watch=watch)
    if not search.is_proved:
        choose_whole(search, watch=watch)
    _by_cheaper_purchases(search, random=random, watch=watch)
    if not watch.over:
        search.fruitless = search.fruitless + 1 if known == (search.price, len(search.met)) else 0


def _for_left_over(search: ColumnSearch, *, random: Random, watch: Watch) -> None:
    """Enlarge the largest single left-over at the same price."""
    tried = improved(
        search.layout,
        job=search.job,
        random=random,
        rounds=LEFT_OVER_ROUNDS,
        measure=by_left_over,
        is_done=lambda layout: watch.over,
    )
    search.layout = min((search.layout, *map(tuple, tried)), key=lambda layout: by_left_over(layout, search.job))


STEPS = (
    _by_first_trial,
    _by_quick_columns,
    _by_cheaper_at_first,
    _by_bars,
    _by_blocks,
    _by_tight_blocks,
    _by_cheaper_purchases,
    _by_counted_pieces,
    _by_more_trial,
    _by_coarse_columns,
    _by_more_trial,
    _by_slow_columns,
    *(_by_more_trial,) * MORE_TRIALS,
)
"""The search, step by step; it ends with the step that proves a layout best, and begins anew while that meets anything
new."""
