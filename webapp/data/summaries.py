"""What the list of projects says of each, read so that one spoiled project harms no other."""

from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from framecalc.project.document import Document
from framecalc.project.way import JobStep
from webapp.data.errors import NoSuchProject, UnreadableFile
from webapp.data.finding import folder_of, head_of
from webapp.data.revisions import History, Revision


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


def newest_first(lines: Iterable[Summary]) -> tuple[Summary, ...]:
    """Lines in the order of the list: the project changed last first."""
    return tuple(sorted(lines, key=lambda line: (line.when, line.project_id), reverse=True))


def read_summary(root: Path, project_id: str) -> tuple[int, Summary] | None:
    """The line of a project of a folder, with its revision: 0 where the line is to be read again the next time."""
    try:
        head = head_of(History(folder_of(root, project_id)), project_id)
    except NoSuchProject:
        return None
    except UnreadableFile as error:
        return 0, Summary(project_id=project_id, name=project_id, number=0, when="", problem=error.sentence)
    return (0 if head.problem else head.number), _summary(project_id, head)


def _summary(project_id: str, head: Revision) -> Summary:
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
