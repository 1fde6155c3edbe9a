"""The wall of a job as typed: its size, what it is made of, what stands before it, and how the frames stand on it.

A *thing* is what is on the wall or before it. A *piece* is one copy of a frame; its id is that of the frame and its
number: `k3f1`. A piece with a place of its own hangs there; the others stand in their arrangement.
"""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.hanging.groups import Arrangement, Spacing, WallLine
from framecalc.hanging.hangers import USUAL_FACTOR
from framecalc.hanging.things import ThingKind
from framecalc.hanging.wall import WallKind
from framecalc.project.fields import FromEdge, Id, Model, Name, Place, Run, Size, printable
from framecalc.project.hanging import Factor
from framecalc.project.label import Label, named
from framecalc.project.package import Mass
from framecalc.units import parse_length

MOST_THINGS, MOST_PIECES = 24, 200

PieceId = Annotated[str, StringConstraints(pattern=r"^[a-z0-9]{3,20}$"), Label("Id", is_typed=False)]
PieceKey = Annotated[str, AfterValidator(printable), StringConstraints(max_length=20)]
Columns = Annotated[int, Field(ge=1, le=30)]


class WallThing(Model):
    """Something on the wall or before it: the rectangle that it takes of the wall."""

    id: Id
    kind: Annotated[ThingKind, Label("What", choices=named(ThingKind))] = ThingKind.OTHER
    name: Annotated[Name, Label("Called")]
    left: Annotated[Place, Label("From the left corner")]
    low: Annotated[Place, Label("From the floor")]
    across: Annotated[Size, Label("Across")]
    up: Annotated[Size, Label("Up")]


class PiecePlace(Model):
    """Where one piece hangs by itself: its middle."""

    id: PieceId
    across: Annotated[Place, Label("Middle, from the left corner")]
    up: Annotated[Place, Label("Middle, from the floor")]


class Wall(Model):
    """The wall and the group on it. Without a size of its own it is as wide as the group needs."""

    across: Annotated[Run | None, Label("Wall, across", "Blank: no wall is measured yet.")] = None
    up: Annotated[Run | None, Label("Wall, up", "From the floor to the ceiling.")] = None
    kind: Annotated[
        WallKind | Literal[""],
        Label(
            "The wall is",
            blank="Not known",
            choices=(
                (WallKind.STUD.value, "Stud, or blocking behind"),
                (WallKind.BOARD.value, "Board on studs, hollow"),
                (WallKind.PLASTER.value, "Old plaster"),
                (WallKind.MASONRY.value, "Brick or block"),
                (WallKind.CONCRETE.value, "Concrete"),
                (WallKind.TIMBER.value, "Timber"),
            ),
        ),
    ] = ""
    anchor: Annotated[
        Mass | None,
        Label("One fixing holds", "From its packet, for this wall.", arguments=("wall.anchor",)),
    ] = None
    factor: Annotated[
        Factor, Label("Safety factor of the fixing", "What it is rated for over what it carries. 4 is usual.")
    ] = Decimal(USUAL_FACTOR)
    is_damp: Annotated[bool, Label("Damp room or outer wall")] = False
    is_walkway: Annotated[
        bool, Label("People walk along it", "A corridor or a stair.", arguments=("wall.is_walkway",))
    ] = False
    has_children: Annotated[bool, Label("Children reach it")] = False
    line: Annotated[
        Size | None, Label("Line, over the floor", "Blank: the eye line of the Look page.", arguments=("wall.line",))
    ] = None
    on_line: Annotated[
        WallLine,
        Label(
            "Lined up by",
            choices=(
                (WallLine.CENTRE.value, "Middles"),
                (WallLine.TOP.value, "Top edges"),
                (WallLine.BOTTOM.value, "Lower edges"),
            ),
        ),
    ] = WallLine.CENTRE
    arrangement: Annotated[
        Arrangement,
        Label(
            "They hang as",
            choices=(
                (Arrangement.ROW.value, "A row"),
                (Arrangement.COLUMN.value, "A column"),
                (Arrangement.GRID.value, "A grid"),
                (Arrangement.STAIR.value, "A row up a stair"),
                (Arrangement.FREE.value, "Free: each in its place"),
            ),
            arguments=("wall.arrangement",),
        ),
    ] = Arrangement.ROW
    spacing: Annotated[
        Spacing,
        Label("Spaced by", choices=((Spacing.GAPS.value, "Gaps"), (Spacing.CENTRES.value, "Centre to centre"))),
    ] = Spacing.GAPS
    gap: Annotated[Place, Label("Gap", "75 to 100 mm (3 to 4 in) is usual.", inch="3")] = parse_length("75 mm")
    columns: Annotated[Columns, Label("Columns of the grid")] = 2
    stair_rise: Annotated[FromEdge | None, Label("Stair, rise of a step")] = None
    stair_going: Annotated[Size, Label("Stair, going of a step", inch="10")] = parse_length("250 mm")
    stair_falls: Annotated[bool, Label("The stair", choices=(("no", "Rises to the right"), ("yes", "Falls")))] = False
    middle: Annotated[
        Place | None,
        Label(
            "Middle of the group", "From the left corner. Blank: the middle of the wall.", arguments=("wall.middle",)
        ),
    ] = None
    level: Annotated[
        Place | None, Label("Level line, over the floor", "Nails are measured from it too. Blank: the line above.")
    ] = None
    from_right: Annotated[
        bool, Label("Nails from", choices=(("no", "The left corner"), ("yes", "The right corner")))
    ] = False
    things: Annotated[tuple[WallThing, ...], Label("On the wall", arguments=("wall.things",))] = Field(
        default=(), max_length=MOST_THINGS
    )
    places: Annotated[tuple[PiecePlace, ...], Label("Places of their own")] = Field(default=(), max_length=MOST_PIECES)
    order: Annotated[tuple[PieceKey, ...], Label("Order on the wall", is_typed=False)] = Field(
        default=(), max_length=MOST_PIECES
    )
