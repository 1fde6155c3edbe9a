"""The package as typed: its mat with all windows, its layers, its clearance, its fitting and retainers.

Every field of the fitting starts as a usual value or blank; blank means no wish, or the usual value.
"""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.errors import OutOfRange, UnreadableNumber
from framecalc.mats.windows import MOST_WINDOWS
from framecalc.mats.wished_mat import WindowArrangement
from framecalc.package.canvas import Folds
from framecalc.package.layers import LayerKind
from framecalc.package.retainers import Retainer
from framecalc.package.shelf import SOLID_WOOD
from framecalc.package.stiffening import Stiffener
from framecalc.project.as_text import AsText
from framecalc.project.fields import WOODS, Border, Clearance, Id, Model, Name, Place, Size, Slack, Thin, printable
from framecalc.project.label import Label
from framecalc.project.numbers import Angle, Celsius, Humidity, between, celsius
from framecalc.tables.sheets import sheet_materials
from framecalc.units import Comma, Unit, parse_length
from framecalc.weights import Weight, mass_text, parse_weight

LIGHTEST_KG, HEAVIEST_KG = 0.001, 200.0
"""No artwork in a frame weighs less, or more. Ours: wide enough for any, narrow enough to catch a slip."""


_LIGHTEST, _HEAVIEST = (mass_text(limit_kg, unit=Unit.MM) for limit_kg in (LIGHTEST_KG, HEAVIEST_KG))


def _read_weight(value: object) -> Weight:
    if not isinstance(value, str):
        raise UnreadableNumber("Enter a weight with its unit, in quotation marks: “1.2 kg”")
    weight = parse_weight(value, comma=Comma.DECIMAL)
    if not LIGHTEST_KG <= weight.kg <= HEAVIEST_KG:
        unit = Unit.INCH if weight.text.endswith(("lb", "oz")) else Unit.MM
        least, most = (mass_text(limit_kg, unit=unit) for limit_kg in (LIGHTEST_KG, HEAVIEST_KG))
        raise OutOfRange(f"Enter a weight of {least} to {most}")
    return weight


Material = Annotated[str, AfterValidator(printable), StringConstraints(max_length=40)]
"""A material of the table of sheets, or none said."""

Mass = Annotated[
    Weight,
    AsText(_read_weight, lambda weight: weight.text, says=f"a weight in kg, g, lb or oz, {_LIGHTEST} to {_HEAVIEST}"),
]
"""What the artwork weighs; a file's number without a unit is kilograms."""

BevelAngle = Annotated[Decimal, *between("30", "90", "°", "slope of a bevel")]
LampAngle = Annotated[Decimal, *between("0", "80", "°", "angle of a lamp")]

NOTHING = parse_length("0 mm")

MATERIALS = (
    *((material.material_id, material.name) for material in sheet_materials()),
    (SOLID_WOOD, "Solid wood"),
)

WindowAcross = Annotated[
    Size | None,
    Label(
        "Window, across",
        "Blank: from the picture, by the overlap or by what shows.",
        arguments=("window_across_mm",),
    ),
]
WindowUp = Annotated[Size | None, Label("Window, up", arguments=("window_up_mm",))]
FromTheLeft = Annotated[Place, Label("From the left", "Of the leftmost window's left edge to this window's.")]
FromBelow = Annotated[Place, Label("From below", "Of the lowest window's lower edge to this window's.")]


class Picture(Model):
    """A picture beside the artwork, in a window of its own. A typed opening counts; a place where placed by hand.

    The place is that of the window's lower left corner, in the group of all windows.
    """

    id: Id
    across: Annotated[Size, Label("Picture, across")]
    up: Annotated[Size, Label("Picture, up")]
    opening_across: WindowAcross = None
    opening_up: WindowUp = None
    left: FromTheLeft = NOTHING
    below: FromBelow = NOTHING


