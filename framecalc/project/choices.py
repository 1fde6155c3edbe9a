"""Other ways that a job may be made, for its client to choose from: what differs from the job as it stands.

A blank field is as in the job, so a later change of the job goes into its choices too. What a choice costs more or
less is typed, as prices of a job are those of its own materials.
"""

from decimal import Decimal
from typing import Annotated, Literal

from framecalc.project.fields import Id, Model, Name, Part
from framecalc.project.label import Label
from framecalc.project.look import Words
from framecalc.project.numbers import Colour, Number
from framecalc.section.profile import FaceShape

MOST_CHOICES = 3
"""Beside the job as it stands: four pictures stand side by side."""

_FACES = (
    (FaceShape.FLAT.value, "Flat"),
    (FaceShape.TOWARD.value, "Falling toward the picture"),
    (FaceShape.AWAY.value, "Falling away from the picture"),
)


class Choice(Model):
    """One other way: its name, what differs, and what that costs more or less."""

    id: Id
    name: Annotated[Name, Label("Called", "Clients read it beside its picture.")]
    species: Annotated[Words, Label("Wood", "Blank: as in the job.")] = ""
    finish: Annotated[Words, Label("Finish")] = ""
    wood_colour: Annotated[
        Colour | Literal[""], Label("Colour of the wood", "Blank takes it from the wood's name.")
    ] = ""
    face: Annotated[
        Literal[FaceShape.FLAT, FaceShape.TOWARD, FaceShape.AWAY, ""],
        Label("Face", blank="As in the job", choices=_FACES),
    ] = ""
    face_width: Annotated[Part | None, Label("Face width")] = None
    mat: Annotated[
        Literal["with", "without", ""],
        Label("Mat", blank="As in the job", choices=(("with", "With a mat"), ("without", "Without"))),
    ] = ""
    mat_name: Annotated[Words, Label("Name of the mat")] = ""
    mat_colour: Annotated[Colour | Literal[""], Label("Colour of the mat", "Blank: as in the job; or #f7f2e6.")] = ""
    glazing: Annotated[Words, Label("Glazing")] = ""
    costs: Annotated[Literal["more", "less"], Label("It costs", choices=(("more", "More"), ("less", "Less")))] = "more"
    more: Annotated[Number, Label("More or less by", "For the whole job, before margin and tax.")] = Decimal(0)
