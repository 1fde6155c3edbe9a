"""Pieces that are cut, in the cutting problems of a job: they stay, and the rest is planned over what is left.

A piece is ticked under the problems of all groups that may share its stock. While these are what they were, nothing is
frozen: its tick is a line of their plans. Once they ask for something else (a size has changed, a piece is spoiled),
every piece cut under the old ones keeps its stick and its place, and what is left is searched for again.

What a begun board has left are the strips that it was ripped into; the rest of its width, not ripped, is an off-cut as
ever, and is planned on once it is on the rack and taken from there. Grain that runs round a frame is kept among the
pieces that are still to cut; whether it meets that of the pieces cut before is for the eye.
"""

from collections.abc import Iterable, Mapping, Sequence
from hashlib import sha256

from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.runs import FrameRun
from framecalc.plan.timber.stock import StockOffer
from framecalc.project.pieces_cut import PieceCut
from framecalc.records import replace
from framecalc.timber.sticks.answer import PlacedPiece
from framecalc.timber.sticks.begun import BegunStick, CutPiece, begun_first, left_to_cut
from framecalc.timber.sticks.problem import Piece, PieceName, Purpose, Stock, hash_of
from framecalc.units import TOLERANCE_MM

Groups = tuple[TimberGroup, ...]

MEMBER, LEDGE, STRIP = "member", "ledge", "strip"
"""What a piece is part of."""


def part_of_run(run: FrameRun) -> str:
    """What the pieces of a run are.

    Source: derived.
    """
    return STRIP if run.is_strip else LEDGE if run.is_ledge else MEMBER


def run_of(piece: PieceCut, runs: Iterable[FrameRun]) -> FrameRun | None:
    """The run that a cut piece belongs to; None where its frame is gone.

    Source: derived.
    """
    return next((run for run in runs if (run.frame.frame.id, part_of_run(run)) == (piece.frame, piece.part)), None)


def name_of_cut(piece: PieceCut, runs: Iterable[FrameRun]) -> PieceName:
    """What a cut piece is in the cutting plans.

    Source: derived.
    """
    return piece.purpose, _frame_name(piece, run_of(piece, runs)), piece.copy_number, piece.side


def entry_of(key: str, typed: Iterable[str]) -> str:
    """The entry of the stock that sticks are of; blank for none.

    Source: derived.

    >>> entry_of("s1.4", ["s1", "s12"]), entry_of("s2", ["s1"])
    ('s1', '')
    """
    return next((one for one in typed if _is_of(key, one)), "")


def asked_of(groups: Iterable[TimberGroup]) -> str:
    """The name of what is asked of the cutting plans of some groups.

    Source: derived (SHA-256 of the hashes of their problems).
    """
    return sha256(" ".join(hash_of(group.searched) for group in groups).encode()).hexdigest()[:16]


def sharing_stock(groups: Sequence[TimberGroup]) -> list[Groups]:
    """The groups that may take from the same stock, directly or through others, in their order.

    Source: derived.
    """
    sets: list[Groups] = []
    for group in groups:
        touched = [one for one in sets if any(group.shares_stock_with(other) for other in one)]
        sets = [one for one in sets if one not in touched] + [(*(other for one in touched for other in one), group)]
    return [tuple(sorted(one, key=groups.index)) for one in sets]


def begun_groups(groups: Groups, *, cut: Sequence[PieceCut]) -> Groups:
    """The groups of a job with the pieces that are cut: those of other problems are frozen.

    Source: derived.
    """
    if not cut:
        return groups
    by_group = _of_groups(groups, cut)
    frozen = [one for together in sharing_stock(groups) for one in _settled(together, by_group)]
    return tuple(sorted(frozen, key=lambda one: [other.section for other in groups].index(one.section)))


_ByGroup = Mapping[object, tuple[PieceCut, ...]]
"""The pieces cut of each group, by its section."""


def _of_groups(groups: Groups, cut: Iterable[PieceCut]) -> _ByGroup:
    found: dict[object, tuple[PieceCut, ...]] = {}
    for one in cut:
        group = _group_of(one, groups)
        if group is not None:
            found[group.section] = (*found.get(group.section, ()), one)
    return found


def _group_of(piece: PieceCut, groups: Groups) -> TimberGroup | None:
    """The group that has the run of a piece; where that is gone, one of its section."""
    of_run = (group for group in groups if run_of(piece, group.runs))
    return next(of_run, next((group for group in groups if _has_section(piece, group)), None))