class Mat(Model):
    """The mat: its borders, its windows, their layout and cutting.

    `shows` is what is seen around an image, or a sheet that floats; nothing where the window laps over; `reveal` is
    what is seen of the lower of two mats. `in_view` borders do not count what the lip covers. Opening and place of the
    mat's own are those of the artwork's window. A mat that is not planned is kept as typed: the frame has none.
    """

    overlap: Annotated[
        Slack,
        Label(
            "Overlap",
            "By how much the mat laps over the sheet at its smallest, on each side.",
            mm="3",
            inch="1/8",
            to_confirm=True,
            arguments=("mat_overlap_mm",),
        ),
    ]
    border: Annotated[
        Border,
        Label(
            "Border, sides and top",
            "From the window to the outside of the mat: as cut, or as seen where the Package page says so.",
            mm="60",
            inch="2 1/2",
            to_confirm=True,
            arguments=("mat_border_mm", "visible_border_mm"),
            figure="border_sides",
        ),
    ]
    bottom: Annotated[
        Border,
        Label(
            "Border, bottom",
            "The bottom border as cut; often a little wider than the others.",
            mm="70",
            inch="2 3/4",
            to_confirm=True,
            arguments=("mat_bottom_mm", "visible_bottom_mm"),
            figure="border_bottom",
        ),
    ]
    in_view: Annotated[bool, Label("The borders typed are", choices=(("no", "as cut"), ("yes", "as seen")))] = False
    shows: Annotated[
        Slack,
        Label(
            "Shows around it",
            "Around the image: what shows of its sheet. Without an image: the sheet floats, its edges show. 0: none.",
            arguments=("float_reveal_mm",),
        ),
    ] = NOTHING
    reveal: Annotated[
        Slack,
        Label(
            "Reveal of a second mat",
            "What shows of the lower mat inside the upper one's window. 0: one mat.",
            arguments=("mat_reveal_mm",),
        ),
    ] = NOTHING
    opening_across: WindowAcross = None
    opening_up: WindowUp = None
    left: FromTheLeft = NOTHING
    below: FromBelow = NOTHING
    windows: Annotated[tuple[Picture, ...], Label("Pictures beside the artwork")] = Field(
        default=(), max_length=MOST_WINDOWS - 1
    )
    arrangement: Annotated[WindowArrangement, Label("The windows stand", arguments=("windows_count", "windows"))] = (
        WindowArrangement.ROW
    )
    columns: Annotated[int, Field(ge=1, le=MOST_WINDOWS), Label("Windows in a row", arguments=("columns_count",))] = 2
    gap: Annotated[
        Thin,
        Label(
            "Between windows",
            "The board that is left between two neighbouring windows.",
            inch="1",
            arguments=("window_gap_mm", "gap_across_mm", "gap_up_mm"),
        ),
    ] = parse_length("25 mm")
    least_bridge: Annotated[
        Thin, Label("Least bridge", "Narrower board bends and tears; 12 mm or 1/2 in is usual.", inch="1/2")
    ] = parse_length("12 mm")
    bevel: Annotated[BevelAngle, Label("Bevel, degrees", "From the face: 45 is usual, 90 is a straight cut.")] = (
        Decimal(45)
    )
    from_behind: Annotated[bool, Label("Cut from", choices=(("yes", "behind"), ("no", "in front")))] = True
    is_planned: Annotated[bool, Label("With a mat", is_typed=False)] = True


class Layer(Model):
    """One layer of the package; the list runs from the lip to the back. `thinner` is how much thinner it may be.

    The tolerance is how much thicker it may be, and also how much thinner where that is left out. The material is one
    of the table of sheets, or not said.
    """

    id: Id
    name: Annotated[Name, Label("Layer")]
    kind: Annotated[LayerKind, Label("What it is")]
    thickness: Annotated[
        Thin, Label("Thickness", "Measure it with calipers, at an edge, not pressed.", to_confirm=True)
    ]
    tolerance: Annotated[Slack, Label("Give or take", "By how much the thickness may differ, up or down.")]
    thinner: Annotated[Slack | None, Label("Thinner by up to", "Blank: as much as it may be thicker.")] = None
    material: Annotated[
        Material,
        Label(
            "Material",
            "What it weighs and how it grows follows from this.",
            blank="By its name",
            choices=MATERIALS,
        ),
    ] = ""


