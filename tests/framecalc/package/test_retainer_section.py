"""A retainer in the section of its member: it touches what it holds, stands on the land, and its screw is as sold."""

import pytest
from shapely import box, unary_union

from framecalc.artwork.measuring import ArtworkKind
from framecalc.errors import OutOfRange
from framecalc.package.retainer_section import (
    DRIVEN_RATIO,
    POINT_MM,
    POINT_THICK_MM,
    REACH_MM,
    SCREW_THICK_MM,
    Foothold,
    PartOf,
    RetainerPart,
    retainer_parts,
)
from framecalc.package.retainers import PLATE_MM, Retainer, choose_retainer, hold_with
from framecalc.records import replace

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


@pytest.mark.parametrize("name", HELD)
def test_its_metal_is_one_piece_as_thick_as_its_plate_and_lies_over_the_package_as_far_as_it_reaches(name: str) -> None:
    retention, parts = HELD[name], retainer_parts(HELD[name], at=replace(AT, screw_mm=0))
    metal = unary_union(
        [box(part.left_mm, part.bottom_mm, part.right_mm, part.top_mm) for part in parts if part.of is PartOf.METAL]
    )
    assert metal.geom_type == "Polygon"
    if retention.retainer is Retainer.POINTS:
        return
    left_mm, bottom_mm, right_mm, top_mm = metal.bounds
    assert (left_mm, right_mm) == (AT.land_mm - AT.foot_mm, AT.land_mm + REACH_MM)
    strip_mm = retention.size_mm if retention.retainer is Retainer.STRIP else 0
    step_mm = abs(retention.left_over_mm) if retention.retainer is Retainer.CLIPS else 0
    assert top_mm - bottom_mm == pytest.approx(PLATE_MM + step_mm)
    assert max(top_mm, 0) == max(retention.left_over_mm, 0) if step_mm else top_mm == -strip_mm
    assert metal.buffer(-0.6 * PLATE_MM).is_empty, "nowhere thicker than its plate but where that is bent"


@pytest.mark.parametrize(
    ("name", "left_mm", "right_mm", "bottom_mm", "top_mm"), [("shim", 16.5, 27, 0, 2), ("strip", 3, 15, -2, 0)]
)
def test_wood_fills_what_is_left_between_plate_and_package_or_back(
    name: str, left_mm: float, right_mm: float, bottom_mm: float, top_mm: float
) -> None:
    (wood,) = (part for part in retainer_parts(HELD[name], at=AT) if part.of is PartOf.WOOD)
    assert (wood.left_mm, wood.right_mm, wood.bottom_mm, wood.top_mm) == (left_mm, right_mm, bottom_mm, top_mm)


@pytest.mark.parametrize("name", HELD)
def test_a_screw_and_a_point_are_as_thick_as_sold(name: str) -> None:
    first = retainer_parts(HELD[name], at=AT)[0]
    if name == "points":
        assert first.right_mm - first.left_mm == POINT_MM and first.top_mm - first.bottom_mm == pytest.approx(
            POINT_THICK_MM
        )
        assert AT.land_mm - first.left_mm == pytest.approx(POINT_MM * DRIVEN_RATIO)
    else:
        assert first.right_mm - first.left_mm == SCREW_THICK_MM
