"""A new job from one frame: the same once more, or in another size, wood or count."""

from collections.abc import Mapping
from copy import deepcopy
from functools import partial

from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan
from framecalc.units import Comma, Unit, parse_length
from webapp.data.photos import Photos
from webapp.data.taken_over import taken_over
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.forms import Document, Typed
from webapp.pages.hand_over.groups.again import lessons_of

MOST_LINES, LONGEST = 12, 120
OTHER_MEASURES = ("across_bottom", "up_right", "diagonal_rising", "diagonal_falling")
"""What is measured of a piece besides; another piece has its own."""

OF_THIS_PIECE = ("piece", "owner", "value", "number", "day", "stands", "condition", "marks")


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
    document = taken_over(document)
    frame = next(one for one in document["frames"] if one["id"] == plan.frame.id)
    document |= {"name": f"{document['name'][:108]}, again", "frames": [frame]}
    document.pop("wall", None)
    document["assumed"] = [path for path in document.get("assumed", ()) if not _of_another(path, plan.frame.id)]
    _forget(frame, plan)
    _resize(frame, wish, unit=Unit(document["unit"]), comma=Comma(document["shop"]["comma"]))
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
    over = deepcopy(frame.get("hand_over", {}))
    intake = {name: value for name, value in over.get("intake", {}).items() if name not in OF_THIS_PIECE}
    label = {name: value for name, value in over.get("label", {}).items() if name not in ("dedication", "made_on")}
    last = [str(line)[:LONGEST] for line in lessons_of(plan)][:MOST_LINES]
    frame["hand_over"] = over | {"intake": intake, "label": label, "said": "", "last": last}
    frame["as_cut"] = []
    frame.pop("glue_from", None)


def _resize(frame: Document, wish: Mapping[str, str], *, unit: Unit, comma: Comma) -> None:
    sizes = {name: text for name in ("across", "up") if (text := wish.get(name, "").strip())}
    if not sizes:
        return
    if frame.get("start", {}).get("given", "artwork") != "artwork":
        raise NotAgain("This frame starts from another size: begin the job, then change it there.")
    for name, text in sizes.items():
        frame["artwork"][name] = parse_length(text, bare=unit, comma=comma).text
    frame["artwork"] |= dict.fromkeys(OTHER_MEASURES)
