"""A way that was chosen: fields that change, sides that are cut again, and the stick of the rack that gives them."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from framecalc.bench.rescue import Rescue
from framecalc.errors import FrameCalcError
from framecalc.findings import Rounding
from framecalc.project import items_at, with_value
from framecalc.project.bench import MOST_AGAIN
from framecalc.project.document import Document
from framecalc.units import Step, format_length
from webapp.data.rack_file import RackEntry, read_entry
from webapp.live.desk import Desk, ProjectAtRevision, new_id
from webapp.pages.rescue.asked import RescueWish, asked_in, ways_for


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A way that is still left, and what was asked."""

    asked: RescueWish
    way: Rescue


def chosen_of(desk: Desk, head: ProjectAtRevision, texts: Mapping[str, str]) -> Chosen | None:
    """The way of the pressed button; None where it is not left any more, or says something else now."""
    try:
        asked = asked_in(texts, head)
        ways, number = ways_for(asked, desk=desk, opened=head), texts.get("way", "")
    except FrameCalcError:
        return None
    is_there = number.isdecimal() and len(number) < 4 and 1 <= int(number) <= len(ways)
    way = ways[int(number) - 1] if is_there else None
    return Chosen(asked=asked, way=way) if way is not None and way.says == texts.get("says") else None


def with_way(document: Document, chosen: Chosen, *, once: str) -> Document:
    """The document as the way changes it; a form that is sent twice counts once."""
    for path, text in chosen.way.changes.items():
        document = with_value(document, path, text)
    there = items_at(document, "bench.cut_again")
    known, new = {one["id"] for one in there}, _cut_again(chosen, once)
    if not new or new[0]["id"] in known:
        return document
    return with_value(document, "bench.cut_again", [*there, *new][-MOST_AGAIN:])


def _cut_again(chosen: Chosen, once: str) -> list[Document]:
    stem = once if re.fullmatch(r"[a-z0-9]{6,12}", once) else new_id()
    return [
        {
            "id": f"{stem}{at}",
            "frame": chosen.asked.frame_id,
            "copy_number": chosen.asked.copy_number,
            "side": one.side,
            "length": f"{one.length_mm:.4f} mm",
            "source": one.source,
            "on_rack": one.on_rack,
        }
        for at, one in enumerate(chosen.way.again)
    ]


def take_from_rack(desk: Desk, chosen: Chosen, *, shortest_useful_mm: float) -> None:
    """Shorten the stick of the rack that new sides are cut from; what is too short to keep is taken away."""
    tag = next((one.source for one in chosen.way.again if one.on_rack), "")
    with desk.rack.held():
        entry = next((one for one in desk.rack.read().sticks if tag and one.tag == tag), None)
        if entry is None:
            return
        left_mm = entry.length.mm - chosen.way.wood_mm
        if left_mm < shortest_useful_mm:
            desk.rack.take_away(entry.id)
        else:
            desk.rack.put(_shortened(entry, left_mm), stamp=entry.stamp)


def _shortened(entry: RackEntry, left_mm: float) -> RackEntry:
    text = format_length(left_mm, step=Step.TENTH_MILLIMETRE, rounding=Rounding.DOWN).text
    document = entry.model_dump(mode="json", by_alias=True)
    return read_entry(document | {"length": f"{text} mm", "is_off_cut": True})
