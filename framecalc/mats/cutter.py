"""Setting a mat cutter: the distances of each window from the edges of the mat, from behind or in front; the bevel.

A mat is commonly cut face down: then left and right are changed over, and the blade leans so that the opening on the
face is larger than on the back. Windows are measured at the back, next to the artwork; the *bevel* is the white slope
that shows around them. The *face opening* is what the face paper leaves.
"""

from math import radians, sin, tan

from framecalc.limits import require_between, require_positive
from framecalc.mats.windows import Window, WindowMat
from framecalc.records import Record

BEVEL_DEG = 45.0
"""The slope of a bevel, from the face. Source: common practice, no source."""


class CutterSetting(Record):
    """One window: how far its four cuts are from the edges of the mat, as it lies before the person who cuts it."""

    window: int
    left_mm: float
    right_mm: float
    top_mm: float
    bottom_mm: float
    from_behind: bool


class Bevel(Record):
    """The white line around a window: along the slope, and as seen from the front."""

    slope_mm: float
    seen_mm: float


def cutter_settings(mat: WindowMat, *, from_behind: bool) -> tuple[CutterSetting, ...]:
    """Find the distances that a cutter is set to, window by window.

    From behind, left and right change places: the mat is turned over about its upright axis, top stays top.

    Args:
        from_behind: whether the mat lies face down.
    Source: plane geometry; cutting face down is common practice, no source.

    >>> window = Window(left_mm=50, bottom_mm=70, across_mm=100, up_mm=150)
    >>> setting, = cutter_settings(WindowMat(across_mm=220, up_mm=280, windows=(window,)), from_behind=True)
    >>> setting.left_mm, setting.right_mm, setting.top_mm, setting.bottom_mm
    (70, 50, 60, 70)
    """
    return tuple(
        _setting(number, window, mat, from_behind=from_behind) for number, window in enumerate(mat.windows, start=1)
    )


def turned_over(mat: WindowMat) -> WindowMat:
    """The mat as it lies face down, for a template from behind: windows change from left to right.

    Source: plane geometry.

    >>> window = Window(left_mm=50, bottom_mm=70, across_mm=100, up_mm=150)
    >>> turned_over(WindowMat(across_mm=220, up_mm=280, windows=(window,))).windows[0].left_mm
    70
    """
    windows = tuple(
        Window(
            left_mm=mat.across_mm - window.right_mm,
            bottom_mm=window.bottom_mm,
            across_mm=window.across_mm,
            up_mm=window.up_mm,
        )
        for window in mat.windows
    )
    return WindowMat(across_mm=mat.across_mm, up_mm=mat.up_mm, windows=windows)


def bevel(thickness_mm: float, *, bevel_deg: float = BEVEL_DEG) -> Bevel:
    """Find the white line that a bevel shows.

    ``slope = thickness / sin φ``, ``seen = thickness / tan φ``

    Args:
        thickness_mm: of the board [mm], > 0.
        bevel_deg: φ, from the face, 30 to 90 [°]; 90 is a straight cut, which shows nothing.
    Raises:
        OutOfRange: thickness or angle out of range.
    Source: plane geometry.

    >>> white = bevel(1.45)
    >>> round(white.slope_mm, 2), round(white.seen_mm, 2)
    (2.05, 1.45)
    """
    require_positive(board_thickness_mm=thickness_mm)
    require_between(30, 90, bevel_deg=bevel_deg)
    slope_rad = radians(bevel_deg)
    seen_mm = 0.0 if bevel_deg == 90 else thickness_mm / tan(slope_rad)
    return Bevel(slope_mm=thickness_mm / sin(slope_rad), seen_mm=seen_mm)


def face_openings(mat: WindowMat, *, bevel: Bevel) -> WindowMat:
    """The openings that the face paper leaves: each window larger by what is seen of the bevel on every side.

    Source: plane geometry.

    >>> window = Window(left_mm=50, bottom_mm=70, across_mm=100, up_mm=150)
    >>> mat = WindowMat(across_mm=220, up_mm=280, windows=(window,))
    >>> face_openings(mat, bevel=Bevel(slope_mm=2, seen_mm=1.5)).windows[0].across_mm
    103.0
    """
    seen_mm = bevel.seen_mm
    windows = tuple(
        Window(
            left_mm=window.left_mm - seen_mm,
            bottom_mm=window.bottom_mm - seen_mm,
            across_mm=window.across_mm + 2 * seen_mm,
            up_mm=window.up_mm + 2 * seen_mm,
        )
        for window in mat.windows
    )
    return WindowMat(across_mm=mat.across_mm, up_mm=mat.up_mm, windows=windows)


def _setting(number: int, window: Window, mat: WindowMat, *, from_behind: bool) -> CutterSetting:
    left_mm, right_mm = window.left_mm, mat.across_mm - window.right_mm
    return CutterSetting(
        window=number,
        left_mm=right_mm if from_behind else left_mm,
        right_mm=left_mm if from_behind else right_mm,
        top_mm=mat.up_mm - window.top_mm,
        bottom_mm=window.bottom_mm,
        from_behind=from_behind,
    )
