"""The form's table for the package page; paths follow `frames.<id>.`."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any

from framecalc.mats.wished_mat import Arrangement
from framecalc.package.canvas import Folds
from framecalc.package.retainers import Retainer
from framecalc.package.shelf import SOLID_WOOD
from framecalc.tables.sheets import sheet_materials
from framecalc.tables.wood import wood_species
from webapp.live.field import FRAME_FIELDS, LAYER_FIELDS, Control, Field, FieldSet

YES_NO = (("no", "No"), ("yes", "Yes"))


def _named(values: Iterable[str]) -> tuple[tuple[str, str], ...]:
    return tuple((value, value[:1].upper() + value[1:]) for value in values)


def _length(path: str, label: str, explain: str = "", *, optional: bool = False) -> Field:
    return Field(path=path, label=label, explain=explain, optional=optional)


def _number(path: str, label: str, explain: str = "", *, optional: bool = False) -> Field:
    return Field(path=path, label=label, explain=explain, optional=optional, control=Control.NUMBER)


def _choice(path: str, label: str, choices: tuple[tuple[str, str], ...], explain: str = "") -> Field:
    return Field(path=path, label=label, explain=explain, choices=choices, control=Control.CHOICE)


def _switch(path: str, label: str, choices: tuple[tuple[str, str], ...] = YES_NO) -> Field:
    return Field(path=path, label=label, choices=choices, control=Control.YES_NO)


def _materials() -> tuple[tuple[str, str], ...]:
    known = ((material.material_id, material.name) for material in sheet_materials())
    return (("", "Not said: by its name"), *known, (SOLID_WOOD, "Solid wood"))


def _woods() -> tuple[tuple[str, str], ...]:
    return (("", "Choose a wood"), *((wood.species_id, wood.common_name) for wood in wood_species()))


_OPENING = (
    _length(
        "opening_across", "Window, across", "Blank: from the picture, by the overlap or by what shows.", optional=True
    ),
    _length("opening_up", "Window, up", optional=True),
    _length("left", "From the left", "Of the leftmost window's left edge to this window's."),
    _length("below", "From below", "Of the lowest window's lower edge to this window's."),
)
MAT_FIELDS = (
    _switch("in_view", "The borders typed are", (("no", "as cut"), ("yes", "as seen"))),
    _length(
        "shows", "Shows around the sheet", "A sheet that floats: its edges show by this much. 0: the mat laps over."
    ),
    _length(
        "reveal", "Reveal of a second mat", "What shows of the lower mat inside the upper one's window. 0: one mat."
    ),
    _choice("arrangement", "The windows stand", _named(Arrangement)),
    Field(path="columns", label="Windows in a row", control=Control.COUNT),
    _length("gap", "Between windows", "The board that is left between two neighbouring windows."),
    _length("least_bridge", "Least bridge", "Narrower board bends and tears; 12 mm or 1/2 in is usual."),
    _number("bevel", "Bevel, degrees", "From the face: 45 is usual, 90 is a straight cut."),
    _switch("from_behind", "Cut from", (("yes", "behind"), ("no", "in front"))),
    *_OPENING,
)
"""Fields of the mat that the setting-out page leaves out; their paths follow `package.mat.`."""

WINDOW_FIELDS = (_length("across", "Picture, across"), _length("up", "Picture, up"), *_OPENING)
"""Fields of one picture beside the artwork; their paths follow `package.mat.windows.<id>.`."""

MORE_OF_A_LAYER = (
    _choice("material", "Of what", _materials(), "What it weighs and how it grows follows from this."),
    _length("thinner", "Thinner by up to", "Blank: as much as it may be thicker.", optional=True),
)
"""Fields of one layer that the setting-out page leaves out."""

FITTING_FIELDS = (
    _number("room.fitted_temperature", "At fitting, °C"),
    _number("room.fitted_humidity", "At fitting, % humidity"),
    _number("room.driest_temperature", "At its driest, °C"),
    _number("room.driest_humidity", "At its driest, % humidity"),
    _number("room.dampest_temperature", "At its dampest, °C"),
    _number("room.dampest_humidity", "At its dampest, % humidity"),
    _choice("panel.species", "Wood of the panel", _woods()),
    _choice("panel.grain", "Its grain runs", (("up", "Up"), ("across", "Across"))),
    _number("panel.ring", "Angle of the rings, degrees", "0 is flat-sawn, 90 quarter-sawn, seen on the end grain."),
    _length("panel.screw", "Screw, thickness", "Of the screws that hold it at its edges."),
    _length("panel.from_edge", "Screw, from the edge"),
    _choice("held.by", "Held by", (("", "What the depth asks for"), *_named(Retainer))),
    _length("held.foot", "Foot of the retainer", "The part that is screwed on, from the rabbet wall outward."),
    _length("held.apart", "Apart, at most", "Blank: what is usual for the kind.", optional=True),
    _length("held.from_corner", "First from the corner"),
    _length(
        "held.from_wall", "Screw, from the rabbet wall", "Blank: the middle of the foot on the land.", optional=True
    ),
    _length("canvas.cloth", "Thickness of the cloth", "Primed and painted; about 0.7 mm."),
    _choice("canvas.folds", "Its corners are folded", _named(Folds)),
    _switch("canvas.has_keys", "It has keys"),
    _length("canvas.bar", "Thickness of the bars", "Blank: that of the artwork among the layers.", optional=True),
    _length(
        "box.object_depth", "Depth of the object", "From its back to its foremost point. Blank: no box.", optional=True
    ),
    _length("box.air", "Air before it", "Between the object and the glazing."),
    _length("box.wall", "Thickness of the walls", "Strips that stand in the rabbet and keep the glazing off."),
    _length("box.margin", "Sight edge to object", "On the side of the lamp."),
    _number("box.lamp", "Lamp, degrees", "From straight in front: 0 throws no shadow; 30 is usual over a picture."),
    Field(
        path="artwork_weight",
        label="Weight of the artwork",
        explain="By scales, with its unit: 1.2 kg, 850 g, 2 lb 10 oz; without one kg, in an inch project lb. "
        "Blank: by its layer, where that is known.",
        optional=True,
        control=Control.WEIGHT,
    ),
)
"""Fields of the fitting; their paths follow `fitting.`."""


def package_fields_in(document: dict[str, Any], frame_id: str) -> FieldSet:
    """The fields of the package page of one frame; none where the document has no such frame."""
    frame = next((frame for frame in document["frames"] if frame["id"] == frame_id), None)
    if frame is None:
        return FieldSet()
    here = f"frames.{frame_id}."
    return FieldSet(fields={here + path: replace(one, drawing="") for path, one in _fields(frame["package"])})


def _fields(package: dict[str, Any]) -> Iterator[tuple[str, Field]]:
    mat = package.get("mat")
    for one in FRAME_FIELDS:
        if one.path.startswith("package.") and (mat or ".mat." not in one.path):
            yield one.path, one
    if mat:
        yield from (_below("package.mat.", one) for one in MAT_FIELDS)
        for window in mat.get("windows", ()):
            yield from (_below(f"package.mat.windows.{window['id']}.", one) for one in WINDOW_FIELDS)
    for layer in package.get("layers", ()):
        for one in LAYER_FIELDS:
            yield f"package.layers.{layer['id']}.{one.path}", replace(one, where=f"package.layers.{one.path}")
        yield from (_below(f"package.layers.{layer['id']}.", one) for one in MORE_OF_A_LAYER)
    yield "package.fillet_shows", _length("fillet_shows", "Fillet shows", "Beside the lip, on each side.")
    yield from (_below("fitting.", one) for one in FITTING_FIELDS)


def _below(above: str, one: Field) -> tuple[str, Field]:
    return above + one.path, one
