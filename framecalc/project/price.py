"""What a job is paid for and how a price is made of it, as typed.

An *item* is a thing with a price: by the frame, the length of stick, the sheet, the hour. How much of it the job takes
is worked out, unless `quantity` says otherwise, for a `reason`. Prices carry the day on which they were asked.
"""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.money import PriceStep
from framecalc.package.layers import LayerKind
from framecalc.price.costs import CostGroup
from framecalc.price.quantities import Measure
from framecalc.project.fields import Id, Model, Name, Note, Run, Size, printable
from framecalc.project.numbers import Day, MarginPercent, Number, PartPercent, Percent

MOST_ITEMS = 60

Mark = Annotated[str, AfterValidator(printable), StringConstraints(strip_whitespace=True, max_length=5)]
ShortNote = Annotated[str, AfterValidator(printable), StringConstraints(strip_whitespace=True, max_length=300)]


class Item(Model):
    """One thing that is paid for. `layer` counts the layers of that kind in each package; `frame` limits it to one."""

    id: Id
    name: Name
    group: CostGroup = CostGroup.HARDWARE
    measure: Measure = Measure.FRAME
    amount: Number = Decimal(1)
    layer: LayerKind | Literal[""] = ""
    frame: Id | Literal[""] = ""
    stick_length: Run | None = None
    sheet_across: Size | None = None
    sheet_up: Size | None = None
    price: Number | None = None
    priced_on: Day | None = None
    quantity: Number | None = None
    reason: ShortNote = ""


class Terms(Model):
    """How the shop makes a price of a cost, and how it writes money."""

    mark: Mark = "$"
    mark_follows: bool = False
    decimals: Literal["0", "2", "3"] = "2"
    waste: Percent = Decimal(15)
    overhead: Percent = Decimal(0)
    margin: MarginPercent = Decimal(0)
    tax: Percent = Decimal(0)
    tax_name: Annotated[str, AfterValidator(printable), StringConstraints(max_length=30)] = "tax"
    tax_is_inside: bool = False
    deposit: PartPercent = Decimal(0)
    price_step: PriceStep = PriceStep.COIN
    rounds_up: bool = False
    stale_after: Annotated[int, Field(ge=1, le=3650)] = 90


class Quote(Model):
    """The items of a job, the terms of its price, and a note that the client reads."""

    terms: Terms = Terms()
    items: tuple[Item, ...] = Field(default=(), max_length=MOST_ITEMS)
    note: Note = ""
