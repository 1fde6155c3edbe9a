"""How a frame looks: its wood and finish, the colour of its mat, the photo of the artwork, the wall it hangs on.

A *mark* is a place in the photo, in its pixels from the upper left corner; four of them are the corners of the artwork.
"""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.project.fields import Model, Size, printable
from framecalc.project.numbers import Colour
from framecalc.units import parse_length

LARGEST_PX = 4000
"""The longest side that a photo is kept at."""

Words = Annotated[str, AfterValidator(printable), StringConstraints(strip_whitespace=True, max_length=60)]
Pixels = Annotated[int, Field(ge=0, le=LARGEST_PX)]
Side = Annotated[int, Field(ge=1, le=LARGEST_PX)]

USUAL_EYE_LINE = parse_length("1500 mm")
"""The height of the middle of a picture over the floor. Common practice, no source: 1450 to 1550 mm is usual."""


class PhotoMark(Model):
    """A place in the photo."""

    across: Pixels
    down: Pixels


class Photo(Model):
    """A photo of the artwork, kept beside the project under its id, and where its four corners lie."""

    id: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{32}$")]
    across: Side
    up: Side
    upper_left: PhotoMark
    upper_right: PhotoMark
    lower_right: PhotoMark
    lower_left: PhotoMark


class Look(Model):
    """How a frame looks to the client. Without a colour of its own the wood has that of its species."""

    finish: Words = ""
    wood_colour: Colour | Literal[""] = ""
    mat_name: Words = ""
    mat_colour: Colour = "#f7f2e6"
    photo: Photo | None = None
    on_wall: bool = False
    wall_colour: Colour = "#d9d5cb"
    eye_line: Size = USUAL_EYE_LINE
