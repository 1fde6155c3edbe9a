"""The groups of the corners page, each worked out and put into words by itself."""

from collections.abc import Callable

from webapp.corner_groups.clamps import clamps
from webapp.corner_groups.cuts import cuts
from webapp.corner_groups.group import Asked, Group
from webapp.corner_groups.joint import joint
from webapp.corner_groups.parts import parts
from webapp.corner_groups.saw import angles, tolerance
from webapp.corner_groups.seasons import seasons
from webapp.groups import work_out

__all__ = ["GROUPS", "Asked", "Group", "groups_of"]

GROUPS: dict[str, tuple[str, Callable[[Asked], Group]]] = {
    "angles": ("Set the saw", angles),
    "tolerance": ("How exact", tolerance),
    "tests": ("Test cuts", cuts),
    "parts": ("Parts in hand", parts),
    "clamps": ("In the clamps", clamps),
    "joint": ("Joint", joint),
    "seasons": ("Seasons", seasons),
}
"""Every group of the page, in its order: its title in the bar of the page, and what works it out."""


def groups_of(asked: Asked) -> dict[str, Group]:
    """Every group of the page, by name."""
    return work_out(GROUPS, asked)
