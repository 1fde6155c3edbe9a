"""The shopping list of a whole job: everything to buy, what each is paid for, and where its price is from."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from hashlib import sha256
from itertools import groupby

from framecalc.errors import FrameCalcError
from framecalc.money import Currency, money_text, number_text, tag_text
from framecalc.plan import Plan
from framecalc.plan.price.price import currency_of
from framecalc.plan.price.shopping import ToBuy, to_buy
from framecalc.project import Project
from framecalc.records import Record
from framecalc.units import describe_length
from framecalc.words import Words, capitalised, day_said, say
from webapp.issue.pricing import laid_out, price_of
from webapp.live.desk import Desk
from webapp.live.lists import JobList, ListRow, NamedLists
from webapp.live.work.price_list import price_list_for

SHOPPING, TITLE = "shopping", "Shopping, whole job"
"""Its name in addresses, and its title."""

COLUMNS = ("What", "Size", "Quantity", "Each", "Together", "Price from")


def shopping_lists(desk: Desk, project: Project) -> NamedLists:
    """The list, a part for each kind of thing and the sum; nothing while a frame cannot be computed."""
    plan, shop = Plan(project), desk.shop()
    try:
        job = price_of(desk, plan, project.quote or shop.first_quote)
    except FrameCalcError:
        return ()
    found = to_buy(job, laid_out=laid_out(desk.jobs, plan), price_list=price_list_for(shop, project))
    return tuple(_Lister(project=project, currency=currency_of(project, terms=job.quote.terms)).all(found))


class _Lister(Record):
    """Writes the lines in the unit, the words and the money of a job."""

    project: Project
    currency: Currency

    def all(self, found: Sequence[ToBuy]) -> Iterator[tuple[str, JobList]]:
        """A list for each kind of thing, and one with the sum."""
        for group, lines in groupby(found, key=lambda line: line.group):
            yield self._say(capitalised(group.value)), self._list([self._cells(line) for line in lines])
        if found:
            yield self._say("All of it"), self._list([self._sum(found)], tickable=False)

    @property
    def _words(self) -> Words:
        return self.project.shop.words

    def _say(self, text: str) -> str:
        return say(text, self._words)

    def _list(self, cells: Sequence[tuple[str, ...]], *, tickable: bool = True) -> JobList:
        keys = [f"{sha256('|'.join(row[:3]).encode()).hexdigest()[:10]}-{SHOPPING}-1" for row in cells]
        rows = tuple(
            ListRow(key=key, cells=row, is_done=key in self.project.timber.done)
            for key, row in zip(keys, cells, strict=True)
        )
        return JobList(name=SHOPPING, title=TITLE, columns=COLUMNS, rows=rows, tickable=tickable)

    def _cells(self, line: ToBuy) -> tuple[str, ...]:
        together = line.together(self.currency)
        return (
            self._say(line.name),
            self._size(line.sizes_mm),
            f"{number_text(line.quantity)} {line.unit.removesuffix('s') if line.quantity == 1 else line.unit}",
            "" if line.price is None else tag_text(line.price, currency=self.currency),
            "" if together is None else money_text(together, currency=self.currency),
            " ".join(filter(None, (self._priced(line), line.lacks))),
        )

    def _size(self, sizes_mm: Sequence[float]) -> str:
        """Sizes of one piece with their unit once."""
        sizes = [describe_length(size_mm, unit=self.project.unit) for size_mm in sizes_mm]
        *others, last = sizes or [""]
        return " × ".join((*(size.removesuffix(f" {self.project.unit.value}") for size in others), last))

    def _priced(self, line: ToBuy) -> str:
        """Where the price is from."""
        if line.price is None:
            return "No price yet." if not line.lacks else ""
        on = f", {day_said(line.priced_on, self._words)}" if line.priced_on else ""
        return f"Price list{on}" if line.is_listed else f"This job{on}"

    def _sum(self, found: Sequence[ToBuy]) -> tuple[str, ...]:
        amounts = [line.together(self.currency) for line in found]
        total = sum((amount for amount in amounts if amount is not None), Decimal(0))
        lacking = amounts.count(None)
        without = f"{lacking} without a price" if lacking else ""
        return ("Together", "", "", "", money_text(total, currency=self.currency), without)
