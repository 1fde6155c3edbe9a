"""The sides as cut: how well they close, which end to shave, which sides of a batch go together."""

from collections.abc import Iterable

from framecalc.corners.closing import ASSUMPTIONS, Closing, least_worst_gap_mm
from framecalc.corners.shaving import MemberEnd, MitreEnd, Recut, Shave
from framecalc.plan.corners.sides_as_cut import PartsPlan
from webapp.pages.corners.groups.context import DERIVED, AnswerGroup, Big, CornersContext, Table, degrees, error, plural

CORNER_OF_END = {
    ("top", MemberEnd.START): "top left",
    ("top", MemberEnd.FINISH): "top right",
    ("right", MemberEnd.START): "top right",
    ("right", MemberEnd.FINISH): "bottom right",
    ("bottom", MemberEnd.START): "bottom right",
    ("bottom", MemberEnd.FINISH): "bottom left",
    ("left", MemberEnd.START): "bottom left",
    ("left", MemberEnd.FINISH): "top left",
}
"""The corner that an end of a side is at; sides go clockwise from the top as seen from the front."""

SHAVING_CAUTION = (
    "Shave with a shooting board and a sharp plane, or trim with the piece clamped; a sliver cannot be held by hand."
)
"""Common practice, no source."""


def sides_as_cut(context: CornersContext) -> AnswerGroup:
    """How well four sides close, tips free or flush; which end to shave; how to pair a batch."""
    sides = context.plan.corners.parts
    batch = _batch_tables(sides), _batch_lines(sides)
    if sides.closing is None or sides.flush is None:
        return AnswerGroup(
            name="parts",
            answer="Not measured",
            is_open=True,
            does=tuple(_planned(context)),
            lines=batch[1],
            tables=batch[0],
            sources=(DERIVED,),
        )
    lines = tuple(_lines(context, sides, sides.closing, sides.flush))
    shown = 2 if sides.are_foretold else 1
    return AnswerGroup(
        name="parts",
        answer=f"Worst gap {context.gap(sides.closing.worst_gap_mm)}",
        is_open=sides.are_foretold,
        bigs=_bigs(context, sides.closing, sides.shave),
        does=lines[:shown],
        lines=(*lines[shown:], *batch[1]),
        tables=(*_answers(context, sides, sides.closing), _corner_table(context, sides.closing), *batch[0]),
        drawings=context.drawn("closing") if sides.are_four else (),
        findings=context.advice(sides.findings),
        sources=(f"{ASSUMPTIONS} {DERIVED}",),
        cautions=(SHAVING_CAUTION,) if sides.shave else (),
    )


def _planned(context: CornersContext) -> Iterable[str]:
    corners = context.plan.corners
    figures = context.plan.figures
    if corners.is_polygon:
        told = f"all {corners.sides} sides {figures['member_long'].written.full}"
    else:
        across, up = (figures[f"outside_{way}"].written.full for way in ("across", "up"))
        told = f"top and bottom {across}, left and right {up}"
    laid = " laid flat" if corners.shape.slopes else ""
    planned = f"{told} along the outer edge, and {degrees(corners.shape.end_deg)} at every long point{laid}."
    yield "Enter the sides as cut, or a test cut: this shows how the frame closes."
    yield f"As planned: {planned} A blank counts as planned."


def _bigs(context: CornersContext, closing: Closing, shave: Shave | None) -> tuple[Big, ...]:
    then = Big(label="After shaving", text=context.gap(shave.after.worst_gap_mm), says="worst gap") if shave else None
    return tuple(
        filter(
            None,
            (
                Big(label="Worst gap at best", text=context.gap(closing.worst_gap_mm), says="tips free to slide"),
                Big(label="Step at the tips", text=context.gap(closing.worst_step_mm)),
                then,
            ),
        )
    )


def _lines(context: CornersContext, sides: PartsPlan, closing: Closing, flush: Closing) -> Iterable[str]:
    mitre_mm = context.plan.corners.mitre_length_mm
    if sides.are_foretold:
        yield "Nothing is measured yet: these are the sides as this saw would cut them, by its test cuts."
    if sides.shave:
        yield _shave_line(context, sides, sides.shave)
    yield f"Tips held flush by the clamps: worst gap {context.gap(flush.worst_gap_mm)}."
    many = len(sides.members)
    least_mm = least_worst_gap_mm(closing.total_error_deg, mitre_length_mm=mitre_mm, sides=many)
    ends, part = ("eight", "a quarter") if sides.are_four else (str(2 * many), f"1/{many}")
    yield (
        f"All {ends} ends together are off by {error(closing.total_error_deg)}: at best one mitre gapes by"
        f" {context.gap(least_mm)}."
    )
    yield f"Least gap: {part} of mitre length times error, however the sides are put together."


