"""The glue-up timetable of a job: its frames with the times of its glue, the best order, and what would shorten it."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from hashlib import sha256

from framecalc.bench.gluing import GlueTimes, closing_min, glue_findings, hands_on_min, strong_after_h, times_at
from framecalc.bench.shop_day import CLOSED_ON, DAY_MIN, ShopDay, read_clock, write_clock
from framecalc.bench.timetable import GlueRoom, PlacedGlueUp, Timetable, best_timetable
from framecalc.bench.timetable_bound import GlueUp
from framecalc.errors import OutOfRange
from framecalc.findings import Finding
from framecalc.plan.inputs import is_bought
from framecalc.plan.timber.machine_work import tick_key
from framecalc.project import Project
from framecalc.project.frame import Frame
from framecalc.records import Record, cached_property, replace
from framecalc.words import joined, typed, worded

MOST_GLUE_UPS = 60
"""As many are planned at a time."""


def glue_key(frame_id: str, copy_number: int) -> str:
    """The key of the tick of one glue-up: the same on its card and in the timetable, whatever the cutting plan."""
    return tick_key(sha256(f"glue {frame_id}".encode()).hexdigest(), "glued", copy_number)


class GlueStep(Record):
    """One glue-up in the timetable: its number in the order, its frame, and when it is begun and done."""

    number: int
    frame: Frame
    copy_number: int
    placed: PlacedGlueUp

    @property
    def name(self) -> str:
        """What is glued."""
        if self.frame.count == 1:
            return typed(self.frame.name)
        return joined(" ", [typed(self.frame.name), worded("no. {number}", number=self.copy_number)])


class GluePlan:
    """The glue-up of a job; everything begun stands where it was begun, and the rest follows.

    `first` is its first day where none is typed; without either every day is worked.
    """

    def __init__(self, project: Project, *, first: date | None = None) -> None:
        self.project, self._first = project, project.bench.glue_day or first
        self._bench = project.bench

    @property
    def strong_h(self) -> int:
        """When a joint may be stressed, in hours: as on the bottle, or as usual at this temperature."""
        usual_h = strong_after_h(self._bench.glue, temperature_c=float(self._bench.temperature.exact))
        return self._bench.strong_hours or usual_h

    @property
    def day(self) -> ShopDay:
        """The working hours.

        Raises:
            OutOfRange: work ends before it begins.
        """
        opens_min, closes_min = read_clock(self._bench.opens), read_clock(self._bench.closes)
        if closes_min <= opens_min:
            raise OutOfRange("Enter an end later than the beginning", field="bench.closes")
        return ShopDay(
            opens_min=opens_min,
            closes_min=closes_min,
            first_weekday=self._first.weekday() if self._first else 0,
            closed_on=CLOSED_ON[self._bench.week] if self._first else frozenset(),
        )

    @property
    def times(self) -> GlueTimes:
        """Open time and time in the clamps: as typed from the bottle, as this shop has found, or as usual."""
        usual = times_at(self._bench.glue, temperature_c=float(self._bench.temperature.exact), own=self.own)
        return GlueTimes(
            open_min=self._bench.open_minutes or usual.open_min,
            clamped_min=self._bench.clamped_minutes or usual.clamped_min,
        )

    @property
    def own(self) -> GlueTimes | None:
        """What this shop has found of its glue, at 20 °C."""
        found = next((one for one in self.project.shop.glues if one.glue is self._bench.glue), None)
        return GlueTimes(open_min=found.open_minutes, clamped_min=found.clamped_minutes) if found else None

    @property
    def frames(self) -> tuple[Frame, ...]:
        """The frames that are glued here: not those that come joined."""
        return tuple(
            frame for frame in self.project.frames if not (is_bought(frame) and frame.section.moulding.sale.is_joined)
        )

    def closing_of(self, frame: Frame) -> int:
        """How long it takes to close a frame, first glue to last clamp [min]."""
        return self._bench.closing_minutes or closing_min(frame.shape.sides)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Glue that is too cold, or that skins before the last clamp is on."""
        if not self.frames:
            return ()
        found = glue_findings(
            self._bench.glue,
            temperature_c=float(self._bench.temperature.exact),
            open_min=self.times.open_min,
            closing_min=max(map(self.closing_of, self.frames)),
        )
        return tuple(replace(one, argument=f"bench.{one.argument}") for one in found)

    @cached_property
    def timetable(self) -> Timetable:
        """The best order of what is still to glue, behind what is begun.

        Raises:
            OutOfRange: the hours are none, or there are too many glue-ups.
        """
        return self._with(clamp_sets=self._bench.clamp_sets)

    @cached_property
    def steps(self) -> tuple[GlueStep, ...]:
        """Every glue-up in the order of its start.

        Raises:
            OutOfRange: as `timetable`.
        """
        frames = {frame.id: frame for frame in self.project.frames}
        found = sorted(self.timetable.placed, key=lambda one: (one.starts_min, one.ends_min))
        return tuple(_step(number, one, frames) for number, one in enumerate(found, start=1))

    @cached_property
    def saved_by_a_set_min(self) -> int:
        """How much sooner the last clamps come off with one clamp set more [min]."""
        more = self._with(clamp_sets=self._bench.clamp_sets + 1)
        return max(0, self.timetable.ends_min - more.ends_min)

    @cached_property
    def first_min(self) -> int:
        """When the first glue-up begins."""
        return min((one.starts_min for one in self.timetable.placed), default=self.day.opens_min)

    def _with(self, *, clamp_sets: int) -> Timetable:
        wanted = tuple(self._glue_ups())
        begun = dict(self._begun(wanted))
        room = GlueRoom(
            day=self.day,
            clamp_sets=clamp_sets,
            workers=self._bench.workers,
            begun=tuple((one, begun[one.key]) for one in wanted if one.key in begun),
        )
        return best_timetable(tuple(one for one in wanted if one.key not in begun), room=room)

    def _glue_ups(self) -> Iterator[GlueUp]:
        count = sum(frame.count for frame in self.frames)
        if not count:
            raise OutOfRange("Nothing is glued here: all frames come joined")
        if count > MOST_GLUE_UPS:
            raise OutOfRange(f"A timetable takes {MOST_GLUE_UPS} frames at a time; this job has {count}")
        for frame in self.frames:
            glue_up = self._glue_up(frame)
            for copy_number in range(1, frame.count + 1):
                yield replace(glue_up, key=f"{frame.id}-{copy_number}")

    def _glue_up(self, frame: Frame) -> GlueUp:
        return GlueUp(
            key=frame.id,
            hands_on_min=hands_on_min(self._bench.glue, closing_min=self.closing_of(frame)),
            clamped_min=round(self.times.clamped_min),
            from_min=read_clock(frame.glue_from) if frame.glue_from else 0,
        )

    def _begun(self, wanted: Iterable[GlueUp]) -> Iterator[tuple[str, int]]:
        keys = {one.key for one in wanted}
        for one in self._bench.glued:
            key = f"{one.frame}-{one.copy_number}"
            if key in keys:
                yield key, (one.day - 1) * DAY_MIN + read_clock(one.at)


