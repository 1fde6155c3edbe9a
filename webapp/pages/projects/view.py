"""The projects: a list that is found by typing; new, copy, rename, delete, bring back, import, export."""

import re
from collections.abc import Mapping, Sequence
from datetime import date
from functools import partial
from typing import Annotated
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, Request, Response

from framecalc.errors import FrameCalcError
from framecalc.project import parse_project, project_document, project_text, text_at
from framecalc.project.form import Field
from framecalc.records import Record, field, replace
from framecalc.units import Unit
from framecalc.words import Words
from webapp.data.backup import BackupState
from webapp.data.photos import Photos
from webapp.data.summaries import Summary
from webapp.data.taken_over import taken_over
from webapp.live.addresses import PROJECT, PROJECTS
from webapp.live.days import with_age
from webapp.live.desk import AtDesk, Desk
from webapp.live.papers.files import machine_file, plain_name
from webapp.live.render import render, see_other
from webapp.live.statuses import CANNOT_TAKE
from webapp.live.typed.forms import Form, all_sentences, plain
from webapp.pages.projects import PAGE
from webapp.pages.projects.demos import demos
from webapp.pages.projects.finding import page_of_list, pages_around
from webapp.pages.projects.listing import DemoEntry, ProjectEntry, demo_entries, entries
from webapp.pages.projects.newcomer import NEW_FIELDS, Newcomer, blank, read_newcomer

VIEW = router = APIRouter()
LONGEST_FIND = 120


async def sent_file(request: Request) -> tuple[bytes, str]:
    """Take a project from a form: the chosen file, and what was pasted."""
    async with request.form() as form:
        file, pasted = form.get("file"), form.get("pasted")
        content = await file.read() if file is not None and not isinstance(file, str) else b""
    return content, pasted if isinstance(pasted, str) else ""


SentFile = Annotated[tuple[bytes, str], Depends(sent_file)]


@router.get(PAGE.path)
def projects(request: Request, desk: AtDesk, deleted: str = "", find: str = "", page: str = "") -> Response:
    """List the projects, or those that are found by what was typed."""
    wanted = ListWanted(find=plain(find)[:LONGEST_FIND], page=int(page) if re.fullmatch("[0-9]{1,6}", page) else 1)
    return _answered(request, replace(_listed(request, desk, wanted), deleted=deleted))


class ListWanted(Record):
    """What is to be listed: projects that have all the words, and which page of them."""

    find: str = ""
    page: int = 1


EVERY_PROJECT = ListWanted()


@router.post(PROJECTS)
def new(request: Request, desk: AtDesk, form: Form) -> Response:
    """Start a project from three numbers."""
    newcomer = read_newcomer(form.texts, shop=desk.shop())
    if newcomer.document is None:
        return _answered(request, replace(_listed(request, desk), newcomer=newcomer), CANNOT_TAKE)
    desk.remember_unit(Unit(text_at(newcomer.document, "unit")))
    return see_other(PROJECT(project_id=desk.store.create(newcomer.document, tab=form.tab)))


@router.post(PROJECTS + "/import")
def take_in(request: Request, desk: AtDesk, sent: SentFile) -> Response:
    """Take in a project file, chosen or pasted."""
    content, pasted = sent
    try:
        project = parse_project(content or pasted)
    except FrameCalcError as error:
        shown = replace(_listed(request, desk), pasted=pasted, refused=all_sentences(error))
        return _answered(request, shown, CANNOT_TAKE)
    document = taken_over(project_document(project.model_copy(update={"saved": None})))
    return see_other(PROJECT(project_id=desk.store.create(document, step="import")))


@router.post(PROJECTS + "/demos/{name}")
def take_demo(request: Request, desk: AtDesk, name: str) -> Response:
    """Start a project from one of the demo projects; what makes one, its link to a client too, is imported with it."""
    from webapp.pages.projects.demo_taken import take

    return see_other(PROJECT(project_id=take(desk, request.app.state.shelf, name)))


