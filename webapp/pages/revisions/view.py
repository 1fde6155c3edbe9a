"""What a project was before: undo, redo, the list of revisions, any of them brought back."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from webapp.live.desk import Desk, desk
from webapp.live.forms import Typed, typed
from webapp.live.render import render, see_other
from webapp.pages.revisions.shown import revision_lines

router = APIRouter()
OF_FRAME = ("setting-out", "package", "corners", "look")
"""The pages of a frame that have undo and redo; the first where none is named."""
OF_PROJECT = ("timber", "timber/reach", "sheets", "costs")
"""The pages of a project that have them."""

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.post("/projects/{project_id}/undo")
def undo(desk: AtDesk, project_id: str, form: Form) -> Response:
    """Take the last change back."""
    desk.store.undo(project_id, base=form.base, tab=form.tab)
    return see_other(_back(desk, project_id, form))


@router.post("/projects/{project_id}/redo")
def redo(desk: AtDesk, project_id: str, form: Form) -> Response:
    """Take again what was taken back."""
    desk.store.redo(project_id, base=form.base, tab=form.tab)
    return see_other(_back(desk, project_id, form))


@router.get("/projects/{project_id}/revisions")
def revisions(request: Request, desk: AtDesk, project_id: str) -> Response:
    """List everything that was ever saved of a project."""
    opened = desk.open(project_id)
    words = desk.shop().words
    lines = revision_lines(desk.store.revisions(project_id), words=words)
    shown = {"words": words, "opened": opened, "lines": lines, "base": opened.revision.number}
    return render(request, "revisions/page", shown)


@router.post("/projects/{project_id}/revisions/{number}/restore")
def restore(desk: AtDesk, project_id: str, number: int, form: Form) -> Response:
    """Bring an older revision back, as a change of its own."""
    desk.store.restore(project_id, number, base=form.base, tab=form.tab)
    return see_other(f"/projects/{project_id}")


def _back(desk: Desk, project_id: str, form: Typed) -> str:
    """The page that the button was on; the project's first frame where that frame is gone."""
    if form.place in OF_PROJECT:
        return f"/projects/{project_id}/{form.place}"
    frame = desk.open(project_id).project.frame(form.frame)
    place = form.place if form.place in OF_FRAME else OF_FRAME[0]
    return f"/projects/{project_id}/frames/{frame.id}/{place}" if frame else f"/projects/{project_id}"
