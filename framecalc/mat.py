"""The mat: a sheet of board with a window, around the artwork.

The window laps over the artwork by the *overlap* on each side. A *border* is measured from the window to the outside of
the mat; the frame's lip covers a strip of it, and the rest is in view. A bottom border wider than the others is called
weighted.
"""

from dataclasses import dataclass

from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.ranges import require_not_negative, require_positive
from framecalc.units import TOLERANCE_MM

USUAL_OVERLAP_MM = 3.0
"""What the window laps over the artwork, each side (1/8 in). Source: common practice, no source."""

LEAST_OVERLAP_MM = 2.0
"""Under this an edge may slip into view when the paper moves. Source: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mat:
    """A mat with one window."""

    window_across_mm: float
    window_up_mm: float
    border_sides_mm: float
    border_top_mm: float
    border_bottom_mm: float
    across_mm: float
    up_mm: float
    overlap_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class VisibleBorders:
    """What stays in view of each border; negative where the lip reaches past the window."""

    sides_mm: float
    top_mm: float
    bottom_mm: float


def mat_around(
    *, artwork_across_mm: float, artwork_up_mm: float, overlap_mm: float, border_mm: float, bottom_mm: float
) -> Mat:
    """Size a mat around an artwork, from its borders.

    ``window = artwork - 2 * overlap``, ``across = window + 2 * border``, ``up = window + border + bottom``.

    Args:
        artwork_across_mm, artwork_up_mm: the artwork at its largest [mm], > 0.
        overlap_mm: what the window laps over the artwork, each side [mm], >= 0.
        border_mm: the borders at the sides and the top [mm], > 0.
        bottom_mm: the border at the bottom [mm], > 0.
    Raises:
        ImpossibleSize: a length is out of range, or the overlap leaves no window.
    Source: plane geometry; the terms are common practice, no source.

    >>> mat = mat_around(artwork_across_mm=200, artwork_up_mm=250, overlap_mm=3, border_mm=60, bottom_mm=70)
    >>> mat.window_across_mm, mat.across_mm, mat.up_mm
    (194, 314, 374)
    """
    require_positive(mat_border_mm=border_mm, mat_bottom_mm=bottom_mm)
    window_across_mm, window_up_mm = _window(artwork_across_mm, artwork_up_mm, overlap_mm)
    return Mat(
        window_across_mm=window_across_mm,
        window_up_mm=window_up_mm,
        border_sides_mm=border_mm,
        border_top_mm=border_mm,
        border_bottom_mm=bottom_mm,
        across_mm=window_across_mm + 2 * border_mm,
        up_mm=window_up_mm + border_mm + bottom_mm,
        overlap_mm=overlap_mm,
    )


def mat_to_fill(
    *,
    across_mm: float,
    up_mm: float,
    artwork_across_mm: float,
    artwork_up_mm: float,
    overlap_mm: float,
    bottom_extra_mm: float,
) -> Mat:
    """Size a mat that fills a given outside: the borders are what remains beside the window.

    ``sides = (across - window) / 2``, ``top = (up - window - extra) / 2``, ``bottom = top + extra``.

    Args:
        across_mm, up_mm: the outside of the mat [mm], > 0.
        artwork_across_mm, artwork_up_mm, overlap_mm: as in `mat_around`.
        bottom_extra_mm: how much wider the bottom is than the top [mm].
    Raises:
        ImpossibleSize: a length is out of range, or a border comes out at nothing.
    Source: plane geometry; the terms are common practice, no source.

    >>> mat = mat_to_fill(across_mm=314, up_mm=374, artwork_across_mm=200, artwork_up_mm=250, overlap_mm=3,
    ...                   bottom_extra_mm=10)
    >>> mat.border_sides_mm, mat.border_top_mm, mat.border_bottom_mm
    (60.0, 60.0, 70.0)
    """
    window_across_mm, window_up_mm = _window(artwork_across_mm, artwork_up_mm, overlap_mm)
    sides_mm, top_mm = (across_mm - window_across_mm) / 2, (up_mm - window_up_mm - bottom_extra_mm) / 2
    _require_borders(across_mm, window_across_mm, sides_mm, field="artwork_across_mm")
    _require_borders(up_mm, window_up_mm, min(top_mm, top_mm + bottom_extra_mm), field="artwork_up_mm")
    return Mat(
        window_across_mm=window_across_mm,
        window_up_mm=window_up_mm,
        border_sides_mm=sides_mm,
        border_top_mm=top_mm,
        border_bottom_mm=top_mm + bottom_extra_mm,
        across_mm=across_mm,
        up_mm=up_mm,
        overlap_mm=overlap_mm,
    )


def visible_borders(mat: Mat, *, covered_across_mm: float, covered_up_mm: float) -> VisibleBorders:
    """What stays in view of the borders beside a lip that covers a strip of the mat.

    ``visible = border - covered``.

    Args:
        mat: the mat.
        covered_across_mm, covered_up_mm: the strip that the lip covers at each side, and at top and bottom [mm].
    Source: plane geometry.

    >>> mat = mat_around(artwork_across_mm=200, artwork_up_mm=250, overlap_mm=3, border_mm=60, bottom_mm=70)
    >>> visible_borders(mat, covered_across_mm=5, covered_up_mm=5).bottom_mm
    65
    """
    return VisibleBorders(
        sides_mm=mat.border_sides_mm - covered_across_mm,
        top_mm=mat.border_top_mm - covered_up_mm,
        bottom_mm=mat.border_bottom_mm - covered_up_mm,
    )


def mat_findings(mat: Mat, *, covered_across_mm: float, covered_up_mm: float) -> tuple[Finding, ...]:
    """Say where an edge of the artwork shows in the window, a border hides behind the lip, or the bottom looks narrow.

    Args:
        mat, covered_across_mm, covered_up_mm: as in `visible_borders`.
    Source: common practice, no source.

    >>> mat = mat_around(artwork_across_mm=200, artwork_up_mm=250, overlap_mm=1, border_mm=60, bottom_mm=50)
    >>> [finding.code for finding in mat_findings(mat, covered_across_mm=5, covered_up_mm=5)]
    ['mat.small-overlap', 'mat.narrow-bottom']
    """
    visible = visible_borders(mat, covered_across_mm=covered_across_mm, covered_up_mm=covered_up_mm)
    hidden = min(visible.sides_mm, visible.top_mm, visible.bottom_mm) <= TOLERANCE_MM
    checks = (
        (mat.overlap_mm < LEAST_OVERLAP_MM - TOLERANCE_MM, _overlap_finding(mat)),
        (hidden, _hidden_border_finding(mat, max(covered_across_mm, covered_up_mm))),
        (mat.border_bottom_mm < mat.border_top_mm - TOLERANCE_MM, _narrow_bottom_finding(mat)),
    )
    return tuple(finding for found, finding in checks if found)


def _window(artwork_across_mm: float, artwork_up_mm: float, overlap_mm: float) -> tuple[float, float]:
    require_positive(artwork_across_mm=artwork_across_mm, artwork_up_mm=artwork_up_mm)
    require_not_negative(mat_overlap_mm=overlap_mm)
    narrow_mm = min(artwork_across_mm, artwork_up_mm)
    if narrow_mm - 2 * overlap_mm <= TOLERANCE_MM:
        raise ImpossibleSize(
            "An overlap of {overlap} leaves no window: less than {half} would do.",
            field="mat_overlap_mm",
            lengths={"overlap": overlap_mm, "half": narrow_mm / 2},
        )
    return artwork_across_mm - 2 * overlap_mm, artwork_up_mm - 2 * overlap_mm


def _require_borders(outside_mm: float, window_mm: float, border_mm: float, *, field: str) -> None:
    if border_mm <= TOLERANCE_MM:
        raise ImpossibleSize(
            "A window of {window} leaves no border in a mat of {outside}: a smaller artwork or a larger mat would do.",
            field=field,
            lengths={"window": window_mm, "outside": outside_mm},
        )


def _overlap_finding(mat: Mat) -> Finding:
    none = mat.overlap_mm <= TOLERANCE_MM
    return Finding(
        code="mat.no-overlap" if none else "mat.small-overlap",
        severity=Severity.STOP if none else Severity.WARN,
        sentence="The window laps over the artwork by {overlap}; {usual} is usual.",
        why="Paper grows, shrinks and hangs a little off true; with less, its edge may slip into the window.",
        source="common practice, no source",
        argument="mat_overlap_mm",
        lengths={"overlap": mat.overlap_mm, "usual": USUAL_OVERLAP_MM},
        ways=(Way(argument="mat_overlap_mm", value_mm=USUAL_OVERLAP_MM, says="lap over more", rounding=Rounding.UP),),
    )


def _hidden_border_finding(mat: Mat, covered_mm: float) -> Finding:
    return Finding(
        code="mat.border-hidden",
        severity=Severity.STOP,
        sentence="The narrowest border of the mat is {border}, and the lip covers {covered} of it.",
        why="A border that hides behind the lip leaves no mat in view, and the lip reaches over the picture.",
        source="plane geometry",
        argument="mat_border_mm",
        lengths={
            "border": min(mat.border_sides_mm, mat.border_top_mm, mat.border_bottom_mm),
            "covered": covered_mm,
        },
    )


def _narrow_bottom_finding(mat: Mat) -> Finding:
    return Finding(
        code="mat.narrow-bottom",
        severity=Severity.NOTE,
        sentence="The bottom border is {bottom}, narrower than the top at {top}.",
        why="A bottom narrower than the top looks as if the picture were slipping; it is usually as wide, or wider.",
        source="common practice, no source",
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
