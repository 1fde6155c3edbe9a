"""A mat as it lies in front of the person who cuts it: its windows, their sizes, and the settings of the cutter.

Above the mat stand the distances from its left edge, below it those from the right, at its left those from the top, at
its right those from the bottom; each once, however many windows share it. Dashed is the outer edge of the bevel.
"""

from collections.abc import Sequence

from framecalc.drawing.dimension import Axis, DimensionSpan, beyond_mm, draw_dimension, draw_lanes
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.package.mat_seen import DrawnWindow, MatDrawing, read_lower_mat, read_upper_mat
from framecalc.drawing.pen import Pen
from framecalc.drawing.record import ACROSS_MM, Drawing, PaperDrawing
from framecalc.drawing.ring import ring
from framecalc.drawing.sheet import Area, Sheet, View, fit_scale, panel
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.plan.figures import Figure
from framecalc.records import replace
from framecalc.words import say, worded

APART_MM, TALLEST_MM = 0.7, 112.0
"""Lines nearer than this on the sheet run into one; how tall a panel may become."""

FOOT_MM = 13.0
"""What the scale bar and the side that it is cut from take below."""


def mat_title(mat: MatDrawing) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    windows = "1 window" if len(mat.windows) == 1 else f"{len(mat.windows)} windows"
    told = f"{_outside(mat)} {mat.unit}, {windows}; {mat.side}"
    return say("Mat: {name}, {told}", mat.words, name=mat.name, told=worded(told))


def mat_up_mm(mat: MatDrawing) -> float:
    """The height of the panel that shows the mat as wide as it can."""
    sheet = panel(ACROSS_MM, TALLEST_MM)
    view = _placed(mat, sheet, sheet.room)
    below_mm = _below_mm(mat, sheet, overall=_has_room_round_it(mat, sheet, view))
    return min(TALLEST_MM, mat.outside[1].exact_mm * view.scale + _above_mm(mat, sheet) + below_mm + FOOT_MM)


