"""The test cuts: the error and its direction, the fence at fault, and whether the readings are enough."""

from collections.abc import Iterable

from framecalc.corners.fences import Ends
from framecalc.corners.saw import EndCorrection, MeasuredJoint, Turn
from framecalc.corners.saw_kinds import setting_cautions
from framecalc.corners.saw_record import SawRecord, SawVerdict
from framecalc.plan.corners.saw import CutRead, SawPlan
from framecalc.sizes.shape import RECTANGLE_SIDES
from webapp.pages.corners.groups.context import (
    DERIVED,
    AnswerGroup,
    Big,
    CornersContext,
    Table,
    degrees,
    error,
    paper,
    plural,
)

SHIM_PLACE = {
    Turn.FROM_SQUARE: "between fence and stock, at the end of the fence that leads toward the blade",
    Turn.TO_SQUARE: "between fence and stock, at the end of the fence that trails",
    Turn.NONE: "",
}
_VERDICTS = {
    SawVerdict.ANOTHER_CUT: "One more cut",
    SawVerdict.LEAVE: "Leave it",
    SawVerdict.TURN: "Turn it",
    SawVerdict.UNSTEADY: "Unsteady",
}


def cuts(context: CornersContext) -> AnswerGroup:
    """The record of this saw, and the correction that it needs."""
    saw = context.plan.corners.saw
    record = saw.record(context.elsewhere_deg)
    if record is None:
        return AnswerGroup(
            name="tests",
            answer="Not read yet" if saw.unread else "None yet",
            is_open=True,
            does=(_how_to_read(context.plan.corners.sides), *_uncounted_lines(saw)),
            lines=tuple(_fence_lines(saw)),
            tables=tuple(_cut_tables(context, saw)),
            drawings=context.drawn("gaps"),
            sources=(DERIVED,),
        )
    correction = saw.correction(record)
    lines = tuple(_lines(context, saw, record, correction))
    return AnswerGroup(
        name="tests",
        answer=f"{_VERDICTS[record.verdict]}: {error(record.mean_deg)}",
        is_open=record.verdict in (SawVerdict.ANOTHER_CUT, SawVerdict.TURN),
        bigs=tuple(_bigs(context, record, correction)),
        does=lines[:2],
        lines=lines[2:],
        tables=tuple(_cut_tables(context, saw)),
        drawings=context.drawn("gaps"),
        sources=(
            DERIVED,
            "When the evidence is enough: 95% confidence by Student's interval, the spread pooled over all settings.",
        ),
        cautions=setting_cautions(context.plan.frame.corner.saw_kind),
    )


def _how_to_read(sides: int) -> str:
    """How a test cut is read before any is: at one joint, or at the last corner of a whole frame."""
    corner = "a square" if sides == len(RECTANGLE_SIDES) else f"a bevel set to {degrees(180 - 360 / sides)}"
    return (
        f"Cut a joint, hold it to {corner}, and read the gap at both ends of the mitre with a feeler: one reading alone"
        f" is not enough. Or close all corners but one tight and read the last, which shows an error {sides} times as"
        " plainly."
    )


def _bigs(context: CornersContext, record: SawRecord, correction: EndCorrection) -> Iterable[Big]:
    yield Big(label="Verdict", text=_VERDICTS[record.verdict], says=record.verdict.value)
    yield Big(label="Error of an end", text=error(record.mean_deg), says=f"mean of {plural(record.count, 'cut')}")
    if record.verdict in (SawVerdict.TURN, SawVerdict.ANOTHER_CUT) and correction.turn is not Turn.NONE:
        yield Big(label="Shim", text=context.gap(correction.shim_mm), says=paper(correction.shim_mm))


def _lines(context: CornersContext, saw: SawPlan, record: SawRecord, correction: EndCorrection) -> Iterable[str]:
    yield _turn(saw, record, correction)
    yield from _fence_lines(saw)
    if record.count + record.earlier_count > 1:
        yield (
            f"The saw repeats itself to {degrees(record.spread_deg, places=3)} (one spread, from"
            f" {plural(record.count + record.earlier_count, 'cut')} in all); the true setting lies between"
            f" {error(record.least_deg)} and {error(record.most_deg)}."
        )
        yield (
            f"As it is set now about {saw.chance_ratio(record):.0%} of frames would close to within"
            f" {context.plan.frame.corner.gap.text}, were they put together as they come."
        )
    yield from _shift_lines(context, saw, record)
    yield from _uncounted_lines(saw)


