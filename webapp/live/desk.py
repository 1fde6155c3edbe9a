"""The request context: the store, the shop profile, and projects opened at a revision."""

import secrets
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from typing import Annotated, Protocol

from fastapi import Depends, Request

from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan, Plan
from framecalc.plan.job_light import Obstacle
from framecalc.plan.price.price import JobPrice, price_job
from framecalc.plan.way import BesidePlan, WayThrough, way_of
from framecalc.project import Frame, Project, Quote, project_document, read_like, read_project, value_at
from framecalc.project.document import Document
from framecalc.records import Record, cached_property, field, replace
from framecalc.units import Unit
from webapp.data.errors import StoreError, UnreadableFile
from webapp.data.kept import Keeping
from webapp.data.rack import RackFolder
from webapp.data.revisions import Revision
from webapp.data.shop import USUAL_SHOP, ShopProfile, profile_document, read_shop
from webapp.data.store import ID_LETTERS, Store
from webapp.jobs.running import Jobs
from webapp.live.typed.field import FieldSet
from webapp.live.typed.texts import Reading, shown


class NoSuchFrame(StoreError):
    """The project has no frame of this id."""


class SpoiledProject(FrameCalcError):
    """A revision is no project that can be read here; `reason` says why."""

    def __init__(self, reason: FrameCalcError, *, project_id: str, number: int) -> None:
        super().__init__(reason.sentence.replace("{", "{{").replace("}", "}}"), field=reason.field)
        self.reason, self.project_id, self.number = reason, project_id, number


def new_id() -> str:
    """Make the short random id of a frame, a layer or a blade."""
    return "".join(secrets.choice(ID_LETTERS) for _ in range(6))


def frame_in(document: Document, frame_id: str) -> Document:
    """The document of one frame.

    Raises:
        NoSuchFrame: the project has none of this id.
    """
    frame = value_at(document, f"frames.{frame_id}")
    if not isinstance(frame, dict):
        raise NoSuchFrame("No such frame in this project: it may have been deleted meanwhile")
    return dict(frame)


class FieldsOfPage(Record):
    """The fields of a page of a saved project, and the text in each."""

    fields: FieldSet
    texts: Mapping[str, str]


class ProjectAtRevision(Record, dict=True):
    """A project at one revision. Requests share it, so nothing in it is ever changed in place."""

    project_id: str
    revision: Revision

    @cached_property
    def document(self) -> Document:
        """The project as plain values; usual values fill what an older file does not have yet."""
        return project_document(self.project.model_copy(update={"saved": None}))

    @cached_property
    def project(self) -> Project:
        """The checked project; it holds its revision, so that a drawing can state it.

        Raises:
            SpoiledProject: the file on the disk is no project that can be read here.
        """
        try:
            project = read_project(self.revision.document)
        except FrameCalcError as error:
            raise SpoiledProject(error, project_id=self.project_id, number=self.revision.number) from error
        return project.model_copy(update={"saved": self.revision.saved})

    @cached_property
    def plan(self) -> Plan:
        """The plan of the saved project."""
        return Plan(self.project)

    def check(self, document: Document) -> Project:
        """Read a document made from this revision; parts that both share are not read again.

        Raises:
            FrameCalcError: it is no project.
        """
        return read_like(document, known=self.document, project=self.project)

    def followed_by(self, revision: Revision) -> "ProjectAtRevision":
        """The project at a revision made from this one; unchanged parts are neither read nor planned again."""
        after = ProjectAtRevision(project_id=self.project_id, revision=revision)
        project = self.check(revision.document).model_copy(update={"saved": revision.saved})
        vars(after).update(project=project, plan=Plan(project, before=self.plan))
        return after

    def page(self, fields: Callable[[Document, str], FieldSet], frame_id: str) -> FieldsOfPage:
        """The fields of a page as it shows them; found once."""
        key = fields, frame_id
        if key not in self._pages:
            self._pages[key] = _fields_of_page(fields(self.document, frame_id), self)
        return self._pages[key]

    @cached_property
    def _pages(self) -> dict[tuple[Callable[[Document, str], FieldSet], str], FieldsOfPage]:
        return {}

    @property
    def reading(self) -> Reading:
        """How lengths typed into this project are read."""
        return Reading(unit=self.project.unit, comma=self.project.shop.comma)

    def frame(self, frame_id: str) -> Frame:
        """A frame of the project.

        Raises:
            NoSuchFrame: there is none of this id.
        """
        frame_in(self.document, frame_id)
        frame = self.project.frame(frame_id)
        assert frame is not None
        return frame


