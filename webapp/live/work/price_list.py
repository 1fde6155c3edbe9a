"""The shop's price list beside the prices of a project: what it offers them, and what it may keep of them.

The list is the items that the shop keeps for its costs: what, by what measure, price, day. A project has its own copy
of a price; where the list says something else, that is offered and never done unasked.
"""

from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal

from framecalc.errors import FrameCalcError
from framecalc.money import Currency, number_text, tag_text
from framecalc.plan.inputs import is_bought
from framecalc.plan.price.listed import is_for, listed, measure_of_stock
from framecalc.plan.price.price import currency_of
from framecalc.price.costs import CostGroup
from framecalc.price.moulding import Sale
from framecalc.price.quantities import Measure
from framecalc.project import Frame, Item, Project, items_of, read_project, value_at, with_value
from framecalc.project.document import Document, ReadDocument
from framecalc.project.price import MOST_ITEMS, STOCK
from framecalc.records import Record, replace
from framecalc.words import Words, day_said
from webapp.data.shop import ShopProfile, profile_document, read_shop
from webapp.live.desk import Desk, new_id
from webapp.live.typed.forms import Draft

BUTTONS = ("take-price", "keep-price")
"""What the buttons of the offers send before the path of a price; behind it, what the list said when it was shown."""

_UNLISTED = "none"


class TypedPrice(Record):
    """A price of a project by its path: of what, by what measure, for which group of costs; nothing where none is.

    `listed_as` is what the price list keeps it for. `is_wanted`: it is bought, and its price is blank.
    """

    path: str
    name: str
    measure: Measure
    group: CostGroup
    price: Decimal | None
    listed_as: str = ""
    is_wanted: bool = False

    @property
    def sold_by(self) -> Measure | Sale:
        """By what it is sold."""
        return self.listed_as if isinstance(self.listed_as, Sale) else self.measure

    @property
    def has_day(self) -> bool:
        """Whether the project keeps the day of the price beside it."""
        return self.listed_as != STOCK

    def entry(self) -> dict[str, str]:
        """What the price list says of it beside price and day."""
        return {
            "name": str(self.name),
            "measure": self.measure.value,
            "group": self.group.value,
            "listed_as": str(self.listed_as),
        }


class PriceNote(Record):
    """What is said of one price beside the list, and the buttons for it: what each sends, and its words."""

    name: str
    says: str
    buttons: tuple[tuple[str, str], ...]


def timber_prices(project: Project) -> Iterator[TypedPrice]:
    """The prices of the sticks and boards of a project."""
    for one in project.timber.stock:
        yield TypedPrice(
            path=f"timber.stock.{one.id}",
            name=one.name,
            measure=measure_of_stock(one),
            group=CostGroup.WOOD,
            price=one.price or None,
            listed_as=STOCK,
            is_wanted=one.price is None and not one.in_hand,
        )


def sheet_prices(project: Project) -> Iterator[TypedPrice]:
    """The prices of the sheets of a project."""
    for one in project.sheets.stock:
        yield TypedPrice(
            path=f"sheets.stock.{one.id}",
            name=one.name,
            measure=Measure.SHEET,
            group=CostGroup.SHEETS,
            price=one.price or None,
            listed_as=STOCK,
            is_wanted=one.price is None and one.count is None,
        )


def cost_prices(project: Project) -> Iterator[TypedPrice]:
    """The prices of the items of a quote."""
    for one in project.quote.items if project.quote else ():
        path = f"quote.items.{one.id}"
        yield TypedPrice(path=path, name=one.name, measure=one.measure, group=one.group, price=one.price)


def moulding_prices(frame: Frame) -> Iterator[TypedPrice]:
    """The price of the bought moulding of a frame, if it has one with a name to order it by."""
    moulding = frame.section.moulding
    if is_bought(frame) and moulding.name:
        yield TypedPrice(
            path=f"frames.{frame.id}.section.moulding",
            name=moulding.name,
            measure=moulding.sale.measure,
            group=CostGroup.WOOD,
            price=moulding.price,
            listed_as=moulding.sale,
        )


def price_list_for(shop: ShopProfile, project: Project) -> tuple[Item, ...]:
    """The shop's price list for a project; nothing where the project reckons in other money."""
    mark = shop.mark or shop.quote.terms.mark
    return shop.quote.items if mark in ("", currency_of(project).mark) else ()


def offers_of(desk: Desk, project: Project, prices: Iterator[TypedPrice]) -> tuple[PriceNote, ...]:
    """What the shop's list says of the prices of a project; nothing where both are silent, or in other money."""
    shop, currency = desk.shop(), currency_of(project)
    entries = price_list_for(shop, project)
    if shop.quote.items and not entries:
        return ()
    words = project.shop.words
    offers = (_offer(one, listed(entries, one.name, sold_by=one.sold_by), currency, words) for one in prices)
    return tuple(offer for offer in offers if offer)


