"""What the buttons of the sheets page do: add sheets and off-cuts, keep parts upright, start and stop the search."""

from collections.abc import Callable
from contextlib import suppress

from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.plan.inputs import material_of
from framecalc.project import Project, items_of, remove_item, set_value, texts_at
from framecalc.project.document import Document, Json
from framecalc.sheets.materials import name_as_sold, size_as_sold, sizes_sold
from framecalc.tables.sheets import SoldSheet
from framecalc.units import Unit
from webapp.jobs.sheet_search import start_jobs, stop_jobs
from webapp.live.desk import Desk, new_id
from webapp.live.typed.forms import Draft, Typed, edited
from webapp.live.work.price_list import sheet_prices, with_blank_prices, with_prices

_PLAIN = {
    "sheet": {Unit.MM: ("800 mm", "1000 mm"), Unit.INCH: ("32 in", "40 in")},
    "off-cut": {Unit.MM: ("300 mm", "400 mm"), Unit.INCH: ("12 in", "16 in")},
}
"""A first size for a sheet and for an off-cut, to be changed into what is there."""


NEW_NAMES = ("Sheet", "Off-cut")
"""What a new sheet and a new off-cut are called until somebody says what they are."""


def carry_out(desk: Desk, draft: Draft, typed: Typed, _: str) -> Draft:
    """Apply the pressed button to a draft, and start or stop the search."""
    name, _, argument = typed.do.partition(":")
    if name == "work":
        draft = with_blank_prices(desk, draft, sheet_prices(draft.checked))
    if name in _STEERS:
        with suppress(FrameCalcError):  # a frame cannot be computed: the page says which and why
            _STEERS[name](desk.jobs, Plan(draft.checked), project=typed.project)
    if name not in _ACTIONS:
        return with_prices(desk, draft, typed.do)
    return edited(draft, lambda document: _ACTIONS[name](document, draft.checked, argument))


def sold_for(project: Project, name: str) -> tuple[SoldSheet, ...]:
    """The sizes in which the layers of a name are sold."""
    layers = (layer for frame in project.frames for layer in frame.package.layers if layer.kind.is_sheet)
    layer = next((layer for layer in layers if layer.name.casefold() == name.casefold()), None)
    return sizes_sold(material_of(layer), unit=project.unit) if layer else ()


def _add_sold(document: Document, project: Project, argument: str) -> None:
    """Add a size for sale: `argument` is its index in the list and the name of the layers."""
    place, _, name = argument.partition(":")
    sold = sold_for(project, name)
    if place.isdecimal() and int(place) < len(sold):
        across, up = size_as_sold(sold[int(place)])
        _add(document, serves=name, name=name_as_sold(sold[int(place)]), across=across, up=up)


def _add_sheet(document: Document, project: Project, name: str) -> None:
    across, up = _PLAIN["sheet"][project.unit]
    _add(document, serves=name, name=NEW_NAMES[0], across=across, up=up)


def _add_off_cut(document: Document, project: Project, name: str) -> None:
    across, up = _PLAIN["off-cut"][project.unit]
    _add(document, serves=name, name=NEW_NAMES[1], across=across, up=up, count=1)


def _add(document: Document, **entry: Json) -> None:
    items_of(document, "sheets.stock").append({"id": new_id()} | entry)


def _remove_sheet(document: Document, project: Project, entry_id: str) -> None:
    remove_item(document, "sheets.stock", entry_id)


def _turn(document: Document, project: Project, name: str) -> None:
    """Keep the parts of a material upright, or allow them to turn."""
    upright = texts_at(document, "sheets.upright")
    others = [one for one in upright if one.casefold() != name.casefold()]
    set_value(document, "sheets.upright", others if len(others) < len(upright) else [*upright, name])


_ACTIONS: dict[str, Callable[[Document, Project, str], None]] = {
    "add-sold": _add_sold,
    "add-sheet": _add_sheet,
    "add-off-cut": _add_off_cut,
    "remove-sheet": _remove_sheet,
    "turn": _turn,
}
_STEERS = {"work": start_jobs, "stop": stop_jobs}
ANCHORS = {
    "work": "layouts",
    "stop": "layouts",
    "add-sold": "of-stock",
    "add-sheet": "of-stock",
    "add-off-cut": "of-stock",
    "remove-sheet": "of-stock",
    "turn": "of-stock",
    "take-price": "offers",
    "keep-price": "offers",
}
