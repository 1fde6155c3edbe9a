"""Dimensions after ISO 129-1: extension lines, a dimension line, arrowheads of one kind, a figure.

A dimension runs along one *axis* and stands in a *lane* beside the shape. Across, the figure stands above its line; up,
it stands left of its line and reads from the right. Where the space is narrow the arrowheads turn outward, and a figure
that does not fit goes beyond the outermost extension line, on its own line.
"""

from collections.abc import Sequence
from enum import Enum
from math import cos, hypot, pi, sin

from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.sheet import Sheet
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, Role
from framecalc.geometry.outline import Point
from framecalc.plan.figures import Figure
from framecalc.records import Record, replace

ARROW_MM, ARROW_HALF_MM = 2.4, 0.42
"""Closed, filled, slender: one kind and size on every drawing. Source: ISO 129-1:2018, from memory, not re-read."""

FOOT_GAP_MM, PAST_MM = 0.9, 1.0
"""Gap between outline and extension line, and how far the latter passes the dimension line. Source: as above."""

FIGURE_GAP_MM = 1.2
"""Between a figure and its dimension line, which no tail of a letter reaches. Common practice, no source."""

OUTWARD_MM = 4.6
"""Length of the line outside arrowheads that are turned outward. Common practice, no source."""


class Axis(Enum):
    """The direction of a dimension."""

    ACROSS = "across"
    UP = "up"

    def point(self, along_mm: float, beside_mm: float) -> Point:
        """A point on the sheet."""
        return (along_mm, beside_mm) if self is Axis.ACROSS else (beside_mm, along_mm)


class DimensionSpan(Record):
    """One dimension: its two ends along the axis, the starts of its extension lines, its figure and its wording.

    `wordings` are the texts that may stand between the extension lines, the fullest first; `beyond` is the text if none
    of them fits. In each, `{}` is the figure, of the type size `figure_mm`.
    """

    from_mm: float
    to_mm: float
    feet_mm: tuple[float, float]
    figure: Figure
    wordings: tuple[str, ...] = ("{}",)
    beyond: str = "{}"
    figure_mm: float = LETTER_MM

    @property
    def length_mm(self) -> float:
        """The length of the dimension line on the sheet."""
        return self.to_mm - self.from_mm

    @property
    def inside(self) -> str | None:
        """The fullest text that fits between the extension lines, if any does."""
        room_mm = self.length_mm - 1.2
        fitting = (wording for wording in self.wordings if self.across_mm(wording) <= room_mm)
        return next((wording.format(self.figure.text) for wording in fitting), None)

    @property
    def outside(self) -> str:
        """The text that stands beyond the extension lines."""
        return self.beyond.format(self.figure.text)

    def across_mm(self, wording: str) -> float:
        """How wide a wording is, its figure included."""
        return text_across_mm(wording.format("")) + text_across_mm(self.figure.text, size_mm=self.figure_mm)

    def on(self, at: Pen | Sheet) -> "DimensionSpan":
        """The same with figures as large as they are on a sheet."""
        return self if self.figure_mm == at.figure_mm else replace(self, figure_mm=at.figure_mm)


def beyond_mm(spans: Sequence[DimensionSpan], sheet: Sheet) -> float:
    """The room that figures which do not fit inside need beyond the outermost extension line.

    Source: derived.
    """
    spans = [span.on(sheet) for span in spans]
    return max((_beyond_mm(span) for span in spans if _goes_beyond(span, spans)), default=0.0)


def hanging_mm(spans: Sequence[DimensionSpan], sheet: Sheet, *, below_mm: float) -> float:
    """How far the figures of dimensions that run up hang below a place, where they do not fit inside.

    Args:
        below_mm: the place, down the sheet [mm].
    Source: derived.
    """
    beyond = beyond_mm(spans, sheet)
    return max(max(span.to_mm for span in spans) + beyond - below_mm, 0.0) if beyond else 0.0


