"""The settings of the saw, and how exact they must be."""

from collections.abc import Iterable

from framecalc.corners.angles import Settings, spring_angle_deg
from framecalc.corners.saw import PAPER_MM, Tolerance
from framecalc.corners.saw_kinds import CUTTING_CAUTIONS
from framecalc.drawing.registry import papers_showing
from framecalc.plan.corners.corners import CornerPlan
from framecalc.plan.figures import write_short_point
from webapp.pages.corners.groups.context import (
    DERIVED,
    USUAL_PRACTICE,
    AnswerGroup,
    Big,
    CornersContext,
    Table,
    degrees,
    paper,
)

PUBLISHED = "published settings of crown mouldings (38/52 and 45) come out the same"


def angles(context: CornersContext) -> AnswerGroup:
    """Gauge settings in both ways of counting, the tilt of the blade, polygons, a blade out of upright."""
    corners = context.plan.corners
    members = tuple(_member_lines(context))
    settings = [("flat on the table", corners.flat)]
    if corners.propped:
        settings.append(("propped at its slope", corners.propped))
    return AnswerGroup(
        name="angles",
        answer=_answer(corners),
        bigs=_bigs(corners),
        tables=(_settings_table(corners, settings),) if corners.propped else (),
        does=(*_lean_lines(context), *members[:1]),
        lines=members[1:],
        drawings=context.drawn(*_drawings(corners)),
        papers=papers_showing(*_drawings(corners)),
        findings=context.advice(corners.findings_of_settings),
        sources=(
            f"180° ÷ {corners.sides} sides; sloping sides by tan M = cos S · tan, sin B = sin S · sin: {PUBLISHED}.",
        ),
        cautions=CUTTING_CAUTIONS[context.plan.frame.corner.saw_kind],
    )


def _drawings(corners: CornerPlan) -> Iterable[str]:
    yield "gauge"
    if corners.propped:
        yield "slope"
    if corners.is_polygon:
        yield "polygon"


def _answer(corners: CornerPlan) -> str:
    tilt_deg = corners.flat.tilt_deg
    blade = f", blade {degrees(tilt_deg)}" if tilt_deg else ""
    return f"Gauge {degrees(corners.gauge(corners.flat).from_square_deg)}{blade}"


def _bigs(corners: CornerPlan) -> tuple[Big, ...]:
    reads = corners.gauge(corners.flat)
    tilt_deg = corners.flat.tilt_deg
    return (
        Big(label="Gauge", text=degrees(reads.from_square_deg), says="from a square cut"),
        Big(
            label="If your gauge reads 90 at square",
            text=f"{degrees(reads.below_ninety_deg)} or {degrees(reads.above_ninety_deg)}",
            says="swung one way, or the other",
        ),
        Big(label="Blade", text=degrees(tilt_deg) if tilt_deg else "upright", says="tilt" if tilt_deg else "no tilt"),
    )


def _settings_table(corners: CornerPlan, settings: list[tuple[str, Settings]]) -> Table:
    return Table(
        caption="Settings for sides that slope",
        heads=("Stock", "Gauge from square", "Gauge that reads 90 at square", "Blade tilt"),
        rows=tuple(
            (
                name,
                degrees(setting.mitre_deg),
                f"{degrees(corners.gauge(setting).below_ninety_deg)} or"
                f" {degrees(corners.gauge(setting).above_ninety_deg)}",
                degrees(setting.tilt_deg),
            )
            for name, setting in settings
        ),
        is_folded=True,
    )


def _member_lines(context: CornersContext) -> Iterable[str]:
    plan, corners = context.plan, context.plan.corners
    if corners.is_polygon:
        yield from _polygon_lines(context)
    else:
        across, up = (plan.figures[f"outside_{way}"].text for way in ("across", "up"))
        yield f"Members: two of {across} {plan.unit} and two of {up} {plan.unit}, long point to long point."
    if corners.propped:
        yield from _sloped_lines(context)
        yield f"Two faces meet at {degrees(corners.flat.dihedral_deg)}; 180° is flat."
        spring_deg = spring_angle_deg(plan.shape.slope_deg)
        yield f"A moulding that is sold by its spring angle slopes so when that is {degrees(spring_deg)}."


