"""The plan of a whole project, and its record as plain JSON values."""

from collections import Counter
from collections.abc import Mapping
from contextlib import suppress
from types import MappingProxyType

from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.plan.frame import FramePlan
from framecalc.plan.hanging.wall import WallPlan
from framecalc.plan.job import JobPlan
from framecalc.plan.job_light import Obstacle
from framecalc.plan.light import Concern, Stage
from framecalc.plan.sheets.sheets import SheetsPlan
from framecalc.plan.sizing import paths_of_sizes
from framecalc.plan.timber.frames_from_a_stick import FramesFromAStick
from framecalc.plan.timber.timber import TimberPlan
from framecalc.project import Frame, Project, project_with
from framecalc.project.document import Document
from framecalc.project.fields import Model

NONE_PLANNED: Mapping[str, FramePlan] = MappingProxyType({})


class Plan:
    """Everything computed from one project. Frames that an earlier plan has already planned are reused.

    `job` is the same object in plans of which everything about the job is the same but what it costs, and `content` in
    those of which the costs are the same too.
    """

    def __init__(
        self, project: Project, *, before: "Plan | None" = None, planned: Mapping[str, FramePlan] = NONE_PLANNED
    ) -> None:
        """Plan a project.

        Args:
            before: an earlier plan.
            planned: frames that are planned already, by their id.
        """
        self.project = project
        known = {**(_still_so(before, project) if before else {}), **planned}
        self.frames: dict[str, FramePlan] = {
            frame.id: self._frame(frame, known.get(frame.id)) for frame in project.frames
        }
        alike = before if before and _is_alike(project, before.project) else None
        self.job: JobPlan = alike.job if alike else JobPlan(project, self.frames, before=before.job if before else None)
        costs_alike = alike if alike and _is_shared(project.quote, alike.project.quote) else None
        self.content: object = costs_alike.content if costs_alike else object()

    def _frame(self, frame: Frame, known: FramePlan | None) -> FramePlan:
        """The plan of one frame; a known one is reused if its frame and shop values are the same objects."""
        if known and known.is_for(self.project, frame):
            return known.within(self.project, job_stops=self.stops_with)
        return FramePlan(self.project, frame, job_stops=self.stops_with)

    def stops_with(self, frame: FramePlan) -> Counter[str]:
        """How often each thing stops the job, by its code, if one of its frames is planned like this."""
        if frame.project is self.project:
            return Counter(one.code for one in self.obstacles if one.severity is Severity.STOP)
        other = Plan(frame.project, before=self, planned={frame.frame.id: frame})
        return other.stops_with(frame)

    def compute_all(self) -> None:
        """Compute every possible frame, so that later plans can reuse them."""
        for frame in self.frames.values():
            with suppress(FrameCalcError):
                frame.compute_all()

    @property
    def timber(self) -> TimberPlan:
        """The timber of the project."""
        return self.job.timber

    @property
    def sheets(self) -> SheetsPlan:
        """The sheets of the project."""
        return self.job.sheets

    @property
    def wall(self) -> WallPlan:
        """The wall of the project."""
        return self.job.wall

    @property
    def frames_from_a_stick(self) -> FramesFromAStick:
        """The frames that the stick or board in hand makes."""
        return self.job.frames_from_a_stick

    @property
    def obstacles(self) -> tuple[Obstacle, ...]:
        """Everything found or refused about the whole job, as far as it is known without a search."""
        return self.job.obstacles

    @property
    def is_held_up(self) -> bool:
        """Whether something about the whole job stops the cutting."""
        return any(one.severity is Severity.STOP and one.stage is Stage.CUTTING for one in self.obstacles)

    def record(self) -> Document:
        """The computed plan as plain JSON values: figures, and findings of all pages, of every frame and of the job."""
        return {
            "project": self.project.name,
            "unit": self.project.unit.value,
            "frames": [_record(plan, is_ready=plan.is_ready and not self.is_held_up) for plan in self.frames.values()],
            "findings": [_found_in_job(one) for one in sorted(self.obstacles, key=_severity)],
        }


def _still_so(before: Plan, project: Project) -> dict[str, FramePlan]:
    """The frames of an earlier plan but those of which a size was confirmed: only then it proves another one wrong."""
    settled = frozenset(before.project.assumed) ^ frozenset(project.assumed)
    return {key: plan for key, plan in before.frames.items() if settled.isdisjoint(paths_of_sizes(plan.frame))}


_NOT_MADE = frozenset({"quote", "note", "assumed", "saved"})
"""Parts of a project from which nothing follows but what the job costs."""


def _is_alike(project: Project, other: Project) -> bool:
    """Whether two projects share every part from which something follows but what the job costs."""
    names = Project.model_fields.keys() - _NOT_MADE
    return all(_is_shared(getattr(project, name), getattr(other, name)) for name in names)


def _is_shared(part: object, other: object) -> bool:
    """Whether two parts are the same one, or hold the same ones; texts and numbers are compared."""
    if isinstance(part, tuple) and isinstance(other, tuple):
        return len(part) == len(other) and all(map(_is_shared, part, other))
    return part is other or (not isinstance(part, Model) and part == other)


def plan_with(project: Project, changes: Mapping[str, str]) -> Plan:
    """The plan of a project with some fields changed.

    Raises:
        FrameCalcError: the changed document is no project.
    """
    return Plan(project_with(project, changes))


def _record(plan: FramePlan, *, is_ready: bool) -> Document:
    return {
        "id": plan.frame.id,
        "name": plan.frame.name,
        "count": plan.frame.count,
        "shape": {"sides": plan.shape.sides, "slope_deg": plan.shape.slope_deg},
        "ready_to_cut": is_ready,
        "whole_frame_kg": round(plan.package.mass.whole_kg, 3),
        "section": _section(plan),
        "figures": {
            figure.name: {"exact_mm": round(figure.exact_mm, 6), "written": figure.text, "remainder": figure.remainder}
            for figure in plan.figures.values()
        },
        "findings": [_found(plan, concern) for concern in sorted(plan.concerns, key=_severity)],
        "unconfirmed": list(plan.unconfirmed),
    }


def _section(plan: FramePlan) -> dict[str, str]:
    """Where the section comes from, and what a bought one is called."""
    source = plan.frame.section.source
    return {"source": source} | ({"moulding": plan.frame.section.moulding.name} if plan.is_bought else {})


def _found(plan: FramePlan, concern: Concern) -> dict[str, str]:
    return {
        "code": concern.code,
        "stage": concern.stage.value,
        "page": concern.page.value,
        "severity": concern.severity.value,
        "sentence": plan.sentence_of(concern),
        "field": plan.field_of(concern),
    }


def _found_in_job(one: Obstacle) -> dict[str, str]:
    return {
        "code": one.code,
        "stage": one.stage.value,
        "page": one.page.value,
        "severity": one.severity.value,
        "sentence": one.sentence,
        "field": one.field,
    }


def _severity(found: Concern | Obstacle) -> int:
    return list(Severity).index(found.severity)
