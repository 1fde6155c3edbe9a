"""The artwork as measured by tape."""

from typing import Annotated

from framecalc.artwork.measuring import ArtworkKind
from framecalc.project.fields import Model, Place, Size
from framecalc.project.label import Label


class Artwork(Model):
    """The artwork as measured by tape: across at the top and at the bottom, up at the left and at the right, diagonals.

    `rising` runs from the lower left to the upper right. A missing size equals its opposite.
    """

    kind: Annotated[
        ArtworkKind, Label("Kind", "What it is decides how much room it usually gets, and what may touch it.")
    ] = ArtworkKind.PAPER
    across: Annotated[
        Size,
        Label(
            "Across",
            "Measure the piece itself, edge to edge, along its top.",
            arguments=("artwork_across_mm",),
            figure="artwork_across",
        ),
    ]
    across_bottom: Annotated[
        Size | None,
        Label(
            "Across, bottom",
            "Measure along the bottom too: paper and stretchers are seldom as wide below as above.",
            arguments=("across_bottom_mm",),
        ),
    ] = None
    up: Annotated[
        Size,
        Label(
            "Up",
            "Measure the piece from bottom to top along its left edge.",
            arguments=("artwork_up_mm",),
            figure="artwork_up",
        ),
    ]
    up_right: Annotated[
        Size | None, Label("Up, right", "Measure along the right edge too.", arguments=("up_right_mm",))
    ] = None
    diagonal_rising: Annotated[
        Size | None,
        Label(
            "Diagonal, rising",
            "From the lower left corner to the upper right. Equal diagonals alone do not prove a rectangle.",
            arguments=("diagonal_rising_mm",),
        ),
    ] = None
    diagonal_falling: Annotated[
        Size | None,
        Label(
            "Diagonal, falling", "From the upper left corner to the lower right.", arguments=("diagonal_falling_mm",)
        ),
    ] = None

    image_across: Annotated[
        Size | None,
        Label(
            "Image, across",
            "What of the sheet is to be seen: the image, the plate mark, the signature. Blank: all of the sheet.",
            drawing="front",
            arguments=("image_across_mm",),
        ),
    ] = None
    image_up: Annotated[
        Size | None,
        Label("Image, up", "How high the image is.", arguments=("image_up_mm",)),
    ] = None
    image_left: Annotated[
        Place | None,
        Label(
            "Image, from the left",
            "From the left edge of the sheet to the image. Blank: in the middle.",
            arguments=("image_left_mm",),
        ),
    ] = None
    image_below: Annotated[
        Place | None,
        Label(
            "Image, from below",
            "From the lower edge of the sheet to the image. Blank: in the middle.",
            arguments=("image_below_mm",),
        ),
    ] = None
