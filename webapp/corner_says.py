"""What each group of the corners page says: its lines, a drawing, cautions.

A group whose numbers describe nothing that can be made says so in its own place; the others go on.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from markupsafe import Markup

from framecalc.clamping import CLAMP_CAUTION
from framecalc.closing import ASSUMPTIONS, least_worst_gap_mm
from framecalc.drawing.corner_page import draw_closing, draw_mitre_face, draw_polygon, draw_year
from framecalc.errors import FrameCalcError
from framecalc.joints.splines import SLED_CAUTIONS
from framecalc.plan import FramePlan
from framecalc.plan.joint import JointPlan
from framecalc.plan.seasons import SeasonsPlan
from framecalc.polygons import member_of_polygon, sloped_side
from framecalc.saw import CUTTING_CAUTIONS, Tolerance, Turn
from framecalc.seasons import FREE_MOVEMENT
from framecalc.units import Unit, describe_length
from webapp.render import drawing

NO_DRAWING = Markup("")


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """What one group of the page says: its lines, a drawing, cautions, and whether it refuses instead."""

    name: str
    lines: tuple[str, ...] = ()
    svg: Markup = NO_DRAWING
    cautions: tuple[str, ...] = ()
    refuses: bool = False


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
    polygon = plan.corners.polygon
    if polygon:
        member = member_of_polygon(polygon)
        lines.append(
            f"Lying flat: {polygon.sides} members of {_say(plan, member.long_mm)} long points,"
            f" {_say(plan, member.short_mm)} short points;"
            f" outside {_say(plan, polygon.outside_flats_mm)} across the flats,"
            f" {_say(plan, polygon.outside_corners_mm)} across the corners."
        )
    if polygon and corner.slope:
        side = sloped_side(
            sides=polygon.sides,
            wide_flats_mm=polygon.outside_flats_mm,
            face_width_mm=plan.sizes.face_width_mm,
            slope_deg=float(corner.slope),
        )
        lines.append(
            f"Sloping: {side.count} sides of {_say(plan, side.long_mm)} along the wide edge,"
            f" {_say(plan, side.short_mm)} along the narrow one, rising {_say(plan, side.rise_mm)}."
        )
    if corner.lean:
        lines.append(f"A blade {corner.lean:g}° out of upright opens {_mm(plan.corners.blade_gap_mm)} front to back.")
    svg = drawing(draw_polygon(plan.corners, unit=plan.unit)) if polygon else NO_DRAWING
    return Group(name="angles", lines=tuple(lines), svg=svg, cautions=CUTTING_CAUTIONS)


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
    cuts = "One cut" if record.count == 1 else f"{record.count} cuts"
    lines.append(f"{cuts}, mean {record.mean_deg:+.3f}°: {record.evidence}.")
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
    batch = tuple(_batch_lines(plan))
    if closing is None or flush is None:
        return Group(name="parts", lines=("Nothing measured yet: what stays blank is taken as planned.", *batch))
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
    return Group(name="parts", lines=(*lines, *batch, ASSUMPTIONS), svg=drawing(draw_closing(plan.corners)))


def _batch_lines(plan: FramePlan) -> Iterable[str]:
    pairing = plan.corners.pairing
    if pairing is None:
        return
    proof = "no other way is better" if pairing.proved else f"no way is better than {pairing.bound_deg:.2f}°"
    yield f"Of the batch, the worst frame is {pairing.worst_deg:.2f}° off; {proof}."
    for group in pairing.frames:
        yield f"Together: {', '.join(group.names)} ({group.total_error_deg:+.2f}°)."


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
    if corners.wind:
        lines.append(
            f"Twist {abs(corners.wind.twist_across_deg):.2f}° across, {abs(corners.wind.twist_up_deg):.2f}° up:"
            f" {corners.wind.cause}."
        )
    if corners.strap and corners.pressure:
        pressure = corners.pressure
        lines.append(
            f"The strap presses {corners.strap.weakest_n:.0f} N at its weakest corner, {pressure.least_mpa:.2f} to"
            f" {pressure.most_mpa:.2f} MPa on the mitres: {pressure.pressing} (common practice)."
        )
    return Group(name="clamps", lines=tuple(lines), cautions=(CLAMP_CAUTION,))


def _joint(plan: FramePlan) -> Group:
    joint = plan.corners.joint
    if joint is None:
        return Group(name="joint", lines=("Joints are placed here for rabbeted members; a tray is jointed as a box.",))
    lines = [
        *_slot_lines(plan, joint),
        *_spline_lines(plan, joint),
        *_lap_lines(plan, joint),
        *_pin_lines(plan, joint),
    ]
    if joint.strength:
        least, most = joint.strength.least_ratio, joint.strength.most_ratio
        lines.append(f"Relative to the bare mitre, by glue area and grain alone: {least:.1f} to {most:.1f} times.")
    if joint.slots:
        fits = [place.slot.name for place in joint.fitting_slots]
        best = f"Leave sound walls here, the largest first: {', '.join(fits)}."
        lines.append(best if fits else "No ready size leaves sound walls here.")
    shown = joint.slot_place or joint.spline
    return Group(
        name="joint",
        lines=tuple(lines) or ("A bare mitre, held by glue alone.",),
        svg=drawing(draw_mitre_face(plan.corners, unit=plan.unit)) if shown else NO_DRAWING,
        cautions=SLED_CAUTIONS if joint.spline else (),
    )


def _slot_lines(plan: FramePlan, joint: JointPlan) -> Iterable[str]:
    place, length = joint.slot_place, joint.tenon_length
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


def _spline_lines(plan: FramePlan, joint: JointPlan) -> Iterable[str]:
    spline = joint.spline
    if spline:
        yield (
            f"Spline: blade {_say(plan, spline.blade_mm)} above the table; {_say(plan, spline.visible_mm)} shows on"
            f" each outer edge; at most {_say(plan, spline.deepest_mm)} deep with its wall."
        )
        blank = spline.blank
        yield (
            f"Blank {_say(plan, blank.length_mm)} × {_say(plan, blank.width_mm)},"
            f" {_say(plan, blank.thickness_mm)} thick, its grain across the corner."
        )


def _lap_lines(plan: FramePlan, joint: JointPlan) -> Iterable[str]:
    if joint.half_lap:
        lap = joint.half_lap
        yield (
            f"Half-lap: split {_say(plan, lap.split_mm)} above the back, laps {_say(plan, lap.lap_mm)} long; the member"
            f" underneath is cut {_say(plan, lap.long_mm)} long."
        )
    if joint.bridle:
        bridle = joint.bridle
        yield (
            f"Bridle: tenon {_say(plan, bridle.tenon_mm)} thick, from {_say(plan, bridle.tenon_low_mm)} to"
            f" {_say(plan, bridle.tenon_high_mm)} above the back; slot {_say(plan, bridle.slot_depth_mm)} deep; member"
            f" {_say(plan, bridle.long_mm)} long."
        )


def _pin_lines(plan: FramePlan, joint: JointPlan) -> Iterable[str]:
    if joint.pin:
        holds, least = _say(plan, joint.pin.holds_mm), _say(plan, joint.pin.walls.least_mm)
        yield f"Pin: holds {holds} in the far member, thinnest wall {least}."
    if joint.wedge:
        yield f"Corner wedge: thinnest wall {_say(plan, joint.wedge.walls.least_mm)}."


def _seasons(plan: FramePlan) -> Group:
    seasons = plan.corners.seasons
    lines = [*_air_lines(seasons)]
    year, levers, species = seasons.year, seasons.levers, seasons.species
    if year is None or levers is None or species is None:
        lines.append("Choose a wood to see how far the corners would open through the year.")
        return Group(name="seasons", lines=tuple(lines))
    lines += [
        f"Put together at {seasons.assembled_pct:.1f} % moisture: at most {_mm(year.inside_mm)} open at the inside,"
        f" {_mm(year.outside_mm)} at the outside.",
        FREE_MOVEMENT,
        f"Quarter-sawn: {_mm(levers.quarter_sawn_mm)}. Put together at {levers.best_moisture_pct:.1f} %:"
        f" {_mm(levers.settled_mm)}. Members of {_say(plan, levers.widest_mm)} keep within the gap you allow.",
        f"A spline of the depth typed holds {levers.held_ratio:.0%} of the mitre." if levers.held_ratio else "",
        f"{species.common_name}: {_STATUS.get(species.coefficient_status, species.coefficient_status)}.",
    ]
    return Group(name="seasons", lines=tuple(filter(None, lines)), svg=drawing(draw_year(plan.corners)))


def _air_lines(seasons: SeasonsPlan) -> Iterable[str]:
    if seasons.meter:
        meter = seasons.meter
        yield (
            f"The wood is at {meter.wood_pct:.1f} %; this room would bring it to {meter.room_pct:.1f} %"
            f" ({meter.difference_pct:+.1f} %). It rests at {meter.rests_at_humidity_pct:.0f} % humidity."
        )
    if seasons.warmed_pct is not None:
        yield f"Winter air from outdoors, warmed to the room, has {seasons.warmed_pct:.0f} % humidity."


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


def _say(plan: FramePlan, length_mm: float) -> str:
    return describe_length(length_mm, unit=plan.unit)


def _mm(length_mm: float) -> str:
    """A gap, which is read by feeler in millimetres whatever the unit of the project."""
    return describe_length(max(length_mm, 0.0), unit=Unit.MM)


def _paper(shim_mm: float) -> str:
    return f"a shim of {_mm(shim_mm)}"
