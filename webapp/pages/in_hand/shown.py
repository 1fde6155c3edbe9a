"""What the page of a stick or board in hand shows: the frontier, the largest frames, the project's own, the widest."""

from collections.abc import Iterator
from functools import partial
from typing import ClassVar

from markupsafe import Markup

from framecalc.drawing.timber.frames_from_a_stick import draw_frames_from_a_stick
from framecalc.errors import FrameCalcError
from framecalc.findings import Rounding
from framecalc.plan.timber.frames_from_a_stick import USUAL_LENGTH, FramesFromAStick, Largest
from framecalc.records import Record
from framecalc.timber.sticks.problem import Grain
from framecalc.units import describe_length, format_length
from framecalc.words import capitalised
from webapp.live.answers import refusal
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.render import drawing
from webapp.live.shown import LiveShown
from webapp.live.typed.answer import Answer
from webapp.pages.in_hand.from_rack import OnRack, on_rack


class SpotView(Record):
    """One frame of the project: its number in the drawing, whether it can be made."""

    number: int
    name: str
    size: str
    says: str
    fits: bool


class InHandView(Record):
    """The answer; `refused` says why there is none.

    `shape` is that of the largest frame that is drawn.
    """

    svg: Markup
    shape: str = ""
    lines: tuple[str, ...] = ()
    largest: tuple[tuple[str, str, str, str], ...] = ()
    spots: tuple[SpotView, ...] = ()
    others: str = ""
    widest: tuple[str, ...] = ()
    refused: str = ""


class InHandShown(LiveShown):
    """What the page shows."""

    in_hand: InHandView
    rack: tuple[OnRack, ...]
    above: ClassVar[str] = "reach."


def in_hand_shown(desk: Desk, opened: ProjectAtRevision, answer: Answer) -> InHandShown:
    """What the page shows."""
    plan = answer.whole.frames_from_a_stick
    return InHandShown(answer=answer, in_hand=in_hand_view(plan), rack=on_rack(desk, plan))


def in_hand_view(plan: FramesFromAStick) -> InHandView:
    """Work out the answer, in words and strings."""
    try:
        return InHandView(
            svg=drawing(draw_frames_from_a_stick(plan)),
            shape=plan.largest[0].shape if plan.largest else "",
            lines=tuple(_lines(plan)),
            largest=tuple(_largest(plan)),
            spots=tuple(_spots(plan)),
            others=_others(plan),
            widest=tuple(_widest(plan)),
        )
    except FrameCalcError as error:
        return InHandView(svg=Markup(), refused=_refused(error, plan))


def _refused(error: FrameCalcError, plan: FramesFromAStick) -> str:
    """The sentence of an error, with its lengths in the project's unit."""
    return refusal(error, partial(describe_length, unit=plan.project.unit))


def _lines(plan: FramesFromAStick) -> Iterator[str]:
    """What is assumed, and the length and width clear of trims, defects and edges."""
    unit, shop = plan.project.unit, plan.project.shop
    if plan.project.reach.length is None:
        yield f"Until a length is typed, one of {USUAL_LENGTH[unit].text} is taken."
    face, kerf, trim = (describe_length(one, unit=unit) for one in (plan.face_width_mm, shop.kerf.mm, shop.end_trim.mm))
    yield f"Members {face} wide, kerf {kerf}, end trim {trim} at each end."
    if plan.board is not None:
        strips = "one strip" if plan.stock.strips == 1 else f"{plan.stock.strips} strips"
        yield f"Each board is ripped into {strips}."
    counts: dict[float, int] = {}
    for length_mm in plan.clear_mm:
        counts[length_mm] = counts.get(length_mm, 0) + 1
    clear = ", ".join(f"{count} × {describe_length(length, unit=unit)}" for length, count in counts.items())
    yield f"Clear of trims and defects: {clear}."


def _largest(plan: FramesFromAStick) -> Iterator[tuple[str, str, str, str]]:
    """The largest frames: shape, grain order, outside size, rabbet size."""
    free, in_order = plan.largest, plan.largest_round
    if free == in_order:
        yield from (_row(plan, one, "either way") for one in free)
        return
    yield from (_row(plan, one, "sides from anywhere") for one in free)
    yield from (_row(plan, one, "grain running round") for one in in_order)


def _row(plan: FramesFromAStick, largest: Largest, grain: str) -> tuple[str, str, str, str]:
    size = "inside" if plan.frame.is_tray else "rabbet size"
    outside = f"{largest.across.text} × {largest.up.text}"
    inside = f"{largest.rabbet_across.text} × {largest.rabbet_up.text}"
    return capitalised(largest.shape), grain, outside, f"{size} {inside}"


def _spots(plan: FramesFromAStick) -> Iterator[SpotView]:
    step = plan.project.shop.step(plan.project.unit)
    for spot in plan.spots:
        across, up = (format_length(mm, step=step, rounding=Rounding.UP) for mm in (spot.across_mm, spot.up_mm))
        size = f"{across} × {up.full}"
        says = "Cannot be made of it."
        if spot.fits:
            says = "Can be made, also with the grain running round." if spot.fits_round else _NOT_ROUND
        yield SpotView(number=spot.number, name=spot.name, size=size, says=says, fits=spot.fits)


_NOT_ROUND = "Can be made, but not with the grain running round."


def _others(plan: FramesFromAStick) -> str:
    count = len(plan.project.frames) - len(plan.spots)
    if not count:
        return ""
    frames = "One frame of this project has" if count == 1 else f"{count} frames of this project have"
    return f"{frames} members of another width, or cannot be worked out."


def _widest(plan: FramesFromAStick) -> Iterator[str]:
    """The widest member that still yields the frames of this width, all copies of each."""
    if plan.board is None:
        return
    frames = sum(wanted.copies for wanted in plan.wanted)
    job = "the frame" if frames == 1 else f"all {frames} frames of this width"
    for grain, how in ((Grain.FREE, "sides from anywhere"), (Grain.ROUND, "grain running round")):
        yield f"{how[:1].upper()}{how[1:]}: {_widest_of(plan, grain, job)}"


def _widest_of(plan: FramesFromAStick, grain: Grain, job: str) -> str:
    try:
        found = plan.widest(grain)
    except FrameCalcError as error:
        return _refused(error, plan)
    assert found is not None
    step, unit = plan.project.shop.step(plan.project.unit), plan.project.unit
    written = format_length(found.face_width_mm, step=step, rounding=Rounding.DOWN).text
    strips = ("one strip" if found.strips == 1 else f"{found.strips} strips") + _of_each(plan)
    limit = "the width" if found.by_width else "the length"
    sure = "" if found.exact else " A wider one may fit; the sides are too many to try every way."
    return f"members up to {written} {unit} wide still yield {job}, from {strips}; {limit} is the limit.{sure}"


def _of_each(plan: FramesFromAStick) -> str:
    return " of each board" if plan.project.reach.count > 1 else ""
