"""What is entered back from a card, as changes of the newest revision: they go in beside those of another tablet."""

import re
from collections.abc import Iterable, Iterator
from contextlib import suppress
from datetime import UTC, datetime

from framecalc.bench.as_cut import ALL_SIDES, Quantity
from framecalc.errors import FrameCalcError, OutOfRange
from framecalc.plan import Plan
from framecalc.plan.timber.cut_fits import misfits
from framecalc.plan.timber.runs import runs_of
from framecalc.project import Frame, items_at, remove_item, with_value
from framecalc.project.bench import MOST_MEASURED
from framecalc.project.document import Document
from framecalc.project.form import Field
from framecalc.sizes.shape import Shape
from framecalc.words import worded
from webapp.live.desk import Desk, ProjectAtRevision, new_id
from webapp.live.typed.forms import Draft, Typed, edited
from webapp.live.typed.texts import value_of

TRIMMED, RECUT = "trimmed", "recut"
"""What the buttons beside a cut piece do."""

_OF_CUT = (TRIMMED, RECUT)

ALL_FRAMES = "all"
"""What stands for every frame of the job that has the quantity."""

_LENGTH = Field(path="as_cut", label="As cut")


def with_measured(head: ProjectAtRevision, form: Typed) -> Document:
    """The document with what was typed on a card added to what was measured of a frame, or of all of them.

    A form that is sent twice, by a second tap or after an answer that was lost, counts once.

    Raises:
        FrameCalcError: a text is no length, is out of range, or nothing is typed.
    """
    sizes = {quantity: text for quantity in Quantity if (text := form.texts.get(quantity.value, "").strip())}
    if not sizes:
        raise OutOfRange("Enter a length, such as 13 1/8", field="as_cut")
    texts = {quantity: value_of(text, _LENGTH, head.reading) for quantity, text in sizes.items()}
    once = sent if re.fullmatch(r"[a-z0-9]{6,12}", sent := form.texts.get("once", "")) else new_id()
    document, side = head.document, form.texts.get("side") or ALL_SIDES
    taken: list[Document] = [
        {"id": f"{once}{at}", "side": side, "quantity": name.value, "size": text}
        for at, (name, text) in enumerate(texts.items())
    ]
    for frame in _frames(head, form.frame):
        if side not in (ALL_SIDES, *Shape(sides=frame.shape.sides).names):
            raise OutOfRange(worded("Choose a side that {name} has", name=frame.name), field="as_cut")
        document = _with(document, frame.id, taken)
    head.check(document)
    return document


def carry_out(desk: Desk, draft: Draft, typed: Typed, _: str) -> Draft:
    """Apply the pressed button: remove a measurement, or a side that is not cut again after all; see to a cut piece."""
    name, _, argument = typed.do.partition(":")
    if name in _OF_CUT:
        return edited(draft, lambda document: _see_to(document, draft, name, argument))
    if name == "remove-again":
        return edited(draft, lambda document: remove_item(document, "bench.cut_again", argument))
    frame_id, _, item_id = argument.partition(":")
    if name != "remove-as-cut":
        return draft
    return edited(draft, lambda document: remove_item(document, f"frames.{frame_id}.as_cut", item_id))


def _see_to(document: Document, draft: Draft, do: str, cut_id: str) -> None:
    """A piece that is cut and does not fit: it is trimmed, or cut again by the cutting plan."""
    with suppress(FrameCalcError):
        found = misfits(draft.checked, runs_of(Plan(draft.checked).frames.values()))
        fits = {one.cut.id: one for one in found}
        for one in items_at(document, "timber.cut"):
            if one["id"] == cut_id and cut_id in fits:
                fit = fits[cut_id]
                one |= {"trimmed": f"{fit.needed_mm:.4f} mm"} if do == TRIMMED else {"spoiled": True}


def _frames(head: ProjectAtRevision, frame_id: str) -> Iterator[Frame]:
    if frame_id == ALL_FRAMES:
        yield from head.project.frames
    else:
        yield head.frame(frame_id)


def _with(document: Document, frame_id: str, taken: Iterable[Document]) -> Document:
    """The document with measurements added to a frame; the oldest give way to them."""
    there, when = items_at(document, f"frames.{frame_id}.as_cut"), datetime.now(UTC).isoformat(timespec="seconds")
    known = {one["id"]: {name: value for name, value in one.items() if name != "when"} for one in there}
    new = [one for one in taken if known.get(one["id"]) != one]
    kept = [*there, *((one | {"id": new_id()} if one["id"] in known else one) | {"when": when} for one in new)]
    return with_value(document, f"frames.{frame_id}.as_cut", kept[-MOST_MEASURED:])