def _answers(context: CornersContext, sides: PartsPlan, closing: Closing) -> Iterable[Table]:
    """What can be done with the sides in hand, side by side."""
    answers = [("Clamp it as it is", closing)]
    if sides.recut:
        answers.append((f"Cut again, true, by a stop: {_ends_words(sides, sides.recut)}", sides.recut.after))
    if sides.shave:
        at = f"{_side(sides.shave.side)} at {_corner(sides, sides.shave.side, sides.shave.end)}"
        answers.append((f"Shave {at} by {context.gap(sides.shave.taper_mm)}", sides.shave.after))
    if len(answers) > 1:
        yield Table(
            caption="What can be done",
            heads=("Answer", "Worst gap", "Step at the tips", "Out of square"),
            rows=tuple(
                (
                    says,
                    context.gap(after.worst_gap_mm),
                    context.gap(after.worst_step_mm),
                    degrees(after.out_of_square_deg),
                )
                for says, after in answers
            ),
            is_folded=True,
        )


def _ends_words(sides: PartsPlan, recut: Recut) -> str:
    """The ends to cut again, side by side, with their corners."""
    by_side: dict[str, list[str]] = {}
    for side, end in recut.ends:
        by_side.setdefault(side, []).append(_corner(sides, side, end))
    return ", ".join(
        f"{_side(side)} at {' and '.join((corners[0], *(one.removeprefix('the ') for one in corners[1:])))}"
        for side, corners in by_side.items()
    )


def _side(name: str) -> str:
    return f"side {name}" if name.isdecimal() else f"the {name}"


def _corner(sides: PartsPlan, side: str, end: MemberEnd) -> str:
    """The corner that an end of a side is at: as on the wall, or by the two numbers that it joins."""
    if (side, end) in CORNER_OF_END:
        return f"the {CORNER_OF_END[side, end]}"
    many, number = len(sides.members), int(side)
    first = number if end is MemberEnd.FINISH else (number - 2) % many + 1
    return f"corner {first}-{first % many + 1}"


def _shave_line(context: CornersContext, sides: PartsPlan, shave: Shave) -> str:
    other = "tip" if shave.at is MitreEnd.INSIDE else "sight edge"
    corner = _corner(sides, shave.side, shave.end)
    return (
        f"Shave {_side(shave.side)}{' side at ' + corner + ' corner' if sides.are_four else ' at ' + corner}:"
        f" {context.gap(shave.taper_mm)} {shave.at}, running out to nothing at the {other}. Then the worst gap is"
        f" {context.gap(shave.after.worst_gap_mm)} and the worst step {context.gap(shave.after.worst_step_mm)}."
    )


def _corner_table(context: CornersContext, closing: Closing) -> Table:
    return Table(
        caption="Corner by corner, at their best",
        heads=("Corner", "Gap at the tips", "Gap at the sight edge", "Step"),
        rows=tuple(
            (
                corner.corner if corner.corner[0].isdecimal() else corner.corner.replace("-", " "),
                context.gap(corner.outside_gap_mm),
                context.gap(corner.inside_gap_mm),
                context.gap(abs(corner.step_mm)),
            )
            for corner in closing.corners
        ),
        is_folded=True,
    )


def _batch_lines(sides: PartsPlan) -> tuple[str, ...]:
    pairing = sides.pairing
    if pairing is None:
        return ()
    proof = (
        "No other way of grouping them is better."
        if pairing.proved
        else f"No way is better than {degrees(pairing.bound_deg)}."
    )
    frames = plural(len(pairing.frames), "frame")
    return (f"Of the batch of {frames} the worst is then off by {degrees(pairing.worst_deg)}. {proof}",)


def _batch_tables(sides: PartsPlan) -> tuple[Table, ...]:
    pairing = sides.pairing
    if pairing is None:
        return ()
    rows = tuple(
        (f"Frame {number}", ", ".join(frame.names), error(frame.total_error_deg))
        for number, frame in enumerate(pairing.frames, start=1)
    )
    return (Table(caption="Put together", heads=("Frame", "Sides", "All ends together"), rows=rows, is_folded=True),)
