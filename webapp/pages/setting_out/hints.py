"""Short lines on the cards of the setting-out page: what follows from the fields, in the project's unit.

At most two lines of a card are in view; the rest is folded.
"""

from collections.abc import Callable, Iterable

from framecalc.artwork.measuring import least_rabbet
from framecalc.corners.angles import write_angle
from framecalc.mats.mat import visible_borders
from framecalc.plan import FramePlan
from framecalc.plan.inputs import is_cut_here, repeat_mm
from framecalc.project import Frame
from framecalc.section.rabbeted import Section, longest_screw_mm
from framecalc.units import describe_length


def hints_of(plan: FramePlan) -> dict[str, tuple[str, ...]]:
    """The lines of every group, and under `name-more` those that are folded."""
    return {name: tuple(lines(plan)) for name, lines in _GROUPS.items()}


def is_measured_twice(frame: Frame) -> bool:
    """Whether the artwork is measured more than once in each direction."""
    artwork = frame.artwork
    return any((artwork.across_bottom, artwork.up_right, artwork.diagonal_rising, artwork.diagonal_falling))


def _artwork(plan: FramePlan) -> Iterable[str]:
    if is_measured_twice(plan.frame):
        yield plan.fit.verdict
    if plan.settled.picture_ratio != 1:
        yield f"The picture is made {plan.settled.picture_ratio:.3f} times as large as typed."


def _more_artwork(plan: FramePlan) -> Iterable[str]:
    if is_measured_twice(plan.frame):
        least = least_rabbet(plan.fit.corners, across_mm=plan.fit.across_mm, up_mm=plan.fit.up_mm)
        yield f"Just enters {_say(plan, least.across_mm)} × {_say(plan, least.up_mm)}."
        agrees = plan.fit.misfit_mm < float(plan.step.size_mm) / 2
        yield "Measurements agree." if agrees else f"Measurements disagree by {_say(plan, plan.fit.misfit_mm)}."
        yield f"Lower left corner: {_corner(plan.fit.skew_deg)}."


def _corner(skew_deg: float) -> str:
    """How a corner is off a right angle, to hundredths."""
    off = f"{abs(skew_deg):.2f}"
    return "90°" if off == "0.00" else f"{off}° {'more' if skew_deg > 0 else 'less'} than 90°"


def _shape(plan: FramePlan) -> Iterable[str]:
    shape = plan.shape
    if not shape.is_rectangle:
        flats, corners = (plan.figures[f"package_{name}"].written.full for name in ("flats", "corners"))
        yield f"Package: {flats} across the flats, {corners} from corner to corner."
    if shape.slopes:
        yield f"Laid flat, every end is right at {write_angle(shape.end_deg)}."
    elif not shape.is_rectangle:
        yield f"Every end is right at {write_angle(shape.end_deg)}, {write_angle(shape.mitre_deg)} from a square cut."


def _more_shape(plan: FramePlan) -> Iterable[str]:
    shape, sizes = plan.shape, plan.sizes
    if not shape.is_rectangle:
        yield "The artwork's sizes across and up do not count: its measure does."
    if shape.slopes:
        yield "Widths are measured in the face; the rabbet is cut level with the wall, so that the package lies flat."
        yield f"Laid flat, the frame stands out by {_say(plan, shape.rise_mm(sizes.face_width_mm))}."


def _fit(plan: FramePlan) -> Iterable[str]:
    figures = plan.figures
    yield f"Play: {figures['play_across'].written.full} across, {figures['play_up'].written.full} up."
    if plan.cover:
        ways = (figures["cover_worst_across"], figures["cover_worst_up"])
        least = min(ways, key=lambda figure: figure.written.written_mm)
        yield f"The lip covers at least {least.written.full}."


def _more_fit(plan: FramePlan) -> Iterable[str]:
    total_mm = sum(allowance.amount_mm for allowance in plan.usual_clearance)
    yield f"Usual for this: {_say(plan, total_mm)} in all."
    for allowance in plan.usual_clearance:
        yield f"{_say(plan, allowance.amount_mm)}: {allowance.reason}"
    if plan.cover:
        yield f"The lip hides {plan.cover.hidden_ratio:.1%} of the face."


def _mat(plan: FramePlan) -> Iterable[str]:
    if plan.mat and plan.cover:
        cover = plan.cover
        borders = visible_borders(
            plan.mat, covered_across_mm=cover.centred_across_mm, covered_up_mm=cover.centred_up_mm
        )
        top, sides, bottom = (_say(plan, mm) for mm in (borders.top_mm, borders.sides_mm, borders.bottom_mm))
        yield f"In view: sides {sides}, top {top}, bottom {bottom}."
    if plan.package.mats and plan.settled.seen and not plan.package.mats.floats:
        laps = plan.package.mats.laps[0]
        yield f"The mat laps over the sheet by {_say(plan, laps.least_mm)} to {_say(plan, laps.most_mm)}."


def _package(plan: FramePlan) -> Iterable[str]:
    spare_mm = plan.seat.left_over_mm
    if plan.is_tray:
        yield f"It lies {_say(plan, abs(spare_mm))} {'below' if spare_mm >= 0 else 'above'} the top of the wall."
        return
    yield f"Room behind: {_say(plan, spare_mm)}." if spare_mm >= 0 else f"Proud by {_say(plan, -spare_mm)}."


def _more_package(plan: FramePlan) -> Iterable[str]:
    stack = plan.stack
    yield f"Together {plan.figures['stack'].written.full}."
    yield f"Likely {_say(plan, stack.likely_worst_mm)} at most, at the very worst {_say(plan, stack.worst_mm)}."


def _section(plan: FramePlan) -> Iterable[str]:
    figures = plan.figures
    if isinstance(plan.section, Section):
        yield f"Lip {figures['least_lip'].written.full} at its thinnest. Land {figures['land'].written.full}."
    if plan.is_bought:
        yield f"Bought moulding: nothing is milled. {_stick_words(plan)}"


def _more_section(plan: FramePlan) -> Iterable[str]:
    if isinstance(plan.section, Section):
        longest_mm = longest_screw_mm(plan.section, x_mm=plan.section.land_mm / 2)
        yield f"Longest screw from behind, in the middle of the land: {_say(plan, longest_mm)}."


def _stick_words(plan: FramePlan) -> str:
    """How it comes into the shop."""
    if not is_cut_here(plan.frame):
        return "The supplier cuts the sides: order them long point to long point."
    needed = plan.figures["stick_needed"].written.full
    return f"A frame takes {needed} of it{', pattern included' if repeat_mm(plan.frame) else ''}."


def _say(plan: FramePlan, length_mm: float) -> str:
    return describe_length(length_mm, unit=plan.unit)


_GROUPS: dict[str, Callable[[FramePlan], Iterable[str]]] = {
    "artwork": _artwork,
    "artwork-more": _more_artwork,
    "section": _section,
    "section-more": _more_section,
    "mat": _mat,
    "package": _package,
    "package-more": _more_package,
    "fit": _fit,
    "fit-more": _more_fit,
    "shape": _shape,
    "shape-more": _more_shape,
}
NO_HINTS: dict[str, tuple[str, ...]] = dict.fromkeys(_GROUPS, ())
