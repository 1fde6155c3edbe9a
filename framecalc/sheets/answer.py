"""A sheet layout as it goes to the bench: sheets with parts and cuts, what to buy, and how good it is known to be.

Places are measured from the lower left corner of the sheet as it lies in front of the person who cuts it.
"""

from collections.abc import Iterator
from decimal import Decimal

from framecalc.records import Record
from framecalc.sheets.problem import Goal, StockSheet

Point = tuple[float, float]


class PlacedPart(Record):
    """A part on its sheet: which one, which of so many, and where its lower left corner lies."""

    name: str
    number: int
    of: int
    x_mm: float
    y_mm: float
    across_mm: float
    up_mm: float
    is_turned: bool

    @property
    def label(self) -> str:
        """What is written on it: its name, and which of how many where there are several."""
        return self.name if self.of == 1 else self.name + f" {self.number}/{self.of}"


class LeftOver(Record):
    """A rectangle that stays, the kerf beside it taken off."""

    x_mm: float
    y_mm: float
    across_mm: float
    up_mm: float

    @property
    def area_mm2(self) -> float:
        """Across times up."""
        return self.across_mm * self.up_mm


class SheetCut(Record):
    """One cut through a piece from edge to edge: number, setting, what it gives and leaves, its line on the sheet.

    The *setting* is the width of the strip that it takes off, measured from the left or the lower edge of the piece.
    """

    number: int
    of: str
    runs_up: bool
    setting_mm: float
    gives: str
    leaves: str
    start: Point
    end: Point


class CutSheet(Record):
    """One sheet cut up. `is_missing`: the stock on hand has run out, and one more like it is needed."""

    stock: StockSheet
    is_missing: bool
    parts: tuple[PlacedPart, ...]
    cuts: tuple[SheetCut, ...]
    left_overs: tuple[LeftOver, ...]


class Purchase(Record):
    """A line of the shopping list: so many sheets of a kind, and what they cost together."""

    stock: StockSheet
    count: int
    cost: Decimal


class PartShare(Record):
    """The share of each part of one size in the proof: a ratio of the most that the best sheet yields."""

    names: tuple[str, ...]
    across_mm: float
    up_mm: float
    count: int
    share_ratio: float


class SheetCapacity(Record):
    """The largest sum of shares that one sheet of a kind yields, however it is cut."""

    stock: StockSheet
    most_ratio: float


class LayoutProof(Record):
    """Why no layout is better: the share of each part, the most that a sheet yields, and the shares of all parts."""

    parts: tuple[PartShare, ...]
    sheets: tuple[SheetCapacity, ...]
    wanted_ratio: float


class SheetLayout(Record):
    """The answer to one problem. `least_bought`, `least_cost`, `least_cut`: no layout needs less, in this order.

    `fingerprint` names the problem. `is_proved`: nothing is left to save, neither in what is bought nor in the sheets
    cut; if `tried_every_way`, every other way was tried, since the shares alone do not prove it. `is_exhausted`: the
    search ended before its time, since beginning anew met nothing new. The largest left-over is the largest found.
    """

    fingerprint: str
    goal: Goal
    sheets: tuple[CutSheet, ...]
    purchases: tuple[Purchase, ...]
    cost: Decimal
    least_bought: int
    least_cost: Decimal
    least_cut: int
    is_proved: bool
    tried_every_way: bool
    proof: LayoutProof
    is_exhausted: bool = False

    @property
    def bought(self) -> int:
        """How many sheets are bought."""
        return sum(purchase.count for purchase in self.purchases)

    @property
    def missing(self) -> tuple[CutSheet, ...]:
        """Sheets that the stock on hand is short of."""
        return tuple(sheet for sheet in self.sheets if sheet.is_missing)

    @property
    def largest_left_over(self) -> LeftOver | None:
        """The largest single left-over of all sheets; a layout without any waste has none."""
        left_overs = [left for sheet in self.sheets for left in sheet.left_overs]
        return max(left_overs, key=lambda left: left.area_mm2, default=None)

    @property
    def fill_with_one_fewer_ratio(self) -> float:
        """What the parts would at least fill of all sheets, those at hand included, if one fewer were bought.

        It is 0 where none is bought.
        """
        kinds = [most.stock for most in self.proof.sheets]
        for_sale_mm2 = max((stock.across_mm * stock.up_mm for stock in kinds if stock.is_bought), default=0.0)
        at_hand_mm2 = sum(stock.across_mm * stock.up_mm * (stock.count or 0) for stock in kinds)
        there_mm2 = at_hand_mm2 + max(0, self.bought - 1) * for_sale_mm2
        return sum(part.across_mm * part.up_mm for _, part in self.parts()) / there_mm2 if there_mm2 else 0.0

    @property
    def verdict(self) -> str:
        """How good the layout is, in one sentence."""
        if self.missing:
            return self._verdict_on_missing()
        if self.goal is Goal.CHEAPEST:
            return self._verdict_on_cost()
        return self._verdict_on_number()

    def parts(self) -> Iterator[tuple[CutSheet, PlacedPart]]:
        """Every part with its sheet."""
        for sheet in self.sheets:
            for part in sheet.parts:
                yield sheet, part

    @property
    def _known_because(self) -> str:
        return "every way was tried" if self.tried_every_way else "proved"

    def _verdict_on_missing(self) -> str:
        number = len(self.missing)
        known = f"{self._known_because}: no layout needs fewer" if self.is_proved else "fewer may be enough: not known"
        return f"{_sheets(number)} more than are at hand; {known}."

    def _verdict_on_cost(self) -> str:
        if self.cost == self.least_cost:
            return f"{self.cost} in all; {self._known_because}: no layout costs less{self._fewer_cut()}."
        return f"{self.cost} in all; a layout could cost {self.cost - self.least_cost} less at most, if there is one."

    def _verdict_on_number(self) -> str:
        if self.bought > self.least_bought:
            return f"{_sheets(self.bought)} to buy; {self.least_bought} might do, if there is such a layout."
        if self.bought:
            return f"{_sheets(self.bought)} to buy; {self._known_because}: no layout needs fewer{self._fewer_cut()}."
        if self.is_proved:
            return f"Nothing to buy, {_sheets(len(self.sheets))} to cut; {self._known_because}: no layout needs fewer."
        return f"Nothing to buy, {_sheets(len(self.sheets))} to cut; {self.least_cut} might do at best."

    def _fewer_cut(self) -> str:
        few = len(self.sheets) - self.least_cut
        return "" if self.is_proved else f", though {_sheets(few)} fewer might be cut"


def _sheets(number: int) -> str:
    return "1 sheet" if number == 1 else f"{number} sheets"
