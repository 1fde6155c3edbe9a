"""The light that stands on every page of a project: its state, the stage it speaks for, how much, and the first of it.

On a page of one frame it speaks for that frame, on a page of the whole project for all frames together; what is found
about the whole job counts on both.
"""

from collections.abc import Iterator, Mapping
from enum import StrEnum

from framecalc.findings import Severity
from framecalc.plan import FramePlan
from framecalc.plan.job_light import JobPage, Obstacle
from framecalc.plan.light import Concern, FindingPage, Stage
from framecalc.records import Record
from framecalc.words import capitalised, first_sentence, joined, typed, uncapitalised
from webapp.live.addresses import BENCH, CLIENT, CORNERS, COSTS, PACKAGE, SETTING_OUT, SHEETS, TIMBER, WALL, Address
from webapp.live.answers import plural
from webapp.live.grouped import at_field, at_group
from webapp.live.render import html_id
from webapp.live.typed.answer import Answer
from webapp.live.typed.field import fields_in

_WAITS = {
    Stage.CUTTING: "Not yet",
    Stage.GLUING: "Do not glue yet",
    Stage.FITTING: "Do not fit yet",
    Stage.HANGING: "Do not hang yet",
}
_PAGES: Mapping[FindingPage | JobPage, tuple[Address, str]] = {
    FindingPage.SETTING_OUT: (SETTING_OUT, "Setting-out"),
    FindingPage.CORNERS: (CORNERS, "Corners"),
    FindingPage.PACKAGE: (PACKAGE, "Package"),
    FindingPage.WALL: (WALL, "Wall"),
    JobPage.TIMBER: (TIMBER, "Timber"),
    JobPage.SHEETS: (SHEETS, "Sheets"),
    JobPage.COSTS: (COSTS, "Costs"),
    JobPage.CLIENT: (CLIENT, "Client"),
    JobPage.BENCH: (BENCH, "Bench"),
}
"""Where each page is, and what it is called."""

_TYPED: Mapping[FindingPage | JobPage, str] = {
    JobPage.TIMBER: "timber.",
    JobPage.SHEETS: "sheets.",
    JobPage.COSTS: "quote.",
    JobPage.BENCH: "bench.",
}
"""How the paths of the fields begin that are typed on a page of the whole job."""

_GROUPS = {
    "angles": "the saw's settings",
    "parts": "the sides as cut",
    "clamps": "the clamps",
    "joint": "the joint",
    "seasons": "the seasons",
    "held": "the retainers",
    "canvas": "the canvas",
    "box": "the box",
    "links": "the client's links",
    "findings": "the findings",
    "as-cut": "what came out",
    "glue-up": "the glue-up",
    "hangers": "the hangers",
    "group": "the wall",
}
"""What the groups are called to which the light leads; another one is called by its page."""


class Light(StrEnum):
    """The light: its three states, as they are called on the page."""

    READY = "ready"
    CHECK = "check"
    NOT_YET = "not-yet"


class Verdict(Record):
    """The light, its word, one sentence, and where to go: a place on this page or on another one.

    `target` is what stands there. `changed` says what has changed since the client's yes, `changed_at` where it stands.
    """

    light: Light
    word: str
    sentence: str
    goes_to: str = ""
    target: str = "it"
    changed: str = ""
    changed_at: str = ""


