"""A wished mat: its images, how their windows are set out, and the mat that follows around or within.

An *image* is a piece of artwork behind a window. The first is the artwork of the frame; further ones lie beside it in a
row, a column or a grid, or are placed by hand. The *opening* of an image follows from the overlap, or from the *float*
around a sheet whose edges show, or is typed. Borders are *as cut*, or as they stay *in view* beside the lip.
"""

from collections.abc import Sequence
from enum import StrEnum

from framecalc.errors import ImpossibleSize
from framecalc.limits import require_positive
from framecalc.mats.mat import Mat
from framecalc.mats.openings import Borders, Opening, equal_visible_borders, opening_around, opening_over
from framecalc.mats.seen import Laps, SeenImage, laps_of, sheet_behind
from framecalc.mats.windows import Window, WindowMat, arrange, place_freely
from framecalc.records import Record, replace
from framecalc.units import TOLERANCE_MM


class WindowArrangement(StrEnum):
    """How several windows are set out."""

    ROW = "row"
    COLUMN = "column"
    GRID = "grid"
    FREE = "placed by hand"


class Image(Record):
    """A piece behind a window, at its largest. A typed opening counts; a place where windows are placed by hand.

    The place is that of the window's lower left corner, from the left and from below, in the group of all windows.
    `lapped` is a crooked piece at its smallest, `seen` what of the piece is to be seen where that is not all of it.
    """

    across_mm: float
    up_mm: float
    opening: Opening | None = None
    left_mm: float = 0.0
    below_mm: float = 0.0
    lapped: Opening | None = None
    seen: SeenImage | None = None

    def laps_behind(self, opening: Opening) -> Laps:
        """What a mat with this opening laps over the piece."""
        return laps_of(
            opening, sheet_across_mm=self.across_mm, sheet_up_mm=self.up_mm, lapped=self.lapped, seen=self.seen
        )

    def behind(self, window: Window) -> Window:
        """Where the piece lies behind its window."""
        return sheet_behind(window, sheet_across_mm=self.across_mm, sheet_up_mm=self.up_mm, seen=self.seen)


class MatWish(Record):
    """A mat as typed. `float_mm` is what shows around an image or a floating sheet, nothing where the window laps over.

    `further` are images beside the artwork; `opening` is that of the artwork's own window where it is typed, `left_mm`
    and `below_mm` its place. Borders that are `in_view` do not count what the lip covers.
    """

    overlap_mm: float
    border_mm: float
    bottom_mm: float
    float_mm: float = 0.0
    in_view: bool = False
    opening: Opening | None = None
    further: tuple[Image, ...] = ()
    arrangement: WindowArrangement = WindowArrangement.ROW
    columns: int = 2
    gap_mm: float = 25.0
    left_mm: float = 0.0
    below_mm: float = 0.0


class Matting(Record):
    """A solved mat: as if its windows were one, from the outermost to the outermost; every window, and its piece."""

    mat: Mat
    windows: WindowMat
    images: tuple[Image, ...]


class MatCover(Record):
    """How much of a centred mat the lip covers: at each side, and at top and bottom."""

    across_mm: float
    up_mm: float


NOTHING_COVERED = MatCover(across_mm=0.0, up_mm=0.0)


def images_of(
    wish: MatWish,
    *,
    artwork_across_mm: float,
    artwork_up_mm: float,
    lapped: Opening | None = None,
    seen: SeenImage | None = None,
) -> tuple[Image, ...]:
    """All images of a mat, that of the artwork first.

    Args:
        artwork_across_mm, artwork_up_mm: the artwork at its largest [mm].
        lapped: the artwork at its smallest; none where it is a true rectangle.
        seen: what of the artwork is to be seen; none where that is all of it.
    Source: derived.

    >>> wish = MatWish(overlap_mm=3, border_mm=60, bottom_mm=70, further=(Image(across_mm=100, up_mm=150),))
    >>> [image.across_mm for image in images_of(wish, artwork_across_mm=200, artwork_up_mm=250)]
    [200, 100]
    """
    artwork = Image(
        across_mm=artwork_across_mm,
        up_mm=artwork_up_mm,
        opening=wish.opening,
        left_mm=wish.left_mm,
        below_mm=wish.below_mm,
        lapped=lapped,
        seen=seen,
    )
    return artwork, *wish.further


