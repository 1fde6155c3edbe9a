"""What the corners page shows beside its fields: for each group the lines, the drawing, the cautions, the findings.

A group whose numbers describe nothing that can be made says so in its own place; the others go on.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from framecalc.clamping import CLAMP_CAUTION
from framecalc.closing import ASSUMPTIONS, least_worst_gap_mm
from framecalc.drawing.corner_page import draw_closing, draw_mitre_face, draw_year
from framecalc.errors import FrameCalcError
from framecalc.joints.splines import SLED_CAUTIONS
from framecalc.plan import FramePlan
from framecalc.plan.advice import Advice, advise
from framecalc.saw import CUTTING_CAUTIONS, Tolerance, Turn
from framecalc.seasons import FREE_MOVEMENT
from framecalc.units import Unit, describe_length
from webapp.answer import Answer
from webapp.corner_fields import SIDES
from webapp.desk import Opened
from webapp.render import drawing
from webapp.slots import field_views, slots_of

NO_DRAWING = Markup("")


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """What one group of the page says: its lines, a drawing, cautions, and whether it refuses instead."""

    name: str
    lines: tuple[str, ...] = ()
    svg: Markup = NO_DRAWING
    cautions: tuple[str, ...] = ()
    refuses: bool = False


def corner_shown(opened: Opened, answer: Answer, *, notice: str = "", renews: bool = False) -> dict[str, Any]:
    """Everything the corners page shows."""
    good = answer.is_good
    return {
        "opened": opened,
        "answer": answer,
        "project": answer.project,
        "frame": answer.frame,
        "base": opened.revision.number,
        "words": answer.project.shop.words,
        "address": corners_address(opened.project_id, answer.frame.id),
        "fields": {path.removeprefix("corner."): view for path, view in field_views(answer).items()},
        "slots": tuple(slots_of(answer)),
        "groups": groups_of(answer.plan) if good else {},
        "findings": _worded(answer.plan) if good else (),
        "messages": answer.messages,
        "tests": tuple(test.id for test in answer.frame.corner.tests),
        "sides": SIDES,
        "notice": notice,
        "renews": renews,
        "unit": answer.project.unit.value,
        "kept": "" if good else "as before",
        "where": lambda path: "",
    }


def corners_address(project_id: str, frame_id: str) -> str:
    """The address of the corners page of a frame."""
    return f"/projects/{project_id}/frames/{frame_id}/corners"


def groups_of(plan: FramePlan) -> dict[str, Group]:
    """Every group of the page, by name."""
    return {name: _group(plan, name, says) for name, says in _GROUPS.items()}


def _group(plan: FramePlan, name: str, says: Callable[[FramePlan], Group]) -> Group:
    try:
        return says(plan)
    except FrameCalcError as refusal:
        lengths = {key: _say(plan, length_mm) for key, length_mm in refusal.lengths.items()}
        sentence = refusal.wording.format_map(lengths) if lengths else refusal.sentence
        return Group(name=name, lines=(sentence,), refuses=True)


def _angles(plan: FramePlan) -> Group:
    flat, propped = plan.corners.sloping
    corner = plan.frame.corner
    lines = [f"This frame: {plan.corners.gauge.from_square_deg:g}° from a square cut."]
    if corner.polygon != 4 or corner.slope:
        lines += [
            f"{corner.polygon} sides at a slope of {corner.slope:g}°, stock flat on the table: gauge"
            f" {flat.mitre_deg:.2f}° from square ({90 - flat.mitre_deg:.2f}° on a gauge that reads from 90),"
            f" blade tilted {flat.tilt_deg:.2f}°.",
            f"Stock propped at its slope: gauge {propped.mitre_deg:.2f}° from square, blade upright.",
        ]
    return Group(name="angles", lines=tuple(lines), cautions=CUTTING_CAUTIONS)


def _tolerance(plan: FramePlan) -> Group:
    tolerance = plan.corners.tolerance
    who = "left and right together" if tolerance.together else "every end"
    return Group(name="tolerance", lines=tuple(_tolerance_lines(plan, tolerance, who)))


def _tolerance_lines(plan: FramePlan, tolerance: Tolerance, who: str) -> Iterable[str]:
    fence = plan.project.shop.fence_length.text
    yield f"Mitre length {_say(plan, plan.corners.mitre_length_mm)}, fence {fence}."
    yield (
        f"If the clamps share the error out, {who} may be off by {tolerance.shared_deg:.3f}°:"
        f" {_paper(tolerance.shared_shim_mm)} at the end of the fence."
    )
    yield (
        f"If it all lands in the last corner and the members may slide along their mitres: {tolerance.last_deg:.3f}°,"
        f" {_paper(tolerance.last_shim_mm)}."
    )


def _tests(plan: FramePlan) -> Group:
    corners = plan.corners
    if corners.record is None or corners.correction is None:
        return Group(name="tests", lines=("No test cut yet. Read both gaps of one joint: one alone says nothing.",))
    record, correction = corners.record, corners.correction
    lines = [f"Cut {number}: {error:+.3f}° in each end." for number, error in enumerate(corners.errors_deg, start=1)]
    lines.append(f"{record.count} cuts, mean {record.mean_deg:+.3f}°: {record.evidence}.")
    if record.count > 1:
        lines.append(
            f"Spread {record.spread_deg:.3f}°; the mean lies in {record.least_deg:+.3f}° to {record.most_deg:+.3f}°."
        )
    if correction.turn is not Turn.NONE:
        which = "one of the fences" if corners.tolerance.together else "the gauge"
        lines.append(
            f"Turn {which} {correction.turn_deg:.3f}°, {correction.turn}:"
            f" {_paper(correction.shim_mm)} at the end of the fence."
        )
    return Group(name="tests", lines=tuple(lines), cautions=CUTTING_CAUTIONS[-1:])


def _parts(plan: FramePlan) -> Group:
    closing, flush = plan.corners.closing, plan.corners.closing_flush
    if closing is None or flush is None:
        return Group(name="parts", lines=("Nothing measured yet: what stays blank is taken as planned.",))
    least_mm = least_worst_gap_mm(closing.total_error_deg, mitre_length_mm=plan.corners.mitre_length_mm)
    lines = [
        f"All eight ends together: {closing.total_error_deg:+.2f}°. No way of closing beats a gap of {_mm(least_mm)}.",
        f"Tips free to slide: worst gap {_mm(closing.worst_gap_mm)}, worst step {_mm(closing.worst_step_mm)}.",
        f"Tips held flush: worst gap {_mm(flush.worst_gap_mm)}.",
    ]
    shave = plan.corners.shave
    if shave:
        lines.append(
            f"Shave the {shave.end} of the {shave.side} {shave.at} by {_mm(shave.taper_mm)}, running out to nothing:"
            f" the worst gap is then {_mm(shave.after.worst_gap_mm)}."
        )
    return Group(name="parts", lines=(*lines, ASSUMPTIONS), svg=drawing(draw_closing(plan.corners, unit=plan.unit)))


def _clamps(plan: FramePlan) -> Group:
    corners = plan.corners
    lines: list[str] = []
    if corners.squareness:
        square = corners.squareness
        lines.append(f"{square.verdict[:1].upper()}{square.verdict[1:]}.")
        lines.append(
            f"Opposite sides differ by {_say(plan, abs(square.across_difference_mm))} across and"
            f" {_say(plan, abs(square.up_difference_mm))} up, the diagonals by"
            f" {_say(plan, abs(square.diagonal_difference_mm))}: {abs(square.skew_deg):.2f}° from square."
        )
        lines.append(f"Squeeze: {square.squeeze}.")
        lines.append(f"It takes {_say(plan, corners.clearance_lost_mm)} of the clearance in each direction.")
    else:
        lines.append("Type all six: opposite sides come first, since equal diagonals alone prove nothing.")
    if corners.strap and corners.pressure:
        pressure = corners.pressure
        lines.append(
            f"The strap presses {corners.strap.weakest_n:.0f} N at its weakest corner, {pressure.least_mpa:.2f} to"
            f" {pressure.most_mpa:.2f} MPa on the mitres: {pressure.pressing} (common practice)."
        )
    return Group(name="clamps", lines=tuple(lines), cautions=(CLAMP_CAUTION,))


def _joint(plan: FramePlan) -> Group:
    corners = plan.corners
    if not corners.is_rabbeted:
        return Group(name="joint", lines=("Joints are placed here for rabbeted members; a tray is jointed as a box.",))
    lines = [*_slot_lines(plan), *_spline_lines(plan)]
    if corners.strength:
        least, most = corners.strength.least_ratio, corners.strength.most_ratio
        lines.append(f"Relative to the bare mitre, by glue area and grain alone: {least:.1f} to {most:.1f} times.")
    if corners.slots:
        fits = [place.slot.name for place in corners.fitting_slots]
        lines.append(
            f"Leave sound walls here, the largest first: {', '.join(fits)}." if fits else "No ready size fits here."
        )
    shown = corners.slot_place or corners.spline
    return Group(
        name="joint",
        lines=tuple(lines) or ("A bare mitre, held by glue alone.",),
        svg=drawing(draw_mitre_face(corners, unit=plan.unit)) if shown else NO_DRAWING,
        cautions=SLED_CAUTIONS if corners.spline else (),
    )


def _slot_lines(plan: FramePlan) -> Iterable[str]:
    place, length = plan.corners.slot_place, plan.corners.tenon_length
    if place:
        marks, walls = place.marks, place.walls
        sound = "sound" if walls.sound else "not sound"
        yield (
            f"Set-up: depth {_say(plan, place.slot.depth_mm)}, middle {_say(plan, place.height_mm)} above the back,"
            f" marks at {_say(plan, marks.near_mm)}, {_say(plan, marks.centre_mm)} and {_say(plan, marks.far_mm)}"
            " from the tip."
        )
        yield (
            f"Walls: outer {_say(plan, walls.outer_mm)}, inner {_say(plan, walls.inner_mm)}, back"
            f" {_say(plan, walls.back_mm)}, face {_say(plan, walls.face_mm)}: {sound}."
        )
    if length:
        trim = f"trim {_say(plan, length.trim_mm)}" if length.trim_mm > 0 else "no trimming"
        yield f"Longest tenon {_say(plan, length.longest_mm)} with its glue room: {trim}."


def _spline_lines(plan: FramePlan) -> Iterable[str]:
    spline = plan.corners.spline
    if spline:
        yield (
            f"Blade {_say(plan, spline.blade_mm)} above the table; {_say(plan, spline.visible_mm)} shows on each outer"
            f" edge; at most {_say(plan, spline.deepest_mm)} deep with its wall."
        )
        blank = spline.blank
        yield (
            f"Blank {_say(plan, blank.length_mm)} × {_say(plan, blank.width_mm)},"
            f" {_say(plan, blank.thickness_mm)} thick, its grain across the corner."
        )


def _seasons(plan: FramePlan) -> Group:
    corners = plan.corners
    year, levers, species = corners.year, corners.levers, corners.species
    if year is None or levers is None or species is None:
        return Group(name="seasons", lines=("Choose a wood to see how far the corners would open through the year.",))
    lines = (
        f"Put together at {corners.assembled_pct:.1f} % moisture: at most {_mm(year.inside_mm)} open at the inside,"
        f" {_mm(year.outside_mm)} at the outside.",
        FREE_MOVEMENT,
        f"Quarter-sawn: {_mm(levers.quarter_sawn_mm)}. Put together at {levers.best_moisture_pct:.1f} %:"
        f" {_mm(levers.settled_mm)}. Members of {_say(plan, levers.widest_mm)} keep within the gap you allow.",
        f"A spline of the depth typed holds {levers.held_ratio:.0%} of the mitre." if levers.held_ratio else "",
        f"{species.common_name}: {_STATUS.get(species.coefficient_status, species.coefficient_status)}.",
    )
    return Group(name="seasons", lines=tuple(filter(None, lines)), svg=drawing(draw_year(corners)))


_STATUS = {
    "C": "coefficients published, Wood Handbook, table 13-5",
    "D": "coefficients published, Wood Handbook, table 13-5",
    "F": "coefficients of the Wood Handbook from memory, agreeing with its shrinkage",
    "M": "coefficients from memory, not re-read: measure before you trust them",
}
_GROUPS: dict[str, Callable[[FramePlan], Group]] = {
    "angles": _angles,
    "tolerance": _tolerance,
    "tests": _tests,
    "parts": _parts,
    "clamps": _clamps,
    "joint": _joint,
    "seasons": _seasons,
}


def _worded(plan: FramePlan) -> tuple[Advice, ...]:
    """The findings of the corners, in words; a group that refuses has none."""
    try:
        findings = plan.corners.findings
    except FrameCalcError:
        return ()
    return advise(
        findings,
        step=plan.step,
        words=plan.project.shop.words,
        path_of=lambda argument: argument,
        holds=lambda path, text: False,
    )


def _say(plan: FramePlan, length_mm: float) -> str:
    return describe_length(length_mm, unit=plan.unit)


def _mm(length_mm: float) -> str:
    """A gap, which is read by feeler in millimetres whatever the unit of the project."""
    return describe_length(max(length_mm, 0.0), unit=Unit.MM)


def _paper(shim_mm: float) -> str:
    return f"a shim of {_mm(shim_mm)}"
