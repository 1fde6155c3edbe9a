"""What the timber page shows: what has to be cut, the jobs, and for each plan its lists, drawings and proof."""

import csv
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial
from io import StringIO
from time import monotonic
from typing import Any

from markupsafe import Markup

from framecalc.drawing.sticks import draw_stick
from framecalc.errors import FrameCalcError
from framecalc.labels import label_of
from framecalc.lists import off_cuts, shopping_list
from framecalc.money import number_text
from framecalc.plan import Plan
from framecalc.plan.timber import TimberGroup
from framecalc.sticks.answer import CutStick, Standing, StickPlan
from framecalc.sticks.plan import plan_sticks
from framecalc.sticks.problem import StickProblem
from framecalc.sticks.watch import start_watch
from framecalc.stops import cutting_cautions, hints_at_the_saw, stop_list
from framecalc.units import Unit, describe_length
from webapp.answer import Answer
from webapp.desk import Desk, Opened
from webapp.jobs import Job
from webapp.render import drawing
from webapp.slots import field_views, slots_of

TIME_LIMIT_S = 10.0
"""How long a plan is searched for before the best one found is shown with what it could still be beaten by."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StickView:
    """One stick of a plan: its drawing, and its pieces in order."""

    label: str
    svg: Markup
    pieces: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StopView:
    """One stop: its key for the tick, where it is set, and what is cut at it."""

    key: str
    says: str
    pieces: str
    is_done: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupView:
    """One width of member: what is needed, how far the job is, and the plan when there is one."""

    number: int
    key: str
    title: str
    needs: tuple[str, ...]
    state: str
    is_going: bool
    verdict: str = ""
    shopping: tuple[tuple[str, ...], ...] = ()
    sticks: tuple[StickView, ...] = ()
    stops: tuple[StopView, ...] = ()
    left: tuple[str, ...] = ()
    proof: str = ""
    cautions: tuple[str, ...] = ()


def timber_shown(
    desk: Desk, opened: Opened, answer: Answer, *, notice: str = "", renews: bool = False
) -> dict[str, Any]:
    """Everything the timber page shows."""
    groups, trouble = groups_of(desk, answer)
    return {
        "opened": opened,
        "answer": answer,
        "project": answer.project,
        "frame": answer.frame,
        "base": opened.revision.number,
        "words": answer.project.shop.words,
        "address": timber_address(opened.project_id),
        "fields": {path.removeprefix("timber."): view for path, view in field_views(answer).items()},
        "slots": tuple(slots_of(answer)),
        "stock": tuple(one.id for one in answer.project.timber.stock),
        "groups": groups,
        "trouble": trouble,
        "going": any(group.is_going for group in groups),
        "messages": answer.reading_messages,
        "notice": notice,
        "renews": renews,
        "unit": answer.project.unit.value,
        "where": lambda path: "",
    }


def timber_address(project_id: str) -> str:
    """The address of the timber page of a project."""
    return f"/projects/{project_id}/timber"


def start_jobs(desk: Desk, plan: Plan) -> None:
    """Ask for a cutting plan of every width of member.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    for group in plan.timber.groups:
        desk.jobs.start(group.key, StickPlan, partial(_search, group.problem))


def _search(problem: StickProblem, stopped: Callable[[], bool]) -> StickPlan:
    return plan_sticks(problem, watch=start_watch(TIME_LIMIT_S, clock=monotonic, cancelled=stopped))


def stop_jobs(desk: Desk, plan: Plan) -> None:
    """Call every search of a project off; what was found by then is kept."""
    for group in plan.timber.groups:
        desk.jobs.stop(group.key)


def groups_of(desk: Desk, answer: Answer) -> tuple[tuple[GroupView, ...], str]:
    """The groups of the page, or the sentence that says why there are none."""
    plan = Plan(answer.project)
    try:
        groups = plan.timber.groups
        return tuple(_view(desk, answer, group, number) for number, group in enumerate(groups, start=1)), ""
    except FrameCalcError as error:
        return (), error.sentence


def _view(desk: Desk, answer: Answer, group: TimberGroup, number: int) -> GroupView:
    job, unit = desk.jobs.find(group.key, StickPlan), answer.project.unit
    view = GroupView(
        number=number,
        key=group.key,
        title=_title(group, unit),
        needs=tuple(_needs(group, unit)),
        state=_state(job),
        is_going=job is not None and job.is_going,
    )
    return view if job is None or job.answer is None else _with_plan(view, answer, group, job.answer)


def _title(group: TimberGroup, unit: Unit) -> str:
    """What the members of a group have in common; a wood only where one is named."""
    section = group.section
    wood = f"{section.wood}: members" if section.wood else "Members"
    width, thickness = (describe_length(one, unit=unit) for one in (section.width_mm, section.thickness_mm))
    return f"{wood} {width} wide, {thickness} thick"


def _state(job: Job | None) -> str:
    if job is None:
        return "Not worked out yet for what is typed."
    said = {
        "waiting": "Waiting its turn.",
        "running": "Being worked out.",
        "done": "Worked out.",
        "stopped": "Stopped.",
    }
    return said.get(job.state, job.sentence)


