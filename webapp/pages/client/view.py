"""The owner's client page: preview the client's view, make a link, download it as a file, revoke it."""

from dataclasses import replace
from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from framecalc.errors import FrameCalcError
from webapp.issue.approvals import AlreadyApproved, UnusableAnswer, approve_by_signs
from webapp.issue.issued import Shelf
from webapp.issue.issuing import NotReady, issue
from webapp.issue.shares import make_share, revoke
from webapp.live.addresses import CLIENT, CLIENT_VIEW, SHARE, SHARES
from webapp.live.desk import AtDesk, ProjectAtRevision
from webapp.live.forms import Form
from webapp.live.page import Page
from webapp.live.render import render, see_other
from webapp.live.shown import Around
from webapp.pages.client.shown import Answered, SharesShown, days_of, file_of, share_shown, wish_of, wish_typed
from webapp.pages.shared_view.shown import issued_shown
from webapp.pages.shared_view.view import shelf
from webapp.server.door import LOOPBACK_NAMES, Door, name_of

router = APIRouter()
PAGE = Page(name="client", title="Client", path=CLIENT, router=router)
CANNOT_TAKE = 422
FILE_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; sandbox"

OnShelf = Annotated[Shelf, Depends(shelf)]


@router.get(CLIENT)
def page(request: Request, project_id: str, desk: AtDesk, shelf: OnShelf) -> Response:
    """Show the links of a project and their answers."""
    opened = desk.open(project_id)
    return _shown(request, opened, share_shown(desk, shelf, opened))


@router.get(CLIENT + "/preview")
def preview(request: Request, project_id: str, desk: AtDesk, shelf: OnShelf) -> Response:
    """Show the view of a client for a link made now."""
    issued = issue(desk, desk.open(project_id), wish_of(request.query_params), now=shelf.clock())
    return render(request, "shared_view/preview", replace(issued_shown(issued), back=CLIENT(project_id=project_id)))


@router.post(SHARES)
def make(request: Request, project_id: str, desk: AtDesk, shelf: OnShelf, form: Form) -> Response:
    """Make a link; only this answer shows its address."""
    opened = desk.open(project_id)
    try:
        wish = wish_of(form.texts)
        issued = issue(desk, opened, wish, now=shelf.clock())
    except (NotReady, FrameCalcError) as error:
        shown = share_shown(desk, shelf, opened, refused=error.sentence, wish=wish_typed(form))
        return _shown(request, opened, shown, CANNOT_TAKE)
    new = make_share(
        shelf,
        project_id=project_id,
        inputs=opened.document,
        issued=issued,
        shows_price=wish.shows_price,
        shows_photo=wish.shows_photo,
        days=days_of(form),
        once=form.texts.get("once", "")[:40],
    )
    if not new.secret:
        return see_other(CLIENT(project_id=project_id))
    made = f"{_reached_by(request)}{CLIENT_VIEW(secret=new.secret)}"
    return _shown(request, opened, share_shown(desk, shelf, opened, made=made))


@router.post(SHARE + "/revoke")
def close(project_id: str, share_id: str, shelf: OnShelf) -> Response:
    """Close a link at once."""
    revoke(shelf, project_id, share_id)
    return see_other(CLIENT(project_id=project_id), anchor="links")


@router.post(CLIENT + "/signs")
def type_back(request: Request, project_id: str, desk: AtDesk, shelf: OnShelf, form: Form) -> Response:
    """Note the yes of a client who has answered by mail, by the signs under the page."""
    signs, name = form.texts.get("signs", ""), form.texts.get("name", "")
    try:
        approve_by_signs(shelf, project_id, signs=signs, name=name)
    except (UnusableAnswer, AlreadyApproved) as error:
        answer = Answered(signs=signs, name=name, refused=error.sentence)
        opened = desk.open(project_id)
        return _shown(request, opened, share_shown(desk, shelf, opened, answered=answer), CANNOT_TAKE)
    return see_other(CLIENT(project_id=project_id), anchor="links")


@router.get(SHARE)
def issued_page(request: Request, project_id: str, share_id: str, shelf: OnShelf) -> Response:
    """Show the view of a link as issued."""
    share = shelf.of_owner(project_id, share_id)
    return render(
        request, "shared_view/preview", replace(issued_shown(share.issued), back=CLIENT(project_id=project_id))
    )


@router.get(SHARE + "/frame.html")
def download(project_id: str, share_id: str, shelf: OnShelf) -> Response:
    """Answer with the view of a link as one file, to be mailed."""
    share = shelf.of_owner(project_id, share_id)
    headers = {
        "content-security-policy": FILE_POLICY,
        "content-disposition": f'attachment; filename="frame-revision-{share.issued.revision}.html"',
        "cache-control": "no-store",
    }
    return Response(file_of(share), media_type="text/html; charset=utf-8", headers=headers)


def _shown(request: Request, opened: ProjectAtRevision, shown: SharesShown, status: int = 200) -> Response:
    return render(request, PAGE.template, Around(page=PAGE, opened=opened), shown, status=status)


def _reached_by(request: Request) -> str:
    """How a client reaches this server: by the name that the page was asked for, or as the owner wants it first."""
    door: Door = request.app.state.door
    host = request.headers["host"]
    if name_of(host) in LOOPBACK_NAMES and (ways := door.addresses(first=request.app.state.devices.first)):
        port = request.url.port
        host = f"{ways[0].name}:{port}" if port else ways[0].name
    return f"http://{host}"
