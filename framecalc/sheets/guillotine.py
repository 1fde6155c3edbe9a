"""A sheet cut up edge to edge, as a tree: strips, strips of strips, down to the parts.

A *piece* here is a kind of part: all parts of one size that may or may not turn. All lengths in this module are whole
*units*, and every piece and sheet is one kerf larger than it is, so that parts side by side fill a sheet exactly when
their lengths add up. What no strip takes is *waste*, always in one place at the end of its strips; waste that is worth
keeping is a *left-over*.
"""

from collections.abc import Callable, Iterator, Sequence
from enum import Enum

from framecalc.records import Record


class CutAxis(Enum):
    """The direction in which a piece is divided: strips side by side across, or one above the other up."""

    ACROSS = 0
    UP = 1


class Part(Record, kw_only=False):
    """A piece that fills its strip."""

    piece: int
    is_turned: bool


class Strips(Record, kw_only=False):
    """Strips in order from the left or from the bottom, each with its size along the axis and what is cut from it."""

    axis: CutAxis
    strips: "tuple[tuple[int, Node], ...]"


Node = Part | Strips

WASTE = Strips(CutAxis.ACROSS, ())


def is_waste(node: Node) -> bool:
    """Whether nothing is cut from it.

    Source: derived.
    """
    return isinstance(node, Strips) and not node.strips


class FilledArea(Record, kw_only=False):
    """A rectangle of a sheet with what lies in it, in whole units from its lower left corner."""

    x: int
    y: int
    across: int
    up: int
    node: Node

    @property
    def size(self) -> int:
        """Across times up."""
        return self.across * self.up

    def length(self, axis: CutAxis) -> int:
        """Its size along an axis."""
        return self.across if axis is CutAxis.ACROSS else self.up


def tidied(node: Node, *, across: int, up: int) -> Node:
    """Gather the waste of strips at their end, leave out cuts that cut nothing, and put strips of one size together.

    The parts stay as many, and as large; waste only joins other waste.

    Source: derived: strips of one piece may be cut off in any order.
    """
    if isinstance(node, Part):
        return node
    strips: list[tuple[int, Node]] = []
    for size, child in node.strips:
        inner = (
            tidied(child, across=size, up=up) if node.axis is CutAxis.ACROSS else tidied(child, across=across, up=size)
        )
        same = isinstance(inner, Strips) and inner.axis is node.axis
        strips += inner.strips if isinstance(inner, Strips) and (same or not inner.strips) else [(size, inner)]
    if len(strips) == 1 and strips[0][0] == (across, up)[node.axis.value]:
        return strips[0][1]
    strips.sort(key=_size_of, reverse=True)
    return Strips(node.axis, tuple(strips))


def strip_areas(piece: FilledArea) -> tuple[FilledArea, ...]:
    """The strips of a piece, each where it lies; a part has none.

    Source: derived.
    """
    if isinstance(piece.node, Part):
        return ()
    x, y, strips = piece.x, piece.y, list[FilledArea]()
    for size, node in piece.node.strips:
        strips.append(FilledArea(x, y, **_within(piece.node.axis, size, piece.across, piece.up), node=node))
        x, y = (x + size, y) if piece.node.axis is CutAxis.ACROSS else (x, y + size)
    return tuple(strips)


def waste_areas(piece: FilledArea) -> Iterator[FilledArea]:
    """All waste of a piece: what its strips leave, and what is left within them; all of it, if nothing is cut from it.

    Source: derived.
    """
    if isinstance(piece.node, Part):
        return
    strips, axis = strip_areas(piece), piece.node.axis
    used = sum(strip.length(axis) for strip in strips)
    if used < piece.length(axis):
        rest = _within(axis, piece.length(axis) - used, piece.across, piece.up)
        x, y = (piece.x + used, piece.y) if axis is CutAxis.ACROSS else (piece.x, piece.y + used)
        yield FilledArea(x, y, **rest, node=WASTE)
    for strip in strips:
        yield from waste_areas(strip)


