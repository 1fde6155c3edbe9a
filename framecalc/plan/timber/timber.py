"""The timber of a whole project: its pieces, and the cutting problem for each wood and section of member.

It stops at the problem; solving it is a job beside the plan. Frames of one wood, one width of member, one thickness and
one shape share their sticks; a loose ledge of a tray is a section of its own. Groups are planned in their
order, the widest first: each begins with what the plans before it have left of the stock, and its numbers go on after
theirs. Groups that may share boards get theirs from one plan for all of them.
"""

from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache

from framecalc.findings import Finding, Severity
from framecalc.plan.frame import FramePlan
from framecalc.plan.inputs import is_cut_here, is_unsized
from framecalc.plan.timber.as_cut import lengths_as_cut_mm
from framecalc.plan.timber.begun import asked_of, begun_groups, sharing_stock
from framecalc.plan.timber.common import SharingGroups, sharing_of
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.profiles import common_words, milled_of
from framecalc.plan.timber.runs import FrameRun, runs_of
from framecalc.plan.timber.stock import MemberSection, from_the_pattern, offers_for
from framecalc.project import Project
from framecalc.records import cached_property, replace
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.timber.sticks.problem import Piece, Purpose, StickProblem, Stock, unlike_bundles
from framecalc.units import Unit

USUAL_STICK_MM = {Unit.MM: 2400.0, Unit.INCH: 2438.4}
"""What an estimate is worked out with while no stock is typed (common practice, no source: about 8 ft)."""


class TimberPlan:
    """The timber of a project: its pieces by section, and their stock."""

    def __init__(self, project: Project, frames: Mapping[str, FramePlan]) -> None:
        self._project = project
        self._frames = frames

    @cached_property
    def groups(self) -> tuple[TimberGroup, ...]:
        """One group for each wood, section of member and number of sides, the widest first.

        Raises:
            FrameCalcError: a frame cannot be computed.
        """
        by_section: dict[MemberSection, list[FrameRun]] = {}
        for run in runs_of(self._frames.values()):
            by_section.setdefault(run.section, []).append(run)
        ordered = sorted(
            by_section,
            key=lambda one: (-one.width_mm, -one.thickness_mm, one.wood, one.sides, one.slope_deg, one.profile),
        )
        groups = [
            self._group(section, by_section[section], profiles=_profiles_like(section, ordered)) for section in ordered
        ]
        served = {key for group in groups for key in group.offers}
        finished = tuple(_finished(group, groups, served) for group in groups)
        return begun_groups(finished, cut=self._project.timber.cut)

    def asked(self, group: TimberGroup) -> str:
        """The name of what is asked of the cutting plan of a group, and of those that may share its stock.

        Raises:
            FrameCalcError: a frame cannot be computed.
        """
        sets = sharing_stock(self.groups)
        return asked_of(next(one for one in sets if group.section in [other.section for other in one]))

    @cached_property
    def ordered(self) -> tuple[FramePlan, ...]:
        """The frames whose sides the supplier of their moulding cuts; they are in no group."""
        return tuple(frame for frame in self._frames.values() if not is_cut_here(frame.frame))

    @cached_property
    def sharing(self) -> tuple[SharingGroups, ...]:
        """The groups that may share boards.

        Raises:
            FrameCalcError: a frame cannot be computed.
        """
        to_cut = [group for group in self.groups if not group.is_all_cut]
        return sharing_of(to_cut, kerf_mm=self._project.shop.kerf.mm)

    @cached_property
    def unsized(self) -> tuple[FramePlan, ...]:
        """The polygons without a typed size; they are in no group."""
        return tuple(frame for frame in self._frames.values() if is_unsized(frame.frame))

    def _group(self, section: MemberSection, runs: list[FrameRun], *, profiles: int) -> TimberGroup:
        pieces, frames = tuple(self._pieces(runs)), {run.frame.frame.id: run.frame for run in runs}.values()
        lengths_mm = stretches_mm(self._problem(section, pieces, ()))
        milled = {run.name: milled_of(run.frame, is_ledge=run.is_ledge, unit=self._project.unit) for run in runs}
        is_turned = self._project.timber.turned
        offers, findings = offers_for(
            section,
            project=self._project,
            lengths_mm=lengths_mm,
            milled_to="" if is_turned else common_words(milled.values()),
        )
        return TimberGroup(
            section=section,
            frames=tuple(frames),
            problem=self._problem(section, pieces, tuple(offer.stock for offer in offers)),
            findings=(*self._not_turned(section), *_unlike(profiles), *findings),
            offers={offer.stock.id: offer for offer in offers},
            milled=milled,
            runs=tuple(runs),
            is_ledge=all(run.is_ledge for run in runs),
        )

    def _problem(self, section: MemberSection, pieces: tuple[Piece, ...], stock: tuple[Stock, ...]) -> StickProblem:
        timber, shop = self._project.timber, self._project.shop
        sticks = stock or (_usual_stick(self._project.unit, shop.end_trim.mm),)
        return StickProblem(
            pieces=pieces,
            stock=tuple(from_the_pattern(one, section.repeat_mm) for one in sticks),
            kerf_mm=shop.kerf.mm,
            width_mm=section.width_mm,
            sides=section.sides,
            slope_deg=section.slope_deg,
            grain=timber.grain,
            corner=timber.corner if section.sides == len(RECTANGLE_SIDES) else f"{section.sides}-1",
            turned=timber.turned and not section.moulding and not section.slope_deg,
            milled=timber.milled or bool(section.moulding),
            shortest_useful_mm=timber.shortest_useful.mm,
            repeat_mm=section.repeat_mm,
        )

    def _not_turned(self, section: MemberSection) -> Iterator[Finding]:
        """Of two sides that slope, laid end to end and one of them turned, a tilted cut fits one alone."""
        if self._project.timber.turned and section.slope_deg:
            yield Finding(
                code="timber.not-turned",
                severity=Severity.NOTE,
                sentence="These sides slope, so no piece is turned end for end.",
                why="A cut with the blade tilted fits one of two pieces; the other would lean the wrong way.",
                source="derived",
                argument="timber.turned",
            )

    def _pieces(self, runs: list[FrameRun]) -> Iterable[Piece]:
        """Every piece of some runs; a corner is tried out in members, not in ledges alone."""
        timber = self._project.timber
        for run in runs:
            lengths_mm = lengths_as_cut_mm(run) if timber.as_cut else run.lengths_mm
            sides, spare = tuple(lengths_mm.items()), tuple(_each_once(lengths_mm).items())
            yield from _copies(run.name, sides, run.frame.frame.count, Purpose.MEMBER)
            yield from _copies(run.name, spare, timber.spares, Purpose.SPARE)
        for copy in range(1, (0 if all(run.is_ledge for run in runs) else timber.tests) + 1):
            yield Piece(frame="corner", copy=copy, side="test", length_mm=timber.test_length.mm, purpose=Purpose.TEST)


