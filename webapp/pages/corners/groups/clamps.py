"""The frame in its clamps: square, flat, pressed."""

from collections.abc import Iterable

from framecalc.corners.clamping import CLAMP_CAUTION, USUAL_PRESSURE_RANGE_MPA, Ratchet, Strap
from framecalc.corners.squareness import TAPE_MM, Squareness, SquarenessVerdict
from framecalc.measures import Kind
from framecalc.plan.corners.clamping import ClampsPlan
from framecalc.units import Unit
from webapp.pages.corners.groups.context import (
    DERIVED,
    USUAL_PRACTICE,
    AnswerGroup,
    Big,
    CornersContext,
    Table,
    degrees,
)

OFF_SQUARE_CAUTION = (
    "Squeeze a frame along a diagonal a little at a time: a clamp across two tips can slip off or crush them."
)
"""Common practice, no source."""

_NOT_MEASURED = "Not measured"
_WORDS = {
    SquarenessVerdict.MISREAD: "Read again",
    SquarenessVerdict.SIDES_DIFFER: "Sides differ",
    SquarenessVerdict.OUT_OF_SQUARE: "Out of square",
    SquarenessVerdict.SQUARE: "Square",
}


def clamps(context: CornersContext) -> AnswerGroup:
    """Square by the six measures, flat by the rock, pressed by the strap."""
    held = context.plan.corners.clamps
    lines = (*_square_lines(context, held), *_wind_lines(context, held), *_strap_lines(context, held))
    return AnswerGroup(
        name="clamps",
        answer=_WORDS[held.squareness.verdict] if held.squareness else _NOT_MEASURED,
        is_open=held.squareness is None,
        bigs=_bigs(context, held),
        does=lines[:2],
        lines=lines[2:],
        tables=tuple(_strap_tables(context, held)),
        drawings=context.drawn(*(["lean"] if held.is_rectangle else []), *(["strap"] if held.strap else [])),
        findings=context.advice(held.findings),
        sources=_sources(context, held),
        cautions=(CLAMP_CAUTION, OFF_SQUARE_CAUTION),
    )


def _bigs(context: CornersContext, held: ClampsPlan) -> tuple[Big, ...]:
    if not held.is_rectangle:
        return _polygon_bigs(context)
    if held.squareness is None:
        diagonal = f"{context.plan.said(held.planned_diagonal_mm)} {context.plan.unit}"
        return (
            Big(label="Outside, when square", text=context.plan.size("outside"), says="as planned"),
            Big(label="Both diagonals", text=diagonal, says="as planned"),
        )
    square = held.squareness
    return (
        Big(label="Verdict", text=_WORDS[square.verdict], says=_what_to_do(square)),
        Big(label="Out of square", text=degrees(abs(square.skew_deg)), says="by the diagonals"),
        Big(label="It forces a gap of", text=context.gap(held.forced_gap_mm), says="on true mitres"),
        Big(label="It takes a clearance of", text=context.say(held.clearance_lost_mm), says="in each direction"),
    )


def _polygon_bigs(context: CornersContext) -> tuple[Big, ...]:
    figures = context.plan.figures
    return (
        Big(
            label="Across the flats",
            text=figures["outside_flats"].written.full,
            says="outside, as planned",
        ),
        Big(
            label="From corner to corner",
            text=figures["outside_corners"].written.full,
            says="round it, as planned",
        ),
    )


def _what_to_do(square: Squareness) -> str:
    if square.verdict is SquarenessVerdict.OUT_OF_SQUARE:
        return f"squeeze {square.squeeze.split(',')[0]}"
    return square.verdict.value


def _square_lines(context: CornersContext, held: ClampsPlan) -> Iterable[str]:
    square = held.squareness
    if not held.is_rectangle:
        across = "the middle of the side across" if context.plan.corners.sides % 2 else "the corner across"
        yield f"Measure from each corner to {across}: all alike, and the frame is true."
        return
    if square is None:
        yield (
            f"Measured: {held.measured_count} of 6. Compare opposite sides first: a frame that is wider at the top has"
            " equal diagonals, yet no square corner."
        )
        return
    yield (
        f"Top and bottom differ by {context.say(abs(square.across_difference_mm))}, left and right by"
        f" {context.say(abs(square.up_difference_mm))}, the diagonals by"
        f" {context.say(abs(square.diagonal_difference_mm))}."
    )
    yield from _lean_lines(context, held, square)


def _lean_lines(context: CornersContext, held: ClampsPlan, square: Squareness) -> Iterable[str]:
    if square.verdict is SquarenessVerdict.OUT_OF_SQUARE:
        yield f"Slacken, squeeze {square.squeeze}, tighten, and measure again."
    if square.verdict in (SquarenessVerdict.OUT_OF_SQUARE, SquarenessVerdict.SQUARE):
        sizes = context.plan.sizes
        left_mm = min(sizes.clearance_across_mm, sizes.clearance_up_mm) - held.clearance_lost_mm
        if left_mm >= 0:
            yield f"A square artwork, turned a little, still has {context.say(left_mm)} of clearance."


