"""What the corners page shows beside its fields: the groups, the test cuts, the frames."""

from collections.abc import Iterator, Mapping
from typing import ClassVar

from framecalc.corners.angles import write_angle
from framecalc.corners.saw import CutMethod
from framecalc.project.corners import Batch, Corner, Sides
from framecalc.records import replace
from framecalc.sizes.polygons import side_names
from framecalc.sizes.shape import Shape
from framecalc.tables.wood import tenon_thicknesses
from framecalc.units import Unit
from webapp.live.addresses import DRAWING_FILE, WOODS
from webapp.live.answers import Link
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.grouped_page import GroupedShown
from webapp.live.papers.files import papers_first
from webapp.live.typed.answer import FrameAnswer
from webapp.live.work.saw_record import cuts_elsewhere_deg, record_of
from webapp.pages.corners.fields import SIDES
from webapp.pages.corners.groups import GROUPS, AnswerGroup, CornersContext, groups_of

PAPERS = (("a4-portrait", "A4"), ("letter-portrait", "Letter"))
"""The papers that drawings of the corners are offered on."""

SIX_AND_ROCK = ("across_top", "across_bottom", "up_left", "up_right", "rising", "falling", "rock")
"""What is measured of a rectangle in the clamps."""


class CornersShown(GroupedShown):
    """What the corners page shows."""

    above: ClassVar[str] = "corner."
    titles: ClassVar[Mapping[str, str]] = {name: title for name, (title, _) in GROUPS.items()}
    sides: ClassVar[tuple[str, ...]] = SIDES

    @property
    def corner(self) -> Corner:
        """The corners as typed."""
        return self.frame.corner

    @property
    def tests(self) -> tuple[str, ...]:
        """The test cuts at the present setting of the saw."""
        return tests_now(self.corner)

    @property
    def older_tests(self) -> bool:
        """Whether there are test cuts at earlier settings."""
        return len(self.tests) < len(self.corner.tests)

    @property
    def has_two_settings(self) -> bool:
        """Whether left and right ends are cut at settings of their own, as two fences are."""
        return self.corner.cutting is not CutMethod.ONE_SETTING

    @property
    def joint_has_more(self) -> bool:
        """Whether a spline, a pin or a corner wedge holds the joint as well."""
        joint = self.corner.joint
        return joint.also_spline or joint.also_pin or joint.also_wedge

    @property
    def plain_tenons(self) -> tuple[str, ...]:
        """Plain thicknesses of loose tenons, in the unit of the project."""
        is_metric = self.project.unit is Unit.MM
        return tuple(one.size for one in tenon_thicknesses() if one.is_metric is is_metric)

    @property
    def right_end(self) -> str:
        """The angle at a long point, laid flat, when it is right."""
        shape = self.frame.shape
        return write_angle(Shape(sides=shape.sides, slope_deg=float(shape.slope)).end_deg)

    @property
    def asks_by_side(self) -> bool:
        """Whether each side is asked for: of four sides, and where something of them is typed already."""
        return self.frame.shape.sides == len(SIDES) or (self.corner.sides, self.corner.batch) != (Sides(), Batch())

    @property
    def numbered(self) -> tuple[tuple[str, str], ...]:
        """The sides of a polygon that can be typed, each by its path and its number."""
        known = {side.id for side in self.corner.numbered}
        names = () if self.frame.shape.sides == len(SIDES) else side_names(self.frame.shape.sides)
        return tuple((f"numbered.s{name}", name) for name in names if f"s{name}" in known)

    @property
    def lacks_sides(self) -> bool:
        """Whether sides of a polygon can be added."""
        return self.frame.shape.sides != len(SIDES) and len(self.numbered) < self.frame.shape.sides

    @property
    def asks_six_measures(self) -> bool:
        """Whether the measures of a rectangle in the clamps are asked for, as above."""
        typed = (getattr(self.corner.clamps, name) for name in SIX_AND_ROCK)
        return self.frame.shape.sides == len(SIDES) or any(typed)

    @property
    def gauged(self) -> bool:
        """Whether an end is measured by its gap against a true block."""
        sides = (*(getattr(self.corner.sides, side) for side in SIDES), *self.corner.numbered)
        return any(side.start_gap or side.finish_gap for side in sides)


def corner_shown(desk: Desk, opened: ProjectAtRevision, answer: FrameAnswer) -> CornersShown:
    """What the corners page shows."""
    return CornersShown(answer=answer, groups=_groups(desk, answer))


def tests_now(corner: Corner) -> tuple[str, ...]:
    """The test cuts at the present setting of the saw."""
    now = corner.settings, corner.since.casefold()
    here = (test for test in corner.tests if not test.taken_over)
    return tuple(test.id for test in here if (test.setting, test.since.casefold()) == now)


def _groups(desk: Desk, answer: FrameAnswer) -> dict[str, AnswerGroup]:
    """Every group; a refused field keeps its old value. All are empty if the frame is impossible."""
    if answer.impossible:
        return {name: AnswerGroup(name=name) for name in GROUPS}
    record = record_of(desk.store, answer.project, answer.project_id)
    elsewhere_deg = cuts_elsewhere_deg(record, of=answer.frame)
    groups = groups_of(CornersContext(plan=answer.plan, elsewhere_deg=elsewhere_deg))
    woods = Link(href=WOODS(**_ids(answer)), says="All 52 woods in this room", is_file=False)
    on_paper = {name: _with_papers(group, answer) for name, group in groups.items()}
    return on_paper | {"seasons": replace(groups["seasons"], links=(woods,))}


def _ids(answer: FrameAnswer) -> dict[str, str]:
    return {"project_id": answer.project_id, "frame_id": answer.frame.id}


def _with_papers(group: AnswerGroup, answer: FrameAnswer) -> AnswerGroup:
    """A group with links to the sheets of paper that show its drawings."""
    links = (link for name in group.papers for link in _links_to(name, answer))
    return replace(group, links=(*group.links, *links))


def _links_to(name: str, answer: FrameAnswer) -> Iterator[Link]:
    says = "Full size" if name == "joint" else "On paper"
    drawing = DRAWING_FILE(name=name, **_ids(answer))
    for paper, size in papers_first(PAPERS, unit=answer.plan.unit):
        yield Link(href=f"{drawing}?paper={paper}", says=f"{says}, {size}")
