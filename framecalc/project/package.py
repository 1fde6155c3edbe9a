"""The package as typed: its mat with all windows, its layers, how loosely it sits, and how it is fitted and held.

Everything about the fitting starts as a usual value or as blank: a blank is not wished for, or has its usual value.
"""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, PlainSerializer, PlainValidator, StringConstraints, WithJsonSchema

from framecalc.errors import OutOfRange, UnreadableNumber
from framecalc.mats.windows import MOST_WINDOWS
from framecalc.mats.wished_mat import Arrangement
from framecalc.package.canvas import Folds
from framecalc.package.layers import LayerKind
from framecalc.package.retainers import Retainer
from framecalc.project.fields import Border, Clearance, Id, Model, Name, Place, Size, Slack, Thin, printable
from framecalc.project.numbers import Angle, Celsius, Humidity, between
from framecalc.units import Comma, parse_length
from framecalc.weights import Weight, parse_weight

LIGHTEST_KG, HEAVIEST_KG = 0.001, 200.0
"""No artwork in a frame weighs less, or more. Ours: wide enough for any, narrow enough to catch a slip."""


def _read_weight(value: object) -> Weight:
    if not isinstance(value, str):
        raise UnreadableNumber(f"{value!r} is no weight: a text with a unit, such as “1.2 kg”, would do")
    weight = parse_weight(value, comma=Comma.DECIMAL)
    if not LIGHTEST_KG <= weight.kg <= HEAVIEST_KG:
        raise OutOfRange(f"“{weight.text}” is no weight of an artwork here: 1 g to {HEAVIEST_KG:g} kg would do")
    return weight


Material = Annotated[str, AfterValidator(printable), StringConstraints(max_length=40)]
"""A material of the table of sheets, or none said."""

Mass = Annotated[
    Weight,
    PlainValidator(_read_weight),
    PlainSerializer(lambda weight: weight.text, return_type=str),
    WithJsonSchema({"type": "string", "description": "a weight with its unit: kg, g, lb or oz"}),
]
"""What the artwork weighs; a file's number without a unit is kilograms."""

BevelAngle = Annotated[Decimal, *between("30", "90", "°", "slope of a bevel")]
LampAngle = Annotated[Decimal, *between("0", "80", "°", "angle of a lamp")]

NOTHING = parse_length("0 mm")


class Picture(Model):
    """A picture beside the artwork, in a window of its own. A typed opening counts; a place where placed by hand.

    The place is that of the window's lower left corner, in the group of all windows.
    """

    id: Id
    across: Size
    up: Size
    opening_across: Size | None = None
    opening_up: Size | None = None
    left: Place = NOTHING
    below: Place = NOTHING


class Mat(Model):
    """The mat: its borders, its windows, how they are set out and how they are cut.

    `shows` is what is seen around a sheet that floats, nothing where the window laps over; `reveal` is what is seen of
    the lower of two mats. `in_view` borders do not count what the lip covers. Opening and place of the mat's own are
    those of the artwork's window.
    """

    overlap: Slack
    border: Border
    bottom: Border
    in_view: bool = False
    shows: Slack = NOTHING
    reveal: Slack = NOTHING
    opening_across: Size | None = None
    opening_up: Size | None = None
    left: Place = NOTHING
    below: Place = NOTHING
    windows: tuple[Picture, ...] = Field(default=(), max_length=MOST_WINDOWS - 1)
    arrangement: Arrangement = Arrangement.ROW
    columns: Annotated[int, Field(ge=1, le=MOST_WINDOWS)] = 2
    gap: Thin = parse_length("25 mm")
    least_bridge: Thin = parse_length("12 mm")
    bevel: BevelAngle = Decimal(45)
    from_behind: bool = True


class Layer(Model):
    """One layer of the package; the list runs from the lip to the back. `thinner` is how much thinner it may be.

    The tolerance is how much thicker it may be, and also how much thinner where that is left out. The material is one
    of the table of sheets, or not said.
    """

    id: Id
    name: Name
    kind: LayerKind
    thickness: Thin
    tolerance: Slack
    thinner: Slack | None = None
    material: Material = ""


class Package(Model):
    """Everything that sits in the rabbet, and how loosely. Of a fillet `fillet_shows` is seen beside the lip."""

    clearance_across: Clearance
    clearance_up: Clearance
    mat: Mat | None = None
    layers: tuple[Layer, ...] = Field(default=(), max_length=24)
    fillet_shows: Slack = parse_length("5 mm")


class Room(Model):
    """The air when the package is fitted, and at its driest and its dampest afterwards."""

    fitted_temperature: Celsius = Decimal(20)
    fitted_humidity: Humidity = Decimal(50)
    driest_temperature: Celsius = Decimal(22)
    driest_humidity: Humidity = Decimal(30)
    dampest_temperature: Celsius = Decimal(26)
    dampest_humidity: Humidity = Decimal(65)


class SolidPanel(Model):
    """A solid panel: its wood, how its grain and its rings run, the screws that hold it and how far in they stand."""

    species: Annotated[str, AfterValidator(printable), StringConstraints(max_length=40)] = ""
    grain: Literal["up", "across"] = "up"
    ring: Angle = Decimal(0)
    screw: Thin = parse_length("4 mm")
    from_edge: Slack = parse_length("20 mm")


class Held(Model):
    """What holds the package: what it asks for, or what is wished for; blank limits are the usual ones."""

    by: Retainer | Literal[""] = ""
    foot: Thin = parse_length("12 mm")
    apart: Size | None = None
    from_corner: Slack = parse_length("50 mm")
    from_wall: Slack | None = None


class Canvas(Model):
    """A canvas on its stretcher: its cloth, where its corners are folded, whether it has keys, how thick the bars."""

    cloth: Slack = parse_length("0.7 mm")
    folds: Folds = Folds.SIDES
    has_keys: bool = True
    bar: Thin | None = None


class Box(Model):
    """A box for an object: its depth, the air before it, the walls, how far in it begins, the lamp's angle."""

    object_depth: Thin | None = None
    air: Slack = parse_length("6 mm")
    wall: Thin = parse_length("6 mm")
    margin: Slack = parse_length("20 mm")
    lamp: LampAngle = Decimal(30)


class Fitting(Model):
    """How a package is fitted into its frame: the air it meets, how it moves, how it is held, what it weighs."""

    room: Room = Room()
    panel: SolidPanel = SolidPanel()
    held: Held = Held()
    canvas: Canvas = Canvas()
    box: Box = Box()
    artwork_weight: Mass | None = None
