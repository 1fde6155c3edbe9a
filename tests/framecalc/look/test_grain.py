"""The grain: the same board each time, no heavier than it may be, and toned as the table of figures says."""

from itertools import pairwise
from math import dist

import pytest
from PIL import Image, ImageChops, ImageDraw

from framecalc.look.figure import Sawn, figure_of, sawn_as
from framecalc.look.grain import Band, DrawnStretch, grain_of, mean_tint_ratio
from framecalc.look.light import Facet
from framecalc.records import replace

LEVEL = (Facet(from_mm=0, to_mm=32, from_up_mm=20, to_up_mm=20),)
OAK = DrawnStretch(
    wood=figure_of("white oak"),
    sawn=Sawn.QUARTERED,
    seed="a",
    start_mm=0,
    from_mm=0,
    to_mm=500,
    face_mm=32,
    facets=LEVEL,
    px_per_mm=2,
)
PX_PER_MM = 4


def mean_of(band: Band, stretch: DrawnStretch) -> float:
    """How much of the face a band covers, counted on pixels by the even-odd rule."""
    size = round(stretch.to_mm * PX_PER_MM), round(stretch.face_mm * PX_PER_MM)
    covered = Image.new("1", size)
    for loop in band.loops:
        one = Image.new("1", size)
        ImageDraw.Draw(one).polygon([(x * PX_PER_MM, y * PX_PER_MM) for x, y in loop], fill=1)
        covered = ImageChops.logical_xor(covered, one)
    return covered.convert("L").resize((1, 1), Image.Resampling.BOX).getpixel((0, 0)) / 255  # type: ignore[operator]


@pytest.mark.parametrize("species", ["white oak", "ash", "walnut", "cherry", "pine"])
def test_late_wood_covers_as_much_of_a_face_as_its_tone_is_reckoned_with(species: str) -> None:
    stretch = replace(OAK, wood=figure_of(species), to_mm=900)
    tint = sum(band.tint_ratio * mean_of(band, stretch) for band in grain_of(stretch).bands)
    assert tint == pytest.approx(mean_tint_ratio(stretch.wood), abs=0.05)


def test_the_same_stretch_has_the_same_grain_and_another_place_another() -> None:
    first = grain_of(OAK)
    grain_of.cache_clear()
    assert grain_of(OAK) == first
    assert grain_of(replace(OAK, start_mm=500)) != first and grain_of(replace(OAK, seed="b")) != first


def test_a_member_goes_on_where_the_one_before_it_ended() -> None:
    """The rings at the end of one stretch are those at the start of the next one on the board."""
    board = replace(OAK, sawn=Sawn.FLAT, wood=replace(OAK.wood, pores_ratio=0, fibre_ratio=0))
    first, second = grain_of(replace(board, to_mm=300)), grain_of(replace(board, start_mm=300, to_mm=300))
    ends, starts = (
        sorted(
            {
                round(y, 1)
                for band in grain.bands
                for loop in band.loops
                for x, y in loop
                if abs(x - at) < 0.01 and 0 < y < 32
            }
        )
        for grain, at in ((first, 300), (second, 0))
    )
    fewer, more = sorted((ends, starts), key=len)
    assert len(more) - len(fewer) <= len(more) // 4 and len(fewer) > 6, "a curve made simpler may lose its last point"
    assert all(min(abs(y - other) for other in more) < 0.25 for y in fewer)


@pytest.mark.parametrize("sawn", Sawn)
def test_the_smaller_it_is_seen_the_less_is_drawn(sawn: Sawn) -> None:
    counts = [grain_of(replace(OAK, sawn=sawn, px_per_mm=px)).points_count for px in (4.0, 2.0, 1.0, 0.4)]
    assert counts == sorted(counts, reverse=True)


@pytest.mark.parametrize(("face_mm", "to_mm"), [(0.5, 5), (3, 12), (400, 60), (95, 6000)])
def test_members_of_any_size_have_a_grain(face_mm: float, to_mm: float) -> None:
    facets = (replace(LEVEL[0], to_mm=face_mm),)
    found = grain_of(replace(OAK, face_mm=face_mm, to_mm=to_mm, facets=facets, px_per_mm=0.5))
    assert found.bands and all(len(loop) > 1 for band in found.bands for loop in band.loops)


def test_a_name_says_how_a_board_is_sawn() -> None:
    assert sawn_as("White oak, quartersawn", ring_deg=0) is Sawn.QUARTERED
    assert sawn_as("plain-sawn ash", ring_deg=90) is Sawn.FLAT
    assert [sawn_as("ash", ring_deg=deg) for deg in (0, 45, 90)] == [Sawn.FLAT, Sawn.RIFT, Sawn.QUARTERED]


