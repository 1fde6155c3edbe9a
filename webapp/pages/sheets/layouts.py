"""A sheet layout on the page: each different sheet once, with its count, drawing, cuts and faults."""

from collections.abc import Hashable, Iterator
from itertools import groupby

from framecalc.drawing.sheet import TitleBlock
from framecalc.drawing.sheets.layout import DrawnSheet, draw_layout_panel, draw_layout_paper
from framecalc.plan.price.price import currency_of
from framecalc.project import Project
from framecalc.records import Record, replace
from framecalc.sheets.answer import CutSheet, SheetLayout
from framecalc.words import say
from webapp.data.errors import StoreError
from webapp.live.answers import Big, Table
from webapp.live.lists import JobList
from webapp.live.render import drawing
from webapp.pages.sheets.lists import SheetLister
from webapp.pages.sheets.says import bigs_of, proof_words, quality_words, share_tables

DRAWN = 4
"""Different sheets that stand on the page with their drawing and cuts, the first of the job; each further one has a
page of its own. One takes some 140 elements and 12 kB."""

FURTHER = 6
"""Further sheets of a material that the page names; a page of the material names them all."""


class NoSuchLayout(StoreError):
    """There is no layout, or no list, of this name."""


class SheetView(Record):
    """Sheets cut alike: the number of the first, their cuts and faults; a drawing if the page has room."""

    number: int
    count: int
    cuts: JobList
    note: str
    svg: str = ""


class LayoutView(Record):
    """A layout on the page, which has room for the drawings of some of its sheets."""

    verdict: str
    bigs: tuple[Big, ...]
    buy: JobList
    left: JobList
    sheets: tuple[SheetView, ...]
    proved: str
    proof: tuple[str, ...]
    shares: tuple[Table, ...]
    room: int

    @property
    def drawn(self) -> tuple[SheetView, ...]:
        """The sheets drawn on the page."""
        return self.sheets[: self.room]

    @property
    def further(self) -> tuple[SheetView, ...]:
        """The sheets drawn only on pages of their own."""
        return self.sheets[self.room :]

    @property
    def named(self) -> tuple[SheetView, ...]:
        """Those of them that the page names: all, unless there are many."""
        return self.further if len(self.further) <= FURTHER + 1 else self.further[:FURTHER]


def layout_view(lister: SheetLister, layout: SheetLayout, number: int, *, room: int) -> LayoutView:
    """The layout of the material of this number, on a page that has room for so many of its sheets."""
    unit = lister.project.unit
    return LayoutView(
        verdict=layout.verdict,
        bigs=tuple(bigs_of(layout, unit, currency_of(lister.project))),
        buy=lister.buy(layout),
        left=lister.left(layout, kinds_of(layout)),
        sheets=tuple(_sheet_views(lister, layout, number, room=room)),
        proved=quality_words(layout, currency_of(lister.project)),
        proof=tuple(proof_words(layout)),
        shares=tuple(share_tables(layout.proof, unit)),
        room=room,
    )


def sheet_view(lister: SheetLister, layout: SheetLayout, number: int, *, of_group: int) -> SheetView:
    """One sheet and all cut like it, with its drawing.

    Raises:
        NoSuchLayout: the layout has no such sheet.
    """
    require_sheet(layout, number)
    numbers = next(numbers for numbers in kinds_of(layout) if number in numbers)
    return _with_drawing(_sheet_view(lister, layout, numbers), lister, layout, of_group)


def sheet_paper(lister: SheetLister, layout: SheetLayout, number: int, *, paper: str) -> str:
    """One sheet of a layout with its cuts, on a paper of its own, as SVG.

    Raises:
        NoSuchLayout: the layout has no such sheet.
    """
    require_sheet(layout, number)
    drawn = _drawn(lister, layout, number)
    count = len(next(numbers for numbers in kinds_of(layout) if number in numbers))
    block = _title_block(drawn, lister.project, count)
    return draw_layout_paper(drawn, block=block, paper=paper, cuts=lister.cut_words(drawn.sheet))


