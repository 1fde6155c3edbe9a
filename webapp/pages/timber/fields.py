"""The form's table for the timber page; paths follow `timber.`."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from framecalc.timber.boards import PricedBy
from framecalc.timber.sticks.problem import Grain
from webapp.live.field import Control, Field, FieldSet

YES_NO = (("no", "No"), ("yes", "Yes"))
AT_HAND = (("no", "For sale"), ("yes", "At hand"))
CORNERS = ("bottom-left", "top-left", "top-right", "bottom-right")


def _choice(path: str, label: str, choices: tuple[tuple[str, str], ...], explain: str = "") -> Field:
    return Field(path=path, label=label, control=Control.CHOICE, choices=choices, explain=explain)


def _named(values: Any) -> tuple[tuple[str, str], ...]:
    return tuple((str(value), f"{value[:1].upper()}{value[1:]}") for value in values)


TIMBER_FIELDS = (
    _choice(
        "grain",
        "Grain",
        _named(Grain),
        "Sides in order from one stick let the figure run round the frame; it costs some wood.",
    ),
    _choice("corner", "The grain breaks at", _named(CORNERS), "As seen from the front. Bottom is seen least."),
    Field(
        path="milled",
        label="The sticks have their rabbet or profile already",
        control=Control.YES_NO,
        choices=YES_NO,
    ),
    Field(
        path="turned",
        label="Turn every other piece over",
        control=Control.YES_NO,
        choices=YES_NO,
        explain="Nested mitres save the member's width at each joint. Only while the stick has no rabbet and no profile"
        " yet; the grain then runs to and fro.",
    ),
    Field(
        path="spares",
        label="Spare sides of each length",
        control=Control.COUNT,
        explain="Cut with the others, for the one that splits.",
    ),
    Field(path="tests", label="Pieces for test cuts", control=Control.COUNT),
    Field(path="test_length", label="A test piece is", explain="Long edge. Two of them make a test joint."),
    Field(path="shortest_useful", label="Shortest useful off-cut", explain="Shorter ones are not kept."),
    Field(
        path="edge", label="Edge to lose of a board", explain="On each side, before the first strip: wane or sapwood."
    ),
    Field(path="width_allowance", label="Strip wider by", explain="Than the member, for jointing its edges."),
    Field(
        path="thickness_allowance",
        label="Board thicker by",
        explain="Than the member: what is reckoned with where a board's thickness is not typed.",
    ),
    Field(
        path="clean_up",
        label="Clean-up takes",
        explain="Of both faces together, beside bow and twist, until the saw marks are gone. 1.5 mm (1/16 in) is usual."
        " Common practice, no source.",
    ),
    Field(path="sanding", label="Left for sanding", explain="The planer stops this much above the member's thickness."),
    Field(
        path="part_trim",
        label="Snipe and squaring",
        explain="What each end of a part loses, on both sides of the cut, where a bowed board is crosscut first."
        " 25 mm (1 in) is usual; a planer may snipe 50 to 150 mm (2 to 6 in) of each end, by less than is sanded away."
        " Common practice, no source.",
    ),
    Field(path="planer_pass", label="One pass takes off", explain="The deepest pass of your planer in this wood."),
    Field(
        path="shortest_machined",
        label="Shortest to machine",
        explain="In planer and jointer: the machine's own figure, from its manual. 300 mm (12 in) is common practice,"
        " no source.",
    ),
)

STICK_FIELDS = (
    Field(path="name", label="What it is", control=Control.WORDS),
    Field(path="species", label="Wood", control=Control.WORDS, optional=True, explain="Blank: it serves any wood."),
    Field(path="length", label="Length"),
    Field(path="member_width", label="Width", optional=True, explain="Blank: it serves members of any width."),
    Field(path="thickness", label="Thickness", optional=True, explain="Blank: it serves members of any thickness."),
    Field(path="count", label="How many", control=Control.COUNT, optional=True, explain="Blank: as many as needed."),
    Field(path="price", label="Price of one", control=Control.MONEY, explain="0 where it costs nothing more."),
    Field(path="in_hand", label="Where it is", control=Control.YES_NO, choices=AT_HAND),
)
"""Fields of sticks; their paths follow `stock.<id>.`."""

BOARD_FIELDS = (
    Field(path="name", label="What it is", control=Control.WORDS),
    Field(path="species", label="Wood", control=Control.WORDS, optional=True, explain="Blank: it serves any wood."),
    Field(path="length", label="Length"),
    Field(path="width", label="Width", explain="Where it is narrowest."),
    Field(
        path="thickness",
        label="Rough thickness",
        optional=True,
        explain="Blank: thick enough. 4/4 is 1 in (25.4 mm), 5/4 is 1 1/4 in (31.75 mm), as sawn.",
    ),
    Field(path="count", label="How many", control=Control.COUNT, optional=True, explain="Blank: as many as needed."),
    Field(path="price", label="Price", control=Control.MONEY, explain="0 where it costs nothing more."),
    _choice("priced_by", "Price per", _named(PricedBy)),
    Field(path="in_hand", label="Where it is", control=Control.YES_NO, choices=AT_HAND),
    Field(path="bow", label="Bow", explain="The rise in its middle, laid hollow side down, over the whole length."),
    Field(path="twist", label="Twist", explain="How far the fourth corner lifts while three lie."),
)
"""Fields of boards; their paths follow `stock.<id>.`."""

SAW_FIELDS = {
    "shop.kerf": Field(path="shop.kerf", label="Kerf", explain="The width of the cut that the blade takes."),
    "shop.end_trim": Field(
        path="shop.end_trim",
        label="End trim",
        explain="What is lost at each end of a stick or board, its saw cut included: checks, snipe, squaring.",
    ),
}
"""What the saw takes; the same fields as on the setting-out page."""

DEFECT_FIELDS = (
    Field(path="start", label="Avoid, from", explain="From the left end."),
    Field(path="end", label="To"),
)
"""Fields of one stretch to avoid; their paths follow `stock.<id>.defects.<id>.`."""


def timber_fields_in(document: dict[str, Any], frame_id: str) -> FieldSet:
    """The fields of the timber page; the frame does not matter."""
    timber = document.get("timber", {})
    fields = SAW_FIELDS | {f"timber.{one.path}": one for one in TIMBER_FIELDS}
    fields |= {path: one for entry in timber.get("stock", ()) for path, one in _entry_fields(entry)}
    return FieldSet(fields={path: replace(one, drawing="") for path, one in fields.items()})


def _entry_fields(entry: dict[str, Any]) -> Iterator[tuple[str, Field]]:
    here = f"timber.stock.{entry['id']}."
    for one in STICK_FIELDS if entry.get("width") is None else BOARD_FIELDS:
        yield f"{here}{one.path}", one
    for defect in entry.get("defects", ()):
        for one in DEFECT_FIELDS:
            yield f"{here}defects.{defect['id']}.{one.path}", one
