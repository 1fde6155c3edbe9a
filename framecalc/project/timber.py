"""The timber as typed: sticks and boards at hand or for sale, and how the pieces are to be taken from them."""

from decimal import Decimal
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field, StringConstraints, model_validator

from framecalc.project.fields import Count, Id, Model, Name, Note, Part, Place, Run, Size, Slack, Trim, printable
from framecalc.project.numbers import Number
from framecalc.timber.boards import PricedBy
from framecalc.timber.sticks.problem import Grain
from framecalc.units import parse_length

Few = Annotated[int, Field(ge=0, le=20)]
"""How many extra pieces; none, usually."""


class Defect(Model):
    """A stretch to avoid, measured from the left end."""

    id: Id
    start: Place
    end: Place


class Stock(Model):
    """Sticks or boards alike. A width makes it a board, to be ripped into strips; without one it is a milled stick.

    `species` blank serves every wood. A stick serves the members of its `member_width` and `thickness`; blank: any. A
    board's `thickness`, `bow` and `twist` are of the rough board; a thickness left out means that it is thick enough.
    `on_rack`: it was taken over from the shop's rack, where `name` is its tag.
    """

    id: Id
    name: Name
    species: Note = ""
    length: Run
    width: Size | None = None
    member_width: Part | None = None
    thickness: Part | None = None
    count: Count | None = None
    price: Number = Decimal(0)
    priced_by: PricedBy = PricedBy.PIECE
    in_hand: bool = False
    on_rack: bool = False
    bow: Slack = parse_length("0 mm")
    twist: Slack = parse_length("0 mm")
    defects: tuple[Defect, ...] = Field(default=(), max_length=20)

    @model_validator(mode="before")
    @classmethod
    def _list_the_one_defect(cls, value: Any) -> Any:
        """Older files hold one defect, as two places."""
        if not isinstance(value, dict) or not {"defect_from", "defect_to"} & value.keys():
            return value
        start, end = value.get("defect_from"), value.get("defect_to")
        rest = {name: part for name, part in value.items() if name not in ("defect_from", "defect_to")}
        if start is None or end is None:
            return rest
        return rest | {"defects": [{"id": "d1", "start": start, "end": end}, *rest.get("defects", ())]}


class Timber(Model):
    """What is in the rack and in the yard, and the wishes about grain, spares, milling and off-cuts.

    `corner` is where the grain breaks when it runs round a frame. `part_trim` is lost on both sides of a crosscut that
    is made before the board is milled. `done` lists what was ticked off.
    """

    stock: tuple[Stock, ...] = Field(default=(), max_length=60)
    grain: Grain = Grain.FREE
    corner: Literal["bottom-left", "top-left", "top-right", "bottom-right"] = "bottom-left"
    turned: bool = False
    milled: bool = False
    spares: Few = 0
    tests: Few = 0
    test_length: Run = parse_length("250 mm")
    shortest_useful: Run = parse_length("300 mm")
    edge: Slack = parse_length("5 mm")
    width_allowance: Slack = parse_length("3 mm")
    thickness_allowance: Slack = parse_length("3 mm")
    clean_up: Slack = parse_length("1.5 mm")
    sanding: Slack = parse_length("0.3 mm")
    part_trim: Trim = parse_length("25 mm")
    planer_pass: Part = parse_length("1.5 mm")
    shortest_machined: Run = parse_length("300 mm")
    done: tuple[Annotated[str, AfterValidator(printable), StringConstraints(max_length=80)], ...] = Field(
        default=(), max_length=500
    )