@router.get(PROJECT + "/project.json")
def export(desk: AtDesk, project_id: str) -> Response:
    """Hand out the project file."""
    opened = desk.open(project_id)
    name = plain_name(opened.project.name) or f"project-{project_id}"
    return machine_file(project_text(opened.document), name=f"{name}.json", media_type="application/json")


@router.post(PROJECT + "/copy")
def copy(desk: AtDesk, project_id: str, form: Form) -> Response:
    """Start a project from another one."""
    name = f"{desk.open(project_id).project.name[:110]}, copy"
    photos = partial(Photos(desk.store).copy, project_id)
    copy_id = desk.store.copy(project_id, name=name, tab=form.tab, fill=photos)
    return see_other(PROJECT(project_id=copy_id))


@router.post(PROJECT + "/rename")
def rename(request: Request, desk: AtDesk, project_id: str, form: Form) -> Response:
    """Give a project another name."""
    try:
        desk.store.rename(project_id, form.texts.get("name", ""), base=form.base, tab=form.tab)
    except FrameCalcError as error:
        refused = {project_id: (form.texts.get("name", ""), error.sentence)}
        return _answered(request, replace(_listed(request, desk), rename=refused), CANNOT_TAKE)
    return see_other(PAGE.path, anchor=f"project-{project_id}")


@router.post(PROJECT + "/delete")
def delete(desk: AtDesk, project_id: str) -> Response:
    """Move a project to the trash, from where it can be brought back."""
    desk.delete(project_id)
    return see_other(f"/?deleted={project_id}")


@router.post("/trash/{project_id}/restore")
def restore(desk: AtDesk, project_id: str) -> Response:
    """Bring a project back from the trash."""
    desk.store.undelete(project_id)
    return see_other(PAGE.path, anchor=f"project-{project_id}")


class ProjectsShown(Record):
    """Everything the list of projects shows.

    `pasted` is a project that was pasted, `refused` why it cannot be taken in; `rename` has for a project the name that
    was typed, and why it cannot be; `deleted` is the project that was just moved to the trash; `shop_damage` says what
    is wrong with the shop's own values.
    """

    words: Words
    parts: tuple[tuple[str, tuple[ProjectEntry, ...]], ...]
    total: int
    found: int
    find: str
    further: tuple[tuple[str, str], ...]
    trash: Sequence[Summary]
    demos: tuple[DemoEntry, ...]
    newcomer: Newcomer
    pasted: str = ""
    refused: str = ""
    rename: Mapping[str, tuple[str, str]] = field(default_factory=dict)
    deleted: str = ""
    shop_damage: str = ""
    backup: BackupState | None = None
    new_fields: Mapping[str, Field] = field(default_factory=lambda: NEW_FIELDS)

    @property
    def last_backup(self) -> str:
        """When the last good backup was made, how many days ago; empty where there is none."""
        last = self.backup.last if self.backup else None
        return with_age(last, today=date.today()) if last else ""


def _listed(request: Request, desk: Desk, wanted: ListWanted = EVERY_PROJECT) -> ProjectsShown:
    """What the page shows while nothing is typed into it."""
    shop, today = desk.shop(), date.today()
    summaries = desk.store.list()
    page = page_of_list(summaries, find=wanted.find, number=wanted.page, today=today)
    return ProjectsShown(
        words=shop.words,
        parts=tuple((due.value, entries(desk, part, today=today, words=shop.words)) for due, part in page.parts),
        total=len(summaries),
        found=page.found,
        find=wanted.find,
        further=tuple((_list_at(wanted.find, number), says) for number, says in pages_around(page)),
        trash=desk.store.trashed(),
        demos=demo_entries(demos()),
        newcomer=blank(shop),
        shop_damage=desk.store.shop.damage(),
        backup=request.app.state.backups.state(),
    )


def _answered(request: Request, shown: ProjectsShown, status: int = 200) -> Response:
    return render(request, PAGE.template, shown, status=status)


def _list_at(find: str, number: int) -> str:
    return f"{PAGE.path}?{urlencode({'find': find, 'page': number} if find else {'page': number})}#of-list"
