"""Parts joined into bundles, each no larger than it must be: a sheet that can be taken apart and filled in places.

A *bundle* is a part, or bundles side by side along one axis. Beside that axis it is as large as its largest, or larger
where the strip that a smaller one leaves would not break off. Nothing is cut before all is joined: a bundle may grow,
what lies beyond it moves away, and its *room* is how far it may grow before something reaches the edge of the sheet.
"""

from collections.abc import Sequence
from typing import NamedTuple

from framecalc.records import Mutable, field
from framecalc.sheets.coarse import set_out
from framecalc.sheets.guillotine import CutAxis, Node, Part, Strips
from framecalc.sheets.whole_numbers import LayoutJob, Size

Way = tuple[int, int, bool]
"""How a piece lies: across, up, whether that is turned."""


class PartBundle(Mutable, kw_only=False, eq=False):
    """A part, or bundles joined along an axis, with its size across and up."""

    size: Size
    part: Part | None = None
    axis: int = CutAxis.ACROSS.value
    inner: "list[PartBundle]" = field(default_factory=list)
    outer: "PartBundle | None" = None

    def copy(self, outer: "PartBundle | None" = None) -> "PartBundle":
        """The same bundle, to be changed on its own."""
        own = PartBundle(self.size, self.part, self.axis, [], outer)
        if self.inner:
            own.inner = [one.copy(own) for one in self.inner]
        return own

    def within(self) -> "list[PartBundle]":
        """Itself and all bundles in it, each before what is in it."""
        found, open_ones = [], [self]
        while open_ones:
            found.append(one := open_ones.pop())
            if one.inner:
                open_ones += reversed(one.inner)
        return found

    def pieces(self) -> list[int]:
        """The pieces in it."""
        return [one.part.piece for one in self.within() if one.part]

    def node(self) -> Node:
        """The tree of cuts that cuts it from a rectangle of its own size."""
        if self.part:
            return self.part
        return Strips(CutAxis(self.axis), tuple((one.size[self.axis], one.node()) for one in self.inner))


class JoiningPlace(NamedTuple):
    """Where a part can be joined to a bundle: to which, along which axis, how long and how wide a part may be there.

    `number`: of the bundle among all on the sheet. `beside` is the width of the bundle; `free` is the length that makes
    nothing larger, below zero where it is the whole.
    """

    number: int
    along: int
    most_along: int
    most_beside: int
    beside: int
    free: int


