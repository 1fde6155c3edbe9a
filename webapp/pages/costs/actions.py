"""What the buttons of the costs page do: add and remove items, date prices, exchange quotes with the shop."""

from collections.abc import Callable, Iterator, Sequence
from datetime import date

from framecalc.errors import FrameCalcError
from framecalc.plan.price.items import missing_items
from framecalc.plan.price.listed import is_for
from framecalc.project import Item, Quote, items_at, items_of, read_project, remove_item, set_value, text_at
from framecalc.project.document import Document
from framecalc.project.price import MOST_ITEMS
from webapp.data.shop import profile_document, read_shop
from webapp.live.desk import Desk, new_id
from webapp.live.typed.forms import Draft, Typed, edited
from webapp.live.work.price_list import with_prices

ITEMS = "quote.items"
NEW_ITEM = "Another item"
"""What an item is called until it has a name."""


def carry_out(desk: Desk, draft: Draft, typed: Typed, _: str) -> Draft:
    """Apply the pressed button to a draft; `save` changes nothing more."""
    name, _, argument = typed.do.partition(":")
    if name not in _ACTIONS:
        return with_prices(desk, draft, typed.do)
    return edited(draft, lambda document: _ACTIONS[name](desk, document, argument))


def today() -> date:
    """Today's date on this computer."""
    return date.today()


def with_quote(desk: Desk, document: Document) -> Document:
    """A document with a quote: its own, or the shop's if it has none yet."""
    if document.get("quote"):
        return document
    return document | {"quote": desk.shop().first_quote.model_dump(mode="json", exclude_none=True)}


def _add_item(desk: Desk, document: Document, argument: str) -> None:
    _room(document, 1).append(_plain(Item(id=new_id(), name=NEW_ITEM)))


def _remove_item(desk: Desk, document: Document, item_id: str) -> None:
    remove_item(document, ITEMS, item_id)


def _add_missing(desk: Desk, document: Document, argument: str) -> None:
    project = read_project(document)
    missing = missing_items(project, project.quote or Quote(), new_id=new_id)
    _room(document, len(missing)).extend(_plain(item) for item in missing)


def _priced_today(desk: Desk, document: Document, item_id: str) -> None:
    for item in items_at(document, ITEMS):
        if item["id"] == item_id:
            item["priced_on"] = today().isoformat()


def _take_shop(desk: Desk, document: Document, argument: str) -> None:
    """Copy the shop's terms, and its price for every item of the same name."""
    shop = desk.shop().first_quote
    prices = {item.name.casefold(): item for item in shop.items}
    set_value(document, "quote.terms", shop.terms.model_dump(mode="json"))
    for item in items_at(document, ITEMS):
        known = prices.get(text_at(item, "name").casefold())
        if known:
            item |= {name: value for name, value in _plain(known).items() if name in ("price", "priced_on", "measure")}


def _keep_for_shop(desk: Desk, document: Document, argument: str) -> None:
    """Save items, prices and terms for new projects; values of this job alone are left out."""
    quote = read_project(document).quote or Quote()
    desk.store.shop.change(lambda profile: _with_quote(profile, quote))


def _with_quote(stored: Document, quote: Quote) -> Document:
    """A profile with the terms of a quote, and with its items among those that are there: none of them goes."""
    items = tuple(_merged(read_shop(stored).quote.items, quote.items))
    if len(items) > MOST_ITEMS:
        raise FrameCalcError(f"{MOST_ITEMS} prices at most: remove one on the Shop page", field="quote.items")
    kept = quote.model_copy(update={"note": "", "items": items})
    return profile_document(stored) | {"quote": kept.model_dump(mode="json", exclude_none=True)}


def _merged(entries: Sequence[Item], items: Sequence[Item]) -> Iterator[Item]:
    """The entries, each as the item of the same thing has it, and then the items that are new.

    Stock and mouldings of the price list are no items of a job: they stay as they are.
    """
    new = list(items)
    for entry in entries:
        same = next((one for one in new if not entry.listed_as and is_for(entry, one.name, sold_by=one.measure)), None)
        if same:
            new.remove(same)
        yield _renewed(entry, same) if same else entry
    yield from (one.model_copy(update=_ALONE | {"id": new_id()}) for one in new)


def _renewed(entry: Item, item: Item) -> Item:
    """An entry as an item has it; where that has no price, the known one is kept."""
    priced = item if item.price is not None else entry
    return item.model_copy(
        update=_ALONE | {"id": entry.id, "price": priced.price, "priced_on": priced.priced_on},
    )


_ALONE = {"quantity": None, "reason": "", "frame": ""}
"""What of an item belongs to one job alone."""


def _room(document: Document, more: int) -> list[Document]:
    items = items_of(document, ITEMS)
    if len(items) + more > MOST_ITEMS:
        raise FrameCalcError(f"{MOST_ITEMS} items are as many as there can be", field=ITEMS)
    return items


def _plain(item: Item) -> Document:
    return item.model_dump(mode="json", exclude_none=True)


_ACTIONS: dict[str, Callable[[Desk, Document, str], None]] = {
    "add-item": _add_item,
    "remove-item": _remove_item,
    "add-missing": _add_missing,
    "priced-today": _priced_today,
    "take-shop": _take_shop,
    "keep-for-shop": _keep_for_shop,
}

ANCHORS = {
    "add-item": "items",
    "remove-item": "items",
    "add-missing": "items",
    "priced-today": "items",
} | dict.fromkeys(("take-price", "keep-price"), "offers")
