"""A bought moulding as typed: what it is called, how it is sold, what it costs, and its pattern."""

from typing import Annotated

from pydantic import AfterValidator, StringConstraints

from framecalc.price.moulding import Sale
from framecalc.project.fields import Model, Run, Size, printable
from framecalc.project.label import Label
from framecalc.project.numbers import Day, Number
from framecalc.words import typed

SALE_WORDS = (
    (Sale.METRE.value, "Sticks, per metre"),
    (Sale.FOOT.value, "Sticks, per foot"),
    (Sale.STICK.value, "Sticks, each"),
    (Sale.CUT_METRE.value, "Chops, per metre"),
    (Sale.CUT_FOOT.value, "Chops, per foot"),
    (Sale.CUT_SIDE.value, "Chops, per side"),
    (Sale.JOINED.value, "Joined, per frame"),
)
"""How a moulding is sold, in words."""


class Moulding(Model):
    """A bought moulding; its face, height and rabbet are those of the section, measured on the stick."""

    name: Annotated[
        str,
        AfterValidator(printable),
        StringConstraints(strip_whitespace=True, max_length=60),
        AfterValidator(typed),
        Label("Moulding", "Its number or name, as you order it."),
    ] = ""
    sale: Annotated[
        Sale,
        Label(
            "Bought as",
            "Sticks are mitred here. Chops come mitred from the supplier, and are charged long point to long point.",
            choices=SALE_WORDS,
        ),
    ] = Sale.METRE
    price: Annotated[Number | None, Label("Price", "Blank until you have asked for it.")] = None
    priced_on: Annotated[Day | None, Label("Asked on", "The day of the price: an old one is pointed out.")] = None
    stick_length: Annotated[Run | None, Label("Length of a stick", "What one stick is sold as.")] = None
    least_length: Annotated[
        Run | None, Label("Least length", "The shortest length that is sold, all sides of the job together.")
    ] = None
    least_order: Annotated[Number | None, Label("Least order", "The least sum that the supplier takes.")] = None
    repeat: Annotated[
        Size | None,
        Label(
            "Pattern repeat",
            "Only where the pattern must meet at the corners: each side then starts at the same place of it. Blank: no"
            " pattern to match.",
        ),
    ] = None
