"""What the light says of a whole job: what is found or refused about its wood and its sheets, each at its stage.

Nothing is searched for here. What a search has refused is handed in by whoever has asked for it.
"""

from collections.abc import Iterable, Iterator
from contextlib import suppress
from enum import StrEnum

from framecalc.errors import FrameCalcError, ImpossibleSize
from framecalc.findings import Finding, Severity
from framecalc.plan.advice import sentence_of
from framecalc.plan.bench.timetable import GluePlan
from framecalc.plan.frame import FramePlan
from framecalc.plan.hanging.wall import WallPlan
from framecalc.plan.light import Stage
from framecalc.plan.sheets.covers import covers_of, cut_covers
from framecalc.plan.sheets.sheets import SheetGroup, SheetsPlan
from framecalc.plan.timber.as_cut import sides_to_place
from framecalc.plan.timber.cut_fits import CutFit, misfits
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.runs import runs_of
from framecalc.plan.timber.timber import TimberPlan
from framecalc.project import Project
from framecalc.records import Record
from framecalc.timber.sticks.answer import StickPlan
from framecalc.timber.stops import cutting_cautions
from framecalc.units import describe_length
from framecalc.words import joined, say


class JobPage(StrEnum):
    """A page of a whole job on which something is found."""

    TIMBER = "timber"
    SHEETS = "sheets"
    COSTS = "costs"
    CLIENT = "client"
    BENCH = "bench"
    WALL = "wall"


AS_CUT = "as-cut"
"""Where what came out stands on the page of the bench."""

GLUE_UP = "glue-up"
"""Where the times of the glue stand there."""


class Obstacle(Record):
    """Something found, or refused, about a whole job: it counts at a stage.

    `field` is the path of the field that it is about, or blank; `anchor` is where it stands on its page.
    """

    stage: Stage
    page: JobPage
    code: str
    severity: Severity
    sentence: str
    field: str = ""
    anchor: str = ""


def known_obstacles(
    project: Project, *, frames: Iterable[FramePlan], timber: TimberPlan, sheets: SheetsPlan, wall: WallPlan
) -> Iterator[Obstacle]:
    """What is known without a search; nothing while a frame cannot be computed, which is said at that frame."""
    yield from obstacles_of_bench(project, frames=frames)
    yield from obstacles_of_wall(wall, project=project)
    with suppress(FrameCalcError):
        works = [(group, group.refused_at_sight) for group in timber.groups]
        yield from obstacles_of_timber(works, project=project)
        yield from obstacles_of_sheets([(group, None) for group in sheets.groups], project=project)
        yield from obstacles_of_covers(project, frames=frames)


def obstacles_of_wall(wall: WallPlan, *, project: Project) -> Iterator[Obstacle]:
    """What is found about the wall; nothing while a frame cannot be computed."""
    with suppress(FrameCalcError):
        for finding in wall.findings:
            yield found_in_job(finding, project=project, page=JobPage.WALL, stage=Stage.HANGING, anchor="says-group")


def obstacles_of_timber(
    works: Iterable[tuple[TimberGroup, FrameCalcError | None]], *, project: Project
) -> Iterator[Obstacle]:
    """What is found about the stock of each group, and why the group has no cutting plan, if that is known.

    A group for which nothing is typed is an estimate: it refuses nothing that is there. Where all stock is left out,
    the findings have said why.
    """
    for number, (group, refusal) in enumerate(works, start=1):
        anchor = f"group-{number}"
        cautions = cutting_cautions(group.searched.pieces, slope_mm=group.problem.slope_mm)
        for finding in (*group.findings, *cautions):
            yield found_in_job(finding, project=project, page=JobPage.TIMBER, stage=Stage.CUTTING, anchor=anchor)
        if refusal and not group.is_unserved:
            yield Obstacle(
                stage=Stage.CUTTING,
                page=JobPage.TIMBER,
                code="timber.refused",
                severity=Severity.WARN if group.is_estimate else Severity.STOP,
                sentence=refusal_in_job(refusal, project=project),
                anchor=anchor,
            )


def obstacles_of_sticks(works: Iterable[tuple[TimberGroup, StickPlan]], *, project: Project) -> Iterator[Obstacle]:
    """The sides for which their sticks have no room as they came out, until they are cut from other wood."""
    over = [piece for group, plan in works for piece in sides_to_place(plan, group=group, project=project)]
    if over:
        count = "1 side does" if len(over) == 1 else f"{len(over)} sides do"
        yield Obstacle(
            stage=Stage.CUTTING,
            page=JobPage.BENCH,
            code="as-cut.over",
            severity=Severity.STOP,
            sentence=f"{count} not fit on the sticks as they came out: work out again what to cut from.",
            anchor=AS_CUT,
        )


