"""A layout as it goes to the bench: where each part lies, the cuts in their order, what is left over, what to buy.

Strips that are cut further have letters; every cut has a number, and the strips of one piece come before the cuts
within them.
"""

from collections import Counter
from collections.abc import Iterator
from itertools import count, product
from string import ascii_uppercase

from framecalc.records import replace
from framecalc.sheets.answer import CutSheet, LeftOver, PlacedPart, Point, SheetCut
from framecalc.sheets.guillotine import CutAxis, FilledArea, Node, Part, Strips, strip_areas, waste_areas
from framecalc.sheets.packing import FilledSheet
from framecalc.sheets.problem import SheetPart, SheetProblem, StockSheet
from framecalc.sheets.whole_numbers import UNITS_PER_MM, LayoutJob, enlarged

WHOLE_SHEET = "sheet"
TRIM = "trim"
REST = "rest"
LEFT_OVER = "left-over"
"""What a cut is made in, gives or leaves, where that is neither a part nor a strip with a letter."""


def cut_sheets(layout: tuple[FilledSheet, ...], *, job: LayoutJob, problem: SheetProblem) -> tuple[CutSheet, ...]:
    """Write out the sheets of a layout, off-cuts and sheets on hand first, each with parts, cuts and left-overs.

    Source: derived.
    """
    names = _Names(job, problem)
    at_hand_first = sorted(
        layout, key=lambda filled: (problem.stock[job.sheets[filled.sheet].stock].is_bought, filled.sheet)
    )
    return tuple(_cut_sheet(filled, job, problem, names) for filled in at_hand_first)


class _Names:
    """Hands out the parts of each kind of piece, one after the other."""

    def __init__(self, job: LayoutJob, problem: SheetProblem) -> None:
        self._parts = [iter(piece.parts) for piece in job.pieces]
        self._problem = problem
        self._used: Counter[int] = Counter()

    def next_part(self, piece: int) -> tuple[SheetPart, int]:
        """The next part of a kind and its number among its copies."""
        part = next(self._parts[piece])
        self._used[part] += 1
        return self._problem.parts[part], self._used[part]


def _cut_sheet(filled: FilledSheet, job: LayoutJob, problem: SheetProblem, names: _Names) -> CutSheet:
    sheet = job.sheets[filled.sheet]
    stock, bench = problem.stock[sheet.stock], _Bench(job=job, names=names, trim_mm=problem.trim_mm)
    whole = FilledArea(0, 0, sheet.across, sheet.up, filled.node)
    if isinstance(filled.node, Part):
        bench.name(filled.node, x=0, y=0)
    cuts = [*_trim_cuts(stock, problem.trim_mm), *_cuts(whole, WHOLE_SHEET, bench)]
    left_overs = [left for left in (_left_over(area, bench) for area in waste_areas(whole)) if left.area_mm2]
    return CutSheet(
        stock=stock,
        is_missing=sheet.is_missing,
        parts=tuple(bench.placed),
        cuts=tuple(replace(cut, number=number) for number, cut in enumerate(cuts, start=1)),
        left_overs=tuple(sorted(left_overs, key=lambda left: -left.area_mm2)),
    )


class _Bench:
    """What is on the bench while one sheet is cut up: the parts placed so far and the letters of the strips."""

    def __init__(self, *, job: LayoutJob, names: _Names, trim_mm: float) -> None:
        self.job = job
        self.trim_mm = trim_mm
        self.placed: list[PlacedPart] = []
        self._names = names
        self._letters = _letters()

    def name(self, node: Node, *, x: int, y: int) -> str:
        """Name what has just been cut off: a part by its label, a strip by the next letter."""
        if isinstance(node, Strips):
            return next(self._letters)
        part, number = self._names.next_part(node.piece)
        placed = self._placed(part, number, node, x, y)
        self.placed.append(placed)
        return placed.label

    def _placed(self, part: SheetPart, number: int, node: Part, x: int, y: int) -> PlacedPart:
        piece = self.job.pieces[node.piece]
        lies_across = piece.up if node.is_turned else piece.across
        is_turned = lies_across != enlarged(part, kerf=self.job.kerf)[0]
        x_mm, y_mm = self.at(x, y)
        return PlacedPart(
            name=part.name,
            number=number,
            of=part.count,
            x_mm=x_mm,
            y_mm=y_mm,
            across_mm=part.up_mm if is_turned else part.across_mm,
            up_mm=part.across_mm if is_turned else part.up_mm,
            is_turned=is_turned,
        )

    def at(self, x: int, y: int) -> Point:
        """A place inside the trim, from the corner of the sheet."""
        return self.trim_mm + x / UNITS_PER_MM, self.trim_mm + y / UNITS_PER_MM

    def line(self, axis: CutAxis, area: FilledArea) -> tuple[Point, Point]:
        """The edge of a strip, where the cut that takes it off begins."""
        kerf = self.job.kerf
        right, top = area.x + area.across - kerf, area.y + area.up - kerf
        start = (right, area.y) if axis is CutAxis.ACROSS else (area.x, top)
        return self.at(*start), self.at(right, top)


