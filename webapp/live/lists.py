"""Lists of a job: on the page, in big type for the machine, and as a table for a spreadsheet.

A person ticks their lines off during the work; the project file keeps each tick by the key of its line.
"""

import csv
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from io import StringIO
from typing import TypeAlias

from fastapi import APIRouter, Request, Response

from framecalc.project import Project, texts_at, with_value
from framecalc.project.document import Document
from framecalc.records import Record, field
from framecalc.words import Words, say
from webapp.live.addresses import Address
from webapp.live.desk import AtDesk, Desk, ProjectAtRevision
from webapp.live.grouped import GROUPED
from webapp.live.of_project import OfOpened
from webapp.live.papers.files import job_file, table_file
from webapp.live.render import render, see_other, wants_parts
from webapp.live.typed.forms import Form

_KEY = re.compile(r"[0-9a-f]{10}-[a-z]+[0-9]{0,4}-[0-9]{1,5}")


class ListRow(Record):
    """One line to tick off: its key, its cells, and a longer cell below them on the page."""

    key: str
    cells: tuple[str, ...]
    below: str = ""
    is_done: bool = False


class JobList(Record):
    """One list: its name in addresses, its title, columns and lines; `below` heads the longer cell.

    `notes` stand above it at the machine. `tickable`: its lines are jobs at a machine.
    """

    name: str
    title: str
    columns: tuple[str, ...]
    rows: tuple[ListRow, ...]
    below: str = ""
    notes: tuple[str, ...] = ()
    tickable: bool = True

    @property
    def done(self) -> int:
        """The number of lines that are ticked off."""
        return sum(row.is_done for row in self.rows)


NamedLists: TypeAlias = Sequence[tuple[str, JobList]]
"""Lists of one name, each with what it is for."""


class ListShown(OfOpened):
    """One list of everything in a job, in big type.

    `of` is the page that it belongs to, `comes_from` names the plan that it needs; `is_split`: one thing may have
    several such lists.
    """

    address: str
    name: str
    title: str
    titles: Mapping[str, str]
    lists: NamedLists
    of: str
    comes_from: str
    is_split: bool

    @property
    def lists_at(self) -> str:
        """The start of the addresses of the lists and of their ticks."""
        return self.address


class Tick(Record):
    """A tick that is set or removed."""

    key: str
    is_done: bool
    lists_at: str


Also: TypeAlias = Callable[[Desk, ProjectAtRevision, Document, str, bool], Document]
"""What a tick of a line changes beside itself: the document as ticked, the key, and whether it is done."""


def _nothing_else(desk: Desk, head: ProjectAtRevision, document: Document, key: str, is_done: bool) -> Document:
    return document


class Ticks(Record):
    """Lines that are ticked off: the address that they hang on, and where the project file keeps their ticks.

    `part` is where the project file has the ticks; `most` are kept, since older ones belong to plans that no longer
    exist. `back` is the page of the ticked line, `also` what else its tick changes.
    """

    path: Address
    part: str
    most: int
    back: Callable[[str], str] = lambda place: ""
    also: Also = _nothing_else

    def place_of(self, place: str) -> str:
        """The page that a line stands on, behind the address."""
        return self.back(place)

    def tick_off(self, request: Request, project_id: str, key: str, desk: AtDesk, form: Form) -> Response:
        """Tick one line of a list off, or remove its tick: the form says which, so sending it twice does no harm."""
        address, is_done = self.path(project_id=project_id), form.texts.get("done") != "no"

        def changed(head: ProjectAtRevision) -> Document:
            return self.also(desk, head, self.ticked(head.document, key, is_done=is_done), key, is_done)

        opened = desk.change(project_id, changed, tab=form.tab)
        if not wants_parts(request):
            return see_other(address + self.place_of(form.place), anchor=f"tick-{key}")
        return render(
            request, "lists/ticked", Tick(key=key, is_done=key in self.ticks(opened.document), lists_at=address)
        )

    def ticks(self, document: Document) -> list[str]:
        """The keys of the lines that are ticked off."""
        return texts_at(document, f"{self.part}.done")

    def ticked(self, document: Document, key: str, *, is_done: bool) -> Document:
        """The document with a tick added or removed; a key that no list can have changes nothing."""
        ticks = self.ticks(document)
        if (key in ticks) == is_done or not _KEY.fullmatch(key):
            return document
        kept = [*ticks, key] if is_done else [one for one in ticks if one != key]
        return with_value(document, f"{self.part}.done", kept[-self.most :])


