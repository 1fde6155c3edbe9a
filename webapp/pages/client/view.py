"""The owner's client page: preview the client's view, make a link, download it as a file, revoke it."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from framecalc.errors import FrameCalcError
from framecalc.plan.choices import with_changes
from framecalc.records import replace
from webapp.issue.approvals import AlreadyApproved, UnusableAnswer, approve_by_signs
from webapp.issue.issued import NotReady, Share, Shelf
from webapp.issue.issuing import issue
from webapp.issue.shares import NewShare, make_share, put_damaged_aside, revoke
from webapp.live.addresses import CLIENT, CLIENT_VIEW, SHARE, SHARES
from webapp.live.desk import AtDesk, ProjectAtRevision
from webapp.live.render import render, see_other
from webapp.live.shown import Around
from webapp.live.statuses import CANNOT_TAKE
from webapp.live.typed.forms import Form
from webapp.pages.client import PAGE
from webapp.pages.client.shown import (
    Answered,
    NewLink,
    OtherWay,
    SharesShown,
    days_of,
    file_of,
    share_shown,
    wish_of,
    wish_typed,
)
from webapp.pages.shared_view.shown import issued_shown
from webapp.pages.shared_view.view import shelf
from webapp.server.door import LOOPBACK_NAMES, Door, name_of
from webapp.server.network import answers

VIEW = router = APIRouter()
MOST_WAYS = 4
FILE_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; sandbox"

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
    return _shown(request, opened, share_shown(desk, shelf, opened, made=_made(request, new)))


@router.post(SHARE + "/revoke")
def close(project_id: str, share_id: str, shelf: OnShelf) -> Response:
    """Close a link at once."""
    revoke(shelf, project_id, share_id)
    return see_other(CLIENT(project_id=project_id), anchor="links")


@router.post(SHARE + "/put-aside")
def put_aside(project_id: str, share_id: str, shelf: OnShelf) -> Response:
    """Put a damaged record aside."""
    put_damaged_aside(shelf, project_id, share_id)
    return see_other(CLIENT(project_id=project_id), anchor="links")


@router.post(SHARE + "/take-over")
def take_over(project_id: str, share_id: str, desk: AtDesk, shelf: OnShelf) -> Response:
    """Work what the client has chosen into the job."""
    chosen = shelf.of_owner(project_id, share_id).chosen
    if chosen:
        desk.change(project_id, lambda head: with_changes(head.document, chosen.changes), tab="")
    return see_other(CLIENT(project_id=project_id), anchor="links")


@router.post(CLIENT + "/signs")
def type_back(request: Request, project_id: str, desk: AtDesk, shelf: OnShelf, form: Form) -> Response:
    """Note the yes of a client who has answered by mail, by the signs under the page."""
    signs, name, choice = (form.texts.get(one, "") for one in ("signs", "name", "choice"))
    try:
        approve_by_signs(shelf, project_id, signs=signs, name=name, choice=choice)
    except (UnusableAnswer, AlreadyApproved) as error:
        answer = Answered(signs=signs, name=name, choice=choice, refused=error.sentence)
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
        "content-disposition": f'attachment; filename="{_file_name(share)}"',
        "cache-control": "no-store",
    }
    return Response(file_of(share), media_type="text/html; charset=utf-8", headers=headers)


def _shown(request: Request, opened: ProjectAtRevision, shown: SharesShown, status: int = 200) -> Response:
    return render(request, PAGE.template, Around(page=PAGE, opened=opened), shown, status=status)


def _made(request: Request, new: NewShare) -> NewLink:
    """A new link as a client reaches it: by the name that the page was asked for, or as the owner wants it first."""
    door: Door = request.app.state.door
    first, host, port = request.app.state.devices.first, request.headers["host"], request.url.port or 80
    ways = door.addresses(first=first) if door.serves_network else ()
    names = [one.name for one in ways]
    if name_of(host) not in LOOPBACK_NAMES:
        names = [name_of(host), *(name for name in names if name != name_of(host))]
    interfaces = {one.name: one.interface for one in ways}
    links = {name: f"http://{name}{_port(request)}{CLIENT_VIEW(secret=new.secret)}" for name in names}
    made = NewLink(
        link=links[names[0]] if names else f"http://{host}{CLIENT_VIEW(secret=new.secret)}",
        share_id=new.share.share_id,
        file_name=_file_name(new.share),
    )
    if not names:
        return made
    others = tuple(
        OtherWay(link=links[name], interface=interfaces.get(name, ""), answers=answers(name, port=port))
        for name in names[1:MOST_WAYS]
    )
    return replace(made, reaches=True, answers=answers(names[0], port=port), others=others)


def _port(request: Request) -> str:
    return f":{request.url.port}" if request.url.port else ""


def _file_name(share: Share) -> str:
    return f"frame-revision-{share.issued.revision}.html"