def _wind_lines(context: CornersContext, held: ClampsPlan) -> Iterable[str]:
    wind = held.wind
    if wind is None:
        return
    yield (
        f"It is twisted by {degrees(abs(wind.twist_across_deg))} across and {degrees(abs(wind.twist_up_deg))} up. Most"
        f" likely: {wind.cause}."
    )
    if not wind.by_member_mm and not wind.by_mitre_mm:
        return
    yield (
        f"A member as wound as typed lifts a corner by {context.say(wind.by_member_mm)} at most, a mitre as open as"
        " typed by"
        f" {context.say(wind.by_mitre_mm)}."
    )


def _strap_lines(context: CornersContext, held: ClampsPlan) -> Iterable[str]:
    if held.usual_pulls_n and held.strap is None:
        low, high = (_pull(context, pull_n) for pull_n in held.usual_pulls_n)
        yield (
            f"A strap pulled with {low} to {high} gives the weakest mitre its usual pressure; one that fits without a"
            " gap holds with less."
        )
    if held.strap is None or held.eased is None:
        return
    yield (
        f"Without friction every mitre would be pressed alike, with {_pull(context, held.frictionless_n)}; with it the"
        f" weakest gets {held.strap.evenness_ratio:.0%} of the strongest: the {_weakest(context, held.strap)}."
    )
    yield (
        f"Let the ratchet down to {_pull(context, held.eased.tensions_n[0])} and it is"
        f" {held.eased.evenness_ratio:.0%}, the"
        f" weakest with {_pull(context, held.eased.weakest_n)}: near parts of the strap go slack first. Tightening"
        " again brings the old pattern back."
    )
    if held.pressure and held.usual_pulls_n:
        low, high = (_pull(context, pull_n) for pull_n in held.usual_pulls_n)
        yield f"The weakest mitre is pressed {held.pressure.pressing}; {low} to {high} would be usual."


def _strap_tables(context: CornersContext, held: ClampsPlan) -> Iterable[Table]:
    if held.strap is None or held.eased is None:
        return
    area_mm2 = context.plan.corners.stock.mitre_area_mm2 if context.plan.corners.stock else 0.0
    rows = []
    for name, force_n, eased_n in zip(_corner_names(context), held.strap.forces_n, held.eased.forces_n, strict=True):
        pressure = _pressure(context, force_n / area_mm2) if area_mm2 else "–"
        rows.append((name, _pull(context, force_n), pressure, _pull(context, eased_n)))
    yield Table(
        caption="What presses each mitre",
        heads=("Corner, counted from the ratchet", "Force", "Pressure", "Force when let down"),
        rows=tuple(rows),
        is_folded=True,
    )


def _corner_names(context: CornersContext) -> list[str]:
    sides, ratchet = context.plan.corners.sides, context.plan.corners.clamps.ratchet
    names = [f"{_ORDINALS.get(number, f'{number}th')}" for number in range(1, sides + 1)]
    if ratchet is Ratchet.AT_A_CORNER:
        names[-1] = "at the ratchet"
    return names


_ORDINALS = {1: "1st", 2: "2nd", 3: "3rd"}


def _weakest(context: CornersContext, strap: Strap) -> str:
    weak = [
        name
        for name, force_n in zip(_corner_names(context), strap.forces_n, strict=True)
        if force_n < strap.weakest_n * 1.001
    ]
    return f"{' and '.join(weak)}, counted from the ratchet"


def _pull(context: CornersContext, force_n: float) -> str:
    return context.measure(force_n, Kind.FORCE)


def _pressure(context: CornersContext, pressure_mpa: float) -> str:
    return context.measure(pressure_mpa, Kind.PRESSURE, digits=0 if context.unit is Unit.INCH else 2)


def _usual(context: CornersContext, pressure_mpa: float) -> str:
    """A usual pressure in round numbers: tens of psi, tenths of MPa."""
    if context.unit is Unit.MM:
        return context.measure(pressure_mpa, Kind.PRESSURE, digits=1)
    return f"{round(int(context.measure(pressure_mpa, Kind.PRESSURE).split()[0]), -1)} psi"


def _sources(context: CornersContext, held: ClampsPlan) -> tuple[str, ...]:
    low, high = (_usual(context, pressure_mpa) for pressure_mpa in USUAL_PRESSURE_RANGE_MPA)
    tape = f"A tape reads to {TAPE_MM} mm at best: {USUAL_PRACTICE}."
    if held.strap is None:
        return (DERIVED, tape)
    usual = f"Usual on a glue line: {low} to {high}; friction 0.2 to 0.3: {USUAL_PRACTICE}."
    return (DERIVED, tape, f"Belt friction: any textbook of mechanics. {usual}")