def draw_lanes(pen: Pen, spans: Sequence[DimensionSpan], *, axis: Axis, lanes_mm: Sequence[float], toward: int) -> None:
    """Draw dimensions in lanes, the nearest first.

    Args:
        spans: sizes, the smallest first.
        lanes_mm: the place of each dimension line, beside the axis.
        toward: +1 or −1: the end for a figure that does not fit.
    """
    spans = [span.on(pen) for span in spans]
    ends = [end for span in spans for end in (span.from_mm, span.to_mm)]
    limit_mm = max(ends) if toward > 0 else min(ends)
    for span, lane_mm in zip(spans, lanes_mm, strict=True):
        if _goes_beyond(span, spans):
            _draw_beyond(pen, span, axis=axis, lane_mm=lane_mm, toward=toward, limit_mm=limit_mm)
        else:
            draw_dimension(pen, span, axis=axis, lane_mm=lane_mm, toward=toward, limit_mm=limit_mm)


def draw_dimension(pen: Pen, span: DimensionSpan, *, axis: Axis, lane_mm: float, toward: int, limit_mm: float) -> None:
    """Draw one dimension; a figure that does not fit stands beyond `limit_mm`."""
    span = span.on(pen)
    text = span.inside
    if text is None:
        _draw_beyond(pen, span, axis=axis, lane_mm=lane_mm, toward=toward, limit_mm=limit_mm)
        return
    _draw_lines(pen, span, axis, lane_mm)
    _figure(pen, axis, text, (span.from_mm + span.to_mm) / 2, lane_mm, "middle", span.figure)


def draw_on_shelf(pen: Pen, span: DimensionSpan, *, lane_mm: float, shelf_mm: float) -> None:
    """Draw a dimension that runs up, with its figure lying on a shelf to the left of its line, below the shape."""
    span = span.on(pen)
    if span.inside is not None:
        draw_dimension(pen, span, axis=Axis.UP, lane_mm=lane_mm, toward=1, limit_mm=span.to_mm)
        return
    _draw_lines(pen, span, Axis.UP, lane_mm)
    end_mm = lane_mm - span.across_mm(span.beyond) - 0.6
    pen.line(run([(lane_mm, span.to_mm), (lane_mm, shelf_mm), (end_mm, shelf_mm)]), Role.DIMENSION)
    at = (lane_mm - 0.6, shelf_mm - FIGURE_GAP_MM)
    pen.text(span.outside, at, anchor="end", figure=span.figure.name, large=span.figure.text)


def draw_beside(pen: Pen, span: DimensionSpan, *, lane_mm: float, toward: int, over_short: bool = True) -> None:
    """Draw a dimension that runs up, with its figure lying level beside the middle of its line; over a short one.

    Args:
        lane_mm: the place of the dimension line.
        toward: +1 or −1: whether the figure lies to the right of it or to the left.
        over_short: whether the figure of a short one may stand over it; else it is beside its middle too.
    """
    _draw_lines(pen, span, Axis.UP, lane_mm)
    middle_mm = (span.from_mm + span.to_mm) / 2 + pen.figure_mm * CAPITAL_RATIO / 2
    is_over = over_short and span.length_mm <= 2 * pen.figure_mm
    base_mm = span.from_mm - FIGURE_GAP_MM if is_over else middle_mm
    anchor = "start" if toward > 0 else "end"
    at = (lane_mm + toward * 1.3, base_mm)
    pen.text(span.outside, at, anchor=anchor, figure=span.figure.name, large=span.figure.text)


def arrow(pen: Pen, tip: Point, *, from_point: Point, role: Role = Role.ARROW) -> None:
    """Draw an arrowhead whose tip is at a point, coming from another."""
    length_mm = hypot(tip[0] - from_point[0], tip[1] - from_point[1])
    along = ((tip[0] - from_point[0]) / length_mm, (tip[1] - from_point[1]) / length_mm)
    base = (tip[0] - along[0] * ARROW_MM, tip[1] - along[1] * ARROW_MM)
    beside = (-along[1] * ARROW_HALF_MM, along[0] * ARROW_HALF_MM)
    pen.line(
        run([tip, (base[0] + beside[0], base[1] + beside[1]), (base[0] - beside[0], base[1] - beside[1])], closed=True),
        role,
    )


