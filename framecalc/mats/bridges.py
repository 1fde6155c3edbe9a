"""The board that is left between the windows of a mat, and beside them: where it is too narrow to lie flat."""

from collections.abc import Iterator, Sequence
from itertools import combinations

from framecalc.evidence import USUAL_PRACTICE
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.limits import require_positive
from framecalc.mats.mat import LEAST_BORDER_MM
from framecalc.mats.windows import LEAST_BRIDGE_MM, Window, WindowMat, gap_between_mm
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

LEAST_REVEAL_MM = 2.0
"""Less of a lower mat looks like a slip of the knife. Source: common practice, no source."""

_LEFT = "of board is left"


class Bridge(Record):
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
    return tuple(sorted(found, key=lambda bridge: round(bridge.width_mm, 6)))


def window_findings(
    mat: WindowMat, *, least_bridge_mm: float = LEAST_BRIDGE_MM, reveal_mm: float = 0.0
) -> tuple[Finding, ...]:
    """Report where the board between windows, or beside them, is too narrow to lie flat: once each, naming the windows.

    Args:
        mat: the mat in front.
        least_bridge_mm: the least that this shop cuts [mm], > 0.
        reveal_mm: how much larger its windows are on each side than those of the mat behind it [mm]. The ways out
            are gaps and borders of the mat behind.
    Source: common practice, no source.

    >>> from framecalc.mats.openings import Borders, Opening
    >>> from framecalc.mats.windows import arrange
    >>> photo = Opening(across_mm=100, up_mm=150)
    >>> borders = Borders(sides_mm=60, top_mm=60, bottom_mm=70)
    >>> mat = arrange([photo] * 2, columns=2, gap_across_mm=8, gap_up_mm=0, borders=borders)
    >>> [finding.code for finding in window_findings(mat)]
    ['windows.narrow-bridge']
    """
    require_positive(least_bridge_mm=least_bridge_mm)
    return (*_narrow_bridges(mat, least_bridge_mm, reveal_mm), *_narrow_borders(mat, reveal_mm))


def _narrow_bridges(mat: WindowMat, least_mm: float, reveal_mm: float) -> Iterator[Finding]:
    narrow = [bridge for bridge in bridges(mat) if bridge.width_mm < least_mm - TOLERANCE_MM]
    if not narrow:
        return
    one, other = narrow[0].between
    left = "of the upper mat is left, since the reveal takes {reveal} from either side" if reveal_mm else _LEFT
    many = ", the least of several narrow bridges" if len(narrow) > 1 else ""
    yield Finding(
        code="windows.narrow-bridge",
        severity=Severity.WARN,
        sentence=f"Between windows {one} and {other} only {{bridge}} {left}{many}: leave {{least}}.",
        why="A narrow bridge bends, and tears when the mat is handled.",
        source=USUAL_PRACTICE,
        argument="window_gap_mm",
        lengths={"bridge": narrow[0].width_mm, "least": least_mm, "reveal": reveal_mm},
        ways=tuple(_ways_to_a_bridge(narrow[0].width_mm, least_mm, reveal_mm)),
    )


def _ways_to_a_bridge(bridge_mm: float, least_mm: float, reveal_mm: float) -> Iterator[Way]:
    gap_mm = least_mm + 2 * reveal_mm
    yield Way(argument="window_gap_mm", value_mm=gap_mm, says="widen the gap", rounding=Rounding.UP)
    smaller_mm = reveal_mm - (least_mm - bridge_mm) / 2
    if reveal_mm and smaller_mm >= LEAST_REVEAL_MM:
        yield Way(
            argument="mat_reveal_mm", value_mm=smaller_mm, says="show less of the lower mat", rounding=Rounding.DOWN
        )


def _narrow_borders(mat: WindowMat, reveal_mm: float) -> Iterator[Finding]:
    narrow = {
        number: min(_sides_mm(mat, window), window.bottom_mm)
        for number, window in enumerate(mat.windows, start=1)
        if min(_sides_mm(mat, window), window.bottom_mm) < LEAST_BORDER_MM - TOLERANCE_MM
    }
    if not narrow:
        return
    yield Finding(
        code="windows.narrow-border",
        severity=Severity.WARN,
        sentence=f"Beside {_numbered(list(narrow))} the mat has a border of {{border}}: leave {{least}}.",
        why="A narrow border does not lie flat, and the lip covers part of it.",
        source=USUAL_PRACTICE,
        argument="mat_border_mm",
        lengths={"border": min(narrow.values()), "least": LEAST_BORDER_MM},
        ways=tuple(_ways_to_a_border(mat, LEAST_BORDER_MM + reveal_mm)),
    )


def _ways_to_a_border(mat: WindowMat, border_mm: float) -> Iterator[Way]:
    borders = (
        ("mat_border_mm", min(_sides_mm(mat, window) for window in mat.windows), "widen the borders"),
        ("mat_bottom_mm", min(window.bottom_mm for window in mat.windows), "widen the bottom border"),
    )
    for argument, narrowest_mm, says in borders:
        if narrowest_mm < LEAST_BORDER_MM - TOLERANCE_MM:
            yield Way(argument=argument, value_mm=border_mm, says=says, rounding=Rounding.UP)


def _sides_mm(mat: WindowMat, window: Window) -> float:
    """The narrowest of the borders that are cut alike: left, right and top."""
    return min(window.left_mm, mat.across_mm - window.right_mm, mat.up_mm - window.top_mm)


def _numbered(numbers: Sequence[int]) -> str:
    """Windows by their numbers: "window 1", "windows 1, 2 and 4"."""
    if len(numbers) == 1:
        return f"window {numbers[0]}"
    return f"windows {', '.join(str(number) for number in numbers[:-1])} and {numbers[-1]}"
