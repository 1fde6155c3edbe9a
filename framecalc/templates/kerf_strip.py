"""The kerf strip: ten pieces cut with no allowance, and a plate of holes that tells the kerf by which of them is snug.

Pushed together the pieces measure ten kerfs less than their outlines. One of them goes into the plate on edge: a hole
grows by a kerf, a piece shrinks by one, so the hole drawn two kerfs too narrow is *snug*; a wider one is *loose*, a
narrower one *tight*.
"""

from framecalc.errors import OutOfRange
from framecalc.templates.shapes import APART_MM, box
from framecalc.templates.template import Side, Template, TemplateStep, Word

PIECES, PIECE_ACROSS_MM, PIECE_UP_MM = 10, 10.0, 24.0
KERFS_MM = (0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5)
"""What the holes stand for: a thin beam in card to a wide one in plywood (common practice, no source)."""

MOST_KERF_MM = 1.0
"""A strip that tells more was measured wrong, or a piece is missing. Ours, no source."""

PLATE_STEP_MM, PLATE_MARGIN_MM, PLATE_LETTER_MM = 22.0, 8.0, 3.5
"""How far apart the holes stand, what stays round them, how large their names are. Ours, no source."""


def kerf_of_strip(*, measured_mm: float) -> float:
    """Find the kerf from the ten pieces pushed together: `(100 mm - measured) / 10`.

    Args:
        measured_mm: the ten pieces [mm], 90 to 100.
    Raises:
        OutOfRange: it is longer than the outlines, or shorter than ten kerfs of 1 mm.
    Source: derived.

    >>> round(kerf_of_strip(measured_mm=98.2), 6)
    0.18
    """
    whole_mm = PIECES * PIECE_ACROSS_MM
    if not whole_mm - PIECES * MOST_KERF_MM <= measured_mm <= whole_mm:
        raise OutOfRange("Enter 90 to 100 mm: ten pieces, pushed together.", field="measured_mm")
    return (whole_mm - measured_mm) / PIECES


def kerf_strip() -> Template:
    """Make the strip; it is cut with no allowance for any kerf.

    Source: plane geometry.

    >>> strip = kerf_strip()
    >>> len(strip.outlines), len(strip.holes), strip.across_mm
    (11, 8, 192.0)
    """
    plate_across_mm = PLATE_STEP_MM * len(KERFS_MM) + 2 * PLATE_MARGIN_MM
    plate_up_mm = PIECE_UP_MM + 2 * PLATE_MARGIN_MM + 2 * PLATE_LETTER_MM
    pieces_at_mm = plate_up_mm + APART_MM
    step_mm = PIECE_ACROSS_MM + APART_MM
    low_mm = PLATE_MARGIN_MM + 2 * PLATE_LETTER_MM
    lefts_mm = [PLATE_MARGIN_MM + number * PLATE_STEP_MM + 6 for number in range(len(KERFS_MM))]
    return Template(
        name="kerf-strip",
        title="Kerf strip",
        purpose="Cut it with no kerf set, measure the ten pieces pushed together, and type that on the Shop page.",
        side=Side.EITHER,
        step=TemplateStep.CUT,
        outlines=(
            box(0, 0, plate_across_mm, plate_up_mm),
            *(box(number * step_mm, pieces_at_mm, PIECE_ACROSS_MM, PIECE_UP_MM) for number in range(PIECES)),
        ),
        holes=tuple(
            box(left_mm, low_mm + kerf_mm, PIECE_ACROSS_MM - 2 * kerf_mm, PIECE_UP_MM - 2 * kerf_mm)
            for left_mm, kerf_mm in zip(lefts_mm, KERFS_MM, strict=True)
        ),
        words=tuple(
            Word(text=f"{kerf_mm:g} mm", at=(left_mm - 2, PLATE_MARGIN_MM), letter_mm=PLATE_LETTER_MM)
            for left_mm, kerf_mm in zip(lefts_mm, KERFS_MM, strict=True)
        ),
    )
