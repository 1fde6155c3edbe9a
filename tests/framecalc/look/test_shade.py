"""Light in numbers: a painted surface without sheen takes the lamp by its cosine and the sky by what is open."""

from math import atan2, cos, degrees, hypot, radians, sin, tan

import pytest

from framecalc.geometry.outline import Outline, join
from framecalc.look.finish import SeenFinish
from framecalc.look.light import (
    GAMMA_N,
    LAMP_LEVEL_RATIO,
    LIGHT,
    SKY_RATIO,
    SOFT_MM,
    Facet,
    ShadeStop,
    _thinned,
    brightness_ratio,
    facets,
    falling_on,
    stops_across,
)
from framecalc.records import replace

PAINT = SeenFinish(deeper_ratio=0, saturation_ratio=1, sheen_ratio=0, sharpness_n=9, hides=True)
INWARD = [(0.0, -1.0), (-1.0, 0.0), (0.0, 1.0), (1.0, 0.0)]
LEVEL = Facet(from_mm=0, to_mm=30, from_up_mm=20, to_up_mm=20)


def changes(*parts: Facet, inward: tuple[float, float] = (0, -1), finish: SeenFinish = PAINT) -> list[float]:
    return [stop.change_ratio for stop in stops_across(parts, lamp=falling_on(inward), finish=finish)]


def lit(change: float) -> float:
    """The light that makes a change of tone."""
    return float((change + 1) ** (1 / GAMMA_N))


@pytest.mark.parametrize("inward", INWARD)
@pytest.mark.parametrize("sheen", [0, 0.6])
def test_level_paint_keeps_its_tone_on_every_side(inward: tuple[float, float], sheen: float) -> None:
    found = changes(LEVEL, inward=inward, finish=replace(PAINT, sheen_ratio=sheen))
    assert found == pytest.approx([0, 0], abs=1e-9)


def test_wood_is_brighter_where_the_lamp_lies_across_its_fibres_and_as_bright_in_the_mean() -> None:
    top, right, bottom, left = (
        lit(changes(LEVEL, inward=inward, finish=replace(PAINT, hides=False))[0]) for inward in INWARD
    )
    assert (top, left) == pytest.approx((bottom, right))
    assert (top > 1 > left) is (abs(LIGHT[1]) > abs(LIGHT[0]))
    assert (top + left) / 2 == pytest.approx(1, abs=0.02)


@pytest.mark.parametrize("slope_deg", [-20, -5, 5, 20, 35])
@pytest.mark.parametrize("inward", INWARD)
def test_a_slope_takes_the_lamp_by_its_cosine_as_the_bevel_of_a_mat_does(
    inward: tuple[float, float], slope_deg: float
) -> None:
    """Lambert's cosine law; its own slope hides nothing of the sky, of which what leans sees a little less."""
    slope = radians(slope_deg)
    sloped = Facet(from_mm=0, to_mm=30, from_up_mm=40, to_up_mm=40 + 30 * tan(slope))
    normal = (-sin(slope), cos(slope))
    light = lit(changes(sloped, inward=inward)[0])
    assert (
        brightness_ratio(inward, slope=normal) - SKY_RATIO * 0.2
        < light
        <= brightness_ratio(inward, slope=normal) + 1e-9
    )
    lamp = inward[0] * LIGHT[0] + inward[1] * LIGHT[1]
    cosine = max(0, normal[0] * lamp + normal[1] * LIGHT[2]) / LIGHT[2]
    assert brightness_ratio(inward, slope=normal) == pytest.approx(SKY_RATIO + (1 - SKY_RATIO) * cosine)


def beside_a_wall(deg: float, *, wall_is_outside: bool, inward: tuple[float, float]) -> float:
    """The light on a face so narrow that all of it sees the end of a wall at one angle."""
    face, up_mm = Facet(from_mm=0, to_mm=2, from_up_mm=0, to_up_mm=0), 100 * tan(radians(deg))
    at_mm = (-109, -99) if wall_is_outside else (101, 111)
    wall = Facet(from_mm=at_mm[0], to_mm=at_mm[1], from_up_mm=up_mm, to_up_mm=up_mm)
    parts = (wall, face) if wall_is_outside else (face, wall)
    return lit(changes(*parts, inward=inward)[-1 if wall_is_outside else 0])


@pytest.mark.parametrize("deg", [20, 45, 70])
@pytest.mark.parametrize("wall_is_outside", [False, True])
def test_a_wall_hides_its_angle_of_the_half_round(deg: float, wall_is_outside: bool) -> None:
    """The lamp stands on the other side of the face."""
    light = beside_a_wall(deg, wall_is_outside=wall_is_outside, inward=(0, 1) if wall_is_outside else (0, -1))
    assert light == pytest.approx(1 - SKY_RATIO * deg / 180)


