"""The shape of a frame as typed: how many sides it has, the measure of a polygon, and the slope of its sides."""

from decimal import Decimal
from typing import Annotated

from pydantic import Field

from framecalc.project.fields import Model, Size
from framecalc.project.label import Label
from framecalc.project.numbers import Angle
from framecalc.sizes.polygons import FEWEST_SIDES, MOST_SIDES, PolygonMeasurement
from framecalc.sizes.shape import RECTANGLE_SIDES


class FrameShape(Model):
    """The shape of a frame. The measure of a polygon takes the place of the artwork's sizes across and up."""

    sides: Annotated[
        int,
        Field(ge=FEWEST_SIDES, le=MOST_SIDES),
        Label("Sides", "4 is a rectangle, 8 an octagon; 3 to 24.", arguments=("sides",)),
    ] = len(RECTANGLE_SIDES)
    given: Annotated[
        PolygonMeasurement,
        Label(
            "Measured by",
            "Across the flats is from one side to the opposite one, or a disc's diameter.",
        ),
    ] = PolygonMeasurement.PACKAGE_FLATS
    size: Annotated[
        Size | None,
        Label("Its measure", "All sides of the package are taken to be alike.", arguments=("polygon_flats",)),
    ] = None
    slope: Annotated[
        Angle,
        Label(
            "Slope of the sides, degrees",
            "0 lies flat on the wall, 90 stands up as a box does. Widths are measured in the face.",
            arguments=("slope_deg",),
        ),
    ] = Decimal(0)
