"""The frames of a job as they stand side by side: each a small front, all at one scale, all on one line.

Every front is drawn on a sheet of one height, at its foot; shown at one height they are true to each other.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import inf

from framecalc.drawing.package.mat_from_front import windows_from_front
from framecalc.drawing.pen import Pen
from framecalc.drawing.record import KEPT
from framecalc.drawing.ring import Size, mitres, ring
from framecalc.drawing.sheet import View
from framecalc.drawing.style import Role
from framecalc.geometry.outline import Point
from framecalc.look.tones import wood_tone
from framecalc.plan import FramePlan
from framecalc.records import Record
from framecalc.sizes.shape import Extent, Shape

UP_MM = 45.0
"""How high the sheets are: a hand's breadth of a screen."""

WIDEST_RATIO = 1.6
"""How much wider than high the widest front may be."""

LINE_MM = 0.5
"""Room for half a line at each edge of a sheet, and a little more."""


class SmallFront(Record):
    """What a small front shows of a frame, measured from its middle: the mat's windows, or the picture in view."""

    name: str
    title: str
    shape: Shape
    outside_mm: Size
    sight_mm: Size
    views: tuple[tuple[Point, Size], ...]
    tone: str
    mat_colour: str

    @property
    def extent(self) -> Extent:
        """The upright rectangle round the outside."""
        return self.shape.extent(*self.outside_mm)


def read_small_front(plan: FramePlan) -> SmallFront:
    """Read the small front of a frame from its plan.

    Raises:
        FrameCalcError: the frame cannot be computed.
    """
    sizes, across, up = plan.sizes, plan.figures["outside_across"], plan.figures["outside_up"]
    return SmallFront(
        name=f"small-{plan.frame.id}",
        title=f"{plan.frame.name}: {across.text} × {up.text} {across.written.unit} outside",
        shape=sizes.shape,
        outside_mm=(sizes.outside_across_mm, sizes.outside_up_mm),
        sight_mm=(sizes.sight_across_mm, sizes.sight_up_mm),
        views=tuple((one.middle_mm, (one.across_mm, one.up_mm)) for one in windows_from_front(plan)),
        tone=plan.frame.look.wood_colour or wood_tone(plan.frame.species),
        mat_colour=plan.frame.look.mat_colour,
    )


def common_scale(fronts: Sequence[SmallFront], *, row_mm: float = inf) -> float:
    """The scale at which the highest front fills a sheet, and neither the widest nor the row of all is too wide.

    >>> common_scale([])
    1.0
    """
    room_mm = UP_MM - 2 * LINE_MM
    extents = [one.extent for one in fronts]
    largest_mm = max((max(one.up_mm, one.across_mm / WIDEST_RATIO) for one in extents), default=room_mm)
    together_mm = sum(one.across_mm for one in extents)
    return min(room_mm / largest_mm, row_mm / together_mm if together_mm else inf)


@lru_cache(maxsize=KEPT)
def draw_small_front(front: SmallFront, *, scale: float) -> str:
    """Draw a small front at the scale of its row, as SVG for a page; it stands at the foot of its sheet."""
    extent = front.extent
    sheet_mm = extent.across_mm * scale + 2 * LINE_MM
    view = View(scale=scale, left_mm=sheet_mm / 2, base_mm=UP_MM - LINE_MM - extent.below_mm * scale)
    pen = Pen(name=front.name, across_mm=sheet_mm, up_mm=UP_MM, title=front.title, inline=True)
    outside, sight = (ring(view, front.shape, size_mm) for size_mm in (front.outside_mm, front.sight_mm))
    pen.area(outside, Role.THIN, fill=front.tone)
    pen.area(sight, Role.THIN if front.views else Role.PICTURE, fill=_ground(front))
    for middle, size_mm in front.views:
        window = ring(view, front.shape, size_mm, middle)
        pen.area(window, Role.PICTURE)
        pen.line(window, Role.EDGE)
    for mitre in mitres(view, front.shape, front.outside_mm, front.sight_mm):
        pen.line(mitre, Role.EDGE)
    pen.line(sight, Role.EDGE)
    pen.line(outside, Role.OUTLINE)
    return pen.svg()


def _ground(front: SmallFront) -> str:
    """The colour of the mat; a picture has its own."""
    return front.mat_colour if front.views else ""