def opening_of(image: Image, wish: MatWish) -> Opening:
    """Size the opening of one image: as typed, around what is to be seen or a floating sheet, or lapping over.

    What is lapped over is the piece at its smallest.

    Raises:
        OutOfRange, ImpossibleSize: as `openings.opening_over` and `openings.opening_around`.
    Source: plane geometry.

    >>> floating = MatWish(overlap_mm=3, border_mm=60, bottom_mm=70, float_mm=8)
    >>> opening_of(Image(across_mm=200, up_mm=250), floating).across_mm
    216
    """
    if image.opening:
        return image.opening
    if image.seen:
        shows_mm = 2 * wish.float_mm
        return Opening(across_mm=image.seen.across_mm + shows_mm, up_mm=image.seen.up_mm + shows_mm)
    if wish.float_mm:
        return opening_around(artwork_across_mm=image.across_mm, artwork_up_mm=image.up_mm, reveal_mm=wish.float_mm)
    least = image.lapped or image
    return opening_over(artwork_across_mm=least.across_mm, artwork_up_mm=least.up_mm, overlap_mm=wish.overlap_mm)


def floats(image: Image, wish: MatWish) -> bool:
    """Whether a sheet floats: its edges show all round.

    Raises:
        OutOfRange, ImpossibleSize: as `opening_of`.
    Source: plane geometry.

    >>> floats(Image(across_mm=200, up_mm=250), MatWish(overlap_mm=3, border_mm=60, bottom_mm=70, float_mm=8))
    True
    """
    if not wish.float_mm:
        return False
    return image.seen is None or image.laps_behind(opening_of(image, wish)).most_mm < -TOLERANCE_MM


def mat_around_images(images: Sequence[Image], wish: MatWish, *, covered: MatCover = NOTHING_COVERED) -> Matting:
    """Size a mat around its images.

    Args:
        images: as from `images_of`.
        wish: how its windows are set out, and its borders.
        covered: what the lip covers; it counts only for borders wished for in view.
    Raises:
        OutOfRange, ImpossibleSize: a length or a number is out of range, or windows run into each other.
    Source: plane geometry.

    >>> wish = MatWish(overlap_mm=3, border_mm=60, bottom_mm=70)
    >>> mat_around_images([Image(across_mm=200, up_mm=250)], wish).mat.up_mm
    374.0
    """
    require_positive(mat_border_mm=wish.border_mm, mat_bottom_mm=wish.bottom_mm)
    borders, openings = _borders(wish, covered), _openings(images, wish)
    if _is_by_hand(images, wish):
        return matting_of(_by_hand(images, openings, borders), images)
    columns = _columns(len(images), wish)
    windows = arrange(openings, columns=columns, gap_across_mm=wish.gap_mm, gap_up_mm=wish.gap_mm, borders=borders)
    return matting_of(windows, images)


def mat_within(images: Sequence[Image], wish: MatWish, *, across_mm: float, up_mm: float) -> Matting:
    """Size the borders of a mat that fills a given outside: they are what remains beside the windows.

    ``sides = (across − windows) / 2``, ``top = (up − windows − extra) / 2``, ``bottom = top + extra``; the extra of the
    bottom is that of the borders wished for.

    Args:
        images, wish: as in `mat_around_images`.
        across_mm, up_mm: the outside of the mat [mm], > 0.
    Raises:
        OutOfRange, ImpossibleSize: as `mat_around_images`, or a border comes out at nothing.
    Source: plane geometry.

    >>> wish = MatWish(overlap_mm=3, border_mm=60, bottom_mm=70)
    >>> mat_within([Image(across_mm=200, up_mm=250)], wish, across_mm=314, up_mm=374).mat.border_bottom_mm
    70.0
    """
    require_positive(across_mm=across_mm, up_mm=up_mm)
    around = mat_around_images(images, replace(wish, in_view=False))
    mat, extra_mm = around.mat, wish.bottom_mm - wish.border_mm
    sides_mm, top_mm = (across_mm - mat.window_across_mm) / 2, (up_mm - mat.window_up_mm - extra_mm) / 2
    _require_border(across_mm, mat.window_across_mm, sides_mm, field="artwork_across_mm")
    _require_border(up_mm, mat.window_up_mm, min(top_mm, top_mm + extra_mm), field="artwork_up_mm")
    right_mm, down_mm = sides_mm - mat.border_sides_mm, mat.border_bottom_mm - top_mm - extra_mm
    windows = tuple(_moved(window, right_mm=right_mm, up_mm=-down_mm) for window in around.windows.windows)
    return matting_of(WindowMat(across_mm=across_mm, up_mm=up_mm, windows=windows), images)


