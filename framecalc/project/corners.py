"""The corners as typed: how the ends are cut, test cuts, the parts in hand, the clamps, the joint, the seasons.

Everything here starts as a usual value or as blank: a blank measurement has not been taken.
"""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.corners.clamping import Ratchet
from framecalc.corners.fences import Ends
from framecalc.corners.joints.splines import MOST_SPLINES
from framecalc.corners.polygons import PolygonGiven
from framecalc.corners.saw import BladeEnds, CutMethod, Tried
from framecalc.project.fields import Id, Model, Size, Slack, Thin, printable
from framecalc.project.numbers import Angle, Celsius, EndAngle, Force, Humidity, Moisture, between
from framecalc.sizes.members import FEWEST_SIDES, MOST_SIDES
from framecalc.units import parse_length

Errors = Annotated[str, AfterValidator(printable), StringConstraints(max_length=2000)]
"""Numbers with spaces between them."""

SawName = Annotated[str, AfterValidator(printable), StringConstraints(max_length=60)]

USUAL_FENCE = parse_length("450 mm")
"""From where a mitre gauge's fence turns to its end (common practice, no source: about 18 in)."""

MOST_SETTINGS = 999


class TestCut(Model):
    """One test joint: the gaps at both ends of its mitre, by feeler, at which setting of which saw it was cut.

    `since` is what was last changed on the saw when it was cut, in the words of that day.
    """

    __test__ = False  # a class for the bench, not for pytest

    id: Id
    tried: Tried = Tried.ONE_JOINT
    ends: Ends = Ends.EACH
    setting: Annotated[int, Field(ge=0, le=MOST_SETTINGS)] = 0
    since: SawName = ""
    outside_gap: Slack
    inside_gap: Slack


class CutSide(Model):
    """One side in hand: its long edge, and the angles at its two long points, clockwise from the top."""

    long: Size | None = None
    start: EndAngle | None = None
    finish: EndAngle | None = None


class Sides(Model):
    """The four sides in hand."""

    top: CutSide = CutSide()
    right: CutSide = CutSide()
    bottom: CutSide = CutSide()
    left: CutSide = CutSide()


class Clamps(Model):
    """What the tape says of the frame in the clamps, and how hard the strap pulls."""

    across_top: Size | None = None
    across_bottom: Size | None = None
    up_left: Size | None = None
    up_right: Size | None = None
    rising: Size | None = None
    falling: Size | None = None
    rock: Slack | None = None
    member_wind: Slack = parse_length("0 mm")
    front_gap: Slack = parse_length("0 mm")
    strap_force: Force | None = None
    eased_to: Force | None = None
    ratchet: Ratchet = Ratchet.ON_A_SIDE
    friction: Literal["0.2", "0.25", "0.3"] = "0.25"


class Joint(Model):
    """What holds the mitre besides glue: a ready size from the tables, or a spline across the corner."""

    kind: Literal["none", "loose tenon", "biscuit", "dowel", "spline", "half-lap", "bridle"] = "none"
    size: Annotated[str, AfterValidator(printable), StringConstraints(max_length=40)] = ""
    width: Thin = parse_length("20 mm")
    depth: Thin | None = None
    wall: Thin = parse_length("3 mm")
    height: Slack | None = None
    from_tip: Slack | None = None
    also_spline: bool = False
    also_pin: bool = False
    pin_diameter: Thin = parse_length("1.2 mm")
    pin_length: Thin = parse_length("25 mm")
    pin_from: Thin = parse_length("12 mm")
    pin_height: Thin = parse_length("6 mm")
    also_wedge: bool = False
    wedge_height: Thin = parse_length("7 mm")
    wedge_leg: Thin = parse_length("6 mm")
    wedge_from_tip: Thin = parse_length("12 mm")
    spline_depth: Thin = parse_length("15 mm")
    spline_kerf: Thin = parse_length("3.2 mm")
    spline_count: Annotated[int, Field(ge=1, le=MOST_SPLINES)] = 1
    cradle: Slack = parse_length("20 mm")


class Seasons(Model):
    """The wood, how it was sawn, how moist it is, and the air of the room in winter and in summer."""

    species: Annotated[str, AfterValidator(printable), StringConstraints(max_length=40)] = ""
    ring: Angle = Decimal(0)
    moisture: Moisture | None = None
    winter_temperature: Celsius = Decimal(20)
    winter_humidity: Humidity = Decimal(35)
    summer_temperature: Celsius = Decimal(23)
    summer_humidity: Humidity = Decimal(60)
    months: Annotated[str, AfterValidator(printable), StringConstraints(max_length=120)] = ""
    room_temperature: Celsius | None = None
    room_humidity: Humidity | None = None
    outdoor_temperature: Celsius | None = None
    outdoor_humidity: Humidity | None = None


class Batch(Model):
    """The sides of a batch, each side by how far its two angles together are off, in degrees."""

    top: Errors = ""
    right: Errors = ""
    bottom: Errors = ""
    left: Errors = ""


class Corner(Model):
    """Everything typed about the corners of one frame. `settings` counts how often the fence has been turned.

    `since` says in own words what was last changed on the saw: what was cut before tells nothing of it any more.
    """

    cutting: CutMethod = CutMethod.ONE_SETTING
    saw: SawName = ""
    since: SawName = ""
    fence: Size = USUAL_FENCE
    gap: Thin = parse_length("0.2 mm")
    slope: Angle = Decimal(0)
    polygon: Annotated[int, Field(ge=FEWEST_SIDES, le=MOST_SIDES)] = 4
    polygon_given: PolygonGiven = PolygonGiven.PACKAGE_FLATS
    polygon_flats: Size | None = None
    lean: Annotated[Decimal, *between("0", "5", "°", "lean of a blade")] = Decimal(0)
    blade_ends: BladeEnds = BladeEnds.SAME_SIDE
    settings: Annotated[int, Field(ge=0, le=MOST_SETTINGS)] = 0
    tests: tuple[TestCut, ...] = Field(default=(), max_length=40)
    sides: Sides = Sides()
    batch: Batch = Batch()
    clamps: Clamps = Clamps()
    joint: Joint = Joint()
    seasons: Seasons = Seasons()
