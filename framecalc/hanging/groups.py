"""Groups of frames on a wall: a row, a column, a grid, a stair, or free; and in which order.

Places are those of the middle of each frame's upright rectangle, across from the left corner of the wall and up from
the floor. With equal *gaps* the wall between two frames is always as wide; with equal *centres* their middles are
equally far apart, so that the gap is the least between the two largest neighbours.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from enum import StrEnum
from itertools import combinations, pairwise, permutations

from framecalc.errors import ImpossibleSize
from framecalc.limits import require_not_negative
from framecalc.records import Record, replace
from framecalc.units import TOLERANCE_MM

FEW = 7
"""So many frames are tried in every order; of more the largest goes to the middle and the others beside it in turn.
Ours, no source."""

_NOISE = 3
"""To so many decimals two orders are alike."""


class Arrangement(StrEnum):
    """How frames stand together."""

    ROW = "row"
    COLUMN = "column"
    GRID = "grid"
    STAIR = "stair"
    FREE = "free"


class Spacing(StrEnum):
    """What is equal between neighbours."""

    GAPS = "gaps"
    CENTRES = "centres"


class WallLine(StrEnum):
    """What lies on the line of the wall."""

    CENTRE = "centre"
    TOP = "top"
    BOTTOM = "bottom"


class Hung(Record):
    """A frame to hang: the upright rectangle round it."""

    key: str
    across_mm: float
    up_mm: float


class OnWall(Record):
    """A frame in its place: its rectangle, and the middle of that."""

    key: str
    across_mm: float
    up_mm: float
    x_mm: float
    y_mm: float

    @property
    def left_mm(self) -> float:
        """Its left edge."""
        return self.x_mm - self.across_mm / 2

    @property
    def right_mm(self) -> float:
        """Its right edge."""
        return self.x_mm + self.across_mm / 2

    @property
    def low_mm(self) -> float:
        """Its lower edge."""
        return self.y_mm - self.up_mm / 2

    @property
    def high_mm(self) -> float:
        """Its upper edge."""
        return self.y_mm + self.up_mm / 2


class Grouping(Record):
    """How frames are to stand together. `rise_ratio` is that of a stair, rise over going; less than 0 it falls."""

    arrangement: Arrangement = Arrangement.ROW
    spacing: Spacing = Spacing.GAPS
    gap_mm: float = 75.0
    line: WallLine = WallLine.CENTRE
    columns: int = 2
    rise_ratio: float = 0.0


def arrange(frames: Sequence[Hung], grouping: Grouping, *, middle_mm: float, line_mm: float) -> tuple[OnWall, ...]:
    """Arrange frames about the middle of a place on the wall, their line at its height.

    Of a row each frame lies on the line; of a column or a grid the whole group does. On a stair the line is that of the
    first frame's middle, and the others rise with the stair.

    Args:
        frames: in their order, from the left, then downward.
        grouping: how.
        middle_mm: of the group, from the left corner of the wall [mm].
        line_mm: over the floor [mm].
    Raises:
        ImpossibleSize: there is nothing to hang.
        OutOfRange: a gap of less than nothing.
    Source: plane geometry.

    >>> pair = [Hung(key="a", across_mm=300, up_mm=400), Hung(key="b", across_mm=500, up_mm=200)]
    >>> [(one.left_mm, one.right_mm) for one in arrange(pair, Grouping(), middle_mm=1000, line_mm=1500)]
    [(562.5, 862.5), (937.5, 1437.5)]
    """
    if not frames:
        raise ImpossibleSize("There is nothing to hang.", field="wall.arrangement")
    require_not_negative(gap_mm=grouping.gap_mm)
    placed = _ARRANGED[grouping.arrangement](frames, grouping)
    left_mm, right_mm = min(one.left_mm for one in placed), max(one.right_mm for one in placed)
    by_mm = middle_mm - (left_mm + right_mm) / 2
    up_mm = line_mm - _line_mm(placed, grouping)
    return tuple(replace(one, x_mm=one.x_mm + by_mm, y_mm=one.y_mm + up_mm) for one in placed)


def freely(placed: Sequence[OnWall], places: Mapping[str, tuple[float, float]]) -> tuple[OnWall, ...]:
    """Move those that have a place of their own there; the others stay.

    Args:
        places: across and up of a middle, by the key of its frame [mm].
    Source: derived.

    >>> one = OnWall(key="a", across_mm=2, up_mm=2, x_mm=0, y_mm=0)
    >>> freely([one], {"a": (5, 6)})[0].x_mm
    5
    """
    moved = ((one, places.get(one.key, (one.x_mm, one.y_mm))) for one in placed)
    return tuple(replace(one, x_mm=x_mm, y_mm=y_mm) for one, (x_mm, y_mm) in moved)


def overlapping(placed: Sequence[OnWall]) -> tuple[tuple[OnWall, OnWall], ...]:
    """Every two frames that lie over each other.

    Source: plane geometry.

    >>> one = OnWall(key="a", across_mm=2, up_mm=2, x_mm=0, y_mm=0)
    >>> len(overlapping([one, replace(one, key="b", x_mm=1)])), len(overlapping([one, replace(one, x_mm=2)]))
    (1, 0)
    """
    return tuple((one, other) for one, other in combinations(placed, 2) if meet(one, other))


def meet(one: OnWall, other: OnWall) -> bool:
    """Whether two upright rectangles lie over each other.

    Source: plane geometry.

    >>> one = OnWall(key="a", across_mm=2, up_mm=2, x_mm=0, y_mm=0)
    >>> meet(one, replace(one, x_mm=1.5)), meet(one, replace(one, y_mm=2))
    (True, False)
    """
    across_mm = min(one.right_mm, other.right_mm) - max(one.left_mm, other.left_mm)
    up_mm = min(one.high_mm, other.high_mm) - max(one.low_mm, other.low_mm)
    return across_mm > TOLERANCE_MM and up_mm > TOLERANCE_MM


def balanced_order(frames: Sequence[Hung]) -> tuple[str, ...]:
    """The order in which a row weighs as much to the eye left of its middle as right of it, by the areas of its frames.

    Up to seven frames every order is tried, and of equal ones the order with the larger frames further in is taken; of
    more the largest goes to the middle and the others in turn to its sides.

    Source: derived; that an area weighs to the eye is common practice, no source.

    >>> three = [Hung(key=key, across_mm=across, up_mm=100) for key, across in (("big", 300), ("a", 100), ("b", 100))]
    >>> balanced_order(three)
    ('a', 'big', 'b')
    """
    if len(frames) > FEW:
        return tuple(one.key for one in _from_the_middle(frames))
    best = min(
        permutations(frames), key=lambda order: (round(abs(_moment(order)), _NOISE), round(_spread(order), _NOISE))
    )
    return tuple(one.key for one in best)


def _from_the_middle(frames: Sequence[Hung]) -> list[Hung]:
    order: list[Hung] = []
    for number, one in enumerate(sorted(frames, key=lambda one: -one.across_mm * one.up_mm)):
        order = [one, *order] if number % 2 else [*order, one]
    return order


def _middles(order: Sequence[Hung]) -> Iterator[tuple[float, float]]:
    """The area of each frame of a row, and how far its middle is from that of the row."""
    start_mm = -sum(one.across_mm for one in order) / 2
    for one in order:
        yield one.across_mm * one.up_mm, start_mm + one.across_mm / 2
        start_mm += one.across_mm


def _moment(order: Sequence[Hung]) -> float:
    return sum(area * at for area, at in _middles(order))


def _spread(order: Sequence[Hung]) -> float:
    return sum(area * abs(at) for area, at in _middles(order))


def _line_mm(placed: Sequence[OnWall], grouping: Grouping) -> float:
    """Where the line is among frames that have just been arranged."""
    if grouping.arrangement is Arrangement.STAIR:
        return placed[0].y_mm
    if grouping.arrangement in (Arrangement.ROW, Arrangement.FREE):
        return 0.0
    low_mm, high_mm = min(one.low_mm for one in placed), max(one.high_mm for one in placed)
    return {WallLine.CENTRE: (low_mm + high_mm) / 2, WallLine.TOP: high_mm, WallLine.BOTTOM: low_mm}[grouping.line]


def _steps_mm(sizes_mm: Sequence[float], grouping: Grouping) -> tuple[float, ...]:
    """The middles of sizes that stand beside each other, the first at 0."""
    between_mm = [(one + other) / 2 + grouping.gap_mm for one, other in pairwise(sizes_mm)]
    if grouping.spacing is Spacing.CENTRES and between_mm:
        between_mm = [max(between_mm)] * len(between_mm)
    return tuple(sum(between_mm[:number]) for number in range(len(sizes_mm)))


def _row(frames: Sequence[Hung], grouping: Grouping) -> list[OnWall]:
    lift = {WallLine.CENTRE: 0.0, WallLine.TOP: -0.5, WallLine.BOTTOM: 0.5}[grouping.line]
    xs = _steps_mm([one.across_mm for one in frames], grouping)
    return [_at(one, x, lift * one.up_mm) for one, x in zip(frames, xs, strict=True)]


def _column(frames: Sequence[Hung], grouping: Grouping) -> list[OnWall]:
    ys = _steps_mm([one.up_mm for one in frames], grouping)
    return [_at(one, 0.0, -y) for one, y in zip(frames, ys, strict=True)]


def _grid(frames: Sequence[Hung], grouping: Grouping) -> list[OnWall]:
    """A column is as wide as its widest frame, a row as high as its highest; a frame is in the middle of its place."""
    count = min(grouping.columns, len(frames))
    rows = [frames[start : start + count] for start in range(0, len(frames), count)]
    wide = [max(row[at].across_mm for row in rows if at < len(row)) for at in range(count)]
    xs, ys = _steps_mm(wide, grouping), _steps_mm([max(one.up_mm for one in row) for row in rows], grouping)
    return [_at(one, xs[at], -y) for row, y in zip(rows, ys, strict=True) for at, one in enumerate(row)]


def _stair(frames: Sequence[Hung], grouping: Grouping) -> list[OnWall]:
    xs = _steps_mm([one.across_mm for one in frames], grouping)
    return [_at(one, x, x * grouping.rise_ratio) for one, x in zip(frames, xs, strict=True)]


def _at(one: Hung, x_mm: float, y_mm: float) -> OnWall:
    return OnWall(key=one.key, across_mm=one.across_mm, up_mm=one.up_mm, x_mm=x_mm, y_mm=y_mm)


_ARRANGED: Mapping[Arrangement, Callable[[Sequence[Hung], Grouping], list[OnWall]]] = {
    Arrangement.ROW: _row,
    Arrangement.COLUMN: _column,
    Arrangement.GRID: _grid,
    Arrangement.STAIR: _stair,
    Arrangement.FREE: _row,
}
