"""The answer to what was typed: the plan of the frame on the page, and a sentence for every field that is in the way.

A text that cannot be read and a size that cannot be built end in the same mapping, by path. Where there is such a
sentence there is nothing new to draw: the drawings keep the last good state, and the page says so.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.plan import FramePlan, Plan, plan_frame
from framecalc.plan.advice import Advice
from framecalc.project import Frame, Project
from framecalc.words import typed
from webapp.live.desk import ProjectAtRevision
from webapp.live.field import FieldSet, fields_in
from webapp.live.forms import Document, Draft


class Light(StrEnum):
    """The ready-to-cut light: its three states, as they are called on the page."""

    READY = "ready"
    CHECK = "check"
    NOT_YET = "not-yet"


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """The light, its word, one sentence, and the id of the place on the page to go to."""

    light: Light
    word: str
    sentence: str
    goes_to: str = ""


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What the page shows for one frame: the document, what was typed, the plan, the sentences.

    `saved` is the plan of what is saved: what is not changed on the page is not planned again.
    """

    project_id: str
    revision: int
    document: Document
    project: Project
    frame: Frame
    saved: Plan
    typed: Mapping[str, str]
    reading_messages: Mapping[str, str]
    is_unsaved: bool = False
    page_fields: Callable[[Document, str], FieldSet] = fields_in

    @cached_property
    def fields(self) -> FieldSet:
        """The fields of the page."""
        return self.page_fields(self.document, self.frame.id)

    @cached_property
    def plan(self) -> FramePlan:
        """The plan of the frame; it may turn out to be impossible, see `impossible`."""
        if self.project is self.saved.project and self.frame.id in self.saved.frames:
            return self.saved.frames[self.frame.id]
        return plan_frame(self.project, self.frame, before=self.saved)

    @cached_property
    def whole(self) -> Plan:
        """The plan of the whole project."""
        if self.project is self.saved.project:
            return self.saved
        self.saved.compute_all()
        return Plan(self.project, before=self.saved)

    @cached_property
    def impossible(self) -> FrameCalcError | None:
        """Why the frame cannot be computed, if it cannot."""
        try:
            self.plan.compute_all()
        except FrameCalcError as error:
            return error
        return None

    @cached_property
    def messages(self) -> dict[str, str]:
        """A sentence for each path that is in the way, be it unreadable or impossible."""
        messages = dict(self.reading_messages)
        if self.impossible:
            messages.setdefault(self.impossible.field, self.impossible.sentence)
        return messages

    def label(self, path: str) -> str:
        """What the field at a path is called; a layer's thickness after its layer."""
        one = self.fields.fields.get(path)
        layer = next((layer for layer in self.frame.package.layers if f".layers.{layer.id}." in path), None)
        label = one.label if one else ""
        return layer.name + f", {label.lower()}" if layer and label else label

    @property
    def is_good(self) -> bool:
        """Whether there is something new to show."""
        return not self.messages

    @cached_property
    def advice(self) -> tuple[Advice, ...]:
        """The findings in words; none while something is in the way."""
        return self.plan.advice if self.is_good else ()

    @cached_property
    def solved(self) -> frozenset[str]:
        """Paths of the fields that the starting point solves, so that what is typed there does not count."""
        if self.impossible:
            return frozenset()
        return frozenset(self.plan.path_of(argument) for argument in self.plan.settled.solved)


def answer_to(
    opened: ProjectAtRevision,
    frame_id: str,
    draft: Draft | None = None,
    *,
    page_fields: Callable[[Document, str], FieldSet] = fields_in,
) -> Answer:
    """Answer what was typed on a page with these fields; without a draft, what is saved.

    Raises:
        NoSuchFrame: the project has no such frame.
    """
    if draft is None:
        draft = Draft(document=opened.document, checked=opened.project)
    frame = draft.checked.frame(frame_id) or opened.frame(frame_id)
    return Answer(
        project_id=opened.project_id,
        revision=opened.revision.number,
        document=draft.document,
        project=draft.checked,
        frame=frame,
        saved=opened.plan,
        typed=draft.typed,
        reading_messages=draft.messages,
        page_fields=page_fields,
    )


def verdict_of(answer: Answer) -> Verdict:
    """Whether the frame is ready to cut: not beside a field in error, a stop, or an unconfirmed value that matters."""
    if answer.messages:
        return _in_error(answer)
    stops = [advice for advice in answer.advice if advice.severity is Severity.STOP]
    if stops:
        return Verdict(light=Light.NOT_YET, word="Not yet", sentence=stops[0].sentence, goes_to="findings")
    unconfirmed = answer.plan.unconfirmed
    if unconfirmed:
        return Verdict(light=Light.CHECK, word="Check first", sentence=_assumed(answer), goes_to=unconfirmed[0])
    return Verdict(light=Light.READY, word="Ready to cut", sentence=_warnings(answer))


def _in_error(answer: Answer) -> Verdict:
    path, sentence = next(iter(answer.messages.items()))
    label, more = answer.label(path), len(answer.messages) - 1
    said = _closed(label + ": " + typed(sentence) if label else typed(sentence))
    said = said + f" And {more} more." if more else said
    return Verdict(light=Light.NOT_YET, word="Not yet", sentence=said, goes_to=path if label else "")


def _assumed(answer: Answer) -> str:
    labels = [answer.label(path) for path in answer.plan.unconfirmed]
    if len(labels) == 1:
        return labels[0] + " is only assumed."
    return f"{len(labels)} values are only assumed. The first: " + labels[0] + "."


def _warnings(answer: Answer) -> str:
    warnings = [advice for advice in answer.advice if advice.severity is Severity.WARN]
    if not warnings:
        return "Nothing stands in the way."
    return warnings[0].sentence if len(warnings) == 1 else f"With {len(warnings)} warnings below."


def _closed(sentence: str) -> str:
    return sentence if sentence.endswith((".", "?", "!")) else sentence + "."
