"""The sheets of a whole job in a band: what to buy, what to take from stock, what is left."""

from collections import Counter
from collections.abc import Iterable, Iterator

from framecalc.findings import Rounding
from framecalc.money import tag_text
from framecalc.plan.price.price import currency_of
from framecalc.project import Project
from framecalc.records import Record
from framecalc.sheets.answer import LeftOver, SheetLayout
from framecalc.units import format_length
from framecalc.words import joined, typed
from webapp.jobs.sheets import SheetWork
from webapp.live.answers import first_few
from webapp.pages.sheets.lists import money_of


class SheetsOfJob(Record):
    """What to buy and to take, a line each, and what is left. `is_estimate`: some material has no stock typed."""

    buy: tuple[str, ...]
    at_hand: tuple[str, ...]
    left: str
    is_estimate: bool


def sheets_of_job(works: Iterable[SheetWork], project: Project) -> SheetsOfJob | None:
    """The band of a job; None until every material has a layout."""
    works = tuple(works)
    layouts = [work.layout for work in works if work.layout]
    if not works or len(layouts) < len(works):
        return None
    money = sum(money_of(layout) for layout in layouts)
    cost = (tag_text(money, currency=currency_of(project)),) if money else ()
    buy = tuple(_counted(works, is_bought=True))
    return SheetsOfJob(
        buy=(*buy, *cost) if buy else ("Nothing to buy.",),
        at_hand=tuple(_counted(works, is_bought=False)),
        left=_left(layouts, project),
        is_estimate=any(work.group.is_estimate for work in works),
    )


def _counted(works: Iterable[SheetWork], *, is_bought: bool) -> Iterator[str]:
    """How many sheets of every material, bought or from stock."""
    for work in works:
        layout = work.layout
        count = sum(sheet.stock.is_bought is is_bought for sheet in layout.sheets) if layout else 0
        if count:
            yield joined(" ", (f"{count} ×", typed(work.group.material.title)))


def _left(layouts: Iterable[SheetLayout], project: Project) -> str:
    """The largest left-overs."""
    left = [one for layout in layouts for sheet in layout.sheets for one in sheet.left_overs]
    left.sort(key=lambda one: -one.area_mm2)
    counted = Counter(_size(one, project) for one in left)
    sizes = [f"{count} of {size}" if count > 1 else size for size, count in counted.items()]
    return first_few(sizes) or "Nothing."


def _size(left: LeftOver, project: Project) -> str:
    """The size of a left-over, down to the tape's step."""
    step = project.shop.step(project.unit)
    across, up = (format_length(mm, step=step, rounding=Rounding.DOWN) for mm in (left.across_mm, left.up_mm))
    return f"{across.text} × {up.full}"
