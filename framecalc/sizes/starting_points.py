"""Start from: the four ways into the size chain, and what each of them solves for.

From the *artwork* outward to the frame; from the *wall* space inward to the package; from a *stock* size of mat or
glass; from one *stick* of stock, to the face width or to the scale of the picture. A mat takes up what is solved for
the package; without one it is the artwork that the opening takes. A polygon starts from its artwork.
"""

from enum import StrEnum
from functools import lru_cache
from typing import TypedDict

from framecalc.errors import ImpossibleSize
from framecalc.mats.mat import Mat
from framecalc.mats.openings import Opening
from framecalc.mats.polygon_mat import mat_in_polygon
from framecalc.mats.seen import SeenImage
from framecalc.mats.wished_mat import (
    Image,
    MatCover,
    Matting,
    MatWish,
    WindowArrangement,
    images_of,
    mat_around_images,
    mat_within,
    scaled_images,
)
from framecalc.records import Record, replace
from framecalc.sizes.chain import Sizes, sizes_around, sizes_within
from framecalc.sizes.from_one_stick import face_width_from_stick, picture_scale_from_stick
from framecalc.sizes.shape import RECTANGLE, Shape


class StartingPoint(StrEnum):
    """What is known first."""

    ARTWORK = "artwork"
    WALL = "wall"
    STOCK = "stock"
    STICK_FOR_WIDTH = "stick for the face width"
    STICK_FOR_PICTURE = "stick for the picture"


class SizeWish(Record):
    """What was typed, as far as the size chain needs it. Sizes that the starting point does not use may be 0."""

    given: StartingPoint
    artwork_across_mm: float
    artwork_up_mm: float
    mat: MatWish | None
    clearance_across_mm: float
    clearance_up_mm: float
    rabbet_width_mm: float
    face_width_mm: float
    lapped: Opening | None = None
    """The artwork at its smallest, where it is crooked."""
    seen: SeenImage | None = None
    """What of the artwork is to be seen, where that is not all of it."""
    opening_across_mm: float = 0
    opening_up_mm: float = 0
    stick_length_mm: float = 0
    kerf_mm: float = 0
    trim_mm: float = 0
    fillet_mm: float = 0
    """What shows of a fillet between the lip and the mat, and of the lower of two mats: no part of a border in view."""
    shape: Shape = RECTANGLE


class SolvedChain(Record):
    """The solved chain: sizes, mat if there is one, artwork, face width, scale of the picture, and what was solved.

    `seen` is what of the artwork is to be seen, at the size that the artwork has here.
    """

    sizes: Sizes
    matting: Matting | None
    artwork_across_mm: float
    artwork_up_mm: float
    face_width_mm: float
    picture_ratio: float
    solved: tuple[str, ...]
    seen: SeenImage | None = None

    @property
    def mat(self) -> Mat | None:
        """The mat, with several windows counted as one."""
        return self.matting.mat if self.matting else None


class _Looseness(TypedDict):
    """What every part of the chain takes alike."""

    clearance_across_mm: float
    clearance_up_mm: float
    rabbet_width_mm: float
    shape: Shape


class _Growing(Record):
    """How a package grows with its pictures: ``package = fixed + scale · per scale``."""

    fixed_mm: float
    per_scale_mm: float


@lru_cache(maxsize=256)
def settle(wish: SizeWish) -> SolvedChain:
    """Solve the size chain from the starting point chosen.

    Args:
        wish: everything typed; `opening_*` is the wall space (given WALL) or the stock size (given STOCK).
    Raises:
        ImpossibleSize: the sizes leave nothing, or a polygon starts from them; its `field` is the argument at fault.
    Source: derived from the size chain (see `sizes`).
    """
    if not wish.shape.is_rectangle:
        _require_one_measure(wish)
    return _WAYS[wish.given](wish)


def _require_one_measure(wish: SizeWish) -> None:
    """Refuse a polygon that would have two measures: each of its outlines has one, across the flats."""
    sides = wish.shape.sides
    if wish.given is not StartingPoint.ARTWORK:
        raise ImpossibleSize(f"Start from the artwork, for a frame of {sides} sides.", field="given")


