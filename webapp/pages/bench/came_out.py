"""What came out beside the plan: each measurement of a frame, and what it does to the rest."""

from collections.abc import Iterator

from framecalc.bench.as_cut import Quantity
from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan
from framecalc.plan.advice import sentence_of
from framecalc.records import Record
from framecalc.units import describe_length
from framecalc.words import joined
from webapp.live.days import written_when


class CameOutView(Record):
    """One measurement: of which frame and piece, what was planned and what came out, and when."""

    frame_id: str
    id: str
    frame: str
    side: str
    quantity: str
    planned: str
    as_cut: str
    when: str


def side_words(side: str) -> str:
    """A side by its name, or by its number.

    >>> side_words("all sides"), side_words("3")
    ('All sides', 'Side 3')
    """
    return f"Side {side}" if side.isdecimal() else side.capitalize()


def effects_of(plan: FramePlan) -> Iterator[str]:
    """What came out otherwise than planned, and what it does, in sentences."""
    try:
        for finding in plan.as_cut.findings:
            said = sentence_of(finding, step=plan.step, words=plan.project.shop.words)
            yield joined(": ", [plan.frame.name, said])
    except FrameCalcError:
        return


def came_out(plan: FramePlan) -> Iterator[CameOutView]:
    """What was measured of a frame, the newest first."""
    for one in reversed(plan.frame.as_cut):
        yield CameOutView(
            frame_id=plan.frame.id,
            id=one.id,
            frame=plan.frame.name,
            side=side_words(one.side),
            quantity=one.quantity.value.capitalize(),
            planned=_planned(plan, one.quantity),
            as_cut=one.size.text,
            when=written_when(one.when),
        )


def _planned(plan: FramePlan, quantity: Quantity) -> str:
    try:
        planned_mm = plan.as_cut.planned_mm
    except FrameCalcError:
        return ""
    return describe_length(planned_mm[quantity], unit=plan.unit) if quantity in planned_mm else ""