def _needs(group: TimberGroup, unit: Unit) -> Iterable[str]:
    counts: dict[float, int] = {}
    for piece in group.problem.pieces:
        counts[piece.length_mm] = counts.get(piece.length_mm, 0) + 1
    total = describe_length(group.total_mm, unit=unit)
    yield f"For {', '.join(group.names)}: {len(group.problem.pieces)} pieces, {total} in all."
    for length_mm, count in sorted(counts.items(), reverse=True):
        yield f"{count} × {describe_length(length_mm, unit=unit)}, long point to long point."
    if group.is_estimate:
        stick = describe_length(group.problem.stock[0].length_mm, unit=unit)
        yield f"Estimate: no stock is typed that yields this width, so sticks of {stick} are taken."


def _with_plan(view: GroupView, answer: Answer, group: TimberGroup, plan: StickPlan) -> GroupView:
    unit, timber = answer.project.unit, answer.project.timber
    cautions = cutting_cautions(group.problem.pieces, slope_mm=group.problem.slope_mm)
    said = [_plain(finding.sentence, finding.lengths, unit) for finding in cautions]
    said += [f"{hint.says} {hint.why}" for hint in hints_at_the_saw(milled=group.problem.milled)]
    return GroupView(
        number=view.number,
        key=view.key,
        title=view.title,
        needs=view.needs,
        state=view.state,
        is_going=view.is_going,
        verdict=_verdict(plan),
        shopping=tuple(_shopping(plan, unit)),
        sticks=tuple(_sticks(plan, group, unit)),
        stops=tuple(_stops(plan, group, unit, timber.done)),
        left=tuple(_left(plan, unit, shortest_useful_mm=timber.shortest_useful.mm)),
        proof=_plain(plan.proof.saying.text, plan.proof.saying.lengths, unit),
        cautions=tuple(said),
    )


def _verdict(plan: StickPlan) -> str:
    sticks = "one stick" if plan.stick_count == 1 else f"{plan.stick_count} sticks"
    money = f", {number_text(plan.money)} in all" if plan.money else ""
    if plan.standing is not Standing.OPEN:
        return f"{sticks[:1].upper()}{sticks[1:]}{money}. {plan.standing[:1].upper()}{plan.standing[1:]}."
    worse = f"{plan.saves_at_most_sticks} sticks fewer"
    if plan.saves_at_most:
        worse = f"{plan.saves_at_most_pct:.1f} % cheaper"
    return f"{sticks[:1].upper()}{sticks[1:]}{money}. Not proved: a plan at most {worse} is possible."


def _shopping(plan: StickPlan, unit: Unit) -> Iterable[tuple[str, ...]]:
    for line in shopping_list(plan):
        length = describe_length(line.length_mm, unit=unit)
        yield line.name, length, str(line.count), number_text(line.each), number_text(line.total)


def _sticks(plan: StickPlan, group: TimberGroup, unit: Unit) -> Iterable[StickView]:
    for number, stick in enumerate(plan.sticks, start=1):
        svg = draw_stick(stick, name=f"stick-{group.key[:6]}-{number}", slope_mm=group.problem.slope_mm, unit=unit)
        yield StickView(label=stick.label, svg=drawing(svg), pieces=tuple(_pieces(stick, unit)))


def _pieces(stick: CutStick, unit: Unit) -> Iterable[str]:
    for strip in stick.strips:
        for placed in strip.pieces:
            yield f"{label_of(placed.piece).text}, {describe_length(placed.piece.length_mm, unit=unit)}"


def _stops(plan: StickPlan, group: TimberGroup, unit: Unit, done: tuple[str, ...]) -> Iterable[StopView]:
    for stop in stop_list(plan, problem=group.problem, both_sides=False):
        key = f"{group.key[:12]}-{stop.number}"
        pieces = ", ".join(label_of(piece).text for piece in stop.pieces[:12])
        more = f" and {stop.count - 12} more" if stop.count > 12 else ""
        yield StopView(
            key=key,
            says=f"{describe_length(stop.long_mm, unit=unit)}: {stop.count} pieces",
            pieces=pieces + more,
            is_done=key in done,
        )


def _left(plan: StickPlan, unit: Unit, *, shortest_useful_mm: float) -> Iterable[str]:
    for off_cut in off_cuts(plan, shortest_useful_mm=shortest_useful_mm):
        yield f"{off_cut.stick}: {describe_length(off_cut.length_mm, unit=unit)} left, {off_cut.fate}."


def _plain(text: str, lengths: Any, unit: Unit) -> str:
    return text.format_map({name: describe_length(length_mm, unit=unit) for name, length_mm in lengths.items()})


def stops_csv(views: Iterable[GroupView]) -> str:
    """The stop list as a table for a spreadsheet; no cell can be taken for a formula."""
    text = StringIO()
    table = csv.writer(text)
    table.writerow(["members", "stop", "pieces"])
    for view in views:
        for stop in view.stops:
            table.writerow([_cell(view.title), _cell(stop.says), _cell(stop.pieces)])
    return text.getvalue()


def _cell(text: str) -> str:
    return f"'{text}" if text.startswith(("=", "+", "-", "@", "\t", "\r")) else text
