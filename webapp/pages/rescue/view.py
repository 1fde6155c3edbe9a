"""The page of a piece that went wrong: what is wrong stands in its address, the button of a way carries that out."""

from urllib.parse import urlencode

from fastapi import APIRouter, Request, Response

from framecalc.project.document import Document
from webapp.live.addresses import RESCUE
from webapp.live.desk import AtDesk, ProjectAtRevision
from webapp.live.render import render, see_other
from webapp.live.typed.forms import Form
from webapp.live.work.other_wood import take_from_rack
from webapp.pages.rescue.chosen_way import ChosenWay, chosen_of, with_way
from webapp.pages.rescue.shown import rescue_shown
from webapp.pages.rescue.wish import wish_in

VIEW = router = APIRouter()


@router.get(RESCUE)
def rescue(request: Request, project_id: str, desk: AtDesk) -> Response:
    """Show the ways that are left for what is typed."""
    opened = desk.open(project_id)
    wish = wish_in(request.query_params, opened)
    return render(request, "rescue/page", rescue_shown(desk, opened, wish, taken=request.query_params.get("taken", "")))


@router.post(RESCUE)
def take(project_id: str, desk: AtDesk, form: Form) -> Response:
    """Change the plan as one of the ways does; a way that is not left any more changes nothing."""
    texts = {**form.texts, "frame": form.frame}
    found: list[ChosenWay] = []

    def changed(head: ProjectAtRevision) -> Document:
        chosen = chosen_of(desk, head, texts)
        if chosen is None:
            return head.document
        found[:] = [chosen]
        return with_way(head.document, chosen, once=texts.get("once", ""))

    head = desk.change(project_id, changed, tab=form.tab)
    for chosen in found:
        take_from_rack(desk, chosen.way.again, shortest_useful_mm=head.project.timber.shortest_useful.mm)
    taken = "yes" if found else "no"
    return see_other(f"{RESCUE(project_id=project_id)}?{urlencode({'taken': taken})}")
