"""The corners page: settings, tolerance, test cuts, closing, clamps, joint, seasons of one frame."""

from fastapi import APIRouter, Request, Response

from webapp.live.addresses import WOODS
from webapp.live.desk import AtDesk
from webapp.live.grouped_page import GroupedPage
from webapp.live.render import render
from webapp.live.shown import Around
from webapp.live.typed.answer import frame_answer_to
from webapp.pages.corners import PAGE
from webapp.pages.corners.actions import carry_out
from webapp.pages.corners.fields import corner_fields_in
from webapp.pages.corners.shown import corner_shown
from webapp.pages.corners.woods import woods_shown

router = APIRouter()


@router.get(WOODS)
def woods(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show every wood of the table, and how far it would open this frame."""
    opened = desk.open(project_id)
    answer = frame_answer_to(opened, frame_id, corner_fields_in)
    around = Around(page=PAGE, opened=opened, frame_id=frame_id, group_name="seasons")
    return render(request, "corners/woods", around, woods_shown(answer))


VIEW = GroupedPage(
    page=PAGE,
    fields=corner_fields_in,
    act=carry_out,
    shows=corner_shown,
    router=router,
)
