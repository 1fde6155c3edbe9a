"""The page of a piece that went wrong: asked in its address, and carried out by the button of a way."""

from urllib.parse import urlencode

from fastapi import APIRouter, Request, Response

from framecalc.project import with_value
from webapp.live.addresses import RESCUE
from webapp.live.desk import AtDesk, ProjectAtRevision
from webapp.live.forms import Document, Form
from webapp.live.page import Page
from webapp.live.render import render, see_other
from webapp.pages.rescue.asked import asked_in, ways_for
from webapp.pages.rescue.shown import rescue_shown

router = APIRouter()


@router.get(RESCUE)
def rescue(request: Request, project_id: str, desk: AtDesk) -> Response:
    """Show the ways that are left for what is asked."""
    opened = desk.open(project_id)
    asked = asked_in(request.query_params, opened)
    return render(request, "rescue/page", rescue_shown(desk, opened, asked, taken="taken" in request.query_params))


@router.post(RESCUE)
def take(project_id: str, desk: AtDesk, form: Form) -> Response:
    """Change the plan as one of the ways does; a way that is not left any more changes nothing."""

    def changed(head: ProjectAtRevision) -> Document:
        texts = {**form.texts, "frame": form.frame}
        ways = ways_for(asked_in(texts, head), desk=desk, opened=head)
        number = form.texts.get("way", "")
        way = ways[int(number) - 1] if number.isdecimal() and 1 <= int(number) <= len(ways) else None
        document = head.document
        if way is not None and way.says == form.texts.get("says"):
            for path, text in way.changes.items():
                document = with_value(document, path, text)
        return document

    desk.change(project_id, changed, tab=form.tab)
    return see_other(f"{RESCUE(project_id=project_id)}?{urlencode({'taken': 'yes'})}")


PAGE = Page(name="rescue", title="A piece went wrong", path=RESCUE, in_menu=False, under="bench", router=router)
