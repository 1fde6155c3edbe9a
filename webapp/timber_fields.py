"""The form's table for the timber page; paths follow `timber.`."""

from dataclasses import replace
from typing import Any

from framecalc.sticks.problem import Grain
from webapp.fields import Control, Field, FieldSet

YES_NO = (("no", "No"), ("yes", "Yes"))

TIMBER_FIELDS = (
    Field(
        path="grain",
        label="Grain",
        control=Control.CHOICE,
        choices=tuple((grain.value, grain[:1].upper() + grain[1:]) for grain in Grain),
        explain="Sides in order from one stick let the figure run round the frame; it costs some wood.",
    ),
    Field(
        path="turned",
        label="Turn every other piece over",
        control=Control.YES_NO,
        choices=YES_NO,
        explain="Nested mitres save wood, only while the stick has no rabbet and no profile yet.",
    ),
    Field(path="spares", label="Spare sides of each length", control=Control.COUNT),
    Field(path="shortest_useful", label="Shortest useful off-cut", explain="Shorter ones are not kept."),
    Field(path="edge", label="Edge to lose of a board", explain="On each side, before the first strip."),
    Field(path="width_allowance", label="Strip wider than the member by", explain="For jointing and planing."),
)

STOCK_FIELDS = (
    Field(path="name", label="What it is", control=Control.WORDS),
    Field(path="length", label="Length"),
    Field(path="width", label="Width, if a board", optional=True, explain="Blank: a stick of the member's width."),
    Field(path="count", label="How many", control=Control.COUNT, optional=True, explain="Blank: as many as needed."),
    Field(path="price", label="Price of one", control=Control.NUMBER),
    Field(path="in_hand", label="At hand", control=Control.YES_NO, choices=YES_NO),
    Field(path="defect_from", label="Defect, from", optional=True, explain="From the left end: a stretch to avoid."),
    Field(path="defect_to", label="Defect, to", optional=True),
)
"""Fields of one entry of the stock; their paths follow `stock.<id>.`."""


def timber_fields_in(document: dict[str, Any], frame_id: str) -> FieldSet:
    """The fields of the timber page; the frame does not matter."""
    fields = {f"timber.{one.path}": replace(one, drawing="") for one in TIMBER_FIELDS}
    for entry in document.get("timber", {}).get("stock", ()):
        fields |= {f"timber.stock.{entry['id']}.{one.path}": replace(one, drawing="") for one in STOCK_FIELDS}
    return FieldSet(fields=fields)
