"""The words of the way through a job: what each step is called, and the one number that tells of it."""

from collections.abc import Callable, Iterable, Mapping, Sequence

from framecalc.plan.frame import FramePlan
from framecalc.project.way import JobStep
from framecalc.weights import mass_text
from framecalc.words import day_said, joined, typed

MOST_SAID = 2
"""As many different frames are told of one by one."""

TITLES: Mapping[JobStep, str] = {
    JobStep.MEASURE: "Measure",
    JobStep.SET_OUT: "Set out",
    JobStep.PACKAGE: "Package",
    JobStep.JOINT: "Joint",
    JobStep.SHOW: "Show the client",
    JobStep.PRICE: "Price",
    JobStep.STOCK: "Stock and cutting plan",
    JobStep.SHEETS: "Sheets",
    JobStep.MILL: "Mill",
    JobStep.TEST_CUT: "Test cut",
    JobStep.CUT: "Cut",
    JobStep.JOIN: "Dry fit and join",
    JobStep.FINISH: "Finish",
    JobStep.FIT: "Fit",
    JobStep.HANG: "Hang",
    JobStep.HAND_OVER: "Hand over",
}


def days_left_said(days: int) -> str:
    """How far off a day is.

    >>> days_left_said(13), days_left_said(1), days_left_said(0), days_left_said(-1), days_left_said(-9)
    ('in 13 days', 'tomorrow', 'today', '1 day late', '9 days late')
    """
    if days < 0:
        return "1 day late" if days == -1 else f"{-days} days late"
    return {0: "today", 1: "tomorrow"}.get(days, f"in {days} days")


def woods_said(frames: Iterable[FramePlan]) -> str:
    """The woods of a job, each once."""
    return joined(", ", map(typed, dict.fromkeys(plan.frame.species for plan in frames if plan.frame.species)))


def _figures_said(frames: Sequence[FramePlan], name: str) -> str:
    return _shown(
        [f"{plan.figures[f'{name}_across'].text} × {plan.figures[f'{name}_up'].text}" for plan in frames], frames
    )


def _shown(said: Sequence[str], frames: Sequence[FramePlan]) -> str:
    sizes = dict.fromkeys(said)
    shown = ", ".join(list(sizes)[:MOST_SAID]) + f" {frames[0].unit}"
    return f"{shown}, {len(sizes) - MOST_SAID} more" if len(sizes) > MOST_SAID else shown


def _measured(frames: Sequence[FramePlan]) -> str:
    """The pieces as they were measured: a rectangle across and up, a polygon across its flats."""
    if all(plan.shape.is_rectangle for plan in frames):
        return _figures_said(frames, "artwork")
    return ", ".join(dict.fromkeys(_piece(plan) for plan in frames))


def _piece(plan: FramePlan) -> str:
    if plan.shape.is_rectangle:
        return _figures_said([plan], "artwork")
    return f"{plan.figures['artwork_flats'].written.full} across the flats"


def _set_out(frames: Sequence[FramePlan]) -> str:
    return f"Outside {_figures_said(frames, 'outside')}"


def _package(frames: Sequence[FramePlan]) -> str:
    """The room behind the package, or how far it is proud: of the frame with the least."""
    tight = min(frames, key=lambda plan: plan.seat.left_over_mm)
    if "proud" in tight.figures:
        figure = tight.figures["proud"]
        return f"Proud of the back: {figure.text} {figure.written.unit}"
    figure = tight.figures["left_over"]
    return f"Room behind: {figure.text} {figure.written.unit}"


def _joints(frames: Sequence[FramePlan]) -> str:
    """What holds the corners, each kind once."""
    kinds = dict.fromkeys(plan.frame.corner.joint.kind for plan in frames)
    return ", ".join("Mitre, glued" if kind == "none" else kind.capitalize() for kind in kinds)


def _milled(frames: Sequence[FramePlan]) -> str:
    sections = dict.fromkeys(f"{plan.figures['face_width'].text} × {plan.figures['thickness'].text}" for plan in frames)
    return f"{', '.join(list(sections)[:MOST_SAID])} {frames[0].unit}"


def _tested(frames: Sequence[FramePlan]) -> str:
    count = sum(len(plan.corners.saw.current_deg) for plan in frames)
    return f"{count} tried" if count else "None tried yet"


def _sides(frames: Sequence[FramePlan]) -> int:
    return sum(plan.frame.count * plan.corners.sides for plan in frames)


def _cut(frames: Sequence[FramePlan]) -> str:
    return f"{_sides(frames)} sides"


def _joined(frames: Sequence[FramePlan]) -> str:
    return f"{_sides(frames)} corners"


def _finished(frames: Sequence[FramePlan]) -> str:
    return joined(", ", map(typed, dict.fromkeys(plan.frame.look.finish for plan in frames if plan.frame.look.finish)))


def _fitted(frames: Sequence[FramePlan]) -> str:
    """How many retainers hold the packages, all frames together."""
    held = [(plan.package.retainers, plan.frame.count) for plan in frames if plan.package.retainers]
    count = sum(retainers.count * copies for retainers, copies in held)
    kinds = {retainers.retention.retainer.pieces for retainers, _ in held}
    return f"{count} {kinds.pop() if len(kinds) == 1 else 'retainers'}" if count else ""


def _hung(frames: Sequence[FramePlan]) -> str:
    """What the heaviest of them weighs, as far as it is known."""
    heaviest = max(frames, key=lambda plan: plan.package.mass.whole_kg)
    says = mass_text(heaviest.package.mass.whole_kg, unit=heaviest.unit)
    if any(plan.package.mass.is_partly_known for plan in frames):
        return f"Over {says}: weigh it"
    return f"Up to {says}" if len(frames) > 1 else says


def _handed_over(frames: Sequence[FramePlan]) -> str:
    project = frames[0].project
    return f"Due {day_said(project.way.due, project.shop.words)}" if project.way.due else ""


SAYS: Mapping[JobStep, Callable[[Sequence[FramePlan]], str]] = {
    JobStep.MEASURE: _measured,
    JobStep.SET_OUT: _set_out,
    JobStep.PACKAGE: _package,
    JobStep.JOINT: _joints,
    JobStep.MILL: _milled,
    JobStep.TEST_CUT: _tested,
    JobStep.CUT: _cut,
    JobStep.JOIN: _joined,
    JobStep.FINISH: _finished,
    JobStep.FIT: _fitted,
    JobStep.HANG: _hung,
    JobStep.HAND_OVER: _handed_over,
}
"""What tells of a step, from the plans of the frames; the others are told of by what is known beside the plan."""