@pytest.mark.parametrize("start_mm", [0.0, 400.0])
def test_fibres_lie_on_the_face_at_the_middle_of_a_member_wherever_on_its_board_that_is(start_mm: float) -> None:
    """They run with the pith, which wanders; only at the middle of the member do they start from the face."""
    stretch = replace(OAK, sawn=Sawn.FLAT, start_mm=start_mm, from_mm=100, to_mm=500)
    fibres = [fibre for fibre in grain_of(stretch).fibres if fibre[0][0] < 300 < fibre[-1][0]]
    assert len(fibres) > 10
    for fibre in fibres:
        (x, y), (after, other) = next((one, two) for one, two in pairwise(fibre) if one[0] <= 300 <= two[0])
        assert -1.5 <= y + (other - y) * (300 - x) / (after - x) <= stretch.face_mm + 1.5


def test_fibres_lie_as_far_past_both_edges_of_a_face() -> None:
    narrow = replace(OAK, face_mm=3, facets=(replace(LEVEL[0], to_mm=3),), px_per_mm=40, to_mm=60)
    starts = [fibre[0][1] for fibre in grain_of(narrow).fibres]
    assert min(starts) < -0.5 and max(starts) > 3.5


@pytest.mark.parametrize("px_per_mm", [0.4, 1.0, 4.0, 9.0])
def test_a_curve_is_off_by_less_than_half_a_pixel_at_any_size(px_per_mm: float) -> None:
    stretch = replace(OAK, px_per_mm=px_per_mm)
    assert stretch.tolerance_mm * px_per_mm == pytest.approx(OAK.tolerance_mm * OAK.px_per_mm)
    assert stretch.tolerance_mm * px_per_mm < 0.5


def test_a_drawing_weighs_as_many_points_as_it_has() -> None:
    grain = grain_of(OAK)
    points = [*(point for band in grain.bands for loop in band.loops for point in loop)]
    points += [point for run in (*grain.fibres, *grain.pores, *grain.rays) for point in run]
    assert grain.points_count == len(points)


@pytest.mark.parametrize("sawn", Sawn)
def test_rays_are_lenses_as_wide_in_the_middle_on_the_face(sawn: Sawn) -> None:
    rays = grain_of(replace(OAK, sawn=sawn)).rays
    assert bool(rays) is (sawn is not Sawn.FLAT)
    for tip, side, other_tip, other_side in rays:
        (x, y), (u, v) = tip, other_tip
        middle = (x + u) / 2, (y + v) / 2
        assert ((side[0] + other_side[0]) / 2, (side[1] + other_side[1]) / 2) == pytest.approx(middle)
        across = (side[0] - other_side[0]) * (u - x) + (side[1] - other_side[1]) * (v - y)
        assert across == pytest.approx(0, abs=1e-9), "as wide square to its length"
        long_mm, wide_mm = dist(tip, other_tip), dist(side, other_side)
        assert 1.5 <= long_mm <= 12 and 0.4 < wide_mm <= 1 < long_mm
        assert 0 <= middle[0] <= OAK.to_mm and -1 <= middle[1] <= OAK.face_mm + 1


def test_rays_and_fibres_are_as_many_as_there_is_face() -> None:
    short, long = (grain_of(replace(OAK, to_mm=to_mm)) for to_mm in (250, 1000))
    assert len(long.rays) == pytest.approx(4 * len(short.rays), rel=0.1) and len(short.rays) > 5
    narrow, wide = (
        grain_of(replace(OAK, face_mm=face_mm, facets=(replace(LEVEL[0], to_mm=face_mm),))) for face_mm in (20, 60)
    )
    assert 2.3 < len(wide.fibres) / len(narrow.fibres) < 3.2
    fewer = grain_of(replace(OAK, to_mm=1000, wood=replace(OAK.wood, rays_ratio=OAK.wood.rays_ratio / 2)))
    assert len(fewer.rays) == pytest.approx(len(long.rays) / 2, rel=0.1)
    plain = grain_of(replace(OAK, wood=replace(OAK.wood, pores_ratio=0.05, rays_ratio=0)))
    assert plain.pores == () and plain.rays == () and grain_of(OAK).pores != ()


@pytest.mark.parametrize("sawn", Sawn)
def test_fibres_run_over_all_of_a_member_and_rows_of_pores_along_it(sawn: Sawn) -> None:
    grain = grain_of(replace(OAK, sawn=sawn, from_mm=100, to_mm=400))
    assert all(fibre[0][0] <= 100 and fibre[-1][0] >= 400 for fibre in grain.fibres)
    for row in grain.pores:
        along = sum(abs(after[0] - here[0]) for here, after in pairwise(row))
        across = sum(abs(after[1] - here[1]) for here, after in pairwise(row))
        assert across < along / 2


def test_a_hollow_face_bends_its_rings() -> None:
    """Where the face lies lower, the rings there are those of a place nearer to the pith or further from it."""
    level, sloped = (
        grain_of(replace(OAK, sawn=Sawn.FLAT, facets=(replace(LEVEL[0], to_up_mm=up_mm),))) for up_mm in (20, 8)
    )
    raised = grain_of(replace(OAK, sawn=Sawn.FLAT, facets=(replace(LEVEL[0], from_up_mm=35, to_up_mm=35),)))
    assert level.bands != sloped.bands and level.bands == raised.bands, "only heights below the highest part count"