def require_sheet(layout: SheetLayout, number: int) -> None:
    """Refuse the number of a missing sheet.

    Raises:
        NoSuchLayout: the layout has no such sheet.
    """
    if not 1 <= number <= len(layout.sheets):
        raise NoSuchLayout(f"this layout has {len(layout.sheets)} sheets")


def kinds_of(layout: SheetLayout) -> tuple[tuple[int, ...], ...]:
    """The numbers of the sheets, grouped by equal cuts, in the order of the first of each."""
    kinds: dict[Hashable, list[int]] = {}
    for number, sheet in enumerate(layout.sheets, start=1):
        kinds.setdefault(_alike(sheet), []).append(number)
    return tuple(tuple(numbers) for numbers in kinds.values())


def runs(numbers: tuple[int, ...], *, most: int = 4) -> str:
    """Numbers of sheets, briefly.

    >>> runs((1, 2, 3, 7)), runs((1, 3, 5, 7, 9, 11), most=2)
    ('1 to 3, 7', '1, 3 and 4 more')
    """
    found = [[number for _, number in run] for _, run in groupby(enumerate(numbers), lambda pair: pair[1] - pair[0])]
    said = [f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in found[:most]]
    further = sum(len(run) for run in found[most:])
    return ", ".join(said) + (f" and {further} more" if further else "")


def _alike(sheet: CutSheet) -> Hashable:
    """The key of sheets cut alike: the sheet, and its parts without their numbers."""
    parts = tuple((part.name, part.x_mm, part.y_mm, part.is_turned) for part in sheet.parts)
    return sheet.stock, sheet.is_missing, parts


def _sheet_views(lister: SheetLister, layout: SheetLayout, number: int, *, room: int) -> Iterator[SheetView]:
    for place, numbers in enumerate(kinds_of(layout)):
        view = _sheet_view(lister, layout, numbers)
        yield _with_drawing(view, lister, layout, number) if place < room else view


def _sheet_view(lister: SheetLister, layout: SheetLayout, numbers: tuple[int, ...]) -> SheetView:
    sheet, count = layout.sheets[numbers[0] - 1], len(numbers)
    missing = "these are" if count > 1 else "this one is"
    return SheetView(
        number=numbers[0],
        count=count,
        cuts=lister.cuts(sheet, numbers[0], title=_title(sheet, numbers, len(layout.sheets))),
        note=f"There are not enough of these at hand: {missing} missing." if sheet.is_missing else "",
    )


def _title(sheet: CutSheet, numbers: tuple[int, ...], of: int) -> str:
    if len(numbers) == 1:
        return f"Sheet {numbers[0]} of {of}: " + sheet.stock.name
    return f"{len(numbers)} sheets cut alike, {runs(numbers)} of {of}: " + sheet.stock.name


def _with_drawing(view: SheetView, lister: SheetLister, layout: SheetLayout, group: int) -> SheetView:
    panel = draw_layout_panel(_drawn(lister, layout, view.number), name=f"sheet-{group}-{view.number}")
    return replace(view, svg=drawing(panel))


def _drawn(lister: SheetLister, layout: SheetLayout, number: int) -> DrawnSheet:
    group = lister.group
    return DrawnSheet(
        sheet=layout.sheets[number - 1],
        number=number,
        of=len(layout.sheets),
        material=group.material.title,
        cutting=group.material.cutting,
        trim_mm=group.problem.trim_mm if group.problem else 0.0,
        unit=lister.project.unit,
        off_cut=say("off-cut", lister.project.shop.words),
    )


def _title_block(drawn: DrawnSheet, project: Project, count: int) -> TitleBlock:
    saved = project.saved
    alike = f", {count} alike" if count > 1 else ""
    return TitleBlock(
        project=project.name,
        frame=say(drawn.material, project.shop.words),
        drawing=f"Sheet layout, {drawn.number} of {drawn.of}{alike}",
        revision=f"revision {saved.revision}" if saved else "not saved",
        date=saved.when[:10] if saved else "no date",
        unit=project.unit,
    )
