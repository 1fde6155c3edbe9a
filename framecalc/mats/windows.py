"""Mats with several windows, in rows, columns, grids or placed by hand; and mats in two layers.

A *gap* lies between two neighbouring windows, a *bridge* is the board that is left there. With two mats, the lower
one's window is the opening and the upper one's is larger by the *reveal* on every side. Windows are measured as seen
from the front, from the lower left corner of the mat.
"""

from collections.abc import Iterable, Sequence
from itertools import accumulate, combinations
from math import hypot

from framecalc.errors import ImpossibleSize
from framecalc.limits import require_between, require_positive
from framecalc.mats.mat import LEAST_BORDER_MM
from framecalc.mats.openings import Borders, Opening
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

LEAST_BRIDGE_MM = 12.0
"""Board between two windows under which it bends and tears (1/2 in). Source: common practice, no source."""

MOST_WINDOWS = 50
"""More than a mat is cut with by hand."""


class Window(Record):
    """A window where it lies in its mat, from the lower left corner, as seen from the front."""

    left_mm: float
    bottom_mm: float
    across_mm: float
    up_mm: float

    @property
    def right_mm(self) -> float:
        """Its right edge."""
        return self.left_mm + self.across_mm

    @property
    def top_mm(self) -> float:
        """Its upper edge."""
        return self.bottom_mm + self.up_mm


class WindowMat(Record):
    """A mat with its windows."""

    across_mm: float
    up_mm: float
    windows: tuple[Window, ...]


def arrange(
    openings: Sequence[Opening],
    *,
    columns: int,
    gap_across_mm: float,
    gap_up_mm: float,
    borders: Borders,
) -> WindowMat:
    """Set windows out in rows from the top left, with equal gaps, and size the mat around them.

    A column is as wide as its widest window, a row as high as its highest; each window stands in the middle of its
    place. One column makes a column, as many columns as windows a row.

    Args:
        openings: row by row from the top, each from the left.
        columns: windows in a row, 1 to their number.
        gap_across_mm, gap_up_mm: between two columns and two rows [mm], > 0 where there are two.
        borders: from the outermost windows to the outside [mm], each > 0.
    Raises:
        OutOfRange: length or number out of range.
    Source: plane geometry.

    >>> photo = Opening(across_mm=100, up_mm=150)
    >>> borders = Borders(sides_mm=60, top_mm=60, bottom_mm=70)
    >>> mat = arrange([photo, photo], columns=2, gap_across_mm=25, gap_up_mm=0, borders=borders)
    >>> mat.across_mm, mat.up_mm, mat.windows[1].left_mm
    (345.0, 280.0, 185.0)
    """
    _require_openings(openings, columns)
    rows = [openings[start : start + columns] for start in range(0, len(openings), columns)]
    _require_gaps(columns, len(rows), gap_across_mm, gap_up_mm)
    require_positive(border_sides_mm=borders.sides_mm, border_top_mm=borders.top_mm, border_bottom_mm=borders.bottom_mm)
    wide = [max(opening.across_mm for opening in openings[column::columns]) for column in range(columns)]
    high = [max(opening.up_mm for opening in row) for row in rows]
    lefts = _starts(wide, gap_across_mm, borders.sides_mm)
    tops = _starts(high, gap_up_mm, borders.top_mm)
    up_mm = tops[-1] + high[-1] + borders.bottom_mm
    windows = tuple(
        _in_the_middle(opening, left_mm=left, top_mm=up_mm - top, across_mm=across, up_mm=up)
        for row, top, up in zip(rows, tops, high, strict=True)
        for opening, left, across in zip(row, lefts, wide, strict=False)
    )
    return WindowMat(across_mm=lefts[-1] + wide[-1] + borders.sides_mm, up_mm=up_mm, windows=windows)


def place_freely(windows: Iterable[Window], *, across_mm: float, up_mm: float) -> WindowMat:
    """Take windows as they are placed by hand.

    Args:
        windows: each inside the mat, none overlapping another.
        across_mm, up_mm: the outside of the mat [mm], > 0.
    Raises:
        OutOfRange: length or number out of range.
        ImpossibleSize: a window reaches out of the mat, or into another.
    Source: plane geometry.

    >>> window = Window(left_mm=50, bottom_mm=60, across_mm=100, up_mm=150)
    >>> len(place_freely([window], across_mm=200, up_mm=300).windows)
    1
    """
    windows = tuple(windows)
    require_positive(across_mm=across_mm, up_mm=up_mm)
    require_between(1, MOST_WINDOWS, windows_count=len(windows))
    for number, window in enumerate(windows, start=1):
        _require_inside(number, window, across_mm, up_mm)
    for (one, window), (other, following) in combinations(enumerate(windows, start=1), 2):
        if gap_between_mm(window, following) <= TOLERANCE_MM:
            raise ImpossibleSize(
                f"Windows {one} and {other} overlap: leave {{least}} of board between them.",
                field="windows",
                lengths={"least": LEAST_BRIDGE_MM},
            )
    return WindowMat(across_mm=across_mm, up_mm=up_mm, windows=windows)


