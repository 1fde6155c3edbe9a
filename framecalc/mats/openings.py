"""Openings of a mat: over the artwork, and around a sheet that floats; fillets; borders of equal look.

An *opening* is the size of a window at the artwork, the narrowest place of its bevel. A sheet *floats* when the window
shows its edges all round. A *fillet* is a thin strip along the window, or along the lip, that shows.
"""

from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.limits import require_not_negative, require_positive
from framecalc.mats.mat import USUAL_OVERLAP_MM
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM


class Opening(Record):
    """The size of a window."""

    across_mm: float
    up_mm: float


class Borders(Record):
    """The borders of a mat, from its windows to its outside."""

    sides_mm: float
    top_mm: float
    bottom_mm: float


def opening_over(*, artwork_across_mm: float, artwork_up_mm: float, overlap_mm: float) -> Opening:
    """Size a window that laps over its artwork.

    ``opening = artwork − 2·overlap``

    Args:
        artwork_across_mm, artwork_up_mm: [mm], > 0.
        overlap_mm: on each side [mm], ≥ 0.
    Raises:
        OutOfRange: length out of range.
        ImpossibleSize: the overlap leaves no window.
    Source: plane geometry.

    >>> opening_over(artwork_across_mm=127, artwork_up_mm=177.8, overlap_mm=3.175)
    Opening(across_mm=120.65, up_mm=171.45000000000002)
    """
    require_positive(artwork_across_mm=artwork_across_mm, artwork_up_mm=artwork_up_mm)
    require_not_negative(mat_overlap_mm=overlap_mm)
    narrow_mm = min(artwork_across_mm, artwork_up_mm)
    if narrow_mm - 2 * overlap_mm <= TOLERANCE_MM:
        raise ImpossibleSize(
            "No window left: enter an overlap of less than {half}, not {overlap}.",
            field="mat_overlap_mm",
            lengths={"overlap": overlap_mm, "half": narrow_mm / 2},
        )
    return Opening(across_mm=artwork_across_mm - 2 * overlap_mm, up_mm=artwork_up_mm - 2 * overlap_mm)


def opening_around(*, artwork_across_mm: float, artwork_up_mm: float, reveal_mm: float) -> Opening:
    """Size a window in which a sheet floats.

    ``opening = artwork + 2·reveal``

    Args:
        artwork_across_mm, artwork_up_mm: [mm], > 0.
        reveal_mm: on each side [mm], > 0; FLOAT_MM is usual.
    Raises:
        OutOfRange: length out of range.
    Source: plane geometry.

    >>> opening_around(artwork_across_mm=200, artwork_up_mm=300, reveal_mm=8).up_mm
    316
    """
    require_positive(artwork_across_mm=artwork_across_mm, artwork_up_mm=artwork_up_mm, float_reveal_mm=reveal_mm)
    return Opening(across_mm=artwork_across_mm + 2 * reveal_mm, up_mm=artwork_up_mm + 2 * reveal_mm)


def narrowed(opening: Opening, *, shows_mm: float) -> Opening:
    """Find what a fillet, a thin strip along the window or the lip, leaves in view.

    ``in view = opening − 2·what shows of the fillet``

    Args:
        shows_mm: what shows of the fillet, each side [mm], ≥ 0.
    Raises:
        OutOfRange: length out of range.
        ImpossibleSize: nothing stays in view.
    Source: plane geometry.

    >>> narrowed(Opening(across_mm=200, up_mm=300), shows_mm=4).across_mm
    192
    """
    require_not_negative(fillet_mm=shows_mm)
    if min(opening.across_mm, opening.up_mm) - 2 * shows_mm <= TOLERANCE_MM:
        raise ImpossibleSize(
            "Nothing left of {opening}: enter a fillet that shows under {shows}.",
            field="fillet_mm",
            lengths={"shows": shows_mm, "opening": min(opening.across_mm, opening.up_mm)},
        )
    return Opening(across_mm=opening.across_mm - 2 * shows_mm, up_mm=opening.up_mm - 2 * shows_mm)


def equal_visible_borders(
    *, visible_mm: float, bottom_extra_mm: float, covered_across_mm: float, covered_up_mm: float
) -> Borders:
    """Find the borders of which equal strips stay in view, once the lip covers its part.

    ``border = visible + covered``; the bottom has its extra on top of that.

    Args:
        visible_mm: what is to stay in view at the sides and at the top [mm], > 0.
        bottom_extra_mm: how much more is to stay in view at the bottom [mm].
        covered_across_mm, covered_up_mm: what the lip covers at each side, and at top and bottom [mm].
    Raises:
        OutOfRange: nothing is to stay in view.
    Source: plane geometry.

    >>> equal_visible_borders(visible_mm=55, bottom_extra_mm=10, covered_across_mm=4.5, covered_up_mm=5)
    Borders(sides_mm=59.5, top_mm=60, bottom_mm=70)
    """
    require_positive(visible_border_mm=visible_mm, visible_bottom_mm=visible_mm + bottom_extra_mm)
    return Borders(
        sides_mm=visible_mm + covered_across_mm,
        top_mm=visible_mm + covered_up_mm,
        bottom_mm=visible_mm + bottom_extra_mm + covered_up_mm,
    )


def larger_than_image_findings(
    opening: Opening, *, artwork_across_mm: float, artwork_up_mm: float
) -> tuple[Finding, ...]:
    """Report where a window that was typed is larger than its artwork, though the sheet is not to float.

    Source: plane geometry.

    >>> opening = Opening(across_mm=210, up_mm=240)
    >>> [finding.code for finding in larger_than_image_findings(opening, artwork_across_mm=200, artwork_up_mm=250)]
    ['windows.larger-than-image-across']
    """
    directions = (("across", opening.across_mm, artwork_across_mm), ("up", opening.up_mm, artwork_up_mm))
    return tuple(
        Finding(
            code=f"windows.larger-than-image-{direction}",
            severity=Severity.STOP,
            sentence=f"The window is {{window}} {direction}, and the artwork {{artwork}}: its edges show.",
            why="A window without overlap holds nothing, and the sheet falls through; to show the edges, let it float.",
            source="plane geometry",
            argument=f"window_{direction}_mm",
            lengths={"window": window_mm, "artwork": artwork_mm},
            ways=(
                Way(
                    argument=f"window_{direction}_mm",
                    value_mm=artwork_mm - 2 * USUAL_OVERLAP_MM,
                    says="lap over the artwork",
                    rounding=Rounding.DOWN,
                ),
            ),
        )
        for direction, window_mm, artwork_mm in directions
        if window_mm >= artwork_mm - TOLERANCE_MM
    )
