"""The costs page of a project and the quote to print."""

from fastapi import APIRouter, Request, Response

from framecalc.records import replace
from webapp.live.addresses import QUOTE
from webapp.live.desk import AtDesk, Desk, ProjectAtRevision
from webapp.live.live_page import ProjectPage
from webapp.live.render import render
from webapp.pages.costs import PAGE
from webapp.pages.costs.actions import ANCHORS, carry_out, with_quote
from webapp.pages.costs.fields import costs_fields_in
from webapp.pages.costs.quote import quote_shown
from webapp.pages.costs.shown import costs_shown

router = APIRouter()


@router.get(QUOTE)
def quote(request: Request, project_id: str, desk: AtDesk) -> Response:
    """Show the quote for the printer."""
    return render(request, "costs/quote", quote_shown(desk, desk.open(project_id)))


def _quoted(desk: Desk, opened: ProjectAtRevision) -> ProjectAtRevision:
    """The project with its quote, or the shop's if it has none yet."""
    if opened.project.quote:
        return opened
    opened.plan.compute_all()
    return opened.followed_by(replace(opened.revision, document=with_quote(desk, opened.document)))


VIEW = ProjectPage(
    page=PAGE,
    fields=costs_fields_in,
    act=carry_out,
    shows=costs_shown,
    anchors=ANCHORS,
    opens=_quoted,
    router=router,
)
