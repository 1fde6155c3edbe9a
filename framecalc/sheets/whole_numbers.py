"""A sheet problem in whole numbers, for the searches: kinds of pieces, kinds of sheets, one price.

Lengths are whole *units* of 1/3200 mm: 0.01 mm is 32 units and 1/128 in is 635, so typed lengths are exact; any other
length rounds to the safe side, parts up and sheets down. Parts of one size that turn alike are one *piece*. Every piece
and every sheet is made one kerf larger: then n parts and the cuts between them fill a sheet exactly when the enlarged
sizes do.

The *price* of a sheet joins the two things that are saved first: what is bought, in whole units of the goal, and one
more for each sheet cut, weighed so that no number of sheets outweighs one unit bought.
"""

from math import ceil, floor, gcd

from framecalc.records import Record
from framecalc.sheets.problem import Goal, SheetPart, SheetProblem, StockSheet, usable_mm
from framecalc.units import TOLERANCE_MM

UNITS_PER_MM = 3200
"""Units in a millimetre: 3200 · 25.4 / 128 = 635, so 1/128 in is a whole number."""

Size = tuple[int, int]
"""Across and up."""


class WholePart(Record):
    """Parts of one size, the kerf added, with how many are wanted; and which parts of the problem they are."""

    across: int
    up: int
    count: int
    may_turn: bool
    parts: tuple[int, ...]

    @property
    def ways(self) -> tuple[tuple[int, int, bool], ...]:
        """How it may lie: across, up, and whether that is turned."""
        upright = (self.across, self.up, False)
        return (upright, (self.up, self.across, True)) if self.may_turn and self.across != self.up else (upright,)


class JobSheet(Record):
    """A kind of sheet inside its trim, the kerf added: how many there can be, what one costs, which stock it is."""

    across: int
    up: int
    count: int
    price: int
    stock: int
    is_missing: bool = False

    @property
    def size(self) -> int:
        """Across times up."""
        return self.across * self.up


class LayoutJob(Record):
    """The problem in whole numbers.

    `unit` is the price of one step of the goal; `coin` is the size of that step, in sheets or in hundredths of money.
    """

    pieces: tuple[WholePart, ...]
    sheets: tuple[JobSheet, ...]
    kerf: int
    least_strip: int
    unit: int
    coin: int

    def can_be_left(self, rest: int) -> bool:
        """Whether a strip that size can stay beside a cut: nothing, what the blade takes, or enough to break off."""
        return 0 <= rest <= self.kerf or rest >= self.least_strip + self.kerf

    @property
    def sizes(self) -> tuple[Size, ...]:
        """Across and up of each kind of sheet."""
        return tuple((sheet.across, sheet.up) for sheet in self.sheets)

    @property
    def longest(self) -> Size:
        """The largest size across and the largest up of all sheets."""
        return max(sheet.across for sheet in self.sheets), max(sheet.up for sheet in self.sheets)

    @property
    def gap(self) -> int:
        """What a strip and its kerf take at least; nothing where any strip can be cut."""
        return self.least_strip + self.kerf if self.least_strip else 0

    @property
    def piece_sizes(self) -> tuple[Size, ...]:
        """Across and up of each kind of piece, upright."""
        return tuple((piece.across, piece.up) for piece in self.pieces)

    @property
    def counts(self) -> list[int]:
        """How many of each piece are wanted."""
        return [piece.count for piece in self.pieces]


def job_of(problem: SheetProblem) -> LayoutJob:
    """Write a problem in whole numbers.

    If nothing can be bought, one more sheet like each of those on hand can be *missing*, at a price that a plan pays
    only if it must.

    Source: derived.
    """
    number = sum(part.count for part in problem.parts)
    costs = [_goal_cost(sheet, problem.goal) for sheet in problem.stock]
    step = gcd(*costs) or 1
    unit = number + 1
    sheets = [
        _job_sheet(sheet, problem, stock=stock, price=costs[stock] // step * unit + 1, count=number)
        for stock, sheet in enumerate(problem.stock)
    ]
    if not any(sheet.is_bought for sheet in problem.stock):
        sheets += _missing_sheets(sheets, number)
    return LayoutJob(
        pieces=_pieces(problem),
        sheets=tuple(sheets),
        kerf=_up(problem.kerf_mm),
        least_strip=_up(problem.least_strip_mm),
        unit=unit,
        coin=step,
    )


def enlarged(part: SheetPart, *, kerf: int) -> Size:
    """The size of an upright part in whole units, the kerf added.

    Source: derived.
    """
    return _up(part.across_mm) + kerf, _up(part.up_mm) + kerf


def _goal_cost(sheet: StockSheet, goal: Goal) -> int:
    return int(sheet.is_bought) if goal is Goal.FEWEST else int(sheet.cost * 100)


def _job_sheet(sheet: StockSheet, problem: SheetProblem, *, stock: int, price: int, count: int) -> JobSheet:
    across_mm, up_mm = usable_mm(sheet, trim_mm=problem.trim_mm)
    kerf = _up(problem.kerf_mm)
    return JobSheet(
        across=_down(across_mm) + kerf,
        up=_down(up_mm) + kerf,
        count=min(count, sheet.count) if sheet.count is not None else count,
        price=price,
        stock=stock,
    )


def _missing_sheets(sheets: list[JobSheet], number: int) -> list[JobSheet]:
    dear = 1 + sum(sheet.price * sheet.count for sheet in sheets)
    unit = number + 1
    dear = -(-dear // unit) * unit
    return [
        JobSheet(
            across=sheet.across,
            up=sheet.up,
            count=number,
            price=sheet.price + dear,
            stock=sheet.stock,
            is_missing=True,
        )
        for sheet in sheets
    ]


def _pieces(problem: SheetProblem) -> tuple[WholePart, ...]:
    kerf = _up(problem.kerf_mm)
    alike: dict[tuple[int, int, bool], list[int]] = {}
    for number, part in enumerate(problem.parts):
        alike.setdefault(_kind(part, kerf), []).append(number)
    return tuple(
        WholePart(
            across=across,
            up=up,
            count=sum(problem.parts[number].count for number in numbers),
            may_turn=may_turn,
            parts=tuple(number for number in numbers for _ in range(problem.parts[number].count)),
        )
        for (across, up, may_turn), numbers in sorted(alike.items(), reverse=True)
    )


def _kind(part: SheetPart, kerf: int) -> tuple[int, int, bool]:
    across, up = enlarged(part, kerf=kerf)
    if part.may_turn or across == up:
        return max(across, up), min(across, up), True
    return across, up, False


def _down(length_mm: float) -> int:
    return floor((length_mm + TOLERANCE_MM) * UNITS_PER_MM)


def _up(length_mm: float) -> int:
    return ceil((length_mm - TOLERANCE_MM) * UNITS_PER_MM)