@pytest.mark.parametrize("wall_is_outside", [False, True])
def test_a_wall_that_is_higher_than_the_lamp_hides_that_too_a_little_at_a_time(wall_is_outside: bool) -> None:
    inward = (0, -1) if wall_is_outside else (0, 1)
    lamp_deg = degrees(atan2(LIGHT[2], LIGHT[1]))
    low, middle, high = (
        beside_a_wall(lamp_deg + more_deg, wall_is_outside=wall_is_outside, inward=inward) for more_deg in (-25, 0, 25)
    )
    assert low == pytest.approx(1 - SKY_RATIO * (lamp_deg - 25) / 180)
    assert high == pytest.approx(SKY_RATIO * (1 - (lamp_deg + 25) / 180))
    lamp = (middle - SKY_RATIO * (1 - lamp_deg / 180)) / (1 - SKY_RATIO)
    assert lamp == pytest.approx(LAMP_LEVEL_RATIO)


def test_the_lamp_shows_in_a_shiny_face_that_leans_half_way_to_it_as_brightly_as_its_sheen_says() -> None:
    """J. Blinn, 1977, from memory: the highlight is full where the normal halves the angle of lamp and eye."""
    half = atan2(LIGHT[1], LIGHT[2]) / 2
    leaning = Facet(from_mm=0, to_mm=30, from_up_mm=40, to_up_mm=40 - 30 * tan(half))
    dull, shiny = (
        changes(leaning, inward=(0, 1), finish=replace(PAINT, sheen_ratio=sheen, sharpness_n=400))[0]
        for sheen in (0, 0.3)
    )
    along = LIGHT[0] ** 2
    seen = ((LIGHT[1] * sin(half) + (LIGHT[2] + 1) * cos(half)) / hypot(*LIGHT[:2], LIGHT[2] + 1)) ** 400
    assert along > 0 and shiny - dull == pytest.approx(0.3 * seen, abs=0.002)


def test_facets_end_at_the_width_of_the_face_at_the_height_that_they_have_there() -> None:
    outline = Outline(segments=join([(0, 0), (40, 0), (40, 10), (20, 20), (0, 20), (0, 0)]))
    level, sloped = facets(outline, face_width_mm=30)
    assert (level.from_mm, level.to_mm, sloped.from_mm, sloped.to_mm) == (0, 20, 20, 30)
    assert (sloped.from_up_mm, sloped.to_up_mm) == (20, 15)
    assert sloped.middle == (25, 17.5) and sloped.normal == pytest.approx((5**-0.5, 2 * 5**-0.5))


def test_stops_stand_at_the_ends_of_long_facets_and_in_the_middle_of_parts_of_a_curve() -> None:
    """A turn of 11 degrees is a curve, one of 27 an edge; what lies on the way between its neighbours is left out."""
    long = [
        Facet(from_mm=0, to_mm=30, from_up_mm=20, to_up_mm=20),
        Facet(from_mm=30, to_mm=60, from_up_mm=20, to_up_mm=35),
    ]
    stops = stops_across(long, lamp=falling_on((0, -1)), finish=PAINT)
    assert [stop.at_mm for stop in stops] == pytest.approx([SOFT_MM, 30 - SOFT_MM, 30 + SOFT_MM, 60 - SOFT_MM])
    curve = [
        Facet(from_mm=2 * n, to_mm=2 * n + 2, from_up_mm=-0.2 * n * n, to_up_mm=-0.2 * (n + 1) ** 2) for n in range(3)
    ]
    stops = stops_across(curve, lamp=falling_on((0, 1)), finish=PAINT)
    assert [stop.at_mm for stop in stops] == pytest.approx([SOFT_MM, 3, 6 - SOFT_MM])
    narrow = [Facet(from_mm=0, to_mm=0.2, from_up_mm=20, to_up_mm=20)]
    assert [stop.at_mm for stop in stops_across(narrow, lamp=falling_on((0, 1)), finish=PAINT)] == pytest.approx(
        [0.05, 0.15]
    )


def test_a_step_between_two_level_facets_is_an_edge() -> None:
    steps = [
        Facet(from_mm=0, to_mm=2, from_up_mm=20, to_up_mm=20),
        Facet(from_mm=2, to_mm=4, from_up_mm=15, to_up_mm=15),
    ]
    stops = stops_across(steps, lamp=falling_on((0, -1)), finish=PAINT)
    assert {round(stop.at_mm, 3) for stop in stops} >= {round(2 - SOFT_MM, 3), round(2 + SOFT_MM, 3)}


def test_a_stop_on_the_straight_way_between_its_neighbours_is_left_out_wherever_that_lies() -> None:
    for base in (-0.5, 0.0, 0.5):
        on, off = (
            [ShadeStop(at_mm=at_mm, change_ratio=base + up) for at_mm, up in ((0, 0.1), (1, middle), (4, 0.5))]
            for middle in (0.2, 0.4)
        )
        assert _thinned(on) == [on[0], on[2]] and _thinned(off) == off
