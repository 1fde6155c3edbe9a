"""The bench as typed: the ways of this shop for a job, and what was measured after machining.

Every measurement is kept as it was typed, with the piece and the time; a later one of the same piece counts instead.
"""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints

from framecalc.bench.as_cut import ALL_SIDES, Quantity
from framecalc.bench.finishing import Finish
from framecalc.bench.gluing import Glue
from framecalc.bench.hours import FrameSize, WorkStep
from framecalc.bench.rabbet_ways import RabbetWay
from framecalc.bench.shop_day import Week, read_clock
from framecalc.project.fields import Count, Id, Model, Note, Part, Place, Thin, printable
from framecalc.project.label import Label, named
from framecalc.project.numbers import Celsius, Day, Humidity, Number, celsius
from framecalc.units import parse_length

MOST_MEASURED = 200
"""Measurements that a frame keeps: older ones give way."""

MOST_AGAIN = 60
"""Sides cut again that a job keeps: older ones give way."""

MOST_GLUED = 200
"""Glue-ups of which a job keeps when they were begun: older ones give way."""

MOST_HOURS = 200
"""Spells of work that a job keeps: older ones give way."""

Minutes = Annotated[int, Field(ge=1, le=999)]


def _clock(text: str) -> str:
    read_clock(text)
    return text.strip()


When = Annotated[str, AfterValidator(printable), StringConstraints(max_length=40)]
"""A time of the store, as text; blank where it is not known."""

Clock = Annotated[str, StringConstraints(max_length=5), AfterValidator(_clock)]
"""A time of the day, as typed."""


class AsCut(Model):
    """One measurement after machining: of which sides, what, how much, and when."""

    id: Id
    side: Annotated[
        str,
        StringConstraints(pattern=r"^(all sides|top|right|bottom|left|[1-9][0-9]?)$"),
        Label("Piece", is_typed=False),
    ] = ALL_SIDES
    quantity: Annotated[Quantity, Label("Measured", choices=named(Quantity), is_typed=False)]
    size: Annotated[Thin, Label("As cut", is_typed=False)]
    when: Annotated[When, Label("Measured on", is_typed=False)] = ""


class Glued(Model):
    """A glue-up that was begun: of which frame, which copy, on which day of the timetable, and at what time."""

    id: Id
    frame: Annotated[Id, Label("Frame", is_typed=False)]
    copy_number: Annotated[Count, Label("Copy", is_typed=False)] = 1
    day: Annotated[int, Field(ge=1, le=400), Label("Day of the timetable", is_typed=False)] = 1
    at: Annotated[Clock, Label("Begun at", is_typed=False)]


class CutAgain(Model):
    """A side that is cut again: of which frame and copy, how long, and from what; blank for wood that is bought.

    `source` is what is chalked on the stick whose off-cut it is, or the tag of a stick that was `on_rack`.
    """

    id: Id
    frame: Annotated[Id, Label("Frame", is_typed=False)]
    copy_number: Annotated[Count, Label("Copy", is_typed=False)] = 1
    side: Annotated[Literal["top", "right", "bottom", "left"], Label("Side", is_typed=False)]
    length: Annotated[Place, Label("Long point", is_typed=False)]
    source: Annotated[Note, Label("Cut from", is_typed=False)] = ""
    on_rack: Annotated[bool, Label("From the rack", is_typed=False)] = False


class Hours(Model):
    """Work written down as it was done: the step, how long, for how many frames of which size, and when."""

    id: Id
    step: Annotated[WorkStep, Label("Step", choices=named(WorkStep), is_typed=False)]
    minutes: Annotated[int, Field(ge=1, le=9999), Label("Minutes", is_typed=False)]
    frames: Annotated[int, Field(ge=1, le=60_000), Label("Frames", is_typed=False)] = 1
    size: Annotated[FrameSize, Label("Size", choices=named(FrameSize), is_typed=False)] = FrameSize.MEDIUM
    when: Annotated[When, Label("Written on", is_typed=False)] = ""


