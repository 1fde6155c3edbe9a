"""What the buttons of the way do: tick a step, leave it out, or take either back.

A button says what is wanted, so pressing it twice, or in two tabs, does no harm; ticks of different steps go in beside
each other.
"""

from enum import StrEnum

from framecalc.project import texts_at, with_value
from framecalc.project.document import Document
from framecalc.project.way import LEFT_OUT, TICKED, JobStep


class Wanted(StrEnum):
    """What a step is to be."""

    DONE = "done"
    LEFT_OUT = "left-out"
    OPEN = "open"


def with_step(document: Document, step: JobStep, wanted: Wanted) -> Document:
    """The document with a step as it is wanted; one that cannot be so stays as it is."""
    if (wanted is Wanted.DONE and step not in TICKED) or (wanted is Wanted.LEFT_OUT and step not in LEFT_OUT):
        return document
    document = _with(document, "way.done", step, is_in=wanted is Wanted.DONE)
    return _with(document, "way.left_out", step, is_in=wanted is Wanted.LEFT_OUT)


def _with(document: Document, path: str, step: JobStep, *, is_in: bool) -> Document:
    """The document with a step in a list, or not; the list stays in the order of work."""
    there = set(texts_at(document, path))
    if (step in there) == is_in:
        return document
    wanted = there | {step.value} if is_in else there - {step}
    return with_value(document, path, [one.value for one in JobStep if one in wanted])
