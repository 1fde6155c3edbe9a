"""The frames of a job as they stand side by side: each a small front, all at one scale, all on one line.

Every front is drawn on a sheet of one height, at its foot; shown at one height they are true to each other.
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache

from framecalc.drawing.package.mat_from_front import windows_from_front
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.record import KEPT
from framecalc.drawing.sheet import View
from framecalc.drawing.style import Role
from framecalc.geometry.outline import Point
from framecalc.look.tones import wood_tone
from framecalc.plan import FramePlan
from framecalc.records import Record

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
    outside_mm: tuple[float, float]
    sight_mm: tuple[float, float]
    views: tuple[tuple[Point, tuple[float, float]], ...]
    tone: str
    mat_colour: str


def read_small_front(plan: FramePlan) -> SmallFront:
    """Read the small front of a frame from its plan.

    Raises:
        FrameCalcError: the frame cannot be computed.
    """
    sizes, across, up = plan.sizes, plan.figures["outside_across"], plan.figures["outside_up"]
    return SmallFront(
        name=f"small-{plan.frame.id}",
        title=f"{plan.frame.name}: {across.text} × {up.text} {across.written.unit} outside",
        outside_mm=(sizes.outside_across_mm, sizes.outside_up_mm),
        sight_mm=(sizes.sight_across_mm, sizes.sight_up_mm),
        views=tuple((one.middle_mm, (one.across_mm, one.up_mm)) for one in windows_from_front(plan)),
        tone=plan.frame.look.wood_colour or wood_tone(plan.frame.species),
        mat_colour=plan.frame.look.mat_colour,
    )


def common_scale(fronts: Sequence[SmallFront]) -> float:
    """The scale at which the highest front fills a sheet, and the widest is not too wide.

    >>> common_scale([])
    1.0
    """
    room_mm = UP_MM - 2 * LINE_MM
    largest_mm = max((max(one.outside_mm[1], one.outside_mm[0] / WIDEST_RATIO) for one in fronts), default=room_mm)
    return room_mm / largest_mm


@lru_cache(maxsize=KEPT)
def draw_small_front(front: SmallFront, *, scale: float) -> str:
    """Draw a small front at the scale of its row, as SVG for a page; it stands at the foot of its sheet."""
    across_mm, up_mm = (side_mm * scale for side_mm in front.outside_mm)
    sheet_mm = across_mm + 2 * LINE_MM
    view = View(scale=scale, left_mm=sheet_mm / 2, base_mm=UP_MM - LINE_MM - up_mm / 2)
    pen = Pen(name=front.name, across_mm=sheet_mm, up_mm=UP_MM, title=front.title, inline=True)
    pen.area(_centred(view, front.outside_mm), Role.THIN, fill=front.tone)
    pen.area(_centred(view, front.sight_mm), Role.THIN if front.views else Role.PICTURE, fill=_ground(front))
    for middle, size_mm in front.views:
        pen.area(_centred(view, size_mm, middle), Role.PICTURE)
        pen.line(_centred(view, size_mm, middle), Role.EDGE)
    for mitre in _mitres(front):
        pen.line(run([view.at(point) for point in mitre]), Role.EDGE)
    pen.line(_centred(view, front.sight_mm), Role.EDGE)
    pen.line(_centred(view, front.outside_mm), Role.OUTLINE)
    return pen.svg()


def _ground(front: SmallFront) -> str:
    """The colour of the mat; a picture has its own."""
    return front.mat_colour if front.views else ""


def _centred(view: View, size_mm: tuple[float, float], middle: Point = (0.0, 0.0)) -> str:
    (x, y), (across_mm, up_mm) = middle, size_mm
    return view.rectangle(x - across_mm / 2, y - up_mm / 2, x + across_mm / 2, y + up_mm / 2)


def _mitres(front: SmallFront) -> Iterator[tuple[Point, Point]]:
    """From each outer corner to the inner one."""
    for right in (-0.5, 0.5):
        for top in (-0.5, 0.5):
            outer, inner = front.outside_mm, front.sight_mm
            yield (right * outer[0], top * outer[1]), (right * inner[0], top * inner[1])
