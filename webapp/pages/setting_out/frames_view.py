"""The frames of a project: add one, copy one, delete one. Deleting is a change like any other, and can be undone."""

from fastapi import APIRouter, Response

from webapp.live.addresses import FRAME, PROJECT, SETTING_OUT
from webapp.live.desk import AtDesk, ProjectAtRevision
from webapp.live.field import fields_in
from webapp.live.forms import Document, Form, Typed, work_in
from webapp.live.render import see_other
from webapp.pages.setting_out.frames import another_frame, copied_frame, without_frame

router = APIRouter()


@router.post(PROJECT + "/frames")
def add(desk: AtDesk, project_id: str, form: Form) -> Response:
    """Add a frame with usual values, in the sizes of the last one."""
    opened = desk.open(project_id)
    document, frame_id = another_frame(_as_typed(opened, form))
    desk.store.save(project_id, document, base=form.base, tab=form.tab)
    return see_other(SETTING_OUT(project_id=project_id, frame_id=frame_id))


@router.post(FRAME + "/copy")
def copy(desk: AtDesk, project_id: str, frame_id: str, form: Form) -> Response:
    """Add a copy of a frame."""
    document, copy_id = copied_frame(_as_typed(desk.open(project_id), form), frame_id)
    desk.store.save(project_id, document, base=form.base, tab=form.tab)
    return see_other(SETTING_OUT(project_id=project_id, frame_id=copy_id))


@router.post(FRAME + "/delete")
def delete(desk: AtDesk, project_id: str, frame_id: str, form: Form) -> Response:
    """Delete a frame of the project; the last one stays."""
    document = without_frame(_as_typed(desk.open(project_id), form), frame_id)
    desk.store.save(project_id, document, base=form.base, tab=form.tab)
    return see_other(PROJECT(project_id=project_id))


def _as_typed(opened: ProjectAtRevision, form: Typed) -> Document:
    """The project with the values of the page's form; a field in error keeps its old value."""
    fields = fields_in(opened.document, form.frame)
    return work_in(opened.document, form.texts, fields, reading=opened.reading, check=opened.check).document
