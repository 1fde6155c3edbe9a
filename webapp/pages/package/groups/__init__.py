"""The groups of the package page; each module works one out and words it."""

from collections.abc import Callable

from webapp.live.answers import AnswerGroup, work_out
from webapp.pages.package.groups.canvas_and_box import box, canvas
from webapp.pages.package.groups.context import PackageContext
from webapp.pages.package.groups.fitting import fitting
from webapp.pages.package.groups.gap import gap
from webapp.pages.package.groups.growth import growth
from webapp.pages.package.groups.handling import handling
from webapp.pages.package.groups.layers import layers
from webapp.pages.package.groups.mat import mat
from webapp.pages.package.groups.retainers import retainers

__all__ = ["GROUPS", "AnswerGroup", "PackageContext", "groups_of"]

GROUPS: dict[str, tuple[str, Callable[[PackageContext], AnswerGroup]]] = {
    "layers": ("Layers", layers),
    "mat": ("Mat and windows", mat),
    "gap": ("Gap to glazing", gap),
    "handling": ("Pane and weight", handling),
    "growth": ("Movement", growth),
    "held": ("Held by", retainers),
    "canvas": ("Canvas", canvas),
    "box": ("Box", box),
    "steps": ("Fitting", fitting),
}
"""Every group of the page, in its order: its title in the bar of the page, and what works it out."""


def groups_of(context: PackageContext) -> dict[str, AnswerGroup]:
    """Every group of the page, by name."""
    return work_out(GROUPS, context)
