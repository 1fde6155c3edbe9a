"""Jobs of one frame and of several: every kind that the pages may speak of differently."""

from collections.abc import Callable
from copy import deepcopy
from typing import Any

from panel import PANEL_IN_INCHES

from framecalc.tables.wood import wood_species
from webapp.pages.projects.demos import demo

QUOTE = {
    "items": [
        {
            "id": "w1",
            "name": "Wood",
            "group": "wood",
            "measure": "each frame",
            "price": "12",
            "priced_on": "2026-11-20",
        },
        {"id": "h1", "name": "Work", "group": "work", "measure": "hour, each frame", "price": "40", "amount": "1.5"},
    ],
    "terms": {"margin": "30", "stale_after": 3000},
}

Document = dict[str, Any]


def inch_job(**changes: Any) -> Document:
    """A panel in inches, its frame changed."""
    document = deepcopy(PANEL_IN_INCHES) | {"quote": QUOTE}
    document["frames"][0] |= changes
    return document


def matted(**changes: Any) -> Document:
    """A print behind a mat and glass, its frame changed."""
    document = demo("cafe-prints.demo") | {"quote": QUOTE}
    document["frames"][0] |= changes
    return document


def layered(**first: Any) -> Document:
    """The print without its mat, its glazing changed."""
    document = matted()
    package = document["frames"][0]["package"]
    package.pop("mat")
    package["layers"] = [layer for layer in package["layers"] if layer["kind"] != "mat"]
    package["layers"][0] |= first
    return document


def out_of_square() -> Document:
    """A print of which both ends and both diagonals are measured."""
    more = {"across_bottom": "281 mm", "up_right": "201 mm", "diagonal_rising": "345 mm", "diagonal_falling": "344 mm"}
    document = layered()
    document["frames"][0]["artwork"] |= more
    return document


def tight() -> Document:
    """A panel tight in its rabbet, a joint in a wood whose moisture nobody has measured, a thin board."""
    corner = {"joint": {"kind": "half-lap"}, "seasons": {"species": wood_species()[0].species_id}}
    document = inch_job(corner=corner)
    document["frames"][0]["package"] |= {"clearance_up": "1/64 in"}
    board = {"id": "s1", "name": "Thin oak", "length": "8 ft", "width": "8 in", "thickness": "1/2 in"}
    return document | {"timber": {"stock": [board]}}


def shaped(**shape: str | int) -> Document:
    """The matted print in a frame of another shape."""
    return matted(shape=shape)


def unmatted() -> Document:
    """The print whose mat is typed and not planned."""
    document = matted()
    document["frames"][0]["package"]["mat"]["is_planned"] = False
    return document


def bought() -> Document:
    """The print in a bought moulding, sold by the length."""
    document = matted()
    moulding = {"name": "No. 7", "price": "14", "stick_length": "3000 mm"}
    document["frames"][0]["section"] |= {"source": "bought", "moulding": moulding}
    return document


def several() -> Document:
    """A job of three frames in two sizes."""
    document = matted(count=2)
    second = deepcopy(document["frames"][0]) | {"id": "second", "name": "Second print", "count": 3}
    second["artwork"] |= {"across": "400 mm", "up": "300 mm"}
    return document | {"frames": [*document["frames"], second]}


STATES: dict[str, Callable[[], Document]] = {
    "plain": layered,
    "matted print": matted,
    "canvas": lambda: demo("maple-canvas.demo") | {"quote": QUOTE},
    "tray and box": lambda: demo("ash-relief.demo") | {"quote": QUOTE},
    "acrylic": lambda: layered(name="acrylic", material="acrylic"),
    "out of square": out_of_square,
    "inch job": inch_job,
    "five in inches": lambda: inch_job(count=5),
    "several frames": several,
    "hexagon": lambda: shaped(sides=6, size="400 mm"),
    "sloping pentagon": lambda: shaped(sides=5, size="16 in", slope="12"),
    "sloping sides": lambda: shaped(slope="20"),
    "without its mat": unmatted,
    "bought moulding": bought,
    "stopped": lambda: inch_job(corner={"joint": {"kind": "loose tenon", "size": "tenon 10 x 50"}}),
    "to be checked": tight,
}
"""Every kind of job that the pages may speak of differently."""
