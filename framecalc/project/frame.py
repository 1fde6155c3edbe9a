"""One frame as typed: artwork, package, section, starting point, known sizes."""

from collections.abc import Mapping
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.artwork.measuring import ArtworkKind
from framecalc.project.corners import Corner
from framecalc.project.fields import WOODS, Count, FromEdge, Id, Model, Name, Part, Place, Run, Size, printable
from framecalc.project.label import Label
from framecalc.project.look import Look
from framecalc.project.moulding import Moulding
from framecalc.project.package import Fitting, Package
from framecalc.project.shape import FrameShape
from framecalc.section.profile import EdgeShape, FaceShape
from framecalc.section.typed_points import FIELD, Way
from framecalc.tables.reading import stock_sizes
from framecalc.words import typed

MOST_POINTS = 24
"""More points than any profile of a member has."""

STOCK_SIZES = tuple((size.name, size.name) for size in stock_sizes())


class Artwork(Model):
    """The artwork as measured by tape: across at the top and at the bottom, up at the left and at the right, diagonals.

    `rising` runs from the lower left to the upper right. A missing size equals its opposite.
    """

    kind: Annotated[
        ArtworkKind, Label("Kind", "What it is decides how much room it usually gets, and what may touch it.")
    ] = ArtworkKind.PAPER
    across: Annotated[
        Size,
        Label(
            "Across",
            "Measure the piece itself, edge to edge, along its top.",
            arguments=("artwork_across_mm",),
            figure="artwork_across",
        ),
    ]
    across_bottom: Annotated[
        Size | None,
        Label(
            "Across, bottom",
            "Measure along the bottom too: paper and stretchers are seldom as wide below as above.",
            arguments=("across_bottom_mm",),
        ),
    ] = None
    up: Annotated[
        Size,
        Label(
            "Up",
            "Measure the piece from bottom to top along its left edge.",
            arguments=("artwork_up_mm",),
            figure="artwork_up",
        ),
    ]
    up_right: Annotated[
        Size | None, Label("Up, right", "Measure along the right edge too.", arguments=("up_right_mm",))
    ] = None
    diagonal_rising: Annotated[
        Size | None,
        Label(
            "Diagonal, rising",
            "From the lower left corner to the upper right. Equal diagonals alone do not prove a rectangle.",
            arguments=("diagonal_rising_mm",),
        ),
    ] = None
    diagonal_falling: Annotated[
        Size | None,
        Label(
            "Diagonal, falling", "From the upper left corner to the lower right.", arguments=("diagonal_falling_mm",)
        ),
    ] = None

    image_across: Annotated[
        Size | None,
        Label(
            "Image, across",
            "What of the sheet is to be seen: the image, the plate mark, the signature. Blank: all of the sheet.",
            drawing="front",
            arguments=("image_across_mm",),
        ),
    ] = None
    image_up: Annotated[
        Size | None,
        Label("Image, up", "How high the image is.", arguments=("image_up_mm",)),
    ] = None
    image_left: Annotated[
        Place | None,
        Label(
            "Image, from the left",
            "From the left edge of the sheet to the image. Blank: in the middle.",
            arguments=("image_left_mm",),
        ),
    ] = None
    image_below: Annotated[
        Place | None,
        Label(
            "Image, from below",
            "From the lower edge of the sheet to the image. Blank: in the middle.",
            arguments=("image_below_mm",),
        ),
    ] = None


class Edge(Model):
    """The shape milled on one edge of the face."""

    shape: Annotated[
        EdgeShape,
        Label("{within}", "What is milled on the edge at the picture."),
        Label("{within}", "What is milled on the edge at the wall.", case="back_edge"),
    ] = EdgeShape.SQUARE
    size: Annotated[
        Part,
        Label(
            "Size",
            "Leg, radius or side of the shape on the inner edge.",
            mm="2",
            inch="1/16",
            arguments=("sight_edge_mm",),
        ),
        Label(
            "Size",
            "Leg, radius or side of the shape on the outer edge.",
            mm="2",
            inch="1/16",
            case="back_edge",
            arguments=("back_edge_mm",),
        ),
    ]