def draw_mat(mat: MatDrawing, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the mat; returns the scale, which a paper prints."""
    view = _placed(mat, sheet, room)
    board = ring(view, mat.shape, mat.size_mm, mat.middle_mm)
    pen.area(board, Role.MAT)
    pen.line(board, Role.OUTLINE)
    for number, window in enumerate(mat.windows, start=1):
        _draw_window(mat, window, number, view, pen)
    for one, role in zip(mat.behind, (Role.HIDDEN, Role.EDGE), strict=False):
        pen.line(view.rectangle(one.left_mm, one.bottom_mm, one.right_mm, one.top_mm), role)
    _draw_across(mat, sheet, view, pen)
    _draw_up(mat, sheet, view, pen)
    if _has_room_round_it(mat, sheet, view):
        _draw_overall(mat, sheet, view, pen)
    else:
        _write_overall(mat, sheet, pen, room)
    _write_foot(mat, sheet, pen, room)
    return view.scale


def _above_mm(mat: MatDrawing, sheet: Sheet) -> float:
    return sheet.lanes_above(len(mat.distances.left)) + 0.6


def _below_mm(mat: MatDrawing, sheet: Sheet, *, overall: bool) -> float:
    return sheet.lanes(len(mat.distances.right) + overall)


def _placed(mat: MatDrawing, sheet: Sheet, room: Area) -> View:
    """Fill the room with the mat and its lanes, among them those of its own size where they have room."""
    with_overall = _fitted(mat, sheet, room, overall=True)
    if _has_room_round_it(mat, sheet, with_overall):
        return with_overall
    return _fitted(mat, sheet, room, overall=False)


def _fitted(mat: MatDrawing, sheet: Sheet, room: Area, *, overall: bool) -> View:
    across_mm, up_mm = mat.outside[0].exact_mm, mat.outside[1].exact_mm
    free = room.less(
        left_mm=sheet.lanes(len(mat.distances.top) + overall) + sheet.figure_mm,
        right_mm=sheet.lanes(len(mat.distances.bottom)) + 0.8,
        top_mm=_above_mm(mat, sheet),
        bottom_mm=_below_mm(mat, sheet, overall=overall) + LETTER_MM + 2,
    )
    largest = min(free.across_mm / across_mm, free.up_mm / up_mm)
    scale = fit_scale(largest, sheet=sheet, unit=mat.unit)
    return View(
        scale=scale,
        left_mm=free.left_mm + (free.across_mm - across_mm * scale) / 2,
        base_mm=free.top_mm + up_mm * scale
        if not sheet.is_paper
        else free.bottom_mm - (free.up_mm - up_mm * scale) / 2,
    )


def _write_foot(mat: MatDrawing, sheet: Sheet, pen: Pen, room: Area) -> None:
    """The side it is cut from, and where to find distances that the drawing has no room for."""
    base_mm = room.bottom_mm - 0.6
    pen.text(mat.side, (room.right_mm, base_mm), anchor="end", role=Role.STRONG)
    if mat.shape.is_rectangle and mat.distances.are_too_many:
        pen.text("see the table", (room.left_mm, base_mm), role=Role.FAINT)


def _outside(mat: MatDrawing) -> str:
    """The size that it is cut to; of a polygon that of the rectangle round it."""
    return f"{mat.outside[0].text} × {mat.outside[1].text}"


def _draw_window(mat: MatDrawing, drawn: DrawnWindow, number: int, view: View, pen: Pen) -> None:
    across_mm, up_mm = drawn.size_mm
    path = ring(view, mat.shape, drawn.size_mm, drawn.middle_mm)
    pen.area(path, Role.PICTURE)
    pen.line(path, Role.OUTLINE)
    if mat.bevel_mm * view.scale > APART_MM:
        way_mm = 2 * mat.bevel_mm if mat.from_behind else -2 * mat.bevel_mm
        white = ring(view, mat.shape, (across_mm + way_mm, up_mm + way_mm), drawn.middle_mm)
        pen.line(white, Role.HIDDEN)
    _write(drawn, number, len(mat.windows), view, pen)


def _write(drawn: DrawnWindow, number: int, windows: int, view: View, pen: Pen) -> None:
    """Write its number if there are several, and its size, if they fit."""
    window = drawn.window
    x, y = view.at((window.left_mm + window.across_mm / 2, window.bottom_mm + window.up_mm / 2))
    wide_mm, high_mm = window.across_mm * view.scale - 1.2, window.up_mm * view.scale - 1.0
    fits = text_across_mm(drawn.says) <= wide_mm and high_mm >= (LETTER_MM if windows == 1 else 2 * LETTER_MM + 2)
    if fits:
        pen.text(drawn.says, (x, y + (LETTER_MM * 0.36 if windows == 1 else LETTER_MM + 0.8)), anchor="middle")
    if windows > 1 and high_mm >= LETTER_MM:
        pen.text(str(number), (x, y - 0.4 if fits else y + LETTER_MM * 0.36), anchor="middle", role=Role.STRONG)


def _draw_across(mat: MatDrawing, sheet: Sheet, view: View, pen: Pen) -> None:
    up_mm = mat.outside[1].exact_mm
    top_mm, base_mm = view.y(up_mm), view.y(0)
    left = [_span(view.x(0), view.x(one.exact_mm), top_mm, one) for one in mat.distances.left]
    lanes = [top_mm - sheet.lane_above(lane) for lane in range(len(left))]
    _draw_side(pen, left, axis=Axis.ACROSS, lanes_mm=lanes, toward=1)
    right = _right_spans(mat, view)
    _draw_side(pen, right, axis=Axis.ACROSS, lanes_mm=[base_mm + sheet.lane(n) for n in range(len(right))], toward=-1)


def _draw_up(mat: MatDrawing, sheet: Sheet, view: View, pen: Pen) -> None:
    across_mm = mat.outside[0].exact_mm
    left_mm, right_mm = view.x(0), view.x(across_mm)
    top = _top_spans(mat, view)
    _draw_side(pen, top, axis=Axis.UP, lanes_mm=[left_mm - sheet.lane(n) for n in range(len(top))], toward=1)
    bottom = [_span_up(mat, one, view) for one in mat.distances.bottom]
    _draw_side(pen, bottom, axis=Axis.UP, lanes_mm=[right_mm + sheet.lane(n) for n in range(len(bottom))], toward=-1)


def _span_up(mat: MatDrawing, figure: Figure, view: View) -> DimensionSpan:
    """The distance from the lower edge; of a polygon from the ends of its level sides."""
    span = _span(view.y(figure.exact_mm), view.y(0), view.x(mat.outside[0].exact_mm), figure)
    if mat.shape.is_rectangle:
        return span
    ends = (mat.shape.corners(*size_mm)[-1][0] for size_mm in (mat.windows[0].size_mm, mat.size_mm))
    inner_mm, outer_mm = (view.x(mat.middle_mm[0] + end_mm) for end_mm in ends)
    return replace(span, feet_mm=(inner_mm, outer_mm))


def _right_spans(mat: MatDrawing, view: View) -> list[DimensionSpan]:
    """The distances from the right edge, below the mat."""
    edge_mm = mat.outside[0].exact_mm
    return [_span(view.x(edge_mm - one.exact_mm), view.x(edge_mm), view.y(0), one) for one in mat.distances.right]


def _top_spans(mat: MatDrawing, view: View) -> list[DimensionSpan]:
    """The distances from the top edge, left of the mat."""
    edge_mm = mat.outside[1].exact_mm
    return [_span(view.y(edge_mm), view.y(edge_mm - one.exact_mm), view.x(0), one) for one in mat.distances.top]


def _has_room_round_it(mat: MatDrawing, sheet: Sheet, view: View) -> bool:
    """Whether no distance has its figure beyond its lines, where those of the size of the mat would cross it."""
    spans = [*_right_spans(mat, view), *_top_spans(mat, view)]
    return mat.shape.is_rectangle and not beyond_mm(spans, sheet)


def _write_overall(mat: MatDrawing, sheet: Sheet, pen: Pen, room: Area) -> None:
    """The size of the mat in words, at the foot."""
    at = (room.right_mm, room.bottom_mm - LETTER_MM - 2.0) if sheet.is_paper else (room.right_mm, sheet.up_mm - 1.2)
    pen.text(_outside(mat), at, anchor="end", figure="mat_size")


def _draw_overall(mat: MatDrawing, sheet: Sheet, view: View, pen: Pen) -> None:
    """The size of the mat, outside the distances."""
    across, up = mat.outside
    left_mm, right_mm, top_mm, base_mm = view.x(0), view.x(across.exact_mm), view.y(up.exact_mm), view.y(0)
    below_mm = base_mm + sheet.lane(len(mat.distances.right))
    beside_mm = left_mm - sheet.lane(len(mat.distances.top))
    level, upright = _span(left_mm, right_mm, base_mm, across), _span(top_mm, base_mm, left_mm, up)
    draw_dimension(pen, level, axis=Axis.ACROSS, lane_mm=below_mm, toward=1, limit_mm=right_mm)
    draw_dimension(pen, upright, axis=Axis.UP, lane_mm=beside_mm, toward=-1, limit_mm=top_mm)


def _draw_side(pen: Pen, spans: Sequence[DimensionSpan], *, axis: Axis, lanes_mm: Sequence[float], toward: int) -> None:
    """Draw the distances beside one edge, if there is room for them."""
    if spans:
        draw_lanes(pen, spans, axis=axis, lanes_mm=lanes_mm, toward=toward)


def _span(from_mm: float, to_mm: float, foot_mm: float, figure: Figure) -> DimensionSpan:
    return DimensionSpan(from_mm=from_mm, to_mm=to_mm, feet_mm=(foot_mm, foot_mm), figure=figure)


MAT = Drawing(
    name="mat",
    read=read_lower_mat,
    title=mat_title,
    draw=draw_mat,
    up_mm=mat_up_mm,
    paper=PaperDrawing(name="mat", label="Mat"),
)
UPPER_MAT = Drawing(
    name="upper-mat",
    read=read_upper_mat,
    title=mat_title,
    draw=draw_mat,
    up_mm=mat_up_mm,
    paper=PaperDrawing(name="upper-mat", label="Upper mat"),
)
