"""The frame in its clamps: its six measures, its lean exaggerated, the diagonal to squeeze along."""

from math import radians, sin

from framecalc.corners.squareness import Squeeze
from framecalc.drawing.dimension import arrow
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.record import Drawing
from framecalc.drawing.sheet import Area, Sheet
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.records import Record
from framecalc.units import Unit
from framecalc.words import Words, say, worded

UP_MM = 66.0
WIDTH_MM = 5.0
"""How wide a member is drawn."""

SHOWN_DEG, LEAST_SHOWN_DEG = 5.0, 0.05
"""A lean is drawn so large; a smaller one than the second is drawn as none."""


class LeanView(Record):
    """What the drawing reads from a plan: its measures, typed or planned, the lean, the squeeze.

    The measures are top, bottom, left, right, rising and falling.
    """

    measures: tuple[str, ...]
    are_planned: bool
    across_mm: float
    up_mm: float
    skew_deg: float
    squeeze: Squeeze
    unit: Unit
    words: Words
    name: str


def read_lean(plan: FramePlan) -> LeanView:
    """Read from a plan what the drawing of the clamps shows; without measures those of the plan."""
    clamps, typed = plan.corners.clamps, plan.frame.corner.clamps
    across_mm, up_mm = plan.corners.outside_mm
    across, up = (plan.figures[f"outside_{way}"].written.full for way in ("across", "up"))
    diagonal = f"{plan.said(clamps.planned_diagonal_mm)} {plan.unit}"
    six = (typed.across_top, typed.across_bottom, typed.up_left, typed.up_right, typed.rising, typed.falling)
    square = clamps.squareness
    return LeanView(
        measures=tuple(length.text for length in six if length)
        if square
        else (across, across, up, up, diagonal, diagonal),
        are_planned=square is None,
        across_mm=across_mm,
        up_mm=up_mm,
        skew_deg=square.skew_deg if square else 0.0,
        squeeze=square.squeeze if square else Squeeze.NONE,
        unit=plan.unit,
        words=plan.project.shop.words,
        name=plan.frame.name,
    )


def lean_title(view: LeanView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    said = "as planned" if view.are_planned else f"leaning by {abs(view.skew_deg):.2f}°"
    return say("{name} from the front, {said}, with its six measures", view.words, name=view.name, said=worded(said))


def draw_lean(view: LeanView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the frame; to no scale, since its lean is exaggerated."""
    outside = _corners(view, room)
    inside = _inset(outside, WIDTH_MM)
    pen.area(run(outside, closed=True) + run(inside, closed=True), Role.WOOD)
    pen.area(run(inside, closed=True), Role.PICTURE)
    for shape in (outside, inside):
        pen.line(run(shape, closed=True), Role.OUTLINE)
    for outer, inner in zip(outside, inside, strict=True):
        pen.line(run([outer, inner]), Role.MITRE)
    _draw_diagonals(view, pen, outside)
    _draw_sides(view, pen, outside)
    _draw_foot(view, sheet, pen)
    return 0.0


def _corners(view: LeanView, room: Area) -> list[Point]:
    """Lower left, lower right, upper right, upper left; the top moved by the lean, exaggerated."""
    shown_deg = 0.0 if abs(view.skew_deg) < LEAST_SHOWN_DEG else SHOWN_DEG * (1 if view.skew_deg > 0 else -1)
    scale = min(44.0 / view.across_mm, 38.0 / view.up_mm)
    across_mm, up_mm = max(view.across_mm * scale, 24.0), max(view.up_mm * scale, 24.0)
    left_mm, base_mm = (room.left_mm + room.right_mm - across_mm) / 2, room.top_mm + 9.0 + up_mm
    lean_mm = up_mm * sin(radians(shown_deg))
    return [
        (left_mm, base_mm),
        (left_mm + across_mm, base_mm),
        (left_mm + across_mm + lean_mm, base_mm - up_mm),
        (left_mm + lean_mm, base_mm - up_mm),
    ]


def _inset(corners: list[Point], by_mm: float) -> list[Point]:
    """The inner corners, drawn a member's width in from the middle outward along each diagonal."""
    middle = (sum(x for x, _ in corners) / 4, sum(y for _, y in corners) / 4)
    half_mm = min(abs(corners[0][1] - corners[3][1]), abs(corners[1][0] - corners[0][0])) / 2
    share = 1 - by_mm / half_mm
    return [(middle[0] + (x - middle[0]) * share, middle[1] + (y - middle[1]) * share) for x, y in corners]


def _draw_diagonals(view: LeanView, pen: Pen, corners: list[Point]) -> None:
    lower_left, lower_right, upper_right, upper_left = corners
    pairs = ((lower_left, upper_right, Squeeze.RISING), (upper_left, lower_right, Squeeze.FALLING))
    for start, end, squeeze in pairs:
        if view.squeeze is squeeze:
            pen.line(run([start, end]), Role.GIVEN)
            for tip, other in ((start, end), (end, start)):
                _squeeze(pen, tip, other)
        else:
            pen.line(run([start, end]), Role.DIAGONAL)


def _squeeze(pen: Pen, tip: Point, other: Point) -> None:
    """An arrow that pushes a tip toward the other one."""
    length_mm = ((tip[0] - other[0]) ** 2 + (tip[1] - other[1]) ** 2) ** 0.5
    back = ((tip[0] - other[0]) / length_mm * 7, (tip[1] - other[1]) / length_mm * 7)
    tail = (tip[0] + back[0], tip[1] + back[1])
    pen.line(run([tail, tip]), Role.GIVEN)
    arrow(pen, tip, from_point=tail, role=Role.GIVEN_ARROW)


def _draw_sides(view: LeanView, pen: Pen, corners: list[Point]) -> None:
    lower_left, lower_right, upper_right, upper_left = corners
    top, bottom, left, right = view.measures[:4]
    pen.text(top, ((upper_left[0] + upper_right[0]) / 2, upper_left[1] - 1.8), anchor="middle")
    pen.text(bottom, ((lower_left[0] + lower_right[0]) / 2, lower_left[1] + LETTER_MM + 0.8), anchor="middle")
    beside_mm = min(lower_left[0], upper_left[0]) - 2.0
    past_mm = max(lower_right[0], upper_right[0]) + LETTER_MM + 0.4
    height_mm = (lower_left[1] + upper_left[1]) / 2
    pen.text(left, (beside_mm, height_mm), anchor="middle", turned_deg=-90)
    pen.text(right, (past_mm, height_mm), anchor="middle", turned_deg=-90)


def _draw_foot(view: LeanView, sheet: Sheet, pen: Pen) -> None:
    rising, falling = view.measures[4:]
    base_mm = sheet.up_mm - 1.4
    said = f"rising {rising}, falling {falling}"
    if text_across_mm(said) > sheet.across_mm - 2:
        pen.text(f"rising {rising}", (1.0, base_mm - 4.6))
        said = f"falling {falling}"
    pen.text(said, (1.0, base_mm))
    if view.skew_deg and abs(view.skew_deg) >= LEAST_SHOWN_DEG:
        factor = f"{SHOWN_DEG / abs(view.skew_deg):.0f}" if abs(view.skew_deg) < SHOWN_DEG else "1"
        pen.text(f"lean shown ×{factor}", (sheet.across_mm - 1, 4.0), role=Role.FAINT, anchor="end")


LEAN = Drawing(name="lean", read=read_lean, title=lean_title, draw=draw_lean, up_mm=UP_MM)