class Package(Model):
    """Everything that sits in the rabbet, and its clearance. Of a fillet `fillet_shows` is seen beside the lip."""

    clearance_across: Annotated[
        Clearance,
        Label(
            "Clearance, across",
            "The room for the package between the rabbet walls, both sides together.",
            to_confirm=True,
            arguments=("clearance_across_mm",),
            figure="clearance_across",
        ),
    ]
    clearance_up: Annotated[
        Clearance,
        Label(
            "Clearance, up",
            "The room for it from the lower rabbet wall to the upper, both sides together.",
            to_confirm=True,
            arguments=("clearance_up_mm",),
            figure="clearance_up",
        ),
    ]
    mat: Annotated[Mat | None, Label("Mat")] = None
    layers: Annotated[tuple[Layer, ...], Label("Layers", drawing="section", arguments=("layer",))] = Field(
        default=(), max_length=24
    )
    fillet_shows: Annotated[
        Slack, Label("Fillet shows", "Beside the lip, on each side.", inch="3/16", arguments=("fillet_mm",))
    ] = parse_length("5 mm")


class Room(Model):
    """The air when the package is fitted; its driest and its dampest month are those of the corners."""

    fitted_temperature: Annotated[Celsius, Label("At fitting, °C", imperial="68 °F")] = celsius("20")
    fitted_humidity: Annotated[Humidity, Label("At fitting, % humidity", to_confirm=True)] = Decimal(50)


class EarlierAir(Model):
    """What an older file said of the air on its Package page, where the Corners page said something else: it no longer
    counts, and is shown until it is used or dropped.
    """

    driest_temperature: Annotated[Celsius | None, Label("Earlier, driest, °C", is_typed=False)] = None
    driest_humidity: Annotated[Humidity | None, Label("Earlier, driest, % humidity", is_typed=False)] = None
    dampest_temperature: Annotated[Celsius | None, Label("Earlier, dampest, °C", is_typed=False)] = None
    dampest_humidity: Annotated[Humidity | None, Label("Earlier, dampest, % humidity", is_typed=False)] = None


class SolidPanel(Model):
    """A solid panel: its wood, how its grain and its rings run, the screws that hold it and how far in they stand."""

    species: Annotated[
        str,
        AfterValidator(printable),
        StringConstraints(max_length=40),
        Label("Wood of the panel", blank="Choose a wood", choices=WOODS, arguments=("panel_species",)),
    ] = ""
    grain: Annotated[Literal["up", "across"], Label("Its grain runs")] = "up"
    ring: Annotated[
        Angle, Label("Angle of the rings, degrees", "0 is flat-sawn, 90 quarter-sawn, seen on the end grain.")
    ] = Decimal(0)
    screw: Annotated[Thin, Label("Screw, thickness", "Of the screws that hold it at its edges.", inch="5/32")] = (
        parse_length("4 mm")
    )
    from_edge: Annotated[Slack, Label("Screw, from the edge", inch="3/4")] = parse_length("20 mm")


class Retainers(Model):
    """The retainers of the package: those that suit the depth, or a wish; blank limits are the usual ones."""

    by: Annotated[Retainer | Literal[""], Label("Held by", blank="Choose by depth")] = ""
    foot: Annotated[
        Thin,
        Label("Foot of the retainer", "The part that is screwed on, from the rabbet wall outward.", inch="1/2"),
    ] = parse_length("12 mm")
    apart: Annotated[Size | None, Label("Spacing, at most", "Blank: what is usual for the kind.")] = None
    from_corner: Annotated[Slack, Label("First from the corner", inch="2")] = parse_length("50 mm")
    from_wall: Annotated[
        Slack | None, Label("Screw, from the rabbet wall", "Blank: the middle of the foot on the land.")
    ] = None


