"""Sizes out of a photograph: the photo beside a sheet of known size, its marks, and what they tell."""

from fastapi import APIRouter, Request, Response

from framecalc.drawing.sheet import usual_paper
from framecalc.drawing.templates.pdf import photo_sheet_pdf
from framecalc.drawing.templates.tiles import PAPER_WORDS, paper_called
from framecalc.project import Project
from framecalc.records import Record
from webapp.data.photo_parts import part_of_photo
from webapp.data.photos import NoSuchPhoto, Photos
from webapp.data.pictures import clean_photo
from webapp.live.addresses import PHOTO_PART, SHEET_PHOTO_TO, SIZING, SIZING_CLOSE, SIZING_SHEET
from webapp.live.desk import AtDesk
from webapp.live.live_page import FramePage
from webapp.live.papers.files import NoSuchDrawing, machine_file
from webapp.live.render import render, see_other
from webapp.live.typed.forms import Form
from webapp.live.typed.sent_photo import SentPhoto
from webapp.pages.sizing import PAGE
from webapp.pages.sizing.actions import AT, act, whole_tapped, with_mark_tapped, with_sheet_photo
from webapp.pages.sizing.fields import MARKS, sizing_fields_in
from webapp.pages.sizing.shown import close_shown, sizing_shown
from webapp.server.guard import PHOTO_LIMIT_BYTES

router = APIRouter()
KEEP = "private, max-age=86400"
"""A piece of a photo whose address says everything that it is made from does not change."""


class JobAround(Record):
    """The job around the page of one mark."""

    project: Project
    base: int


@router.post(SHEET_PHOTO_TO, max_body_size=PHOTO_LIMIT_BYTES)
def take_in(desk: AtDesk, project_id: str, frame_id: str, sent: SentPhoto) -> Response:
    """Add a photo of the artwork beside a sheet."""
    desk.open(project_id).frame(frame_id)
    photo = clean_photo(sent)
    Photos(desk.store).keep(project_id, photo)
    desk.change(
        project_id,
        lambda head: with_sheet_photo(head.document, head.frame(frame_id).id, photo, unit=head.project.unit),
        tab="",
    )
    return see_other(SIZING(project_id=project_id, frame_id=frame_id), anchor="photo")


@router.post(SHEET_PHOTO_TO + "/tap")
def tap(desk: AtDesk, project_id: str, frame_id: str, form: Form) -> Response:
    """Go on to the piece of the photo around the tapped place, for a browser without scripts."""
    head = desk.open(project_id)
    tapped = whole_tapped(head.document, head.frame(frame_id).id, form)
    ids = {"project_id": project_id, "frame_id": frame_id}
    if tapped is None:
        return see_other(SIZING(**ids), anchor="tap-it")
    mark, across, down = tapped
    return see_other(f"{SIZING_CLOSE(mark=mark, **ids)}?at={across},{down}")


@router.get(SIZING_CLOSE)
def close(request: Request, desk: AtDesk, project_id: str, frame_id: str, mark: str, at: str = "") -> Response:
    """Show the piece of the photo around a place, to put a mark on."""
    opened = desk.open(project_id)
    if mark not in MARKS or not AT.fullmatch(at) or opened.frame(frame_id).sizing is None:
        raise NoSuchPhoto("No corner here: go back to the photo")
    around = JobAround(project=opened.project, base=opened.revision.number)
    return render(request, "sizing/close", around, close_shown(opened, frame_id, mark, at))


@router.post(SIZING_CLOSE)
def put(desk: AtDesk, project_id: str, frame_id: str, mark: str, form: Form) -> Response:
    """Set a mark at the tapped place of the piece."""
    desk.change(
        project_id, lambda head: with_mark_tapped(head.document, head.frame(frame_id).id, mark, form), tab=form.tab
    )
    return see_other(SIZING(project_id=project_id, frame_id=frame_id), anchor="tap-it")


@router.get(PHOTO_PART)
def piece(desk: AtDesk, project_id: str, photo_id: str, at: str = "") -> Response:
    """Answer with a piece of a stored photo, enlarged."""
    if not AT.fullmatch(at):
        raise NoSuchPhoto("No picture here")
    across, down = (int(number) for number in at.split(","))
    content = part_of_photo(Photos(desk.store).read(project_id, photo_id), across=across, down=down)
    return Response(content, media_type="image/jpeg", headers={"cache-control": KEEP})


@router.get(SIZING_SHEET)
def sheet(desk: AtDesk, project_id: str, frame_id: str, paper: str = "") -> Response:
    """Answer with the sheet to print."""
    opened = desk.open(project_id)
    opened.frame(frame_id)
    if paper and paper not in PAPER_WORDS:
        raise NoSuchDrawing(f"Choose a paper: {', '.join(PAPER_WORDS)}")
    leaf = photo_sheet_pdf(paper_called(paper or usual_paper(opened.project.unit)))
    return machine_file(leaf, name="photo-sheet.pdf", media_type="application/pdf")


VIEW = FramePage(
    page=PAGE,
    fields=sizing_fields_in,
    act=act,
    shows=sizing_shown,
    anchors={
        "take-sizes": "by-photo",
        "find-corners": "by-photo",
        "show-in-frame": "by-photo",
        "remove-sizing": "photo",
    },
    router=router,
)