def largest_waste(node: Node, *, across: int, up: int) -> int:
    """The size of the largest of all `waste_areas`, wherever they lie; 0 without any.

    Source: derived.

    >>> largest_waste(Strips(CutAxis.ACROSS, ((30, Part(0, False)),)), across=40, up=20)
    200
    """
    if isinstance(node, Part):
        return 0
    along, beside = (across, up) if node.axis is CutAxis.ACROSS else (up, across)
    rest = (along - sum(map(_size_of, node.strips))) * beside
    within = (largest_waste(child, **_within(node.axis, size, across, up)) for size, child in node.strips)
    return max((rest, *within))


def cut_count(piece: FilledArea) -> int:
    """Count the cuts of a piece: one for each strip, but none for a last one that takes all that is there.

    Source: derived.
    """
    if isinstance(piece.node, Part):
        return 0
    strips, axis = strip_areas(piece), piece.node.axis
    takes_all = bool(strips) and sum(strip.length(axis) for strip in strips) == piece.length(axis)
    return len(strips) - takes_all + sum(cut_count(strip) for strip in strips)


def pieces_in(node: Node) -> tuple[int, ...]:
    """The pieces cut from a tree, each as often as it is cut.

    Source: derived.
    """
    if isinstance(node, Part):
        return (node.piece,)
    return tuple(piece for _, child in node.strips for piece in pieces_in(child))


def without_surplus(node: Node, wanted: list[int]) -> Node:
    """Leave uncut what is not wanted any more; `wanted` counts down.

    Source: derived.
    """
    if isinstance(node, Strips):
        return Strips(node.axis, tuple((size, without_surplus(child, wanted)) for size, child in node.strips))
    if not wanted[node.piece]:
        return WASTE
    wanted[node.piece] -= 1
    return node


def outline_of(node: Node, *, sizes: Sequence[tuple[int, int]]) -> tuple[int, int]:
    """Find the smallest rectangle that a tree can be cut from: along the axis a sum, the other way the largest.

    Args:
        sizes: across and up of each piece as it lies upright.
    Source: derived.
    """
    if isinstance(node, Part):
        across, up = sizes[node.piece]
        return (up, across) if node.is_turned else (across, up)
    inner = [outline_of(child, sizes=sizes) for _, child in node.strips] or [(0, 0)]
    acrosses, ups = zip(*inner, strict=True)
    return (sum(acrosses), max(ups)) if node.axis is CutAxis.ACROSS else (max(acrosses), sum(ups))


def refitted(node: Node, *, across: int, up: int, sizes: Sequence[tuple[int, int]]) -> Node:
    """Set out a tree again with pieces of other sizes, on a rectangle of another size that holds its outline.

    Source: derived.
    """
    wide, high = outline_of(node, sizes=sizes)
    if isinstance(node, Part):
        return tidied(Strips(CutAxis.ACROSS, ((wide, Strips(CutAxis.UP, ((high, node),))),)), across=across, up=up)
    strips = []
    for _, child in node.strips:
        size = outline_of(child, sizes=sizes)[node.axis.value]
        strips.append((size, refitted(child, **_within(node.axis, size, across, up), sizes=sizes)))
    return tidied(Strips(node.axis, tuple(strips)), across=across, up=up)


def leaves_strips(node: Node, *, across: int, up: int, can_be_left: Callable[[int], bool]) -> bool:
    """Whether every cut of a tree leaves what can be left beside it.

    Source: derived.
    """
    if isinstance(node, Part):
        return True
    rest = (across, up)[node.axis.value] - sum(size for size, _ in node.strips)
    return (not node.strips or can_be_left(rest)) and all(
        leaves_strips(child, **_within(node.axis, size, across, up), can_be_left=can_be_left)
        for size, child in node.strips
    )


def _size_of(strip: tuple[int, Node]) -> int:
    return strip[0]


def _within(axis: CutAxis, size: int, across: int, up: int) -> dict[str, int]:
    return {"across": size, "up": up} if axis is CutAxis.ACROSS else {"across": across, "up": size}
