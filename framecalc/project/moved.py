"""Older files: a fact that was once typed in two places moves to the one place it has now.

A step is a pure function on plain values. It finds nothing to do in a file of today, and it loses nothing: where two
places said different things, one counts and the other is kept beside it, to be shown.

    corner.seasons.species          the frame's wood, or what that is reckoned as
    fitting.room.driest_…           the driest month of the room, or what the Package page said earlier
    corner.joint.size               the thickness and the length of a loose tenon
    corner.clamps.strap_force …     the strap of the shop, or that of one frame where the frames differ
"""

from collections.abc import Container
from decimal import Decimal, InvalidOperation

from framecalc.project.document import Json, ReadDocument
from framecalc.wood.naming import species_by_id, species_of

ROOM = {
    "driest_temperature": ("winter_temperature", "22", "20"),
    "driest_humidity": ("winter_humidity", "30", "35"),
    "dampest_temperature": ("summer_temperature", "26", "23"),
    "dampest_humidity": ("summer_humidity", "65", "60"),
}
"""What the Package page asked of the air: the field of the Corners page, and what either was where nobody had typed."""

TENONS = ("5 x 30", "6 x 40", "8 x 40", "8 x 50", "10 x 50")
"""The loose tenons that could be chosen by size, thickness × length in millimetres; both are typed today."""

STRAP = {"strap_force": "pull", "ratchet": "ratchet", "friction": "friction"}
"""What each frame said of the strap, and what that is called among the values of the shop."""


def moved(document: ReadDocument) -> ReadDocument:
    """A document with every fact in its one place.

    Source: derived (the format is our own).
    """
    frames = document.get("frames")
    if isinstance(frames, list):
        document = {**document, "frames": [_frame(one) if isinstance(one, dict) else one for one in frames]}
    return _with_strap(document)


def wood_moved(frame: ReadDocument) -> ReadDocument:
    """The wood of the Corners page becomes the wood of the frame; what its name does not say, it is reckoned as.

    Source: derived.

    >>> wood_moved({"species": "ash", "corner": {"seasons": {"species": "white_ash"}}})
    {'species': 'ash', 'corner': {'seasons': {}}, 'reckoned_as': 'white_ash'}
    """
    chosen = _part(frame, "corner", "seasons").get("species")
    if not isinstance(chosen, str):
        return frame
    frame = _without(frame, ("corner", "seasons"), ["species"])
    wood, name = species_by_id(chosen), frame.get("species", "")
    if not chosen or not isinstance(name, str) or (wood and species_of(name) == wood):
        return frame
    if not name.strip():
        return {**frame, "species": wood.common_name if wood else chosen}
    return {**frame, "reckoned_as": frame.get("reckoned_as") or chosen}


def room_moved(frame: ReadDocument) -> ReadDocument:
    """The driest and the dampest air of the Package page become those of the Corners page.

    A usual value was typed by nobody. Where both pages had values of their own, those of the Corners page count.
    Source: derived.

    >>> room_moved({"fitting": {"room": {"driest_humidity": "25"}}, "corner": {"seasons": {"winter_humidity": "35"}}})
    {'fitting': {'room': {}}, 'corner': {'seasons': {'winter_humidity': '25'}}}
    """
    room = _part(frame, "fitting", "room")
    found = {name: room[name] for name in ROOM if name in room}
    if not found:
        return frame
    seasons, earlier = dict(_part(frame, "corner", "seasons")), {}
    for name, text in found.items():
        field, usual, usual_there = ROOM[name]
        there = seasons.get(field, usual_there)
        if _same(text, usual) or _same(text, there):
            continue
        if _same(there, usual_there) and not seasons.get("months"):
            seasons[field] = text
        else:
            earlier[name] = text
    frame = _put(_without(frame, ("fitting", "room"), found), ("corner", "seasons"), seasons)
    return _put(frame, ("fitting", "earlier_air"), earlier) if earlier else frame


def _frame(frame: ReadDocument) -> ReadDocument:
    return tenon_moved(room_moved(wood_moved(frame)))


def tenon_moved(frame: ReadDocument) -> ReadDocument:
    """A loose tenon chosen by its size becomes its thickness and its length.

    Source: derived.

    >>> tenon_moved({"corner": {"joint": {"kind": "loose tenon", "size": "tenon 5 x 30"}}})["corner"]["joint"]
    {'kind': 'loose tenon', 'tenon_thickness': '5 mm', 'tenon_length': '30 mm'}
    """
    joint = _part(frame, "corner", "joint")
    size = str(joint.get("size", "")).removeprefix("tenon ")
    if size not in TENONS:
        return frame
    thickness, length = size.split(" x ")
    typed = {"tenon_thickness": f"{thickness} mm", "tenon_length": f"{length} mm"}
    return _put(frame, ("corner", "joint"), {**_without(joint, (), ["size"]), **typed})


def _with_strap(document: ReadDocument) -> ReadDocument:
    """What all frames say alike of the strap becomes the shop's; where they differ each frame keeps its own."""
    shop, frames = document.get("shop"), document.get("frames")
    if not isinstance(shop, dict) or "strap" in shop or not isinstance(frames, list):
        return document
    said = [_part(frame, "corner", "clamps") for frame in frames if isinstance(frame, dict)]
    strap = {}
    for name, called in STRAP.items():
        values = [clamps.get(name) for clamps in said]
        if values and values[0] and all(value == values[0] for value in values):
            strap[called] = values[0]
            frames = [_without_strap(frame, name) for frame in frames]
    return {**document, "frames": frames, "shop": {**shop, "strap": strap}} if strap else document


def _without_strap(frame: Json, name: str) -> Json:
    return _without(frame, ("corner", "clamps"), [name]) if isinstance(frame, dict) else frame


def _same(one: object, other: object) -> bool:
    try:
        return Decimal(str(one)) == Decimal(str(other))
    except InvalidOperation:
        return one == other


def _part(document: object, *names: str) -> ReadDocument:
    """The part at a path of names; an empty one where there is none."""
    for name in names:
        document = document.get(name) if isinstance(document, dict) else None
    return document if isinstance(document, dict) else {}


def _put(document: ReadDocument, names: tuple[str, ...], value: Json) -> ReadDocument:
    name, *rest = names
    if not rest:
        return {**document, name: value}
    return {**document, name: _put(_part(document, name), tuple(rest), value)}


def _without(document: ReadDocument, names: tuple[str, ...], gone: Container[str]) -> ReadDocument:
    if names:
        return {**document, names[0]: _without(_part(document, names[0]), names[1:], gone)}
    return {name: value for name, value in document.items() if name not in gone}
