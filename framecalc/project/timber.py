"""The timber as typed: sticks and boards at hand or for sale, and how the pieces are to be taken from them."""

from decimal import Decimal
from typing import Annotated

from pydantic import Field, StringConstraints

from framecalc.project.fields import Count, Id, Model, Name, Place, Run, Size, Slack
from framecalc.project.numbers import Number
from framecalc.sticks.problem import Grain
from framecalc.units import parse_length


class Stock(Model):
    """Sticks or boards alike. A width makes it a board, to be ripped into strips; without one it is a milled stick."""

    id: Id
    name: Name
    length: Run
    width: Size | None = None
    count: Count | None = None
    price: Number = Decimal(0)
    in_hand: bool = False
    defect_from: Place | None = None
    defect_to: Place | None = None


class Timber(Model):
    """What is in the rack and in the yard, and the wishes about grain, spares and off-cuts."""

    stock: tuple[Stock, ...] = Field(default=(), max_length=60)
    grain: Grain = Grain.FREE
    turned: bool = False
    spares: Annotated[int, Field(ge=0, le=20)] = 0
    shortest_useful: Run = parse_length("300 mm")
    edge: Slack = parse_length("5 mm")
    width_allowance: Slack = parse_length("3 mm")
    done: tuple[Annotated[str, StringConstraints(max_length=80)], ...] = Field(default=(), max_length=500)
