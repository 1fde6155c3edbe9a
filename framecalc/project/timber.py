"""The timber as typed: sticks and boards on hand or for sale, and the wishes for cutting them."""

from collections.abc import Mapping
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints, model_validator

from framecalc.project.fields import Count, Id, Model, Name, Note, Part, Place, Run, Size, Slack, Trim, printable
from framecalc.project.label import Label
from framecalc.project.numbers import Number
from framecalc.project.pieces_cut import MOST_CUT, PieceCut
from framecalc.project.price import BLANK_PRICE
from framecalc.timber.boards import PricedBy
from framecalc.timber.sticks.problem import Grain
from framecalc.units import parse_length

Few = Annotated[int, Field(ge=0, le=20)]
"""How many extra pieces; none, usually."""

MOST_TICKS = 3000
"""Ticks that a file keeps: of every list, of the bench and of shopping, and of plans that no longer exist. Four members
of sixty frames are 240 lines in one list alone."""


class Defect(Model):
    """A stretch to avoid, measured from the left end."""

    id: Id
    start: Annotated[Place, Label("Avoid, from", "From the left end.")]
    end: Annotated[Place, Label("To")]


class Stock(Model):
    """Sticks or boards alike. A width makes it a board, to be ripped into strips; without one it is a milled stick.

    `species` blank serves every wood. A stick serves the members of its `member_width` and `thickness`; blank: any. A
    board's `thickness`, `bow` and `twist` are of the rough board; a missing thickness means that it is thick enough.
    `on_rack`: it was taken over from the shop's rack, where `name` is its tag. `profile`: what it was milled to there.
    """

    id: Id
    name: Annotated[Name, Label("What it is")]
    species: Annotated[Note, Label("Wood", "Blank: it serves any wood.")] = ""
    length: Annotated[Run, Label("Length")]
    width: Annotated[Size | None, Label("Width", "Where it is narrowest.", is_required=True)] = None
    moulding: Annotated[
        Note, Label("Bought moulding", "Its name as on Setting-out. Blank: wood that is milled here.")
    ] = ""
    member_width: Annotated[Part | None, Label("Width", "Blank: it serves members of any width.")] = None
    thickness: Annotated[
        Part | None,
        Label("Thickness", "Blank: it serves members of any thickness."),
        Label(
            "Rough thickness",
            "Blank: thick enough. 4/4 is 1 in (25.4 mm), 5/4 is 1 1/4 in (31.75 mm), as sawn.",
            case="board",
        ),
    ] = None
    count: Annotated[Count | None, Label("How many", "Blank: as many as needed.")] = None
    price: Annotated[
        Number | None,
        Label("Price of one", BLANK_PRICE),
        Label("Price", BLANK_PRICE, case="board"),
    ] = None
    priced_by: Annotated[PricedBy, Label("Price per")] = PricedBy.PIECE
    in_hand: Annotated[bool, Label("Where it is", choices=(("no", "For sale"), ("yes", "At hand")))] = False
    on_rack: Annotated[bool, Label("Taken over from the rack", is_typed=False)] = False
    profile: Annotated[Note, Label("Rabbet or profile", is_typed=False)] = ""
    bow: Annotated[Slack, Label("Bow", "The rise in its middle, laid hollow side down, over the whole length.")] = (
        parse_length("0 mm")
    )
    twist: Annotated[Slack, Label("Twist", "How far the fourth corner lifts while three lie.")] = parse_length("0 mm")
    defects: Annotated[tuple[Defect, ...], Label("Stretches to avoid")] = Field(default=(), max_length=20)

    @classmethod
    def case_of(cls, document: Mapping[str, object]) -> str:
        """A board has a width."""
        return "" if document.get("width") is None else "board"

    @model_validator(mode="before")
    @classmethod
    def _list_the_one_defect(cls, value: object) -> object:
        """Older files hold one defect, as two places."""
        if not isinstance(value, dict) or not {"defect_from", "defect_to"} & value.keys():
            return value
        start, end = value.get("defect_from"), value.get("defect_to")
        rest = {name: part for name, part in value.items() if name not in ("defect_from", "defect_to")}
        if start is None or end is None:
            return rest
        return rest | {"defects": [{"id": "d1", "start": start, "end": end}, *rest.get("defects", ())]}


