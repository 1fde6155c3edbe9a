"""All ways to fill one sheet with the pieces that are wanted, where they are few enough to be listed.

A *block* is a handful of pieces cut from one rectangle, and its *outlines* are the rectangles they can be cut from.
Two blocks, side by side or one above the other, make a larger block; what fits no sheet is dropped, so that few are
left. No piece is used more often than it is wanted, which makes the list smaller and what it proves stronger than a
table of places.

Where narrow strips do not break off, a part cannot be cut from a rectangle that is larger by less than the *gap*, the
least strip. An outline is *loose* in a direction where it has waste all along that may be wider still.
"""

from bisect import bisect_right
from collections.abc import Iterator
from itertools import product
from operator import add, itemgetter, le, mul

from framecalc.records import Record
from framecalc.search.watch import Watch
from framecalc.sheets.guillotine import WASTE, CutAxis, Node, Part, Strips
from framecalc.sheets.whole_numbers import LayoutJob, Size

MOST_JOINED = 1_500_000
"""Pairs of outlines that may be joined before the list is given up, some three seconds."""

Counts = tuple[int, ...]

_AXES = tuple((axis.value, axis) for axis in CutAxis)


class BlockOutline(Record, kw_only=False):
    """A rectangle that a block can be cut from, and how: one part, or two outlines joined along an axis."""

    size: Size
    loose: tuple[bool, bool]
    gap: int
    axis: CutAxis = CutAxis.ACROSS
    halves: "tuple[BlockOutline, ...]" = ()
    part: Part | None = None

    def fits(self, size: Size) -> bool:
        """Whether it can be cut from a rectangle: of its size, larger by the gap, or larger by anything where loose."""
        return all(
            whole == own or whole >= own + (0 if loose else self.gap)
            for whole, own, loose in zip(size, self.size, self.loose, strict=True)
        )

    def node(self, size: Size) -> Node:
        """The tree of cuts that cuts it from a rectangle that it fits."""
        if self.part:
            return _cut_to(CutAxis.UP, _cut_to(CutAxis.ACROSS, self.part, self.size[0], size[0]), self.size[1], size[1])
        along = self.axis.value
        lengths = [half.size[along] for half in self.halves]
        rest = size[along] - sum(lengths)
        if 0 < rest < self.gap:
            lengths[0 if self.halves[0].loose[along] else 1] += rest
        strips = (
            (length, half.node(_with_length(size, along, length)))
            for length, half in zip(lengths, self.halves, strict=True)
        )
        return Strips(self.axis, tuple(strips))


Block = tuple[Counts, list[BlockOutline]]
Level = dict[Counts, list[BlockOutline]]
"""Blocks of one number of pieces."""


class Blocks(Record):
    """Every block of a job with an outline on each kind of sheet that takes it."""

    sizes: tuple[Size, ...]
    on_sheets: tuple[tuple[tuple[Counts, BlockOutline], ...], ...]

    def best_yields(self, shares: tuple[int, ...]) -> tuple[tuple[int, Node], ...]:
        """The largest share that each kind of sheet yields, and a tree of cuts that yields it."""
        return tuple(_best(blocks, shares, size) for blocks, size in zip(self.on_sheets, self.sizes, strict=True))


