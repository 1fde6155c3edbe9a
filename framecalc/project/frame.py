"""One frame as typed: its parts, where its sizes start, and sizes that are also known."""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.project.artwork import Artwork
from framecalc.project.bench import MOST_MEASURED, AsCut, Clock
from framecalc.project.corners import Corner
from framecalc.project.fields import WOODS, Count, Id, Model, Name, Run, Size, printable
from framecalc.project.hand_over import HandOver
from framecalc.project.hanging import Hanging
from framecalc.project.label import Label
from framecalc.project.look import Look
from framecalc.project.package import Fitting, Package
from framecalc.project.section import Section
from framecalc.project.shape import FrameShape
from framecalc.project.sizing import Sizing
from framecalc.tables.reading import stock_sizes
from framecalc.words import typed

STOCK_SIZES = tuple((size.name, size.name) for size in stock_sizes())


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
    shape: Annotated[FrameShape, Label("Shape", drawing="front")] = FrameShape.usual()
    start: Annotated[Start, Label("Starting point", drawing="front")] = Start.usual()
    artwork: Annotated[Artwork, Label("Artwork", drawing="front")]
    sizing: Annotated[Sizing | None, Label("Sizes from a photograph")] = None
    package: Annotated[Package, Label("Package", drawing="front")]
    section: Annotated[Section, Label("Section", drawing="section")]
    known: Annotated[KnownSizes, Label("Known sizes", drawing="front")] = KnownSizes.usual()
    look: Annotated[Look, Label("Look")] = Look.usual()
    corner: Annotated[Corner, Label("Corners")] = Corner.usual()
    fitting: Annotated[Fitting, Label("Fitting")] = Fitting.usual()
    glue_from: Annotated[
        Clock | None, Label("Not before", "When it may be glued, such as 10:30. Blank: from the start.")
    ] = None
    hanging: Annotated[Hanging, Label("Hanging")] = Hanging.usual()
    hand_over: Annotated[HandOver, Label("Hand over")] = HandOver.usual()
    as_cut: Annotated[tuple[AsCut, ...], Label("As cut", arguments=("as_cut",))] = Field(
        default=(), max_length=MOST_MEASURED
    )