class _Met(Record):
    """A stop or a warning of a frame or of the job: what it says, the field it is about, and where it stands."""

    stage: Stage
    severity: Severity
    page: FindingPage | JobPage
    sentence: str
    field: str
    anchor: str
    frame_id: str = ""


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
        of_job = [_of_job(one) for one in answer.obstacles if one.severity is not Severity.NOTE]
        self._changed = next((met for met in of_job if met.page is JobPage.CLIENT), None)
        self._met = (*_met(answer), *of_job)
        self.unconfirmed = tuple(dict.fromkeys(path for plan in answer.plans for path in plan.unconfirmed))

    @property
    def waits_for(self) -> Stage | None:
        """The first stage that something stops; assumed values are confirmed before anything later is looked at."""
        first = next((stage for stage in Stage if self._of(stage, Severity.STOP)), None)
        return None if first is not Stage.CUTTING and self.unconfirmed else first

    def waiting(self, stage: Stage) -> Verdict:
        """A stage that must not begin yet."""
        return self._leading_to(self._of(stage, Severity.STOP)[0], light=Light.NOT_YET, word=_WAITS[stage])

    def unconfirmed_verdict(self) -> Verdict:
        """Values that count and are only assumed."""
        path = self._first_to_confirm()
        label = self._answer.label(path)
        return self._verdict(
            light=Light.CHECK,
            word="Confirm first",
            sentence=self._counted(joined("", ["The first: ", label, "."])),
            goes_to=self._at_field(path),
            target=uncapitalised(label),
        )

    def _first_to_confirm(self) -> str:
        """The first of them in the order of the setting-out page; what is not typed there comes last."""
        plan = next(plan for plan in self._answer.plans if plan.unconfirmed)
        order = fields_in(self._answer.document, plan.frame.id).fields
        return next((path for path in order if path in plan.unconfirmed), plan.unconfirmed[0])

    def ready(self) -> Verdict:
        """Nothing stands in the way; what wants a look is said beside the light's word."""
        if not self._met:
            sentence = joined(" ", ["Nothing stands in the way.", *self._later])
            return self._verdict(light=Light.READY, word="Ready to cut", sentence=sentence)
        others = [met for met in self._met if met is not self._changed]
        word = f"Ready to cut · {plural(len(self._met), 'warning')}"
        if not others:
            return self._verdict(light=Light.CHECK, word=word, sentence="")
        first = min(others, key=lambda met: tuple(Stage).index(met.stage))
        return self._leading_to(first, light=Light.CHECK, word=word)

    @property
    def _later(self) -> list[str]:
        """What is left to do before the frame hangs, when nothing else is."""
        codes = {concern.code for plan in self._answer.plans for concern in plan.concerns}
        return ["Before hanging: weigh it, its weight is not known."] if "weight.unknown" in codes else []

    def _leading_to(self, met: _Met, *, light: Light, word: str) -> Verdict:
        goes_to, target = self._at(met)
        return self._verdict(
            light=light, word=word, sentence=self._counted(self._said(met)), goes_to=goes_to, target=target
        )

    def _verdict(self, *, light: Light, word: str, sentence: str, goes_to: str = "", target: str = "") -> Verdict:
        return Verdict(
            light=light,
            word=word,
            sentence=sentence,
            goes_to=goes_to,
            target=target or "it",
            changed=self._changed.sentence if self._changed else "",
            changed_at=self._at(self._changed)[0] if self._changed else "",
        )

    def _of(self, stage: Stage, severity: Severity) -> list[_Met]:
        return [met for met in self._met if met.stage is stage and met.severity is severity]

    def _counted(self, first: str) -> str:
        """How much there is at every stage, then the first; what the light's word counts is not said twice.

        A stage after the cutting, of which the light's word speaks, is named all the same.
        """
        counts = [said for stage in Stage if (said := self._count(stage))]
        if self._is_counted_by_its_word and len(counts) == 1:
            stage = self._met[0].stage
            return first if stage is Stage.CUTTING else joined(": ", [f"Before {stage}", first])
        return joined(" ", [capitalised("; ".join(counts) + "."), first])

    @property
    def _is_counted_by_its_word(self) -> bool:
        return not self.unconfirmed and all(met.severity is Severity.WARN for met in self._met)

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
        """Its fact, after the frame where the page has several; what to do is said where it stands."""
        plan = self._answer.whole.frames.get(met.frame_id) if len(self._answer.plans) > 1 else None
        named = [typed(plan.frame.name)] if plan else []
        return _closed(joined(": ", [*named, first_sentence(met.sentence)]))

    def _at(self, met: _Met) -> tuple[str, str]:
        """Where it stands, and what that is called: at its field, if its page has that one, else in its group.

        Nowhere, if all that can be said is the page of the job that is being looked at.
        """
        address, page = _PAGES[met.page]
        name = met.anchor.removeprefix("says-")
        frame_id = met.frame_id or self._answer.project.frames[0].id
        at = at_group(address, name)(project_id=self._answer.project_id, frame_id=frame_id)
        if self._is_typed_there(met):
            here = self._here(met.field) if met.field in self._answer.fields else at
            return here + _to_field(met.field), uncapitalised(self._answer.label(met.field))
        if name not in _GROUPS and self._is_on(met.page):
            return "", ""
        return f"{at}#{met.anchor}", _GROUPS.get(name, page)

    def _is_on(self, page: FindingPage | JobPage) -> bool:
        """Whether the page looked at is this one, on which fields of the whole job are typed."""
        start = _TYPED.get(page)
        return start is not None and any(path.startswith(start) for path in self._answer.fields.fields)

    def _is_typed_there(self, met: _Met) -> bool:
        if met.page is FindingPage.SETTING_OUT:
            return met.field in fields_in(self._answer.document, met.frame_id)
        start = _TYPED.get(met.page, "")
        return start != "" and met.field.startswith(start) and self._answer.has_field(met.field)

    def _at_field(self, path: str) -> str:
        """A field on this page, else on the page of the frame that it is typed on."""
        if path in self._answer.fields:
            return self._here(path) + _to_field(path)
        frames = (plan.frame.id for plan in self._answer.plans)
        frame_id = next(one for one in frames if f".{one}." in path or not path.startswith("frames."))
        is_set_out = path in fields_in(self._answer.document, frame_id)
        page = (
            FindingPage.SETTING_OUT
            if is_set_out
            else FindingPage.CORNERS
            if ".corner." in path
            else FindingPage.PACKAGE
        )
        address = at_field(_PAGES[page][0], path)
        return address(project_id=self._answer.project_id, frame_id=frame_id) + _to_field(path)

    def _here(self, path: str) -> str:
        return _before_field(self._answer, path)


