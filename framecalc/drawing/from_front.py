"""A frame as it is seen from the front: the outlines that the front drawing and the client's pictures share."""

from framecalc.drawing.package.mat_from_front import WindowFromFront
from framecalc.drawing.ring import Size
from framecalc.records import Record
from framecalc.sizes.chain import Sizes
from framecalc.sizes.shape import Extent, Shape


class FrameFromFront(Record):
    """A frame from the front. Of a polygon the sizes are those across its flats."""

    sizes: Sizes
    windows: tuple[WindowFromFront, ...]
    fillet_mm: float

    @property
    def shape(self) -> Shape:
        """The shape of the frame."""
        return self.sizes.shape

    @property
    def extent(self) -> Extent:
        """The upright rectangle round the outside."""
        return self.shape.extent(*self.outside_mm)

    @property
    def outside_mm(self) -> Size:
        """The outside."""
        return self.sizes.outside_across_mm, self.sizes.outside_up_mm

    @property
    def sight_mm(self) -> Size:
        """The sight edge."""
        return self.sizes.sight_across_mm, self.sizes.sight_up_mm

    @property
    def seen_mm(self) -> Size:
        """What stays in view inside the lip and a fillet."""
        strips_mm = 2 * self.fillet_mm
        return self.sizes.sight_across_mm - strips_mm, self.sizes.sight_up_mm - strips_mm
