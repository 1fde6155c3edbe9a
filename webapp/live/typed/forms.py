"""A form as it was sent, and the document that it changes.

The typed text is compared with the shown one; only a difference is a change. A text that cannot be read stays in its
field with a sentence, the document keeps its value there, and every other change is still made.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from copy import deepcopy
from decimal import Decimal
from typing import Annotated, Generic, TypeAlias, TypeVar
from unicodedata import category

from fastapi import Depends, Request
from pydantic import TypeAdapter, ValidationError

from framecalc.errors import FrameCalcError
from framecalc.project import Project, ProjectErrors, read_project, texts_at, value_at, with_value
from framecalc.project.corners import HUMIDITY_IN_ORDER
from framecalc.project.document import Document, Json, ReadDocument
from framecalc.project.label import Control
from framecalc.records import Record, field, replace
from webapp.live.typed.field import FieldSet
from webapp.live.typed.texts import Reading, printable, same_text, shown, value_of

MOST_FIELDS = 20_000
"""The most fields of one form: the largest page of a project, sixty boards with all their defects, has about 4,500."""

_UNSEEN = ("Cc", "Cf", "Cs")
"""The Unicode categories of control characters, format characters and surrogates."""

SERVICE_FIELDS = frozenset({"do", "base", "tab", "over", "meant", "was", "frame", "place", "new_layer", "holds"})
"""Form fields that are no value of the file."""

BESIDE = "beside-"
"""How the names of boxes begin that go with a button and are no field: a time, minutes."""

WHOLE = 100
"""No air holds more than this, in per cent; what is typed above it is refused for that."""

_PLAIN = frozenset({Control.LENGTH, Control.NUMBER, Control.WEIGHT, Control.MEASURED, Control.MONEY, Control.WORDS})
"""Controls of what is measured or said: no other field follows from that."""

_PIXELS = re.compile(r"[0-9]{1,5}")

_TEXTS = TypeAdapter(dict[str, str])


class Typed(Record):
    """One form as sent: texts by path, the pressed button, the revision and the browser tab it belongs to.

    `over` is the revision that a person has seen in a conflict and wants to change; `meant` are the paths of the fields
    that were touched, whatever their text is now; `was` are the texts that the page showed, if there are no revisions.
    `frame` is the frame of the page, and `place` tells which of its pages it is. `project` is the project of the
    address, if there is one. `beside` is what goes with a button and is no field. `holds` is the token of what the
    page shows.
    """

    texts: Mapping[str, str]
    do: str = "save"
    base: int = 0
    tab: str = ""
    over: int = 0
    meant: frozenset[str] = frozenset()
    was: Mapping[str, str] = field(default_factory=dict)
    frame: str = ""
    place: str = ""
    new_layer: str = ""
    project: str = ""
    beside: Mapping[str, str] = field(default_factory=dict)
    holds: str = ""

    @property
    def said(self) -> int:
        """The hash of all that a preview follows from."""
        return hash((frozenset(self.texts.items()), self.base, self.tab, self.over, self.meant, self.frame))

    def tap(self, name: str) -> tuple[int, int] | None:
        """Where a picture of this name was tapped, in pixels from its upper left corner; none where it was not."""
        x, y = (self.texts.get(f"{name}.{axis}", "") for axis in ("x", "y"))
        return (int(x), int(y)) if _PIXELS.fullmatch(x) and _PIXELS.fullmatch(y) else None


Checked = TypeVar("Checked")


class DraftOf(Record, Generic[Checked]):
    """A document with the typed changes, what it is once checked, and a sentence for each refused field.

    `alike` is that document where every page has the same fields for it as for the one before the changes.
    """

    document: Document
    checked: Checked
    messages: dict[str, str] = field(default_factory=dict)
    typed: Mapping[str, str] = field(default_factory=dict)
    alike: Document | None = None

    @property
    def keeps_fields(self) -> bool:
        """Whether every page has the same fields as before the changes."""
        return self.alike is self.document


Draft: TypeAlias = DraftOf[Project]
"""A project with the typed changes."""


async def typed(request: Request) -> Typed:
    """Read a form from a request; of a field sent twice the last value counts."""
    async with request.form(max_fields=MOST_FIELDS) as form:
        sent = {name: value for name, value in form.multi_items() if isinstance(value, str)}
    return Typed(
        texts={name: plain(value) for name, value in sent.items() if _is_text(name)},
        beside={name.removeprefix(BESIDE): plain(sent[name]) for name in sent if name.startswith(BESIDE)},
        do=sent.get("do", "save"),
        base=_number(sent.get("base", "")),
        tab=sent["tab"] if re.fullmatch(r"[a-z0-9]{1,32}", sent.get("tab", "")) else "",
        over=_number(sent.get("over", "")),
        meant=frozenset(sent.get("meant", "").split()),
        was=_texts(sent.get("was", "")),
        frame=sent.get("frame", ""),
        place=sent.get("place", ""),
        new_layer=sent.get("new_layer", ""),
        holds=sent.get("holds", ""),
        project=request.path_params.get("project_id", ""),
    )


Form = Annotated[Typed, Depends(typed)]
"""The form that was sent, as an argument of a route."""


def _is_text(name: str) -> bool:
    return name not in SERVICE_FIELDS and not name.startswith(BESIDE)


def plain(text: str) -> str:
    """Replace each invisible character by a space: controls, direction marks, lone surrogates.

    A space keeps digits on either side apart, so that they never form one number.

    >>> plain("a\\x00b\\u202ec"), plain("12\\u200b3/4")
    ('a b c', '12 3/4')
    """
    if text.isprintable():
        return text
    return "".join(letter if letter in "\r\n\t" or category(letter) not in _UNSEEN else " " for letter in text)


def work_in(
    document: Document,
    typed: Mapping[str, str],
    fields: FieldSet,
    *,
    reading: Reading,
    check: Callable[[Document], Checked],
) -> DraftOf[Checked]:
    """Apply typed texts to a document and return a new one, which shares its unchanged parts with the old one.

    Args:
        document: the document to change.
        typed: texts by path; fields that were not sent keep their values.
        fields: the fields of the page; a text for any other path is refused.
        reading: how lengths are read.
        check: raises ProjectErrors for values that do not fit.
    """
    changed: Document = {}
    messages = {path: f"“{_short(path)}” is not a field of this page" for path in typed if path not in fields}
    for path, one in fields.items():
        text = typed.get(path)
        if text is None or same_text(text, shown(document, path, one, unit=reading.unit)):
            continue
        try:
            changed[path] = value_of(text, one, reading)
        except FrameCalcError as error:
            messages[path] = error.sentence
    for path, sentence in _out_of_order(document, changed).items():
        messages[path] = sentence
        del changed[path]
    work, checked, refused = _put_in(document, changed, fields, check)
    return DraftOf(
        document=work,
        checked=checked,
        messages=messages | refused,
        typed=typed,
        alike=work if all(_keeps_fields(document, *one, fields) for one in changed.items()) else None,
    )


def _keeps_fields(document: Document, path: str, value: Json, fields: FieldSet) -> bool:
    """Whether a changed value leaves all fields as they are: a measure or words in place of others, but no name.

    What is chosen or counted may bring fields and take them away, and names are choices of other fields.
    """
    is_plain = fields.fields[path].control in _PLAIN and not path.endswith(".name")
    return is_plain and isinstance(value, str) and isinstance(value_at(document, path), str)


def edited(draft: Draft, change: Callable[[Document], None]) -> Draft:
    """A draft whose document is changed in a copy; one whose change is refused says why, in its field."""
    document = deepcopy(draft.document)
    try:
        change(document)
        return replace(draft, document=document, checked=read_project(document))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {error.field: error.sentence})


def all_sentences(error: FrameCalcError, *, most: int = 6) -> str:
    """Every sentence of an error with its place; of a file with many faults the first few."""
    if not isinstance(error, ProjectErrors):
        return error.sentence
    said = [f"{path}: {sentence}" for path, sentence in error.sentences.items()]
    return "; ".join(said[:most]) + (f"; and {len(said) - most} more" if len(said) > most else "")


def confirm(document: Document, belongs: Callable[[str], bool]) -> None:
    """Remove paths from the assumed ones."""
    if "assumed" in document:
        document["assumed"] = [path for path in texts_at(document, "assumed") if not belongs(path)]


def _out_of_order(document: Document, changed: ReadDocument) -> dict[str, str]:
    """A sentence for each changed humidity by which the driest air would be damper than the dampest."""
    driest, _ = HUMIDITY_IN_ORDER
    said = {}
    for path in changed:
        parent, _, name = path.rpartition(".")
        if name not in HUMIDITY_IN_ORDER:
            continue
        low, high = (_number_at(document, changed, f"{parent}.{one}") for one in HUMIDITY_IN_ORDER)
        if low is not None and high is not None and high < low < WHOLE:
            limit = f"up to {high}%" if name == driest else f"{low}% or more"
            said[path] = f"Enter {limit}: the driest month cannot be above the dampest"
    return said


def _number_at(document: Document, changed: ReadDocument, path: str) -> Decimal | None:
    """What a path holds once the changes are in, if that is a number."""
    try:
        return Decimal(str(changed.get(path, value_at(document, path))))
    except ArithmeticError:
        return None


def _put_in(
    document: Document, changed: ReadDocument, fields: FieldSet, check: Callable[[Document], Checked]
) -> tuple[Document, Checked, dict[str, str]]:
    """Set the changed values; values that do not fit are left out again, each with a sentence."""
    work = _with(document, changed, fields)
    try:
        return work, check(work), {}
    except FrameCalcError as error:
        sentences = error.sentences if isinstance(error, ProjectErrors) else {error.field: error.sentence}
    refused = {path: sentence for path in changed if (sentence := _said_of(path, sentences))}
    work = _with(document, {path: value for path, value in changed.items() if path not in refused}, fields)
    return work, check(work), refused


def _with(document: Document, changed: ReadDocument, fields: FieldSet) -> Document:
    """A document with changed values, which are no longer only assumed; what they unsettle is."""
    work = dict(document)
    for path, value in changed.items():
        work = with_value(work, path, value)
    confirm(work, changed.__contains__)
    if unsettled := [path for path in _measured_anew(changed, fields) if path not in changed]:
        work["assumed"] = [*dict.fromkeys([*texts_at(work, "assumed"), *unsettled])]
    return work


def _measured_anew(changed: ReadDocument, fields: FieldSet) -> Iterator[str]:
    """The fields beside a changed one whose values have to be measured again."""
    for path in changed:
        above = path.rpartition(".")[0]
        yield from (f"{above}.{name}" for name in fields.fields[path].measured_anew)


def _said_of(path: str, sentences: Mapping[str, str]) -> str:
    """The sentence about a path, or about a path below it."""
    return next((said for at, said in sentences.items() if at == path or at.startswith(f"{path}.")), "")


def _short(text: str) -> str:
    text = printable(text)
    return text if len(text) <= 30 else f"{text[:29]}…"


def _texts(sent: str) -> Mapping[str, str]:
    try:
        return _TEXTS.validate_json(sent)
    except ValidationError:
        return {}


def _number(text: str) -> int:
    return int(text) if re.fullmatch(r"[0-9]{1,9}", text) else 0
