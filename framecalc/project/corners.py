"""The corners as typed: how the ends are cut, test cuts, the sides as cut, the clamps, the joint, the seasons.

Every field starts as a usual value or blank; a blank measurement has not been made.
"""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.corners.clamping import Ratchet
from framecalc.corners.fences import Ends
from framecalc.corners.saw import BladeEnds, CutMethod, MeasuredJoint
from framecalc.corners.saw_kinds import SawKind
from framecalc.project.fields import FeelerGap, Id, Model, Size, Slack, Thin, printable
from framecalc.project.joint import Joint
from framecalc.project.label import Label, named
from framecalc.project.numbers import Angle, Celsius, EndAngle, Force, Humidity, Moisture, between, celsius
from framecalc.sizes.polygons import MOST_SIDES
from framecalc.units import parse_length
from framecalc.words import typed

Errors = Annotated[str, AfterValidator(printable), StringConstraints(max_length=2000)]
"""Numbers with spaces between them."""

SawName = Annotated[str, AfterValidator(printable), StringConstraints(max_length=60), AfterValidator(typed)]

HUMIDITY_IN_ORDER = ("winter_humidity", "summer_humidity")
"""The first of these is never above the second; a file may hold them so, and what is typed may not."""

USUAL_FENCE = parse_length("450 mm")
"""From where a mitre gauge's fence turns to its end (common practice, no source: about 18 in)."""

MOST_SETTINGS = 999

SAW_KINDS = (("", "Not chosen"), *named(kind for kind in SawKind if kind))
"""What the ends are cut with, to choose from."""

READ_ON = (
    (MeasuredJoint.ONE_JOINT.value, "One joint, held to the frame's angle"),
    (MeasuredJoint.LAST_JOINT.value, "The last joint, all others held tight"),
)
"""The joint at which a test cut is measured, in words for any number of sides."""

_EITHER = "20 °C and 68 °F are both understood."
_AT_THE_BLOCK = "Instead of the angle: at the tip as it is, at the sight edge with a minus."
_BATCH = "One number for each side in hand: both its angles together, less 90. Spaces between them."


class TestCut(Model):
    """One test joint: the gaps at both ends of its mitre, by feeler, at which setting of which saw it was cut.

    `since` is the last change made to the saw before the cut, as typed then. A blank gap has not been read. A cut
    *taken over* came with a copy, a demo or a file: it was not read on this frame's saw.
    """

    __test__ = False  # a class for the bench, not for pytest

    id: Id
    tried: Annotated[MeasuredJoint, Label("Read on", choices=READ_ON)] = MeasuredJoint.ONE_JOINT
    ends: Annotated[Ends, Label("Cut with")] = Ends.EACH
    setting: Annotated[int, Field(ge=0, le=MOST_SETTINGS), Label("Setting of the fence", is_typed=False)] = 0
    since: Annotated[SawName, Label("Last change", is_typed=False)] = ""
    taken_over: Annotated[bool, Label("Taken over", is_typed=False)] = False
    outside_gap: Annotated[Slack | None, Label("At the tips, outside", "0 where it is tight.")] = None
    inside_gap: Annotated[Slack | None, Label("At the inside")] = None


class CutSide(Model):
    """One side as cut: its long edge, and the angles at its two long points, clockwise from the top.

    An end is measured by its angle, or by its gap against a true block.
    """

    long: Annotated[
        Size | None,
        Label("Long edge"),
        Label("Long edge", "From long point to long point, as cut.", case="top", arguments=("long_mm",)),
    ] = None
    start: Annotated[
        EndAngle | None,
        Label("Left end, °", arguments=("angles",)),
        Label("Upper end, °", case="right"),
        Label("Right end, °", case="bottom"),
        Label("Lower end, °", case="left"),
    ] = None
    finish: Annotated[
        EndAngle | None,
        Label("Right end, °"),
        Label("Lower end, °", case="right"),
        Label("Left end, °", case="bottom"),
        Label("Upper end, °", case="left"),
    ] = None
    start_gap: Annotated[
        FeelerGap | None,
        Label("Left end, gap", _AT_THE_BLOCK),
        Label("Upper end, gap", case="right"),
        Label("Right end, gap", case="bottom"),
        Label("Lower end, gap", case="left"),
    ] = None
    finish_gap: Annotated[
        FeelerGap | None,
        Label("Right end, gap"),
        Label("Lower end, gap", case="right"),
        Label("Left end, gap", case="bottom"),
        Label("Upper end, gap", case="left"),
    ] = None


