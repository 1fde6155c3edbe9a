"""Slots in their place: walls against plans drawn in Shapely, the identity of the two walls, the largest that fits."""

from math import cos, pi, radians, sin, sqrt, tan

import pytest
from shapely import Polygon
from shapely.affinity import rotate, translate

from framecalc.corners.joints.clash import find_clashes, slot_prism
from framecalc.corners.joints.corner_stock import CornerStock, corner_stock
from framecalc.corners.joints.slot_kinds import Slot, biscuit_slot, disc_slot, dowel_hole, mortise
from framecalc.corners.joints.slots import (
    SlotPlace,
    deepest_mm,
    largest_that_fits,
    place_pair,
    place_slot,
    slot_findings,
    widest_mm,
)
from framecalc.errors import FrameCalcError
from framecalc.tables.wood import Dowel, biscuits, dowels

WALL_MM = 3.0


def _stock(*, sides: int = 4, rabbet_width_mm: float = 6.0) -> CornerStock:
    return corner_stock(
        face_width_mm=45, thickness_mm=20, rabbet_width_mm=rabbet_width_mm, rabbet_depth_mm=12, sides=sides
    )


def _plan_of(slot: Slot) -> Polygon:
    """The half of a slot that lies in one member: along the mitre, and square to it upward."""
    if not slot.disc_radius_mm:
        half = slot.mouth_mm / 2
        return Polygon([(-half, 0), (half, 0), (half, slot.depth_mm), (-half, slot.depth_mm)])
    radius, sunk = slot.disc_radius_mm, slot.depth_mm - slot.disc_radius_mm
    disc = Polygon([(radius * cos(pi * step / 2000), sunk + radius * sin(pi * step / 2000)) for step in range(4000)])
    return disc.intersection(Polygon([(-200, 0), (200, 0), (200, 200), (-200, 200)]))


def _in_the_member(stock: CornerStock, place: SlotPlace) -> Polygon:
    """The slot in a member whose outer edge is the line y = 0 and whose tip is the origin; it lies to the right."""
    mitre_deg = 90 - stock.half_turn_deg
    slot = translate(_plan_of(place.slot), place.marks.centre_mm, 0)
    mirrored = Polygon([(x, -y) for x, y in slot.exterior.coords])
    return rotate(mirrored, mitre_deg, origin=(0, 0))


@pytest.mark.parametrize("sides", [3, 4, 6, 12])
@pytest.mark.parametrize(
    "slot",
    [
        mortise(width_mm=15, depth_mm=10, thickness_mm=5),
        disc_slot("key", depth_mm=5, thickness_mm=4, disc_mm=60),
        disc_slot("key", depth_mm=14, thickness_mm=4, disc_mm=30),
        dowel_hole(dowels()[1]),
    ],
    ids=lambda slot: f"{slot.name} {slot.depth_mm}",
)
def test_the_walls_are_those_of_the_plan_drawn_to_scale(sides: int, slot: Slot) -> None:
    stock = _stock(sides=sides)
    place = place_slot(stock, slot, height_mm=8, wall_mm=WALL_MM, from_tip_mm=0.55 * stock.mitre_length_mm)
    drawn = _in_the_member(stock, place)
    assert drawn.bounds[1] == pytest.approx(place.walls.outer_mm, abs=0.01)
    assert stock.land_mm - drawn.bounds[3] == pytest.approx(place.walls.inner_mm, abs=0.01)


@pytest.mark.parametrize("width_mm", [5.0, 15.0, 24.0])
@pytest.mark.parametrize("depth_mm", [4.0, 10.0, 16.0])
@pytest.mark.parametrize("from_tip_mm", [20.0, 30.0, 40.0])
def test_both_walls_together_are_the_land_less_mouth_and_depth_over_the_root_of_two(
    width_mm: float, depth_mm: float, from_tip_mm: float
) -> None:
    slot = mortise(width_mm=width_mm, depth_mm=depth_mm, thickness_mm=5)
    walls = place_slot(_stock(), slot, height_mm=8, wall_mm=WALL_MM, from_tip_mm=from_tip_mm).walls
    assert walls.outer_mm + walls.inner_mm == pytest.approx(39 - (width_mm + depth_mm) / sqrt(2))


