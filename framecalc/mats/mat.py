"""The mat: a sheet of board with a window, around the artwork.

The window laps over the artwork by the *overlap* on each side. A *border* is measured from the window to the outside of
the mat; the frame's lip covers a strip of it, and the rest is in view. A bottom border wider than the others is called
weighted.
"""

from collections.abc import Iterator

from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

USUAL_OVERLAP_MM = 3.0
"""What the window laps over the artwork, each side (1/8 in). Source: common practice, no source."""

LEAST_OVERLAP_MM = 2.0
"""Under this an edge may slip into view when the paper moves. Source: common practice, no source."""

LEAST_BORDER_MM = 20.0
"""Board between a window and the outside that still lies flat. Source: common practice, no source."""


class Mat(Record):
    """A mat with one window, or with several counted as one: from the outermost to the outermost.

    The overlap is the least that a window laps over its image; negative where the image's edges show.
    """

    window_across_mm: float
    window_up_mm: float
    border_sides_mm: float
    border_top_mm: float
    border_bottom_mm: float
    across_mm: float
    up_mm: float
    overlap_mm: float


class VisibleBorders(Record):
    """What stays in view of each border; negative where the lip reaches past the window."""

    sides_mm: float
    top_mm: float
    bottom_mm: float


def visible_borders(mat: Mat, *, covered_across_mm: float, covered_up_mm: float) -> VisibleBorders:
    """What stays in view of the borders beside a lip that covers a strip of the mat.

    ``visible = border - covered``.

    Args:
        mat: the mat.
        covered_across_mm, covered_up_mm: the strip that the lip covers at each side, and at top and bottom [mm].
    Source: plane geometry.

    >>> mat = Mat(window_across_mm=194, window_up_mm=244, border_sides_mm=60, border_top_mm=60, border_bottom_mm=70,
    ...           across_mm=314, up_mm=374, overlap_mm=3)
    >>> visible_borders(mat, covered_across_mm=5, covered_up_mm=5).bottom_mm
    65
    """
    return VisibleBorders(
        sides_mm=mat.border_sides_mm - covered_across_mm,
        top_mm=mat.border_top_mm - covered_up_mm,
        bottom_mm=mat.border_bottom_mm - covered_up_mm,
    )


def mat_findings(
    mat: Mat, *, covered_across_mm: float, covered_up_mm: float, reveal_mm: float = 0.0, floats: bool = False
) -> tuple[Finding, ...]:
    """Report where an edge of the artwork shows, a border hides behind the lip, or the bottom looks narrow.

    A sheet that floats has no overlap to speak of.

    Args:
        mat, covered_across_mm, covered_up_mm: as in `visible_borders`.
        reveal_mm: how much narrower each border of the mat in front is, where two lie together [mm].
    Source: common practice, no source.

    >>> mat = Mat(window_across_mm=198, window_up_mm=248, border_sides_mm=60, border_top_mm=60, border_bottom_mm=50,
    ...           across_mm=318, up_mm=358, overlap_mm=1)
    >>> [finding.code for finding in mat_findings(mat, covered_across_mm=5, covered_up_mm=5)]
    ['mat.small-overlap', 'mat.narrow-bottom']
    """
    visible = visible_borders(mat, covered_across_mm=covered_across_mm, covered_up_mm=covered_up_mm)
    hidden = min(visible.sides_mm, visible.top_mm, visible.bottom_mm) <= reveal_mm + TOLERANCE_MM
    checks = (
        (not floats and mat.overlap_mm < LEAST_OVERLAP_MM - TOLERANCE_MM, _overlap_finding(mat)),
        (hidden, _hidden_border_finding(mat, max(covered_across_mm, covered_up_mm), reveal_mm)),
        (mat.border_bottom_mm < mat.border_top_mm - TOLERANCE_MM, _narrow_bottom_finding(mat)),
    )
    return tuple(finding for found, finding in checks if found)


def _overlap_finding(mat: Mat) -> Finding:
    none = mat.overlap_mm <= TOLERANCE_MM
    return Finding(
        code="mat.no-overlap" if none else "mat.small-overlap",
        severity=Severity.STOP if none else Severity.WARN,
        sentence="The window laps over the artwork by {overlap}; {usual} is usual.",
        why="Paper grows, shrinks and hangs a little off true; with less, its edge may slip into the window.",
        source="usual practice",
        argument="mat_overlap_mm",
        lengths={"overlap": mat.overlap_mm, "usual": USUAL_OVERLAP_MM},
        ways=(Way(argument="mat_overlap_mm", value_mm=USUAL_OVERLAP_MM, says="lap over more", rounding=Rounding.UP),),
    )


def _hidden_border_finding(mat: Mat, covered_mm: float, reveal_mm: float) -> Finding:
    return Finding(
        code="mat.border-hidden",
        severity=Severity.STOP,
        sentence="The narrowest border of the mat is {border}, and the lip covers {covered}.",
        why="A border that hides behind the lip leaves no mat in view, and the lip reaches over the picture.",
        source="plane geometry",
        argument="mat_border_mm",
        lengths={
            "border": min(mat.border_sides_mm, mat.border_top_mm, mat.border_bottom_mm) - reveal_mm,
            "covered": covered_mm,
        },
        ways=tuple(_ways_into_view(mat, covered_mm + reveal_mm)),
    )


def _ways_into_view(mat: Mat, hidden_mm: float) -> Iterator[Way]:
    """Borders of which as much stays in view as lies flat."""
    borders = (
        ("mat_border_mm", min(mat.border_sides_mm, mat.border_top_mm), "widen the borders"),
        ("mat_bottom_mm", mat.border_bottom_mm, "widen the bottom border"),
    )
    for argument, border_mm, says in borders:
        if border_mm <= hidden_mm + TOLERANCE_MM:
            yield Way(argument=argument, value_mm=hidden_mm + LEAST_BORDER_MM, says=says, rounding=Rounding.UP)


def _narrow_bottom_finding(mat: Mat) -> Finding:
    return Finding(
        code="mat.narrow-bottom",
        severity=Severity.NOTE,
        sentence="The bottom border is {bottom}, narrower than the top at {top}.",
        why="A bottom narrower than the top looks as if the picture were slipping; it is usually as wide, or wider.",
        source="usual practice",
        argument="mat_bottom_mm",
        lengths={"bottom": mat.border_bottom_mm, "top": mat.border_top_mm},
        ways=(
            Way(
                argument="mat_bottom_mm",
                value_mm=mat.border_top_mm,
                says="make the bottom as wide as the top",
                rounding=Rounding.UP,
            ),
        ),
    )
