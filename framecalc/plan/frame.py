"""One frame of the plan: each topic is computed on first use.

Plain numbers go to the topics: sizes in `frame_sizes`, corners and package in folders of their own. Here their findings
and figures are collected and put into words.
"""

from collections import Counter
from collections.abc import Callable, Iterable
from contextlib import suppress
from copy import copy
from functools import cache
from typing import TypeAlias

from framecalc.errors import FrameCalcError
from framecalc.findings import Finding, Rounding
from framecalc.measures import written_measures
from framecalc.plan.advice import Advice, advise, field_of_argument, sentence_of
from framecalc.plan.bench.as_cut import AsCutPlan
from framecalc.plan.corners.corners import CornerPlan
from framecalc.plan.figures import Figure, write_figures
from framecalc.plan.frame_findings import findings_of
from framecalc.plan.frame_sizes import FrameSizes
from framecalc.plan.hand_over.frame import HandOverPlan
from framecalc.plan.hanging.hangers import HangersPlan
from framecalc.plan.lengths import lengths_of
from framecalc.plan.light import Concern, Stage, concerns_of, refusal_of_frame, stops_of, takes_part
from framecalc.plan.package.package import PackagePlan
from framecalc.plan.sheets.parts import Material, parts_of_frame
from framecalc.plan.sizing import origin_by_photo
from framecalc.project import Frame, Project, project_with
from framecalc.records import cached_property
from framecalc.sheets.problem import SheetPart
from framecalc.units import describe_length, format_length
from framecalc.words import say

JobStops: TypeAlias = Callable[["FramePlan"], Counter[str]]
"""How often each thing stops a whole job, by its code, with one frame planned like this."""


def no_job_stops(_: "FramePlan") -> Counter[str]:
    """What stops the job of a frame that stands alone: nothing."""
    return Counter()