class Bench(Model):
    """How this job is machined, glued and finished, and how long it took."""

    rabbet_way: Annotated[
        RabbetWay,
        Label(
            "Rabbet is cut",
            "The bearing bit cuts after glue-up; with the strip nothing is cut.",
            choices=(
                (RabbetWay.ROUTER_TABLE.value, "On the router table"),
                (RabbetWay.TABLE_SAW.value, "On the table saw, two cuts"),
                (RabbetWay.BEARING.value, "With a bearing bit, after glue-up"),
                (RabbetWay.STRIP.value, "Built up, with a strip"),
            ),
        ),
    ] = RabbetWay.ROUTER_TABLE
    bit: Annotated[
        Part, Label("Straight bit, diameter", "A pass is no deeper than half of it.", mm="19", inch="3/4")
    ] = parse_length("19 mm")
    bearing_bit: Annotated[
        Part, Label("Bearing bit, diameter", "It leaves corners of half of it.", mm="35", inch="1 3/8")
    ] = parse_length("35 mm")
    glue: Annotated[Glue, Label("Glue", choices=named(Glue))] = Glue.YELLOW
    open_minutes: Annotated[
        Minutes | None, Label("Open time, minutes", "As on the bottle. Blank: the usual one of this glue.")
    ] = None
    clamped_minutes: Annotated[
        Minutes | None, Label("In the clamps, minutes", "As on the bottle. Blank: the usual time of this glue.")
    ] = None
    strong_hours: Annotated[
        Minutes | None, Label("Full strength, hours", "As on the bottle. Blank: the usual time of this glue.")
    ] = None
    closing_minutes: Annotated[
        Minutes | None,
        Label("Closing one frame, minutes", "First glue to last clamp. Blank: 1, and half a minute for each corner."),
    ] = None
    temperature: Annotated[
        Celsius,
        Label("Shop, °C", "While gluing and finishing; the wood too. °C and °F are both understood.", imperial="68 °F"),
    ] = celsius("20")
    clamp_sets: Annotated[
        Annotated[int, Field(ge=1, le=20)], Label("Clamp sets", "Straps, or sets of corner clamps: one for each frame.")
    ] = 2
    workers: Annotated[Annotated[int, Field(ge=1, le=2)], Label("Workers", "Who close frames: 1 or 2.")] = 1
    opens: Annotated[Clock, Label("Work begins", "A time of the day, such as 8:30.")] = "8:00"
    closes: Annotated[Clock, Label("Work ends")] = "17:00"
    week: Annotated[Week, Label("Days worked", "Glue sets on the others too.", choices=named(Week))] = Week.EVERY_DAY
    glue_day: Annotated[Day | None, Label("Day of the glue-up", "For the calendar. Blank: today.")] = None
    glued: Annotated[tuple[Glued, ...], Label("Glue-ups begun")] = Field(default=(), max_length=MOST_GLUED)
    cut_again: Annotated[tuple[CutAgain, ...], Label("Sides cut again")] = Field(default=(), max_length=MOST_AGAIN)
    finish_kind: Annotated[Finish, Label("Finish", choices=named(Finish))] = Finish.NONE
    coats: Annotated[Annotated[int, Field(ge=0, le=12)] | None, Label("Coats", "Blank: as usual.")] = None
    recoat_hours: Annotated[
        Number | None, Label("Next coat after, hours", "As on the tin. Blank: as usual in this air.")
    ] = None
    cure_days: Annotated[
        Annotated[int, Field(ge=0, le=120)] | None,
        Label("Cured after, days", "Until it no longer smells. Blank: as usual in this air."),
    ] = None
    humidity: Annotated[Humidity, Label("Shop, % humidity")] = Decimal(50)
    finish_day: Annotated[Day | None, Label("First coat on", "Blank: the last day on which it may begin is shown.")] = (
        None
    )
    hours: Annotated[tuple[Hours, ...], Label("Hours written down")] = Field(default=(), max_length=MOST_HOURS)
    running: Annotated[WorkStep | None, Label("Being timed", choices=named(WorkStep), is_typed=False)] = None
    running_since: Annotated[When, Label("Timed since", is_typed=False)] = ""
