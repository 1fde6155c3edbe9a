"""What a whole job has to buy: sticks and boards, bought moulding, sheets, hardware and finish, each with its price.

Sticks, boards and sheets are counted in the finished cutting plans and layouts. A material without one is named with
what its parts take, so that nothing is forgotten. What is at hand is not bought; work is paid for on Costs.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from datetime import date
from decimal import Decimal
from fractions import Fraction

from framecalc.errors import ImpossibleSize
from framecalc.money import Currency, to_coin
from framecalc.package.layers import LayerKind
from framecalc.package.stiffening import Stiffener
from framecalc.plan.inputs import is_bought
from framecalc.plan.package.stiffener_words import NAMES
from framecalc.plan.price.counts import LaidOut
from framecalc.plan.price.listed import listed, measure_of_stock
from framecalc.plan.price.price import JobPrice
from framecalc.plan.sheets.covers import FrameCover, covers_of, cut_covers
from framecalc.plan.sheets.sheets import SheetGroup
from framecalc.plan.timber.group import TimberGroup
from framecalc.price.costs import CostGroup, CostLine
from framecalc.price.quantities import UNIT_WORDS, Measure, in_measure
from framecalc.project import Item
from framecalc.project.timber import Stock
from framecalc.records import Record, replace
from framecalc.sheets.problem import StockSheet
from framecalc.timber.boards import price_of_board
from framecalc.timber.sticks.answer import CutStick
from framecalc.units import Unit
from framecalc.words import capitalised, typed, uncapitalised

THINGS = (CostGroup.HARDWARE, CostGroup.FINISH)
"""The items of the costs that are things to buy whole."""

NOT_CUT, NOT_LAID = "Not planned: plan the cuts on Timber.", "Not laid out: work out the layout on Sheets."

CUT_AGAIN = "A side is cut again: of the same board if you can."

PAPER, NO_ROLL = "Paper for dust covers", "Type the width of the roll on Sheets."

FROM_OFF_CUT = "An off-cut does."

USUAL_WOOD = "Wood"


class ToBuy(Record):
    """One line: so much of a thing, and what one of it costs; None where nobody has said.

    `sizes_mm` is what one piece measures. `is_listed`: the price is that of the shop's price list. `lacks` says what
    would make it certain.
    """

    group: CostGroup
    name: str
    unit: str
    quantity: Decimal
    sizes_mm: tuple[float, ...] = ()
    price: Decimal | None = None
    priced_on: date | None = None
    is_listed: bool = False
    lacks: str = ""

    def together(self, currency: Currency) -> Decimal | None:
        """What it comes to."""
        return None if self.price is None else to_coin(self.quantity * self.price, currency=currency)


def to_buy(job: JobPrice, *, laid_out: LaidOut, price_list: Sequence[Item] = ()) -> tuple[ToBuy, ...]:
    """List everything that a job has to buy, in the order of the costs.

    Args:
        laid_out: the materials of the job, with what is finished.
        price_list: has the prices of stock without one.
    Source: derived.
    """
    found = (
        *_wood(job, laid_out, price_list),
        *_again(job),
        *_stiffeners(job),
        *_cleats(job),
        *_sheets(job, laid_out, price_list),
        *_covers(job),
        *_things(job),
        *_retainers(job),
    )
    order = list(CostGroup)
    return tuple(sorted(_gathered(found), key=lambda line: order.index(line.group)))


def _gathered(lines: Iterable[ToBuy]) -> Iterator[ToBuy]:
    """Equal lines as one."""
    counted: dict[ToBuy, Decimal] = {}
    for line in lines:
        one = replace(line, quantity=Decimal(0))
        counted[one] = counted.get(one, Decimal(0)) + line.quantity
    return (replace(line, quantity=quantity) for line, quantity in counted.items())


def _wood(job: JobPrice, laid_out: LaidOut, price_list: Sequence[Item]) -> Iterator[ToBuy]:
    stock = {one.id: one for one in job.project.timber.stock}
    for group, plan in laid_out.wood:
        if group.section.moulding:
            continue
        if plan is None or group.is_estimate:
            yield _unplanned(group.section.wood, group.total_mm, job)
            continue
        for stick in plan.sticks:
            offer = group.offer_of(stick)
            if stick.is_to_buy and not (offer and offer.is_rest):
                yield _stick(stock[stick.stock.typed_id], stick, group, price_list)
    if not laid_out.wood:
        yield from _unsearched(job)
    yield from (_of_line(line) for line in job.mouldings)


def _again(job: JobPrice) -> Iterator[ToBuy]:
    """Wood for sides that are cut again, where neither an off-cut nor the rack has it."""
    species = {frame.id: frame.species for frame in job.project.frames}
    for one in job.project.bench.cut_again:
        if not one.source and one.frame in species:
            yield replace(_unplanned(species[one.frame], one.length.mm, job), lacks=CUT_AGAIN)


def _unsearched(job: JobPrice) -> Iterator[ToBuy]:
    """The wood of each frame, where the timber cannot even be put as a question."""
    for plan in job.plans:
        if not is_bought(plan.frame):
            yield _unplanned(plan.frame.species, plan.figures["stick_needed"].exact_mm * plan.frame.count, job)


def _unplanned(wood: str, length_mm: float, job: JobPrice) -> ToBuy:
    measure = Measure.STICK_M if job.project.unit is Unit.MM else Measure.STICK_FT
    per_mm = Fraction(1, 1000) if measure is Measure.STICK_M else Fraction(10, 3048)
    return ToBuy(
        group=CostGroup.WOOD,
        name=capitalised(wood) if wood else USUAL_WOOD,
        quantity=in_measure(Fraction(length_mm) * per_mm, measure),
        unit=UNIT_WORDS[measure],
        lacks=NOT_CUT,
    )


def _stick(entry: Stock, stick: CutStick, group: TimberGroup, price_list: Sequence[Item]) -> ToBuy:
    """One stick, or one board with what its price is for turned into that of the board."""
    offer, kept = group.offer_of(stick), listed(price_list, entry.name, sold_by=measure_of_stock(entry))
    board = offer.board if offer else None
    width_mm = board.width_mm if board else group.section.width_mm
    line = ToBuy(
        group=CostGroup.WOOD,
        name=entry.name,
        quantity=Decimal(1),
        unit="boards" if board else "sticks",
        sizes_mm=(*((entry.thickness.mm,) if board and entry.thickness else ()), width_mm, stick.stock.length_mm),
        price=stick.stock.price or None,
    )
    if kept is None or kept.price is None or entry.price not in (None, 0, kept.price):
        return line
    each = price_of_board(replace(board, price=kept.price, priced_by=entry.priced_by)) if board else kept.price
    return replace(line, price=each, priced_on=kept.priced_on, is_listed=True)


def _stiffeners(job: JobPrice) -> Iterator[ToBuy]:
    """Strips, bars and struts behind the frames, at their size to cut."""
    for plan in job.plans:
        if found := plan.package.stiffener:
            is_wood = found.kind is not Stiffener.BAR
            yield ToBuy(
                group=CostGroup.WOOD if is_wood else CostGroup.HARDWARE,
                name=typed(plan.frame.name) + ": " + uncapitalised(NAMES[found.kind]),
                unit=UNIT_WORDS[Measure.FRAME],
                quantity=Decimal(plan.frame.count),
                sizes_mm=(found.out_mm, found.wide_mm, found.long_mm),
                lacks=FROM_OFF_CUT if is_wood else "",
            )


def _cleats(job: JobPrice) -> Iterator[ToBuy]:
    """The strips of cleats, before they are ripped."""
    for plan in job.plans:
        if cleat := plan.hangers.cleat:
            yield ToBuy(
                group=CostGroup.WOOD,
                name=typed(plan.frame.name) + ": strip for a cleat",
                unit=UNIT_WORDS[Measure.FRAME],
                quantity=Decimal(plan.frame.count),
                sizes_mm=(cleat.out_mm, cleat.strip_mm, cleat.long_mm),
                lacks=FROM_OFF_CUT,
            )


def _sheets(job: JobPrice, laid_out: LaidOut, price_list: Sequence[Item]) -> Iterator[ToBuy]:
    for group, layout in laid_out.sheets:
        if layout is None or group.is_estimate:
            yield _not_laid_out(group, job)
            continue
        missing = Counter(sheet.stock for sheet in layout.sheets if sheet.is_missing)
        bought = Counter({line.stock: line.count for line in layout.purchases})
        for stock, count in (bought + missing).items():
            yield _sheet(stock, count, price_list)


def _covers(job: JobPrice) -> Iterator[ToBuy]:
    """Paper for dust covers: what they take of the roll, at what the costs pay for it; else their sizes."""
    covers, roll = covers_of(job.plans), None
    with suppress(ImpossibleSize):
        roll = cut_covers(job.project, covers)
    if roll is None:
        yield from map(_cover, covers)
        return
    measure = Measure.AREA_M2 if job.project.unit is Unit.MM else Measure.AREA_FT2
    per_mm2 = Fraction(1, 10**6) if measure is Measure.AREA_M2 else Fraction(10, 3048) ** 2
    line = ToBuy(
        group=CostGroup.SHEETS,
        name=PAPER,
        quantity=in_measure(Fraction(roll.width_mm) * Fraction(roll.length_mm) * per_mm2, measure),
        unit=UNIT_WORDS[measure],
        sizes_mm=(roll.width_mm, roll.length_mm),
    )
    paid = (
        _of_line(one) for item, one in zip(job.quote.items, job.of_items, strict=True) if _is_of_covers(item, measure)
    )
    one = next(paid, None)
    yield replace(line, price=one.price, priced_on=one.priced_on, is_listed=one.is_listed) if one else line


def _is_of_covers(item: Item, measure: Measure) -> bool:
    return item.layer == LayerKind.DUST_COVER and item.measure is measure and not item.takes_off


def _cover(cover: FrameCover) -> ToBuy:
    return ToBuy(
        group=CostGroup.SHEETS,
        name=PAPER,
        quantity=Decimal(cover.count),
        unit=UNIT_WORDS[Measure.FRAME],
        sizes_mm=(cover.across_mm, cover.up_mm),
        lacks=NO_ROLL,
    )


def _sheet(stock: StockSheet, count: int, price_list: Sequence[Item]) -> ToBuy:
    line = ToBuy(
        group=CostGroup.SHEETS,
        name=stock.name,
        quantity=Decimal(count),
        unit=UNIT_WORDS[Measure.SHEET],
        sizes_mm=(stock.across_mm, stock.up_mm),
        price=stock.cost or None,
    )
    kept = listed(price_list, stock.name, sold_by=Measure.SHEET)
    if kept is None or stock.cost not in (0, kept.price):
        return line
    return replace(line, price=kept.price, priced_on=kept.priced_on, is_listed=True)


def _not_laid_out(group: SheetGroup, job: JobPrice) -> ToBuy:
    measure = Measure.AREA_M2 if job.project.unit is Unit.MM else Measure.AREA_FT2
    area_mm2 = sum((Fraction(part.across_mm) * Fraction(part.up_mm) * part.count for part in group.parts), Fraction(0))
    per_mm2 = Fraction(1, 10**6) if measure is Measure.AREA_M2 else Fraction(10, 3048) ** 2
    return ToBuy(
        group=CostGroup.SHEETS,
        name=group.material.name,
        quantity=in_measure(area_mm2 * per_mm2, measure),
        unit=UNIT_WORDS[measure],
        lacks=NOT_LAID,
    )


def _things(job: JobPrice) -> Iterator[ToBuy]:
    return (_of_line(line) for line in job.of_items if line.group in THINGS and line.quantity and not line.takes_off)


def _of_line(line: CostLine) -> ToBuy:
    return ToBuy(
        group=line.group,
        name=line.name,
        quantity=line.quantity,
        unit=line.unit,
        price=line.price,
        priced_on=line.priced_on,
        is_listed=line.is_listed or (line.listed is not None and not line.differs),
    )


def _retainers(job: JobPrice) -> Iterator[ToBuy]:
    """What holds the packages, where no item of the costs is paid for by the retainer."""
    if any(item.measure is Measure.RETAINER for item in job.quote.items):
        return
    for plan in job.plans:
        if plan.package.retainer and plan.package.retainer_count:
            yield ToBuy(
                group=CostGroup.HARDWARE,
                name=capitalised(plan.package.retainer.pieces),
                quantity=Decimal(plan.package.retainer_count * plan.frame.count),
                unit=UNIT_WORDS[Measure.RETAINER],
            )
