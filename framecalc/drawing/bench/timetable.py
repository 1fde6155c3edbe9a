"""A day of the glue-up on a time axis: a lane for each worker and each clamp set, and when every frame holds it."""

from collections.abc import Iterator
from functools import lru_cache

from framecalc.bench.shop_day import DAY_MIN, write_clock
from framecalc.drawing.lettering import shortened, text_across_mm
from framecalc.drawing.pen import Pen, rectangle, run
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, Role
from framecalc.records import Record

ACROSS_MM, LEFT_MM, LANE_MM, TOP_MM, GAP_MM = 100.0, 17.0, 7.0, 6.0, 1.0
"""The panel, the names of its lanes, the height of a lane, the hours above them, and between two lanes."""

HOUR_MM = 0.2
"""How wide the line of an hour is: it lies under the bars."""

TICKS_MIN = (10, 15, 30, 60, 120, 240, 480)
MOST_TICKS = 7


class Bar(Record):
    """One frame on one lane, from when to when; `is_done`: it was begun as it stands here."""

    lane: int
    begins_min: int
    ends_min: int
    number: int
    name: str
    is_done: bool


class DrawnDay(Record):
    """What a day shows: its lanes, those of hands first, and the bars on them."""

    day: int
    lanes: tuple[str, ...]
    hands: int
    bars: tuple[Bar, ...]

    @property
    def title(self) -> str:
        """The title of the drawing, in words."""
        begins, ends = min(bar.begins_min for bar in self.bars), max(bar.ends_min for bar in self.bars)
        frames = len({bar.number for bar in self.bars})
        what = "1 frame" if frames == 1 else f"{frames} frames"
        return f"Glue-up, day {self.day + 1}: {what}, {write_clock(begins)} to {write_clock(ends)}"


class _Axis(Record):
    """From which minute to which the axis runs, and the hours on it."""

    first_min: int
    last_min: int
    step_min: int

    def at_mm(self, minute: int) -> float:
        """Where a minute stands; what is beyond the day ends at its edge."""
        part = (min(minute, self.last_min) - self.first_min) / (self.last_min - self.first_min)
        return LEFT_MM + part * (ACROSS_MM - LEFT_MM - 1)

    @property
    def ticks_min(self) -> Iterator[int]:
        """The hours."""
        yield from range(self.first_min, self.last_min + 1, self.step_min)


@lru_cache(maxsize=128)
def draw_timetable(drawn: DrawnDay, *, name: str) -> str:
    """Draw a day as SVG for a page.

    Args:
        name: the start of this drawing's ids, unique on the page.
    """
    axis, up_mm = _axis(drawn), TOP_MM + len(drawn.lanes) * LANE_MM + 1
    pen = Pen(name=name, across_mm=ACROSS_MM, up_mm=up_mm, title=drawn.title, inline=True)
    for number, lane in enumerate(drawn.lanes):
        top_mm = _top_mm(number)
        pen.line(run([(0, top_mm), (ACROSS_MM, top_mm)]), Role.DIMENSION)
        pen.text(shortened(lane, to_mm=LEFT_MM - 1), (0, _base_mm(number)), role=Role.FAINT)
    _draw_hours(pen, axis, up_mm)
    for bar in drawn.bars:
        _draw_bar(pen, bar, axis, is_hands=bar.lane < drawn.hands)
    return pen.svg()


def _axis(drawn: DrawnDay) -> _Axis:
    """The hours that the bars take, in whole steps; no day goes on after its midnight."""
    begins_min = min(bar.begins_min for bar in drawn.bars)
    ends_min = min(max(bar.ends_min for bar in drawn.bars), (drawn.day + 1) * DAY_MIN)
    span_min = max(ends_min - begins_min, 1)
    step_min = next((step for step in TICKS_MIN if span_min / step <= MOST_TICKS - 2), TICKS_MIN[-1])
    first_min = begins_min - begins_min % step_min
    return _Axis(first_min=first_min, last_min=ends_min + -ends_min % step_min, step_min=step_min)


def _draw_hours(pen: Pen, axis: _Axis, up_mm: float) -> None:
    for minute in axis.ticks_min:
        at_mm = axis.at_mm(minute)
        pen.area(rectangle(at_mm, TOP_MM - 1, at_mm + HOUR_MM, up_mm), Role.SHADOW)
        text = write_clock(minute)
        half_mm = text_across_mm(text) / 2
        pen.text(text, (min(at_mm, ACROSS_MM - half_mm), TOP_MM - 2), anchor="middle")


def _draw_bar(pen: Pen, bar: Bar, axis: _Axis, *, is_hands: bool) -> None:
    left_mm, right_mm = axis.at_mm(bar.begins_min), axis.at_mm(bar.ends_min)
    top_mm = _top_mm(bar.lane)
    path = rectangle(left_mm, top_mm + GAP_MM / 2, right_mm, top_mm + LANE_MM - GAP_MM / 2)
    pen.area(path, Role.SHADOW if bar.is_done else Role.GIVEN_AREA if is_hands else Role.WOOD)
    pen.line(path, Role.EDGE)
    room_mm, number = right_mm - left_mm - 1, str(bar.number)
    if text_across_mm(number, bold=True) > room_mm:
        return
    text = number if is_hands else shortened(f"{number} {bar.name}", to_mm=room_mm, bold=True)
    text = text if text.startswith(f"{number} ") and len(text) > len(number) + 3 else number
    pen.text(text, (left_mm + 0.6, _base_mm(bar.lane)), role=Role.STRONG)


def _top_mm(lane: int) -> float:
    return TOP_MM + lane * LANE_MM


def _base_mm(lane: int) -> float:
    return _top_mm(lane) + (LANE_MM + CAPITAL_RATIO * LETTER_MM) / 2
