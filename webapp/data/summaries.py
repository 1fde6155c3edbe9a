"""What the list of projects says of each, read so that one spoiled project harms no other."""

import os
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from framecalc.project.document import Document
from framecalc.project.way import JobStep
from webapp.data.errors import NoSuchProject, UnreadableFile
from webapp.data.finding import PROJECT_ID, folder_of, head_of
from webapp.data.kept import Stamp
from webapp.data.revisions import History


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """One line of the list of projects. `problem` is a sentence about damaged files, mostly empty.

    Client, woods and the day it is due are as they stand in the file: blank where nobody has typed them. `is_over`: the
    job is ticked as handed over.
    """

    project_id: str
    name: str
    number: int
    when: str
    problem: str
    client: str = ""
    woods: tuple[str, ...] = ()
    due: date | None = None
    is_over: bool = False


class Summaries:
    """The lines of the projects in a folder; a file is read once, and again when another one stands in its place."""

    def __init__(self, root: Path) -> None:
        self._root = root
        self._known: dict[str, tuple[Stamp, Summary]] = {}

    def all(self) -> tuple[Summary, ...]:
        """A line for each project, the one changed last first; those of projects that are gone are let go."""
        found = {
            name: line for name in os.listdir(self._root) if PROJECT_ID.fullmatch(name) and (line := self._of(name))
        }
        for gone in [name for name in list(self._known) if name not in found]:
            self._known.pop(gone, None)
        return tuple(sorted(found.values(), key=lambda line: (line.when, line.project_id), reverse=True))

    def _of(self, project_id: str) -> Summary | None:
        stamp, known = self._stamp(project_id), self._known.get(project_id)
        if known and stamp == known[0]:
            return known[1]
        line = _summary(self._root, project_id)
        if line and stamp and line.number == stamp.number and not line.problem:
            self._known[project_id] = stamp, line
        return line

    def _stamp(self, project_id: str) -> Stamp | None:
        with suppress(UnreadableFile):
            return History(self._root / project_id).stamp()
        return None


def _summary(root: Path, project_id: str) -> Summary | None:
    try:
        head = head_of(History(folder_of(root, project_id)), project_id)
    except NoSuchProject:
        return None
    except UnreadableFile as error:
        return Summary(project_id=project_id, name=project_id, number=0, when="", problem=error.sentence)
    document = head.document
    way = _part(document.get("way"))
    return Summary(
        project_id=project_id,
        name=str(document.get("name", project_id)),
        number=head.number,
        when=head.saved.when,
        problem=head.problem,
        client=str(document.get("client", "")),
        woods=tuple(
            dict.fromkeys(filter(None, (str(_part(one).get("species", "")) for one in _list(document, "frames"))))
        ),
        due=_day(way.get("due")),
        is_over=JobStep.HAND_OVER.value in _list(way, "done"),
    )


def _part(found: object) -> Document:
    """A part of a document; an empty one where a spoiled file has something else."""
    return found if isinstance(found, dict) else {}


def _list(document: Document, name: str) -> list[object]:
    found = document.get(name)
    return found if isinstance(found, list) else []


def _day(found: object) -> date | None:
    with suppress(ValueError, TypeError):
        return date.fromisoformat(str(found))
    return None
