"""A new job from one frame: the same once more, or in another size, wood or count."""

from collections.abc import Mapping
from functools import partial

from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan
from framecalc.project import items_at, part_of, set_value, text_at, texts_at
from framecalc.project.document import Document
from framecalc.units import Comma, Unit, parse_length
from webapp.data.photos import Photos
from webapp.data.taken_over import taken_over
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.typed.forms import Typed
from webapp.pages.hand_over.groups.again import lessons_of

MOST_LINES, LONGEST = 12, 120
OTHER_MEASURES = ("across_bottom", "up_right", "diagonal_rising", "diagonal_falling")
"""What is measured of a piece besides; another piece has its own."""


class NotAgain(FrameCalcError):
    """A wish that makes no frame."""


def begin_again(desk: Desk, opened: ProjectAtRevision, frame_id: str, form: Typed) -> str:
    """Begin a job with one frame of another, and return its id.

    Raises:
        NoSuchFrame: there is no such frame.
        FrameCalcError: what was typed is no size, or no count.
    """
    opened.frame(frame_id)
    document = again_document(opened.document, opened.plan.frames[frame_id], form.beside)
    origin = f"revision {opened.revision.number} of “{opened.document['name']}”"
    photos = partial(Photos(desk.store).copy, opened.project_id)
    return desk.store.create(document, step="copy", tab=form.tab, origin=origin, fill=photos)


def again_document(document: Document, plan: FramePlan, wish: Mapping[str, str]) -> Document:
    """The document of the new job.

    Raises:
        FrameCalcError: what was typed is no size, or no count.
    """
    document, frame_id = taken_over(document), plan.frame.id
    frame = next(one for one in items_at(document, "frames") if one["id"] == frame_id)
    document |= {"name": f"{text_at(document, 'name')[:108]}, again", "frames": [frame]}
    document.pop("wall", None)
    document["assumed"] = [path for path in texts_at(document, "assumed") if not _of_another(path, frame_id)]
    _forget(frame, plan)
    _resize(frame, wish, unit=plan.unit, comma=plan.project.shop.comma)
    if wood := wish.get("wood", "").strip():
        frame |= {"species": wood, "reckoned_as": ""}
    if count := wish.get("count", "").strip():
        if not count.isdecimal() or not 1 <= int(count) <= 999:
            raise NotAgain("Enter how many: 1 to 999.")
        frame["count"] = int(count)
    return document


def _of_another(path: str, frame_id: str) -> bool:
    return path.startswith("frames.") and not path.startswith(f"frames.{frame_id}.")


def _forget(frame: Document, plan: FramePlan) -> None:
    """Keep what was learnt; drop what belongs to the piece and to the client of the other job."""
    last = [str(line)[:LONGEST] for line in lessons_of(plan)][:MOST_LINES]
    part_of(frame, "hand_over").pop("intake", None)
    for name in ("made_on", "dedication"):
        part_of(frame, "hand_over.label").pop(name, None)
    part_of(frame, "hand_over").update(said="", last=last)
    frame["as_cut"] = []
    frame.pop("glue_from", None)
    frame.pop("sizing", None)


def _resize(frame: Document, wish: Mapping[str, str], *, unit: Unit, comma: Comma) -> None:
    sizes = {name: text for name in ("across", "up") if (text := wish.get(name, "").strip())}
    if not sizes:
        return
    if text_at(frame, "start.given") not in ("", "artwork"):
        raise NotAgain("This frame starts from another size: begin the job, then change it there.")
    for name, text in sizes.items():
        set_value(frame, f"artwork.{name}", parse_length(text, bare=unit, comma=comma).text)
    for name in OTHER_MEASURES:
        set_value(frame, f"artwork.{name}", None)
