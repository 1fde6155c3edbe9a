"""One frame as typed: artwork, package, section, what it is worked out from, what else is known."""

from typing import Annotated, Literal

from pydantic import AfterValidator, StringConstraints

from framecalc.artwork.measuring import ArtworkKind
from framecalc.project.corners import Corner
from framecalc.project.fields import Count, Id, Model, Name, Part, Run, Size, printable
from framecalc.project.look import Look
from framecalc.project.package import Fitting, Package
from framecalc.section.profile import EdgeShape, FaceShape


class Artwork(Model):
    """The piece as the tape found it: across at the top and at the bottom, up at the left and at the right, diagonals.

    `rising` runs from the lower left to the upper right. A size left out is taken equal to its opposite.
    """

    kind: ArtworkKind = ArtworkKind.PAPER
    across: Size
    across_bottom: Size | None = None
    up: Size
    up_right: Size | None = None
    diagonal_rising: Size | None = None
    diagonal_falling: Size | None = None


class Edge(Model):
    """What is milled on one edge of the face."""

    shape: EdgeShape = EdgeShape.SQUARE
    size: Part


class Section(Model):
    """The member's section. A tray uses the face width as its wall, the thickness as its height, and the ledge.

    `ledge`: milled from one blank with the wall, or a strip of its own that is glued to the wall's inner side.
    """

    kind: Literal["rabbet", "tray"] = "rabbet"
    face_width: Part
    thickness: Part
    rabbet_width: Part
    rabbet_depth: Part
    face: FaceShape = FaceShape.FLAT
    face_drop: Part
    sight_edge: Edge
    back_edge: Edge
    tray_gap: Part
    ledge: Literal["solid", "strip"] = "solid"
    ledge_width: Part
    ledge_thickness: Part


class Start(Model):
    """What the frame is worked out from, and the numbers of each starting point (kept when another is chosen)."""

    given: Literal["artwork", "wall", "stock", "stick"] = "artwork"
    wall_across: Size | None = None
    wall_up: Size | None = None
    stock: Annotated[str, AfterValidator(printable), StringConstraints(max_length=60)] = ""
    stock_turned: bool = False
    stick_length: Run | None = None
    stick_solves: Literal["face width", "picture"] = "face width"


class KnownSizes(Model):
    """What a person may also know, and wants held against the plan."""

    outside_across: Size | None = None
    outside_up: Size | None = None


class Frame(Model):
    """One frame of a project, made `count` times."""

    id: Id
    name: Name
    count: Count = 1
    species: Annotated[str, AfterValidator(printable), StringConstraints(strip_whitespace=True, max_length=60)] = ""
    start: Start = Start()
    artwork: Artwork
    package: Package
    section: Section
    known: KnownSizes = KnownSizes()
    look: Look = Look()
    corner: Corner = Corner()
    fitting: Fitting = Fitting()