def _cuts(piece: FilledArea, name: str, bench: _Bench) -> Iterator[SheetCut]:
    """The cuts of one piece: first all its strips, then what is cut from each."""
    strips = strip_areas(piece)
    names = [bench.name(strip.node, x=strip.x, y=strip.y) for strip in strips]
    yield from _strip_cuts(piece, name, names, bench)
    for strip, strip_name in zip(strips, names, strict=True):
        yield from _cuts(strip, strip_name, bench)


def _strip_cuts(piece: FilledArea, name: str, names: list[str], bench: _Bench) -> Iterator[SheetCut]:
    """One cut for each strip, but none for a last one that takes all that is there."""
    if isinstance(piece.node, Part):
        return
    axis, strips = piece.node.axis, strip_areas(piece)
    left = piece.length(axis)
    for number, strip in enumerate(strips):
        left -= strip.length(axis)
        if not left:
            return
        following = zip(strips[number + 1 :], names[number + 1 :], strict=True)
        start, end = bench.line(axis, strip)
        yield SheetCut(
            number=0,
            of=name,
            runs_up=axis is CutAxis.ACROSS,
            setting_mm=(strip.length(axis) - bench.job.kerf) / UNITS_PER_MM,
            gives=names[number],
            leaves=_what_is_left([(area.length(axis), label) for area, label in following], left, bench.job.kerf),
            start=start,
            end=end,
        )


def _what_is_left(following: list[tuple[int, str]], left: int, kerf: int) -> str:
    """Name what stays of a piece: the last strip, a rest with several, a left-over, or nothing but sawdust."""
    if not following:
        return LEFT_OVER if left > kerf else ""
    length, label = following[0]
    return label if length == left else REST


def _trim_cuts(stock: StockSheet, trim_mm: float) -> Iterator[SheetCut]:
    """The four cuts that take the trim off, the left and the lower edge first: the fence runs along these."""
    if not trim_mm:
        return
    right_mm, top_mm = stock.across_mm - trim_mm, stock.up_mm - trim_mm
    lines = (
        ((trim_mm, 0.0), (trim_mm, stock.up_mm)),
        ((trim_mm, trim_mm), (stock.across_mm, trim_mm)),
        ((right_mm, trim_mm), (right_mm, stock.up_mm)),
        ((trim_mm, top_mm), (right_mm, top_mm)),
    )
    for number, (start, end) in enumerate(lines):
        yield SheetCut(
            number=0,
            of=WHOLE_SHEET,
            runs_up=number % 2 == 0,
            setting_mm=trim_mm,
            gives=TRIM,
            leaves=WHOLE_SHEET,
            start=start,
            end=end,
        )


def _left_over(area: FilledArea, bench: _Bench) -> LeftOver:
    x_mm, y_mm = bench.at(area.x, area.y)
    across, up = (max(0, length - bench.job.kerf) for length in (area.across, area.up))
    return LeftOver(x_mm=x_mm, y_mm=y_mm, across_mm=across / UNITS_PER_MM, up_mm=up / UNITS_PER_MM)


def _letters() -> Iterator[str]:
    """A, B, … Z, AA, AB …"""
    for length in count(1):
        yield from map("".join, product(ascii_uppercase, repeat=length))
