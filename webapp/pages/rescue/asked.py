"""What is asked on the page, and the ways that the plan leaves: shown, and carried out by one of them."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from framecalc.bench.rescue import Rescue, Trouble
from framecalc.errors import FrameCalcError, OutOfRange
from framecalc.plan import FramePlan
from framecalc.plan.bench.rescue import RescuePlan, Spare
from framecalc.plan.timber.as_cut import longest_left, plan_as_cut
from framecalc.plan.timber.profiles import milled_of, mills_alike
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.timber.rack import StickSection, of_section
from framecalc.units import parse_length
from framecalc.words import worded
from webapp.data.errors import StoreError
from webapp.data.rack_file import RackFile
from webapp.jobs.timber import work_of
from webapp.live.desk import Desk, ProjectAtRevision


@dataclass(frozen=True, slots=True, kw_only=True)
class RescueWish:
    """What was typed on the page."""

    frame_id: str
    copy_number: int
    side: str
    trouble: Trouble
    by: str


def asked_in(texts: Mapping[str, str], opened: ProjectAtRevision) -> RescueWish:
    """What was typed; the first frame, its top and a short piece where nothing was."""
    counts = {frame.id: frame.count for frame in opened.project.frames}
    frame_id, side, trouble, copy = (texts.get(name, "") for name in ("frame", "side", "trouble", "copy"))
    frame_id = frame_id if frame_id in counts else next(iter(counts))
    is_copy = copy.isdecimal() and len(copy) < 6 and 1 <= int(copy) <= counts[frame_id]
    return RescueWish(
        frame_id=frame_id,
        copy_number=int(copy) if is_copy else 1,
        side=side if side in RECTANGLE_SIDES else RECTANGLE_SIDES[0],
        trouble=next((one for one in Trouble if one.value == trouble), Trouble.SHORT),
        by=texts.get("by", "").strip()[:40],
    )


def ways_for(asked: RescueWish, *, desk: Desk, opened: ProjectAtRevision) -> tuple[Rescue, ...]:
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
    """What is left of the sticks of this frame; once they are marked as cut it stands on the rack."""
    cut = {one.problem for one in _rack(desk).cuts_of(opened.project_id)}
    for work in work_of(desk.jobs, opened.plan):
        group = work.group
        if work.plan is None or frame not in group.frames or group.is_ledge or group.key in cut:
            continue
        for stick in plan_as_cut(work.plan, group=group, project=opened.project).sticks:
            left = longest_left(stick)
            is_milled = group.is_milled_long and bool(left.pieces)
            name = worded("the off-cut of {stick}", stick=stick.label)
            yield Spare(name=name, length_mm=left.left_over_mm, is_milled=is_milled, source=stick.label)


def _on_rack(desk: Desk, frame: FramePlan) -> Iterator[Spare]:
    """Sticks and off-cuts of the rack that have this section, milled to it or still plain."""
    cut = frame.as_cut.for_the_saw
    plain = StickSection(species=frame.frame.species, width_mm=cut.blank_width_mm, thickness_mm=cut.blank_thickness_mm)
    rack, own = _rack(desk).rack, milled_of(cut, is_ledge=False, unit=frame.unit).words
    profiles = {stick.profile for stick in rack if not stick.profile or mills_alike(stick.profile, own)}
    for profile in sorted(profiles):
        for stick in of_section(rack, section=replace(plain, profile=profile)):
            if not stick.is_board:
                name = worded("{tag} on the rack", tag=stick.tag)
                is_milled = bool(stick.profile) or not own
                yield Spare(name=name, length_mm=stick.length_mm, is_milled=is_milled, source=stick.tag, on_rack=True)


def _rack(desk: Desk) -> RackFile:
    """The rack; an empty one where it cannot be read."""
    try:
        return desk.rack.read()
    except (StoreError, FrameCalcError):
        return RackFile.model_validate({})
