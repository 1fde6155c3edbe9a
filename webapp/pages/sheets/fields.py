"""The form's table for the sheets page; paths follow `sheets.`."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from framecalc.package.layers import LayerKind
from framecalc.sheets.materials import SheetCutting
from framecalc.sheets.problem import Goal
from webapp.live.field import Control, Field, FieldSet

AIMS = tuple((goal.value, goal.value[:1].upper() + goal.value[1:]) for goal in Goal)

AIM = Field(
    path="aim",
    label="What counts first",
    control=Control.CHOICE,
    choices=AIMS,
    explain="After that the fewest sheets to cut, and then the largest single left-over.",
)

_TRIM = "Cut away along all four edges of a sheet before anything else: bruised corners, a rough edge."
_BLADE = "Blank: the kerf of the blade on the Setting-out page."

WAY_FIELDS = {
    SheetCutting.GLASS: (
        Field(path="trim", label="Trim of glass", explain=_TRIM),
        Field(
            path="least_strip",
            label="Least strip",
            explain="A narrower strip does not break off cleanly. About 12 mm (1/2 in), common practice, no source.",
        ),
    ),
    SheetCutting.PLASTIC: (
        Field(path="trim", label="Trim of plastic", explain=_TRIM),
        Field(path="kerf", label="Kerf in plastic", optional=True, explain=f"{_BLADE} 0 where it is scored."),
    ),
    SheetCutting.BOARD: (Field(path="trim", label="Trim of boards", explain=_TRIM),),
    SheetCutting.PANEL: (
        Field(path="trim", label="Trim of panels", explain=_TRIM),
        Field(path="kerf", label="Kerf in panels", optional=True, explain=_BLADE),
    ),
}
"""What may be typed about each way of cutting; their paths follow `<way>.`."""

STOCK_FIELDS = (
    Field(path="name", label="What it is", control=Control.WORDS),
    Field(
        path="across", label="Across", explain="As it lies for the cutter; the grain, the print or the flutes run up."
    ),
    Field(path="up", label="Up"),
    Field(
        path="count",
        label="How many at hand",
        control=Control.COUNT,
        optional=True,
        explain="Blank: it is for sale, as many as needed. Sheets and off-cuts at hand are used first.",
    ),
    Field(path="price", label="Price of one", control=Control.MONEY, explain="0 where it costs nothing more."),
    Field(path="thickness", label="Only for this thickness", optional=True, explain="Blank: for any."),
)
"""Fields of one entry of the stock; their paths follow `stock.<id>.`. What it serves is chosen among the layers."""


def sheets_fields_in(document: dict[str, Any], frame_id: str) -> FieldSet:
    """The fields of the sheets page; the frame does not matter."""
    names = layer_names(document)
    fields = {"sheets.aim": AIM}
    for cutting, ways in WAY_FIELDS.items():
        fields |= {f"sheets.{cutting}.{one.path}": one for one in ways}
    for entry in document.get("sheets", {}).get("stock", ()):
        here = f"sheets.stock.{entry['id']}."
        fields |= {here + one.path: one for one in (*STOCK_FIELDS, _serves(names, entry["serves"]))}
    return FieldSet(fields={path: replace(one, drawing="") for path, one in fields.items()})


def layer_names(document: dict[str, Any]) -> tuple[str, ...]:
    """The names of all layers that are cut from sheets, each once, small or capital letters alike."""
    layers = (layer for frame in document["frames"] for layer in frame.get("package", {}).get("layers", ()))
    return once(layer["name"] for layer in layers if LayerKind(layer["kind"]).is_sheet)


def once(names: Iterable[str]) -> tuple[str, ...]:
    """Names, each once, small or capital letters alike; the first one stands.

    >>> once(["Glass", "mat", "glass"])
    ('Glass', 'mat')
    """
    first: dict[str, str] = {}
    for name in names:
        first.setdefault(name.casefold(), name)
    return tuple(first.values())


def _serves(names: tuple[str, ...], now: str) -> Field:
    """For which layers it is; what is chosen stays a choice, also when no layer is called so any more."""
    others = tuple((name, name) for name in names if name.casefold() != now.casefold())
    says = now if len(others) < len(names) else f"{now} (no such layer now)"
    return Field(path="serves", label="For", control=Control.CHOICE, choices=((now, says), *others))