def test_a_slot_without_a_place_goes_to_the_middle_of_where_it_may() -> None:
    place = place_slot(_stock(), mortise(width_mm=15, depth_mm=10, thickness_mm=5), height_mm=8, wall_mm=WALL_MM)
    assert place.marks.centre_mm == pytest.approx((place.earliest_mm + place.latest_mm) / 2)
    assert place.walls.outer_mm == pytest.approx(place.walls.inner_mm)
    assert place.marks.far_mm - place.marks.near_mm == pytest.approx(15)


@pytest.mark.parametrize("edge", ["earliest_mm", "latest_mm"])
def test_at_either_end_of_where_it_may_go_one_wall_is_just_as_wanted(edge: str) -> None:
    slot = mortise(width_mm=15, depth_mm=10, thickness_mm=5)
    place = place_slot(_stock(), slot, height_mm=8, wall_mm=WALL_MM)
    moved = place_slot(_stock(), slot, height_mm=8, wall_mm=WALL_MM, from_tip_mm=getattr(place, edge))
    assert min(moved.walls.outer_mm, moved.walls.inner_mm) == pytest.approx(WALL_MM)
    assert moved.walls.sound


@pytest.mark.parametrize("along", ["earliest_mm", "latest_mm"])
@pytest.mark.parametrize("up", ["lowest_mm", "highest_mm"])
def test_at_every_corner_of_its_room_the_walls_hold_and_one_is_just_as_wanted(along: str, up: str) -> None:
    slot = mortise(width_mm=15, depth_mm=10, thickness_mm=5)
    place = place_slot(_stock(), slot, height_mm=8, wall_mm=WALL_MM)
    assert place.has_room
    moved = place_slot(_stock(), slot, height_mm=getattr(place, up), wall_mm=WALL_MM, from_tip_mm=getattr(place, along))
    assert moved.walls.sound
    assert min(moved.walls.back_mm, moved.walls.face_mm) == pytest.approx(WALL_MM)


def test_a_slot_thicker_than_the_wood_between_its_walls_has_no_room() -> None:
    slot = mortise(width_mm=15, depth_mm=10, thickness_mm=15)
    assert not place_slot(_stock(), slot, height_mm=8, wall_mm=WALL_MM).has_room


def test_within_the_lip_the_slot_may_use_the_whole_width() -> None:
    stock = corner_stock(face_width_mm=45, thickness_mm=30, rabbet_width_mm=15, rabbet_depth_mm=12)
    slot = mortise(width_mm=15, depth_mm=10, thickness_mm=5)
    behind = place_slot(stock, slot, height_mm=6, wall_mm=WALL_MM)
    within = place_slot(stock, slot, height_mm=21, wall_mm=WALL_MM)
    assert within.latest_mm - behind.latest_mm == pytest.approx(15 * sqrt(2))


@pytest.mark.parametrize("sides", [3, 4, 8])
def test_the_deepest_and_the_widest_slot_leave_walls_just_as_wanted(sides: int) -> None:
    stock = _stock(sides=sides)
    deepest = mortise(
        width_mm=10,
        depth_mm=deepest_mm(stock, mortise(width_mm=10, depth_mm=1, thickness_mm=5), height_mm=8, wall_mm=WALL_MM),
        thickness_mm=5,
    )
    widest = mortise(
        width_mm=widest_mm(stock, mortise(width_mm=1, depth_mm=10, thickness_mm=5), height_mm=8, wall_mm=WALL_MM),
        depth_mm=10,
        thickness_mm=5,
    )
    for slot in (deepest, widest):
        room = place_slot(_stock(sides=sides), widest, height_mm=8, wall_mm=WALL_MM)
        assert room.latest_mm == pytest.approx(room.earliest_mm)
        assert slot.depth_mm * tan(radians(stock.half_turn_deg)) + slot.mouth_mm == pytest.approx(
            (stock.land_mm - 2 * WALL_MM) / cos(stock.half_turn_rad)
        )


def test_of_the_biscuits_only_the_smallest_fits_a_mitre_of_45_without_rabbet() -> None:
    """Worked by hand: ends of 63.64 mm less the chord, halved: #20 shows, #10 leaves 1.8 each end, #0 leaves 4.7."""
    stock = corner_stock(face_width_mm=45, thickness_mm=20, rabbet_width_mm=0, rabbet_depth_mm=0)
    slots = [biscuit_slot(biscuit) for biscuit in biscuits()]
    ends = [
        place_slot(stock, slot, height_mm=10, wall_mm=WALL_MM, from_tip_mm=stock.mitre_length_mm / 2).marks.near_mm
        for slot in slots[:2]
    ]
    assert ends == pytest.approx([4.7, 1.8], abs=0.05)
    assert slots[2].mouth_mm > stock.mitre_length_mm
    assert [place.slot.name for place in largest_that_fits(stock, slots, height_mm=10, wall_mm=WALL_MM)] == [
        "biscuit #0"
    ]