def _from_artwork(wish: SizeWish) -> SolvedChain:
    if wish.mat and not wish.shape.is_rectangle:
        return _from_polygon(wish, wish.mat)
    matting = _matting_as_typed(wish)
    across_mm, up_mm = wish.artwork_across_mm, wish.artwork_up_mm
    if matting:
        across_mm, up_mm = matting.mat.across_mm, matting.mat.up_mm
    return _settled(wish, _sizes(wish, across_mm, up_mm), matting, ())


def _from_polygon(wish: SizeWish, mat: MatWish) -> SolvedChain:
    """A polygon is measured over its whole package, which its mat fills; the sheet behind the window is smaller."""
    flats_mm = wish.artwork_across_mm
    matting = mat_in_polygon(mat, flats_mm=flats_mm, covered_mm=_covered(wish).across_mm)
    (sheet,) = matting.images
    sizes = _sizes(wish, flats_mm, flats_mm)
    wish = replace(wish, artwork_across_mm=sheet.across_mm, artwork_up_mm=sheet.up_mm)
    solved = ("mat_border_mm", "mat_bottom_mm") if mat.opening else ("mat_bottom_mm",)
    return _settled(wish, sizes, matting, solved)


def _from_wall(wish: SizeWish) -> SolvedChain:
    sizes = sizes_within(
        outside_across_mm=wish.opening_across_mm,
        outside_up_mm=wish.opening_up_mm,
        clearance_across_mm=wish.clearance_across_mm,
        clearance_up_mm=wish.clearance_up_mm,
        rabbet_width_mm=wish.rabbet_width_mm,
        face_width_mm=wish.face_width_mm,
        shape=wish.shape,
    )
    if wish.mat is not None:
        return _filled(wish, sizes, wish.mat)
    taken = replace(wish, artwork_across_mm=sizes.package_across_mm, artwork_up_mm=sizes.package_up_mm, seen=None)
    return _settled(taken, sizes, None, ("artwork_across_mm", "artwork_up_mm"))


def _from_stock(wish: SizeWish) -> SolvedChain:
    """A frame that takes a stock size: its mat fills that size, or the artwork has what clearance remains."""
    stock = _sizes(wish, wish.opening_across_mm, wish.opening_up_mm)
    if wish.mat is not None:
        return _filled(wish, stock, wish.mat)
    loose = replace(
        wish,
        clearance_across_mm=stock.rabbet_across_mm - wish.artwork_across_mm,
        clearance_up_mm=stock.rabbet_up_mm - wish.artwork_up_mm,
    )
    sizes = _sizes(loose, wish.artwork_across_mm, wish.artwork_up_mm)
    return _settled(wish, sizes, None, ("clearance_across_mm", "clearance_up_mm"))


def _from_stick_to_width(wish: SizeWish) -> SolvedChain:
    typed = _from_artwork(replace(wish, face_width_mm=max(wish.face_width_mm, wish.rabbet_width_mm + 1)))
    face_width_mm = face_width_from_stick(
        package_across_mm=typed.sizes.package_across_mm,
        package_up_mm=typed.sizes.package_up_mm,
        **_looseness(wish),
        stick_length_mm=wish.stick_length_mm,
        kerf_mm=wish.kerf_mm,
        trim_mm=wish.trim_mm,
    )
    wish = replace(wish, face_width_mm=face_width_mm)
    sizes = _sizes(wish, typed.sizes.package_across_mm, typed.sizes.package_up_mm)
    return _settled(wish, sizes, typed.matting, ("face_width_mm",))


def _from_stick_to_picture(wish: SizeWish) -> SolvedChain:
    across, up = _growing(wish)
    ratio = picture_scale_from_stick(
        picture_across_mm=across.per_scale_mm,
        picture_up_mm=up.per_scale_mm,
        **_looseness(wish),
        face_width_mm=wish.face_width_mm,
        stick_length_mm=wish.stick_length_mm,
        kerf_mm=wish.kerf_mm,
        trim_mm=wish.trim_mm,
        fixed_across_mm=across.fixed_mm,
        fixed_up_mm=up.fixed_mm,
    )
    settled = _from_artwork(_enlarged(wish, ratio))
    return replace(settled, picture_ratio=ratio, solved=("artwork_across_mm", "artwork_up_mm"))