class FramePlan(FrameSizes):
    """Everything computed from one frame of a project.

    `job_stops` counts what stops a whole job, so that no way out of a frame is one into a stop of its job.
    """

    def __init__(self, project: Project, frame: Frame, *, job_stops: JobStops = no_job_stops) -> None:
        super().__init__(project, frame)
        self._job_stops = job_stops

    def is_for(self, project: Project, frame: Frame) -> bool:
        """Whether a project holds the same input objects as this plan, identical and not just equal."""
        ours = self.project
        return frame is self.frame and project.shop is ours.shop and project.unit is ours.unit

    def within(self, project: Project, *, job_stops: JobStops) -> "FramePlan":
        """The same plan in a project that differs elsewhere, with everything computed so far."""
        plan = copy(self)
        plan.project, plan._job_stops = project, job_stops
        for of_the_rest in ("unconfirmed", "advice", "_stops_of_job"):
            vars(plan).pop(of_the_rest, None)
        return plan

    @cached_property
    def corners(self) -> CornerPlan:
        """The plan of the corners: settings, test cuts, closing, joint, seasons."""
        return CornerPlan(
            self.frame.corner,
            self.sizes,
            self.section,
            self.members,
            strap=self.project.shop.strap,
            species=self.wood,
            unit=self.unit,
        )

    @cached_property
    def package(self) -> PackagePlan:
        """The plan of the package: mats, weight, gap, growth, retainers, canvas, box."""
        return PackagePlan(
            self.frame,
            settled=self.settled,
            section=self.section,
            stack=self.stack,
            seat=self.seat,
            cover=self.cover,
            step=self.step,
        )

    @cached_property
    def hangers(self) -> HangersPlan:
        """The plan of the hangers: their places, loads and drop."""
        return HangersPlan(self)

    @cached_property
    def hand_over(self) -> HandOverPlan:
        """What is handed over with it: label, back and box."""
        return HandOverPlan(self)

    @cached_property
    def sheet_parts(self) -> tuple[tuple[Material, SheetPart], ...]:
        """What is cut for it from sheets, one part of each material."""
        return tuple(parts_of_frame(self))

    @cached_property
    def as_cut(self) -> AsCutPlan:
        """What was measured after machining, and the frame planned by it, beside this plan."""
        return AsCutPlan(self)

    @cached_property
    def figures(self) -> dict[str, Figure]:
        """Every size that the product shows, written once."""
        return write_figures(
            self._lengths,
            step=self.step,
            is_tray=self.is_tray,
            sides=self.shape.sides,
            has_sheets=any(layer.kind.is_sheet for layer in self.layers),
        )

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """The findings of the topics."""
        return tuple(findings_of(self))

    @cached_property
    def advice(self) -> tuple[Advice, ...]:
        """The findings in words, the worst first, with ways out that make no new stop."""
        return self.advise(self.findings)

    @cached_property
    def concerns(self) -> tuple[Concern, ...]:
        """Everything found or refused on any page of the frame, each at its stage."""
        return self._in_the_way(concerns_of)

    @cached_property
    def unconfirmed(self) -> tuple[str, ...]:
        """Paths of assumed values that take part and that nobody has confirmed."""
        return tuple(path for path in self.project.assumed if path not in self._solved and self._is_used(path))

    def advise(self, findings: Iterable[Finding]) -> tuple[Advice, ...]:
        """Findings in this project's words and unit, the worst first, with ways out that make no new stop."""
        return advise(
            findings, step=self.step, words=self.project.shop.words, path_of=self.path_of, holds=cache(self._holds)
        )

    @property
    def is_ready(self) -> bool:
        """Ready to cut: no stop before cutting, nothing refused at any stage, and nothing that counts only assumed."""
        stands = (concern.stage is Stage.CUTTING or concern.is_refusal for concern in self._stopping)
        return not any(stands) and not self.unconfirmed

    @cached_property
    def stops(self) -> frozenset[str]:
        """The codes of what stops the work at any stage."""
        return frozenset(concern.code for concern in self._stopping)

    def field_of(self, concern: Concern) -> str:
        """The path of the field that a concern is about; nothing where it is about none."""
        field = concern.field
        return field if field.startswith("frames.") else self.path_of(field)

    def sentence_of(self, concern: Concern) -> str:
        """What was found or refused, in this project's words and unit."""
        said = concern.said
        if isinstance(said, FrameCalcError):
            return self._worded(said).sentence
        return sentence_of(said, step=self.step, words=self.project.shop.words)

    def path_of(self, argument: str) -> str:
        """The path of the field that an argument of a topic stands for."""
        field = field_of_argument(argument)
        return field if not field or field.startswith("shop.") else f"frames.{self.frame.id}.{field}"

    def size(self, name: str) -> str:
        """Two figures as one size, with their unit once."""
        across, up = (self.figures[f"{name}_{way}"].written for way in ("across", "up"))
        return f"{across} × {up.full}"

    def origin_of(self, path: str) -> str:
        """Where a size at a path comes from, if it is that of a photo."""
        return origin_by_photo(self.frame, self.by_photo, path, step=self.step) if self.by_photo else ""

    def said(self, length_mm: float) -> str:
        """A length to the nearest step, without its unit."""
        return format_length(length_mm, step=self.step, rounding=Rounding.NEAREST).text

    def compute_all(self) -> None:
        """Compute everything that the drawings show, so that an impossible size raises now.

        Raises:
            FrameCalcError: with the path of the field at fault in `field`.
        """
        try:
            _ = self.figures, self.findings, self.members
        except FrameCalcError as error:
            raise self._worded(error) from error

    def _worded(self, error: FrameCalcError) -> FrameCalcError:
        """A topic's error in this project's unit and words, with the path of the field at fault."""
        lengths = {name: describe_length(length_mm, unit=self.unit) for name, length_mm in error.lengths.items()}
        lengths |= written_measures(error.measures, self.unit)
        sentence = error.wording.format_map(lengths) if lengths else error.sentence
        return type(error)(say(sentence, self.project.shop.words), field=self.path_of(error.field))

    @cached_property
    def _lengths(self) -> tuple[tuple[str, float], ...]:
        """Every size shown to anybody, by the name of its figure."""
        return tuple(lengths_of(self))

    def _holds(self, path: str, text: str) -> bool:
        """Whether a text at a path can be had, and gives a job without a stop that is not there already."""
        if self._is_in_vain(path):
            return False
        try:
            project = project_with(self.project, {path: text})
            tried = FramePlan(project, project.frame(self.frame.id) or self.frame)
            return tried.stops <= self.stops and self._job_stops(tried) <= self._stops_of_job
        except FrameCalcError:
            return False

    def _is_in_vain(self, path: str) -> bool:
        """Whether typing there changes nothing: the section of a bought moulding, a clearance that is worked out."""
        here = f"frames.{self.frame.id}."
        if self.is_bought and path.startswith(f"{here}section."):
            return True
        return path in self._solved and path.startswith(f"{here}package.clearance_")

    @cached_property
    def _stops_of_job(self) -> Counter[str]:
        return self._job_stops(self)

    def _is_used(self, path: str) -> bool:
        """Whether an assumed value belongs to this frame and takes part in it."""
        here = f"frames.{self.frame.id}."
        return not path.startswith("frames.") or (
            path.startswith(here) and takes_part(self.frame, path.removeprefix(here))
        )

    @cached_property
    def _solved(self) -> frozenset[str]:
        """Paths of what the starting point solves; none where it cannot."""
        with suppress(FrameCalcError):
            return frozenset(map(self.path_of, self.settled.solved))
        return frozenset()

    @cached_property
    def _stopping(self) -> tuple[Concern, ...]:
        return self._in_the_way(stops_of)

    def _in_the_way(self, find: Callable[..., Iterable[Concern]]) -> tuple[Concern, ...]:
        """What is found on all pages; the refusal alone where nothing can be worked out."""
        try:
            _ = self._lengths, self.findings, self.members
        except FrameCalcError as error:
            return (refusal_of_frame(self._worded(error)),)
        return tuple(find(self.findings, corners=self.corners, package=self.package, hangers=self.hangers))