def _met(answer: Answer) -> Iterator[_Met]:
    for plan in answer.plans:
        for concern in plan.concerns:
            if concern.severity is not Severity.NOTE:
                yield _of_frame(plan, concern, answer)


def _of_frame(plan: FramePlan, concern: Concern, answer: Answer) -> _Met:
    field, sentence = plan.field_of(concern), plan.sentence_of(concern)
    label = answer.label(field) if concern.is_refusal else ""
    return _Met(
        stage=concern.stage,
        severity=concern.severity,
        page=concern.page,
        sentence=joined(": ", filter(None, (label, sentence))),
        field=field,
        anchor=concern.group if concern.page is FindingPage.SETTING_OUT else f"says-{concern.group}",
        frame_id=plan.frame.id,
    )


def _of_job(one: Obstacle) -> _Met:
    return _Met(
        stage=one.stage,
        severity=one.severity,
        page=one.page,
        sentence=one.sentence,
        field=one.field,
        anchor=one.anchor,
    )


def _in_error(answer: Answer) -> Verdict:
    path, sentence = next(iter(answer.reading_messages.items()))
    label, more = answer.label(path), len(answer.reading_messages) - 1
    said = _closed(label + ": " + typed(sentence) if label else typed(sentence))
    said = said + f" And {more} more." if more else said
    goes_to, target = (_before_field(answer, path) + _to_field(path), label) if path in answer.fields else ("", "")
    return Verdict(
        light=Light.NOT_YET, word="Not yet", sentence=said, goes_to=goes_to, target=uncapitalised(target or "it")
    )


def _before_field(answer: Answer, path: str) -> str:
    """What stands before the place of a field of this very page: the address of its group, where it has groups."""
    page = answer.fields.page
    return at_field(page, path)(project_id=answer.project_id, frame_id=answer.plans[0].frame.id) if page else ""


def _to_field(path: str) -> str:
    return f"#field-{html_id(path)}"


def _closed(sentence: str) -> str:
    return sentence if sentence.endswith((".", "?", "!")) else sentence + "."