class ProfilePoint(Model):
    """One point of a face profile, and the way to it from the point before; a line has no radius."""

    id: Id
    across: Annotated[FromEdge, Label("Across", "From the sight edge across the face.")]
    down: Annotated[FromEdge, Label("Down", "Below the face of the square blank.")]
    way: Annotated[
        Way,
        Label(
            "Way to it",
            "From the point before. A hollow bends into the wood, a round stands out of it.",
            choices=((Way.LINE.value, "Line"), (Way.HOLLOW.value, "Hollow"), (Way.ROUND.value, "Round")),
        ),
    ] = Way.LINE
    radius: Annotated[Size | None, Label("Radius", "Of a hollow or a round.")] = None


class Section(Model):
    """The member's section. A tray uses the face width as its wall, the thickness as its height, and the ledge.

    `ledge`: milled from one blank with the wall, or a strip of its own that is glued to the wall's inner side.
    """

    @classmethod
    def case_of(cls, document: Mapping[str, object]) -> str:
        """A tray has labels of its own."""
        return str(document.get("kind", ""))

    kind: Annotated[
        Literal["rabbet", "tray"],
        Label(
            "Section",
            "A rabbet laps over the edge of the package. In a tray the artwork lies on a ledge and nothing laps over"
            " it.",
        ),
    ] = "rabbet"
    source: Annotated[
        Literal["own", "bought"],
        Label(
            "Where the section comes from",
            "A bought moulding keeps its own sizes: measure them on the stick.",
            choices=(("own", "Milled here"), ("bought", "Bought moulding")),
            measured_anew=("face_width", "thickness", "rabbet_width", "rabbet_depth"),
        ),
    ] = "own"
    moulding: Annotated[Moulding, Label("Bought moulding")] = Moulding()
    face_width: Annotated[
        Part,
        Label(
            "Face width",
            "From the outer edge of the member to its sight edge. In a tray: the thickness of the wall.",
            arguments=("face_width_mm", "tray_wall_mm"),
            figure="face_width",
        ),
        Label("Wall, thickness", "From the outer side of the wall to the inside.", figure="face_width", case="tray"),
    ]
    thickness: Annotated[
        Part,
        Label(
            "Thickness",
            "From the back of the member to its face. In a tray: the height of the wall.",
            to_confirm=True,
            arguments=("thickness_mm", "tray_height_mm"),
        ),
        Label("Wall, height", "From the back to the top of the wall.", to_confirm=True, case="tray"),
    ]
    rabbet_width: Annotated[
        Part,
        Label(
            "Rabbet width",
            "From the rabbet wall to the sight edge: what laps over.",
            mm="6",
            inch="1/4",
            to_confirm=True,
            arguments=("rabbet_width_mm",),
        ),
    ]
    rabbet_depth: Annotated[
        Part,
        Label(
            "Rabbet depth",
            "From the back of the member to the underside of the lip.",
            to_confirm=True,
            arguments=("rabbet_depth_mm",),
        ),
    ]
    face: Annotated[
        FaceShape,
        Label(
            "Face",
            "Flat, falling toward or away from the picture, or through points that you type.",
            arguments=("face_shape",),
        ),
    ] = FaceShape.FLAT
    points: Annotated[
        tuple[ProfilePoint, ...], Label("Points of the face, from the sight edge outward", arguments=(FIELD,))
    ] = Field(default=(), max_length=MOST_POINTS)
    face_drop: Annotated[
        Part,
        Label(
            "Face drop", "How much lower the face is at its low edge.", mm="3", inch="1/8", arguments=("face_drop_mm",)
        ),
    ]
    sight_edge: Annotated[Edge, Label("Sight edge"), Label("Inner edge", case="tray")]
    back_edge: Annotated[Edge, Label("Outer edge")]
    tray_gap: Annotated[
        Part,
        Label(
            "Gap",
            "The even gap in view between the artwork and the wall, on each side.",
            drawing="front",
            mm="6",
            inch="1/4",
            to_confirm=True,
            arguments=("tray_gap_mm",),
        ),
    ]
    ledge: Annotated[
        Literal["solid", "strip"],
        Label(
            "The ledge is",
            "Milled from one blank with the wall, or a strip of its own, mitred round the inside and glued to the"
            " wall.",
            choices=(("solid", "Milled with the wall"), ("strip", "A strip of its own")),
        ),
    ] = "solid"
    ledge_width: Annotated[
        Part,
        Label(
            "Ledge width",
            "How far the ledge reaches in under the artwork.",
            mm="20",
            inch="3/4",
            to_confirm=True,
            arguments=("tray_ledge_width_mm",),
        ),
    ]
    ledge_thickness: Annotated[
        Part,
        Label(
            "Ledge thickness",
            "The thickness of the ledge, at the back.",
            mm="6",
            inch="1/4",
            to_confirm=True,
            arguments=("tray_ledge_thickness_mm",),
        ),
    ]


