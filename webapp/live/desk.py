"""The desk: what a route needs at hand. The store, the shop profile, and a project opened at its newest revision."""

import secrets
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from fastapi import Request

from framecalc.plan import FramePlan
from framecalc.project import Frame, Project, project_document, read_project
from framecalc.units import Comma, Unit
from webapp.data.errors import StoreError
from webapp.data.rack import RackFolder
from webapp.data.revisions import Revision
from webapp.data.shop import ShopProfile, read_shop
from webapp.data.store import Store
from webapp.jobs.running import Jobs
from webapp.live.forms import Document, Reading

_ID_LETTERS = "0123456789abcdefghjkmnpqrstvwxyz"


class NoSuchFrame(StoreError):
    """The project has no frame of this id."""


def new_id() -> str:
    """Make the id of a frame, a layer or a blade: short, random, ours."""
    return "".join(secrets.choice(_ID_LETTERS) for _ in range(6))


def frame_in(document: Document, frame_id: str) -> Document:
    """The document of one frame.

    Raises:
        NoSuchFrame: the project has none of this id.
    """
    frame = next((frame for frame in document["frames"] if frame["id"] == frame_id), None)
    if frame is None:
        raise NoSuchFrame("there is no such frame in this project: it may have been deleted meanwhile")
    return dict(frame)


@dataclass(frozen=True, kw_only=True)
class ProjectAtRevision:
    """A project opened at one revision."""

    project_id: str
    revision: Revision

    @cached_property
    def document(self) -> Document:
        """The project as plain values, with the usual ones where an older file has none yet."""
        return project_document(self.project.model_copy(update={"saved": None}))

    @cached_property
    def project(self) -> Project:
        """The project, checked; it knows which revision it is, so that a drawing can say so.

        Raises:
            FrameCalcError: the file on the disk is no project that can be read here.
        """
        return read_project(self.revision.document).model_copy(update={"saved": self.revision.saved})

    @property
    def reading(self) -> Reading:
        """How lengths typed into this project are read."""
        return Reading(unit=Unit(self.document["unit"]), comma=Comma(self.document["shop"]["comma"]))

    def frame(self, frame_id: str) -> Frame:
        """A frame of the project.

        Raises:
            NoSuchFrame: there is none of this id.
        """
        frame_in(self.document, frame_id)
        frame = self.project.frame(frame_id)
        assert frame is not None
        return frame


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """What the routes work with."""

    store: Store
    jobs: Jobs
    rack: RackFolder

    def open(self, project_id: str) -> ProjectAtRevision:
        """Open a project at its newest revision.

        Raises:
            NoSuchProject: there is none of this id.
        """
        return ProjectAtRevision(project_id=project_id, revision=self.store.head(project_id))

    def open_revision(self, project_id: str, number: int) -> ProjectAtRevision:
        """Open a project at one of its revisions.

        Raises:
            NoSuchRevision: there is none of this number that can be read.
        """
        return ProjectAtRevision(project_id=project_id, revision=self.store.revision(project_id, number))

    def plan(self, project_id: str, frame_id: str) -> FramePlan:
        """The plan of a frame as it is saved.

        Raises:
            NoSuchFrame: the project has no such frame.
            FrameCalcError: the frame cannot be computed.
        """
        opened = self.open(project_id)
        plan = FramePlan(opened.project, opened.frame(frame_id))
        plan.compute_all()
        return plan

    def earlier(self, opened: ProjectAtRevision, *, most: int) -> Iterator[ProjectAtRevision]:
        """The readable revisions of a project from the opened one back, newest first, not more than `most`."""
        for number in range(opened.revision.number, max(opened.revision.number - most, 0), -1):
            with suppress(StoreError):
                yield ProjectAtRevision(
                    project_id=opened.project_id, revision=self.store.revision(opened.project_id, number)
                )

    def shop(self) -> ShopProfile:
        """The shop profile; the usual one until the shop has said otherwise."""
        return read_shop(self.store.read_shop())


def desk(request: Request) -> Desk:
    """The desk of this server, for a route."""
    found: Any = request.app.state.desk
    assert isinstance(found, Desk)
    return found
