"""What the corners page shows beside its fields: the groups, the test cuts, the frames."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar

from framecalc.drawing.corners.joint_view import can_be_drawn
from framecalc.project.corners import Corner
from webapp.live.addresses import DRAWING_FILE, WOODS
from webapp.live.answer import FrameAnswer
from webapp.live.answers import Link
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.papers import papers_first
from webapp.live.shown import FrameShown
from webapp.pages.corners.fields import SIDES
from webapp.pages.corners.groups import GROUPS, AnswerGroup, CornersContext, groups_of
from webapp.pages.corners.saw_record import cuts_elsewhere_deg

PAPERS = (("a4-portrait", "A4"), ("letter-portrait", "Letter"))
"""The papers that drawings of the corners are offered on."""


@dataclass(frozen=True, kw_only=True)
class CornersShown(FrameShown):
    """What the corners page shows."""

    groups: Mapping[str, AnswerGroup]
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
    def kept(self) -> bool:
        """Whether the page keeps its earlier answers, because there are no new ones."""
        return bool(self.answer.impossible)


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
    groups = groups_of(CornersContext(plan=answer.plan, elsewhere_deg=cuts_elsewhere_deg(desk.store, answer)))
    woods = Link(href=WOODS(**_ids(answer)), says="All 52 woods in this room", is_file=False)
    return groups | {
        "angles": _with_papers(groups["angles"], answer, _polygon_paper(groups["angles"], answer)),
        "joint": _with_papers(groups["joint"], answer, _joint_paper(groups["joint"], answer)),
        "seasons": replace(groups["seasons"], links=(woods,)),
    }


def _ids(answer: FrameAnswer) -> dict[str, str]:
    return {"project_id": answer.project_id, "frame_id": answer.frame.id}


def _polygon_paper(angles: AnswerGroup, answer: FrameAnswer) -> str:
    return "polygon" if angles.drawings and answer.plan.corners.polygon else ""


def _joint_paper(joint: AnswerGroup, answer: FrameAnswer) -> str:
    """The paper drawing of the joint, if there is one."""
    if not joint.drawings:
        return ""
    return "joint" if can_be_drawn(answer.plan.corners.joint) else "lap"


def _with_papers(group: AnswerGroup, answer: FrameAnswer, name: str) -> AnswerGroup:
    """A group with a link to its paper drawing; unchanged without a name."""
    says = "Full size" if name == "joint" else "On paper"
    drawing = DRAWING_FILE(name=name, **_ids(answer))
    links = (
        Link(href=f"{drawing}?paper={paper}", says=f"{says}, {size}")
        for paper, size in papers_first(PAPERS, unit=answer.plan.unit)
    )
    return replace(group, links=tuple(links)) if name else group