class OpenSheet(Mutable, kw_only=False, eq=False):
    """A sheet of a kind with the bundle on it, if any. Its places are looked for when first asked for.

    `shortest` is the shortest side of any piece: what has less room than that is no place.
    """

    job: LayoutJob
    sheet: int
    size: Size
    shortest: int
    whole: PartBundle | None = None
    _places: list[JoiningPlace] | None = None

    @property
    def places(self) -> list[JoiningPlace]:
        """All places where a part can be joined to what lies on it."""
        if self._places is None:
            self._places = []
            if self.whole:
                across, up = (whole - own for whole, own in zip(self.size, self.whole.size, strict=True))
                _find_places(self.whole, across, up, number=0, found=self._places, shortest=self.shortest)
        return self._places

    @property
    def bundles(self) -> list[PartBundle]:
        """All bundles on it."""
        return self.whole.within() if self.whole else []

    def copy(self) -> "OpenSheet":
        """The same sheet, to be changed on its own; its places are the same."""
        return OpenSheet(self.job, self.sheet, self.size, self.shortest, self.whole and self.whole.copy(), self._places)

    def take_out(self, bundle: PartBundle) -> None:
        """Take a bundle out of the sheet with all that is in it."""
        outer = bundle.outer
        if outer is None:
            self.whole = None
        else:
            outer.inner.remove(bundle)
            if len(outer.inner) == 1:
                self._put(outer.inner[0], in_place_of=outer)
                outer = outer.outer
        self._draw_in(outer)

    def join(self, place: JoiningPlace | None, piece: int, way: Way) -> bool:
        """Join a part at a place, or lay it on the empty sheet; undone where what is left would not break off."""
        part = PartBundle(way[:2], Part(piece, way[2]))
        if place:
            self._join(self.bundles[place.number], part, place.along)
        else:
            self.whole = part
        self._draw_in(part.outer)
        if not self.job.gap or self._leaves_strips():
            return True
        self.take_out(part)
        return False

    def node(self) -> Node | None:
        """The tree of cuts of the whole sheet; nothing where it leaves a strip that would not break off."""
        return set_out(self.whole.node(), sheet=self.sheet, job=self.job) if self.whole else None

    def _join(self, bundle: PartBundle, part: PartBundle, along: int) -> None:
        if bundle.inner and bundle.axis == along:
            bundle.inner.append(part)
            part.outer = bundle
        else:
            both = PartBundle((0, 0), None, along, [bundle, part])
            self._put(both, in_place_of=bundle)
            bundle.outer = part.outer = both

    def _put(self, bundle: PartBundle, *, in_place_of: PartBundle) -> None:
        """Let a bundle take the place of another; inside one of the same axis, what it is made of."""
        outer = bundle.outer = in_place_of.outer
        if outer is None:
            self.whole = bundle
            return
        number = outer.inner.index(in_place_of)
        same = bool(bundle.inner) and bundle.axis == outer.axis
        outer.inner[number : number + 1] = bundle.inner if same else [bundle]
        for one in bundle.inner if same else ():
            one.outer = outer

    def _draw_in(self, bundle: PartBundle | None) -> None:
        """Make a bundle and all around it as small as they can be, after a change within it."""
        self._places = None
        while bundle:
            bundle.size = _drawn_in(bundle, self.job)
            bundle = bundle.outer

    def _leaves_strips(self) -> bool:
        """Whether what lies on it fits, and what is left beside it breaks off."""
        sizes = zip(self.size, self.whole.size if self.whole else (0, 0), strict=True)
        return all(self.job.can_be_left(whole - own) for whole, own in sizes)


def _drawn_in(bundle: PartBundle, job: LayoutJob) -> tuple[int, int]:
    """The least size of a bundle, by the sizes of those within it."""
    acrosses, ups = zip(*[one.size for one in bundle.inner], strict=True)
    if bundle.axis == 0:
        return sum(acrosses), least_shared(ups, job=job) if job.least_strip else max(ups)
    return least_shared(acrosses, job=job) if job.least_strip else max(acrosses), sum(ups)


def least_shared(widths: Sequence[int], *, job: LayoutJob) -> int:
    """Find the least width that strips of several widths can be cut from, so that what is beside each breaks off.

    Source: derived.

    >>> from framecalc.sheets.whole_numbers import JobSheet, WholePart
    >>> sheet = JobSheet(across=100, up=100, count=1, price=2, stock=0)
    >>> job = LayoutJob(pieces=(), sheets=(sheet,), kerf=0, least_strip=12, unit=2, coin=1)
    >>> least_shared([60, 60, 48], job=job), least_shared([60, 55, 40], job=job)
    (60, 72)
    """
    width = max(widths)
    while narrow := [one for one in widths if not job.can_be_left(width - one)]:
        width = max(narrow) + job.gap
    return width


def _find_places(
    bundle: PartBundle, across: int, up: int, *, number: int, found: list[JoiningPlace], shortest: int
) -> int:
    """List the places at a bundle with so much room around it, and at all within it; the number of what follows.

    Joining along the axis along which it is joined to others is joining to the outer one, and is listed there.
    """
    outer, (wide, high) = bundle.outer, bundle.size
    if across >= shortest and (outer is None or outer.axis):
        found.append(JoiningPlace(number, 0, across, high + up, high, outer.size[0] - wide if outer else -1))
    if up >= shortest and not (outer and outer.axis):
        found.append(JoiningPlace(number, 1, up, wide + across, wide, outer.size[1] - high if outer else -1))
    number += 1
    most = high + up if bundle.axis == 0 else wide + across
    for one in bundle.inner:
        room = (across, most - one.size[1]) if bundle.axis == 0 else (most - one.size[0], up)
        number = _find_places(one, *room, number=number, found=found, shortest=shortest)
    return number
