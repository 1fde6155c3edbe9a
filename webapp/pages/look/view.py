"""The look of a frame: colours, the photo of the artwork with its four corners, the wall."""

import re
from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response
from starlette.datastructures import UploadFile

from framecalc.geometry.perspective import Corners
from webapp.data.photos import STRAIGHT_PX, NoSuchPhoto, Photos, clean_photo, straight_picture
from webapp.live.desk import Desk, desk
from webapp.live.forms import Typed, typed
from webapp.live.live import Live
from webapp.live.render import see_other
from webapp.pages.look.actions import carry_out, with_mark_tapped, with_photo
from webapp.pages.look.fields import look_fields_in
from webapp.pages.look.shown import look_address, look_shown
from webapp.server.guard import PHOTO_LIMIT_BYTES
from webapp.server.rates import Rates

router = APIRouter()
PAGE = "/projects/{project_id}/frames/{frame_id}/look"
LOOK = Live(
    template="look",
    fields=look_fields_in,
    act=carry_out,
    shown=look_shown,
    address=look_address,
    anchors={"remove-photo": "photo", "turn-photo": "photo"},
)
_MARKS = re.compile(r"\d{1,5}(?:,\d{1,5}){7}")
_RATIO = re.compile(r"\d{1,3}\.\d{1,6}")
KEEP = "private, max-age=86400"
"""A picture whose address says everything that it is made from does not change."""

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.get(PAGE)
def page(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show what is saved."""
    return LOOK.page(request, desk, desk.open(project_id), frame_id)


@router.post(f"{PAGE}/preview")
def preview(request: Request, project_id: str, frame_id: str, desk: AtDesk, form: Form) -> Response:
    """Draw what is typed. Writes nothing."""
    return LOOK.preview(request, desk, desk.open(project_id), frame_id, form)


@router.post(PAGE)
def save(request: Request, project_id: str, frame_id: str, desk: AtDesk, form: Form) -> Response:
    """Save what is typed, after what the pressed button asks for."""
    return LOOK.save(request, desk, desk.open(project_id), frame_id, form)


async def sent_photo(request: Request) -> bytes:
    """Take the chosen file from a form."""
    rates: Rates = request.app.state.rates
    rates.take("photo", request.client.host if request.client else "")
    async with request.form() as form:
        file = form.get("photo")
        return await file.read() if isinstance(file, UploadFile) else b""


@router.post("/projects/{project_id}/frames/{frame_id}/photo", max_body_size=PHOTO_LIMIT_BYTES)
def take_in(desk: AtDesk, project_id: str, frame_id: str, sent: Annotated[bytes, Depends(sent_photo)]) -> Response:
    """Take in a photo of the artwork."""
    opened = desk.open(project_id)
    opened.frame(frame_id)
    photo = clean_photo(sent)
    Photos(desk.store).keep(project_id, photo)
    document = with_photo(opened.document, frame_id, photo)
    desk.store.save(project_id, document, base=opened.revision.number, tab="")
    return see_other(look_address(project_id, frame_id), anchor="photo")


@router.post("/projects/{project_id}/frames/{frame_id}/photo/tap")
def tap(desk: AtDesk, project_id: str, frame_id: str, form: Form) -> Response:
    """Put a mark where the photo was tapped, for a browser without scripts."""
    opened = desk.open(project_id)
    opened.frame(frame_id)
    document = with_mark_tapped(opened.document, frame_id, form)
    desk.store.save(project_id, document, base=form.base, tab=form.tab)
    return see_other(look_address(project_id, frame_id), anchor="photo")


@router.get("/projects/{project_id}/photos/{photo_id}.jpg")
def kept(desk: AtDesk, project_id: str, photo_id: str) -> Response:
    """Hand out a photo as it is kept."""
    return _picture(Photos(desk.store).read(project_id, photo_id))


@router.get("/projects/{project_id}/photos/{photo_id}/straight.jpg")
def straight(desk: AtDesk, project_id: str, photo_id: str, marks: str = "", ratio: str = "") -> Response:
    """Set a photo straight between four marks."""
    content = Photos(desk.store).read(project_id, photo_id)
    if not _MARKS.fullmatch(marks) or not _RATIO.fullmatch(ratio) or not 0.01 < float(ratio) < 100:
        raise NoSuchPhoto("there is no such picture")
    return _picture(straight_picture(content, corners=_corners(marks), aspect_ratio=float(ratio), most_px=STRAIGHT_PX))


def _corners(marks: str) -> Corners:
    x1, y1, x2, y2, x3, y3, x4, y4 = (float(number) for number in marks.split(","))
    return (x1, y1), (x2, y2), (x3, y3), (x4, y4)


def _picture(content: bytes) -> Response:
    return Response(content, media_type="image/jpeg", headers={"cache-control": KEEP})