def list_blocks(job: LayoutJob, *, watch: Watch, most_waste: int | None = None) -> Blocks | None:
    """List all blocks of a job; nothing where they are too many, or the search is stopped.

    Args:
        most_waste: what a block, or a sheet around it, may waste of its area; None for anything.
    Source: derived; combining rectangles after Wang, "Two algorithms for constrained two-dimensional cutting stock
        problems", 1983, from memory, not re-read.
    """
    by_number: list[Level] = [{}, _single_pieces(job)]
    joined = 0
    while by_number[-1]:
        larger: Level = {}
        for few in range(1, len(by_number) // 2 + 1):
            for first, second in _pairs(by_number[few], by_number[len(by_number) - few], job):
                joined += len(first[1]) * len(second[1])
                if joined > MOST_JOINED or watch.over:
                    return None
                _join(first, second, larger, job=job, most_waste=most_waste)
        by_number.append(larger)
    return Blocks(
        sizes=job.sizes,
        on_sheets=tuple(tuple(_on_sheet(by_number, size, job=job, most_waste=most_waste)) for size in job.sizes),
    )


def shared_length(one: int, other: int, *, loose: tuple[bool, bool], gap: int) -> tuple[int, bool]:
    """Find the least length that two outlines side by side can both have, and whether any larger one fits too.

    Each can have its own length, or any that is larger by the gap; a loose one any larger length.

    Source: derived.

    >>> shared_length(100, 80, loose=(False, False), gap=12)
    (100, False)
    >>> shared_length(100, 95, loose=(False, False), gap=12)
    (112, True)
    """
    (shorter, free_shorter), (longer, free_longer) = sorted(
        (length, length if is_loose else length + gap) for length, is_loose in zip((one, other), loose, strict=True)
    )
    free = max(free_shorter, free_longer)
    if longer == shorter or longer >= free_shorter:
        return longer, longer == free
    return free, True


def _single_pieces(job: LayoutJob) -> Level:
    loose = not job.gap
    return {
        tuple(int(other == number) for other in range(len(job.pieces))): [
            BlockOutline((across, up), (loose, loose), job.gap, part=Part(number, is_turned))
            for across, up, is_turned in piece.ways
            if any(across <= wide and up <= high for wide, high in job.sizes)
        ]
        for number, piece in enumerate(job.pieces)
    }


def _pairs(few: Level, many: Level, job: LayoutJob) -> Iterator[tuple[Block, Block]]:
    """Pairs of blocks whose pieces together are wanted and no larger than a sheet."""
    room, wanted = max(sheet.size for sheet in job.sheets), job.counts
    by_size = sorted(((_size(counts, job), (counts, outlines)) for counts, outlines in many.items()), key=itemgetter(0))
    for first in few.items():
        spare = room - _size(first[0], job)
        for _, second in by_size[: bisect_right(by_size, spare, key=itemgetter(0))]:
            if all(map(le, map(add, first[0], second[0]), wanted)):
                yield first, second


def _size(counts: Counts, job: LayoutJob) -> int:
    return sum(count * piece.across * piece.up for count, piece in zip(counts, job.pieces, strict=True) if count)


def _join(first: Block, second: Block, larger: Level, *, job: LayoutJob, most_waste: int | None) -> None:
    """Put two blocks side by side and one above the other, and keep what a sheet has room for."""
    counts = tuple(map(add, first[0], second[0]))
    known, longest = larger.get(counts, []), job.longest
    most = longest[0] * longest[1] if most_waste is None else _size(counts, job) + most_waste
    for one, other in product(first[1], second[1]):
        for along, axis in _AXES:
            length = one.size[along] + other.size[along]
            beside = max(one.size[1 - along], other.size[1 - along])
            if length <= longest[along] and length * beside <= most:
                known = _with(known, one, other, axis, job)
    if known:
        larger[counts] = known


def _with(
    known: list[BlockOutline], one: BlockOutline, other: BlockOutline, axis: CutAxis, job: LayoutJob
) -> list[BlockOutline]:
    """Join two outlines, unless that fits no sheet or a known one does as well; drop those that it makes needless."""
    along, beside = axis.value, 1 - axis.value
    length = one.size[along] + other.size[along]
    is_loose = one.loose[along] or other.loose[along]
    shared, is_free = shared_length(
        one.size[beside], other.size[beside], loose=(one.loose[beside], other.loose[beside]), gap=job.gap
    )
    size, loose = (
        ((length, shared), (is_loose, is_free)) if axis is CutAxis.ACROSS else ((shared, length), (is_free, is_loose))
    )
    if not any(size[0] <= across and size[1] <= up for across, up in job.sizes):
        return known
    if any(_does_as_well(outline.size, outline.loose, size, loose, job.gap) for outline in known):
        return known
    kept = [outline for outline in known if not _does_as_well(size, loose, outline.size, outline.loose, job.gap)]
    return [*kept, BlockOutline(size, loose, job.gap, axis, (one, other))]


def _does_as_well(size: Size, loose: tuple[bool, bool], other: Size, other_loose: tuple[bool, bool], gap: int) -> bool:
    """Whether every rectangle that the other can be cut from does for this one."""
    for own, own_loose, its, its_loose in zip(size, loose, other, other_loose, strict=True):
        if own > its or not (own_loose or its >= own + gap or (its == own and not its_loose)):
            return False
    return True


def _on_sheet(
    by_number: list[Level], size: Size, *, job: LayoutJob, most_waste: int | None
) -> Iterator[tuple[Counts, BlockOutline]]:
    across, up = size
    for blocks in by_number:
        for counts, outlines in blocks.items():
            fitting = [outline for outline in outlines if outline.fits(size)]
            if fitting and (most_waste is None or across * up - _size(counts, job) <= most_waste):
                yield counts, fitting[0]


def _best(blocks: tuple[tuple[Counts, BlockOutline], ...], shares: tuple[int, ...], size: Size) -> tuple[int, Node]:
    share, outline = max(
        ((sum(map(mul, counts, shares)), outline) for counts, outline in blocks),
        key=lambda found: found[0],
        default=(0, None),
    )
    return (share, outline.node(size)) if outline and share else (0, WASTE)


def _with_length(size: Size, along: int, length: int) -> Size:
    return (length, size[1]) if along == CutAxis.ACROSS.value else (size[0], length)


def _cut_to(axis: CutAxis, node: Node, size: int, of: int) -> Node:
    return node if size == of else Strips(axis, ((size, node),))
