"""What a live page shows: a record whose public names are the variables of its template.

Its surroundings are the same on all pages of a project: the menu, the revision, what keeps it from being saved.
"""

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import ClassVar

from markupsafe import Markup

from framecalc.drawing.setting_out.field_sketches import PLACES, draw_field_sketch
from framecalc.plan.inputs import UNDER_A_LIP, is_tray, unplanned_layers
from framecalc.project import Frame, Mat, Project
from framecalc.records import Record, cached_property, replace
from framecalc.words import Words, say
from webapp.live.addresses import FRAME, PROJECT
from webapp.live.desk import ProjectAtRevision
from webapp.live.of_project import OfProject
from webapp.live.page import Page
from webapp.live.render import drawing
from webapp.live.slots import FieldSlot, FieldView, FieldViews, slots_in
from webapp.live.typed.answer import Answer, FrameAnswer
from webapp.live.typed.conflicts import ConflictView
from webapp.live.verdict import Verdict, verdict_of


class Around(Record):
    """The surroundings of a page of a project.

    `frame_id` is the frame on the page, if it is a page of one; it `has_preview` if it answers while a person types;
    `sent` is the base revision that the page keeps, if it is not the one shown. `together`: the last save went in
    beside changes from elsewhere. `outdated`: the button that led here was pressed on an older page, and did nothing.
    `group_name` is the group that a page of groups shows. `shown_by` is the token of what the page shows already,
    `asked` the hash of the form that is answered.
    """

    page: Page
    opened: ProjectAtRevision
    frame_id: str = ""
    has_preview: bool = False
    notice: str = ""
    renews: bool = False
    together: bool = False
    outdated: bool = False
    clash: ConflictView | None = None
    sent: int | None = None
    group_name: str = ""
    shown_by: str = ""
    asked: int = 0

    @property
    def base(self) -> int:
        """The revision that a save starts from."""
        return self.opened.revision.number if self.sent is None else self.sent

    @property
    def address(self) -> str:
        """The address of the page, and of the group that it shows."""
        return self.page.address(project_id=self.opened.project_id, frame_id=self.frame_id, group_name=self.group_name)

    @property
    def place(self) -> str:
        """The part of the address that says which page of the frame or the project it is."""
        return "/".join(filter(None, (self.page.tail, self.group_name)))

    @property
    def project_at(self) -> str:
        """The start of the addresses of the project."""
        return PROJECT(project_id=self.opened.project_id)

    @property
    def frame_at(self) -> str:
        """The start of the addresses of the frame on the page, or of the first frame."""
        return FRAME(project_id=self.opened.project_id, frame_id=self.near_frame_id)

    @property
    def near_frame_id(self) -> str:
        """The frame that the menu links to: the one on the page, or the first one."""
        return self.frame_id or self.opened.project.frames[0].id


class LiveShown(OfProject, Record, dict=True):
    """What every live page shows: the project, and its fields by their paths without the common part `above`.

    `has_sketches`: small drawings show where fields are measured.
    """

    answer: Answer
    above: ClassVar[str] = ""
    has_sketches: ClassVar[bool] = False

    @property
    def project(self) -> Project:
        """The project as typed."""
        return self.answer.project

    @property
    def messages(self) -> Mapping[str, str]:
        """A sentence for each path at fault."""
        return self.answer.messages

    @cached_property
    def fields(self) -> Mapping[str, FieldView]:
        """The fields by their paths."""
        return FieldViews(self.answer, self.above)

    @property
    def slots(self) -> tuple[FieldSlot, ...]:
        """The slots under the fields."""
        return slots_in(self.fields)

    @cached_property
    def verdict(self) -> Verdict:
        """The light."""
        return verdict_of(self.answer)

    def sketch(self, path: str) -> Markup:
        """The small drawing of where a field is measured, if there is one."""
        return _sketch(path, self.words) if self.has_sketches and path in PLACES else Markup()


class FrameShown(LiveShown, dict=True):
    """What every live page of a frame shows."""

    answer: FrameAnswer

    @property
    def frame(self) -> Frame:
        """The frame on the page, as typed."""
        return self.answer.frame

    @cached_property
    def fields(self) -> FieldViews:
        """The fields by their paths; in a tray no layer can become one that lies under a lip."""
        return FieldViews(self.answer, self.above, turned=_in_a_tray if self.is_tray else None)

    @property
    def mat(self) -> Mat | None:
        """The mat as typed, if the frame is to have one."""
        mat = self.frame.package.mat
        return mat if mat and mat.is_planned else None

    @property
    def is_tray(self) -> bool:
        """Whether the section is a tray."""
        return is_tray(self.frame)

    @property
    def left_out(self) -> tuple[str, ...]:
        """The names of layers that are kept as typed and not planned."""
        return tuple(layer.name for layer in unplanned_layers(self.frame))


def _in_a_tray(view: FieldView) -> FieldView:
    """A field without the choices that a tray has none of; the one chosen stays."""
    kept = tuple(pair for pair in view.field.choices if pair[0] == view.text or pair[0] not in UNDER_A_LIP)
    is_kind = len(kept) < len(view.field.choices)
    return replace(view, field=view.field.choosing(kept)) if is_kind else view


@lru_cache(maxsize=256)
def _sketch(path: str, words: Words) -> Markup:
    return drawing(re.sub(r"(?<=<title>)[^<]*", lambda title: say(title[0], words), draw_field_sketch(path)))
