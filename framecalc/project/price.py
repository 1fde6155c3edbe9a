"""The quote as typed: the items of a job, and the terms of its price.

An *item* is a thing with a price: by the frame, the length of stick, the sheet, the hour. How much of it the job takes
is worked out, unless `quantity` says otherwise, for a `reason`. Prices carry the day of the enquiry.
"""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.money import PriceStep
from framecalc.package.layers import LayerKind
from framecalc.price.costs import CostGroup
from framecalc.price.moulding import Sale
from framecalc.price.quantities import Measure
from framecalc.project.fields import Id, Model, Name, Note, Run, Size, printable
from framecalc.project.label import Label
from framecalc.project.moulding import SALE_WORDS
from framecalc.project.numbers import Day, MarginPercent, Number, PartPercent, Percent
from framecalc.words import typed

MOST_ITEMS = 60
_STEPS = {PriceStep.COIN: "the smallest coin", PriceStep.FIVE_HUNDREDTHS: "0.05", PriceStep.HALF: "0.50"}

Mark = Annotated[str, AfterValidator(printable), StringConstraints(strip_whitespace=True, max_length=5)]
ShortNote = Annotated[
    str, AfterValidator(printable), StringConstraints(strip_whitespace=True, max_length=300), AfterValidator(typed)
]


BLANK_PRICE = "Blank: planning takes it from the shop's price list. 0 where it costs nothing more."
"""What is said beside the price of a stick, a board or a sheet."""

STOCK = "stock"
"""What an entry of the price list is for that is no cost of every job: a stick, a board, a sheet."""


class Item(Model):
    """One item with a price. `layer` counts the layers of that kind in each package; `frame` limits it to one.

    `listed_as` is for the shop's price list alone: stock and bought mouldings are no costs of every new job.
    """

    id: Id
    name: Annotated[Name, Label("What")]
    group: Annotated[CostGroup, Label("Kind")] = CostGroup.HARDWARE
    measure: Annotated[Measure, Label("Priced per", "How much of it the job takes is worked out from this.")] = (
        Measure.FRAME
    )
    listed_as: Annotated[
        Literal["", "stock"] | Sale,
        Label(
            "Used for",
            choices=((STOCK, "Sticks, boards, sheets"), *((sale, f"Moulding: {says}") for sale, says in SALE_WORDS)),
            blank="Costs of every new job",
        ),
    ] = ""
    takes_off: Annotated[bool, Label("Its price", choices=(("no", "Adds"), ("yes", "Takes off")))] = False
    amount: Annotated[Number, Label("Quantity", "Pieces or hours to each frame or to the job; coats of a finish.")] = (
        Decimal(1)
    )
    layer: Annotated[LayerKind | Literal[""], Label("Counted for each layer of", blank="The package, once")] = ""
    frame: Annotated[Id | Literal[""], Label("For", blank="All frames", of="frames")] = ""
    stick_length: Annotated[Run | None, Label("Length of a stick", "What one stick is sold as.")] = None
    sheet_across: Annotated[Size | None, Label("Sheet, across")] = None
    sheet_up: Annotated[Size | None, Label("Sheet, up")] = None
    price: Annotated[
        Number | None,
        Label("Price of one", "Blank until you have asked for it; work by the hour then takes the hourly rate."),
    ] = None
    priced_on: Annotated[Day | None, Label("Asked on", "The day of the price: an old one is pointed out.")] = None
    quantity: Annotated[
        Number | None,
        Label(
            "Quantity by hand",
            "Replaces what is worked out, without waste on top. Blank goes back.",
        ),
    ] = None
    reason: Annotated[ShortNote, Label("Why")] = ""

    @property
    def sold_by(self) -> Measure | Sale:
        """By what it is sold: a moulding as that is bought, anything else by its measure."""
        return self.listed_as if isinstance(self.listed_as, Sale) else self.measure


class Terms(Model):
    """How the shop turns a cost into a price, and how it writes money."""

    mark: Annotated[Mark, Label("Currency sign", "$, €, £, kr. Blank: $, or £ with British words.")] = ""
    mark_follows: Annotated[bool, Label("Sign goes", choices=(("no", "Before the amount"), ("yes", "After it")))] = (
        False
    )
    decimals: Annotated[
        Literal["0", "2", "3"],
        Label("Decimals of a coin", choices=(("0", "None"), ("2", "Two"), ("3", "Three"))),
    ] = "2"
    hour: Annotated[Number | None, Label("Hourly rate", "For all work by the hour that has no price of its own.")] = (
        None
    )
    waste: Annotated[
        Percent,
        Label("Waste, %", "On lengths and areas only: whole sticks, sheets and pieces include it."),
    ] = Decimal(15)
    overhead: Annotated[
        Percent, Label("Overhead, %", "What the shop costs while the job is made, on materials, waste and work.")
    ] = Decimal(0)
    margin: Annotated[
        MarginPercent, Label("Margin, %", "The part of the price that is not cost: price = cost / (1 − margin).")
    ] = Decimal(0)
    tax: Annotated[Percent, Label("Tax, %")] = Decimal(0)
    tax_name: Annotated[
        str,
        AfterValidator(printable),
        StringConstraints(max_length=30),
        AfterValidator(typed),
        Label("The tax is called"),
    ] = "tax"
    tax_is_inside: Annotated[bool, Label("Prices include tax")] = False
    deposit: Annotated[PartPercent, Label("Deposit, %")] = Decimal(0)
    price_step: Annotated[
        PriceStep,
        Label("Round prices to", choices=tuple((step.value, _STEPS.get(step, step.value)) for step in PriceStep)),
    ] = PriceStep.COIN
    rounds_up: Annotated[bool, Label("Rounded", choices=(("no", "Nearest"), ("yes", "Up")))] = False
    stale_after: Annotated[
        int,
        Field(ge=1, le=3650),
        Label("Prices go stale after, days", "Older prices are pointed out until they are asked for again."),
    ] = 90


class Quote(Model):
    """The items of a job, the terms of its price, and a note that the client reads."""

    terms: Annotated[Terms, Label("Terms")] = Terms.usual()
    items: Annotated[tuple[Item, ...], Label("Things that are paid for")] = Field(default=(), max_length=MOST_ITEMS)
    note: Annotated[Note, Label("Note to the client", "Clients read it on the quote and on their page.")] = ""
