"""What is said of a stiffener: what it is, its size to cut, how it is fixed."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from framecalc.findings import Rounding
from framecalc.package.stiffening import Stiffened, Stiffener
from framecalc.units import Unit, format_length
from framecalc.words import Wording, typed, uncapitalised, worded

if TYPE_CHECKING:
    from framecalc.plan.frame import FramePlan

NAMES = {
    Stiffener.STRIP: "Strip of wood",
    Stiffener.BAR: "Flat steel bar, on edge",
    Stiffener.STRUT: "Strut up the middle",
}
_ALONG = "On the land of the bottom member, a screw every {apart}, short of the face."
_UP = "In the middle, from the top member to the bottom one, two screws at each end, short of the face."
_HOW = {Stiffener.STRIP: _ALONG, Stiffener.BAR: _ALONG, Stiffener.STRUT: _UP}
"""How each is fixed. Source: common practice, no source."""

_APART = {Unit.MM: "150 mm", Unit.INCH: "6 in"}
"""From screw to screw. Source: common practice, no source."""


def stiffener_size(plan: "FramePlan", found: Stiffened) -> str:
    """Its size to cut, the unit once: the thickness rounded up, the width and the length down."""
    out, wide = (
        format_length(size_mm, step=plan.step, rounding=rounding).text
        for size_mm, rounding in ((found.out_mm, Rounding.UP), (found.wide_mm, Rounding.DOWN))
    )
    long = format_length(found.long_mm, step=plan.step, rounding=Rounding.DOWN).text
    return f"{out} × {wide} × {long} {plan.unit}"


def stiffener_says(plan: "FramePlan", found: Stiffened) -> Wording:
    """What it is, its size, and of which wood."""
    is_wood = found.kind is not Stiffener.BAR and plan.frame.species
    of = typed(f", {plan.frame.species}") if is_wood else typed("")
    return worded(NAMES[found.kind]) + f", {stiffener_size(plan, found)}" + of


def stiffener_how(plan: "FramePlan", found: Stiffened) -> str:
    """How it is fixed."""
    return _HOW[found.kind].format(apart=_APART[plan.unit])


def stiffeners_said(plans: Iterable["FramePlan"]) -> Iterator[Wording]:
    """The stiffeners of a job that are cut beside its members: of which frame, how many, their size."""
    for plan in plans:
        if found := plan.package.stiffener:
            yield worded(
                "Behind {name}: {says}; {count} to cut.",
                name=plan.frame.name,
                says=uncapitalised(stiffener_says(plan, found)),
                count=plan.frame.count,
            )
