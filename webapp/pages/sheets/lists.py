"""The lists of a sheet layout: parts, cuts in order, stock to get, left-overs."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from decimal import Decimal

from framecalc.errors import ImpossibleSize
from framecalc.findings import Rounding
from framecalc.geometry.outline import Point
from framecalc.money import tag_text
from framecalc.plan import Plan
from framecalc.plan.price.price import currency_of
from framecalc.plan.sheets.covers import covers_of, cut_covers
from framecalc.plan.sheets.parts import PolygonPart
from framecalc.plan.sheets.sheets import SheetGroup
from framecalc.project import Project
from framecalc.records import Record
from framecalc.sheets.answer import CutSheet, LeftOver, SheetCut, SheetLayout
from framecalc.sheets.cutting import LEFT_OVER, REST, TRIM, WHOLE_SHEET
from framecalc.sheets.problem import SheetPart, StockSheet
from framecalc.sheets.roll import RollCut
from framecalc.units import describe_length, describe_size, format_length
from framecalc.words import Wording, worded
from webapp.live.lists import JobList, ListRow
from webapp.live.tabbed import Tab

TITLES = {"parts": "Parts", "buy": "Stock to get", "cuts": "Cuts in their order", "left": "Off-cuts"}
"""Every list by its name in addresses, in the order of the work."""

TABS = (
    Tab(name="stock", title="Stock", lists=("buy",)),
    Tab(name="parts", title="Parts", lists=("parts",)),
    Tab(name="off-cuts", title="Off-cuts", lists=("left",)),
)
"""The lists that the page shows together; the cuts stand with their sheets."""


COVERS = "Dust covers"


def covers_said(plan: Plan) -> Iterator[Wording]:
    """The dust covers of a job: their size and how many, and what they take of the roll, if it is wide enough.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    covers, unit = covers_of(plan.frames.values()), plan.project.unit
    for cover in covers:
        size = describe_size(cover.across_mm, cover.up_mm, unit=unit)
        yield worded("Dust cover of {name}: {count} of {size}.", name=cover.name, count=cover.count, size=size)
    with suppress(ImpossibleSize):
        if roll := cut_covers(plan.project, covers):
            yield _of_the_roll(roll, plan.project)


def _of_the_roll(roll: RollCut, project: Project) -> Wording:
    over_mm, step = project.sheets.roll_over.mm, project.shop.step(project.unit)
    over, wide = (describe_length(size_mm, unit=project.unit) for size_mm in (over_mm, roll.width_mm))
    long = format_length(roll.length_mm, step=step, rounding=Rounding.UP).full
    return worded(
        "From a roll {wide} wide: {long}, each piece {over} larger on all sides.", wide=wide, long=long, over=over
    )


def cover_lists(plan: Plan) -> Iterator[JobList]:
    """The dust covers in the lists of parts and of stock to get.

    Raises:
        FrameCalcError: a frame cannot be computed, or the roll is too narrow.
    """
    covers, unit = covers_of(plan.frames.values()), plan.project.unit
    sizes = [(one.name, unbroken(describe_size(one.across_mm, one.up_mm, unit=unit)), str(one.count)) for one in covers]
    yield _plain("parts", ("Part", "Size to cut, across × up", "Count"), sizes)
    if roll := cut_covers(plan.project, covers):
        size = unbroken(describe_size(roll.width_mm, roll.length_mm, unit=unit))
        yield _plain("buy", ("What", "Size", "Count", "Each", "Together"), [(COVERS, size, "1", "", "")])


def _plain(name: str, columns: tuple[str, ...], cells: Sequence[tuple[str, ...]]) -> JobList:
    rows = tuple(ListRow(key=f"covers-{name}-{number}", cells=row, is_done=False) for number, row in enumerate(cells))
    return JobList(name=name, title=TITLES[name], columns=columns, rows=rows, tickable=False)