class ListPages(Ticks):
    """The lists of a page: their titles, where their ticks are kept, the first columns of their tables.

    `title` is that of the page. `heads` are the first columns of lists that have another. `is_split`: one thing has
    several lists of a name. `back` is the page of the ticked line, if it is not a list.
    """

    title: str
    comes_from: str
    titles: Mapping[str, str]
    lists_of: Callable[[Desk, Project, str], NamedLists]
    head: str
    heads: Mapping[str, str] = field(default_factory=dict)
    is_split: Callable[[str], bool] = lambda name: False

    def place_of(self, place: str) -> str:
        """The list that a line stands on, or the page that has it: a tab, or another one."""
        if place in self.titles:
            return f"/lists/{place}"
        name = place.removeprefix("tab-")
        return f"/{name}" if place != name and name in GROUPED[self.path] else self.back(place)

    def add_to(self, router: APIRouter) -> None:
        """Add the routes of the lists to a router."""
        router.get(self.path + "/lists/{name}.csv")(self.table)
        router.get(self.path + "/lists/{name}")(self.big)
        router.post(self.path + "/tick/{key}")(self.tick_off)

    def table(self, project_id: str, name: str, desk: AtDesk) -> Response:
        """Hand out a list as a table."""
        project = desk.open(project_id).project
        return table_file(self.text(desk, project, name), name=job_file(project, self.part, name))

    def text(self, desk: Desk, project: Project, name: str) -> str:
        """The text of a list as a table; nothing where it has no lines."""
        words, is_split, head = project.shop.words, self.is_split(name), self.heads.get(name, self.head)
        return as_table(self.lists_of(desk, project, name), head=head, words=words, is_split=is_split)

    def big(self, request: Request, project_id: str, name: str, desk: AtDesk) -> Response:
        """Show one list in big type, for the machine or the printer."""
        opened = desk.open(project_id)
        lists = self.lists_of(desk, opened.project, name)
        shown = ListShown(
            opened=opened,
            address=self.path(project_id=project_id),
            name=name,
            title=self.titles[name],
            titles=self.titles,
            lists=lists,
            of=self.title,
            comes_from=self.comes_from,
            is_split=self.is_split(name),
        )
        return render(request, "lists/list", shown)


def as_table(lists: Iterable[tuple[str, JobList]], *, head: str, words: Words, is_split: bool = False) -> str:
    """Lists of one name as one table for a spreadsheet.

    Args:
        head: the head of the column that says what each list is for.
        words: the trade words of the heads.
        is_split: whether a column says which list a line is of.
    """
    text = StringIO()
    table, is_headed = csv.writer(text), False
    for of, one in lists:
        if not is_headed:
            heads = (head, *(["Sheet"] if is_split else []), *one.columns, *([one.below] if one.below else []))
            table.writerow([say(column, words) for column in heads])
            is_headed = True
        for row in one.rows:
            cells = [of, *([one.title] if is_split else []), *row.cells, *([row.below] if one.below else [])]
            table.writerow([_cell(cell) for cell in cells])
    return text.getvalue()


def _cell(text: str) -> str:
    """A cell that no spreadsheet takes for a formula, without the page's special spaces."""
    text = text.replace("\u00a0", " ")
    return f"'{text}" if text.lstrip().startswith(("=", "+", "-", "@")) else text