def _polygon_lines(context: CornersContext) -> Iterable[str]:
    plan, (member,) = context.plan, context.plan.members
    figures = {name: figure.written.full for name, figure in context.plan.figures.items()}
    rabbet = write_short_point(
        member.rabbet_wall_mm, long_mm=member.long_mm, sides=plan.shape.sides, step=plan.step
    ).full
    wall = "" if plan.is_tray else f", {rabbet} along the rabbet wall"
    yield (
        f"{plan.shape.sides} members of {figures['member_long']} long points, {figures['member_short']} short"
        f" points{wall}."
    )
    yield (
        f"{'Inside' if plan.is_tray else 'Rabbet size'} {figures['rabbet_flats']}, outside {figures['outside_flats']}"
        f" across the flats, {figures['outside_corners']} across the corners."
    )


def _sloped_lines(context: CornersContext) -> Iterable[str]:
    """Sloping sides laid flat; the wide edge is the outside."""
    corners, figures = context.plan.corners, context.plan.figures
    sides = (
        {"all sides": ("member_long", "member_short")}
        if corners.is_polygon
        else {
            "top and bottom": ("outside_across", "sight_across"),
            "left and right": ("outside_up", "sight_up"),
        }
    )
    for name, edges in sides.items():
        wide, narrow = (figures[edge].written.full for edge in edges)
        yield f"Sloping, laid flat, {name}: {wide} along the wide edge, {narrow} along the narrow one."
    yield f"The frame stands out by {context.say(corners.rise_mm)}, measured along its face."


def _lean_lines(context: CornersContext) -> Iterable[str]:
    corner, gap_mm = context.plan.frame.corner, context.plan.corners.blade_gap_mm
    if not corner.lean:
        return
    if gap_mm:
        yield f"A blade {corner.lean:g}° out of upright opens the joints by {context.gap(gap_mm)}, front to back."
    else:
        yield (
            f"Cut like this a blade {corner.lean:g}° out of upright opens nothing: the two ends lean"
            " against each other."
        )


def tolerance(context: CornersContext) -> AnswerGroup:
    """The error of the saw that the allowed gap leaves."""
    corners = context.plan.corners
    allowed = corners.saw.tolerance
    who = "Left and right together" if allowed.together else "Every end"
    sheets = paper(allowed.shared_shim_mm)
    return AnswerGroup(
        name="tolerance",
        answer=f"Within {degrees(allowed.shared_deg, places=3)}",
        bigs=(
            Big(label=f"{who} within", text=degrees(allowed.shared_deg, places=3), says="if the clamps share it out"),
            Big(label="As a shim", text=context.gap(allowed.shared_shim_mm), says=sheets),
        ),
        tables=(_tolerance_table(context, allowed),),
        does=(_adds_up(corners.sides, allowed),),
        lines=(f"The mitre is {context.plan.figures['mitre_length'].written.full} long.",),
        sources=(
            DERIVED,
            f"A sheet of paper is taken as {PAPER_MM} mm: {USUAL_PRACTICE}. Measure a stack of ten of yours.",
        ),
    )


def _tolerance_table(context: CornersContext, allowed: Tolerance) -> Table:
    rows = (
        ("the clamps share it out", allowed.shared_deg, allowed.shared_shim_mm),
        (
            "it all lands in the last corner, the members sliding along their mitres",
            allowed.last_deg,
            allowed.last_shim_mm,
        ),
    )
    return Table(
        caption=f"What keeps every corner under {context.plan.frame.corner.gap.text}",
        heads=("When", "Angle", f"Shim at {context.plan.frame.corner.fence.text}", "About"),
        rows=tuple(
            (name, degrees(angle_deg, places=3), context.gap(shim_mm), paper(shim_mm))
            for name, angle_deg, shim_mm in rows
        ),
        is_folded=True,
    )


def _adds_up(sides: int, allowed: Tolerance) -> str:
    if allowed.together:
        return (
            f"The frame is off by {sides} times what left and right are off together: a left end 0.1° too large and a"
            " right end 0.1° too small cancel."
        )
    return f"All {2 * sides} ends come from one setting, so the frame is off by {2 * sides} times what the saw is off."
