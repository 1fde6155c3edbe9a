"""Mark a plan as cut: the change to the rack, and the record of it."""

from collections.abc import Callable
from typing import TypeAlias

from markupsafe import Markup

from framecalc.plan.timber.as_cut import group_as_cut, plan_as_cut
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.wood_use import rippings_of
from framecalc.project import Project
from framecalc.project.timber import Stock
from framecalc.records import Record
from framecalc.timber.rack import RackChange, StickSection, StockSource, change_of
from framecalc.timber.sticks.answer import CutStick, StickPlan
from framecalc.timber.sticks.problem import StickProblem
from framecalc.units import Unit
from framecalc.words import Words
from webapp.data.errors import StoreError
from webapp.data.plan_file import file_text, read_answer
from webapp.data.rack import CutWish
from webapp.data.rack_file import RackFile, new_tags
from webapp.jobs.timber import work_of
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.render import drawing
from webapp.pages.timber.shown import PlanView, group_view


class NoPlanToCut(StoreError):
    """There is no computed plan of this name."""


class IssuedSticks(Record):
    """Sticks cut alike: their drawing, and the labels of the pieces of each in order."""

    svg: str
    sticks: tuple[tuple[str, tuple[str, ...]], ...]


class CutRecord(Record):
    """A plan as marked as cut; later changes do not affect it."""

    title: str
    revision: int
    unit: Unit
    words: Words
    verdict: str
    problem: StickProblem
    plan: StickPlan
    sticks: tuple[IssuedSticks, ...]


DrawnSticks: TypeAlias = tuple[tuple[Markup, tuple[tuple[str, tuple[str, ...]], ...]], ...]
"""Drawings, each with the sticks that are cut so: their names, and the pieces of each."""


class CuttablePlan(Record):
    """A plan that can be marked as cut."""

    opened: ProjectAtRevision
    group: TimberGroup
    plan: StickPlan
    title: str
    view: PlanView

    def change(self, file: RackFile) -> RackChange:
        """The change that it makes to the present rack.

        Raises:
            ImpossibleTimber: a stick of the plan is no longer on the rack.
        """
        source_of = self._sources.of(file)
        word = source_of(self.plan.sticks[0]).section.species or "stick"
        return change_of(
            self.plan,
            rack=file.rack,
            source_of=source_of,
            tags=new_tags(file, word),
            shortest_useful_mm=self.opened.project.timber.shortest_useful.mm,
        )

    def besides(self) -> tuple[str, ...]:
        """The sticks of the plan that are not from the rack."""
        return tuple(stick.label for stick in self.plan.sticks if not self._sources.tag_of(stick))

    def wish(self, *, after: int) -> CutWish:
        """The change to make, with its record.

        Args:
            after: how many times the plan has been cut before.
        """
        record = CutRecord(
            title=self.title,
            revision=self.opened.revision.number,
            unit=self.opened.project.unit,
            words=self.opened.project.shop.words,
            verdict=self.view.verdict,
            problem=self.group.problem,
            plan=self.plan,
            sticks=tuple(IssuedSticks(svg=str(one.svg), sticks=one.sticks) for one in self.view.sticks),
        )
        return CutWish(
            project_id=self.opened.project_id,
            project_name=self.opened.project.name,
            members=", ".join(self.group.names)[:200],
            problem=self.group.key,
            record=file_text(record, indent=2),
            after=after,
            revision=self.opened.revision.number,
        )

    @property
    def _sources(self) -> "_Sources":
        return _Sources(project=self.opened.project, group=self.group)


class _Sources(Record):
    """Identifies each stick of a plan."""

    project: Project
    group: TimberGroup

    @property
    def species(self) -> str:
        """The wood of the members, as typed."""
        return next((frame.frame.species.strip()[:60] for frame in self.group.frames if frame.frame.species), "")

    @property
    def _milled(self) -> str:
        """The profile of off-cuts of wood that is milled here; blank while it is plain."""
        return "milled" if self.project.timber.milled else ""

    def tag_of(self, stick: CutStick) -> str:
        """Its tag on the rack; blank if it is not from there, or left it with the strips of other members."""
        typed, offer = self._typed(stick), self.group.offer_of(stick)
        is_rest = offer is not None and offer.is_rest
        return typed.name if typed and typed.on_rack and not is_rest else ""

    def _typed(self, stick: CutStick) -> Stock | None:
        return next((one for one in self.project.timber.stock if one.id == stick.stock.typed_id), None)

    def of(self, file: RackFile) -> Callable[[CutStick], StockSource]:
        """A stick with its tag, wood and size, by the present rack."""
        by_tag, rippings = {entry.tag: entry.stick for entry in file.sticks}, rippings_of(self.group)

        def source_of(stick: CutStick) -> StockSource:
            typed = self._typed(stick)
            there = by_tag.get(self.tag_of(stick))
            species = there.species if there else typed.species[:60] if typed else ""
            section = StickSection(
                species=species or self.species,
                width_mm=self.group.section.width_mm,
                thickness_mm=self.group.section.thickness_mm,
                profile=there.profile if there else self.group.section.moulding or self._milled,
            )
            milled = {} if there and there.profile else self._profiles(stick)
            return StockSource(
                section=section, tag=self.tag_of(stick), ripping=rippings.get(stick.stock.id), profiles=milled
            )

        return source_of

    def _profiles(self, stick: CutStick) -> dict[int, str]:
        """What the strips of a stick that are cut have milled into them before; one that is not cut stays plain."""
        strips = {strip.number: [placed.piece for placed in strip.pieces] for strip in stick.strips if strip.pieces}
        words = {number: self.group.profile_of(pieces) for number, pieces in strips.items()}
        return {number: one for number, one in words.items() if one}


def cutting_of(desk: Desk, project_id: str, key: str) -> CuttablePlan:
    """The plan of a project whose problem has this hash.

    Raises:
        NoPlanToCut: the project in its present state has no such computed plan.
        FrameCalcError: a frame cannot be computed.
    """
    opened = desk.open(project_id)
    works = work_of(desk.jobs, opened.plan)
    work = next((work for work in works if work.group.key == key and work.plan), None)
    if work is None or work.plan is None:
        raise NoPlanToCut("Something was changed since, or this plan was not worked out yet: there is nothing to mark.")
    cut = work.group.still_here(plan_as_cut(work.plan, group=work.group, project=opened.project))
    if not cut.sticks:
        raise NoPlanToCut("All of it was marked as cut before: there is nothing to mark.")
    view = group_view(work, opened.project, 1)
    assert view.plan is not None
    group = group_as_cut(work.group)
    return CuttablePlan(opened=opened, group=group, plan=cut, title=view.title, view=view.plan)


def record_of(text: bytes) -> CutRecord:
    """Read a stored record."""
    return read_answer(CutRecord, text)


def drawn(record: CutRecord) -> DrawnSticks:
    """The drawings of a record, with the lines under each."""
    return tuple((drawing(one.svg), one.sticks) for one in record.sticks)
