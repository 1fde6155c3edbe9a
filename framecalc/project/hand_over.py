"""From the client's hands and back to them, as typed: how a piece came in, its label on the back, its box.

A *mark* is a place on the piece where something is to be seen: a tear, a stain. It counts from the upper left corner of
the piece, so that it stays where it is whatever photo is taken.
"""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.project.fields import Id, Model, Note, Part, Place, Size, Slack, printable
from framecalc.project.label import Label
from framecalc.project.numbers import Day
from framecalc.units import parse_length
from framecalc.words import typed

MOST_MARKS = 24

Line = Annotated[
    str, AfterValidator(printable), StringConstraints(strip_whitespace=True, max_length=120), AfterValidator(typed)
]
Lines = Annotated[tuple[Line, ...], Field(max_length=12)]


class ConditionMark(Model):
    """A place on the piece, and what is to be seen there."""

    id: Id
    across: Annotated[Place, Label("From the left")]
    down: Annotated[Place, Label("From the top")]
    says: Annotated[Line, Label("What is there")] = ""


class Intake(Model):
    """How a piece came in. Nothing here changes a size; the value is the owner's word."""

    piece: Annotated[Line, Label("What it is", "Title, maker, technique, as the owner says it.")] = ""
    owner: Annotated[Line, Label("Owner", "Blank: the client of the job.")] = ""
    value: Annotated[
        Line, Label("Declared value", "As the owner says it, with its currency. It is written down, not judged.")
    ] = ""
    number: Annotated[Line, Label("Receipt number", "Blank: the day and the frame.")] = ""
    day: Annotated[Day | None, Label("Received on")] = None
    stands: Annotated[Line, Label("Kept at", "Flat file 2, rack B, back wall.")] = ""
    condition: Annotated[Note, Label("Condition", "What anybody can see: tears, stains, foxing, loose paint.")] = ""
    marks: Annotated[tuple[ConditionMark, ...], Label("Marks on the piece")] = Field(default=(), max_length=MOST_MARKS)


class BackLabel(Model):
    """The label on the back. What the frame is made of follows from its plan."""

    made_by: Annotated[Line, Label("Made by", "Blank: the name of the shop.")] = ""
    made_on: Annotated[Day | None, Label("Made on", "Blank: no day on the label.")] = None
    care: Annotated[Line, Label("Care", "Blank: as usual for this glazing.")] = ""
    dedication: Annotated[
        Note, Label("Dedication", "On the label alone. The client's page never shows it, so it can be a surprise.")
    ] = ""
    across: Annotated[Size, Label("Label, across", inch="3 1/2", arguments=("label_across_mm",))] = parse_length(
        "90 mm"
    )
    up: Annotated[Size, Label("Label, up", inch="2 1/4", arguments=("label_up_mm",))] = parse_length("60 mm")


class Packing(Model):
    """How the frame is packed."""

    block: Annotated[
        Slack,
        Label(
            "Corner blocks",
            "Foam or card on every corner, this thick on all sides.",
            inch="1 1/2",
            arguments=("packing.block",),
        ),
    ] = parse_length("40 mm")
    wall: Annotated[Slack, Label("Box, thickness", "Double-wall card is usual.", inch="1/4")] = parse_length("7 mm")
    per_box: Annotated[
        Annotated[int, Field(ge=1, le=12)],
        Label("Frames in a box", "Face to face and back to back.", arguments=("packing.per_box",)),
    ] = 1
    between: Annotated[Part, Label("Between two frames", inch="1/2")] = parse_length("10 mm")
    gilded: Annotated[Literal["no", "yes"], Label("Gilded or painted face", choices=(("no", "No"), ("yes", "Yes")))] = (
        "no"
    )


class HandOver(Model):
    """All of it for one frame. `last` is what was written down when the same was made before."""

    intake: Annotated[Intake, Label("Received")] = Intake.usual()
    label: Annotated[BackLabel, Label("Label")] = BackLabel.usual()
    packing: Annotated[Packing, Label("Packing")] = Packing.usual()
    said: Annotated[Note, Label("What the client said", "For the next time. Nobody else sees it.")] = ""
    last: Annotated[Lines, Label("The last time", is_typed=False)] = ()
