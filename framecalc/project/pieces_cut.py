"""Pieces that are cut: each with its stick, where it lay on it, and how long it was cut; they stay as they are."""

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from framecalc.project.fields import Count, Id, Model, Name, Note, Part, Place, Run
from framecalc.project.label import Label

MOST_CUT = 2000
"""Pieces cut that a job keeps: as many as one cutting plan has at most."""

Number = Annotated[int, Field(ge=1, le=9999)]
"""The number of a stick, or of a strip of a board."""


class PieceCut(Model):
    """A piece that was cut: of which frame and copy, which side, how long, and from what.

    `part`: of the members, of a loose ledge or of a strip glued on. `stock` is the id of the entry of the stock,
    `stick` and `number` what is chalked on the stick, `stick_length` how long it was; `strips` are those that a board
    was ripped into. `width` and `thickness` are of the member, `corners` how many sides its frame had; blank is as many
    as now. `asked` names the cutting plans that it was ticked under. `spoiled`: it is cut again. `away`: the cut under
    which what was left of its stick went to the rack.
    """

    id: Id
    frame: Annotated[Id, Label("Frame", is_typed=False)]
    name: Annotated[Name, Label("Chalked", is_typed=False)]
    part: Annotated[Literal["member", "ledge", "strip"], Label("Part", is_typed=False)] = "member"
    copy_number: Annotated[Count, Label("Copy", is_typed=False)] = 1
    side: Annotated[
        str,
        StringConstraints(pattern=r"^(top|right|bottom|left|test|[1-9][0-9]?)$"),
        Label("Side", is_typed=False),
    ]
    purpose: Annotated[Literal["member", "spare", "test piece"], Label("Cut for", is_typed=False)] = "member"
    length: Annotated[Place, Label("Long point", is_typed=False)]
    start: Annotated[Place, Label("From the left end", is_typed=False)]
    stock: Annotated[Note, Label("Stock", is_typed=False)] = ""
    stick: Annotated[Name, Label("Stick", is_typed=False)]
    number: Annotated[Number, Label("Number", is_typed=False)] = 1
    strip: Annotated[Number, Label("Strip", is_typed=False)] = 1
    strips: Annotated[tuple[Number, ...], Label("Strips", is_typed=False)] = Field(default=(1,), max_length=100)
    stick_length: Annotated[Run, Label("Stick, length", is_typed=False)]
    width: Annotated[Part, Label("Width", is_typed=False)]
    thickness: Annotated[Part, Label("Thickness", is_typed=False)]
    corners: Annotated[Number | None, Label("Sides of its frame", is_typed=False)] = None
    asked: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{16}$"), Label("Plan", is_typed=False)]
    trimmed: Annotated[Place | None, Label("Trimmed to", is_typed=False)] = None
    spoiled: Annotated[bool, Label("Spoiled", is_typed=False)] = False
    away: Annotated[Note, Label("Marked as cut", is_typed=False)] = ""

    @property
    def length_now_mm(self) -> float:
        """How long it is now."""
        return (self.trimmed or self.length).mm