def _finished(group: TimberGroup, groups: Iterable[TimberGroup], served: set[str]) -> TimberGroup:
    """A group beside the others of its project."""
    findings = tuple(_softened(group.findings, served))
    stops = any(finding.severity is Severity.STOP for finding in findings)
    return replace(
        group,
        findings=findings,
        is_unserved=group.is_estimate and stops,
        planed_with=_planed_with(group, groups),
    )


def _each_once(lengths_mm: Mapping[str, float]) -> dict[str, float]:
    """One side of every length: the first."""
    first = {length_mm: side for side, length_mm in reversed(list(lengths_mm.items()))}
    return {side: length_mm for side, length_mm in lengths_mm.items() if first[length_mm] == side}


@lru_cache(maxsize=1024)
def _copies(frame: str, sides: tuple[tuple[str, float], ...], count: int, purpose: Purpose) -> tuple[Piece, ...]:
    """The pieces of a run; kept, since a redraw changes those of one frame, and a job has many."""
    return tuple(
        Piece(frame=frame, copy=copy, side=side, length_mm=length_mm, purpose=purpose)
        for copy in range(1, count + 1)
        for side, length_mm in sides
    )


def _planed_with(group: TimberGroup, groups: Iterable[TimberGroup]) -> tuple[MemberSection, ...]:
    """The sections of other groups whose boards come from the planer equally thick: one setting serves both."""
    return tuple(
        other.section for other in groups if other is not group and not group.planed_mm.isdisjoint(other.planed_mm)
    )


def _profiles_like(section: MemberSection, sections: Iterable[MemberSection]) -> int:
    """The number of profiles among the sections of one wood, width and thickness."""
    return (
        1
        if section.moulding
        else len({one.profile for one in sections if replace(one, profile=section.profile) == section})
    )


def _unlike(profiles: int) -> Iterator[Finding]:
    """Sticks that are milled already serve one profile alone."""
    if profiles > 1:
        yield Finding(
            code="timber.profiles",
            severity=Severity.WARN,
            sentence=f"Frames of this wood, width and thickness have {profiles} profiles, and the sticks are milled"
            " already: check that each stick has the profile of its frame.",
            why="A stick is known by its wood, width and thickness only.",
            source="derived",
            argument="timber.milled",
        )


def stretches_mm(problem: StickProblem) -> list[float]:
    """The lengths of stretches that the pieces need, single or tied together; the longest first."""
    bundles, joint_mm = unlike_bundles(problem), problem.cut_mm - problem.nested_mm
    return sorted({one.length_mm + (len(one.pieces) - 1) * joint_mm for one in bundles}, reverse=True)


def _softened(findings: Iterable[Finding], served: set[str]) -> Iterator[Finding]:
    """Soften the stop about stock that another group can use."""
    for finding in findings:
        is_elsewhere = finding.severity is Severity.STOP and finding.argument.split(".")[2] in served
        yield replace(finding, severity=Severity.NOTE) if is_elsewhere else finding


def _usual_stick(unit: Unit, trim_mm: float) -> Stock:
    return Stock(name="usual stick", length_mm=USUAL_STICK_MM[unit], trim_mm=trim_mm)
