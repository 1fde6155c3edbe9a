"""What the lip, and a fillet beside it, leave in view of an image without a mat.

The sheet lies in the middle of the frame. What was measured as the image is to be seen: an edge of it that the lip or
the fillet reaches over is a stop, since wood that is cut too narrow in sight cannot be undone.
"""

from collections.abc import Iterator

from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.mats.openings import Opening
from framecalc.mats.seen import SeenImage
from framecalc.units import TOLERANCE_MM


def covered_image_findings(
    seen: SeenImage,
    in_view: Opening,
    *,
    sheet_across_mm: float,
    sheet_up_mm: float,
    clearance_across_mm: float,
    clearance_up_mm: float,
    rabbet_width_mm: float,
    fillet_mm: float,
) -> tuple[Finding, ...]:
    """Report where the lip or a fillet covers part of the image of a sheet that lies in the middle.

    Args:
        seen: the image on its sheet.
        in_view: what stays in view inside the lip and the fillet.
        sheet_across_mm, sheet_up_mm: the sheet [mm], > 0.
        clearance_across_mm, clearance_up_mm: the total looseness [mm].
        rabbet_width_mm: rabbet wall to sight edge [mm].
        fillet_mm: what shows of a fillet beside the lip, each side [mm]; 0 without one.
    Source: plane geometry.

    >>> image = SeenImage(across_mm=200, up_mm=250, left_mm=2, below_mm=75)
    >>> found = covered_image_findings(image, Opening(across_mm=291, up_mm=391), sheet_across_mm=300, sheet_up_mm=400,
    ...     clearance_across_mm=3, clearance_up_mm=3, rabbet_width_mm=6, fillet_mm=0)
    >>> [(finding.code, finding.lengths["covered"]) for finding in found]
    [('image.covered-across', 2.5)]
    """
    across_mm = _covered_mm(sheet_across_mm, in_view.across_mm, seen.left_mm, seen.across_mm)
    up_mm = _covered_mm(sheet_up_mm, in_view.up_mm, seen.below_mm, seen.up_mm)
    directions = (("across", across_mm, clearance_across_mm), ("up", up_mm, clearance_up_mm))
    return tuple(
        _covered(
            direction, covered_mm, fillet_mm, _ways(direction, covered_mm, clearance_mm, rabbet_width_mm, fillet_mm)
        )
        for direction, covered_mm, clearance_mm in directions
        if covered_mm > TOLERANCE_MM
    )


def _covered_mm(sheet_mm: float, in_view_mm: float, before_mm: float, image_mm: float) -> float:
    """The wider of the strips covered at the two ends of an image; negative where it is clear of both."""
    hidden_mm = (sheet_mm - in_view_mm) / 2
    return hidden_mm - min(before_mm, sheet_mm - before_mm - image_mm)


def _covered(direction: str, covered_mm: float, fillet_mm: float, ways: Iterator[Way]) -> Finding:
    by = "The lip and the fillet cover" if fillet_mm else "The lip covers"
    return Finding(
        code=f"image.covered-{direction}",
        severity=Severity.STOP,
        sentence=f"{by} {{covered}} of the image, {direction}.",
        why="What was measured as the image is to be seen, with its sheet in the middle of the frame.",
        source="plane geometry",
        argument=f"image_{direction}_mm",
        lengths={"covered": covered_mm},
        ways=tuple(ways),
    )


def _ways(
    direction: str, covered_mm: float, clearance_mm: float, rabbet_width_mm: float, fillet_mm: float
) -> Iterator[Way]:
    """The cheapest first: a narrower fillet, a narrower rabbet, a larger frame."""
    if fillet_mm - covered_mm > TOLERANCE_MM:
        yield _less("fillet_mm", fillet_mm - covered_mm, "let less of the fillet show")
    if rabbet_width_mm - covered_mm > TOLERANCE_MM:
        yield _less("rabbet_width_mm", rabbet_width_mm - covered_mm, "cut the rabbet narrower")
    yield Way(
        argument=f"clearance_{direction}_mm",
        value_mm=clearance_mm + 2 * covered_mm,
        says="make the frame larger by its clearance",
        rounding=Rounding.UP,
    )


def _less(argument: str, value_mm: float, says: str) -> Way:
    return Way(argument=argument, value_mm=value_mm, says=says, rounding=Rounding.DOWN)
