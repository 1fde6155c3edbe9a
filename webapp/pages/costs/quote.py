"""The quote for a client, to print on one sheet, as strings.

Nothing is cut off to make it fit. The letters are as large as one sheet of the smaller paper allows, by an upper bound
of the room that they need; if even the smallest do not fit, the page says that it takes more than one sheet.
"""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from functools import partial
from math import ceil

from framecalc.drawing.lettering import text_across_mm
from framecalc.money import money_text
from framecalc.plan.client import client_facts
from framecalc.plan.price.price import JobPrice
from framecalc.records import Record
from framecalc.words import Words
from webapp.issue.issuing import sum_rows
from webapp.issue.offer import PriceRow
from webapp.live.addresses import COSTS
from webapp.live.days import day
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.pages.costs.actions import today

POINT_MM = 25.4 / 72
ACROSS_MM, UP_MM = 180.0, 246.0
"""What is printed on by A4 and Letter alike, inside margins of 14 mm, with a little to spare."""

SIZES_PT = (10.5, 9.5, 8.6, 7.8, 7.0, 6.2, 5.6)
"""The sizes of letters that `quote.css` knows as `fit-0`, `fit-1` and so on."""

RUNS_ON_FROM = 3
"""From this size on, what a frame is made of follows its name on the same line."""

TIGHT_FROM = 4
"""From this size on, rows stand close."""

HEADS = 13.6
"""The height of the head, the heads of the columns, the total and what is said of an estimate, in letters."""

LINE, BREAKS = 1.25, 1.1
"""The height of a line in letters, and what breaking between words takes beyond the bare length."""


class QuotedFrame(Record):
    """One frame of a quote: name, materials, size, count, price of one and of all."""

    name: str
    says: str
    size: str
    count: str
    each: str
    amount: str

    @property
    def numbers(self) -> tuple[str, str, str, str]:
        """The columns beside the name."""
        return self.size, self.count, self.each, self.amount


class QuoteShown(Record):
    """What the printed quote shows; `fit` is the index of its letter size in `SIZES_PT`."""

    words: Words
    shop: str
    notes: tuple[str, ...]
    revision: int
    on: str
    rows: tuple[QuotedFrame, ...]
    prices: tuple[PriceRow, ...]
    complete: bool
    is_estimate: bool
    back: str
    fit: int
    is_one_sheet: bool
    shop_damage: str


def quote_shown(desk: Desk, opened: ProjectAtRevision) -> QuoteShown:
    """What the printed quote shows.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    job, shop = desk.price(opened.project_id, opened.plan), desk.shop()
    frames = tuple(_frame(job, number) for number in range(len(job.plans)))
    prices = tuple(sum_rows(job))
    notes = tuple(filter(None, (job.quote.note, shop.client_note)))
    fit = fit_of(frames, sums=len(prices), notes=notes)
    return QuoteShown(
        words=opened.project.shop.words,
        shop=shop.called,
        notes=notes,
        revision=opened.revision.number,
        on=day(f"{today().isoformat()}T12:00:00+00:00"),
        rows=frames,
        prices=prices,
        complete=job.is_complete,
        is_estimate=job.is_estimate,
        back=COSTS(project_id=opened.project_id),
        fit=min(fit, len(SIZES_PT) - 1),
        is_one_sheet=fit < len(SIZES_PT),
        shop_damage=desk.store.shop.damage(),
    )


def fit_of(frames: Sequence[QuotedFrame], *, sums: int, notes: Iterable[str]) -> int:
    """The index in `SIZES_PT` of the largest letters with which all fits on one sheet; past the end if none do."""
    notes = tuple(notes)
    fitting = (at for at in range(len(SIZES_PT)) if _up_mm(at, frames, sums, notes) <= UP_MM)
    return next(fitting, len(SIZES_PT))


def _frame(job: JobPrice, number: int) -> QuotedFrame:
    plan, money = job.plans[number], partial(_amount, job)
    facts = {fact.name: fact.text for fact in client_facts(plan).facts}
    return QuotedFrame(
        name=plan.frame.name,
        says=", ".join(filter(None, (facts.get(name, "") for name in ("wood", "finish", "mat", "glazing")))),
        size=facts["outside"],
        count=str(plan.frame.count),
        each=money(job.offer.each[number]),
        amount=money(job.offer.batches[number]),
    )


def _amount(job: JobPrice, amount: Decimal) -> str:
    """An amount to pay; none before all is priced."""
    return money_text(amount, currency=job.terms.currency) if job.is_complete else "–"


def _up_mm(at: int, frames: Sequence[QuotedFrame], sums: int, notes: tuple[str, ...]) -> float:
    """An upper bound of the height of everything in letters of one size."""
    size_mm = SIZES_PT[at] * POINT_MM
    between = 0.37 if at >= TIGHT_FROM else 0.74
    rows = sum(between + LINE * lines for lines in _lines(at, frames))
    said = sum(0.6 + LINE * _wrapped(note, ACROSS_MM, size_mm) for note in notes)
    return size_mm * (HEADS + sums * (between + LINE) + rows + said)


def _lines(at: int, frames: Sequence[QuotedFrame]) -> Iterator[int]:
    """The number of lines of each row, beside its columns of numbers."""
    size_mm = SIZES_PT[at] * POINT_MM
    columns = zip(*(frame.numbers for frame in frames), strict=True)
    beside_mm = sum(max(text_across_mm(text, size_mm=size_mm) for text in column) + 3 * size_mm for column in columns)
    room_mm = max(ACROSS_MM - beside_mm, ACROSS_MM / 5)
    for frame in frames:
        texts = (f"{frame.name} {frame.says}",) if at >= RUNS_ON_FROM else (frame.name, frame.says)
        yield sum(_wrapped(text, room_mm, size_mm) for text in texts if text)


def _wrapped(text: str, room_mm: float, size_mm: float) -> int:
    """The number of lines that a text takes."""
    lines = (text_across_mm(line, size_mm=size_mm) * BREAKS for line in text.split("\n"))
    return sum(max(1, ceil(line_mm / room_mm)) for line_mm in lines)
