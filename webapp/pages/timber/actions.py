"""What the buttons of the timber page do: add and remove stock and defects, use the rack, start and stop the search."""

from collections.abc import Callable
from contextlib import suppress

from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.project import items_at, items_of, remove_item, text_at
from framecalc.project.document import Document
from webapp.jobs.timber_search import start_jobs, stop_jobs
from webapp.live.desk import Desk, new_id
from webapp.live.typed.forms import Draft, Typed, confirm, edited
from webapp.live.work.price_list import timber_prices, with_blank_prices, with_prices
from webapp.pages.timber.rack_beside import with_rack
from webapp.pages.timber.ways_out import WAYS

STOCK = "timber.stock"

_NEW = {
    "stick": {"mm": {"name": "Stick", "length": "2400 mm"}, "in": {"name": "Stick", "length": "8 ft"}},
    "board": {
        "mm": {"name": "Board", "length": "2400 mm", "width": "150 mm"},
        "in": {"name": "Board", "length": "8 ft", "width": "6 in"},
    },
}

ANCHORS = {
    "work": "plans",
    "stop": "plans",
    "add-stock": "stock-end",
    "remove-stock": "of-stock",
    "add-defect": "stock-{}",
    "remove-defect": "stock-{}",
    "rack-take": "of-rack",
    "rack-out": "of-rack",
    "take-price": "offers",
    "keep-price": "offers",
    "own-ledge": "plans",
    "glue-up": "plans",
    "thicker": "plans",
}
"""Where on the page to go on after a button."""


def carry_out(desk: Desk, draft: Draft, typed: Typed, _: str) -> Draft:
    """Apply the pressed button to a draft, with the rack beside it; start or stop the search."""
    done = with_prices(desk, with_rack(desk, _changed(draft, typed.do), typed.do), typed.do)
    if typed.do == "work":
        done = with_blank_prices(desk, done, timber_prices(done.checked))
    if typed.do in _STEERS:
        with suppress(FrameCalcError):  # a frame cannot be computed: the page says which, and why
            _STEERS[typed.do](desk.jobs, Plan(done.checked), project=typed.project)
    return done


def _changed(draft: Draft, do: str) -> Draft:
    name, _, argument = do.partition(":")
    if name not in _ACTIONS:
        return draft
    return edited(draft, lambda document: _ACTIONS[name](document, argument))


def _add_stock(document: Document, kind: str) -> None:
    new = _NEW.get(kind, _NEW["stick"])[text_at(document, "unit")]
    items_of(document, STOCK).append({"id": new_id(), **new})


def _remove_stock(document: Document, entry_id: str) -> None:
    remove_item(document, STOCK, entry_id)


def _add_defect(document: Document, entry_id: str) -> None:
    """Add a defect at the left end, for a person to move."""
    place = "0 mm" if document["unit"] == "mm" else "0 in", "50 mm" if document["unit"] == "mm" else "2 in"
    for entry in items_at(document, STOCK):
        if entry["id"] == entry_id:
            items_of(entry, "defects").append({"id": new_id(), "start": place[0], "end": place[1]})


def _remove_defect(document: Document, argument: str) -> None:
    entry_id, _, defect_id = argument.partition(":")
    remove_item(document, f"{STOCK}.{entry_id}.defects", defect_id)


def _confirm(document: Document, path: str) -> None:
    """Mark a usual value as confirmed."""
    confirm(document, path.__eq__)


_ACTIONS: dict[str, Callable[[Document, str], None]] = {
    "confirm": _confirm,
    "add-stock": _add_stock,
    "remove-stock": _remove_stock,
    "add-defect": _add_defect,
    "remove-defect": _remove_defect,
    **WAYS,
}
_STEERS = {"work": start_jobs, "stop": stop_jobs}
