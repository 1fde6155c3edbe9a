"""What a project was before: undo, redo, the list of revisions, any of them named, compared or brought back."""

import re
from collections.abc import Callable
from functools import partial
from itertools import islice
from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response
from starlette.responses import PlainTextResponse

from framecalc.errors import FrameCalcError
from webapp.data.finding import saved_in
from webapp.data.photos import Photos
from webapp.data.revisions import Conflict, Revision
from webapp.issue.issued import Shelf
from webapp.issue.kept_revisions import acted_on
from webapp.live.addresses import NEWEST, PROJECT, REVISIONS, SETTING_OUT
from webapp.live.desk import AtDesk, Desk
from webapp.live.grouped import at_group
from webapp.live.live_page import LivePage
from webapp.live.page import Page, Pages, Place, pages
from webapp.live.render import render, see_other
from webapp.live.statuses import CANNOT_TAKE
from webapp.live.typed.forms import Form, Typed
from webapp.pages.revisions import PAGE
from webapp.pages.revisions.compared import compared
from webapp.pages.revisions.shown import RevisionsShown, revision_lines
from webapp.pages.revisions.thinned import thinning_shown

VIEW = router = APIRouter()

LINES_A_PAGE = 20


AllPages = Annotated[Pages, Depends(pages)]


def shelf(request: Request) -> Shelf:
    """What clients were shown, as a dependency of a route."""
    found = request.app.state.shelf
    assert isinstance(found, Shelf)
    return found


AtShelf = Annotated[Shelf, Depends(shelf)]


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
    return render(request, PAGE.template, _listed(desk, project_id, before=_number(before), outdated=bool(outdated)))


def _listed(
    desk: Desk,
    project_id: str,
    *,
    before: int | None,
    outdated: bool = False,
    wrong: tuple[int, str, str] = (0, "", ""),
) -> RevisionsShown:
    words, store = desk.shop().words, desk.store
    head, saved = saved_in(store.folder(project_id), before=before)
    found = tuple(islice(saved, LINES_A_PAGE + 1))
    return RevisionsShown(
        project_id=project_id,
        head=head,
        lines=tuple(revision_lines(store, found, words=words))[:LINES_A_PAGE],
        has_older=len(found) > LINES_A_PAGE,
        outdated=outdated,
        words=words,
        named_wrong=wrong,
    )


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


@router.post(REVISIONS + "/{number}/name")
def name(request: Request, desk: AtDesk, project_id: str, number: int, form: Form) -> Response:
    """Give a revision a name, or take it off again."""
    typed = form.texts.get("name", "").strip()
    try:
        desk.store.name_revision(project_id, number, typed)
    except FrameCalcError as error:
        shown = _listed(desk, project_id, before=number + 1, wrong=(number, typed, error.sentence))
        return render(request, PAGE.template, shown, status=CANNOT_TAKE)
    return see_other(f"{REVISIONS(project_id=project_id)}?before={number + 1}", anchor=f"revision-{number}")


@router.post(REVISIONS + "/{number}/what-if")
def what_if(desk: AtDesk, project_id: str, number: int, form: Form) -> Response:
    """Start a project from a revision, to try something that the job itself is spared."""
    called = str(desk.store.revision(project_id, number).document.get("name", ""))
    name, photos = f"{called[:108]} – what if", partial(Photos(desk.store).copy, project_id)
    copy_id = desk.store.copy(project_id, name=name, number=number, tab=form.tab, fill=photos)
    return see_other(PROJECT(project_id=copy_id))


@router.get(REVISIONS + "/compare")
def compare(request: Request, desk: AtDesk, project_id: str, before: str = "", after: str = "") -> Response:
    """Show two revisions side by side: what differs in words, and their drawings."""
    newest = desk.store.head(project_id).number
    numbers = _number(before) or max(newest - 1, 1), _number(after) or newest
    return render(request, "revisions/compare", compared(desk, project_id, *numbers))


@router.get(REVISIONS + "/thin")
def look_at_thinning(request: Request, desk: AtDesk, shelf: AtShelf, project_id: str) -> Response:
    """Show the rule by which revisions can be removed, and how many it would remove now."""
    numbers = desk.store.superfluous(project_id, acted_on(project_id, shelf=shelf, rack=desk.rack))
    return render(request, "revisions/thin", thinning_shown(desk, project_id, numbers))


@router.post(REVISIONS + "/thin")
def thin(desk: AtDesk, shelf: AtShelf, project_id: str) -> Response:
    """Remove the revisions that the rule removes."""
    desk.store.thin(project_id, acted_on(project_id, shelf=shelf, rack=desk.rack))
    return see_other(REVISIONS(project_id=project_id))


def _back(desk: Desk, pages: Pages, project_id: str, form: Typed) -> str:
    """The page that the button was on; the job where that frame is gone."""
    page = next((page for page in pages if _was_on(page, form)), None)
    if page and page.place is Place.PROJECT:
        return page.address(project_id=project_id)
    frame = desk.open(project_id).project.frame(form.frame)
    if frame is None:
        return PROJECT(project_id=project_id)
    at = at_group(page.path if page else SETTING_OUT, form.place.rpartition("/")[2])
    return at(project_id=project_id, frame_id=frame.id)


def _was_on(page: Page, form: Typed) -> bool:
    """Whether a button was on a page. What names a frame is of one of its pages."""
    return page.is_at(form.place) and bool(page.tail or not form.frame) and isinstance(page.view, LivePage)
