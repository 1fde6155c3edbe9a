"""How one frame hangs, as typed: by what, where that goes, what its packet says, and what was measured on the frame."""

from decimal import Decimal
from typing import Annotated, Literal

from framecalc.hanging.hangers import USUAL_FACTOR, Hanger
from framecalc.project.fields import FeelerGap, FromEdge, Model, Size, Slack
from framecalc.project.label import Label
from framecalc.project.numbers import between
from framecalc.project.package import Mass
from framecalc.units import parse_length

HANGER_WORDS = (
    (Hanger.RINGS.value, "Two rings on two hooks"),
    (Hanger.WIRE.value, "Two rings and a wire"),
    (Hanger.TOOTHED.value, "A toothed hanger"),
    (Hanger.CLEAT.value, "A cleat"),
    (Hanger.PLATES.value, "Security plates"),
)

Factor = Annotated[Decimal, *between("1", "10", "×", "factor")]
"""How many times its load a thing is to be rated for."""


class Hanging(Model):
    """The hangers of one frame. Blank: as usual; what nobody has chosen is proposed and stops nothing."""

    by: Annotated[
        Hanger | Literal[""],
        Label("Hung by", blank="Not chosen: two rings", choices=HANGER_WORDS, arguments=("hung_by",)),
    ] = ""
    hooks: Annotated[
        Literal["1", "2"],
        Label("Hooks for the wire", choices=(("1", "One"), ("2", "Two")), arguments=("hooks",)),
    ] = "1"
    down: Annotated[
        Size | None,
        Label(
            "Hangers, down from the top",
            "To their screws. Blank: a quarter of the height; a third for a wire.",
            arguments=("hangers_down_mm",),
        ),
    ] = None
    from_edge: Annotated[
        FromEdge | None,
        Label("Screw, from the outer edge", "Blank: in the middle of the land.", arguments=("screw_from_edge_mm",)),
    ] = None
    rise: Annotated[
        Size | None,
        Label(
            "Wire rises, when loaded",
            "From the line of the rings up to the hook. Blank: for 30°, if there is room.",
            arguments=("rise_mm",),
        ),
    ] = None
    hooks_apart: Annotated[
        Size | None,
        Label("Two hooks apart", "Blank: a third of the way between the rings.", arguments=("hooks_apart_mm",)),
    ] = None
    rating: Annotated[
        Mass | None,
        Label(
            "One hanger holds",
            "From its packet, with its unit: 10 kg, 20 lb. Of a wire the lesser of wire and ring.",
            arguments=("rating",),
        ),
    ] = None
    factor: Annotated[
        Factor, Label("Safety factor", "What the hanger is rated for over what it carries. 3 to 4 is usual.")
    ] = Decimal(USUAL_FACTOR)
    plate_long: Annotated[Size, Label("Hanger, long", inch="1 1/2")] = parse_length("40 mm")
    plate_wide: Annotated[Size, Label("Hanger, wide", inch="3/8")] = parse_length("10 mm")
    reach: Annotated[Slack, Label("Ring, above its screw", "To the place that rests on the hook.", inch="3/4")] = (
        parse_length("20 mm")
    )
    hook_out: Annotated[Slack, Label("Hook stands out", "From the wall to what rests on it.", inch="1/4")] = (
        parse_length("6 mm")
    )
    bumper: Annotated[
        Slack,
        Label("Bumpers", "How far the lower back edge stands off the wall.", inch="1/4", arguments=("bumper_mm",)),
    ] = parse_length("6 mm")
    drop: Annotated[
        Size | None,
        Label(
            "Drop, as measured",
            "Hang the frame on a nail; measure from its top edge to the nail. Blank: worked out.",
            arguments=("drop_mm",),
        ),
    ] = None
    weighed: Annotated[
        Mass | None,
        Label("Whole frame on the scales", "With its unit. Blank: worked out.", arguments=("weighed",)),
    ] = None
    hardware: Annotated[
        Mass | None, Label("Hangers and other hardware weigh", "Blank: too little to count.", arguments=("hardware",))
    ] = None
    balances_at: Annotated[
        Size | None,
        Label("Balances at, from the left", "On an edge under it. Blank: worked out.", arguments=("balances_at_mm",)),
    ] = None
    higher_right: Annotated[
        FeelerGap | None,
        Label(
            "Right hook came out higher by",
            "With a minus where the left one is higher. It says the tilt and the shim.",
        ),
    ] = None
