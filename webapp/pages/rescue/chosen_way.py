"""A way that was chosen: fields that change, and sides that are cut again."""

import re
from collections.abc import Mapping

from framecalc.bench.rescue import Rescue
from framecalc.errors import FrameCalcError
from framecalc.project import items_at, with_value
from framecalc.project.bench import MOST_AGAIN
from framecalc.project.document import Document
from framecalc.records import Record
from webapp.live.desk import Desk, ProjectAtRevision, new_id
from webapp.live.work.other_wood import again_document
from webapp.pages.rescue.wish import RescueWish, ways_for, wish_in


class ChosenWay(Record):
    """A way that is still left, and what was typed."""

    wish: RescueWish
    way: Rescue


def chosen_of(desk: Desk, head: ProjectAtRevision, texts: Mapping[str, str]) -> ChosenWay | None:
    """The way of the pressed button; None where it is not left any more, or says something else now."""
    try:
        wish = wish_in(texts, head)
        ways, number = ways_for(wish, desk=desk, opened=head), texts.get("way", "")
    except FrameCalcError:
        return None
    is_there = number.isdecimal() and len(number) < 4 and 1 <= int(number) <= len(ways)
    way = ways[int(number) - 1] if is_there else None
    return ChosenWay(wish=wish, way=way) if way is not None and way.says == texts.get("says") else None


def with_way(document: Document, chosen: ChosenWay, *, once: str) -> Document:
    """The document as the way changes it; a form that is sent twice counts once."""
    for path, text in chosen.way.changes.items():
        document = with_value(document, path, text)
    there = items_at(document, "bench.cut_again")
    known, new = {one["id"] for one in there}, _cut_again(chosen, once)
    if not new or new[0]["id"] in known:
        return document
    return with_value(document, "bench.cut_again", [*there, *new][-MOST_AGAIN:])


def _cut_again(chosen: ChosenWay, once: str) -> list[Document]:
    stem, wish = once if re.fullmatch(r"[a-z0-9]{6,12}", once) else new_id(), chosen.wish
    return [
        again_document(one, key=f"{stem}{at}", frame_id=wish.frame_id, copy_number=wish.copy_number)
        for at, one in enumerate(chosen.way.again)
    ]
