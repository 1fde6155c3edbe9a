"""Frames from a stick or board: outside sizes across against outside sizes up; possible sizes are shaded.

Under the full line every frame can be made; under the broken line, and darker, also with its grain running round. The
frames of the project are numbered dots: filled where one can be made, open where not. A number stands clear of lines,
dots and other numbers; where there is no room for it beside its dot, it is left out. The largest frame of the
chosen shape is drawn from the corner, with its dimensions.
"""

from collections.abc import Hashable, Iterator
from functools import lru_cache
from itertools import pairwise
from math import hypot, sqrt

from framecalc.drawing.dimension import Axis, DimensionSpan, draw_dimension
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, circle, run
from framecalc.drawing.sheet import View, bar_length, panel
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, Role
from framecalc.geometry.outline import Point
from framecalc.plan.figures import Figure
from framecalc.plan.timber.frames_from_a_stick import FramesFromAStick, Spot
from framecalc.records import Record
from framecalc.units import MM_PER_UNIT, TOLERANCE_MM, Unit
from framecalc.words import Words, say, worded

ACROSS_MM, UP_MM = 94.0, 91.0
LEFT_MM, TOP_MM, RIGHT_MM, BOTTOM_MM = 12.0, 7.0, 15.0, 14.0
"""The panel, and what stands around the field: dimensions left and below, the grid's figures right and above."""

DOT_MM, NUMBER_MM, LANE_MM = 1.2, 4.2, 7.0
"""Radius of a dot, how far from it its number stands, and from the field a dimension."""

CLEAR_MM = 0.4
"""How near a number may come to a strong line."""

Stroke = tuple[Point, Point]
"""A straight line on the sheet."""

KEPT = 64


class FramesView(Record):
    """What the drawing reads from a plan. `across` and `up` are the largest frame of the chosen shape."""

    edge: tuple[Point, ...]
    edge_round: tuple[Point, ...]
    spots: tuple[Spot, ...]
    least_mm: float
    across: Figure | None
    up: Figure | None
    unit: Unit
    words: Words
    says: str


def read_frames(plan: FramesFromAStick) -> FramesView:
    """Read from a plan what the drawing shows.

    Raises:
        FrameCalcError: the stick or board makes no frame.
    """
    first = plan.largest[0] if plan.largest else None
    return FramesView(
        edge=plan.edge,
        edge_round=plan.edge_round,
        spots=plan.spots,
        least_mm=plan.least_mm,
        across=first.across if first else None,
        up=first.up if first else None,
        unit=plan.project.unit,
        words=plan.project.shop.words,
        says=first.shape + f": {first.across.text} × {first.up.text} {plan.project.unit}" if first else "",
    )


def draw_frames_from_a_stick(plan: FramesFromAStick) -> str:
    """Draw the frames that a stick or board can make, as SVG for a page.

    Raises:
        FrameCalcError: it makes no frame.
    """
    return _drawn(read_frames(plan))


@lru_cache(maxsize=KEPT)
def _drawn(record: Hashable) -> str:
    assert isinstance(record, FramesView)
    sheet = panel(ACROSS_MM, UP_MM)
    pen = Pen(name="reach", across_mm=sheet.across_mm, up_mm=sheet.up_mm, title=_title(record), inline=True)
    view = _view(record)
    _draw_grid(pen, record, view)
    for edge, role in ((record.edge, Role.WOOD), (record.edge_round, Role.COVERED)):
        if edge:
            pen.area(run(_filled(edge, record.least_mm, view), closed=True), role)
    for edge, role in ((record.edge, Role.OUTLINE), (record.edge_round, Role.HIDDEN)):
        if edge:
            pen.line(run([view.at(point) for point in _to_the_least(edge, record.least_mm)]), role)
    if record.across and record.up:
        _draw_largest(pen, record.across, record.up, view)
    _draw_spots(pen, record.spots, view, tuple(_lines(record, view)))
    return pen.svg()


def _title(frames: FramesView) -> str:
    can = [spot.name for spot in frames.spots if spot.fits]
    made = worded("; it can make {names}", names=", ".join(can)) if can else ""
    says = "Outside sizes that what is in hand can make, across and up; the largest {largest}{frames}"
    return say(says, frames.words, largest=frames.says, frames=made)


def _view(frames: FramesView) -> View:
    """The field holds the frontier and all frames of the project, both ways to one scale, with a little room."""
    spots = [(spot.across_mm, spot.up_mm) for spot in frames.spots]
    far_mm = max(size for point in (*frames.edge, *spots) for size in point) * 1.04
    scale = min(ACROSS_MM - LEFT_MM - RIGHT_MM, UP_MM - TOP_MM - BOTTOM_MM) / far_mm
    return View(scale=scale, left_mm=LEFT_MM, base_mm=UP_MM - BOTTOM_MM)


def _field_mm(view: View) -> float:
    """The extent of the field, in the work."""
    return min(ACROSS_MM - LEFT_MM - RIGHT_MM, UP_MM - TOP_MM - BOTTOM_MM) / view.scale


