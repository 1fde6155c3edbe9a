"""The page of handing over one frame: taking in, label, back, packing, again."""

from fastapi import APIRouter, Request, Response
from starlette.responses import StreamingResponse

from webapp.live.addresses import HAND_OVER, LEAVES, PROJECT
from webapp.live.desk import AtDesk
from webapp.live.grouped_page import GroupedPage
from webapp.live.papers.files import as_file, frame_file, job_file, machine_file
from webapp.live.render import render, see_other
from webapp.live.typed.forms import Form
from webapp.pages.hand_over import PAGE
from webapp.pages.hand_over.actions import act
from webapp.pages.hand_over.anew import begin_again
from webapp.pages.hand_over.cards import hanging_card, packing_sheet, receipt
from webapp.pages.hand_over.fields import hand_over_fields_in
from webapp.pages.hand_over.leaves import labels_of, leaves_zip
from webapp.pages.hand_over.shown import hand_over_shown

router = APIRouter()
CARD = "hand_over/card"


@router.get(HAND_OVER + "/receipt")
def receipt_page(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show the receipt to print."""
    return render(request, CARD, receipt(desk, project_id, frame_id))


@router.get(HAND_OVER + "/packing-sheet")
def packing_page(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show the packing sheet to print."""
    return render(request, CARD, packing_sheet(desk, project_id, frame_id))


@router.get(HAND_OVER + "/hanging-card")
def hanging_page(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show the hanging card to print."""
    return render(request, CARD, hanging_card(desk, project_id, frame_id))


@router.get(HAND_OVER + "/labels.pdf")
def labels(project_id: str, frame_id: str, desk: AtDesk, of: str = "") -> Response:
    """Answer with the labels of the frame, or of the whole job, several on a leaf."""
    opened = desk.open(project_id)
    frame = opened.frame(frame_id)
    plans = list(opened.plan.frames.values()) if of == "job" else [opened.plan.frames[frame_id]]
    named = job_file(opened.project, "labels") if of == "job" else frame_file(opened.project, frame, "labels")
    return machine_file(labels_of(plans, shop=desk.shop()), name=f"{named}.pdf", media_type="application/pdf")


@router.post(HAND_OVER + "/again/new")
def again(project_id: str, frame_id: str, desk: AtDesk, form: Form) -> Response:
    """Begin a job with this frame."""
    return see_other(PROJECT(project_id=begin_again(desk, desk.open(project_id), frame_id, form)))


@router.get(LEAVES)
def leaves(project_id: str, desk: AtDesk) -> Response:
    """Answer with everything of the job as one folder."""
    opened = desk.open(project_id)
    headers = as_file(f"{job_file(opened.project, 'leaves')}.zip")
    return StreamingResponse(leaves_zip(desk, opened), media_type="application/zip", headers=headers)


VIEW = GroupedPage(
    page=PAGE,
    fields=hand_over_fields_in,
    act=act,
    shows=hand_over_shown,
    router=router,
)
