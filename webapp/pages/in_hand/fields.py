"""The form's table for the page of a stick or board in hand; paths follow `reach.`."""

from typing import Any

from webapp.live.field import Control, Field, FieldSet

FIELDS = (
    Field(path="length", label="Length", optional=True, explain="As it lies there, from end to end."),
    Field(path="width", label="Width, if a board", optional=True, explain="Blank: a stick of the member's section."),
    Field(path="count", label="How many alike", control=Control.COUNT),
    Field(path="defect_from", label="Stretch to avoid, from", optional=True, explain="From the left end."),
    Field(path="defect_to", label="Stretch to avoid, to", optional=True),
)


def reach_fields_in(document: dict[str, Any], frame_id: str) -> FieldSet:
    """The fields of the page: whose member is meant, and what is in hand."""
    frames = tuple((frame["id"], frame["name"]) for frame in document["frames"])
    chosen = Field(path="frame", label="Members of", control=Control.CHOICE, choices=frames)
    return FieldSet(fields={f"reach.{one.path}": one for one in (chosen, *FIELDS)})