def _settled(groups: Groups, by_group: _ByGroup) -> Groups:
    """Groups that share stock: as they were asked for when the last pieces were cut, or with all of these frozen."""
    cut = [one for group in groups for one in by_group.get(group.section, ())]
    for asked in dict.fromkeys(one.asked for one in reversed(cut)):
        found = _frozen(groups, by_group, now=asked)
        if asked_of(found) == asked:
            return found
    return _frozen(groups, by_group, now="")


def _frozen(groups: Groups, by_group: _ByGroup, *, now: str) -> Groups:
    """Groups with every piece frozen that was not cut under what is asked now, or that is spoiled."""
    frozen = {
        group.section: [one for one in by_group.get(group.section, ()) if one.asked != now or one.spoiled]
        for group in groups
    }
    if not any(frozen.values()):
        return groups
    begun = [_begun_sticks(group, frozen[group.section]) for group in groups]
    taken: dict[str, set[int]] = {}
    for one in (one for sticks in begun for one in sticks):
        taken.setdefault(one.stock.id, set()).add(one.number)
    jobs = begun_first(
        [
            left_to_cut(group.problem, begun=sticks, taken=taken, done=_done(group, frozen[group.section]))
            for group, sticks in zip(groups, begun, strict=True)
        ]
    )
    return tuple(
        replace(group, left=job, offers=_offers(group, job.problem.stock), begun_offers=group.offers)
        for group, job in zip(groups, jobs, strict=True)
    )


def _offers(group: TimberGroup, stock: Iterable[Stock]) -> dict[str, StockOffer]:
    """The offers of the sticks that are left: what begun ones have left lies there milled; a run of whole ones is one.

    An estimate has none.
    """
    if not group.offers:
        return {}
    typed = {one.id: entry_of(one.id, group.offers) for one in stock}
    return {
        one.id: replace(group.offers[typed[one.id]], stock=one) if typed[one.id] else StockOffer(stock=one)
        for one in stock
    }


def _is_of(key: str, typed: str) -> bool:
    """Whether sticks are of an entry of the stock; what is allotted of it, or numbered on, has more behind a point."""
    return key == typed or key.startswith(f"{typed}.")


def _begun_sticks(group: TimberGroup, cut: Iterable[PieceCut]) -> tuple[BegunStick, ...]:
    """The sticks of which pieces of a group were cut, by stock and number."""
    by_stick: dict[tuple[str, str, int], list[PieceCut]] = {}
    for one in cut:
        by_stick.setdefault((one.stock, one.stick if not one.stock else "", one.number), []).append(one)
    return tuple(_begun(group, of_stick) for _, of_stick in sorted(by_stick.items()))


def _begun(group: TimberGroup, cut: Sequence[PieceCut]) -> BegunStick:
    first, known = cut[0], {one.id: one for one in group.problem.stock}
    strips = tuple(sorted({strip for one in cut for strip in one.strips}))
    stock = known.get(first.stock) or Stock(
        name=first.stick, length_mm=first.stick_length.mm, in_hand=True, id=first.stock, strips=max(strips)
    )
    return BegunStick(
        stock=stock,
        number=first.number,
        cut=tuple(CutPiece(strip=one.strip, placed=_placed(one, group)) for one in cut),
        strips=tuple(strip for strip in strips if strip <= stock.strips),
        is_put_away=(is_away := any(one.away for one in cut)) or not _has_section(first, group),
        is_other=not is_away and not _has_section(first, group),
    )


def _placed(one: PieceCut, group: TimberGroup) -> PlacedPiece:
    run = run_of(one, group.runs)
    piece = Piece(
        frame=_frame_name(one, run),
        copy=one.copy_number,
        side=one.side,
        length_mm=one.length.mm,
        purpose=Purpose.SPOILED if one.spoiled else Purpose(one.purpose),
    )
    return PlacedPiece(piece=piece, start_mm=one.start.mm)


def _frame_name(one: PieceCut, run: FrameRun | None) -> str:
    """What a piece is called by: test pieces are of no frame, and one whose frame is gone keeps what is chalked."""
    return run.name if run and Purpose(one.purpose) is not Purpose.TEST else one.name


def _done(group: TimberGroup, cut: Iterable[PieceCut]) -> frozenset[PieceName]:
    """The pieces of a group that are not to be cut any more."""
    return frozenset(name_of_cut(one, group.runs) for one in cut if not one.spoiled)


def _has_section(piece: PieceCut, group: TimberGroup) -> bool:
    """Whether a piece was cut from wood of the section that the group has now."""
    sizes = ((piece.width, group.section.width_mm), (piece.thickness, group.section.thickness_mm))
    return all(abs(size.mm - wanted_mm) <= 2 * TOLERANCE_MM for size, wanted_mm in sizes)
