"""The form's table for the costs page; paths follow `quote.`."""

from typing import Any

from framecalc.money import PriceStep
from framecalc.package.layers import LayerKind
from framecalc.price.costs import CostGroup
from framecalc.price.quantities import Measure
from webapp.live.field import Control, Field, FieldSet
from webapp.live.forms import Document

YES_NO = (("no", "No"), ("yes", "Yes"))
_STEPS = {PriceStep.COIN: "the smallest coin", PriceStep.FIVE_HUNDREDTHS: "0.05", PriceStep.HALF: "0.50"}


def _named(values: Any) -> tuple[tuple[str, str], ...]:
    return tuple((value, value[:1].upper() + value[1:]) for value in values)


def _choice(path: str, label: str, choices: tuple[tuple[str, str], ...], explain: str = "") -> Field:
    return Field(path=path, label=label, control=Control.CHOICE, choices=choices, explain=explain)


def _money(path: str, label: str, explain: str = "", *, optional: bool = False) -> Field:
    return Field(path=path, label=label, control=Control.MONEY, explain=explain, optional=optional)


def _words(path: str, label: str, explain: str = "", *, optional: bool = True) -> Field:
    return Field(path=path, label=label, control=Control.WORDS, explain=explain, optional=optional)


def _switch(path: str, label: str, choices: tuple[tuple[str, str], ...]) -> Field:
    return Field(path=path, label=label, control=Control.YES_NO, choices=choices)


ITEM_FIELDS = (
    _words("name", "What", optional=False),
    _choice("group", "Kind", _named(CostGroup)),
    _choice("measure", "Paid for by", _named(Measure), "How much of it the job takes is worked out from this."),
    _money("amount", "How many of it", "Pieces or hours to each frame or to the job; coats of a finish."),
    _money("price", "Price of one", "Blank until you have asked for it.", optional=True),
    Field(
        path="priced_on",
        label="Asked on",
        control=Control.DAY,
        optional=True,
        explain="The day of the price: an old one is pointed out.",
    ),
    Field(path="stick_length", label="Length of a stick", optional=True, explain="What one stick is sold as."),
    Field(path="sheet_across", label="Sheet, across", optional=True),
    Field(path="sheet_up", label="Sheet, up", optional=True),
    _choice("layer", "Counted for each layer of", (("", "The package, once"), *_named(LayerKind))),
    _money(
        "quantity",
        "Quantity by hand",
        "Counts instead of what is worked out, as it is, without waste on top. Blank goes back.",
        optional=True,
    ),
    _words("reason", "Why"),
)
"""Fields of one item; their paths follow `quote.items.<id>.`."""

TERMS_FIELDS = (
    _money("waste", "Waste, %", "On lengths and areas only: whole sticks, sheets and pieces have it in them."),
    _money("overhead", "Overhead, %", "What the shop costs while the job is made, on materials, waste and work."),
    _money("margin", "Margin, %", "The part of the price that is not cost: price = cost / (1 − margin)."),
    _money("tax", "Tax, %"),
    _words("tax_name", "The tax is called"),
    _switch("tax_is_inside", "Prices hold the tax", YES_NO),
    _choice("price_step", "Prices end in whole", tuple((step, _STEPS.get(step, step)) for step in PriceStep)),
    _switch("rounds_up", "Rounded", (("no", "Nearest"), ("yes", "Up"))),
    _money("deposit", "Deposit, %"),
    Field(
        path="stale_after",
        label="A price is old after, days",
        control=Control.COUNT,
        explain="Older prices are pointed out until they are asked for again.",
    ),
    _words("mark", "Money is marked", "$, €, £, kr: up to five letters."),
    _switch("mark_follows", "The mark stands", (("no", "Before the amount"), ("yes", "After it"))),
    _choice("decimals", "Decimals of a coin", (("0", "None"), ("2", "Two"), ("3", "Three"))),
)
"""Fields of the terms; their paths follow `quote.terms.`."""


def costs_fields_in(document: Document, _: str) -> FieldSet:
    """The fields of the costs page of a document."""
    quote = document.get("quote") or {}
    frames = (("", "All frames"), *((frame["id"], frame["name"]) for frame in document["frames"]))
    one_frame = _choice("frame", "For", frames)
    fields: dict[str, Field] = {}
    for item in quote.get("items", ()):
        here = f"quote.items.{item['id']}."
        fields |= {here + field.path: field for field in (*ITEM_FIELDS, one_frame)}
    fields |= {f"quote.terms.{field.path}": field for field in TERMS_FIELDS}
    fields["quote.note"] = _words("quote.note", "Note to the client", "Clients read it on the quote and on their page.")
    return FieldSet(fields=fields)