def _goes_beyond(span: DimensionSpan, spans: Sequence[DimensionSpan]) -> bool:
    """A figure goes beyond where it does not fit, or fits only without its word while another has to go beyond."""
    crowded = any(other.inside is None for other in spans)
    return span.inside is None or (crowded and span.inside != span.wordings[0].format(span.figure.text))


def _draw_beyond(pen: Pen, span: DimensionSpan, *, axis: Axis, lane_mm: float, toward: int, limit_mm: float) -> None:
    _draw_lines(pen, span, axis, lane_mm)
    start_mm = limit_mm + toward * (ARROW_MM + 1.4)
    end_mm = start_mm + toward * span.across_mm(span.beyond)
    near_mm = span.to_mm if toward > 0 else span.from_mm
    pen.line(run([axis.point(near_mm, lane_mm), axis.point(end_mm, lane_mm)]), Role.DIMENSION)
    reads_away = (toward > 0) is (axis is Axis.ACROSS)
    _figure(pen, axis, span.outside, start_mm, lane_mm, "start" if reads_away else "end", span.figure)


def _beyond_mm(span: DimensionSpan) -> float:
    return ARROW_MM + 1.4 + span.across_mm(span.beyond) + 2


def _draw_lines(pen: Pen, span: DimensionSpan, axis: Axis, lane_mm: float) -> None:
    for along_mm, foot_mm in zip((span.from_mm, span.to_mm), span.feet_mm, strict=True):
        _extension(pen, axis, along_mm, foot_mm, lane_mm)
    _arrows(pen, span, axis, lane_mm)


def _extension(pen: Pen, axis: Axis, along_mm: float, foot_mm: float, lane_mm: float) -> None:
    way = 1 if lane_mm > foot_mm else -1
    pen.line(
        run([axis.point(along_mm, foot_mm + way * FOOT_GAP_MM), axis.point(along_mm, lane_mm + way * PAST_MM)]),
        Role.DIMENSION,
    )


def _arrows(pen: Pen, span: DimensionSpan, axis: Axis, lane_mm: float) -> None:
    """Arrowheads inside where there is room for both, else outside on lines of their own."""
    outward = span.length_mm < 2 * ARROW_MM + 1
    reach_mm = OUTWARD_MM if outward else 0.0
    pen.line(
        run([axis.point(span.from_mm - reach_mm, lane_mm), axis.point(span.to_mm + reach_mm, lane_mm)]), Role.DIMENSION
    )
    for tip_mm, other_mm in ((span.from_mm, span.to_mm), (span.to_mm, span.from_mm)):
        from_mm = 2 * tip_mm - other_mm if outward else other_mm
        arrow(pen, axis.point(tip_mm, lane_mm), from_point=axis.point(from_mm, lane_mm))


def _figure(pen: Pen, axis: Axis, text: str, along_mm: float, lane_mm: float, anchor: str, figure: Figure) -> None:
    pen.text(
        text,
        axis.point(along_mm, lane_mm - FIGURE_GAP_MM),
        anchor=anchor,
        turned_deg=0 if axis is Axis.ACROSS else -90,
        figure=figure.name,
        large=figure.text,
    )


def angle_arc(pen: Pen, apex: Point, *, radius_mm: float, from_deg: float, to_deg: float) -> None:
    """Draw the arc of an angle, in degrees from the right, turning with the clock as the sheet's y runs down."""
    start, end = (
        (apex[0] + radius_mm * cos(deg * pi / 180), apex[1] + radius_mm * sin(deg * pi / 180))
        for deg in (from_deg, to_deg)
    )
    path = run([start]) + f"A{radius_mm:g},{radius_mm:g} 0 0 1 " + run([end])[1:]
    pen.line(path, Role.DIMENSION)
