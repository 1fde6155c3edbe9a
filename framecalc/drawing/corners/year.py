"""The gap of every month: up where the mitre opens at the outside, down where at the inside, and the gap allowed."""

from framecalc.drawing.pen import Pen, rectangle, run
from framecalc.drawing.record import Drawing
from framecalc.drawing.sheet import Area, Sheet
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.errors import ImpossibleTimber
from framecalc.plan import FramePlan
from framecalc.records import Record
from framecalc.units import Unit, write_gap
from framecalc.wood.seasons import MonthGap, OpensAt
from framecalc.words import Words, say

UP_MM = 66.0
LEFT_MM, ZERO_MM, REACH_MM = 15.0, 29.0, 18.0
"""Where the months begin, where nothing opens, how far the worst gap reaches."""

INITIALS = "JFMAMJJASOND"


class YearView(Record):
    """What the drawing reads from a plan."""

    months: tuple[MonthGap, ...]
    worst_mm: float
    allowed_mm: float
    unit: Unit
    words: Words


def read_year(plan: FramePlan) -> YearView:
    """Read from a plan what the drawing of the year shows.

    Raises:
        FrameCalcError: no wood is chosen, or the typed air is impossible.
    """
    year = plan.corners.seasons.year
    if year is None:
        raise ImpossibleTimber("Choose the wood.", field="species")
    return YearView(
        months=year.months,
        worst_mm=year.worst_mm,
        allowed_mm=plan.corners.gap_mm,
        unit=plan.unit,
        words=plan.project.shop.words,
    )


def year_title(view: YearView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    worst = write_gap(view.worst_mm, unit=view.unit)
    says = f"How far the mitres would open month by month, if nothing held them: at most {worst} {view.unit}"
    return say(says, view.words)


def draw_year(view: YearView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the year; its scale stands at its left."""
    most_mm = max(view.worst_mm, view.allowed_mm, 0.05)
    step_mm = (room.right_mm - LEFT_MM) / len(view.months)
    for month in view.months:
        _draw_month(pen, month, LEFT_MM + (month.month - 1) * step_mm, step_mm, REACH_MM / most_mm)
    pen.line(run([(LEFT_MM, ZERO_MM), (room.right_mm, ZERO_MM)]), Role.OUTLINE)
    _draw_allowed(view, pen, room, view.allowed_mm / most_mm * REACH_MM)
    _draw_scale(view, pen, most_mm)
    pen.text("opens at the outside", (LEFT_MM, 5.0))
    pen.text("opens at the inside", (LEFT_MM, ZERO_MM + REACH_MM + 5.2))
    allowed = f"dashed: the {write_gap(view.allowed_mm, unit=view.unit)} that you allow"
    pen.text(allowed, (room.right_mm, sheet.up_mm - 1.4), role=Role.FAINT, anchor="end")
    return 0.0


def _draw_month(pen: Pen, month: MonthGap, left_mm: float, step_mm: float, scale: float) -> None:
    up = month.opens is OpensAt.OUTSIDE
    end_mm = ZERO_MM - month.gap_mm * scale if up else ZERO_MM + month.gap_mm * scale
    bar = rectangle(left_mm + 0.7, min(ZERO_MM, end_mm), left_mm + step_mm - 0.7, max(ZERO_MM, end_mm))
    pen.area(bar, Role.PICTURE if up else Role.COVERED)
    pen.line(bar, Role.EDGE)
    pen.text(INITIALS[month.month - 1], (left_mm + step_mm / 2, UP_MM - 6.4), anchor="middle")


def _draw_allowed(view: YearView, pen: Pen, room: Area, reach_mm: float) -> None:
    for height_mm in (ZERO_MM - reach_mm, ZERO_MM + reach_mm):
        pen.line(run([(LEFT_MM, height_mm), (room.right_mm, height_mm)]), Role.HIDDEN)


def _draw_scale(view: YearView, pen: Pen, most_mm: float) -> None:
    """The scale: zero in the middle, the largest gap at both ends."""
    pen.line(run([(LEFT_MM, ZERO_MM - REACH_MM), (LEFT_MM, ZERO_MM + REACH_MM)]), Role.DIMENSION)
    for height_mm, gap_mm in ((ZERO_MM - REACH_MM, most_mm), (ZERO_MM, 0.0), (ZERO_MM + REACH_MM, most_mm)):
        pen.line(run([(LEFT_MM - 1.2, height_mm), (LEFT_MM, height_mm)]), Role.DIMENSION)
        text = f"{write_gap(gap_mm, unit=view.unit)}" if gap_mm else "0"
        pen.text(text, (LEFT_MM - 2.0, height_mm + LETTER_MM * 0.36), anchor="end")
    unit = "inch" if view.unit is Unit.INCH else "mm"
    pen.text(unit, (LEFT_MM - 2.0, 5.0), role=Role.FAINT, anchor="end")


YEAR = Drawing(name="year", read=read_year, title=year_title, draw=draw_year, up_mm=UP_MM)
