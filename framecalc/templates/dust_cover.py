"""The dust cover: paper over the back, a little inside the outer edge."""

from framecalc.limits import require_positive

INSET_MM = 3.0
"""It ends so far inside the outer edge, to show from no side (1/8 in; common practice, no source)."""


def cover_size_mm(*, outside_across_mm: float, outside_up_mm: float) -> tuple[float, float]:
    """Size a dust cover: ``outside − 2 · inset``, each way.

    Args:
        outside_across_mm, outside_up_mm: of the frame [mm]; of a polygon both are across its flats.
    Raises:
        OutOfRange: nothing is left of it.
    Source: common practice, no source.

    >>> cover_size_mm(outside_across_mm=406, outside_up_mm=306)
    (400.0, 300.0)
    """
    across_mm, up_mm = outside_across_mm - 2 * INSET_MM, outside_up_mm - 2 * INSET_MM
    require_positive(cover_across_mm=across_mm, cover_up_mm=up_mm)
    return across_mm, up_mm