def _uncounted_lines(saw: SawPlan) -> Iterable[str]:
    """Which cuts tell nothing of this saw, and why."""
    if saw.unread:
        yield f"{_count(saw.unread)} not read yet: type both gaps, 0 where it is tight."
    if saw.taken_over:
        yield f"{_count(saw.taken_over)} from a copy, a demo or a file: not counted for your saw."


def _count(cuts: int) -> str:
    return "1 cut is" if cuts == 1 else f"{cuts} cuts are"


def _turn(saw: SawPlan, record: SawRecord, correction: EndCorrection) -> str:
    if record.verdict is SawVerdict.LEAVE or correction.turn is Turn.NONE:
        return "The error is within what you allow: leave the saw as it is."
    what = "either fence" if saw.has_two_settings else "the gauge"
    turn = (
        f"turn {what} by {degrees(correction.turn_deg, places=3)}, {correction.turn}; shim"
        f" {SHIM_PLACE[correction.turn]}"
    )
    if record.verdict is SawVerdict.TURN:
        return f"{turn[:1].upper()}{turn[1:]}. Then say below that it has been turned, and cut again."
    if record.verdict is SawVerdict.UNSTEADY:
        return "No setting mends this: look for play in the gauge, a stock that creeps, a blade that bends."
    return f"So far it looks as if you should {turn}. Cut once more before you turn it."


def _fence_lines(saw: SawPlan) -> Iterable[str]:
    if not saw.has_two_settings:
        return
    if saw.fences is None:
        yield (
            "To see which fence is off, cut a joint with both its ends on one fence, one piece turned over, and add it"
            " here. The frame itself asks only for the two together."
        )
    else:
        fences = saw.fences
        yield (
            f"The left fence is off by {error(fences.left_deg)}, the right one by {error(fences.right_deg)}: turn"
            f" the {fences.further_off} one."
        )


def _shift_lines(context: CornersContext, saw: SawPlan, record: SawRecord) -> Iterable[str]:
    """The shift that one reading alone mistakes for an error; for rectangles only."""
    corners = context.plan.corners
    if corners.is_polygon:
        return
    across_mm, up_mm = corners.outside_mm
    shift_mm = saw.shift_mm(record, outside_across_mm=across_mm, outside_up_mm=up_mm)
    if shift_mm > 0:
        yield (
            f"With three corners tight and their tips level the last joint of this frame also stands apart by"
            f" {context.gap(shift_mm)}, far more than its gap of {context.gap(saw.last_wedge_mm(record))}:"
            " read both ends."
        )
    elif shift_mm < 0:
        yield (
            "Ends cut short of the angle overlap instead of gaping: with three corners tight and their tips level"
            " the last"
            f" one would run in by {context.gap(-shift_mm)}. Let the tips slide, then read both ends."
        )


def _cut_tables(context: CornersContext, saw: SawPlan) -> Iterable[Table]:
    old = [read for read in saw.cuts if not read.is_current]
    for caption, cuts in (
        ("Cuts at this setting", [read for read in saw.cuts if read.is_current]),
        ("Cuts before the fence was turned, or the saw changed", [read for read in old if not read.cut.taken_over]),
        ("Cuts from elsewhere, not counted", [read for read in old if read.cut.taken_over]),
    ):
        if cuts:
            heads = ("Cut", "At the tips", "At the sight edge", "Error of an end")
            rows = tuple(_row(number, read, saw) for number, read in enumerate(cuts, start=1))
            yield Table(caption=caption, heads=heads, rows=rows, is_folded=True)


def _row(number: int, read: CutRead, saw: SawPlan) -> tuple[str, ...]:
    how = "" if read.cut.tried is MeasuredJoint.ONE_JOINT else ", last joint"
    if saw.has_two_settings and read.cut.ends is not Ends.EACH:
        how += f", {read.cut.ends}"
    return f"{number}{how}", read.outside_gap.text, read.inside_gap.text, error(read.error_deg)
