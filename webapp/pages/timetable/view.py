"""The glue-up timetable, at its own address under the bench, and its calendar file."""

from fastapi import APIRouter, Response

from webapp.live.addresses import TIMETABLE
from webapp.live.desk import AtDesk
from webapp.live.live_page import ProjectPage
from webapp.live.papers.files import calendar_answer, job_file
from webapp.pages.timetable import PAGE
from webapp.pages.timetable.actions import carry_out
from webapp.pages.timetable.fields import timetable_fields_in
from webapp.pages.timetable.shown import calendar_of, timetable_shown

router = APIRouter()


@router.get(TIMETABLE + ".ics")
def calendar(project_id: str, desk: AtDesk) -> Response:
    """Hand out the timetable for a calendar, with an alarm at every step."""
    project = desk.open(project_id).project
    return calendar_answer(calendar_of(project, project_id), name=job_file(project, "glue-up"))


VIEW = ProjectPage(
    page=PAGE,
    fields=timetable_fields_in,
    act=carry_out,
    shows=timetable_shown,
    anchors={"begin": "turns", "not-begun": "turns"},
    router=router,
)
