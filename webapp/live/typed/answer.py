"""The answer to typed values: the project, the plan, and a sentence for every field at fault.

A text that cannot be read and a size that cannot be built end in the same mapping, by path. While there is such
a sentence nothing new is drawn: the drawings keep the last good state, and the page says so.
"""

from collections.abc import Callable, Iterator, Mapping
from typing import TypeAlias

from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan, Plan
from framecalc.plan.advice import Advice
from framecalc.plan.job_light import Obstacle
from framecalc.project import Frame, Project
from framecalc.project.document import Document
from framecalc.project.form import field_at
from framecalc.records import Record, cached_property
from framecalc.words import joined, typed, uncapitalised
from webapp.live.desk import ProjectAtRevision
from webapp.live.typed.field import FieldSet
from webapp.live.typed.forms import Draft

PageFields: TypeAlias = Callable[[Document, str], FieldSet]
"""The fields of a page, in a document, of the frame with an id; a page of the whole project has no frame, and no id."""


JobObstacles: TypeAlias = Callable[[str, Plan], tuple[Obstacle, ...]]
"""What is found about a whole job, by the id of its project and its plan."""


def _known(_: str, plan: Plan) -> tuple[Obstacle, ...]:
    """What is known from the plan alone."""
    return plan.obstacles


class Answer(Record, dict=True):
    """What follows from the values typed on a page: the document, the project, the sentences.

    `saved` is the plan of the saved project: frames that the page does not change are not planned again. `beside` finds
    what the light says of the whole job.
    """

    project_id: str
    document: Document
    project: Project
    saved: Plan
    typed: Mapping[str, str]
    reading_messages: Mapping[str, str]
    fields: FieldSet
    is_unsaved: bool = False
    beside: JobObstacles = _known

    @property
    def messages(self) -> Mapping[str, str]:
        """A sentence for each path at fault."""
        return self.reading_messages

    @property
    def is_good(self) -> bool:
        """Whether the page has a new state to show."""
        return not self.messages

    @cached_property
    def whole(self) -> Plan:
        """The plan of the whole project."""
        if self.project is self.saved.project:
            return self.saved
        self.saved.compute_all()
        return Plan(self.project, before=self.saved)

    @property
    def here(self) -> str:
        """The start of the paths of the frame on the page; blank on a page of the whole project."""
        return ""

    @property
    def advice(self) -> tuple[Advice, ...]:
        """The findings about the frame on the page, in words."""
        return ()

    @property
    def solved(self) -> Mapping[str, str]:
        """The values that the starting point solves, by path; texts typed there do not count."""
        return {}

    @property
    def plans(self) -> tuple[FramePlan, ...]:
        """The plans of the frames that the page is about."""
        return tuple(self.whole.frames.values())

    def is_assumed(self, path: str) -> bool:
        """Whether nobody has confirmed what is at a path, and it counts."""
        return path in self.project.assumed

    def origin(self, path: str) -> str:
        """Where an assumed value at a path comes from, where that is known."""
        return ""

    @cached_property
    def obstacles(self) -> tuple[Obstacle, ...]:
        """What the light says of the whole job."""
        return self.beside(self.project_id, self.whole)

    def has_field(self, path: str) -> bool:
        """Whether something is typed at a path, on this page or another."""
        one = field_at(self.document, path)
        return one is not None and one.is_typed

    def label(self, path: str) -> str:
        """What the field at a path is called, on this page or another, after the layer, stock or item that it is of."""
        one = self.fields.fields.get(path) or field_at(self.document, path)
        return _after_its_part(one.label, path, self._named_parts) if one else ""

    @cached_property
    def _named_parts(self) -> dict[str, str]:
        return dict(_named_parts(self.project))


def label_with_part(label: str, path: str, project: Project) -> str:
    """The label of the field at a path, after the name of the layer, stock or item that it is of."""
    return _after_its_part(label, path, dict(_named_parts(project)))


def _after_its_part(label: str, path: str, named: dict[str, str]) -> str:
    of = _name_above(path.rpartition(".")[0], named)
    return joined(", ", [typed(of), uncapitalised(label)]) if of else label


def _name_above(path: str, named: dict[str, str]) -> str:
    """The name of what a path is inside, or of what that is inside; blank where none has a name. It is kept there."""
    if path not in named:
        named[path] = _name_above(path.rpartition(".")[0], named) if path else ""
    return named[path]


