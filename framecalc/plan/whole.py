"""The plan of a whole project, and its record as plain JSON values."""

from collections.abc import Mapping
from functools import cached_property
from typing import Any

from framecalc.plan.frame import FramePlan
from framecalc.plan.sheets.sheets import SheetsPlan
from framecalc.plan.timber.frames_from_a_stick import ReachPlan
from framecalc.plan.timber.timber import TimberPlan
from framecalc.project import Project, project_with


class Plan:
    """Everything computed from one project."""

    def __init__(self, project: Project) -> None:
        self.project = project
        self.frames = {frame.id: FramePlan(project, frame) for frame in project.frames}

    @cached_property
    def timber(self) -> TimberPlan:
        """What the project asks of the rack and the yard."""
        return TimberPlan(self.project, self.frames)

    @cached_property
    def sheets(self) -> SheetsPlan:
        """What the project asks of the sheets at hand and of the supplier."""
        return SheetsPlan(self.project, self.frames)

    @cached_property
    def reach(self) -> ReachPlan:
        """What the stick or board in hand can make."""
        return ReachPlan(self.project, self.frames)

    def record(self) -> dict[str, Any]:
        """The computed plan as plain JSON values: figures and findings of every frame."""
        return {
            "project": self.project.name,
            "unit": self.project.unit.value,
            "frames": [_record(plan) for plan in self.frames.values()],
        }


def plan_with(project: Project, changes: Mapping[str, str]) -> Plan:
    """The plan of a project with some fields changed.

    Raises:
        FrameCalcError: the changed document is no project.
    """
    return Plan(project_with(project, changes))


def _record(plan: FramePlan) -> dict[str, Any]:
    return {
        "id": plan.frame.id,
        "name": plan.frame.name,
        "count": plan.frame.count,
        "ready_to_cut": plan.is_ready,
        "figures": {
            figure.name: {"exact_mm": round(figure.exact_mm, 6), "written": figure.text, "remainder": figure.remainder}
            for figure in plan.figures.values()
        },
        "findings": [
            {"code": advice.code, "severity": advice.severity.value, "sentence": advice.sentence, "field": advice.path}
            for advice in plan.advice
        ],
        "unconfirmed": list(plan.unconfirmed),
    }
