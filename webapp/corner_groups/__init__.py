"""The groups of the corners page, each worked out and put into words by itself.

A group whose numbers describe nothing that can be made says so in its own place; the others go on.
"""

from collections.abc import Callable

from framecalc.errors import FrameCalcError
from webapp.corner_groups.clamps import clamps
from webapp.corner_groups.cuts import cuts
from webapp.corner_groups.group import Asked, Group
from webapp.corner_groups.joint import joint
from webapp.corner_groups.parts import parts
from webapp.corner_groups.saw import angles, tolerance
from webapp.corner_groups.seasons import seasons

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
    return {name: _group(asked, name, works_out) for name, (_, works_out) in GROUPS.items()}


def _group(asked: Asked, name: str, works_out: Callable[[Asked], Group]) -> Group:
    try:
        return works_out(asked)
    except FrameCalcError as refusal:
        lengths = {key: asked.say(length_mm) for key, length_mm in refusal.lengths.items()}
        sentence = refusal.wording.format_map(lengths) if lengths else refusal.sentence
        return Group(name=name, lines=(_closed(sentence),), refuses=True)


def _closed(sentence: str) -> str:
    """A sentence with its capital and its full stop."""
    sentence = sentence[:1].upper() + sentence[1:]
    return sentence if sentence.endswith((".", "?", "!")) else f"{sentence}."
