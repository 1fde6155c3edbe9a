"""The pane of glass or acrylic: the largest that is usual for its thickness, and the thickness that a size asks for.

A *pane* is held on its four sides; its *span* is its shorter side. Glass breaks in the hand before it breaks in the
frame; acrylic bows long before it breaks.
"""

from collections.abc import Iterable

from framecalc.evidence import USUAL_PRACTICE
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.limits import require_positive
from framecalc.package.glazing import Glazing
from framecalc.records import Record
from framecalc.tables.sheets import PaneLimit, pane_limits
from framecalc.units import TOLERANCE_MM

FAR_TOO_LARGE_RATIO = 1.25
"""A pane over its usual largest by more than a quarter is a stop. Source: common practice, no source."""

SAME_THICKNESS_MM = 0.25
"""Glass sold as 2 mm may measure 1.8: so little under a thickness counts as it. Source: the bands of EN 572-2."""

_WHY = {
    Glazing.GLASS: "A large thin pane breaks as it is carried and cleaned; acrylic weighs half and does not shatter.",
    Glazing.ACRYLIC: "A large thin sheet bows, touches what it covers and slips out from under the lip.",
}


class Pane(Record):
    """A pane of glazing: its sides, its thickness, the limit of that thickness, and the usual thickness for its size.

    `limit` is None where it is thinner than any in use, `wanted_mm` 0 where it is larger than any.
    """

    glazing: Glazing
    short_mm: float
    long_mm: float
    thickness_mm: float
    limit: PaneLimit | None
    wanted_mm: float

    @property
    def over_ratio(self) -> float:
        """How large it is against its limit, by the side that is worse: up to 1 is usual."""
        if self.limit is None:
            return float("inf")
        return max(self.short_mm / self.limit.short_mm, self.long_mm / self.limit.long_mm)


def measure_pane(glazing: Glazing, *, across_mm: float, up_mm: float, thickness_mm: float) -> Pane:
    """Find the limit of a pane, and the thinnest one that is usual for its size.

    Args:
        glazing: glass or acrylic.
        across_mm, up_mm: the pane [mm], > 0.
        thickness_mm: [mm], > 0.
    Raises:
        OutOfRange: a length is not above zero.
    Source: tables/pane_limits.csv, common practice, no source.

    >>> pane = measure_pane(Glazing.GLASS, across_mm=1340, up_mm=1041, thickness_mm=2)
    >>> pane.limit.long_mm, pane.wanted_mm
    (812.8, 4.0)
    """
    require_positive(across_mm=across_mm, up_mm=up_mm, layer_thickness_mm=thickness_mm)
    short_mm, long_mm = sorted((across_mm, up_mm))
    limits = [limit for limit in pane_limits() if limit.material == glazing.value]
    reached = [limit for limit in limits if limit.thickness_mm <= thickness_mm + SAME_THICKNESS_MM]
    return Pane(
        glazing=glazing,
        short_mm=short_mm,
        long_mm=long_mm,
        thickness_mm=thickness_mm,
        limit=reached[-1] if reached else None,
        wanted_mm=_thinnest_mm(limits, short_mm, long_mm),
    )


def pane_findings(pane: Pane, *, argument: str) -> tuple[Finding, ...]:
    """Report a pane that is larger than usual for its thickness.

    Args:
        argument: what its thickness is called.
    Source: common practice, no source.

    >>> pane = measure_pane(Glazing.GLASS, across_mm=1340, up_mm=1041, thickness_mm=2)
    >>> [(finding.code, finding.severity.value) for finding in pane_findings(pane, argument="layer")]
    [('pane.too-large', 'stop')]
    """
    if pane.over_ratio <= 1 + TOLERANCE_MM:
        return ()
    return (_thin(pane, argument) if pane.limit is None else _too_large(pane, pane.limit, argument),)


def _thinnest_mm(limits: Iterable[PaneLimit], short_mm: float, long_mm: float) -> float:
    fits = (
        limit.thickness_mm
        for limit in limits
        if short_mm <= limit.short_mm + TOLERANCE_MM and long_mm <= limit.long_mm + TOLERANCE_MM
    )
    return min(fits, default=0.0)


def _too_large(pane: Pane, limit: PaneLimit, argument: str) -> Finding:
    return Finding(
        code="pane.too-large",
        severity=Severity.STOP if pane.over_ratio > FAR_TOO_LARGE_RATIO + TOLERANCE_MM else Severity.WARN,
        sentence=f"The {pane.glazing.value} is {{long}} × {{short}}; {{thickness}} thick, it is usual up to "
        "{most_long} × {most_short}.",
        why=_WHY[pane.glazing],
        source=USUAL_PRACTICE,
        argument=argument,
        lengths={
            "long": pane.long_mm,
            "short": pane.short_mm,
            "thickness": pane.thickness_mm,
            "most_long": limit.long_mm,
            "most_short": limit.short_mm,
        },
        ways=_thicker(pane, argument),
    )


def _thin(pane: Pane, argument: str) -> Finding:
    return Finding(
        code="pane.thin",
        severity=Severity.WARN,
        sentence=f"The {pane.glazing.value} is {{thickness}} thick; thinner than any pane in use.",
        why=_WHY[pane.glazing],
        source=USUAL_PRACTICE,
        argument=argument,
        lengths={"thickness": pane.thickness_mm},
        ways=_thicker(pane, argument),
    )


def _thicker(pane: Pane, argument: str) -> tuple[Way, ...]:
    if not pane.wanted_mm:
        return ()
    says = f"use thicker {pane.glazing.value}"
    return (Way(argument=argument, value_mm=pane.wanted_mm, says=says, rounding=Rounding.UP),)