class Canvas(Model):
    """A canvas on its stretcher: its cloth, where its corners are folded, whether it has keys, how thick the bars."""

    cloth: Annotated[Slack, Label("Thickness of the cloth", "Primed and painted; about 0.7 mm.", inch="1/32")] = (
        parse_length("0.7 mm")
    )
    folds: Annotated[Folds, Label("Its corners are folded")] = Folds.SIDES
    has_keys: Annotated[bool, Label("Has keys")] = True
    bar: Annotated[
        Thin | None,
        Label(
            "Thickness of the bars", "Blank: that of the artwork among the layers.", arguments=("artwork_thickness_mm",)
        ),
    ] = None


class Box(Model):
    """A box for an object: its depth, the air before it, the walls, how far in it begins, the lamp's angle."""

    object_depth: Annotated[
        Thin | None,
        Label(
            "Depth of the object", "From its back to its foremost point. Blank: no box.", arguments=("object_depth_mm",)
        ),
    ] = None
    air: Annotated[Slack, Label("Air before it", "Between the object and the glazing.", inch="1/4")] = parse_length(
        "6 mm"
    )
    wall: Annotated[
        Thin,
        Label(
            "Thickness of the walls",
            "Strips that stand in the rabbet and keep the glazing off.",
            inch="1/4",
            arguments=("wall_thickness_mm",),
        ),
    ] = parse_length("6 mm")
    margin: Annotated[Slack, Label("Sight edge to object", "On the side of the lamp.", inch="3/4")] = parse_length(
        "20 mm"
    )
    lamp: Annotated[
        LampAngle,
        Label("Lamp, degrees", "From straight in front: 0 throws no shadow; 30 is usual over a picture."),
    ] = Decimal(30)


class Stiffening(Model):
    """What keeps the bottom member from sagging; blank: nothing, and as large as the sag needs."""

    by: Annotated[
        Stiffener | Literal[""],
        Label(
            "Bottom member stiffened by",
            blank="Nothing",
            choices=(
                (Stiffener.STRIP.value, "A strip of its wood, screwed along it"),
                (Stiffener.BAR.value, "A flat steel bar on edge, screwed along it"),
                (Stiffener.STRUT.value, "A strut up to the top member"),
            ),
            arguments=("stiffener",),
        ),
    ] = ""
    out: Annotated[
        Thin | None,
        Label("Thickness of the stiffener", "Out from the back. Blank: 12 mm (1/2 in); a bar 3 mm (1/8 in)."),
    ] = None
    wide: Annotated[
        Size | None,
        Label("Height of the stiffener", "Up the back; of a strut how wide. Blank: as high as the sag needs."),
    ] = None


class Fitting(Model):
    """The fitting of a package: the air, its movement, its retainers, its weight."""

    room: Annotated[Room, Label("Air of the room")] = Room.usual()
    earlier_air: Annotated[EarlierAir | None, Label("Earlier air of the room")] = None
    panel: Annotated[SolidPanel, Label("Solid panel")] = SolidPanel.usual()
    held: Annotated[Retainers, Label("Retainers")] = Retainers.usual()
    canvas: Annotated[Canvas, Label("Canvas")] = Canvas.usual()
    box: Annotated[Box, Label("Box")] = Box.usual()
    stiffening: Annotated[Stiffening, Label("Stiffener")] = Stiffening.usual()
    artwork_weight: Annotated[
        Mass | None,
        Label(
            "Weight of the artwork",
            "By scales, with its unit: 1.2 kg, 850 g, 2 lb 10 oz; without one kg, in an inch project lb. "
            "Blank: by its layer, where that is known.",
        ),
    ] = None
