"""When a glue-up was begun: kept with its tick, on its card and in the timetable alike."""

from datetime import date, datetime

from framecalc.bench.shop_day import read_clock, write_clock
from framecalc.plan.bench.timetable import glue_key
from framecalc.project import Project, items_at, text_at, texts_at, with_value
from framecalc.project.bench import MOST_GLUED
from framecalc.project.document import Document
from framecalc.project.timber import MOST_TICKS
from webapp.live.desk import new_id


def first_day(project: Project) -> date:
    """The first day of the timetable: as typed, or today."""
    return project.bench.glue_day or date.today()


def begun_of(document: Document, key: str) -> tuple[str, int] | None:
    """The frame and the copy whose tick has this key, if it is that of a glue-up."""
    copy_number = int(key.rpartition("-")[2]) if key.rpartition("-")[2].isdigit() else 0
    frames = (text_at(frame, "id") for frame in items_at(document, "frames") if 1 <= copy_number <= _count(frame))
    return next(((frame_id, copy_number) for frame_id in frames if glue_key(frame_id, copy_number) == key), None)


def _count(frame: Document) -> int:
    found = frame.get("count", 1)
    return found if isinstance(found, int) else 1


def with_begun(document: Document, frame_id: str, copy_number: int, *, now: datetime, at: str = "") -> Document:
    """The document with a glue-up begun now, or at a time of today, and ticked off.

    Without a day of the glue-up, or before it, today is the day.

    Raises:
        OutOfRange: the text is no time of the day.
    """
    typed = text_at(document, "bench.glue_day")
    first = min(date.fromisoformat(typed), now.date()) if typed and begun(document) else now.date()
    one: Document = {
        "id": new_id(),
        "frame": frame_id,
        "copy_number": copy_number,
        "day": (now.date() - first).days + 1,
        "at": write_clock(read_clock(at)) if at else write_clock(60 * now.hour + now.minute),
    }
    kept = [*begun(without_begun(document, frame_id, copy_number)), one][-MOST_GLUED:]
    changed = with_value(with_value(document, "bench.glue_day", first.isoformat()), "bench.glued", kept)
    return _ticked(changed, glue_key(frame_id, copy_number), is_done=True)


def without_begun(document: Document, frame_id: str, copy_number: int) -> Document:
    """The document with a glue-up not begun, and its tick removed."""
    kept = [one for one in begun(document) if (one["frame"], one.get("copy_number", 1)) != (frame_id, copy_number)]
    return _ticked(with_value(document, "bench.glued", kept), glue_key(frame_id, copy_number), is_done=False)


def begun(document: Document) -> list[Document]:
    """The glue-ups begun, as the document has them."""
    return items_at(document, "bench.glued")


def _ticked(document: Document, key: str, *, is_done: bool) -> Document:
    ticks = [one for one in texts_at(document, "timber.done") if one != key]
    kept = [*ticks, key][-MOST_TICKS:] if is_done else ticks
    return with_value(document, "timber.done", kept)