def _fields_of_page(fields: FieldSet, opened: ProjectAtRevision) -> FieldsOfPage:
    texts = {path: shown(opened.document, path, one, unit=opened.project.unit) for path, one in fields.items()}
    return FieldsOfPage(fields=fields, texts=texts)


class Known(Protocol):
    """What is known of a job beside its plan: searches that have ended, prices, what was cut, a client's yes."""

    @property
    def obstacles(self) -> tuple[Obstacle, ...]:
        """What the light says of the whole job."""

    @property
    def along(self) -> BesidePlan:
        """What the way through the job follows from."""

    @property
    def price(self) -> JobPrice:
        """The price by the project's own quote, or by the shop's where it has none yet."""


class _FromPlan(Record):
    """What is known from the plan alone."""

    plan: Plan

    @property
    def obstacles(self) -> tuple[Obstacle, ...]:
        return self.plan.obstacles

    @property
    def along(self) -> BesidePlan:
        return BesidePlan(obstacles=self.obstacles)

    @property
    def price(self) -> JobPrice:
        project = self.plan.project
        return price_job(project, quote=project.quote or Quote(), plan=self.plan)


def _from_plan(desk: "Desk", project_id: str, plan: Plan) -> Known:
    return _FromPlan(plan=plan)


class ShopKept:
    """The shop profile as it was read last: the same document is not read again."""

    def __init__(self) -> None:
        self._last: tuple[Document, ShopProfile] | None = None

    def of(self, document: Document) -> ShopProfile:
        """The profile that a document holds; an empty one is the usual shop."""
        document, last = document or USUAL_SHOP, self._last
        if last is None or last[0] is not document:
            last = self._last = document, read_shop(document)
        return last[1]


