"""The look of a frame: colours, the photo of the artwork with its four corners, the wall."""

import re

from fastapi import APIRouter, Response

from framecalc.geometry.perspective import Corners
from framecalc.project import with_value
from webapp.data.photos import NoSuchPhoto, Photos
from webapp.data.pictures import STRAIGHT_PX, clean_photo, colour_of, straight_picture
from webapp.live.addresses import LOOK, PHOTO, PHOTO_TO, STRAIGHT_PHOTO
from webapp.live.desk import AtDesk
from webapp.live.live_page import FramePage
from webapp.live.render import see_other
from webapp.live.typed.forms import Form
from webapp.live.typed.sent_photo import SentPhoto
from webapp.pages.look import PAGE
from webapp.pages.look.actions import carry_out, with_mark_tapped, with_photo
from webapp.pages.look.fields import look_fields_in
from webapp.pages.look.shown import look_shown
from webapp.server.guard import PHOTO_LIMIT_BYTES

router = APIRouter()
_MARKS = re.compile(r"\d{1,5}(?:,\d{1,5}){7}")
_RATIO = re.compile(r"\d{1,3}\.\d{1,6}")
KEEP = "private, max-age=86400"
"""A picture whose address says everything that it is made from does not change."""


@router.post(PHOTO_TO, max_body_size=PHOTO_LIMIT_BYTES)
def take_in(desk: AtDesk, project_id: str, frame_id: str, sent: SentPhoto) -> Response:
    """Add a photo of the artwork."""
    desk.open(project_id).frame(frame_id)
    photo = clean_photo(sent)
    Photos(desk.store).keep(project_id, photo)
    desk.change(project_id, lambda head: with_photo(head.document, head.frame(frame_id).id, photo), tab="")
    return see_other(LOOK(project_id=project_id, frame_id=frame_id), anchor="photo")


@router.post(PHOTO_TO + "/wall", max_body_size=PHOTO_LIMIT_BYTES)
def take_colour(desk: AtDesk, project_id: str, frame_id: str, sent: SentPhoto) -> Response:
    """Take the colour of the wall from a photo of it, which is not kept."""
    desk.open(project_id).frame(frame_id)
    path, colour = f"frames.{frame_id}.look.wall_colour", colour_of(sent)
    desk.change(project_id, lambda head: with_value(head.document, path, colour), tab="")
    return see_other(LOOK(project_id=project_id, frame_id=frame_id), anchor="field-wall_colour")


@router.post(PHOTO_TO + "/tap")
def tap(desk: AtDesk, project_id: str, frame_id: str, form: Form) -> Response:
    """Set a mark at the tapped place, for a browser without scripts."""
    desk.change(project_id, lambda head: with_mark_tapped(head.document, head.frame(frame_id).id, form), tab=form.tab)
    return see_other(LOOK(project_id=project_id, frame_id=frame_id), anchor="photo")


@router.get(PHOTO)
def kept(desk: AtDesk, project_id: str, photo_id: str) -> Response:
    """Answer with a stored photo."""
    return _picture(Photos(desk.store).read(project_id, photo_id))


@router.get(STRAIGHT_PHOTO)
def straight(desk: AtDesk, project_id: str, photo_id: str, marks: str = "", ratio: str = "") -> Response:
    """Answer with the photo straightened between its four marks."""
    content = Photos(desk.store).read(project_id, photo_id)
    if not _MARKS.fullmatch(marks) or not _RATIO.fullmatch(ratio) or not 0.01 < float(ratio) < 100:
        raise NoSuchPhoto("No picture here")
    return _picture(straight_picture(content, corners=_corners(marks), aspect_ratio=float(ratio), most_px=STRAIGHT_PX))


def _corners(marks: str) -> Corners:
    x1, y1, x2, y2, x3, y3, x4, y4 = (float(number) for number in marks.split(","))
    return (x1, y1), (x2, y2), (x3, y3), (x4, y4)


def _picture(content: bytes) -> Response:
    return Response(content, media_type="image/jpeg", headers={"cache-control": KEEP})


VIEW = FramePage(
    page=PAGE,
    fields=look_fields_in,
    act=carry_out,
    shows=look_shown,
    anchors={"remove-photo": "photo", "turn-photo": "photo"},
    router=router,
)
