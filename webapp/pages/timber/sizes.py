"""Rough and finished sizes of the pieces, and the stick length by the rules of the trade."""

from collections import Counter
from collections.abc import Iterator

from framecalc.findings import Rounding
from framecalc.plan.frame import FramePlan
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.stock import allowances_of
from framecalc.project import Project
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.timber.boards import rough_size
from framecalc.timber.footage import footage_with_cuts_mm, rule_footage_mm
from framecalc.timber.sticks.problem import Purpose
from framecalc.units import describe_length, describe_size, format_length
from webapp.live.answers import Table


def rough_table(group: TimberGroup, project: Project) -> Table | None:
    """Every length once, finished and rough, as cut from a board by itself; None for a bought moulding."""
    if group.section.moulding:
        return None
    counts = Counter(piece.length_mm for piece in group.problem.pieces)
    rows = [_row(length_mm, count, group, project) for length_mm, count in sorted(counts.items(), reverse=True)]
    heads = ("Finished", "Pieces", "Rough thickness", "Rough width", "Rough length")
    return Table(caption="Rough sizes: finished and the allowances typed above", heads=heads, rows=tuple(rows))


def footage_words(group: TimberGroup, project: Project) -> Iterator[str]:
    """An upper bound of the stick length, and the rule of the trade if it applies to all frames."""
    kerf_mm, unit = project.shop.kerf.mm, project.unit
    most_mm = footage_with_cuts_mm(
        group.total_mm, kerf_mm=kerf_mm, cuts=2 * len(group.problem.pieces), sides=group.section.sides
    )
    most = format_length(most_mm, step=group.step, rounding=Rounding.UP).full
    yield f"With a saw cut of its own at both ends of every piece that is {most}, before trims and short ends."
    if _is_by_rule(group):
        rule = describe_length(sum(map(_rule_mm, group.frames)), unit=unit)
        yield f"The rule of thumb, once round the package and eight face widths, says {rule}."


def _row(length_mm: float, count: int, group: TimberGroup, project: Project) -> tuple[str, ...]:
    section, unit = group.section, project.unit
    rough = rough_size(
        thickness_mm=section.thickness_mm,
        width_mm=section.width_mm,
        length_mm=group.long_point_mm(length_mm),
        allowances=allowances_of(project),
    )
    written = describe_length(rough.thickness_mm, unit=unit), describe_length(rough.width_mm, unit=unit)
    return (
        f"{describe_size(section.thickness_mm, section.width_mm, unit=unit)} × {group.long_point(length_mm)}",
        str(count),
        *written,
        format_length(rough.length_mm, step=group.step, rounding=Rounding.UP).full,
    )


def _is_by_rule(group: TimberGroup) -> bool:
    """Whether the rule of thumb applies: four sides with a rabbet, nothing else."""
    is_extra = any(piece.purpose is not Purpose.MEMBER for piece in group.problem.pieces)
    has_trays = any(frame.is_tray for frame in group.frames)
    is_flat_rectangle = group.section.sides == len(RECTANGLE_SIDES) and not group.section.slope_deg
    return is_flat_rectangle and not is_extra and not has_trays


def _rule_mm(frame: FramePlan) -> float:
    """The rule of thumb for all copies of a frame."""
    one_mm = rule_footage_mm(
        package_across_mm=frame.sizes.package_across_mm,
        package_up_mm=frame.sizes.package_up_mm,
        face_width_mm=frame.settled.face_width_mm,
    )
    return one_mm * frame.frame.count
