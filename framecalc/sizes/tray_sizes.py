"""The sizes of a tray: the artwork lies on a ledge, an even gap is left around it, and nothing laps over it.

The *inside* is measured between the walls, the *opening* between the inner edges of the ledge. The *bearing* is the
strip of ledge that carries the artwork: the ledge has to cross the gap first.
"""

from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

USUAL_GAP_MM = 6.0
"""Between artwork and wall, each side (1/4 in). Source: common practice, no source."""

LEAST_BEARING_MM = 6.0
"""The least strip of ledge that should carry the artwork (1/4 in), as a lip laps over a package. Source: common
practice, no source."""


class TraySizes(Record):
    """All sizes of a rectangular tray."""

    artwork_across_mm: float
    artwork_up_mm: float
    gap_mm: float
    inside_across_mm: float
    inside_up_mm: float
    outside_across_mm: float
    outside_up_mm: float
    opening_across_mm: float
    opening_up_mm: float
    bearing_mm: float


def tray_around(
    *, artwork_across_mm: float, artwork_up_mm: float, gap_mm: float, wall_mm: float, ledge_width_mm: float
) -> TraySizes:
    """Size a tray around an artwork.

    ``inside = artwork + 2 * gap``, ``outside = inside + 2 * wall``, ``opening = inside - 2 * ledge width``,
    ``bearing = ledge width - gap``.

    Args:
        artwork_across_mm, artwork_up_mm: the artwork at its largest [mm], > 0.
        gap_mm: open strip between artwork and wall, each side [mm], >= 0; zero is a finding.
        wall_mm: thickness of the wall [mm], > 0.
        ledge_width_mm: wall to the inner edge of the ledge [mm], > 0.
    Raises:
        OutOfRange: a length is out of its range.
        ImpossibleSize: the ledges meet.
    Source: plane geometry; the terms are common practice, no source.

    >>> tray = tray_around(artwork_across_mm=300, artwork_up_mm=400, gap_mm=6, wall_mm=10, ledge_width_mm=25)
    >>> tray.inside_across_mm, tray.outside_across_mm, tray.opening_across_mm, tray.bearing_mm
    (312, 332, 262, 19)
    """
    require_positive(artwork_across_mm=artwork_across_mm, artwork_up_mm=artwork_up_mm)
    require_positive(tray_wall_mm=wall_mm, tray_ledge_width_mm=ledge_width_mm)
    require_not_negative(tray_gap_mm=gap_mm)
    inside_across_mm, inside_up_mm = artwork_across_mm + 2 * gap_mm, artwork_up_mm + 2 * gap_mm
    _require_opening(min(inside_across_mm, inside_up_mm), ledge_width_mm=ledge_width_mm)
    return TraySizes(
        artwork_across_mm=artwork_across_mm,
        artwork_up_mm=artwork_up_mm,
        gap_mm=gap_mm,
        inside_across_mm=inside_across_mm,
        inside_up_mm=inside_up_mm,
        outside_across_mm=inside_across_mm + 2 * wall_mm,
        outside_up_mm=inside_up_mm + 2 * wall_mm,
        opening_across_mm=inside_across_mm - 2 * ledge_width_mm,
        opening_up_mm=inside_up_mm - 2 * ledge_width_mm,
        bearing_mm=ledge_width_mm - gap_mm,
    )


def tray_findings(tray: TraySizes) -> tuple[Finding, ...]:
    """Report where the tray leaves no gap, and where its ledge carries nothing of the artwork, or little.

    Args:
        tray: the sizes.
    Source: common practice, no source.

    >>> tray = tray_around(artwork_across_mm=300, artwork_up_mm=400, gap_mm=6, wall_mm=10, ledge_width_mm=5)
    >>> [finding.code for finding in tray_findings(tray)]
    ['tray.carries-nothing']
    """
    checks = (
        (tray.gap_mm <= TOLERANCE_MM, _NO_GAP),
        (tray.bearing_mm < LEAST_BEARING_MM - TOLERANCE_MM, _bearing_finding(tray)),
    )
    return tuple(finding for found, finding in checks if found)


def _require_opening(inside_mm: float, *, ledge_width_mm: float) -> None:
    if inside_mm - 2 * ledge_width_mm <= TOLERANCE_MM:
        raise ImpossibleSize(
            "Ledges meet in the middle: enter less than {half}, not {ledge}.",
            field="tray_ledge_width_mm",
            lengths={"ledge": ledge_width_mm, "half": inside_mm / 2},
        )


_NO_GAP = Finding(
    code="tray.no-gap",
    severity=Severity.STOP,
    sentence="The tray leaves no gap around the artwork; {usual} is usual.",
    why="An artwork as large as its tray does not go in, and the even gap is what the eye sees.",
    source="usual practice",
    argument="tray_gap_mm",
    lengths={"usual": USUAL_GAP_MM},
    ways=(Way(argument="tray_gap_mm", value_mm=USUAL_GAP_MM, says="leave the usual gap"),),
)


def _bearing_finding(tray: TraySizes) -> Finding:
    nothing = tray.bearing_mm <= TOLERANCE_MM
    found = "does not reach the artwork" if nothing else "carries {bearing} of the artwork"
    return Finding(
        code="tray.carries-nothing" if nothing else "tray.carries-little",
        severity=Severity.STOP if nothing else Severity.WARN,
        sentence=f"The ledge, {{ledge}} wide behind a gap of {{gap}}, {found}; {{limit}} or more is usual.",
        why="The ledge crosses the gap before it carries anything, and the screws go through what it carries.",
        source="usual practice",
        argument="tray_ledge_width_mm",
        lengths={
            "ledge": tray.bearing_mm + tray.gap_mm,
            "gap": tray.gap_mm,
            "bearing": tray.bearing_mm,
            "limit": LEAST_BEARING_MM,
        },
        ways=(
            Way(
                argument="tray_ledge_width_mm",
                value_mm=tray.gap_mm + LEAST_BEARING_MM,
                says="widen the ledge",
                rounding=Rounding.UP,
            ),
        ),
    )
