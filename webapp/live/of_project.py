"""What a page says by its project alone: its words, its unit. A record that shows something builds on these."""

from typing import Protocol

from framecalc.project import Project
from framecalc.records import Record
from framecalc.words import Words
from webapp.live.desk import ProjectAtRevision


class HasProject(Protocol):
    """Whatever knows its project."""

    @property
    def project(self) -> Project:
        """The project."""


class OfProject:
    """What follows from the project that a record shows."""

    __slots__ = ()

    @property
    def words(self: HasProject) -> Words:
        """The trade words of the shop."""
        return self.project.shop.words

    @property
    def unit(self: HasProject) -> str:
        """The unit of a bare number."""
        return self.project.unit.value


class OfOpened(OfProject, Record):
    """What follows from a project as it is opened."""

    opened: ProjectAtRevision

    @property
    def project(self) -> Project:
        """The project."""
        return self.opened.project

    @property
    def project_id(self) -> str:
        """The id of the project."""
        return self.opened.project_id
