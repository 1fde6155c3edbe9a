"""The board that is left between the windows of a mat, and beside them: where it is too narrow to lie flat."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.ranges import require_positive
from framecalc.units import TOLERANCE_MM
from framecalc.windows import LEAST_BORDER_MM, LEAST_BRIDGE_MM, WindowMat, gap_between_mm

_PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bridge:
    """The board between two windows, by their numbers from 1, and how wide it is."""

    between: tuple[int, int]
    width_mm: float


def bridges(mat: WindowMat) -> tuple[Bridge, ...]:
    """The board between every two windows, the narrowest first.

    Source: plane geometry.
    """
    pairs = combinations(enumerate(mat.windows, start=1), 2)
    found = [
        Bridge(between=(one, other), width_mm=gap_between_mm(first, second)) for (one, first), (other, second) in pairs
    ]
    return tuple(sorted(found, key=lambda bridge: bridge.width_mm))


def window_findings(mat: WindowMat, *, least_bridge_mm: float = LEAST_BRIDGE_MM) -> tuple[Finding, ...]:
    """Say where the board between windows, or beside them, is too narrow to lie flat.

    Args:
        least_bridge_mm: the least that this shop cuts [mm], > 0.
    Source: common practice, no source.

    >>> from framecalc.openings import Borders, Opening
    >>> from framecalc.windows import arrange
    >>> photo = Opening(across_mm=100, up_mm=150)
    >>> borders = Borders(sides_mm=60, top_mm=60, bottom_mm=70)
    >>> mat = arrange([photo] * 2, columns=2, gap_across_mm=8, gap_up_mm=0, borders=borders)
    >>> [finding.code for finding in window_findings(mat)]
    ['windows.narrow-bridge']
    """
    require_positive(least_bridge_mm=least_bridge_mm)
    return (*_narrow_bridges(mat, least_bridge_mm), *_narrow_borders(mat))


def _narrow_bridges(mat: WindowMat, least_mm: float) -> Iterator[Finding]:
    for bridge in bridges(mat):
        if bridge.width_mm < least_mm - TOLERANCE_MM:
            one, other = bridge.between
            yield Finding(
                code="windows.narrow-bridge",
                severity=Severity.WARN,
                sentence=f"Between windows {one} and {other} {{bridge}} of board is left; {{least}} would do.",
                why="A narrow bridge bends, and tears when the mat is handled.",
                source=_PRACTICE,
                argument="window_gap_mm",
                lengths={"bridge": bridge.width_mm, "least": least_mm},
                ways=(Way(argument="window_gap_mm", value_mm=least_mm, says="widen the gap", rounding=Rounding.UP),),
            )


def _narrow_borders(mat: WindowMat) -> Iterator[Finding]:
    for number, window in enumerate(mat.windows, start=1):
        border_mm = min(window.left_mm, window.bottom_mm, mat.across_mm - window.right_mm, mat.up_mm - window.top_mm)
        if border_mm < LEAST_BORDER_MM - TOLERANCE_MM:
            yield Finding(
                code="windows.narrow-border",
                severity=Severity.WARN,
                sentence=f"Beside window {number} the mat has a border of {{border}}; {{least}} would do.",
                why="A narrow border does not lie flat, and the lip covers part of it.",
                source=_PRACTICE,
                argument="mat_border_mm",
                lengths={"border": border_mm, "least": LEAST_BORDER_MM},
            )
