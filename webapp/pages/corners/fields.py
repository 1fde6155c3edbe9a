"""The form's table for the corners page; paths follow `frames.<id>.corner.`."""

from dataclasses import replace
from typing import Any

from framecalc.corners.clamping import Ratchet
from framecalc.corners.fences import Ends
from framecalc.corners.polygons import PolygonGiven
from framecalc.corners.saw import BladeEnds, CutMethod, Tried
from framecalc.tables.wood import biscuits, corner_wedges, dowels, loose_tenons, pin_gauges, wood_species
from webapp.live.field import Control, Field, FieldSet

YES_NO = (("no", "No"), ("yes", "Yes"))
SIDES = ("top", "right", "bottom", "left")
ENDS = {"top": ("left", "right"), "right": ("upper", "lower"), "bottom": ("right", "left"), "left": ("lower", "upper")}
"""The start and the finish of each side, clockwise from the top as seen from the front."""


def _named(values: Any) -> tuple[tuple[str, str], ...]:
    return tuple((value, value[:1].upper() + value[1:]) for value in values)


def _length(path: str, label: str, explain: str = "", *, optional: bool = True) -> Field:
    return Field(path=path, label=label, explain=explain, optional=optional)


def _number(path: str, label: str, explain: str = "", *, optional: bool = False, unit: str = "") -> Field:
    return Field(path=path, label=label, explain=explain, optional=optional, control=Control.NUMBER, unit=unit)


def _celsius(path: str, label: str, explain: str = "", *, optional: bool = False) -> Field:
    return _number(
        path, f"{label}, °C", f"{explain} 68 F may be typed too: it is kept as 20.", optional=optional, unit="°C"
    )


def _choice(path: str, label: str, choices: tuple[tuple[str, str], ...], explain: str = "") -> Field:
    return Field(path=path, label=label, explain=explain, choices=choices, control=Control.CHOICE)


def _sizes() -> tuple[tuple[str, str], ...]:
    names = [f"tenon {tenon.size}" for tenon in loose_tenons()]
    names += [f"biscuit {biscuit.size}" for biscuit in biscuits()]
    names += [f"dowel {dowel.size}" for dowel in dowels()]
    return (("", "Choose a size"), *_named(names))


def _gauges() -> str:
    said = ", ".join(f"{pin.size.split()[0]} is {pin.diameter_mm:.2f} mm" for pin in pin_gauges())
    return f"By gauge: {said}. From memory, not re-read; measure yours."


def _wedges() -> str:
    said = ", ".join(f"{wedge.height_mm:g}" for wedge in corner_wedges())
    return f"It goes in from the back. Sold {said} mm high (common practice, no source)."


def _woods() -> tuple[tuple[str, str], ...]:
    return (("", "Choose a wood"), *((wood.species_id, wood.common_name) for wood in wood_species()))


