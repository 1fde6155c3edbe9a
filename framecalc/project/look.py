"""How a frame looks: its wood and finish, the colour of its mat, the photo of the artwork, the wall it hangs on.

A *mark* is a place in the photo, in its pixels from the upper left corner; four of them are the corners of the artwork.
"""

from enum import StrEnum
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.project.fields import Model, Size, printable
from framecalc.project.label import Label
from framecalc.project.numbers import Colour
from framecalc.units import parse_length
from framecalc.words import typed

LARGEST_PX = 4000
"""The longest side that a photo is kept at."""

Words = Annotated[
    str, AfterValidator(printable), StringConstraints(strip_whitespace=True, max_length=60), AfterValidator(typed)
]
Pixels = Annotated[int, Field(ge=0, le=LARGEST_PX)]
Side = Annotated[int, Field(ge=1, le=LARGEST_PX)]

USUAL_EYE_LINE = parse_length("1500 mm")
"""The height of the middle of a picture over the floor. Common practice, no source: 1450 to 1550 mm is usual."""


class Beside(StrEnum):
    """What a frame is shown with on its wall, to tell its size."""

    PERSON = "person"
    SOFA = "sofa"
    TABLE = "table"
    DOOR = "door"


class RoomLight(StrEnum):
    """By which light a frame is seen on its wall."""

    DAY = "day"
    EVENING = "evening"


class PhotoMark(Model):
    """A place in the photo."""

    across: Annotated[Pixels, Label("{within}, across")]
    down: Annotated[Pixels, Label("{within}, down")]


class Photo(Model):
    """A photo of the artwork, kept beside the project under its id, and where its four corners lie."""

    id: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{32}$"), Label("Photo", is_typed=False)]
    across: Annotated[Side, Label("Photo, across", is_typed=False)]
    up: Annotated[Side, Label("Photo, up", is_typed=False)]
    upper_left: Annotated[PhotoMark, Label("Upper left")]
    upper_right: Annotated[PhotoMark, Label("Upper right")]
    lower_right: Annotated[PhotoMark, Label("Lower right")]
    lower_left: Annotated[PhotoMark, Label("Lower left")]


class Look(Model):
    """How a frame looks to the client. Without a colour of its own the wood has that of its species."""

    finish: Annotated[Words, Label("Finish", "As the client should read it.")] = ""
    wood_colour: Annotated[
        Colour | Literal[""], Label("Colour of the wood", "Blank takes it from the wood's name; or #6e4b34.")
    ] = ""
    mat_name: Annotated[Words, Label("Name of the mat", "As the client should read it.")] = ""
    mat_colour: Annotated[Colour, Label("Colour of the mat")] = "#f7f2e6"
    photo: Annotated[Photo | None, Label("Photo")] = None
    on_wall: Annotated[bool, Label("Show it", choices=(("no", "Without a wall"), ("yes", "On a wall")))] = False
    beside: Annotated[
        Beside,
        Label(
            "With",
            choices=(
                (Beside.PERSON, "A person"),
                (Beside.SOFA, "A sofa"),
                (Beside.TABLE, "A table"),
                (Beside.DOOR, "A door"),
            ),
        ),
    ] = Beside.PERSON
    wall_colour: Annotated[Colour, Label("Colour of the wall")] = "#d9d5cb"
    light: Annotated[
        RoomLight, Label("Light", choices=((RoomLight.DAY, "Day"), (RoomLight.EVENING, "Evening, by a lamp")))
    ] = RoomLight.DAY
    eye_line: Annotated[
        Size,
        Label(
            "Eye line",
            "The height of the person's eyes over the floor; the middle of the frame hangs there.",
            inch="59",
        ),
    ] = USUAL_EYE_LINE