class Start(Model):
    """The starting point, and the numbers of each (kept when another is chosen)."""

    given: Annotated[
        Literal["artwork", "wall", "stock", "stick"],
        Label(
            "Start from",
            "What is known first; the rest is worked out from it.",
            arguments=("given",),
            choices=(
                ("artwork", "Artwork"),
                ("wall", "Wall space"),
                ("stock", "Stock size"),
                ("stick", "One stick"),
            ),
        ),
    ] = "artwork"
    wall_across: Annotated[
        Size | None,
        Label(
            "Wall space, across",
            "The outside size that the frame may take on the wall. What goes into it is worked out.",
            arguments=("wall_across_mm",),
        ),
    ] = None
    wall_up: Annotated[
        Size | None,
        Label("Wall space, up", "The height that the frame may take on the wall.", arguments=("wall_up_mm",)),
    ] = None
    stock: Annotated[
        str,
        AfterValidator(printable),
        StringConstraints(max_length=60),
        Label(
            "Stock size",
            "A size in which sheets are sold, that the frame has to take.",
            blank="Choose a size",
            choices=STOCK_SIZES,
            arguments=("stock",),
        ),
    ] = ""
    stock_turned: Annotated[bool, Label("Which way", choices=(("no", "As named"), ("yes", "Turned")))] = False
    stick_length: Annotated[
        Run | None,
        Label(
            "Length of the stick",
            "One length of stock that all four sides are cut from, with its kerfs and end trims.",
            drawing="members",
            arguments=("stick_length_mm",),
        ),
    ] = None
    stick_solves: Annotated[
        Literal["face width", "picture"],
        Label(
            "It settles",
            choices=(("face width", "the face width"), ("picture", "the scale of the picture")),
            drawing="members",
            arguments=("stick_solves",),
        ),
    ] = "face width"


class KnownSizes(Model):
    """Sizes that a person also knows, to check against the plan."""

    outside_across: Annotated[
        Size | None,
        Label(
            "Outside, across",
            "An outside size that you know from elsewhere. It is held against the plan and changes nothing.",
            arguments=("known_outside_across_mm",),
        ),
    ] = None
    outside_up: Annotated[
        Size | None,
        Label("Outside, up", "The outside height that you know from elsewhere.", arguments=("known_outside_up_mm",)),
    ] = None


class Frame(Model):
    """One frame of a project, made `count` times."""

    id: Id
    name: Annotated[Name, Label("Name of this frame", drawing="front")]
    count: Annotated[Count, Label("How many", drawing="members")] = 1
    species: Annotated[
        str,
        AfterValidator(printable),
        StringConstraints(strip_whitespace=True, max_length=60),
        AfterValidator(typed),
        Label(
            "Wood",
            "Everything goes by it: colour, movement, boards and prices.",
            drawing="front",
            arguments=("species",),
        ),
    ] = ""
    reckoned_as: Annotated[
        str,
        AfterValidator(printable),
        StringConstraints(max_length=40),
        Label(
            "It moves as",
            "Only where the name fits several woods of the table, or none.",
            blank="By its name",
            choices=WOODS,
            arguments=("reckoned_as",),
        ),
    ] = ""
    shape: Annotated[FrameShape, Label("Shape", drawing="front")] = FrameShape()
    start: Annotated[Start, Label("Starting point", drawing="front")] = Start()
    artwork: Annotated[Artwork, Label("Artwork", drawing="front")]
    package: Annotated[Package, Label("Package", drawing="front")]
    section: Annotated[Section, Label("Section", drawing="section")]
    known: Annotated[KnownSizes, Label("Known sizes", drawing="front")] = KnownSizes()
    look: Annotated[Look, Label("Look")] = Look()
    corner: Annotated[Corner, Label("Corners")] = Corner()
    fitting: Annotated[Fitting, Label("Fitting")] = Fitting()