class Sides(Model):
    """The four sides as cut."""

    top: Annotated[CutSide, Label("Top")] = CutSide.usual()
    right: Annotated[CutSide, Label("Right")] = CutSide.usual()
    bottom: Annotated[CutSide, Label("Bottom")] = CutSide.usual()
    left: Annotated[CutSide, Label("Left")] = CutSide.usual()


class NumberedSide(CutSide):
    """One side of a polygon as cut: its id is `s` and its number, clockwise from the bottom."""

    id: Id


class Clamps(Model):
    """The tape measures of the frame in the clamps, and where its strap differs from the one typed for all frames."""

    across_top: Annotated[
        Size | None,
        Label("Outside across, top", "Of the frame in the clamps, edge to edge.", arguments=("across_top_mm",)),
    ] = None
    across_bottom: Annotated[Size | None, Label("Outside across, bottom")] = None
    up_left: Annotated[Size | None, Label("Outside up, left")] = None
    up_right: Annotated[Size | None, Label("Outside up, right")] = None
    rising: Annotated[
        Size | None,
        Label("Diagonal, rising", "From the lower left tip to the upper right one.", arguments=("diagonal_rising_mm",)),
    ] = None
    falling: Annotated[
        Size | None,
        Label(
            "Diagonal, falling", "From the upper left tip to the lower right one.", arguments=("diagonal_falling_mm",)
        ),
    ] = None
    rock: Annotated[
        Slack | None, Label("Rock on a flat table", "How far one corner lifts while the other three lie.")
    ] = None
    member_wind: Annotated[Slack, Label("Wind in a member", "Before glue-up; 0 where there is none.", inch="0")] = (
        parse_length("0 mm")
    )
    front_gap: Annotated[Slack, Label("Gap front to back", "Of a mitre that is tight at the face.", inch="0")] = (
        parse_length("0 mm")
    )
    strap_force: Annotated[
        Force | None,
        Label("Pull in this frame, N", "Blank: as typed for the strap.", arguments=("strap_tension_n",)),
    ] = None
    eased_to: Annotated[
        Force | None,
        Label(
            "Let down to, N",
            "What the ratchet is let down to afterwards. Blank: what the farthest part of the strap has.",
        ),
    ] = None
    ratchet: Annotated[Ratchet | Literal[""], Label("Ratchet in this frame", blank="As typed for the strap")] = ""
    friction: Annotated[
        Literal["", "0.2", "0.25", "0.3"], Label("Friction in this frame", blank="As typed for the strap")
    ] = ""


class Seasons(Model):
    """How the wood was sawn, how moist it is, and the air of the room in its driest and its dampest month."""

    ring: Annotated[
        Angle, Label("Angle of the rings, degrees", "0 is flat-sawn, 90 quarter-sawn, seen on the end grain.")
    ] = Decimal(0)
    moisture: Annotated[
        Moisture | None,
        Label("Moisture by meter, %", "Blank: that of the middle of the year.", arguments=("wood_pct",)),
    ] = None
    winter_temperature: Annotated[
        Celsius, Label("Driest month, °C", f"Of the room, in winter as a rule. {_EITHER}", imperial="68 °F")
    ] = celsius("20")
    winter_humidity: Annotated[
        Humidity, Label("Driest month, % humidity", to_confirm=True, arguments=("humidity_pct",))
    ] = Decimal(35)
    summer_temperature: Annotated[
        Celsius, Label("Dampest month, °C", f"Of the room, in summer as a rule. {_EITHER}", imperial="73 °F")
    ] = celsius("23")
    summer_humidity: Annotated[Humidity, Label("Dampest month, % humidity", to_confirm=True)] = Decimal(60)
    months: Annotated[
        str,
        AfterValidator(printable),
        StringConstraints(max_length=120),
        Label(
            "Humidity of twelve months, %",
            "January to December, spaces between them; blank: the two seasons, spread over the year.",
        ),
    ] = ""
    room_temperature: Annotated[Celsius | None, Label("Room now, °C", f"Beside the meter. {_EITHER}")] = None
    room_humidity: Annotated[Humidity | None, Label("Room now, % humidity")] = None
    outdoor_temperature: Annotated[
        Celsius | None, Label("Outdoors, driest month, °C", f"Its air is only warmed. {_EITHER}")
    ] = None
    outdoor_humidity: Annotated[Humidity | None, Label("Outdoors, driest month, % humidity")] = None