def test_the_largest_that_fits_has_the_most_glue() -> None:
    wide = corner_stock(face_width_mm=80, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    fitting = largest_that_fits(wide, [biscuit_slot(biscuit) for biscuit in biscuits()], height_mm=8, wall_mm=WALL_MM)
    assert [place.slot.name for place in fitting] == ["biscuit #20", "biscuit #10", "biscuit #0"]


def test_a_profile_that_dips_into_the_slot_is_seen() -> None:
    """A hollow in the face, 8 mm deep over the middle: a slot that the blank would carry breaks out of it."""
    plain = corner_stock(face_width_mm=45, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=9)
    hollow = corner_stock(
        face_width_mm=45,
        thickness_mm=20,
        rabbet_width_mm=6,
        rabbet_depth_mm=9,
        shape=[*plain.shape[:-2], (45, 20), (35, 20), (28, 12), (12, 12), (5, 20), (0, 20)],
    )
    slot = mortise(width_mm=15, depth_mm=10, thickness_mm=5)
    place = {"height_mm": 10.0, "wall_mm": WALL_MM, "from_tip_mm": 35.0}
    assert place_slot(plain, slot, **place).walls.sound
    assert place_slot(hollow, slot, **place).walls.face_mm == pytest.approx(-0.5)
    found = slot_findings(hollow, place_slot(hollow, slot, **place))
    assert "The mortise breaks out at the face, by {wall}." in [finding.sentence for finding in found]


def test_a_slot_just_above_the_corner_of_the_rabbet_leaves_too_little_across_that_corner() -> None:
    stock = corner_stock(face_width_mm=45, thickness_mm=24, rabbet_width_mm=6, rabbet_depth_mm=8)
    place = place_slot(
        stock, mortise(width_mm=15, depth_mm=8, thickness_mm=5), height_mm=11.5, wall_mm=WALL_MM, from_tip_mm=45
    )
    assert min(place.walls.outer_mm, place.walls.inner_mm, place.walls.back_mm, place.walls.face_mm) > WALL_MM
    assert not place.walls.sound
    assert "corner of the rabbet" in slot_findings(stock, place)[0].sentence


@pytest.mark.parametrize(
    ("slot", "height_mm", "field", "says"),
    [
        (
            mortise(width_mm=15, depth_mm=10, thickness_mm=20),
            10.0,
            "thickness_mm",
            "Enter a mortise thickness under 20 mm, the member's thickness, not 20 mm",
        ),
        (mortise(width_mm=64, depth_mm=10, thickness_mm=5), 10.0, "mouth_mm", "Enter a mortise mouth under 63"),
        (
            mortise(width_mm=15, depth_mm=45, thickness_mm=5),
            10.0,
            "depth_mm",
            "Enter a mortise depth under 45 mm, the member's width, not 45 mm",
        ),
        (mortise(width_mm=15, depth_mm=10, thickness_mm=5), 19.0, "height_mm", "Enter 2.5 mm to 17.5 mm"),
    ],
)
def test_slots_larger_than_their_member_are_refused(slot: Slot, height_mm: float, field: str, says: str) -> None:
    with pytest.raises(FrameCalcError, match=says) as refusal:
        place_slot(_stock(), slot, height_mm=height_mm, wall_mm=WALL_MM)
    assert refusal.value.field == field


def test_a_mouth_that_leaves_no_depth_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="No depth left between walls of 3 mm: enter a mouth under 60 mm"):
        deepest_mm(_stock(), mortise(width_mm=60, depth_mm=1, thickness_mm=5), height_mm=8, wall_mm=WALL_MM)


def test_a_depth_that_leaves_no_mouth_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="No mouth left between walls of 3 mm: enter a depth under 60 mm"):
        widest_mm(_stock(), mortise(width_mm=1, depth_mm=60, thickness_mm=5), height_mm=8, wall_mm=WALL_MM)


