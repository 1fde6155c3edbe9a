"""The groups of the wall page; each module works one out and words it."""

from collections.abc import Callable

from webapp.live.answers import AnswerGroup, work_out
from webapp.pages.wall.groups.context import WallContext
from webapp.pages.wall.groups.group import group
from webapp.pages.wall.groups.hangers import hangers
from webapp.pages.wall.groups.nails import nails
from webapp.pages.wall.groups.strip import strip

__all__ = ["GROUPS", "AnswerGroup", "WallContext", "groups_of"]

GROUPS: dict[str, tuple[str, Callable[[WallContext], AnswerGroup]]] = {
    "hangers": ("Hangers", hangers),
    "nails": ("On the wall", nails),
    "group": ("Group", group),
    "strip": ("Hanging strip", strip),
}
"""Every group of the page, in its order: its title in the list, and what works it out."""


def groups_of(context: WallContext) -> dict[str, AnswerGroup]:
    """Every group of the page, by name."""
    return work_out(GROUPS, context)
