"""What the corners page shows beside its fields: the groups, the findings, the frames."""

from typing import Any

from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan
from framecalc.plan.advice import Advice, advise
from webapp.answer import Answer
from webapp.corner_fields import SIDES
from webapp.corner_says import groups_of
from webapp.desk import Opened
from webapp.slots import field_views, slots_of


def corner_shown(opened: Opened, answer: Answer, *, notice: str = "", renews: bool = False) -> dict[str, Any]:
    """Everything the corners page shows."""
    good = answer.is_good
    return {
        "opened": opened,
        "answer": answer,
        "project": answer.project,
        "frame": answer.frame,
        "base": opened.revision.number,
        "words": answer.project.shop.words,
        "address": corners_address(opened.project_id, answer.frame.id),
        "fields": {path.removeprefix("corner."): view for path, view in field_views(answer).items()},
        "slots": tuple(slots_of(answer)),
        "groups": groups_of(answer.plan) if good else {},
        "findings": _worded(answer.plan) if good else (),
        "messages": answer.messages,
        "tests": tuple(test.id for test in answer.frame.corner.tests),
        "sides": SIDES,
        "notice": notice,
        "renews": renews,
        "unit": answer.project.unit.value,
        "kept": "" if good else "as before",
        "where": lambda path: "",
    }


def corners_address(project_id: str, frame_id: str) -> str:
    """The address of the corners page of a frame."""
    return f"/projects/{project_id}/frames/{frame_id}/corners"


def _worded(plan: FramePlan) -> tuple[Advice, ...]:
    """The findings of the corners, in words; a group that refuses has none."""
    try:
        findings = plan.corners.findings
    except FrameCalcError:
        return ()
    return advise(
        findings,
        step=plan.step,
        words=plan.project.shop.words,
        path_of=lambda argument: argument,
        holds=lambda path, text: False,
    )
