"""The four corners, closed as well as they can be: gaps and steps magnified, figures true, the end to shave marked."""

from framecalc.corners.closing import ClosedCorner
from framecalc.corners.shaving import MemberEnd, MitreEnd, Shave
from framecalc.drawing.corners.open_corner import MitreGap, OpenCorner, draw_open_corner, factor_for
from framecalc.drawing.pen import Pen
from framecalc.drawing.record import Drawing
from framecalc.drawing.sheet import Area, Sheet
from framecalc.drawing.style import Role
from framecalc.errors import ImpossibleSize
from framecalc.plan import FramePlan
from framecalc.records import Record
from framecalc.units import Unit, write_gap
from framecalc.words import Words, say

CELL_MM, ROW_MM, LINE_MM = 40.0, 49.0, 4.6
"""A corner's cell, across and up, and from one line of letters to the next."""

WIDTH_MM, REACH_MM, OPEN_MM = 9.0, 20.0, 6.4
"""How wide and how long a member is drawn, and how far a magnified opening may reach."""

CLEAR_MM = 1.6
"""How far letters keep from the wood above or below them."""

UP_MM = 2 * ROW_MM + 7
SHAVED_MM = 2.4
"""How thick the mark of a shaved end is drawn: it is a mark, not a size."""

LEVEL = ("top", "bottom")


class ClosingView(Record):
    """What the drawing reads from a plan; the shave names a side, a corner, and the inside or the tip."""

    corners: tuple[ClosedCorner, ...]
    shaved_side: str
    shaved_corner: str
    shaved_at: MitreEnd
    unit: Unit
    words: Words
    name: str


def read_closing(plan: FramePlan) -> ClosingView:
    """Read from a plan what the drawing of its closing shows.

    Raises:
        FrameCalcError: no sides are known, or they make no frame.
    """
    parts = plan.corners.parts
    if parts.closing is None:
        raise ImpossibleSize("Enter the sides as cut: their lengths and ends.", field="sides")
    shave = parts.shave
    return ClosingView(
        corners=parts.closing.corners,
        shaved_side=shave.side if shave else "",
        shaved_corner=_corner_of(shave) if shave else "",
        shaved_at=shave.at if shave else MitreEnd.INSIDE,
        unit=plan.unit,
        words=plan.project.shop.words,
        name=plan.frame.name,
    )


def _corner_of(shave: Shave) -> str:
    """The corner of the shaved end; sides go clockwise from the top."""
    sides = ("top", "right", "bottom", "left")
    corners = ("top-left", "top-right", "bottom-right", "bottom-left")
    number = sides.index(shave.side) + (1 if shave.end is MemberEnd.FINISH else 0)
    return corners[number % 4]


def closing_title(view: ClosingView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    worst = max(max(corner.outside_gap_mm, corner.inside_gap_mm) for corner in view.corners)
    gap = write_gap(max(worst, 0.0), unit=view.unit)
    says = "The four corners of {name} at their best: the widest gap is {gap} {unit}"
    return say(says, view.words, name=view.name, gap=gap, unit=view.unit)


def draw_closing(view: ClosingView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the four corners, each in its place; to no scale, gaps and steps by one factor."""
    openings = {corner.corner: _opening(corner) for corner in view.corners}
    gaps = factor_for(*(opening.widest_mm() for opening in openings.values()), room_mm=OPEN_MM)
    steps = factor_for(*(opening.level_proud_mm for opening in openings.values()), room_mm=OPEN_MM)
    for corner in view.corners:
        up, side = corner.corner.split("-")
        left_mm = room.left_mm + (0.0 if side == "left" else CELL_MM)
        top_mm = room.top_mm + (0.0 if up == "top" else ROW_MM)
        _draw_corner(view, pen, corner, openings[corner.corner].magnified(gaps, steps=steps), left_mm, top_mm)
    unit = "inches" if view.unit is Unit.INCH else "mm"
    pen.text(f"in {unit}", (room.left_mm + 1, sheet.up_mm - 1.4), role=Role.FAINT)
    shown = f"gaps shown ×{gaps:g}, steps ×{steps:g}"
    pen.text(shown, (sheet.across_mm - 1, sheet.up_mm - 1.4), role=Role.FAINT, anchor="end")
    return 0.0


def _opening(corner: ClosedCorner) -> MitreGap:
    """A step counts for the level member, whichever of the two is named first."""
    first = corner_sides(corner.corner)[0]
    return MitreGap(
        outside_mm=max(corner.outside_gap_mm, 0.0),
        inside_mm=max(corner.inside_gap_mm, 0.0),
        level_proud_mm=corner.step_mm if first in LEVEL else -corner.step_mm,
    )


def corner_sides(corner: str) -> tuple[str, str]:
    """The side that ends at a corner and the side that begins there, clockwise.

    >>> corner_sides("top-left"), corner_sides("bottom-right")
    (('left', 'top'), ('right', 'bottom'))
    """
    up, side = corner.split("-")
    return (up, side) if corner in ("top-right", "bottom-left") else (side, up)


def _draw_corner(
    view: ClosingView, pen: Pen, corner: ClosedCorner, opening: MitreGap, left_mm: float, top_mm: float
) -> None:
    up, side = corner.corner.split("-")
    drawn = OpenCorner(
        tip=(left_mm + (OPEN_MM + 1 if side == "left" else CELL_MM - OPEN_MM - 3),
             top_mm + LINE_MM + (OPEN_MM if up == "top" else REACH_MM + CLEAR_MM)),
        toward=(1 if side == "left" else -1, 1 if up == "top" else -1),
        width_mm=WIDTH_MM,
        reach_mm=REACH_MM,
    )  # fmt: skip
    thick_mm = SHAVED_MM if view.shaved_at is MitreEnd.INSIDE else -SHAVED_MM
    is_shaved, is_level = corner.corner == view.shaved_corner, view.shaved_side in LEVEL
    draw_open_corner(
        pen,
        drawn,
        opening,
        level_shaved=thick_mm if is_shaved and is_level else 0,
        upright_shaved=thick_mm if is_shaved and not is_level else 0,
    )
    _write(view, pen, corner, left_mm + 1, top_mm, is_shaved=is_shaved)


def _write(
    view: ClosingView, pen: Pen, corner: ClosedCorner, left_mm: float, top_mm: float, *, is_shaved: bool
) -> None:
    name = f"shave {view.shaved_side} here" if is_shaved else corner.corner.replace("-", " ")
    pen.text(name, (left_mm, top_mm + 3), role=Role.GIVEN_LETTER if is_shaved else Role.STRONG)
    lengths_mm = (("tips", corner.outside_gap_mm), ("inside", corner.inside_gap_mm), ("step", abs(corner.step_mm)))
    base_mm = top_mm + LINE_MM + REACH_MM + OPEN_MM + CLEAR_MM
    for number, (word, length_mm) in enumerate(lengths_mm, start=1):
        said = f"{word} {write_gap(max(length_mm, 0.0), unit=view.unit)}"
        pen.text(said, (left_mm, base_mm + number * LINE_MM - 1.4))


CLOSING = Drawing(name="closing", read=read_closing, title=closing_title, draw=draw_closing, up_mm=UP_MM)
