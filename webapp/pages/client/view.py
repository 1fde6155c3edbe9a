"""The owner's client page: preview what a client would see, make a link, hand out the file, revoke."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from framecalc.errors import FrameCalcError
from webapp.issue.issued import Shelf
from webapp.issue.issuing import NotReady, issue
from webapp.issue.shares import make_share, revoke
from webapp.live.desk import Desk, desk
from webapp.live.forms import Typed, typed
from webapp.live.render import render, see_other
from webapp.pages.client.shown import client_address, days_of, file_of, preview_shown, share_shown, wish_of
from webapp.pages.shared_view.view import shelf
from webapp.server.door import LOOPBACK_NAMES, Door, name_of

router = APIRouter()
PAGE = "/projects/{project_id}/client"
SHARE = "/projects/{project_id}/shares/{share_id}"
CANNOT_TAKE = 422
FILE_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; sandbox"

AtDesk = Annotated[Desk, Depends(desk)]
OnShelf = Annotated[Shelf, Depends(shelf)]
Form = Annotated[Typed, Depends(typed)]


@router.get(PAGE)
def page(request: Request, project_id: str, desk: AtDesk, shelf: OnShelf) -> Response:
    """Show the links of a project and what became of them."""
    return render(request, "client/page", share_shown(desk, shelf, desk.open(project_id)))


@router.get(f"{PAGE}/preview")
def preview(request: Request, project_id: str, desk: AtDesk, shelf: OnShelf) -> Response:
    """Show what a client would see, were the link made now."""
    issued = issue(desk, desk.open(project_id), wish_of(request.query_params), now=shelf.clock())
    return render(request, "shared_view/preview", preview_shown(issued) | {"back": client_address(project_id)})


@router.post("/projects/{project_id}/shares")
def make(request: Request, project_id: str, desk: AtDesk, shelf: OnShelf, form: Form) -> Response:
    """Make a link; its address is shown in this answer and never again."""
    opened = desk.open(project_id)
    try:
        wish = wish_of(form.texts)
        issued = issue(desk, opened, wish, now=shelf.clock())
    except (NotReady, FrameCalcError) as error:
        shown = share_shown(desk, shelf, opened, refused=error.sentence)
        return render(request, "client/page", shown, status=CANNOT_TAKE)
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
        return see_other(client_address(project_id))
    made = f"{_reached_by(request)}/view/{new.secret}"
    return render(request, "client/page", share_shown(desk, shelf, opened, made=made))


@router.post(f"{SHARE}/revoke")
def close(project_id: str, share_id: str, shelf: OnShelf) -> Response:
    """Close a link at once."""
    revoke(shelf, project_id, share_id)
    return see_other(client_address(project_id), anchor="links")


@router.get(SHARE)
def issued_page(request: Request, project_id: str, share_id: str, shelf: OnShelf) -> Response:
    """Show what a link showed, as it was issued."""
    share = shelf.of_owner(project_id, share_id)
    return render(request, "shared_view/preview", preview_shown(share.issued) | {"back": client_address(project_id)})


@router.get(f"{SHARE}/frame.html")
def download(project_id: str, share_id: str, shelf: OnShelf) -> Response:
    """Hand out what a link shows as one file, to be mailed."""
    share = shelf.of_owner(project_id, share_id)
    headers = {
        "content-security-policy": FILE_POLICY,
        "content-disposition": f'attachment; filename="frame-revision-{share.issued.revision}.html"',
        "cache-control": "no-store",
    }
    return Response(file_of(share), media_type="text/html; charset=utf-8", headers=headers)


def _reached_by(request: Request) -> str:
    """How a client reaches this server: by the name that the page was asked for, or the first one of the network."""
    door: Door = request.app.state.door
    host = request.headers["host"]
    if name_of(host) in LOOPBACK_NAMES and door.names:
        port = request.url.port
        host = f"{sorted(door.names)[0]}:{port}" if port else sorted(door.names)[0]
    return f"http://{host}"
