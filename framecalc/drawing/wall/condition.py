"""A piece as it came in: its outline, or its photo set straight, with the numbered marks of its condition."""

from framecalc.drawing.pen import Pen, circle, rectangle
from framecalc.drawing.record import ACROSS_MM, panel_svg
from framecalc.drawing.ring import Size
from framecalc.drawing.sheet import Area, Sheet, View, panel
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, Role
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.records import Record
from framecalc.units import Unit

TALLEST_MM, FOOT_MM = 90.0, 8.0
DISC_MM = 2.6
"""The disc of a mark's number, on the sheet."""


class ConditionDrawing(Record):
    """The drawing with what it has read; marks are counted from the upper left corner of the piece."""

    size_mm: Size
    marks_mm: tuple[Point, ...]
    unit: Unit
    picture: str = ""
    name: str = "condition"

    @property
    def title(self) -> str:
        """The title, for a reader who cannot see it."""
        count = len(self.marks_mm)
        return f"The piece as it came in, with {count} mark{'' if count == 1 else 's'} of its condition"

    @property
    def panel(self) -> Sheet:
        """Its panel, as high as the piece needs."""
        sheet = panel(ACROSS_MM, TALLEST_MM)
        return panel(ACROSS_MM, min(TALLEST_MM, self.size_mm[1] * self._scale(sheet.room) + 2 * DISC_MM + FOOT_MM))

    def draw(self, sheet: Sheet, pen: Pen, room: Area) -> float:
        """Draw it into a room of a sheet; returns its scale."""
        scale, (across_mm, up_mm) = self._scale(room), self.size_mm
        left_mm = room.left_mm + (room.across_mm - across_mm * scale) / 2
        view = View(scale=scale, left_mm=left_mm, base_mm=room.top_mm + DISC_MM + up_mm * scale)
        path = rectangle(view.x(0), view.y(up_mm), view.x(across_mm), view.y(0))
        pen.area(path, Role.PICTURE)
        if self.picture:
            corners = (view.x(0), view.y(up_mm)), (view.x(across_mm), view.y(0))
            pen.picture(self.picture, *corners, clip=pen.clip(path))
        pen.line(path, Role.OUTLINE)
        for number, (x_mm, down_mm) in enumerate(self.marks_mm, start=1):
            _draw_mark(pen, view.at((x_mm, up_mm - down_mm)), str(number))
        return scale

    def _scale(self, room: Area) -> float:
        free_up_mm = min(room.up_mm, TALLEST_MM - FOOT_MM) - 2 * DISC_MM
        return min((room.across_mm - 2 * DISC_MM) / self.size_mm[0], free_up_mm / self.size_mm[1])


def condition_drawing(plan: FramePlan, *, picture: str = "") -> ConditionDrawing:
    """Read from a plan the piece and its marks.

    Args:
        picture: the address of its photo, set straight; without one its outline is drawn.
    Raises:
        FrameCalcError: its size is not known.
    """
    marks = plan.frame.hand_over.intake.marks
    across_mm, up_mm = plan.fit.across_mm, plan.fit.up_mm
    inside = (mark for mark in marks if mark.across.mm <= across_mm and mark.down.mm <= up_mm)
    return ConditionDrawing(
        size_mm=(across_mm, up_mm),
        marks_mm=tuple((mark.across.mm, mark.down.mm) for mark in inside),
        unit=plan.unit,
        picture=picture,
    )


def draw_condition(drawing: ConditionDrawing) -> str:
    """Draw it as SVG for a page."""
    return panel_svg(drawing)


def _draw_mark(pen: Pen, at: Point, number: str) -> None:
    disc = circle(at, DISC_MM)
    pen.area(disc, Role.TAG)
    pen.line(disc, Role.TROUBLE)
    pen.text(number, (at[0], at[1] + LETTER_MM * CAPITAL_RATIO / 2), anchor="middle", role=Role.STRONG)
