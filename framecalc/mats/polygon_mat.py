"""The mat of a frame of other than four sides: it fills the package, and its one window is parallel to its outside.

All measures are across the flats, which stand for across and for up. One border goes all round, and the sheet behind
the window is of the same form: as large as the window asks for.
"""

from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Severity
from framecalc.limits import require_not_negative, require_positive
from framecalc.mats.openings import Opening
from framecalc.mats.windows import Window, place_freely
from framecalc.mats.wished_mat import Image, Matting, MatWish, matting_of
from framecalc.units import TOLERANCE_MM


def mat_in_polygon(wish: MatWish, *, flats_mm: float, covered_mm: float) -> Matting:
    """Set out a mat that fills a regular polygon.

    ``window = outside − 2·border``, or as typed; ``sheet = window + 2·overlap``, or ``window − 2·float``

    Args:
        wish: its border, its overlap or float, and its opening where that is typed; further windows are left out.
        flats_mm: the outside of the mat, across its flats [mm], > 0.
        covered_mm: what the lip covers; it counts only for a border wished for in view [mm].
    Raises:
        OutOfRange: a length is out of range.
        ImpossibleSize: no window or no sheet is left, the sheet is larger than its mat, or an opening of two measures.
    Source: plane geometry (parallels of a regular polygon are alike, their sides as far apart all round).

    >>> wish = MatWish(overlap_mm=3, border_mm=60, bottom_mm=70)
    >>> matting = mat_in_polygon(wish, flats_mm=300, covered_mm=5)
    >>> matting.mat.window_across_mm, matting.images[0].across_mm
    (180.0, 186.0)
    """
    require_positive(flats_mm=flats_mm, mat_border_mm=wish.border_mm)
    require_not_negative(mat_overlap_mm=wish.overlap_mm)
    window_mm = _window_mm(wish, flats_mm, covered_mm)
    border_mm = (flats_mm - window_mm) / 2
    sheet_mm = window_mm - 2 * wish.float_mm if wish.float_mm else window_mm + 2 * wish.overlap_mm
    _require_sheet(wish, window_mm, border_mm, sheet_mm)
    window = Window(left_mm=border_mm, bottom_mm=border_mm, across_mm=window_mm, up_mm=window_mm)
    windows = place_freely([window], across_mm=flats_mm, up_mm=flats_mm)
    return matting_of(windows, [Image(across_mm=sheet_mm, up_mm=sheet_mm)])


def one_window_finding(sides: int, *, further: int) -> Finding:
    """Report windows that a mat of other than four sides leaves out.

    Source: derived.

    >>> one_window_finding(6, further=1).code
    'mat.one-window'
    """
    others = "the other one is" if further == 1 else f"the other {further} are"
    return Finding(
        code="mat.one-window",
        severity=Severity.STOP,
        sentence=f"A mat of {sides} sides has one window here: {others} left out. Remove what you do not want.",
        why="Windows beside one another are set out in rectangular mats only.",
        source="derived",
        argument="windows",
    )


def _window_mm(wish: MatWish, flats_mm: float, covered_mm: float) -> float:
    if wish.opening:
        return _typed_mm(wish.opening, flats_mm)
    border_mm = wish.border_mm + (covered_mm if wish.in_view else 0.0)
    window_mm = flats_mm - 2 * border_mm
    if window_mm <= TOLERANCE_MM:
        raise ImpossibleSize(
            "No window left of {outside}: enter a narrower border than {border}.",
            field="mat_border_mm",
            lengths={"outside": flats_mm, "border": wish.border_mm},
        )
    return window_mm


def _typed_mm(opening: Opening, flats_mm: float) -> float:
    if abs(opening.across_mm - opening.up_mm) > TOLERANCE_MM:
        wording = "Enter the same across and up: it is the window's measure across its flats."
        raise ImpossibleSize(wording, field="window_up_mm")
    require_positive(window_across_mm=opening.across_mm)
    if opening.across_mm >= flats_mm - TOLERANCE_MM:
        raise ImpossibleSize(
            "No border left: enter a window smaller than {outside}.",
            field="window_across_mm",
            lengths={"outside": flats_mm},
        )
    return opening.across_mm


def _require_sheet(wish: MatWish, window_mm: float, border_mm: float, sheet_mm: float) -> None:
    if sheet_mm <= TOLERANCE_MM:
        raise ImpossibleSize(
            "No sheet left: let less than {half} show around it.",
            field="float_reveal_mm",
            lengths={"half": window_mm / 2},
        )
    if not wish.float_mm and wish.overlap_mm > border_mm + TOLERANCE_MM:
        raise ImpossibleSize(
            "Overlap {border} at most: the mat has no more border.",
            field="mat_overlap_mm",
            lengths={"border": border_mm},
        )
