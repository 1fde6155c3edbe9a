"""Other wood for a side of a job: what its cutting plans leave over, and what stands on the rack."""

from collections.abc import Iterable, Iterator

from framecalc.bench.rescue import CutAgainOf
from framecalc.errors import FrameCalcError
from framecalc.findings import Rounding
from framecalc.plan import FramePlan
from framecalc.plan.bench.rescue import Spare
from framecalc.plan.timber.as_cut import plan_as_cut
from framecalc.plan.timber.profiles import milled_of, mills_alike
from framecalc.project.document import Document
from framecalc.records import replace
from framecalc.timber.rack import StickSection, of_section
from framecalc.units import Step, format_length
from framecalc.words import worded
from webapp.data.errors import StoreError
from webapp.data.rack_file import RackEntry, RackFile, read_entry
from webapp.jobs.timber import work_of
from webapp.live.desk import Desk, ProjectAtRevision


def spares_of(desk: Desk, opened: ProjectAtRevision, frame: FramePlan) -> tuple[Spare, ...]:
    """All wood from which a side of a frame can be cut again."""
    return *_left_over(desk, opened, frame), *_on_rack(desk, frame)


def again_document(one: CutAgainOf, *, key: str, frame_id: str, copy_number: int) -> Document:
    """A side that is cut again, as the bench keeps it."""
    return {
        "id": key,
        "frame": frame_id,
        "copy_number": copy_number,
        "side": one.side,
        "length": f"{one.length_mm:.4f} mm",
        "source": one.source,
        "on_rack": one.on_rack,
    }


def take_from_rack(desk: Desk, again: Iterable[CutAgainOf], *, shortest_useful_mm: float) -> None:
    """Shorten the sticks of the rack that new sides are cut from; what is too short to keep is taken away."""
    wood_mm: dict[str, float] = {}
    for one in again:
        if one.on_rack:
            wood_mm[one.source] = wood_mm.get(one.source, 0.0) + one.wood_mm
    if not wood_mm:
        return
    with desk.rack.held():
        for entry in (one for one in desk.rack.read().sticks if one.tag in wood_mm):
            left_mm = entry.length.mm - wood_mm[entry.tag]
            if left_mm < shortest_useful_mm:
                desk.rack.take_away(entry.id)
            else:
                desk.rack.put(_shortened(entry, left_mm), stamp=entry.stamp)


def rack_of(desk: Desk) -> RackFile:
    """The rack; an empty one where it cannot be read."""
    try:
        return desk.rack.read()
    except (StoreError, FrameCalcError):
        return RackFile.model_validate({})


def _left_over(desk: Desk, opened: ProjectAtRevision, frame: FramePlan) -> Iterator[Spare]:
    """What is left of the sticks of this frame; once they are marked as cut it stands on the rack."""
    cut = {one.problem for one in rack_of(desk).cuts_of(opened.project_id)}
    for work in work_of(desk.jobs, opened.plan):
        group = work.group
        if work.plan is None or not group.holds(frame) or group.is_ledge or group.key in cut:
            continue
        cut_now = group.still_here(plan_as_cut(work.plan, group=group, project=opened.project))
        for stick, strip, stretch in cut_now.stretches():
            is_milled = group.is_milled_long and bool(strip.pieces)
            name = worded("the off-cut of {stick}", stick=stick.label)
            yield Spare(name=name, length_mm=stretch.left_over_mm, is_milled=is_milled, source=stick.label)


def _on_rack(desk: Desk, frame: FramePlan) -> Iterator[Spare]:
    """Sticks and off-cuts of the rack that have this section, milled to it or still plain."""
    cut = frame.as_cut.for_the_saw
    plain = StickSection(species=frame.frame.species, width_mm=cut.blank_width_mm, thickness_mm=cut.blank_thickness_mm)
    rack, own = rack_of(desk).rack, milled_of(cut, is_ledge=False, unit=frame.unit).words
    profiles = {stick.profile for stick in rack if not stick.profile or mills_alike(stick.profile, own)}
    for profile in sorted(profiles):
        for stick in of_section(rack, section=replace(plain, profile=profile)):
            if not stick.is_board:
                name = worded("{tag} on the rack", tag=stick.tag)
                is_milled = bool(stick.profile) or not own
                yield Spare(name=name, length_mm=stick.length_mm, is_milled=is_milled, source=stick.tag, on_rack=True)


def _shortened(entry: RackEntry, left_mm: float) -> RackEntry:
    text = format_length(left_mm, step=Step.TENTH_MILLIMETRE, rounding=Rounding.DOWN).text
    document = entry.model_dump(mode="json", by_alias=True)
    return read_entry(document | {"length": f"{text} mm", "is_off_cut": True})