def upper_mat(lower: WindowMat, *, reveal_mm: float) -> WindowMat:
    """Cut the upper of two mats: each window larger by the reveal on every side.

    Args:
        reveal_mm: what shows of the lower mat [mm], > 0.
    Raises:
        OutOfRange: reveal out of range.
        ImpossibleSize: a window would reach the outside of the mat, or another window.
    Source: plane geometry.

    >>> lower = place_freely([Window(left_mm=50, bottom_mm=60, across_mm=100, up_mm=150)], across_mm=200, up_mm=300)
    >>> upper_mat(lower, reveal_mm=6).windows[0].across_mm
    112
    """
    require_positive(mat_reveal_mm=reveal_mm)
    windows = (
        Window(
            left_mm=window.left_mm - reveal_mm,
            bottom_mm=window.bottom_mm - reveal_mm,
            across_mm=window.across_mm + 2 * reveal_mm,
            up_mm=window.up_mm + 2 * reveal_mm,
        )
        for window in lower.windows
    )
    try:
        return place_freely(windows, across_mm=lower.across_mm, up_mm=lower.up_mm)
    except ImpossibleSize as refusal:
        raise ImpossibleSize(
            f"In the upper mat: {refusal.wording} Or a smaller reveal.", field="mat_reveal_mm", lengths=refusal.lengths
        ) from refusal


def gap_between_mm(one: Window, other: Window) -> float:
    """Measure the board between two windows: straight across where they face each other, else from corner to corner.

    Negative or nothing where they run into each other.

    Source: plane geometry.

    >>> gap_between_mm(Window(left_mm=0, bottom_mm=0, across_mm=10, up_mm=10),
    ...                Window(left_mm=13, bottom_mm=14, across_mm=10, up_mm=10))
    5.0
    """
    across_mm = max(other.left_mm - one.right_mm, one.left_mm - other.right_mm)
    up_mm = max(other.bottom_mm - one.top_mm, one.bottom_mm - other.top_mm)
    return hypot(across_mm, up_mm) if min(across_mm, up_mm) > 0 else max(across_mm, up_mm)


def _require_openings(openings: Sequence[Opening], columns: int) -> None:
    require_between(1, MOST_WINDOWS, windows_count=len(openings))
    require_between(1, len(openings), columns_count=columns)
    for opening in openings:
        require_positive(window_across_mm=opening.across_mm, window_up_mm=opening.up_mm)


def _require_gaps(columns: int, rows: int, gap_across_mm: float, gap_up_mm: float) -> None:
    if columns > 1:
        require_positive(gap_across_mm=gap_across_mm)
    if rows > 1:
        require_positive(gap_up_mm=gap_up_mm)


def _starts(lengths_mm: list[float], gap_mm: float, border_mm: float) -> list[float]:
    """Where columns or rows begin, one after the other."""
    return list(accumulate((length_mm + gap_mm for length_mm in lengths_mm[:-1]), initial=float(border_mm)))


def _in_the_middle(opening: Opening, *, left_mm: float, top_mm: float, across_mm: float, up_mm: float) -> Window:
    return Window(
        left_mm=left_mm + (across_mm - opening.across_mm) / 2,
        bottom_mm=top_mm - (up_mm + opening.up_mm) / 2,
        across_mm=opening.across_mm,
        up_mm=opening.up_mm,
    )


def _require_inside(number: int, window: Window, across_mm: float, up_mm: float) -> None:
    require_positive(window_across_mm=window.across_mm, window_up_mm=window.up_mm)
    edges = min(window.left_mm, window.bottom_mm, across_mm - window.right_mm, up_mm - window.top_mm)
    if edges <= TOLERANCE_MM:
        raise ImpossibleSize(
            f"Window {number} leaves {{border}} of border: leave {{least}} or more.",
            field="windows",
            lengths={"border": edges, "least": LEAST_BORDER_MM},
        )
