"""Glue-up: how long a glue stays open and in the clamps, and the order of the work.

*Open time* runs from the first glue to the last clamp. The times are for a shop of about 20 °C; cold wood takes longer.
"""

from dataclasses import dataclass
from enum import StrEnum


class Glue(StrEnum):
    """The kinds of glue that hold a mitre."""

    WHITE = "white wood glue"
    YELLOW = "yellow wood glue"
    LIQUID_HIDE = "liquid hide glue"
    HOT_HIDE = "hot hide glue"
    POLYURETHANE = "polyurethane"
    EPOXY = "epoxy"


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueTimes:
    """How long a glue may stay open, and how long it stays in the clamps."""

    open_min: float
    clamped_min: float


GLUE_TIMES = {
    Glue.WHITE: GlueTimes(open_min=10, clamped_min=45),
    Glue.YELLOW: GlueTimes(open_min=5, clamped_min=30),
    Glue.LIQUID_HIDE: GlueTimes(open_min=10, clamped_min=360),
    Glue.HOT_HIDE: GlueTimes(open_min=2, clamped_min=240),
    Glue.POLYURETHANE: GlueTimes(open_min=15, clamped_min=120),
    Glue.EPOXY: GlueTimes(open_min=20, clamped_min=480),
}
"""At about 20 °C. Source: common practice, no source; what stands on the bottle comes first."""

SIZED = frozenset({Glue.WHITE, Glue.YELLOW, Glue.LIQUID_HIDE, Glue.HOT_HIDE})
"""Glues of which a thin first coat seals end grain. Source: common practice, no source."""

SIZE_COAT = "Size the end grain: a thin coat on every mitre, wait 3 minutes, then glue over it."
WET_FIRST = "Damp one face of each joint: this glue needs water, and foams out of a gap."
NO_SIZE = "Wet both faces well and wait a minute: end grain drinks, so coat it again before you close it."
ORDER = (
    "Two opposite corners first, then bring the halves together.",
    "Strap on, blocks at all corners, a little tension at each in turn.",
    "Measure both diagonals. Longer one: pull it in, then tighten.",
    "Flat on wax paper, weight on it if a corner lifts.",
)
"""The order of clamping. Source: common practice, no source."""


def first_coat(glue: Glue) -> str:
    """What end grain wants before the glue.

    Source: common practice, no source.

    >>> first_coat(Glue.YELLOW).split(":")[0]
    'Size the end grain'
    """
    if glue in SIZED:
        return SIZE_COAT
    return WET_FIRST if glue is Glue.POLYURETHANE else NO_SIZE
