"""What the corners page shows beside its fields: the groups, the test cuts, the frames."""

from dataclasses import replace
from typing import Any

from framecalc.drawing.corners.joint_view import can_be_drawn
from framecalc.project.corners import Corner
from webapp.live.answer import Answer
from webapp.live.answers import Link
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.slots import field_views
from webapp.pages.corners.fields import SIDES
from webapp.pages.corners.groups import GROUPS, AnswerGroup, CornersContext, groups_of
from webapp.pages.corners.saw_record import cuts_elsewhere_deg

PAPERS = (("a4-portrait", "A4"), ("letter-portrait", "Letter"))
"""The papers that drawings of the corners are offered on."""


def corner_shown(desk: Desk, opened: ProjectAtRevision, answer: Answer) -> dict[str, Any]:
    """Everything the corners page shows."""
    corner, views = answer.frame.corner, field_views(answer)
    return {
        "opened": opened,
        "answer": answer,
        "project": answer.project,
        "frame": answer.frame,
        "base": opened.revision.number,
        "words": answer.project.shop.words,
        "address": corners_address(opened.project_id, answer.frame.id),
        "fields": {path.removeprefix("corner."): view for path, view in views.items()},
        "slots": tuple(view.slot for view in views.values()),
        "groups": _groups(desk, answer),
        "titles": {name: title for name, (title, _) in GROUPS.items()},
        "messages": answer.messages,
        "tests": tests_now(corner),
        "older_tests": len(tests_now(corner)) < len(corner.tests),
        "sides": SIDES,
        "place": "corners",
        "unit": answer.project.unit.value,
        "kept": bool(answer.impossible),
        "where": lambda path: "",
    }


def tests_now(corner: Corner) -> tuple[str, ...]:
    """The test cuts of the saw as it is set now."""
    now = corner.settings, corner.since.casefold()
    return tuple(test.id for test in corner.tests if (test.setting, test.since.casefold()) == now)


def corners_address(project_id: str, frame_id: str) -> str:
    """The address of the corners page of a frame."""
    return f"/projects/{project_id}/frames/{frame_id}/corners"


def _groups(desk: Desk, answer: Answer) -> dict[str, AnswerGroup]:
    """Every group; a field that could not be taken counts as it was. All are empty where the frame is impossible."""
    if answer.impossible:
        return {name: AnswerGroup(name=name) for name in GROUPS}
    groups = groups_of(CornersContext(plan=answer.plan, elsewhere_deg=cuts_elsewhere_deg(desk.store, answer)))
    woods = Link(href=f"{_frame_at(answer)}woods", says="All 52 woods in this room", is_file=False)
    return groups | {
        "angles": _with_papers(groups["angles"], answer, _polygon_paper(groups["angles"], answer)),
        "joint": _with_papers(groups["joint"], answer, _joint_paper(groups["joint"], answer)),
        "seasons": replace(groups["seasons"], links=(woods,)),
    }


def _frame_at(answer: Answer) -> str:
    return corners_address(answer.project_id, answer.frame.id).removesuffix("corners")


def _polygon_paper(angles: AnswerGroup, answer: Answer) -> str:
    return "polygon" if angles.drawings and answer.plan.corners.polygon else ""


def _joint_paper(joint: AnswerGroup, answer: Answer) -> str:
    """The drawing that the joint has on paper, if it has one."""
    if not joint.drawings:
        return ""
    return "joint" if can_be_drawn(answer.plan.corners.joint) else "lap"


def _with_papers(group: AnswerGroup, answer: Answer, name: str) -> AnswerGroup:
    """A group with its drawing on paper; as it is without a name."""
    says = "Full size" if name == "joint" else "On paper"
    links = (
        Link(href=f"{_frame_at(answer)}drawings/{name}.svg?paper={paper}", says=f"{says}, {size}")
        for paper, size in PAPERS
    )
    return replace(group, links=tuple(links)) if name else group
