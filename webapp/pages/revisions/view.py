"""What a project was before: undo, redo, the list of revisions, any of them brought back."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from webapp.live.addresses import PROJECT, REVISIONS
from webapp.live.desk import AtDesk, Desk
from webapp.live.forms import Form, Typed
from webapp.live.live import live_pages
from webapp.live.page import Page, Pages, Place, pages
from webapp.live.render import render, see_other
from webapp.pages.revisions.shown import RevisionsShown, revision_lines

router = APIRouter()
PAGE = Page(name="revisions", title="Revisions", path=REVISIONS, in_menu=False, router=router)

AllPages = Annotated[Pages, Depends(pages)]


@router.post(PROJECT + "/undo")
def undo(desk: AtDesk, pages: AllPages, project_id: str, form: Form) -> Response:
    """Take the last change back."""
    desk.store.undo(project_id, base=form.base, tab=form.tab)
    return see_other(_back(desk, pages, project_id, form))


@router.post(PROJECT + "/redo")
def redo(desk: AtDesk, pages: AllPages, project_id: str, form: Form) -> Response:
    """Take again what was taken back."""
    desk.store.redo(project_id, base=form.base, tab=form.tab)
    return see_other(_back(desk, pages, project_id, form))


@router.get(REVISIONS)
def revisions(request: Request, desk: AtDesk, project_id: str) -> Response:
    """List everything that was ever saved of a project."""
    head, words = desk.store.head(project_id), desk.shop().words
    lines = revision_lines(desk.store.revisions(project_id), words=words)
    shown = RevisionsShown(project_id=project_id, head=head, lines=lines, words=words)
    return render(request, PAGE.template, shown)


@router.post(REVISIONS + "/{number}/restore")
def restore(desk: AtDesk, project_id: str, number: int, form: Form) -> Response:
    """Bring an older revision back, as a change of its own."""
    desk.store.restore(project_id, number, base=form.base, tab=form.tab)
    return see_other(PROJECT(project_id=project_id))


def _back(desk: Desk, pages: Pages, project_id: str, form: Typed) -> str:
    """The page that the button was on; the project's first frame where that frame is gone."""
    live = live_pages(pages)
    page = next((page for page in live if page.tail == form.place), live[0])
    if page.place is Place.PROJECT:
        return page.address(project_id=project_id)
    frame = desk.open(project_id).project.frame(form.frame)
    return page.address(project_id=project_id, frame_id=frame.id) if frame else PROJECT(project_id=project_id)
