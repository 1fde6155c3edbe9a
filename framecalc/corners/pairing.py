"""Pairing: which sides of a batch go into one frame, so that the worst frame is as good as possible.

Every frame needs some members of each *kind* (two across and two up; four equal ones in a square frame). The sum of the
errors of its ends decides how well it closes, so errors of opposite sign go together. For few frames every arrangement
is tried; for many, frames exchange members until no exchange helps the worst one, and the result is compared with a
*bound* that no arrangement can beat: the errors of all, shared evenly.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations, product
from random import Random

from framecalc.corners.saw import MOST_ERROR_DEG
from framecalc.errors import OutOfRange
from framecalc.limits import require_between
from framecalc.records import Record

MOST_SEARCHED = 6
"""Frames up to which every arrangement is tried; six frames of four have 8 · 10¹⁰ of them, most cut off early."""

SEARCH_STEPS = 200_000
"""Frames tried before the search gives up its proof; about a second."""

STARTS = 12
"""Shuffled beginnings from which members are exchanged, always the same ones."""

MOST_FRAMES = 100

_ENOUGH_DEG = 1e-9


class LooseMember(Record):
    """A side that belongs to no frame yet: its name, and by how much its two angles together are too large."""

    name: str
    error_deg: float


class FrameMembers(Record):
    """The members of one frame, kind after kind, and the error of all its ends together."""

    names: tuple[str, ...]
    total_error_deg: float


class Pairing(Record):
    """All frames of a batch. No arrangement has a worst frame below the bound; `proved` when none is better at all."""

    frames: tuple[FrameMembers, ...]
    worst_deg: float
    bound_deg: float
    proved: bool


_Frame = tuple[LooseMember, ...]
_Kinds = tuple[tuple[LooseMember, ...], ...]


def pair_sides(kinds: Sequence[Sequence[LooseMember]], *, frames: int) -> Pairing:
    """Put the sides of a batch together so that the largest total error of any frame is least.

    Bound: ``max |Σ_f| ≥ |Σ_all| / N``.

    Args:
        kinds: the members that can stand for each other, each kind with the same number for every frame.
        frames: N, 1 to 100.
    Raises:
        OutOfRange: too few or too many frames, a kind that does not divide among them, or an error that is none.
    Source: derived.

    >>> across = [LooseMember(name=name, error_deg=error) for name, error in zip("abcd", (0.3, 0.3, -0.3, -0.3))]
    >>> up = [LooseMember(name=name, error_deg=0.0) for name in "efgh"]
    >>> pairing = pair_sides([across, up], frames=2)
    >>> pairing.worst_deg, pairing.proved
    (0.0, True)
    """
    checked = _checked(kinds, frames)
    bound_deg = abs(sum(member.error_deg for kind in checked for member in kind)) / frames
    dealt = (_exchanged(_dealt(checked, frames, start), checked) for start in range(STARTS))
    search = _Search(best=min(dealt, key=_worst_deg), frames=frames)
    if frames <= MOST_SEARCHED and search.worst_deg > bound_deg + _ENOUGH_DEG:
        search.run(checked)
    return Pairing(
        frames=tuple(
            FrameMembers(names=tuple(member.name for member in frame), total_error_deg=_total_deg(frame))
            for frame in search.best
        ),
        worst_deg=search.worst_deg,
        bound_deg=search.worst_deg if search.finished else bound_deg,
        proved=search.finished or search.worst_deg <= bound_deg + _ENOUGH_DEG,
    )


class _Search:
    """Tries every arrangement that could beat the best so far, frame by frame, while its steps last."""

    def __init__(self, *, best: list[_Frame], frames: int) -> None:
        self.best = best
        self.worst_deg = _worst_deg(best)
        self.finished = False
        self._frames = frames
        self._steps_left = SEARCH_STEPS

    def run(self, kinds: _Kinds) -> None:
        """Search through to the end, or until the steps run out."""
        self._fill(kinds, [])
        self.finished = bool(self._steps_left)

    def _fill(self, left: _Kinds, done: list[_Frame]) -> None:
        frames_left = self._frames - len(done)
        if not frames_left:
            self.best, self.worst_deg = done, _worst_deg(done)
            return
        for frame, rest in _next_frames(left, frames_left):
            self._steps_left = max(self._steps_left - 1, 0)
            if not self._steps_left:
                return
            if self._could_win(frame, rest, frames_left - 1):
                self._fill(rest, [*done, frame])

    def _could_win(self, frame: _Frame, rest: _Kinds, frames_left: int) -> bool:
        limit_deg = self.worst_deg - _ENOUGH_DEG
        rest_deg = abs(sum(member.error_deg for kind in rest for member in kind))
        return abs(_total_deg(frame)) < limit_deg and (not frames_left or rest_deg / frames_left < limit_deg)


def _next_frames(left: _Kinds, frames_left: int) -> Iterator[tuple[_Frame, _Kinds]]:
    """Every next frame, which always takes the first member left, so that no arrangement comes twice."""
    first, *others = [list(combinations(kind, len(kind) // frames_left)) for kind in left]
    with_the_first = [chosen for chosen in first if chosen[0] is left[0][0]]
    for chosen in product(with_the_first, *others):
        frame = tuple(member for members in chosen for member in members)
        taken = {member.name for member in frame}
        yield frame, tuple(tuple(member for member in kind if member.name not in taken) for kind in left)


def _dealt(kinds: _Kinds, frames: int, start: int) -> list[_Frame]:
    """Deal every kind to the frames, shuffled; the first start deals them as they come."""
    dealt: list[_Frame] = [()] * frames
    for kind in kinds:
        members = Random(start).sample(kind, len(kind)) if start else list(kind)
        dealt = [(*frame, *members[number::frames]) for number, frame in enumerate(dealt)]
    return dealt


def _exchanged(frames: list[_Frame], kinds: _Kinds) -> list[_Frame]:
    """Exchange members of a kind with the worst frame, each time the best exchange, until no exchange helps."""
    alike = _places_alike([len(kind) // len(frames) for kind in kinds])
    while True:
        worst = max(range(len(frames)), key=lambda number: abs(_total_deg(frames[number])))
        exchanges = (
            (other, *_swapped(frames[worst], frames[other], at, to))
            for other in range(len(frames))
            if other != worst
            for at, to in alike
        )
        best = min(exchanges, key=lambda exchange: _worst_deg(exchange[1:]), default=None)
        if best is None or _worst_deg(best[1:]) >= abs(_total_deg(frames[worst])) - _ENOUGH_DEG:
            return frames
        other, frames[worst], frames[other] = best[0], best[1], best[2]


def _places_alike(counts: list[int]) -> list[tuple[int, int]]:
    """The places in a frame, two by two, that take members of the same kind."""
    kind_at = [kind for kind, count in enumerate(counts) for _ in range(count)]
    places = range(len(kind_at))
    return [(at, to) for at in places for to in places if kind_at[at] == kind_at[to]]


def _swapped(one: _Frame, other: _Frame, at: int, to: int) -> tuple[_Frame, _Frame]:
    return (*one[:at], other[to], *one[at + 1 :]), (*other[:to], one[at], *other[to + 1 :])


def _total_deg(frame: _Frame) -> float:
    return sum(member.error_deg for member in frame)


def _worst_deg(frames: Sequence[_Frame]) -> float:
    return max(abs(_total_deg(frame)) for frame in frames)


def _checked(kinds: Sequence[Sequence[LooseMember]], frames: int) -> _Kinds:
    require_between(1, MOST_FRAMES, frames=frames)
    members = [member for kind in kinds for member in kind]
    for member in members:
        require_between(-2 * MOST_ERROR_DEG, 2 * MOST_ERROR_DEG, error_deg=member.error_deg)
    if len({member.name for member in members}) != len(members):
        raise OutOfRange("Two sides have the same name: add a number to each.", field="name")
    for kind in kinds:
        if not kind or len(kind) % frames:
            raise OutOfRange(f"{len(kind)} sides of a kind do not make {frames} frames.", field="frames")
    return tuple(tuple(kind) for kind in kinds)