class SheetLister(Record):
    """Writes the lists of one material in the unit of its project."""

    project: Project
    group: SheetGroup

    def parts(self) -> JobList:
        """The parts to cut."""
        polygons = {one.name: one for one in self.group.polygons}
        cells = [(self._named(part), self._size(part), str(part.count)) for part in self.group.parts]
        below = [self._corners(polygons[part.name]) if part.name in polygons else "" for part in self.group.parts]
        columns = ("Part", "Size to cut, across × up", "Count")
        return self._list("parts", TITLES["parts"], columns, cells, below=below if polygons else ())

    def _corners(self, part: PolygonPart) -> str:
        """How a polygon comes of its rectangle: where its corners are marked."""
        flats = describe_length(part.flats_mm, unit=self.project.unit)
        marks = "; ".join(self._mark(corner) for corner in part.corners)
        return (
            f"{part.sides} sides, {flats} across the flats. Mark its corners from the left and from below, and cut from"
            f" mark to mark: {marks}."
        )

    def _mark(self, corner: Point) -> str:
        """A place, to the nearest step."""
        step = self.project.shop.step(self.project.unit)
        return unbroken(" and ".join(format_length(place_mm, step=step).text for place_mm in corner))

    def _named(self, part: SheetPart) -> str:
        return part.name + (" (left out)" if part.name in self.group.left_out else "")

    def buy(self, layout: SheetLayout) -> JobList:
        """Sheets to take from stock, sheets missing there, and sheets to buy."""
        cells = [*self._taken(layout), *self._bought(layout)]
        return self._list("buy", TITLES["buy"], ("What", "Size", "Count", "Each", "Together"), cells, tickable=True)

    def cuts(self, sheet: CutSheet, number: int, *, title: str = "") -> JobList:
        """The cuts of one sheet in their order; a tick counts for all sheets cut alike."""
        strips = {cut.of for cut in sheet.cuts} - {WHOLE_SHEET}
        cells = [self._cut(cut, strips) for cut in sheet.cuts]
        columns = ("Cut", "Set to", "Through", "Takes off", "Leaves")
        return self._list("cuts", title, columns, cells, tickable=True, of_sheet=number)

    def cut_words(self, sheet: CutSheet) -> tuple[str, ...]:
        """The cuts of one sheet, each in one line."""
        rows = self.cuts(sheet, 1).rows
        return tuple(
            f"{number}. {at}, through {of}: {gives}" for number, at, of, gives, _ in (row.cells for row in rows)
        )

    def left(self, layout: SheetLayout, kinds: Iterable[tuple[int, ...]]) -> JobList:
        """Every left-over, the largest first; those of sheets cut alike in one line."""
        found = [(numbers, left) for numbers in kinds for left in layout.sheets[numbers[0] - 1].left_overs]
        found.sort(key=lambda pair: -pair[1].area_mm2)
        cells = [(self._size(left), str(len(numbers)), f"sheet {numbers[0]}") for numbers, left in found]
        return self._list("left", TITLES["left"], ("Size, across × up", "Count", "Of"), cells)

    def _taken(self, layout: SheetLayout) -> Iterator[tuple[str, ...]]:
        """Sheets and off-cuts on hand; a needed one that has run out says so."""
        counted = Counter((sheet.stock, sheet.is_missing) for sheet in layout.sheets if not sheet.stock.is_bought)
        for (stock, is_missing), count in counted.items():
            yield (
                stock.name,
                self._size(stock),
                str(count),
                "missing: one more is needed" if is_missing else "at hand",
                "",
            )

    def _bought(self, layout: SheetLayout) -> Iterator[tuple[str, ...]]:
        for line in layout.purchases:
            each = self._tag(line.stock.cost) if line.stock.cost else "no price"
            together = self._tag(line.cost) if line.cost else ""
            yield line.stock.name, self._size(line.stock), str(line.count), each, together

    def _tag(self, price: Decimal) -> str:
        return tag_text(price, currency=currency_of(self.project))

    def _cut(self, cut: SheetCut, strips: set[str]) -> tuple[str, ...]:
        setting = unbroken(describe_length(cut.setting_mm, unit=self.project.unit))
        if cut.gives == TRIM:
            return str(cut.number), setting, "the sheet", "trim", "the sheet"
        side = "from the left" if cut.runs_up else "from below"
        return (
            str(cut.number),
            f"{setting} {side}",
            _piece(cut.of, strips),
            _piece(cut.gives, strips),
            _piece(cut.leaves, strips),
        )

    def _size(self, one: StockSheet | SheetPart | LeftOver) -> str:
        return unbroken(describe_size(one.across_mm, one.up_mm, unit=self.project.unit))

    def _list(
        self,
        name: str,
        title: str,
        columns: tuple[str, ...],
        cells: Iterable[tuple[str, ...]],
        *,
        tickable: bool = False,
        of_sheet: int = 0,
        below: Sequence[str] = (),
    ) -> JobList:
        here = f"{self.group.key[:10]}-{name}{of_sheet or ''}"
        rows = tuple(
            ListRow(
                key=f"{here}-{number}",
                cells=row,
                below=below[number - 1] if below else "",
                is_done=f"{here}-{number}" in self.project.sheets.done,
            )
            for number, row in enumerate(cells, start=1)
        )
        heads = "How it is cut out" if below else ""
        return JobList(name=name, title=title, columns=columns, rows=rows, tickable=tickable, below=heads)


def unbroken(text: str) -> str:
    """A size that a narrow column does not break."""
    return text.replace(" ", "\u00a0")


def waste_ratio(layout: SheetLayout) -> float:
    """The share of the cut sheets outside all parts; left-overs count as waste here."""
    stock = sum(sheet.stock.across_mm * sheet.stock.up_mm for sheet in layout.sheets)
    parts = sum(part.across_mm * part.up_mm for _, part in layout.parts())
    return 1 - parts / stock


def money_of(layout: SheetLayout) -> Decimal:
    """The total price of the sheets to buy."""
    return sum((line.cost for line in layout.purchases), Decimal(0))


def _piece(name: str, strips: set[str]) -> str:
    """The name of a piece at the bench."""
    if name in (WHOLE_SHEET, REST, LEFT_OVER):
        return {WHOLE_SHEET: "the sheet", REST: "the rest", LEFT_OVER: "a left-over"}[name]
    return f"strip {name}" if name in strips else name or "nothing"
