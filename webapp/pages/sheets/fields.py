"""The fields of the sheets page: the aim, how each kind of material is cut, and the stock."""

from collections.abc import Iterable

from framecalc.package.layers import LayerKind
from framecalc.project import items_at, text_at
from framecalc.project.document import Document
from framecalc.project.form import Field, fields_under
from framecalc.words import typed
from webapp.live.typed.field import FieldSet

WAYS = ("glass.{trim,least_strip}", "plastic.{trim,kerf}", "board.trim", "panel.{trim,kerf}")
"""What may be typed about each way of cutting."""


def sheets_fields_in(document: Document, frame_id: str) -> FieldSet:
    """The fields of the sheets page, for all frames."""
    fields = fields_under(document, *(f"sheets.{path}" for path in ("aim", *WAYS, "roll_width", "roll_over", "stock")))
    names = layer_names(document)
    for entry in items_at(document, "sheets.stock"):
        path = f"sheets.stock.{entry['id']}.serves"
        fields[path] = _serves(fields[path], names, text_at(entry, "serves"))
    return FieldSet(fields=fields)


def layer_names(document: Document) -> tuple[str, ...]:
    """The names of all layers cut from sheets, each once, ignoring case."""
    layers = (layer for frame in items_at(document, "frames") for layer in items_at(frame, "package.layers"))
    return once(text_at(layer, "name") for layer in layers if LayerKind(text_at(layer, "kind")).is_sheet)


def once(names: Iterable[str]) -> tuple[str, ...]:
    """Names without repeats, ignoring case; the first spelling is kept.

    >>> once(["Glass", "mat", "glass"])
    ('Glass', 'mat')
    """
    first: dict[str, str] = {}
    for name in names:
        first.setdefault(name.casefold(), name)
    return tuple(first.values())


def _serves(field: Field, names: tuple[str, ...], now: str) -> Field:
    """The layers that it serves; the chosen name stays a choice even if no layer has it any more."""
    others = tuple((name, typed(name)) for name in names if name.casefold() != now.casefold())
    says = typed(now) + ("" if len(others) < len(names) else " (no such layer now)")
    return field.choosing(((now, says), *others))
