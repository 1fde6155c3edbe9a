"""A retainer in the section of its member: it touches what it holds, stands on the land, and its screw is as sold."""

import pytest

from framecalc.artwork.measuring import ArtworkKind
from framecalc.errors import OutOfRange
from framecalc.package.retainer_section import Foothold, PartOf, RetainerPart, retainer_parts
from framecalc.package.retainers import PLATE_MM, Retainer, choose_retainer, hold_with

AT = Foothold(land_mm=15, foot_mm=12, gap_mm=1.5, from_wall_mm=6, screw_mm=10)
HELD = {
    "flush": choose_retainer(left_over_mm=0, kind=ArtworkKind.PAPER),
    "points": choose_retainer(left_over_mm=5, kind=ArtworkKind.PAPER),
    "shim": choose_retainer(left_over_mm=2, kind=ArtworkKind.PAPER),
    "clip, proud": choose_retainer(left_over_mm=-7, kind=ArtworkKind.PAPER),
    "clip, in a recess": choose_retainer(left_over_mm=6, kind=ArtworkKind.CANVAS),
    "strip": hold_with(Retainer.STRIP, left_over_mm=-2, kind=ArtworkKind.PAPER),
}


@pytest.mark.parametrize("name", HELD)
def test_it_touches_the_package_or_what_lies_on_it_and_the_wood(name: str) -> None:
    retention, parts = HELD[name], retainer_parts(HELD[name], at=AT)
    over_package = [part for part in parts if part.right_mm > AT.land_mm + AT.gap_mm]
    assert max(part.top_mm for part in over_package) == pytest.approx(retention.left_over_mm)
    assert any(part.left_mm < AT.land_mm for part in parts)


@pytest.mark.parametrize("name", [name for name in HELD if name != "points"])
def test_its_screw_is_as_long_as_sold_and_goes_through_the_plate(name: str) -> None:
    screw, *others = retainer_parts(HELD[name], at=AT)
    assert screw.top_mm - screw.bottom_mm == pytest.approx(AT.screw_mm)
    assert (screw.left_mm + screw.right_mm) / 2 == AT.land_mm - AT.from_wall_mm
    strip_mm = max((part.top_mm - part.bottom_mm for part in others if _is_on_land(part)), default=0)
    assert screw.top_mm == pytest.approx(AT.screw_mm - PLATE_MM - strip_mm)


def _is_on_land(part: RetainerPart) -> bool:
    return part.of is PartOf.WOOD and part.right_mm <= AT.land_mm


def test_a_point_goes_into_the_rabbet_wall() -> None:
    (point,) = retainer_parts(HELD["points"], at=AT)
    assert 0 < AT.land_mm - point.left_mm < point.right_mm - AT.land_mm


def test_a_member_without_land_is_refused() -> None:
    with pytest.raises(OutOfRange):
        retainer_parts(HELD["flush"], at=Foothold(land_mm=0, foot_mm=12, gap_mm=1.5))


@pytest.mark.parametrize("name", HELD)
def test_every_part_has_a_size_and_the_plate_lies_on_what_it_is_screwed_to(name: str) -> None:
    parts = retainer_parts(HELD[name], at=AT)
    assert all(part.left_mm < part.right_mm and part.bottom_mm < part.top_mm for part in parts)
