"""The groups of the page of handing over; each module works one out and words it."""

from collections.abc import Callable

from webapp.live.answers import AnswerGroup, work_out
from webapp.pages.hand_over.groups.again import again
from webapp.pages.hand_over.groups.back import back
from webapp.pages.hand_over.groups.context import HandOverContext
from webapp.pages.hand_over.groups.intake import intake
from webapp.pages.hand_over.groups.label import label
from webapp.pages.hand_over.groups.packing import packing

__all__ = ["GROUPS", "AnswerGroup", "HandOverContext", "groups_of"]

GROUPS: dict[str, tuple[str, Callable[[HandOverContext], AnswerGroup]]] = {
    "intake": ("Intake", intake),
    "label": ("Label", label),
    "back": ("Back", back),
    "packing": ("Packing", packing),
    "again": ("Again", again),
}
"""Every group of the page, in its order: its title in the list, and what works it out."""


def groups_of(context: HandOverContext) -> dict[str, AnswerGroup]:
    """Every group of the page, by name."""
    return work_out(GROUPS, context)
