"""The gauge from above: fence, stock and blade at the angle set, and where a shim goes to turn the stock."""

from math import cos, radians, sin

from framecalc.corners.angles import write_angle
from framecalc.corners.saw import Turn
from framecalc.corners.saw_record import SawVerdict
from framecalc.drawing.dimension import angle_arc, arrow
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.record import Drawing
from framecalc.drawing.sheet import Area, Sheet
from framecalc.drawing.style import Role
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.records import Record
from framecalc.units import Unit, write_gap
from framecalc.words import Words, say

UP_MM = 66.0
BLADE_MM, FENCE_MM, STOCK_MM = 40.0, 30.0, 7.0
"""Where the blade stands across the sheet, how long a fence is drawn, how wide the stock."""

FENCE_THICK_MM, SHIM_DRAWN_MM = 2.6, 2.2
NEAR_MM, BASE_MM = 4.0, 50.0
"""How near to the blade a fence ends, and how low its far end lies."""


class GaugeView(Record):
    """What the drawing reads from a plan: the angle, one fence or two, which way to turn, the shim that does it."""

    mitre_deg: float
    has_two: bool
    turn: Turn
    shim_mm: float
    unit: Unit
    words: Words


def read_gauge(plan: FramePlan) -> GaugeView:
    """Read from a plan the setting of the gauge, and the correction that the test cuts ask for."""
    corners = plan.corners
    record = corners.saw.record()
    correction = corners.saw.correction(record) if record and record.verdict is not SawVerdict.LEAVE else None
    return GaugeView(
        mitre_deg=corners.flat.mitre_deg,
        has_two=corners.saw.has_two_settings,
        turn=correction.turn if correction else Turn.NONE,
        shim_mm=correction.shim_mm if correction else 0.0,
        unit=plan.unit,
        words=plan.project.shop.words,
    )


def gauge_title(view: GaugeView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    fences = "Two fences" if view.has_two else "The gauge"
    turn = "" if view.turn is Turn.NONE else f"; turn it {view.turn}"
    says = f"{fences} from above, {view.mitre_deg:.2f}° from a square cut{turn}"
    return say(says, view.words)


def draw_gauge(view: GaugeView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the gauge; to no scale."""
    pen.line(run([(BLADE_MM, 5.0), (BLADE_MM, BASE_MM + 4.0)]), Role.OUTLINE)
    pen.text("blade", (BLADE_MM + 1.6, 8.0), role=Role.FAINT)
    _draw_fence(view, pen, side=-1)
    if view.has_two:
        _draw_fence(view, pen, side=1)
    _draw_feed(pen, sheet)
    if view.turn is not Turn.NONE:
        text = f"shim {write_gap(view.shim_mm, unit=view.unit)} {view.unit}, drawn thick"
        pen.text(text, (sheet.across_mm - 1, sheet.up_mm - 1.4), role=Role.GIVEN_LETTER, anchor="end")
    return 0.0


class _Fence(Record):
    """One fence: its far end, the way along it toward the blade, the way behind it, how long it is drawn."""

    far: Point
    along: Point
    behind: Point
    length_mm: float

    def at(self, along_mm: float, behind_mm: float) -> Point:
        return (
            self.far[0] + self.along[0] * along_mm + self.behind[0] * behind_mm,
            self.far[1] + self.along[1] * along_mm + self.behind[1] * behind_mm,
        )

    def to_the_blade_mm(self, behind_mm: float) -> float:
        """The distance along it at which a line beside it meets the blade."""
        return (BLADE_MM - self.at(0.0, behind_mm)[0]) / self.along[0]


def _fence(view: GaugeView, side: int) -> _Fence:
    """A fence left (−1) or right (+1) of the blade, its near end leading; shorter where it stands steep."""
    turn_rad = radians(view.mitre_deg)
    rise_mm = NEAR_MM * sin(turn_rad) / cos(turn_rad) + STOCK_MM / cos(turn_rad)
    length_mm = min(FENCE_MM, (BASE_MM - 10.0 - rise_mm) / sin(turn_rad))
    return _Fence(
        far=(BLADE_MM + side * (NEAR_MM + length_mm * cos(turn_rad)), BASE_MM),
        along=(-side * cos(turn_rad), -sin(turn_rad)),
        behind=(-side * sin(turn_rad), cos(turn_rad)),
        length_mm=length_mm,
    )


def _draw_fence(view: GaugeView, pen: Pen, *, side: int) -> None:
    fence = _fence(view, side)
    stock = [
        fence.at(0.0, 0.0),
        fence.at(fence.to_the_blade_mm(0.0), 0.0),
        fence.at(fence.to_the_blade_mm(-STOCK_MM), -STOCK_MM),
        fence.at(0.0, -STOCK_MM),
    ]
    body = [fence.at(along_mm, behind_mm) for along_mm, behind_mm in _around(fence.length_mm)]
    for shape, role in ((stock, Role.WOOD), (body, Role.SHADOW)):
        pen.area(run(shape, closed=True), role)
        pen.line(run(shape, closed=True), Role.EDGE)
    _draw_shim(view, pen, fence)
    if side < 0:
        _draw_angle(view, pen, fence)


def _around(length_mm: float) -> tuple[Point, ...]:
    return (0.0, 0.0), (length_mm, 0.0), (length_mm, FENCE_THICK_MM), (0.0, FENCE_THICK_MM)


def _draw_shim(view: GaugeView, pen: Pen, fence: _Fence) -> None:
    """The shim between fence and stock: at the end that leads, or at the one that trails."""
    if view.turn is Turn.NONE:
        return
    thick_mm, thin_mm = (fence.length_mm, 0.0) if view.turn is Turn.FROM_SQUARE else (0.0, fence.length_mm)
    wedge = run([fence.at(thin_mm, 0.0), fence.at(thick_mm, 0.0), fence.at(thick_mm, -SHIM_DRAWN_MM)], closed=True)
    pen.area(wedge, Role.GIVEN_AREA)
    pen.line(wedge, Role.GIVEN)


def _draw_angle(view: GaugeView, pen: Pen, fence: _Fence) -> None:
    """The angle from a square cut, at the far end of the left fence."""
    apex = fence.at(0.0, FENCE_THICK_MM)
    end = (BLADE_MM - 2.0, apex[1])
    pen.line(run([apex, end]), Role.HIDDEN)
    radius_mm = min(11.0, fence.length_mm * 0.5)
    angle_arc(pen, apex, radius_mm=radius_mm, from_deg=-view.mitre_deg, to_deg=0)
    pen.text(f"{write_angle(view.mitre_deg)} from square", (end[0], apex[1] + 4.6), anchor="end")


def _draw_feed(pen: Pen, sheet: Sheet) -> None:
    """Which way the stock is pushed past the blade."""
    pen.line(run([(3.0, 28.0), (3.0, 10.0)]), Role.DIMENSION)
    arrow(pen, (3.0, 10.0), from_point=(3.0, 28.0))
    pen.text("feed", (5.0, 12.0), role=Role.FAINT)


GAUGE = Drawing(name="gauge", read=read_gauge, title=gauge_title, draw=draw_gauge, up_mm=UP_MM)
