"""The light that stands on every page of a project: its state, the stage it speaks for, how much, and the first of it.

On a page of one frame it speaks for that frame, on a page of the whole project for all frames together.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from framecalc.findings import Severity
from framecalc.plan import FramePlan
from framecalc.plan.light import Concern, FramePage, Stage
from framecalc.words import capitalised, joined, typed, worded
from webapp.live.addresses import CORNERS, PACKAGE, SETTING_OUT
from webapp.live.answer import Answer
from webapp.live.answers import plural
from webapp.live.render import html_id

_WAITS = {
    Stage.CUTTING: "Not yet",
    Stage.GLUING: "Do not glue yet",
    Stage.FITTING: "Do not fit yet",
    Stage.HANGING: "Do not hang yet",
}
_ADDRESSES = {FramePage.SETTING_OUT: SETTING_OUT, FramePage.CORNERS: CORNERS, FramePage.PACKAGE: PACKAGE}


class Light(StrEnum):
    """The light: its three states, as they are called on the page."""

    READY = "ready"
    CHECK = "check"
    NOT_YET = "not-yet"


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """The light, its word, one sentence, and where to go: a place on this page or on another one."""

    light: Light
    word: str
    sentence: str
    goes_to: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Met:
    """A stop or a warning, and the plan of the frame that it was met in."""

    plan: FramePlan
    concern: Concern


def verdict_of(answer: Answer) -> Verdict:
    """Whether the work may go on: not beside a field in error, a stop, or an assumed value that counts."""
    if answer.reading_messages:
        return _in_error(answer)
    all_of_it = _All(answer)
    if stage := all_of_it.waits_for:
        return all_of_it.waiting(stage)
    return all_of_it.unconfirmed_verdict() if all_of_it.unconfirmed else all_of_it.ready()


class _All:
    """Everything that the light speaks of."""

    def __init__(self, answer: Answer) -> None:
        self._answer = answer
        self._met = tuple(_met(answer.plans))
        self.unconfirmed = tuple(dict.fromkeys(path for plan in answer.plans for path in plan.unconfirmed))

    @property
    def waits_for(self) -> Stage | None:
        """The first stage that something stops; assumed values are confirmed before anything later is looked at."""
        first = next((stage for stage in Stage if self._of(stage, Severity.STOP)), None)
        return None if first is not Stage.CUTTING and self.unconfirmed else first

    def waiting(self, stage: Stage) -> Verdict:
        """A stage that must not begin yet."""
        first = self._of(stage, Severity.STOP)[0]
        return Verdict(
            light=Light.NOT_YET, word=_WAITS[stage], sentence=self._counted(self._said(first)), goes_to=self._at(first)
        )

    def unconfirmed_verdict(self) -> Verdict:
        """Values that count and are only assumed."""
        path = self.unconfirmed[0]
        sentence = self._counted(worded("The first: {label}.", label=self._answer.label(path)))
        return Verdict(light=Light.CHECK, word="Confirm first", sentence=sentence, goes_to=self._at_field(path))

    def ready(self) -> Verdict:
        """Nothing stands in the way; what wants a look is said beside the light's word."""
        if not self._met:
            return Verdict(light=Light.READY, word="Ready to cut", sentence="Nothing stands in the way.")
        first = min(self._met, key=lambda met: tuple(Stage).index(met.concern.stage))
        word = f"Ready to cut · {plural(len(self._met), 'warning')}"
        return Verdict(light=Light.CHECK, word=word, sentence=self._counted(self._said(first)), goes_to=self._at(first))

    def _of(self, stage: Stage, severity: Severity) -> list[_Met]:
        return [met for met in self._met if met.concern.stage is stage and met.concern.severity is severity]

    def _counted(self, first: str) -> str:
        """How much there is at every stage, then the first of it."""
        counts = "; ".join(said for stage in Stage if (said := self._count(stage)))
        return joined(" ", [capitalised(counts + "."), first])

    def _count(self, stage: Stage) -> str:
        assumed = len(self.unconfirmed) if stage is Stage.CUTTING else 0
        counts = (
            (len(self._of(stage, Severity.STOP)), "stop", ""),
            (assumed, "value only assumed", "values only assumed"),
            (len(self._of(stage, Severity.WARN)), "warning", ""),
        )
        said = ", ".join(plural(count, one, many) for count, one, many in counts if count)
        return said and f"before {stage}: {said}"

    def _said(self, met: _Met) -> str:
        """Its sentence, after the field that refuses, after the frame where the page has several."""
        parts = [met.plan.frame.name] if len(self._answer.plans) > 1 else []
        if met.concern.is_refusal and (label := self._answer.label(met.plan.field_of(met.concern))):
            parts.append(label)
        return typed(_closed(": ".join([*parts, met.plan.sentence_of(met.concern)])))

    def _at(self, met: _Met) -> str:
        """Where it stands: at its field, where that is on this page, else in its group."""
        page, group = met.concern.page, met.concern.group
        field = met.plan.field_of(met.concern)
        if page is FramePage.SETTING_OUT and field in self._answer.fields:
            return _to_field(field)
        address = _ADDRESSES[page](project_id=self._answer.project_id, frame_id=met.plan.frame.id)
        return f"{address}#{group}" if page is FramePage.SETTING_OUT else f"{address}#says-{group}"

    def _at_field(self, path: str) -> str:
        """A field on this page, else on the setting-out page: all that is assumed is typed there."""
        if path in self._answer.fields:
            return _to_field(path)
        frames = (plan.frame.id for plan in self._answer.plans)
        frame_id = next(one for one in frames if f".{one}." in path or not path.startswith("frames."))
        return SETTING_OUT(project_id=self._answer.project_id, frame_id=frame_id) + _to_field(path)


def _met(plans: Iterable[FramePlan]) -> Iterator[_Met]:
    for plan in plans:
        for concern in plan.concerns:
            if concern.severity is not Severity.NOTE:
                yield _Met(plan=plan, concern=concern)


def _in_error(answer: Answer) -> Verdict:
    path, sentence = next(iter(answer.reading_messages.items()))
    label, more = answer.label(path), len(answer.reading_messages) - 1
    said = _closed(label + ": " + typed(sentence) if label else typed(sentence))
    said = said + f" And {more} more." if more else said
    goes_to = _to_field(path) if path in answer.fields else ""
    return Verdict(light=Light.NOT_YET, word="Not yet", sentence=said, goes_to=goes_to)


def _to_field(path: str) -> str:
    return f"#field-{html_id(path)}"


def _closed(sentence: str) -> str:
    return sentence if sentence.endswith((".", "?", "!")) else sentence + "."