def _growing(wish: SizeWish) -> tuple[_Growing, _Growing]:
    if wish.mat is None:
        across, up = wish.artwork_across_mm, wish.artwork_up_mm
        return _Growing(fixed_mm=0, per_scale_mm=across), _Growing(fixed_mm=0, per_scale_mm=up)
    if wish.mat.further and wish.mat.arrangement is WindowArrangement.FREE:
        raise ImpossibleSize(
            "Choose a row, a column or a grid of windows.",
            field="stick_length_mm",
        )
    once, twice = _matting_as_typed(wish), _matting_as_typed(_enlarged(wish, 2))
    assert once is not None and twice is not None
    return (
        _line(once.mat.across_mm, twice.mat.across_mm),
        _line(once.mat.up_mm, twice.mat.up_mm),
    )


def _line(once_mm: float, twice_mm: float) -> _Growing:
    return _Growing(fixed_mm=2 * once_mm - twice_mm, per_scale_mm=twice_mm - once_mm)


def _enlarged(wish: SizeWish, ratio: float) -> SizeWish:
    """The same wish with every picture in another size."""
    mat = wish.mat
    if mat is not None:
        mat = replace(mat, further=scaled_images(mat.further, by_ratio=ratio))
    lapped = wish.lapped and Opening(across_mm=ratio * wish.lapped.across_mm, up_mm=ratio * wish.lapped.up_mm)
    return replace(
        wish,
        artwork_across_mm=ratio * wish.artwork_across_mm,
        artwork_up_mm=ratio * wish.artwork_up_mm,
        mat=mat,
        lapped=lapped,
        seen=wish.seen and wish.seen.scaled(by_ratio=ratio),
    )


def _filled(wish: SizeWish, sizes: Sizes, typed: MatWish) -> SolvedChain:
    """The package is given, and the borders of its mat take up the difference to the artwork."""
    matting = mat_within(_images(wish, typed), typed, across_mm=sizes.package_across_mm, up_mm=sizes.package_up_mm)
    return _settled(wish, sizes, matting, ("mat_border_mm", "mat_bottom_mm"))


def _matting_as_typed(wish: SizeWish) -> Matting | None:
    if wish.mat is None:
        return None
    return mat_around_images(_images(wish, wish.mat), wish.mat, covered=_covered(wish))


def _covered(wish: SizeWish) -> MatCover:
    """What the lip, with a fillet beside it, covers of the centred package."""
    lap_mm = wish.rabbet_width_mm * wish.shape.flat_ratio
    return MatCover(
        across_mm=lap_mm - wish.clearance_across_mm / 2 + wish.fillet_mm,
        up_mm=lap_mm - wish.clearance_up_mm / 2 + wish.fillet_mm,
    )


def _images(wish: SizeWish, mat: MatWish) -> tuple[Image, ...]:
    return images_of(
        mat,
        artwork_across_mm=wish.artwork_across_mm,
        artwork_up_mm=wish.artwork_up_mm,
        lapped=wish.lapped,
        seen=wish.seen,
    )


def _looseness(wish: SizeWish) -> _Looseness:
    return {
        "clearance_across_mm": wish.clearance_across_mm,
        "clearance_up_mm": wish.clearance_up_mm,
        "rabbet_width_mm": wish.rabbet_width_mm,
        "shape": wish.shape,
    }


def _sizes(wish: SizeWish, package_across_mm: float, package_up_mm: float) -> Sizes:
    return sizes_around(
        package_across_mm=package_across_mm,
        package_up_mm=package_up_mm,
        **_looseness(wish),
        face_width_mm=wish.face_width_mm,
    )


def _settled(wish: SizeWish, sizes: Sizes, matting: Matting | None, solved: tuple[str, ...]) -> SolvedChain:
    return SolvedChain(
        sizes=sizes,
        matting=matting,
        artwork_across_mm=wish.artwork_across_mm,
        artwork_up_mm=wish.artwork_up_mm,
        face_width_mm=wish.face_width_mm,
        picture_ratio=1.0,
        solved=solved,
        seen=wish.seen,
    )


_WAYS = {
    StartingPoint.ARTWORK: _from_artwork,
    StartingPoint.WALL: _from_wall,
    StartingPoint.STOCK: _from_stock,
    StartingPoint.STICK_FOR_WIDTH: _from_stick_to_width,
    StartingPoint.STICK_FOR_PICTURE: _from_stick_to_picture,
}