def _step(number: int, placed: PlacedGlueUp, frames: dict[str, Frame]) -> GlueStep:
    frame_id, _, copy_number = placed.glue_up.key.partition("-")
    return GlueStep(number=number, frame=frames[frame_id], copy_number=int(copy_number), placed=placed)


def time_said(at_min: int) -> str:
    """A time of the timetable: by the clock, and the day after the first one.

    >>> time_said(615), time_said(1440 + 485)
    ('10:15', 'day 2, 8:05')
    """
    day = at_min // DAY_MIN
    return write_clock(at_min) if day == 0 else f"day {day + 1}, {write_clock(at_min)}"


def duration_said(minutes: int) -> str:
    """How long something takes.

    >>> duration_said(45), duration_said(120), duration_said(135)
    ('45 min', '2 h', '2 h 15 min')
    """
    hours, rest = divmod(minutes, 60)
    return " ".join(filter(None, (f"{hours} h" if hours else "", f"{rest} min" if rest or not hours else "")))


def conclusion(timetable: Timetable) -> str:
    """What the order is worth, in one sentence: the best, by which reason, or how much better one could be at most."""
    bound = timetable.bound
    if timetable.is_best:
        why = bound.why if timetable.ends_min <= bound.ends_min else "every order was tried"
        return f"No order ends before {time_said(timetable.ends_min)}: {why}."
    more = duration_said(timetable.ends_min - bound.ends_min)
    return (
        f"No order ends before {time_said(bound.ends_min)}: {bound.why}. This one ends {more} later; not proven best."
    )


def days_of(steps: Sequence[GlueStep]) -> tuple[int, ...]:
    """The days on which something is begun, from 0."""
    return tuple(sorted({one.placed.starts_min // DAY_MIN for one in steps}))
