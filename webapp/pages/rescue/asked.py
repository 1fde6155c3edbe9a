"""What is asked on the page, and the ways that the plan leaves: shown, and carried out by one of them."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from framecalc.bench.rescue import Rescue, Trouble
from framecalc.errors import FrameCalcError, OutOfRange
from framecalc.plan import FramePlan
from framecalc.plan.bench.rescue import RescuePlan, Spare
from framecalc.plan.timber.profiles import states_a_section
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.timber.rack import StickSection, of_section
from framecalc.units import parse_length
from webapp.data.errors import StoreError
from webapp.jobs.timber import work_of
from webapp.live.desk import Desk, ProjectAtRevision


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What was typed on the page."""

    frame_id: str
    side: str
    trouble: Trouble
    by: str


def asked_in(texts: Mapping[str, str], opened: ProjectAtRevision) -> Asked:
    """What was typed; the first frame, its top and a short piece where nothing was."""
    frame_ids = [frame.id for frame in opened.project.frames]
    frame_id, side, trouble = (texts.get(name, "") for name in ("frame", "side", "trouble"))
    return Asked(
        frame_id=frame_id if frame_id in frame_ids else frame_ids[0],
        side=side if side in RECTANGLE_SIDES else RECTANGLE_SIDES[0],
        trouble=next((one for one in Trouble if one.value == trouble), Trouble.SHORT),
        by=texts.get("by", "").strip()[:40],
    )


def ways_for(asked: Asked, *, desk: Desk, opened: ProjectAtRevision) -> tuple[Rescue, ...]:
    """The ways that are left.

    Raises:
        FrameCalcError: no length was typed, or the frame cannot be computed.
    """
    frame = opened.plan.frames[asked.frame_id]
    by_mm = parse_length(asked.by, bare=opened.project.unit, comma=opened.project.shop.comma).mm
    if not 0 < by_mm <= MOST_MM:
        raise OutOfRange("Enter more than 0, up to 300 mm (12 in)", field="by")
    spares = (*_left_over(desk, opened, frame), *_on_rack(desk, frame))
    plan = RescuePlan(opened.plan, frame, trouble=asked.trouble, side=asked.side, by_mm=by_mm, spares=tuple(spares))
    return plan.ways


MOST_MM = 300.0
"""More than a section's width is no rescue but a new piece."""


def _left_over(desk: Desk, opened: ProjectAtRevision, frame: FramePlan) -> Iterator[Spare]:
    """What the cutting plan leaves of the sticks of this frame."""
    for work in work_of(desk.jobs, opened.plan):
        if work.plan is None or frame not in work.group.frames or work.group.is_ledge:
            continue
        for stick in work.plan.sticks:
            left_mm = max((one.left_over_mm for strip in stick.strips for one in strip.stretches), default=0.0)
            yield Spare(name=f"the off-cut of {stick.label}", length_mm=left_mm, is_milled=work.group.is_milled_long)


def _on_rack(desk: Desk, frame: FramePlan) -> Iterator[Spare]:
    """Sticks and off-cuts of the rack that have this section, or can be milled to it."""
    section = StickSection(
        species=frame.frame.species, width_mm=frame.blank_width_mm, thickness_mm=frame.frame.section.thickness.mm
    )
    try:
        file = desk.rack.read()
    except (StoreError, FrameCalcError):
        return
    for stick in of_section(file.rack, section=section):
        if not stick.is_board and not states_a_section(stick.profile):
            yield Spare(name=f"{stick.tag} on the rack", length_mm=stick.length_mm, is_milled=False)
