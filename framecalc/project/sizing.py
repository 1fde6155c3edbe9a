"""A photo of the artwork beside a sheet of known size, as marked: its sizes come out of it.

A *mark* is a place in the photo, in its pixels from the upper left corner, and a part of a pixel. It is *found* where
the program has followed the edges to it; a mark that is put elsewhere since then is by hand again.
"""

from decimal import Decimal
from typing import Annotated

from pydantic import Field, StringConstraints

from framecalc.artwork.photo_sheet import PhotoSheet
from framecalc.project.fields import Clearance, Model, Size
from framecalc.project.label import Label
from framecalc.project.look import LARGEST_PX, Side
from framecalc.project.numbers import between
from framecalc.units import parse_length

InPhoto = Annotated[Decimal, *between("0", str(LARGEST_PX), "", "number of pixels")]


class SizingMark(Model):
    """A mark; blank until it is put."""

    across: Annotated[InPhoto | None, Label("{within}, across")] = None
    down: Annotated[InPhoto | None, Label("{within}, down")] = None
    found_across: Annotated[InPhoto | None, Label("Found, across", is_typed=False)] = None
    found_down: Annotated[InPhoto | None, Label("Found, down", is_typed=False)] = None

    @property
    def place(self) -> tuple[float, float] | None:
        """Where it is; none until it is put."""
        return None if self.across is None or self.down is None else (float(self.across), float(self.down))

    @property
    def is_found(self) -> bool:
        """Whether it stands where the edges cross."""
        return self.place is not None and (self.across, self.down) == (self.found_across, self.found_down)


class SizingMarks(Model):
    """The marks on four corners, with the clock."""

    upper_left: Annotated[SizingMark, Label("Artwork, upper left"), Label("Sheet, upper left", case="sheet")] = (
        SizingMark()
    )
    upper_right: Annotated[SizingMark, Label("Artwork, upper right"), Label("Sheet, upper right", case="sheet")] = (
        SizingMark()
    )
    lower_right: Annotated[SizingMark, Label("Artwork, lower right"), Label("Sheet, lower right", case="sheet")] = (
        SizingMark()
    )
    lower_left: Annotated[SizingMark, Label("Artwork, lower left"), Label("Sheet, lower left", case="sheet")] = (
        SizingMark()
    )

    @property
    def four(self) -> tuple[SizingMark, SizingMark, SizingMark, SizingMark]:
        """The marks, with the clock."""
        return self.upper_left, self.upper_right, self.lower_right, self.lower_left


class Sizing(Model):
    """The photo, kept beside the project under its id, its sheet, and the marks in it."""

    id: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{32}$"), Label("Photo with a sheet", is_typed=False)]
    across: Annotated[Side, Label("Photo with a sheet, across", is_typed=False)]
    up: Annotated[Side, Label("Photo with a sheet, up", is_typed=False)]
    lens: Annotated[int, Field(ge=0, le=2000), Label("Lens, in 35 mm terms", is_typed=False)] = 0
    kind: Annotated[
        PhotoSheet,
        Label(
            "Sheet in the photo",
            arguments=("sheet_kind",),
            choices=(
                (PhotoSheet.A4, "A4, 210 × 297 mm"),
                (PhotoSheet.LETTER, "Letter, 8 1/2 × 11 in"),
                (PhotoSheet.PRINTED, "The printed sheet, black frame"),
            ),
        ),
    ] = PhotoSheet.A4
    short: Annotated[
        Size | None,
        Label("Sheet, short side", "Measure it: paper may be 2 mm off.", arguments=("sheet_short_mm",)),
    ] = None
    long: Annotated[
        Size | None, Label("Sheet, long side", "Measure it: paper may be 2 mm off.", arguments=("sheet_long_mm",))
    ] = None
    away: Annotated[
        Clearance,
        Label(
            "Artwork in front of the sheet",
            "How far its edges stand out before the sheet. 0: both lie in one plane.",
            inch="0",
            arguments=("sheet_away_mm",),
        ),
    ] = parse_length("0 mm")
    sheet: Annotated[SizingMarks, Label("Sheet", arguments=("sheet_corners",))] = SizingMarks.usual()
    artwork: Annotated[SizingMarks, Label("Artwork", arguments=("artwork_corners",))] = SizingMarks.usual()
