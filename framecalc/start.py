"""Start from: the four ways into the size chain, and what each of them solves for.

From the *artwork* outward to the frame; from the *wall* space inward to the package; from a *stock* size of mat or
glass; from one *stick* of stock, to the face width or to the scale of the picture. A mat takes up what is solved for
the package; without one it is the artwork that the opening takes.
"""

from dataclasses import dataclass, replace
from enum import StrEnum

from framecalc.mat import Mat, mat_around, mat_to_fill
from framecalc.sizes import Sizes, sizes_around, sizes_within
from framecalc.stick import face_width_from_stick, picture_scale_from_stick


class Given(StrEnum):
    """What is known first."""

    ARTWORK = "artwork"
    WALL = "wall"
    STOCK = "stock"
    STICK_FOR_WIDTH = "stick for the face width"
    STICK_FOR_PICTURE = "stick for the picture"


@dataclass(frozen=True, slots=True, kw_only=True)
class MatWish:
    """A mat as typed: the overlap of its window and its borders."""

    overlap_mm: float
    border_mm: float
    bottom_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What was typed, as far as the size chain needs it. Sizes that the starting point does not use may be 0."""

    given: Given
    artwork_across_mm: float
    artwork_up_mm: float
    mat: MatWish | None
    clearance_across_mm: float
    clearance_up_mm: float
    rabbet_width_mm: float
    face_width_mm: float
    opening_across_mm: float = 0
    opening_up_mm: float = 0
    stick_length_mm: float = 0
    kerf_mm: float = 0
    trim_mm: float = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """The chain settled: sizes, mat if there is one, artwork, face width, scale of the picture, and what was solved."""

    sizes: Sizes
    mat: Mat | None
    artwork_across_mm: float
    artwork_up_mm: float
    face_width_mm: float
    picture_ratio: float
    solved: tuple[str, ...]


def settle(wish: Wish) -> Settled:
    """Solve the size chain from the starting point chosen.

    Args:
        wish: everything typed; `opening_*` is the wall space (given WALL) or the stock size (given STOCK).
    Raises:
        ImpossibleSize: the sizes leave nothing; its `field` is the argument at fault.
    Source: derived from the size chain (see `sizes`).
    """
    return _WAYS[wish.given](wish)


def _from_artwork(wish: Wish) -> Settled:
    mat = _mat_as_typed(wish)
    across_mm, up_mm = (mat.across_mm, mat.up_mm) if mat else (wish.artwork_across_mm, wish.artwork_up_mm)
    return _settled(wish, _sizes(wish, across_mm, up_mm), mat, ())


def _from_wall(wish: Wish) -> Settled:
    sizes = sizes_within(
        outside_across_mm=wish.opening_across_mm,
        outside_up_mm=wish.opening_up_mm,
        clearance_across_mm=wish.clearance_across_mm,
        clearance_up_mm=wish.clearance_up_mm,
        rabbet_width_mm=wish.rabbet_width_mm,
        face_width_mm=wish.face_width_mm,
    )
    if wish.mat is not None:
        return _filled(wish, sizes, wish.mat)
    taken = replace(wish, artwork_across_mm=sizes.package_across_mm, artwork_up_mm=sizes.package_up_mm)
    return _settled(taken, sizes, None, ("artwork_across_mm", "artwork_up_mm"))


def _from_stock(wish: Wish) -> Settled:
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


def _from_stick_to_width(wish: Wish) -> Settled:
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
    return _settled(wish, sizes, typed.mat, ("face_width_mm",))


def _from_stick_to_picture(wish: Wish) -> Settled:
    mat = _mat_as_typed(wish)
    ratio = picture_scale_from_stick(
        picture_across_mm=wish.artwork_across_mm,
        picture_up_mm=wish.artwork_up_mm,
        **_looseness(wish),
        face_width_mm=wish.face_width_mm,
        stick_length_mm=wish.stick_length_mm,
        kerf_mm=wish.kerf_mm,
        trim_mm=wish.trim_mm,
        fixed_across_mm=mat.across_mm - wish.artwork_across_mm if mat else 0,
        fixed_up_mm=mat.up_mm - wish.artwork_up_mm if mat else 0,
    )
    scaled = replace(wish, artwork_across_mm=ratio * wish.artwork_across_mm, artwork_up_mm=ratio * wish.artwork_up_mm)
    return replace(_from_artwork(scaled), picture_ratio=ratio, solved=("artwork_across_mm", "artwork_up_mm"))


def _filled(wish: Wish, sizes: Sizes, typed: MatWish) -> Settled:
    """The package is given, and the borders of its mat take up the difference to the artwork."""
    mat = mat_to_fill(
        across_mm=sizes.package_across_mm,
        up_mm=sizes.package_up_mm,
        artwork_across_mm=wish.artwork_across_mm,
        artwork_up_mm=wish.artwork_up_mm,
        overlap_mm=typed.overlap_mm,
        bottom_extra_mm=typed.bottom_mm - typed.border_mm,
    )
    return _settled(wish, sizes, mat, ("mat_border_mm", "mat_bottom_mm"))


def _mat_as_typed(wish: Wish) -> Mat | None:
    if wish.mat is None:
        return None
    return mat_around(
        artwork_across_mm=wish.artwork_across_mm,
        artwork_up_mm=wish.artwork_up_mm,
        overlap_mm=wish.mat.overlap_mm,
        border_mm=wish.mat.border_mm,
        bottom_mm=wish.mat.bottom_mm,
    )


def _looseness(wish: Wish) -> dict[str, float]:
    return {
        "clearance_across_mm": wish.clearance_across_mm,
        "clearance_up_mm": wish.clearance_up_mm,
        "rabbet_width_mm": wish.rabbet_width_mm,
    }


def _sizes(wish: Wish, package_across_mm: float, package_up_mm: float) -> Sizes:
    return sizes_around(
        package_across_mm=package_across_mm,
        package_up_mm=package_up_mm,
        **_looseness(wish),
        face_width_mm=wish.face_width_mm,
    )


def _settled(wish: Wish, sizes: Sizes, mat: Mat | None, solved: tuple[str, ...]) -> Settled:
    return Settled(
        sizes=sizes,
        mat=mat,
        artwork_across_mm=wish.artwork_across_mm,
        artwork_up_mm=wish.artwork_up_mm,
        face_width_mm=wish.face_width_mm,
        picture_ratio=1.0,
        solved=solved,
    )


_WAYS = {
    Given.ARTWORK: _from_artwork,
    Given.WALL: _from_wall,
    Given.STOCK: _from_stock,
    Given.STICK_FOR_WIDTH: _from_stick_to_width,
    Given.STICK_FOR_PICTURE: _from_stick_to_picture,
}
