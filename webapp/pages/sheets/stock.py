"""The stock of the sheets page: the sheets for each layer name, the sheets for none, and the ways of cutting."""

from collections.abc import Iterator

from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.plan.price.price import currency_of
from framecalc.project.sheets import StockSheet
from framecalc.records import Record
from framecalc.sheets.materials import SheetCutting, name_as_sold
from webapp.live.typed.answer import Answer
from webapp.pages.sheets.actions import NEW_NAMES, sold_for
from webapp.pages.sheets.fields import layer_names
from webapp.pages.sheets.says import stock_words


class SheetStockView(Record):
    """One entry of the stock in its fold: its id, and one line about it."""

    id: str
    name: str
    says: str
    is_open: bool


class StockOfMaterial(Record):
    """The stock for layers of one name. `sold` are sizes to add with one press: the button's value and words.

    `evidence` says how far these sizes can be relied on.
    """

    name: str
    stock: tuple[SheetStockView, ...]
    sold: tuple[tuple[str, str], ...]
    evidence: str
    may_turn: bool


def materials_of(answer: Answer, plan: Plan) -> Iterator[StockOfMaterial]:
    """The stock, by the names of the layers that it serves."""
    project, idle = answer.project, _idle_ids(plan)
    upright = {name.casefold() for name in project.sheets.upright}
    for name in layer_names(answer.document):
        stock = [one for one in project.sheets.stock if one.serves.casefold() == name.casefold()]
        sold = sold_for(project, name)
        yield StockOfMaterial(
            name=name,
            stock=tuple(_stock_view(one, answer, serves_none=one.id in idle) for one in stock),
            sold=tuple((f"add-sold:{place}:{name}", name_as_sold(sheet)) for place, sheet in enumerate(sold)),
            evidence=", ".join(sorted({sheet.evidence.value for sheet in sold})).capitalize(),
            may_turn=name.casefold() not in upright,
        )


def idle_stock(answer: Answer) -> Iterator[SheetStockView]:
    """Stock whose layers have been renamed or removed."""
    known = {name.casefold() for name in layer_names(answer.document)}
    for one in answer.project.sheets.stock:
        if one.serves.casefold() not in known:
            yield _stock_view(one, answer)


def ways_of(plan: Plan) -> tuple[SheetCutting, ...]:
    """The ways of cutting that the project needs."""
    try:
        used = {group.material.cutting for group in plan.sheets.groups}
    except FrameCalcError:
        return tuple(SheetCutting)
    return tuple(cutting for cutting in SheetCutting if cutting in used)


def _idle_ids(plan: Plan) -> frozenset[str]:
    """Stock that serves no part; unknown, and so none, while a frame cannot be computed."""
    try:
        return frozenset(one.id for one in plan.sheets.idle)
    except FrameCalcError:
        return frozenset()


def _stock_view(entry: StockSheet, answer: Answer, *, serves_none: bool = False) -> SheetStockView:
    """An entry in its fold, which is open if the entry is new or a field in it is refused."""
    here = f"sheets.stock.{entry.id}."
    is_wrong = any(path.startswith(here) for path in answer.reading_messages)
    return SheetStockView(
        id=entry.id,
        name=entry.name,
        says=stock_words(entry, answer.project.unit, currency_of(answer.project))
        + (": no part is so thick" if serves_none else ""),
        is_open=is_wrong or entry.name in NEW_NAMES,
    )
