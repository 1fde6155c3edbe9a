"""The sections that are milled for a job, once in each group, and what their rabbet is cut into."""

from collections.abc import Iterator

from framecalc.bench.rabbet_ways import RabbetWay
from framecalc.bench.sections import Blank, milled_top, plain_top
from framecalc.plan.bench.writing import BenchJob, GroupAtBench
from framecalc.plan.frame import FramePlan
from framecalc.records import Record
from framecalc.section.milling import MillingStep
from framecalc.section.rabbeted import Section


class MilledSection(Record):
    """A section of the job: the frame that stands for it, its group, and the frames that have it."""

    frame: FramePlan
    group: GroupAtBench
    names: tuple[str, ...]


def sections_of(job: BenchJob) -> Iterator[MilledSection]:
    """Every section that is milled here, once in its group."""
    if job.project.timber.milled:
        return
    for group in job.groups:
        alike: dict[object, list[FramePlan]] = {}
        for frame in group.frames:
            if not (frame.is_bought or frame.has_loose_ledge or group.group.is_ledge):
                alike.setdefault(frame.section, []).append(frame)
        for frames in alike.values():
            yield MilledSection(frame=frames[0], group=group, names=tuple(one.frame.name for one in frames))


def is_profile_first(sections: tuple[MilledSection, ...]) -> bool:
    """Whether a profile is milled before the rabbet is there.

    A strip is glued on before it, so that the whole section lies under the cutter; a bearing bit comes after the glue.
    """
    return any(map(_is_profile_first, sections))


def _is_profile_first(milled: MilledSection) -> bool:
    order, way = milled.frame.milling_order, milled.group.project.bench.rabbet_way
    if order is None or way is RabbetWay.STRIP:
        return False
    return way is RabbetWay.BEARING or order.first is MillingStep.PROFILE


def blank_of(milled: MilledSection) -> Blank:
    """What the rabbet is cut into: the plain blank, or the profiled one where the profile comes first."""
    frame, section = milled.frame, milled.frame.section
    if not isinstance(section, Section):
        return Blank(
            width_mm=frame.blank_width_mm,
            rabbet_width_mm=section.ledge_width_mm,
            rabbet_depth_mm=section.height_mm - section.ledge_thickness_mm,
            top=plain_top(width_mm=frame.blank_width_mm, thickness_mm=section.height_mm),
        )
    plain = plain_top(width_mm=section.face_width_mm, thickness_mm=section.thickness_mm)
    return Blank(
        width_mm=section.face_width_mm,
        rabbet_width_mm=section.rabbet_width_mm,
        rabbet_depth_mm=section.rabbet_depth_mm,
        top=milled_top(section.outline) if _is_profile_first(milled) else plain,
    )
