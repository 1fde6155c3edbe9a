"""The finish of a job: its coats by the day, when the package may be closed in, and whether the job is then in time."""

from collections.abc import Iterator
from datetime import date, timedelta

from framecalc.bench.finishing import (
    AIR,
    COLD_C,
    DAMP_PCT,
    DUST,
    FINISHES,
    PLAIN_AIR,
    RAGS,
    Finish,
    FinishTimes,
    FinishUsual,
    dust_notes,
    finish_times,
)
from framecalc.bench.shop_day import read_clock
from framecalc.project import Project
from framecalc.project.own_times import OwnFinish
from framecalc.records import cached_property, replace
from framecalc.words import Words, day_said

SOLVENT = frozenset({Finish.OIL, Finish.HARD_WAX_OIL, Finish.WIPING_VARNISH, Finish.SHELLAC, Finish.WAX})
"""Finishes that give off vapours that burn. Source: common practice, no source."""


class FinishPlan:
    """The finish of a job."""

    def __init__(self, project: Project) -> None:
        self.project = project
        self._bench = project.bench

    @property
    def usual(self) -> FinishUsual:
        """What this finish asks for: as this shop has found, else as usual."""
        usual, own = FINISHES[self._bench.finish_kind], self.own
        if own is None:
            return usual
        return replace(usual, coats=own.coats, recoat_h=float(own.recoat_hours), cure_days=own.cure_days)

    @property
    def own(self) -> OwnFinish | None:
        """What this shop has found of it."""
        return next((one for one in self.project.shop.finishes if one.finish is self._bench.finish_kind), None)

    @cached_property
    def times(self) -> FinishTimes:
        """The days of its coats and of its cure."""
        bench = self._bench
        day_h = (read_clock(bench.closes) - read_clock(bench.opens)) / 60
        return finish_times(
            self.usual,
            temperature_c=float(bench.temperature.exact),
            humidity_pct=float(bench.humidity),
            day_h=max(day_h, 0),
            coats=bench.coats,
            recoat_h=None if bench.recoat_hours is None else float(bench.recoat_hours),
            cure_days=bench.cure_days,
        )

    @property
    def first(self) -> date | None:
        """The day of the first coat, if it is known: as typed, or the last one that still meets the day due."""
        due = self.project.way.due
        if self._bench.finish_day or due is None:
            return self._bench.finish_day
        return due - timedelta(days=self.times.closing_day)

    @property
    def closing(self) -> str:
        """When the package may be closed in."""
        if self.first is None:
            return f"{_days(self.times.closing_day)} after the first coat"
        return day_said(self.first + timedelta(days=self.times.closing_day), self.project.shop.words)

    @property
    def late_days(self) -> int:
        """By how many days the package can be closed in too late; less than 0 are days to spare."""
        due = self.project.way.due
        if self._bench.finish_day is None or due is None:
            return 0
        return self.times.closing_day - (due - self._bench.finish_day).days

    @property
    def verdict(self) -> str:
        """Whether the day due is met, and by what it is not."""
        due, words = self.project.way.due, self.project.shop.words
        if due is None:
            return "No due day typed on the job's page."
        if self._bench.finish_day is None:
            last = due - timedelta(days=self.times.closing_day)
            return f"Due {day_said(due, words)}: first coat by {day_said(last, words)}."
        if self.late_days <= 0:
            return f"Due {day_said(due, words)}: met, {_days(-self.late_days)} to spare."
        coats = self.times.closing_day - self.times.cure_days
        why = f"coats take {_days(coats + 1)}, curing {_days(self.times.cure_days)}"
        return f"Due {day_said(due, words)}: {_days(self.late_days)} late; {why}."

    @property
    def coats(self) -> Iterator[tuple[str, str]]:
        """Each coat with its day."""
        for number, day in enumerate(self.times.coat_days, start=1):
            on = f"day {day + 1}" if self.first is None else day_said(self.first + timedelta(days=day), self._words)
            yield f"Coat {number}", on

    @property
    def sanding(self) -> str:
        """The grits in their order, and the one between coats."""
        grits = ", ".join(map(str, self.usual.grits))
        between = f"; between coats {self.usual.between}" if self.usual.between and self.times.coats > 1 else ""
        return f"Sand with {grits}{between}. Wipe the dust off each time."

    @property
    def air_warning(self) -> str:
        """What this air does to the finish, if it harms it."""
        if self._bench.finish_kind is Finish.NONE:
            return ""
        if float(self._bench.temperature.exact) < COLD_C:
            return "Too cold for most finishes: warm the shop first."
        return "Damp air: the finish may blush or stay soft. Wait for dry air." if self._is_damp else ""

    @property
    def _is_damp(self) -> bool:
        return float(self._bench.humidity) > DAMP_PCT

    @property
    def cautions(self) -> Iterator[str]:
        """Rags, vapours, and the dust of these woods."""
        if self.usual.oily:
            yield RAGS
        if self.times.coats:
            yield AIR if self._bench.finish_kind in SOLVENT else PLAIN_AIR
        yield DUST
        yield from dict.fromkeys(note for frame in self.project.frames for note in dust_notes(frame.species))

    @property
    def rags(self) -> str:
        """What is said at each coat of a finish whose rags catch fire by themselves."""
        return "Rags: spread flat or in water." if self.usual.oily else ""

    @property
    def _words(self) -> Words:
        return self.project.shop.words


def _days(count: int) -> str:
    return "1 day" if count == 1 else f"{count} days"