def scaled_images(images: Sequence[Image], *, by_ratio: float) -> tuple[Image, ...]:
    """The images in another size; openings that are typed and places stay.

    Source: plane geometry.

    >>> scaled_images([Image(across_mm=200, up_mm=250)], by_ratio=0.5)[0].up_mm
    125.0
    """
    return tuple(replace(image, across_mm=image.across_mm * by_ratio, up_mm=image.up_mm * by_ratio) for image in images)


def _borders(wish: MatWish, covered: MatCover) -> Borders:
    if not wish.in_view:
        return Borders(sides_mm=wish.border_mm, top_mm=wish.border_mm, bottom_mm=wish.bottom_mm)
    return equal_visible_borders(
        visible_mm=wish.border_mm,
        bottom_extra_mm=wish.bottom_mm - wish.border_mm,
        covered_across_mm=covered.across_mm,
        covered_up_mm=covered.up_mm,
    )


def _openings(images: Sequence[Image], wish: MatWish) -> list[Opening]:
    openings = [opening_of(image, wish) for image in images]
    for opening in openings:
        require_positive(window_across_mm=opening.across_mm, window_up_mm=opening.up_mm)
    return openings


def _is_by_hand(images: Sequence[Image], wish: MatWish) -> bool:
    return wish.arrangement is WindowArrangement.FREE and len(images) > 1


def _columns(windows: int, wish: MatWish) -> int:
    """Windows in a row; a grid has no more columns than windows."""
    columns = {WindowArrangement.ROW: windows, WindowArrangement.COLUMN: 1, WindowArrangement.GRID: wish.columns}
    return min(columns.get(wish.arrangement, 1), windows)


def _by_hand(images: Sequence[Image], openings: Sequence[Opening], borders: Borders) -> WindowMat:
    """Windows in the places typed, and the borders around the group of them."""
    placed = [
        Window(left_mm=image.left_mm, bottom_mm=image.below_mm, across_mm=opening.across_mm, up_mm=opening.up_mm)
        for image, opening in zip(images, openings, strict=True)
    ]
    left_mm, low_mm = min(one.left_mm for one in placed), min(one.bottom_mm for one in placed)
    across_mm, up_mm = max(one.right_mm for one in placed) - left_mm, max(one.top_mm for one in placed) - low_mm
    return place_freely(
        (_moved(one, right_mm=borders.sides_mm - left_mm, up_mm=borders.bottom_mm - low_mm) for one in placed),
        across_mm=across_mm + 2 * borders.sides_mm,
        up_mm=up_mm + borders.top_mm + borders.bottom_mm,
    )


def _moved(window: Window, *, right_mm: float, up_mm: float) -> Window:
    return replace(window, left_mm=window.left_mm + right_mm, bottom_mm=window.bottom_mm + up_mm)


def matting_of(windows: WindowMat, images: Sequence[Image]) -> Matting:
    """Treat all windows as one, for the size chain and for whatever shows a mat small.

    Source: plane geometry.

    >>> window = Window(left_mm=50, bottom_mm=60, across_mm=100, up_mm=150)
    >>> windows = place_freely([window], across_mm=200, up_mm=280)
    >>> matting_of(windows, [Image(across_mm=106, up_mm=156)]).mat.border_top_mm
    70
    """
    left_mm, right_mm = min(one.left_mm for one in windows.windows), max(one.right_mm for one in windows.windows)
    low_mm, top_mm = min(one.bottom_mm for one in windows.windows), max(one.top_mm for one in windows.windows)
    mat = Mat(
        window_across_mm=right_mm - left_mm,
        window_up_mm=top_mm - low_mm,
        border_sides_mm=left_mm,
        border_top_mm=windows.up_mm - top_mm,
        border_bottom_mm=low_mm,
        across_mm=windows.across_mm,
        up_mm=windows.up_mm,
        overlap_mm=_least_overlap_mm(windows, images),
    )
    return Matting(mat=mat, windows=windows, images=tuple(images))


def _least_overlap_mm(windows: WindowMat, images: Sequence[Image]) -> float:
    """The least that a window laps over its piece; negative where the edges of the piece show."""
    return min(
        image.laps_behind(Opening(across_mm=window.across_mm, up_mm=window.up_mm)).least_mm
        for image, window in zip(images, windows.windows, strict=True)
    )


def _require_border(outside_mm: float, window_mm: float, border_mm: float, *, field: str) -> None:
    if border_mm <= TOLERANCE_MM:
        raise ImpossibleSize(
            "No border left: enter a mat larger than {outside}, around {window}.",
            field=field,
            lengths={"window": window_mm, "outside": outside_mm},
        )