class Timber(Model):
    """The stock, and the wishes about grain, spares, milling and off-cuts.

    `corner` is where the grain breaks when it runs round a frame. `part_trim` is the waste on both sides of a crosscut
    before milling. `done` lists the ticked lines, `cut` the pieces among them, with their sticks. `as_cut`: long points
    are planned as they follow from what came out.
    """

    stock: Annotated[tuple[Stock, ...], Label("Sticks and boards")] = Field(default=(), max_length=60)
    grain: Annotated[
        Grain,
        Label("Grain", "Sides in order from one stick let the figure run round the frame; it costs some wood."),
    ] = Grain.FREE
    corner: Annotated[
        Literal["bottom-left", "top-left", "top-right", "bottom-right"],
        Label("The grain breaks at", "As seen from the front. Bottom is seen least."),
    ] = "bottom-left"
    turned: Annotated[
        bool,
        Label(
            "Turn every other piece over",
            "Nested mitres save the member's width at each joint. Only while the stick has no rabbet and no profile"
            " yet; the grain then runs to and fro.",
        ),
    ] = False
    milled: Annotated[bool, Label("The sticks have their rabbet or profile already")] = False
    spares: Annotated[Few, Label("Spare sides of each length", "Cut with the others, for the one that splits.")] = 0
    tests: Annotated[Few, Label("Pieces for test cuts")] = 0
    test_length: Annotated[Run, Label("A test piece is", "Long edge. Two of them make a test joint.", inch="10")] = (
        parse_length("250 mm")
    )
    shortest_useful: Annotated[Run, Label("Shortest useful off-cut", "Shorter ones are not kept.", inch="12")] = (
        parse_length("300 mm")
    )
    edge: Annotated[
        Slack,
        Label("Edge waste, each side", "On each side, before the first strip: wane or sapwood.", inch="3/16"),
    ] = parse_length("5 mm")
    width_allowance: Annotated[
        Slack, Label("Jointing allowance", "Than the member, for jointing its edges.", inch="1/8")
    ] = parse_length("3 mm")
    thickness_allowance: Annotated[
        Slack,
        Label(
            "Planing allowance",
            "Than the member. It counts where a board's thickness is not typed.",
            inch="1/8",
        ),
    ] = parse_length("3 mm")
    clean_up: Annotated[
        Slack,
        Label(
            "Clean-up takes",
            "Of both faces together, beside bow and twist, until the saw marks are gone. 1.5 mm (1/16 in) is usual.",
            inch="1/16",
        ),
    ] = parse_length("1.5 mm")
    sanding: Annotated[
        Slack, Label("Left for sanding", "The planer stops this much above the member's thickness.", inch="1/64")
    ] = parse_length("0.3 mm")
    part_trim: Annotated[
        Trim,
        Label(
            "Snipe and squaring",
            "What each end of a part loses, on both sides of the cut, where a bowed board is crosscut first."
            " 25 mm (1 in) is usual; a planer may snipe 50 to 150 mm (2 to 6 in) of each end, by less than is sanded"
            " away.",
            inch="1",
        ),
    ] = parse_length("25 mm")
    planer_pass: Annotated[
        Part, Label("Depth per pass", "The deepest pass of your planer in this wood.", inch="1/16")
    ] = parse_length("1.5 mm")
    shortest_machined: Annotated[
        Run,
        Label(
            "Shortest safe length",
            "In planer and jointer: the machine's own figure, from its manual. 300 mm (12 in) is usual.",
            inch="12",
        ),
    ] = parse_length("300 mm")
    done: Annotated[
        tuple[Annotated[str, AfterValidator(printable), StringConstraints(max_length=80)], ...], Label("Ticked off")
    ] = Field(default=(), max_length=MOST_TICKS)
    cut: Annotated[tuple[PieceCut, ...], Label("Pieces cut")] = Field(default=(), max_length=MOST_CUT)
    as_cut: Annotated[bool, Label("Planned by what came out", is_typed=False)] = False