class Batch(Model):
    """The sides of a batch, each side by how far its two angles together are off, in degrees."""

    top: Annotated[Errors, Label("Tops of the batch", _BATCH)] = ""
    right: Annotated[Errors, Label("Rights of the batch", _BATCH)] = ""
    bottom: Annotated[Errors, Label("Bottoms of the batch", _BATCH)] = ""
    left: Annotated[Errors, Label("Lefts of the batch", _BATCH)] = ""


class Corner(Model):
    """Everything typed about the corners of one frame. `settings` counts the turns of the fence.

    `since` is the last change made to the saw, in the shop's words; earlier test cuts no longer count.
    """

    cutting: Annotated[
        CutMethod,
        Label(
            "How the ends are cut",
            "From one setting the errors of all eight ends add up. With a left and a right setting, or a sled with two"
            " fences, they cancel when the two add up to the corner.",
        ),
    ] = CutMethod.ONE_SETTING
    saw: Annotated[
        SawName,
        Label(
            "Name of the saw",
            "If you have more than one: test cuts of one saw are counted together, whatever the frame.",
        ),
    ] = ""
    saw_kind: Annotated[
        SawKind,
        Label(
            "Kind of saw",
            "Its cautions stand beside its settings and on its card.",
            choices=SAW_KINDS,
        ),
    ] = SawKind.UNSAID
    since: Annotated[
        SawName,
        Label(
            "Last change to the saw",
            "In your own words, such as: new fence, March. From then on its test cuts are counted anew; write the"
            " same words for every frame cut since.",
        ),
    ] = ""
    fence: Annotated[
        Size,
        Label(
            "Fence, pivot to shim",
            "From where the fence turns to where a shim would lie. For a sled: the length of one fence.",
            inch="18",
        ),
    ] = USUAL_FENCE
    gap: Annotated[
        Thin,
        Label("Largest gap allowed", "The widest gap that you would let out of the shop.", inch="0.008"),
    ] = parse_length("0.2 mm")
    lean: Annotated[
        Decimal,
        *between("0", "5", "°", "lean of a blade"),
        Label("Blade out of upright, degrees", "By a square and a feeler, or two cuts laid face to face."),
    ] = Decimal(0)
    blade_ends: Annotated[BladeEnds, Label("How the ends met the blade")] = BladeEnds.SAME_SIDE
    settings: Annotated[int, Field(ge=0, le=MOST_SETTINGS), Label("How often the fence was turned", is_typed=False)] = 0
    tests: Annotated[tuple[TestCut, ...], Label("Test cuts")] = Field(default=(), max_length=40)
    sides: Annotated[Sides, Label("Sides in hand")] = Sides.usual()
    numbered: Annotated[tuple[NumberedSide, ...], Label("Sides of a polygon in hand")] = Field(
        default=(), max_length=MOST_SIDES
    )
    batch: Annotated[Batch, Label("Sides of a batch")] = Batch.usual()
    clamps: Annotated[Clamps, Label("Clamps")] = Clamps.usual()
    joint: Annotated[Joint, Label("Joint")] = Joint.usual()
    seasons: Annotated[Seasons, Label("Seasons")] = Seasons.usual()