def obstacles_of_cut(project: Project, *, frames: Iterable[FramePlan]) -> Iterator[Obstacle]:
    """The pieces that are cut and do not fit as they are; nothing while a frame cannot be computed."""
    if not project.timber.cut:
        return
    with suppress(FrameCalcError):
        for one in misfits(project, runs_of(frames)):
            if one.fit is not CutFit.UNWANTED:
                yield Obstacle(
                    stage=Stage.CUTTING,
                    page=JobPage.BENCH,
                    code=f"cut.{one.fit.value}",
                    severity=Severity.WARN if one.fit is CutFit.TRIM else Severity.STOP,
                    sentence=one.says,
                    anchor=AS_CUT,
                )


def obstacles_of_bench(project: Project, *, frames: Iterable[FramePlan]) -> Iterator[Obstacle]:
    """What is wrong with the glue, what came out otherwise than planned, and what that stops or warns of."""
    frames = tuple(frames)
    yield from obstacles_of_cut(project, frames=frames)
    for finding in GluePlan(project).findings:
        yield found_in_job(finding, project=project, page=JobPage.BENCH, stage=Stage.GLUING, anchor=GLUE_UP)
    for plan in frames:
        if plan.as_cut.is_measured:
            with suppress(FrameCalcError):
                yield from _as_cut(plan)


def _as_cut(plan: FramePlan) -> Iterator[Obstacle]:
    named = joined("", [plan.frame.name, ", as cut: "])
    step, words = plan.step, plan.project.shop.words
    for finding in plan.as_cut.findings:
        yield Obstacle(
            stage=Stage.FITTING,
            page=JobPage.BENCH,
            code=finding.code,
            severity=finding.severity,
            sentence=named + sentence_of(finding, step=step, words=words),
            anchor=AS_CUT,
        )
    for cut, concern in plan.as_cut.concerns:
        yield Obstacle(
            stage=concern.stage,
            page=JobPage.BENCH,
            code=concern.code,
            severity=concern.severity,
            sentence=named + cut.sentence_of(concern),
            anchor=AS_CUT,
        )


def obstacles_of_sheets(
    works: Iterable[tuple[SheetGroup, FrameCalcError | None]], *, project: Project
) -> Iterator[Obstacle]:
    """Why a material has no layout, as far as that is known; glass and boards are cut for the finished rabbet."""
    for number, (group, refusal) in enumerate(works, start=1):
        refused = group.refusal or (refusal_in_job(refusal, project=project) if refusal else "")
        for sentence in (*group.left_out.values(), *filter(None, (refused,))):
            yield Obstacle(
                stage=Stage.FITTING,
                page=JobPage.SHEETS,
                code="sheets.refused",
                severity=Severity.WARN if group.is_estimate else Severity.STOP,
                sentence=sentence,
                anchor=f"group-{number}",
            )


def obstacles_of_covers(project: Project, *, frames: Iterable[FramePlan]) -> Iterator[Obstacle]:
    """A roll of paper that is narrower than a dust cover.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    covers = covers_of(frames)
    try:
        cut_covers(project, covers)
    except ImpossibleSize as error:
        yield Obstacle(
            stage=Stage.FITTING,
            page=JobPage.SHEETS,
            code="covers.refused",
            severity=Severity.STOP,
            sentence=refusal_in_job(error, project=project),
            field="sheets.roll_width",
            anchor="lists",
        )


def found_in_job(finding: Finding, *, project: Project, page: JobPage, stage: Stage, anchor: str) -> Obstacle:
    """A finding about a whole job in its words and unit; its argument is the path of a field already."""
    return Obstacle(
        stage=stage,
        page=page,
        code=finding.code,
        severity=finding.severity,
        sentence=sentence_of(finding, step=project.shop.step(project.unit), words=project.shop.words),
        field=finding.argument,
        anchor=anchor,
    )


def refusal_in_job(error: FrameCalcError, *, project: Project) -> str:
    """The sentence of a refusal in the words and the unit of a job."""
    lengths = {name: describe_length(length_mm, unit=project.unit) for name, length_mm in error.lengths.items()}
    sentence = error.wording.format_map(lengths) if lengths else error.sentence
    return say(sentence, project.shop.words)