class Desk(Record):
    """What every route works with: the store, the shop profile and opened projects.

    `looks_beside` finds what is known of a job beside a plan of it; `looked` holds what was found in one request.
    """

    store: Store
    jobs: Jobs
    rack: RackFolder
    kept: Keeping[ProjectAtRevision] = field(default_factory=Keeping)
    shop_kept: ShopKept = field(default_factory=ShopKept)
    looks_beside: Callable[["Desk", str, Plan], Known] = _from_plan
    looked: dict[tuple[str, Plan], Known] | None = None

    def for_a_request(self) -> "Desk":
        """The same desk, on which what is known beside a plan is found once."""
        return replace(self, looked={})

    def beside(self, project_id: str, plan: Plan) -> tuple[Obstacle, ...]:
        """What the light says of a whole job."""
        return self._known(project_id, plan).obstacles

    def price(self, project_id: str, plan: Plan) -> JobPrice:
        """The price of a job, counted in the plans that are worked out by now.

        Raises:
            FrameCalcError: a frame cannot be computed.
        """
        return self._known(project_id, plan).price

    def way(self, opened: ProjectAtRevision) -> WayThrough:
        """The way through a job as it is saved."""
        return way_of(opened.plan, self._known(opened.project_id, opened.plan).along)

    def _known(self, project_id: str, plan: Plan) -> Known:
        looked = {} if self.looked is None else self.looked
        if (project_id, plan) not in looked:
            looked[project_id, plan] = self.looks_beside(self, project_id, plan)
        return looked[project_id, plan]

    def open(self, project_id: str) -> ProjectAtRevision:
        """Open a project at its newest revision.

        Raises:
            NoSuchProject: there is none of this id.
        """
        return self._opened(project_id, 0, lambda: self.store.head(project_id))

    def open_revision(self, project_id: str, number: int) -> ProjectAtRevision:
        """Open a project at one of its revisions.

        Raises:
            NoSuchRevision: there is none of this number that can be read.
        """
        return self._opened(project_id, number, lambda: self.store.revision(project_id, number))

    def change(self, project_id: str, make: Callable[[ProjectAtRevision], Document], *, tab: str) -> ProjectAtRevision:
        """Work a change into the newest revision while nobody else can save, and open the project as it is then.

        Args:
            make: makes the document from the project as it is now, sharing what it does not change.
            tab: the random id of the browser tab; "" when it has none.
        Raises:
            Conflict: `make` says so.
            NoSuchProject, NotWritten: as for the store.
        """
        heads: list[ProjectAtRevision] = []

        def from_head(head: Revision) -> Document:
            heads.append(self.open(project_id))
            return make(heads[0])

        revision = self.store.change(project_id, from_head, tab=tab)
        return self.saved(heads[0], revision)

    def saved(self, opened: ProjectAtRevision, revision: Revision) -> ProjectAtRevision:
        """Open a project at the revision that a save has made."""
        return self._kept(opened.project_id, revision.number, lambda: opened.followed_by(revision))

    def delete(self, project_id: str) -> None:
        """Move a project to the trash, from which it can be restored.

        Raises:
            NoSuchProject: there is none of this id.
        """
        self.store.delete(project_id)
        self.kept.drop(project_id)

    def plan(self, project_id: str, frame_id: str) -> FramePlan:
        """The plan of a saved frame.

        Raises:
            NoSuchFrame: the project has no such frame.
            FrameCalcError: the frame cannot be computed.
        """
        opened = self.open(project_id)
        plan = opened.plan.frames[opened.frame(frame_id).id]
        plan.compute_all()
        return plan

    def earlier(self, opened: ProjectAtRevision, *, most: int) -> Iterator[ProjectAtRevision]:
        """The readable revisions of a project up to the opened one, newest first, at most `most`."""
        for number in range(opened.revision.number, max(opened.revision.number - most, 0), -1):
            with suppress(StoreError):
                yield self.open_revision(opened.project_id, number)

    def shop(self) -> ShopProfile:
        """The shop profile; the usual one until the shop saves its own."""
        return self.shop_kept.of(self.store.read_shop())

    def remember_unit(self, unit: Unit) -> None:
        """Let new projects start in the unit that was chosen last; a damaged profile is left as it is."""
        if unit is not self.shop().unit:
            with suppress(UnreadableFile):
                self.store.shop.change(lambda profile: profile_document(profile) | {"unit": unit.value})

    def _opened(self, project_id: str, number: int, read: Callable[[], Revision]) -> ProjectAtRevision:
        return self._kept(project_id, number, lambda: ProjectAtRevision(project_id=project_id, revision=read()))

    def _kept(self, project_id: str, number: int, make: Callable[[], ProjectAtRevision]) -> ProjectAtRevision:
        """The cached revision, or the newest one; read and cached when it is not there yet."""
        stamp = self.store.stamp(project_id, number)
        opened = (self.kept.find(stamp) if stamp else None) or make()
        found = opened.revision
        is_itself = stamp is not None and stamp.number == found.number and not found.damaged
        return self.kept.keep(stamp, opened) if stamp and is_itself else opened


def desk(request: Request) -> Desk:
    """The desk of this server for one request."""
    if not hasattr(request.state, "desk"):
        request.state.desk = request.app.state.desk.for_a_request()
    found: Desk = request.state.desk
    return found


async def _desk(request: Request) -> Desk:
    """The desk as a dependency: found at once, without a thread of its own."""
    return desk(request)


AtDesk = Annotated[Desk, Depends(_desk)]
"""The desk, as an argument of a route."""