def _draw_grid(pen: Pen, frames: FramesView, view: View) -> None:
    """Faint lines at round sizes, with their figures at the far ends; the two edges of the field."""
    unit_mm = float(MM_PER_UNIT[frames.unit])
    step = bar_length(view.scale, frames.unit, longest_mm=21)
    far_mm = _field_mm(view)
    last_mm = far_mm - LETTER_MM / view.scale
    for count in range(1, int(last_mm / (float(step) * unit_mm)) + 1):
        at_mm = count * float(step) * unit_mm
        text = f"{float(count * step):g}"
        pen.line(run([view.at((at_mm, 0)), view.at((at_mm, far_mm))]), Role.DIAGONAL)
        pen.line(run([view.at((0, at_mm)), view.at((far_mm, at_mm))]), Role.DIAGONAL)
        pen.text(text, (view.x(at_mm), view.y(far_mm) - 1.2), role=Role.FAINT, anchor="middle")
        beside = view.y(at_mm) + LETTER_MM * CAPITAL_RATIO / 2
        pen.text(text, (view.x(far_mm) + 1.2, beside), role=Role.FAINT)
    pen.line(run([view.at((0, far_mm)), view.at((0, 0)), view.at((far_mm, 0))]), Role.EDGE)
    pen.text(f"across, {frames.unit}", (view.x(far_mm), UP_MM - 1.6), role=Role.FAINT, anchor="end")
    pen.text(f"up, {frames.unit}", (0.6, TOP_MM - 1.2), role=Role.FAINT)


def _to_the_least(edge: tuple[Point, ...], least_mm: float) -> tuple[Point, ...]:
    """The frontier, dropped at its right end to the least size up."""
    return (*edge, (edge[-1][0], least_mm))


def _filled(edge: tuple[Point, ...], least_mm: float, view: View) -> list[Point]:
    corner = (edge[0][0], least_mm)
    return [view.at(point) for point in (corner, *_to_the_least(edge, least_mm))]


def _draw_largest(pen: Pen, across: Figure, up: Figure, view: View) -> None:
    """The largest frame of its shape, from the corner, with a dimension below and one to the left."""
    far = view.at((across.exact_mm, up.exact_mm))
    pen.line(run([(view.x(0), far[1]), far, (far[0], view.base_mm)]), Role.GIVEN)
    below = DimensionSpan(from_mm=view.x(0), to_mm=far[0], feet_mm=(view.base_mm, view.base_mm), figure=across)
    draw_dimension(pen, below, axis=Axis.ACROSS, lane_mm=view.base_mm + LANE_MM, toward=1, limit_mm=far[0])
    left = DimensionSpan(from_mm=far[1], to_mm=view.base_mm, feet_mm=(view.x(0), view.x(0)), figure=up)
    draw_dimension(pen, left, axis=Axis.UP, lane_mm=view.x(0) - LANE_MM, toward=-1, limit_mm=far[1])


def _lines(frames: FramesView, view: View) -> Iterator[Stroke]:
    """The strong lines that numbers keep clear of: the frontiers, and the largest frame."""
    for edge in (frames.edge, frames.edge_round):
        yield from pairwise([view.at(point) for point in _to_the_least(edge, frames.least_mm)] if edge else [])
    if frames.across and frames.up:
        far = view.at((frames.across.exact_mm, frames.up.exact_mm))
        yield (view.x(0), far[1]), far
        yield far, (far[0], view.base_mm)


def _draw_spots(pen: Pen, spots: tuple[Spot, ...], view: View, lines: tuple[Stroke, ...]) -> None:
    """Dots where the frames are, each with its number beside it where there is room."""
    taken = [view.at((spot.across_mm, spot.up_mm)) for spot in spots]
    for spot, place in zip(spots, tuple(taken), strict=True):
        pen.area(circle(place, DOT_MM), Role.BAR if spot.fits else Role.TAG)
        pen.line(circle(place, DOT_MM), Role.EDGE)
        text = str(spot.number)
        clear = (at for at in _beside(place) if _is_free(at, taken, but=place) and _is_clear(text, at, lines))
        free = next(clear, None)
        if free is not None:
            base = (free[0], free[1] + LETTER_MM * CAPITAL_RATIO / 2)
            pen.text(text, base, anchor="middle", role=Role.STRONG)
            taken.append(free)


def _beside(place: Point) -> Iterator[Point]:
    """The places for a number: right of its dot, left, above, below, then between these."""
    slant = sqrt(0.5)
    straight = ((1.0, 0.0), (-1.0, 0.0), (0.0, -1.0), (0.0, 1.0))
    for right, down in (*straight, (-slant, -slant), (slant, -slant), (slant, slant), (-slant, slant)):
        yield place[0] + right * NUMBER_MM, place[1] + down * NUMBER_MM


def _is_free(at: Point, taken: list[Point], *, but: Point) -> bool:
    """Whether a number fits there: inside the field, and clear of the dots and numbers that stand."""
    edge_mm = LETTER_MM / 2
    is_across = LEFT_MM + edge_mm < at[0] < ACROSS_MM - RIGHT_MM - edge_mm
    if not (is_across and TOP_MM + edge_mm < at[1] < UP_MM - BOTTOM_MM - edge_mm):
        return False
    return all(hypot(at[0] - one[0], at[1] - one[1]) >= NUMBER_MM - TOLERANCE_MM for one in taken if one != but)


def _is_clear(text: str, at: Point, lines: tuple[Stroke, ...]) -> bool:
    """Whether every strong line stays out of the circle around a number."""
    radius_mm = hypot(text_across_mm(text, bold=True) / 2, LETTER_MM * CAPITAL_RATIO / 2)
    return all(_off_mm(at, line) >= radius_mm + CLEAR_MM for line in lines)


def _off_mm(point: Point, stroke: Stroke) -> float:
    """The distance of a point from a straight line, on the sheet."""
    (x1, y1), (x2, y2) = stroke
    along, down = x2 - x1, y2 - y1
    square = along**2 + down**2
    share = ((point[0] - x1) * along + (point[1] - y1) * down) / square if square else 0.0
    share = min(max(share, 0.0), 1.0)
    return hypot(point[0] - x1 - share * along, point[1] - y1 - share * down)
