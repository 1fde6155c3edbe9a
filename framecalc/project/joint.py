"""The corner joint as typed: what holds the mitre besides glue, and its additions."""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.corners.joints.splines import MOST_SPLINES
from framecalc.project.fields import Model, Slack, Thin, printable
from framecalc.project.label import Label, named
from framecalc.tables.wood import biscuits, corner_wedges, dowels, pin_gauges, tenon_thicknesses
from framecalc.units import parse_length

READY_SIZES = named(
    [
        *(f"biscuit {biscuit.size}" for biscuit in biscuits()),
        *(f"dowel {dowel.size}" for dowel in dowels()),
    ]
)
_GAUGES = ", ".join(f"{pin.size.split()[0]} is {pin.diameter_mm:.2f} mm" for pin in pin_gauges())
_WEDGES = ", ".join(f"{wedge.height_mm:g}" for wedge in corner_wedges())
_THICKNESSES = ", ".join(one.size.removesuffix(" mm") for one in tenon_thicknesses() if one.is_metric)
_INCHES = ", ".join(one.size.removesuffix(" in") for one in tenon_thicknesses() if not one.is_metric)


class Joint(Model):
    """What holds the mitre besides glue: a tenon as typed, a ready size, or a spline across the corner."""

    kind: Annotated[
        Literal["none", "loose tenon", "biscuit", "dowel", "spline", "half-lap", "bridle"],
        Label("Joint", arguments=("joint", "split_mm", "tenon_low_mm")),
    ] = "none"
    size: Annotated[
        str,
        AfterValidator(printable),
        StringConstraints(max_length=40),
        Label(
            "Size",
            "Ready sizes; weigh and measure your own before you trust them.",
            blank="Choose a size",
            choices=READY_SIZES,
            arguments=("joint_thickness_mm",),
        ),
    ] = ""
    dowel_count: Annotated[
        int, Field(ge=1, le=2), Label("Dowels in a mitre", "Two, where they have room, stop it turning.")
    ] = 1
    tenon_thickness: Annotated[
        Thin | None,
        Label(
            "Tenon thickness",
            f"Plain ones are {_THICKNESSES} mm; {_INCHES} in. A third of the member's thickness is usual.",
            arguments=("tenon_thickness_mm",),
        ),
    ] = None
    tenon_length: Annotated[
        Thin | None,
        Label("Tenon length", "Through both members. Blank: as long as the slots and their glue room let it be."),
    ] = None
    width: Annotated[Thin, Label("Tenon width", "Along the mitre.", inch="3/4")] = parse_length("20 mm")
    depth: Annotated[
        Thin | None,
        Label("Slot depth in each member", "Blank: half of the tenon and its glue room."),
    ] = None
    wall: Annotated[Thin, Label("Least wall", "What must stay solid around the slot.", inch="1/8")] = parse_length(
        "3 mm"
    )
    height: Annotated[
        Slack | None,
        Label(
            "Height above the back",
            "Of the middle of the slot. Blank: the middle of the thickness.",
            arguments=("height_mm",),
        ),
    ] = None
    from_tip: Annotated[
        Slack | None,
        Label(
            "From the tip",
            "Along the mitre, to the slot's middle. Blank: the middle of its room.",
            arguments=("from_tip_mm",),
        ),
    ] = None
    also_spline: Annotated[bool, Label("A spline as well")] = False
    also_pin: Annotated[bool, Label("A pin as well")] = False
    pin_diameter: Annotated[
        Thin,
        Label("Pin, diameter", f"By gauge: {_GAUGES}. Unchecked: measure yours.", inch="0.048"),
    ] = parse_length("1.2 mm")
    pin_length: Annotated[Thin, Label("Pin, length", inch="1", arguments=("pin_length_mm",))] = parse_length("25 mm")
    pin_from: Annotated[
        Thin,
        Label("Pin, from the outer corner", "Along the outer edge.", inch="1/2", arguments=("pin_from_corner_mm",)),
    ] = parse_length("12 mm")
    pin_height: Annotated[Thin, Label("Pin, above the back", inch="1/4", arguments=("pin_height_mm",))] = parse_length(
        "6 mm"
    )
    also_wedge: Annotated[bool, Label("A corner wedge as well")] = False
    wedge_height: Annotated[
        Thin,
        Label(
            "Wedge, height",
            f"It goes in from the back. Sold {_WEDGES} mm high (usual practice).",
            inch="1/4",
            arguments=("wedge_height_mm",),
        ),
    ] = parse_length("7 mm")
    wedge_leg: Annotated[Thin, Label("Wedge, leg", "Of its angle, into each member.", inch="1/4")] = parse_length(
        "6 mm"
    )
    wedge_from_tip: Annotated[
        Thin, Label("Wedge, from the tip", "Along the mitre.", inch="1/2", arguments=("wedge_from_tip_mm",))
    ] = parse_length("12 mm")
    spline_depth: Annotated[
        Thin, Label("Spline depth", "From the tip, along the mitre.", inch="5/8", arguments=("spline_depth_mm",))
    ] = parse_length("15 mm")
    spline_kerf: Annotated[
        Thin,
        Label("Spline thickness", "The kerf of the blade that cuts it.", inch="1/8", arguments=("spline_kerf_mm",)),
    ] = parse_length("3.2 mm")
    spline_count: Annotated[int, Field(ge=1, le=MOST_SPLINES), Label("Splines", "Several are spread evenly.")] = 1
    cradle: Annotated[
        Slack,
        Label("Bottom of the sled's cradle", "From the table to the bottom of its V.", inch="3/4"),
    ] = parse_length("20 mm")