CORNER_FIELDS = (
    _choice(
        "cutting",
        "How the ends are cut",
        _named(CutMethod),
        "From one setting the errors of all eight ends add up. With a left and a right setting, or a sled with two "
        "fences, they cancel when the two add up to the corner.",
    ),
    Field(
        path="saw",
        label="Which saw",
        control=Control.WORDS,
        optional=True,
        explain="A name, if you have more than one: test cuts of one saw are counted together, whatever the frame.",
    ),
    Field(
        path="since",
        label="Last change",
        control=Control.WORDS,
        optional=True,
        explain="In your own words, such as: new fence, March. From then on its test cuts are counted anew; write the "
        "same words for every frame cut since.",
    ),
    _length(
        "fence",
        "Fence, pivot to shim",
        "From where the fence turns to where a shim would lie. For a sled: the length of one fence.",
        optional=False,
    ),
    _length("gap", "Gap that may be seen", "The widest gap that you would let out of the shop.", optional=False),
    Field(
        path="polygon",
        label="Sides of the frame",
        explain="4 is a rectangle, 8 an octagon; 3 to 24. With other than 4 this page is about such a frame.",
        control=Control.COUNT,
    ),
    _number("slope", "Slope of the sides, degrees", "0 lies flat on the wall, 90 stands up as a box does."),
    _choice("polygon_given", "The polygon is measured by", _named(PolygonGiven)),
    _length(
        "polygon_flats", "Its measure", "Across the flats is from one side to the opposite one, or a disc's diameter."
    ),
    _number("lean", "Blade out of upright, degrees", "By a square and a feeler, or two cuts laid face to face."),
    _choice("blade_ends", "How the ends met the blade", _named(BladeEnds)),
    *(
        field
        for side in SIDES
        for field in (
            _length(
                f"sides.{side}.long", "Long edge", "From long point to long point, as cut." if side == "top" else ""
            ),
            _number(f"sides.{side}.start", f"{ENDS[side][0].capitalize()} end, °", optional=True),
            _number(f"sides.{side}.finish", f"{ENDS[side][1].capitalize()} end, °", optional=True),
        )
    ),
    *(
        Field(
            path=f"batch.{side}",
            label=f"{side.capitalize()}s of the batch",
            control=Control.WORDS,
            optional=True,
            explain="One number for each side in hand: both its angles together, less 90. Spaces between them.",
        )
        for side in SIDES
    ),
    _length("clamps.across_top", "Outside across, top", "Of the frame in the clamps, edge to edge."),
    _length("clamps.across_bottom", "Outside across, bottom"),
    _length("clamps.up_left", "Outside up, left"),
    _length("clamps.up_right", "Outside up, right"),
    _length("clamps.rising", "Diagonal, rising", "From the lower left tip to the upper right one."),
    _length("clamps.falling", "Diagonal, falling", "From the upper left tip to the lower right one."),
    _length("clamps.rock", "Rock on a flat table", "How far one corner lifts while the other three lie."),
    _length("clamps.member_wind", "Wind in a member", "Before glue-up; 0 where there is none.", optional=False),
    _length("clamps.front_gap", "Gap front to back", "Of a mitre that is tight at the face.", optional=False),
    _choice("clamps.ratchet", "Ratchet of the strap", _named(Ratchet)),
    _number(
        "clamps.strap_force",
        "Pull of the strap, N",
        "In newtons, by a spring scale: 10 N is about 1 kg on the scale. 45 lb may be typed too: it is kept as 200.2.",
        optional=True,
        unit="N",
    ),
    _number(
        "clamps.eased_to",
        "Let down to, N",
        "What the ratchet is let down to afterwards. Blank: what the farthest part of the strap has.",
        optional=True,
        unit="N",
    ),
    _choice("clamps.friction", "Friction at the corners", (("0.2", "0.2"), ("0.25", "0.25"), ("0.3", "0.3"))),
    _choice("joint.kind", "Joint", _named(("none", "loose tenon", "biscuit", "dowel", "spline", "half-lap", "bridle"))),
    _choice("joint.size", "Size", _sizes(), "Ready sizes; weigh and measure your own before you trust them."),
    _length("joint.width", "Tenon width", "Along the mitre.", optional=False),
    _length("joint.depth", "Slot depth in each member", "Blank: half of the ready size and its glue room."),
    _length("joint.wall", "Least wall", "What must stay solid around the slot.", optional=False),
    _length("joint.height", "Height above the back", "Of the middle of the slot. Blank: the middle of the thickness."),
    _length("joint.from_tip", "From the tip", "Along the mitre, to the slot's middle. Blank: the middle of its room."),
    Field(path="joint.also_spline", label="A spline as well", control=Control.YES_NO, choices=YES_NO),
    Field(path="joint.also_pin", label="A pin as well", control=Control.YES_NO, choices=YES_NO),
    _length("joint.pin_diameter", "Pin, diameter", _gauges(), optional=False),
    _length("joint.pin_length", "Pin, length", optional=False),
    _length("joint.pin_from", "Pin, from the outer corner", "Along the outer edge.", optional=False),
    _length("joint.pin_height", "Pin, above the back", optional=False),
    Field(path="joint.also_wedge", label="A corner wedge as well", control=Control.YES_NO, choices=YES_NO),
    _length("joint.wedge_height", "Wedge, height", _wedges(), optional=False),
    _length("joint.wedge_leg", "Wedge, leg", "Of its angle, into each member.", optional=False),
    _length("joint.wedge_from_tip", "Wedge, from the tip", "Along the mitre.", optional=False),
    Field(path="joint.spline_count", label="Splines", control=Control.COUNT, explain="Several are spread evenly."),
    _length("joint.spline_depth", "Spline depth", "From the tip, along the mitre.", optional=False),
    _length("joint.spline_kerf", "Spline thickness", "The kerf of the blade that cuts it.", optional=False),
    _length("joint.cradle", "Bottom of the sled's cradle", "From the table to the bottom of its V.", optional=False),
    _choice("seasons.species", "Wood", _woods(), "Coefficients of the Wood Handbook; their status stands below."),
    _number("seasons.ring", "Angle of the rings, degrees", "0 is flat-sawn, 90 quarter-sawn, seen on the end grain."),
    _number("seasons.moisture", "Moisture by meter, %", "Blank: that of the middle of the year.", optional=True),
    _celsius("seasons.winter_temperature", "Winter", "Of the room in its driest month."),
    _number("seasons.winter_humidity", "Winter, % humidity"),
    _celsius("seasons.summer_temperature", "Summer", "Of the room in its dampest month."),
    _number("seasons.summer_humidity", "Summer, % humidity"),
    Field(
        path="seasons.months",
        label="Humidity of twelve months, %",
        control=Control.WORDS,
        optional=True,
        explain="January to December, spaces between them; blank: the two seasons, spread over the year.",
    ),
    _celsius("seasons.room_temperature", "Room now", "Beside the meter.", optional=True),
    _number("seasons.room_humidity", "Room now, % humidity", optional=True),
    _celsius("seasons.outdoor_temperature", "Outdoors in winter", "Its air is only warmed.", optional=True),
    _number("seasons.outdoor_humidity", "Outdoors in winter, % humidity", optional=True),
)

TEST_FIELDS = (
    _choice("tried", "Read on", _named(Tried)),
    _choice("ends", "Cut with", _named(Ends)),
    _length("outside_gap", "At the tips, outside", optional=False),
    _length("inside_gap", "At the inside", optional=False),
)
"""Fields of one test cut; their paths follow `tests.<id>.`."""


def corner_fields_in(document: dict[str, Any], frame_id: str) -> FieldSet:
    """The fields of the corners page of one frame; none where the document has no such frame."""
    frame = next((frame for frame in document["frames"] if frame["id"] == frame_id), None)
    if frame is None:
        return FieldSet()
    here = f"frames.{frame_id}.corner."
    fields = {here + one.path: replace(one, drawing="") for one in CORNER_FIELDS}
    for test in frame.get("corner", {}).get("tests", ()):
        fields |= {f"{here}tests.{test['id']}.{one.path}": replace(one, drawing="") for one in TEST_FIELDS}
    return FieldSet(fields=fields)
