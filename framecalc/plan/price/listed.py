"""The shop's price list, as the prices of a job are looked up in it: the same name, sold by the same measure."""

from collections.abc import Iterable

from framecalc.price.costs import CostLine
from framecalc.price.moulding import Sale
from framecalc.price.quantities import Measure
from framecalc.project import Item
from framecalc.project.timber import Stock
from framecalc.records import replace
from framecalc.timber.boards import PricedBy

_BOARDS = {PricedBy.BOARD_FOOT: Measure.BOARD_FT, PricedBy.CUBIC_METRE: Measure.BOARD_M3, PricedBy.PIECE: Measure.STICK}


def listed(entries: Iterable[Item], name: str, *, sold_by: Measure | Sale) -> Item | None:
    """The entry of a price list for a thing that has a price there; None where there is none.

    Args:
        sold_by: a moulding's as it is bought, anything else's measure.
    """
    alike = (one for one in entries if is_for(one, name, sold_by=sold_by) and one.price is not None)
    return next(alike, None)


def is_for(entry: Item, name: str, *, sold_by: Measure | Sale) -> bool:
    """Whether an entry of a price list is of this thing; small and capital letters are alike."""
    return entry.name.casefold() == name.casefold() and entry.sold_by == sold_by


def beside_list(line: CostLine, entry: Item | None) -> CostLine:
    """A line that knows what the price list says; without a price of its own it has that one."""
    if entry is None:
        return line
    price, day = entry.price, entry.priced_on
    if line.price is not None:
        return replace(line, listed=price, listed_on=day)
    return replace(line, listed=price, listed_on=day, price=price, priced_on=day, is_listed=True)


def measure_of_stock(stock: Stock) -> Measure:
    """By what a stick or a board of the stock is sold."""
    return Measure.STICK if stock.width is None else _BOARDS[stock.priced_by]
