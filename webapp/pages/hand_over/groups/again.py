"""The same once more: what was learnt this time and the last, and everything of the job in one folder."""

from collections.abc import Iterator
from contextlib import suppress

from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan
from framecalc.units import describe_length
from framecalc.words import Wording, capitalised, joined, typed, worded
from webapp.live.answers import AnswerGroup, Table, plural
from webapp.pages.hand_over.groups.context import HandOverContext


def again(context: HandOverContext) -> AnswerGroup:
    """What differed, and how to make the same once more."""
    now, last = tuple(lessons_of(context.plan)), context.typed.last
    return AnswerGroup(
        name="again",
        answer=plural(len(now), "thing") + " written down" if now else "Nothing written down",
        does=("Blank: as it is. A new job begins with this frame; hours, marks and dedication stay here.",),
        tables=tuple(_tables(now, last)),
    )


def _tables(now: tuple[Wording, ...], last: tuple[str, ...]) -> Iterator[Table]:
    for caption, lines in (("The last time", tuple(map(typed, last))), ("This time", now)):
        if lines:
            rows = tuple((str(number), line) for number, line in enumerate(lines, start=1))
            yield Table(caption=caption, heads=("No.", "What differed"), rows=rows)


def lessons_of(plan: FramePlan) -> Iterator[Wording]:
    """What came out otherwise than planned, how long it took, and what the client said."""
    yield from _as_cut(plan)
    minutes = sum(one.minutes for one in plan.project.bench.hours)
    if minutes:
        hours, rest = divmod(minutes, 60)
        yield worded("Hours of the whole job: {hours} h {rest} min.", hours=hours, rest=rest)
    if said := plan.frame.hand_over.said:
        yield joined("", ["The client: ", typed(" ".join(said.split()))])


def _as_cut(plan: FramePlan) -> Iterator[Wording]:
    """Each quantity that came out otherwise than planned."""
    with suppress(FrameCalcError):
        for one in plan.as_cut.ranges:
            if not one.is_as_planned:
                sizes = (one.least_mm, one.greatest_mm, one.planned_mm)
                least, most, planned = (describe_length(size_mm, unit=plan.unit) for size_mm in sizes)
                came = least if least == most else f"{least} to {most}"
                yield worded(
                    "{quantity}: {came}, planned {planned}.",
                    quantity=capitalised(one.quantity.value),
                    came=came,
                    planned=planned,
                )
