"""The frames of a project: add one, copy one, delete one. Deleting is a change like any other, and can be undone."""

from collections.abc import Callable

from fastapi import APIRouter, Response

from framecalc.project.document import Document
from webapp.live.addresses import FRAME, PROJECT, SETTING_OUT
from webapp.live.desk import AtDesk, Desk, ProjectAtRevision
from webapp.live.render import see_other
from webapp.live.typed.field import fields_in
from webapp.live.typed.forms import Form, Typed
from webapp.live.typed.merging import Merging
from webapp.pages.setting_out.frames import another_frame, copied_frame, without_frame

router = APIRouter()


@router.post(PROJECT + "/frames")
def add(desk: AtDesk, project_id: str, form: Form) -> Response:
    """Add a frame with usual values, in the sizes of the last one."""
    frame_id = _changed(desk, project_id, form, another_frame)
    return see_other(SETTING_OUT(project_id=project_id, frame_id=frame_id))


@router.post(FRAME + "/copy")
def copy(desk: AtDesk, project_id: str, frame_id: str, form: Form) -> Response:
    """Add a copy of a frame."""
    copy_id = _changed(desk, project_id, form, lambda document: copied_frame(document, frame_id))
    return see_other(SETTING_OUT(project_id=project_id, frame_id=copy_id))


@router.post(FRAME + "/delete")
def delete(desk: AtDesk, project_id: str, frame_id: str, form: Form) -> Response:
    """Delete a frame of the project; the last one stays."""
    _changed(desk, project_id, form, lambda document: (without_frame(document, frame_id), frame_id))
    first, *_ = desk.open(project_id).project.frames
    return see_other(SETTING_OUT(project_id=project_id, frame_id=first.id))


def _changed(desk: Desk, project_id: str, form: Typed, change: Callable[[Document], tuple[Document, str]]) -> str:
    """Change the frames of the project with what stands in the form of the page, and return what `change` names.

    A field in error keeps what it had.

    Raises:
        Conflict: a field of the page was changed elsewhere, too.
    """
    named: list[str] = []

    def from_head(head: ProjectAtRevision) -> Document:
        merging = Merging(desk=desk, head=head, page_fields=fields_in, frame_id=form.frame, form=form)
        merging.require_uncontested()
        document, name = change(merging.draft.document)
        named.append(name)
        return document

    desk.change(project_id, from_head, tab=form.tab)
    return named[0]
