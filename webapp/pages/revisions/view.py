"""What a project was before: undo, redo, the list of revisions, any of them brought back."""

import re
from collections.abc import Callable
from itertools import islice
from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response
from starlette.responses import PlainTextResponse

from webapp.data.revisions import Conflict, Revision
from webapp.live.addresses import NEWEST, PROJECT, REVISIONS
from webapp.live.desk import AtDesk, Desk
from webapp.live.forms import Form, Typed
from webapp.live.live import live_pages
from webapp.live.page import Page, Pages, Place, pages
from webapp.live.render import render, see_other
from webapp.pages.revisions.shown import RevisionsShown, revision_lines

router = APIRouter()
PAGE = Page(name="revisions", title="Revisions", path=REVISIONS, in_menu=False, router=router)

LINES_A_PAGE = 40

AllPages = Annotated[Pages, Depends(pages)]


@router.post(PROJECT + "/undo")
def undo(desk: AtDesk, pages: AllPages, project_id: str, form: Form) -> Response:
    """Take the last change back."""
    return _step(desk, pages, project_id, form, desk.store.undo)


@router.post(PROJECT + "/redo")
def redo(desk: AtDesk, pages: AllPages, project_id: str, form: Form) -> Response:
    """Take again what was taken back."""
    return _step(desk, pages, project_id, form, desk.store.redo)


def _step(desk: Desk, pages: Pages, project_id: str, form: Typed, step: Callable[..., Revision]) -> Response:
    """Take a step and go back to the page; from a page that is outdated, only go back."""
    try:
        step(project_id, base=form.base, tab=form.tab)
    except Conflict:
        return see_other(_back(desk, pages, project_id, form) + "?outdated=yes")
    return see_other(_back(desk, pages, project_id, form))


@router.get(REVISIONS)
def revisions(request: Request, desk: AtDesk, project_id: str, before: str = "", outdated: str = "") -> Response:
    """List what was saved of a project, the newest first, a page at a time."""
    head, words = desk.store.head(project_id), desk.shop().words
    earlier = desk.store.revisions(project_id, before=_number(before))
    found = tuple(islice(earlier, LINES_A_PAGE + 1))
    lines = revision_lines(found, words=words)[:LINES_A_PAGE]
    shown = RevisionsShown(
        project_id=project_id,
        head=head,
        lines=lines,
        has_older=len(found) > LINES_A_PAGE,
        outdated=bool(outdated),
        words=words,
    )
    return render(request, PAGE.template, shown)


@router.get(NEWEST)
def newest(desk: AtDesk, project_id: str) -> Response:
    """The number of the newest revision, for pages that ask whether anything was saved elsewhere."""
    stamp = desk.store.stamp(project_id)
    return PlainTextResponse(str(stamp.number if stamp else 0), headers={"cache-control": "no-store"})


def _number(text: str) -> int | None:
    return int(text) if re.fullmatch(r"[0-9]{1,9}", text) else None


@router.post(REVISIONS + "/{number}/restore")
def restore(desk: AtDesk, project_id: str, number: int, form: Form) -> Response:
    """Bring an older revision back, as a change of its own; from a page that is outdated, only show the list anew."""
    try:
        desk.store.restore(project_id, number, base=form.base, tab=form.tab)
    except Conflict:
        return see_other(REVISIONS(project_id=project_id) + "?outdated=yes")
    return see_other(PROJECT(project_id=project_id))


def _back(desk: Desk, pages: Pages, project_id: str, form: Typed) -> str:
    """The page that the button was on; the job where that frame is gone. What names a frame is of one of its pages."""
    live = live_pages(pages)
    page = next((page for page in live if page.is_at(form.place) and (page.tail or not form.frame)), live[0])
    if page.place is Place.PROJECT:
        return page.address(project_id=project_id)
    frame = desk.open(project_id).project.frame(form.frame)
    if frame is None:
        return PROJECT(project_id=project_id)
    return page.address(project_id=project_id, frame_id=frame.id, group_name=form.place.rpartition("/")[2])