def with_prices(desk: Desk, draft: Draft, do: str) -> Draft:
    """Take a price from the shop's list, or keep one in it; any other button changes nothing."""
    name, _, argument = do.partition(":")
    path, _, seen = argument.partition(":")
    if name not in BUTTONS:
        return draft
    project: Project = draft.checked
    of_frames = (price for frame in project.frames for price in moulding_prices(frame))
    prices = (*timber_prices(project), *sheet_prices(project), *cost_prices(project), *of_frames)
    typed = next((one for one in prices if one.path == path), None)
    if typed is None:
        return draft
    entry = listed(price_list_for(desk.shop(), project), typed.name, sold_by=typed.sold_by)
    if seen not in ("", _seen(entry)):
        return replace(draft, messages=draft.messages | {f"{typed.path}.price": _MOVED})
    return _kept(desk, draft, typed) if name == "keep-price" else _taken(draft, typed, entry)


def with_blank_prices(desk: Desk, draft: Draft, prices: Iterable[TypedPrice]) -> Draft:
    """Take the blank prices of what is bought from the shop's list, so that a plan reckons with them."""
    entries = price_list_for(desk.shop(), draft.checked)
    for typed in prices:
        taken = _taken(draft, typed, listed(entries, typed.name, sold_by=typed.sold_by)) if typed.is_wanted else draft
        draft = draft if taken.messages != draft.messages else taken
    return draft


_MOVED = "The price list was changed meanwhile: look at it again, then choose"


def _seen(listed: Item | None) -> str:
    """What a button remembers of the list, so that it does nothing that a person has not seen."""
    return _UNLISTED if listed is None or listed.price is None else number_text(listed.price)


def _offer(typed: TypedPrice, listed: Item | None, currency: Currency, words: Words) -> PriceNote | None:
    keep = (f"keep-price:{typed.path}:{_seen(listed)}", "Keep in the price list")
    if listed is None or listed.price is None:
        if typed.price is None:
            return None
        says = f"{tag_text(typed.price, currency=currency)}, not in the price list yet."
        return PriceNote(name=typed.name, says=says, buttons=(keep,))
    there, on = tag_text(listed.price, currency=currency), _on(listed, words)
    take = (f"take-price:{typed.path}:{_seen(listed)}", f"Take {there}")
    if typed.price is None:
        counted = f"no price here: counted as {there}, from the price list{on}."
        says = counted if typed.has_day else f"no price here; {there} in the price list{on}."
        return PriceNote(name=typed.name, says=says, buttons=(take,))
    if typed.price == listed.price:
        return PriceNote(name=typed.name, says=f"{there}, from the price list{on}.", buttons=())
    here = tag_text(typed.price, currency=currency)
    return PriceNote(name=typed.name, says=f"{here} here; {there} in the price list{on}.", buttons=(take, keep))


def _on(listed: Item, words: Words) -> str:
    return f", {day_said(listed.priced_on, words)}" if listed.priced_on else ""


def _taken(draft: Draft, typed: TypedPrice, listed: Item | None) -> Draft:
    if listed is None or listed.price is None:
        return draft
    document = with_value(draft.document, f"{typed.path}.price", number_text(listed.price))
    if typed.has_day:
        on = listed.priced_on.isoformat() if listed.priced_on else None
        document = with_value(document, f"{typed.path}.priced_on", on)
    try:
        return replace(draft, document=document, checked=read_project(document))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {f"{typed.path}.price": error.sentence})


def _kept(desk: Desk, draft: Draft, typed: TypedPrice) -> Draft:
    asked = value_at(draft.document, f"{typed.path}.priced_on") or date.today().isoformat()
    if typed.price is None:
        return draft
    entry = {"price": number_text(typed.price), "priced_on": asked}
    try:
        desk.store.shop.change(lambda profile: _with_entry(profile_document(profile), typed, entry))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {f"{typed.path}.price": error.sentence})
    return draft


def _with_entry(profile: Document, typed: TypedPrice, entry: ReadDocument) -> Document:
    """A profile whose list has this price, in place of an older one of the same thing."""
    items = items_of(profile, "quote.items")
    kept = zip(items, read_shop(profile).quote.items, strict=True)
    found = next((plain for plain, one in kept if is_for(one, typed.name, sold_by=typed.sold_by)), None)
    if found is not None:
        found |= entry
    elif len(items) >= MOST_ITEMS:
        raise FrameCalcError(f"{MOST_ITEMS} prices at most: remove one on the Shop page")
    else:
        items.append({"id": new_id(), **typed.entry(), **entry})
    read_shop(profile)
    return profile