@pytest.mark.parametrize("height_mm", [0.0, 2.0, 10.0, 20.0])
def test_a_size_too_large_to_be_placed_hides_no_smaller_one(height_mm: float) -> None:
    """Fault: one dowel deeper than a narrow member is wide made the whole list refuse."""
    narrow = corner_stock(face_width_mm=25, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    fitting = largest_that_fits(narrow, map(dowel_hole, dowels()), height_mm=height_mm, wall_mm=1.0)
    assert all(place.walls.sound for place in fitting)
    assert bool(fitting) is (height_mm == 10.0)


@pytest.mark.parametrize("face_width_mm", [24, 32, 38, 40, 45, 60, 90, 140])
@pytest.mark.parametrize("dowel", dowels(), ids=lambda dowel: dowel.size)
def test_two_dowels_stand_clear_of_each_other_wherever_two_are_placed(dowel: Dowel, face_width_mm: float) -> None:
    stock, hole = _stock_of(face_width_mm), dowel_hole(dowel)
    try:
        alone = place_slot(stock, hole, height_mm=10, wall_mm=WALL_MM)
    except FrameCalcError:
        with pytest.raises(FrameCalcError):
            place_pair(stock, hole, height_mm=10, wall_mm=WALL_MM)
        return
    places = place_pair(stock, hole, height_mm=10, wall_mm=WALL_MM)
    if len(places) == 1:
        assert places == (alone,)
        assert alone.latest_mm - alone.earliest_mm < dowel.diameter_mm + WALL_MM
        return
    assert find_clashes([slot_prism(stock, place) for place in places], wanted_mm=WALL_MM) == ()
    assert all(place.walls.outer_mm > WALL_MM - 1e-6 and place.walls.inner_mm > WALL_MM - 1e-6 for place in places)
    middle_mm = sum(place.marks.centre_mm for place in places) / 2
    assert middle_mm == pytest.approx(alone.marks.centre_mm)


def test_a_wide_member_has_two_dowels_and_a_narrow_one_has_one() -> None:
    hole = dowel_hole(next(dowel for dowel in dowels() if dowel.diameter_mm == 6))
    widths_mm = (32.0, 38.0, 45.0, 90.0)
    found = [len(place_pair(_stock_of(width_mm), hole, height_mm=10, wall_mm=WALL_MM)) for width_mm in widths_mm]
    assert found == sorted(found) and set(found) == {1, 2}


def _stock_of(face_width_mm: float) -> CornerStock:
    return corner_stock(face_width_mm=face_width_mm, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)


@pytest.mark.parametrize("mouth_mm", [20.0, 0.5])
def test_at_45_a_millimetre_more_of_depth_is_one_less_of_mouth_down_to_none(mouth_mm: float) -> None:
    """Source: plane geometry, tan 45 = 1: the wall runs off as fast as the slot goes in."""
    at_one_mm = widest_mm(_stock(), mortise(width_mm=1, depth_mm=1, thickness_mm=5), height_mm=8, wall_mm=WALL_MM)
    deep = mortise(width_mm=1, depth_mm=1 + at_one_mm - mouth_mm, thickness_mm=5)
    assert widest_mm(_stock(), deep, height_mm=8, wall_mm=WALL_MM) == pytest.approx(mouth_mm)


@pytest.mark.parametrize("depth_mm", [20.0, 0.5])
def test_at_45_a_millimetre_more_of_mouth_is_one_less_of_depth_down_to_none(depth_mm: float) -> None:
    """Source: plane geometry, as for the mouth."""
    slot = {"depth_mm": 1, "thickness_mm": 5}
    first_mm = deepest_mm(_stock(), mortise(width_mm=1, **slot), height_mm=8, wall_mm=WALL_MM)
    wide = mortise(width_mm=1 + first_mm - depth_mm, **slot)
    assert deepest_mm(_stock(), wide, height_mm=8, wall_mm=WALL_MM) == pytest.approx(depth_mm)
    with pytest.raises(FrameCalcError, match="No depth left"):
        deepest_mm(_stock(), mortise(width_mm=1.01 + first_mm, **slot), height_mm=8, wall_mm=WALL_MM)


@pytest.mark.parametrize(("thickness_mm", "is_thick"), [(6.6, False), (6.7, True)])
def test_a_slot_thicker_than_a_third_of_the_frame_is_told_with_what_is_usual(
    thickness_mm: float, is_thick: bool
) -> None:
    place = place_slot(_stock(), mortise(width_mm=10, depth_mm=9, thickness_mm=thickness_mm), height_mm=8, wall_mm=1)
    found = [one.lengths for one in slot_findings(_stock(), place) if one.code == "joints.slot-thick"]
    assert found == ([{"thickness": thickness_mm, "usual": pytest.approx(20 / 3)}] if is_thick else [])
