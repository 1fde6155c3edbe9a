"""The job page: opening a project leads here. It shows the way through the job, and what comes next."""

from fastapi import APIRouter, Response

from framecalc.project.way import JobStep
from webapp.live.addresses import PROJECT, WAY_STEP
from webapp.live.desk import AtDesk
from webapp.live.live_page import ProjectPage
from webapp.live.render import see_other
from webapp.live.typed.forms import Form
from webapp.pages.job import PAGE
from webapp.pages.job.fields import job_fields_in
from webapp.pages.job.shown import job_shown
from webapp.pages.job.ticks import Wanted, with_step

router = APIRouter()


@router.post(WAY_STEP)
def tick(desk: AtDesk, project_id: str, step: JobStep, form: Form) -> Response:
    """Tick a step, leave it out, or take that back: the form says which."""
    if form.do in set(Wanted):
        desk.change(project_id, lambda head: with_step(head.document, step, Wanted(form.do)), tab=form.tab)
    back = "next" if form.place == "next" else f"step-{step.value}"
    return see_other(PROJECT(project_id=project_id), anchor=back)


VIEW = ProjectPage(
    page=PAGE,
    fields=job_fields_in,
    shows=job_shown,
    has_preview=False,
    router=router,
)
