"""The groups of the corners page; each module works one out and words it."""

from collections.abc import Callable

from webapp.live.answers import work_out
from webapp.pages.corners.groups.clamps import clamps
from webapp.pages.corners.groups.context import AnswerGroup, CornersContext
from webapp.pages.corners.groups.joint import joint
from webapp.pages.corners.groups.saw import angles, tolerance
from webapp.pages.corners.groups.seasons import seasons
from webapp.pages.corners.groups.sides_as_cut import sides_as_cut
from webapp.pages.corners.groups.test_cuts import cuts

__all__ = ["GROUPS", "AnswerGroup", "CornersContext", "groups_of"]

GROUPS: dict[str, tuple[str, Callable[[CornersContext], AnswerGroup]]] = {
    "angles": ("Set the saw", angles),
    "tolerance": ("Accuracy needed", tolerance),
    "joint": ("Joint", joint),
    "tests": ("Test cuts", cuts),
    "parts": ("Sides as cut", sides_as_cut),
    "clamps": ("In the clamps", clamps),
    "seasons": ("Wood and seasons", seasons),
}
"""Every group of the page, in its order: its title in the bar of the page, and what works it out."""


def groups_of(context: CornersContext) -> dict[str, AnswerGroup]:
    """Every group of the page, by name."""
    return work_out(GROUPS, context)
