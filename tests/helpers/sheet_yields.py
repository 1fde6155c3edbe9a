"""What a rectangle yields, by trying every edge-to-edge cut on every whole millimetre."""

from collections.abc import Callable, Sequence
from functools import cache


def all_yields(sizes: tuple[tuple[int, int], ...], strip: int) -> Callable[[int, int], frozenset[int]]:
    """All sets of parts that a rectangle yields, a part a bit: every edge-to-edge cut is tried, on every whole
    millimetre. The two sides of a cut may change places, so cuts beyond the middle yield nothing else."""
    least = max(1, strip)

    @cache
    def yields(across: int, up: int) -> frozenset[int]:
        found = {0} | {1 << part for part, size in enumerate(sizes) if size in ((across, up), (up, across))}
        for at in range(least, across // 2 + 1):
            found |= _together(yields(at, up), yields(across - at, up))
        for at in range(least, up // 2 + 1):
            found |= _together(yields(across, at), yields(across, up - at))
        return frozenset(found)

    return yields


def _together(one: frozenset[int], other: frozenset[int]) -> set[int]:
    return {here | there for here in one for there in other if not here & there}


def best_yield(sizes: Sequence[tuple[int, int]], shares: Sequence[int], *, may_turn: bool) -> Callable[[int, int], int]:
    """The largest share of a rectangle where each part may be cut any number of times."""
    known = [(across, up, share) for (across, up), share in zip(sizes, shares, strict=True)]
    ways = [*known, *((up, across, share) for across, up, share in known if may_turn)]

    @cache
    def best(across: int, up: int) -> int:
        own = max((share for wide, high, share in ways if wide <= across and high <= up), default=0)
        beside = (best(at, up) + best(across - at, up) for at in range(1, across // 2 + 1))
        above = (best(across, at) + best(across, up - at) for at in range(1, up // 2 + 1))
        return max(own, *beside, *above, 0)

    return best
