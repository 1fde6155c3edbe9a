"""Glue-up: how long a glue stays open and in the clamps, and the order of the work.

*Open time* runs from the first glue to the last clamp. The table is for a shop of about 20 °C: in the cold a glue stays
open longer and sets slower, in the heat the other way round.
"""

from enum import StrEnum
from itertools import pairwise
from math import ceil, floor

from framecalc.findings import Finding, Severity
from framecalc.records import Record


class Glue(StrEnum):
    """The kinds of glue that hold a mitre."""

    WHITE = "white wood glue"
    YELLOW = "yellow wood glue"
    LIQUID_HIDE = "liquid hide glue"
    HOT_HIDE = "hot hide glue"
    POLYURETHANE = "polyurethane"
    EPOXY = "epoxy"


_TOLERANCE = 1e-9
"""By so much a product of ratios may be off a whole number."""


class GlueTimes(Record):
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

STRONG_H = {
    Glue.WHITE: 24,
    Glue.YELLOW: 24,
    Glue.LIQUID_HIDE: 24,
    Glue.HOT_HIDE: 24,
    Glue.POLYURETHANE: 24,
    Glue.EPOXY: 72,
}
"""Hours at about 20 °C until a joint may be stressed: before that it is out of the clamps, and no more.

Source: common practice, no source; what stands on the bottle comes first.
"""

COLDEST_C = {
    Glue.WHITE: 13,
    Glue.YELLOW: 10,
    Glue.LIQUID_HIDE: 18,
    Glue.HOT_HIDE: 20,
    Glue.POLYURETHANE: 10,
    Glue.EPOXY: 13,
}
"""Colder than this it does not hold. Source: common practice, no source; what stands on the bottle comes first."""

BY_TEMPERATURE = (
    (5.0, 1.8, 3.0),
    (10.0, 1.5, 2.0),
    (15.0, 1.2, 1.4),
    (20.0, 1.0, 1.0),
    (25.0, 0.8, 0.8),
    (35.0, 0.5, 0.6),
)
"""Temperature [°C], and by what open time and time in the clamps are multiplied. Source: common practice, no source."""

CLOSE_MIN, CLOSE_CORNER_MIN = 1.0, 0.5
"""The strap, and each corner: what it takes to glue and close a frame. Source: common practice, no source."""

SIZING_MIN, WETTING_MIN, CHECKING_MIN = 4, 1, 2
"""Size coat and its wait, or damping; then diagonals and wiping. Source: common practice, no source."""

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

ORDER_ROUND = (
    "Lay all sides in a ring on wax paper, glue every joint, strap round the outside.",
    "A little tension at a time, all faces level; press down what rises.",
    "From each corner to what lies across: the same all round. Nudge in what stands out, then tighten.",
)
"""The order of clamping a frame of more or fewer sides than four. Source: common practice, no source."""

NOT_YET = (
    "Out of the clamps, lay it flat: no splines, no trimming, no package until full strength. The bottle comes first."
)
"""Source: common practice, no source."""


def first_coat(glue: Glue) -> str:
    """What end grain wants before the glue.

    Source: common practice, no source.

    >>> first_coat(Glue.YELLOW).split(":")[0]
    'Size the end grain'
    """
    if glue in SIZED:
        return SIZE_COAT
    return WET_FIRST if glue is Glue.POLYURETHANE else NO_SIZE


def times_at(glue: Glue, *, temperature_c: float, own: GlueTimes | None = None) -> GlueTimes:
    """How long a glue stays open and in the clamps at a temperature, in whole minutes: open rounded down, clamps up.

    Args:
        own: what this shop has found for it at 20 °C; None for the usual times.

    Source: common practice, no source; between the rows of the table in proportion.

    >>> times_at(Glue.YELLOW, temperature_c=20), times_at(Glue.WHITE, temperature_c=10).clamped_min
    (GlueTimes(open_min=5, clamped_min=30), 90)
    """
    open_ratio, clamped_ratio = _ratios(temperature_c)
    usual = own or GLUE_TIMES[glue]
    return GlueTimes(
        open_min=floor(usual.open_min * open_ratio + _TOLERANCE),
        clamped_min=ceil(usual.clamped_min * clamped_ratio - _TOLERANCE),
    )


def strong_after_h(glue: Glue, *, temperature_c: float) -> int:
    """When a joint may be stressed, in whole hours from the clamping on.

    Source: common practice, no source; it sets by the temperature as it does in the clamps.

    >>> strong_after_h(Glue.YELLOW, temperature_c=20), strong_after_h(Glue.YELLOW, temperature_c=10)
    (24, 48)
    """
    _, clamped_ratio = _ratios(temperature_c)
    return ceil(STRONG_H[glue] * clamped_ratio - _TOLERANCE)


def _ratios(temperature_c: float) -> tuple[float, float]:
    rows = BY_TEMPERATURE
    at_c = min(max(temperature_c, rows[0][0]), rows[-1][0])
    low, high = next(pair for pair in pairwise(rows) if at_c <= pair[1][0])
    part_ratio = (at_c - low[0]) / (high[0] - low[0])
    return low[1] + part_ratio * (high[1] - low[1]), low[2] + part_ratio * (high[2] - low[2])


def closing_min(corners: int) -> int:
    """How long it takes to glue and close a frame of so many corners, in whole minutes.

    Source: common practice, no source.

    >>> closing_min(4), closing_min(8)
    (3, 5)
    """
    return ceil(CLOSE_MIN + CLOSE_CORNER_MIN * corners)


def hands_on_min(glue: Glue, *, closing_min: int) -> int:
    """How long hands are on one frame: size coat, closing, checking.

    Source: common practice, no source.

    >>> hands_on_min(Glue.YELLOW, closing_min=3)
    9
    """
    return (SIZING_MIN if glue in SIZED else WETTING_MIN) + closing_min + CHECKING_MIN


def glue_findings(glue: Glue, *, temperature_c: float, open_min: float, closing_min: int) -> tuple[Finding, ...]:
    """What goes wrong with a glue: it is too cold for it, or it skins before the last clamp is on.

    Source: common practice, no source.

    >>> [one.code for one in glue_findings(Glue.YELLOW, temperature_c=20, open_min=5, closing_min=6)]
    ['glue.open-time']
    """
    cold = Finding(
        code="glue.cold",
        severity=Severity.STOP,
        sentence=f"Too cold for {glue}: it wants {{least}} or more. Warm the shop and the wood.",
        why="Cold glue dries to chalk and does not hold.",
        source="common practice",
        argument="temperature",
        measures={"least": (COLDEST_C[glue], "°C")},
    )
    late = Finding(
        code="glue.open-time",
        severity=Severity.STOP,
        sentence=f"Closing a frame takes {closing_min} min, the glue stays open {open_min:g} min. {_SLOWER}",
        why="Glue that has skinned before the last clamp is on does not hold.",
        source="common practice",
        argument="open_minutes",
    )
    asked = ((temperature_c < COLDEST_C[glue], cold), (closing_min > open_min, late))
    return tuple(finding for is_so, finding in asked if is_so)


_SLOWER = "Take a slower glue, or close two halves one after the other."
