"""The frames of a project: add one, copy one, delete one. Deleting is a change like any other, and can be undone."""

from typing import Annotated

from fastapi import APIRouter, Depends, Response

from webapp.live.desk import Desk, ProjectAtRevision, desk
from webapp.live.field import fields_in
from webapp.live.forms import Document, Typed, typed, work_in
from webapp.live.render import see_other
from webapp.pages.setting_out.frames import another_frame, copied_frame, without_frame
from webapp.pages.setting_out.shown import address

router = APIRouter()

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.post("/projects/{project_id}/frames")
def add(desk: AtDesk, project_id: str, form: Form) -> Response:
    """Add a frame with usual values, in the sizes of the last one."""
    opened = desk.open(project_id)
    document, frame_id = another_frame(_as_typed(opened, form))
    desk.store.save(project_id, document, base=form.base, tab=form.tab)
    return see_other(address(project_id, frame_id))


@router.post("/projects/{project_id}/frames/{frame_id}/copy")
def copy(desk: AtDesk, project_id: str, frame_id: str, form: Form) -> Response:
    """Add a frame that is like another one."""
    document, copy_id = copied_frame(_as_typed(desk.open(project_id), form), frame_id)
    desk.store.save(project_id, document, base=form.base, tab=form.tab)
    return see_other(address(project_id, copy_id))


@router.post("/projects/{project_id}/frames/{frame_id}/delete")
def delete(desk: AtDesk, project_id: str, frame_id: str, form: Form) -> Response:
    """Take a frame out of the project; the last one stays."""
    document = without_frame(_as_typed(desk.open(project_id), form), frame_id)
    desk.store.save(project_id, document, base=form.base, tab=form.tab)
    return see_other(f"/projects/{project_id}")


def _as_typed(opened: ProjectAtRevision, form: Typed) -> Document:
    """The project with what stands in the form of the page; a field in error keeps what it had."""
    fields = fields_in(opened.document, form.frame)
    return work_in(opened.document, form.texts, fields, reading=opened.reading, check=opened.check).document