def _named_parts(project: Project) -> Iterator[tuple[str, str]]:
    """The path of what has a name of its own, and that name."""
    for frame in project.frames:
        yield from ((f"frames.{frame.id}.package.layers.{layer.id}", layer.name) for layer in frame.package.layers)
    yield from ((f"timber.stock.{one.id}", one.name) for one in project.timber.stock)
    yield from ((f"sheets.stock.{one.id}", one.name) for one in project.sheets.stock)
    yield from ((f"wall.things.{one.id}", one.name) for one in project.wall.things)
    yield from ((f"quote.items.{one.id}", one.name) for one in (project.quote.items if project.quote else ()))


class FrameAnswer(Answer, dict=True):
    """The answer on a page of one frame: its plan too."""

    frame: Frame

    @property
    def here(self) -> str:
        """How the paths of the frame begin."""
        return f"frames.{self.frame.id}."

    @cached_property
    def plan(self) -> FramePlan:
        """The plan of the frame; it may be impossible, see `impossible`."""
        return self.whole.frames.get(self.frame.id) or self.saved.frames[self.frame.id]

    @cached_property
    def impossible(self) -> FrameCalcError | None:
        """Why the frame cannot be computed, if it cannot."""
        try:
            self.plan.compute_all()
        except FrameCalcError as error:
            return error
        return None

    @cached_property
    def messages(self) -> Mapping[str, str]:
        """A sentence for each path at fault: its text is unreadable or its size impossible."""
        messages = dict(self.reading_messages)
        if self.impossible:
            messages.setdefault(self.impossible.field, self.impossible.sentence)
        return messages

    @cached_property
    def advice(self) -> tuple[Advice, ...]:
        """The findings in words; none while a field is at fault."""
        return self.plan.advice if self.is_good else ()

    @cached_property
    def solved(self) -> Mapping[str, str]:
        """The values that the starting point solves, by path; texts typed there do not count."""
        if self.impossible:
            return {}
        solved = map(self.plan.path_of, self.plan.settled.solved)
        return {path: self._worked_out(path) for path in solved if path in self.fields}

    @property
    def plans(self) -> tuple[FramePlan, ...]:
        """The plan of the frame on the page."""
        return (self.plan,)

    def is_assumed(self, path: str) -> bool:
        """Whether nobody has confirmed what is at a path, and it counts."""
        return path in self.plan.unconfirmed

    def origin(self, path: str) -> str:
        """Where an assumed value at a path comes from: a size may come out of a photo."""
        return self.plan.origin_of(path)

    def _worked_out(self, path: str) -> str:
        figure = self.plan.figures.get(self.fields.fields[path].figure)
        return figure.written.full if figure else ""


def answer_to(opened: ProjectAtRevision, fields: PageFields, draft: Draft | None = None) -> Answer:
    """Answer the values typed on a page of the whole project; without a draft, the saved ones."""
    draft = draft or _as_saved(opened)
    return Answer(
        project_id=opened.project_id,
        document=draft.document,
        project=draft.checked,
        saved=opened.plan,
        typed=draft.typed,
        reading_messages=draft.messages,
        fields=_fields_of(opened, "", fields, draft),
    )


def frame_answer_to(
    opened: ProjectAtRevision, frame_id: str, fields: PageFields, draft: Draft | None = None
) -> FrameAnswer:
    """Answer the values typed on a page of one frame; without a draft, the saved ones.

    Raises:
        NoSuchFrame: the project has no such frame.
    """
    draft = draft or _as_saved(opened)
    return FrameAnswer(
        project_id=opened.project_id,
        document=draft.document,
        project=draft.checked,
        saved=opened.plan,
        typed=draft.typed,
        reading_messages=draft.messages,
        fields=_fields_of(opened, frame_id, fields, draft),
        frame=draft.checked.frame(frame_id) or opened.frame(frame_id),
    )


def _fields_of(opened: ProjectAtRevision, frame_id: str, fields: PageFields, draft: Draft) -> FieldSet:
    """The fields of a page; those of the saved project, as long as nothing typed changes them."""
    return opened.page(fields, frame_id).fields if draft.keeps_fields else fields(draft.document, frame_id)


def _as_saved(opened: ProjectAtRevision) -> Draft:
    return Draft(document=opened.document, checked=opened.project, alike=opened.document)
