"""The sheets as typed: stock on hand and for sale, and the way of cutting each kind of material."""

from decimal import Decimal
from typing import Annotated

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.errors import OutOfRange
from framecalc.money import number_text
from framecalc.project.fields import Id, Model, Name, Size, Slack, Thin, printable
from framecalc.project.label import Label
from framecalc.project.numbers import Number
from framecalc.project.price import BLANK_PRICE
from framecalc.sheets.materials import SheetCutting
from framecalc.sheets.problem import LEAST_GLASS_STRIP_MM, Goal
from framecalc.units import parse_length

MOST_MONEY = Decimal(100_000)
"""No sheet costs more; a slip of the hand does."""

NOTHING = parse_length("0 mm")

_BLADE = "Blank: the kerf of the blade on the Setting-out page."


def _require_coins(price: Decimal) -> Decimal:
    if price > MOST_MONEY:
        raise OutOfRange(f"Enter a price up to {number_text(MOST_MONEY)}")
    if price != round(price, 2):
        raise OutOfRange(f"Enter a price of two decimals, such as {number_text(round(price, 2))}")
    return price


SheetPrice = Annotated[Number, AfterValidator(_require_coins)]
"""What one sheet costs, to the hundredth."""

AtHand = Annotated[int, Field(ge=0, le=999)]
"""How many there are; none, when they are used up."""

KeyOfTick = Annotated[str, AfterValidator(printable), StringConstraints(max_length=80)]


class StockSheet(Model):
    """Sheets or off-cuts alike. `serves` is the name of the layers cut from them; a thickness narrows that down.

    A count is the number on hand; without one they are for sale in any number.
    """

    id: Id
    serves: Annotated[Name, Label("For")]
    thickness: Annotated[Thin | None, Label("Only for this thickness", "Blank: for any.")] = None
    name: Annotated[Name, Label("What it is")]
    across: Annotated[Size, Label("Across", "As it lies for the cutter; the grain, the print or the flutes run up.")]
    up: Annotated[Size, Label("Up")]
    count: Annotated[
        AtHand | None,
        Label(
            "How many at hand",
            "Blank: it is for sale, as many as needed. Sheets and off-cuts at hand are used first.",
        ),
    ] = None
    price: Annotated[SheetPrice | None, Label("Price of one", BLANK_PRICE)] = None


class CuttingWay(Model):
    """How one kind of material is cut. Without a kerf it is the blade's where it is sawn, and none where it is not."""

    trim: Annotated[
        Slack,
        Label(
            "Trim of {within}",
            "Cut away along all four edges of a sheet before anything else: bruised corners, a rough edge.",
        ),
    ] = NOTHING
    kerf: Annotated[
        Slack | None,
        Label("Kerf in {within}", _BLADE),
        Label("Kerf in {within}", f"{_BLADE} 0 where it is scored.", case="plastic"),
    ] = None
    least_strip: Annotated[Slack, Label("Least strip of {within}")] = NOTHING


class GlassWay(CuttingWay):
    """The same for glass, of which a narrow strip does not break off cleanly."""

    least_strip: Annotated[
        Slack,
        Label(
            "Least strip",
            "A narrower strip does not break off cleanly. About 12 mm (1/2 in), usual practice.",
            inch="1/2",
        ),
    ] = parse_length(f"{LEAST_GLASS_STRIP_MM:g} mm")


class Sheets(Model):
    """Sheets of the job. `upright` names layers whose parts may not turn; `done` lists the ticked lines."""

    stock: Annotated[tuple[StockSheet, ...], Label("Sheets at hand and for sale")] = Field(default=(), max_length=120)
    aim: Annotated[
        Goal,
        Label("What counts first", "After that the fewest sheets to cut, and then the largest single left-over."),
    ] = Goal.FEWEST
    glass: Annotated[GlassWay, Label("glass")] = GlassWay.usual()
    plastic: Annotated[CuttingWay, Label("plastic")] = CuttingWay.usual()
    board: Annotated[CuttingWay, Label("boards")] = CuttingWay.usual()
    panel: Annotated[CuttingWay, Label("panels")] = CuttingWay.usual()
    roll_width: Annotated[
        Size | None,
        Label(
            "Paper roll, wide",
            "Dust covers come off it. Blank: only their sizes are told.",
            arguments=("roll_width_mm",),
        ),
    ] = None
    roll_over: Annotated[
        Slack, Label("Dust covers cut larger by", "On each side, to be trimmed on the frame.", inch="1/2")
    ] = parse_length("12 mm")
    upright: Annotated[tuple[Name, ...], Label("Layers that may not turn")] = Field(default=(), max_length=60)
    done: Annotated[tuple[KeyOfTick, ...], Label("Ticked off")] = Field(default=(), max_length=2000)

    def way(self, cutting: SheetCutting) -> CuttingWay:
        """How a kind of material is cut."""
        ways = {
            SheetCutting.GLASS: self.glass,
            SheetCutting.PLASTIC: self.plastic,
            SheetCutting.BOARD: self.board,
            SheetCutting.PANEL: self.panel,
        }
        return ways[cutting]
