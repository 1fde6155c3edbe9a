"""Rings: counted from the pith by their radii, wherever that wanders; a board scales with its wood and its face."""

from itertools import pairwise
from math import hypot, tau
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from framecalc.look.figure import USUAL_FIGURE, Sawn
from framecalc.look.rings import PithPlace, RingedBoard, Wave, board_of, wave
from framecalc.records import replace

PITH = PithPlace(across_mm=12, below_mm=30, taper_ratio=0, wander_across_mm=0, wander_below_mm=0)
STILL = Wave(())
SEEDS = [str(number) for number in range(12)]


def ringed(
    *,
    edges_mm: tuple[float, ...] = tuple(range(0, 200, 2)),
    pith: PithPlace = PITH,
    across: Wave = STILL,
    below: Wave = STILL,
    tremor: Wave = STILL,
    tilt_ratio: float = 0.0,
) -> RingedBoard:
    return RingedBoard(
        wood=USUAL_FIGURE,
        sawn=Sawn.FLAT,
        seed="a",
        pith=pith,
        across=across,
        below=below,
        tremor=tremor,
        tilt_ratio=tilt_ratio,
        edges_mm=edges_mm,
    )


@settings(max_examples=30)
@given(x_mm=some.floats(0, 900), y_mm=some.floats(0, 60), z_mm=some.floats(-9, 0))
def test_even_rings_are_counted_by_how_far_the_pith_is(x_mm: float, y_mm: float, z_mm: float) -> None:
    (ring,) = ringed().rings_across(x_mm, across_mm=[y_mm], up_mm=[z_mm])
    assert ring == pytest.approx(hypot(y_mm - 12, z_mm + 30) / 2)


def test_the_number_runs_from_one_edge_of_a_ring_to_the_other_whatever_its_width() -> None:
    uneven = ringed(edges_mm=(0, 30, 40, 41))
    assert uneven.rings_across(0, across_mm=[12], up_mm=[0]) == [1]
    assert uneven.rings_across(0, across_mm=[12] * 3, up_mm=[-15, 5, 10.25]) == pytest.approx([0.5, 1.5, 2.25])
    assert uneven.rings_across(0, across_mm=[12], up_mm=[12]) == pytest.approx([4]), "past the last it goes on as there"


def test_a_tree_tapers_its_pith_wanders_and_its_rings_tremble_along_the_tilt() -> None:
    across, below, tremor = wave(Random("a"), (3, 50)), wave(Random("b"), (2, 40)), wave(Random("c"), (1, 30))
    pith = PithPlace(across_mm=12, below_mm=30, taper_ratio=0.01, wander_across_mm=0, wander_below_mm=0)
    board = ringed(pith=pith, across=across, below=below, tremor=tremor, tilt_ratio=0.3)
    (ring,) = board.rings_across(70, across_mm=[20], up_mm=[-4])
    away_mm = hypot(20 - 12 - across.at(70), 30 + below.at(70) - 4)
    assert ring * 2 == pytest.approx(away_mm + 0.7 + tremor.at(76))


@settings(max_examples=30)
@given(x_mm=some.floats(-500, 500))
def test_a_wave_comes_back_after_its_length_and_turns_over_after_half(x_mm: float) -> None:
    one = wave(Random("a"), (3, 50))
    assert one.at(x_mm) == pytest.approx(one.at(x_mm + 50), abs=1e-9) == pytest.approx(-one.at(x_mm + 25), abs=1e-9)
    assert max(one.at(x / 10) for x in range(500)) == pytest.approx(3, abs=0.01)
    assert Wave(((3, tau, 0), (5, tau, 0))).at(0.25) == pytest.approx(8), "parts add up"


@pytest.mark.parametrize("sawn", Sawn)
@pytest.mark.parametrize("seed", SEEDS[:4])
def test_wood_of_wider_rings_is_the_same_board_in_larger(sawn: Sawn, seed: str) -> None:
    one = board_of(USUAL_FIGURE, sawn, face_mm=30, seed=seed)
    other = board_of(replace(USUAL_FIGURE, ring_mm=2 * USUAL_FIGURE.ring_mm), sawn, face_mm=30, seed=seed)
    assert other.edges_mm[:60] == pytest.approx([2 * edge_mm for edge_mm in one.edges_mm[:60]])
    for wide, narrow in zip(other.tremor.parts, one.tremor.parts, strict=True):
        assert wide[0] == pytest.approx(2 * narrow[0])
    assert other.pith.taper_ratio == pytest.approx(2 * one.pith.taper_ratio)


@pytest.mark.parametrize("sawn", Sawn)
@pytest.mark.parametrize("seed", SEEDS)
def test_a_board_is_of_its_wood(sawn: Sawn, seed: str) -> None:
    board = board_of(USUAL_FIGURE, sawn, face_mm=30, seed=seed)
    ring_mm = USUAL_FIGURE.ring_mm
    assert board.edges_mm[-1] / (len(board.edges_mm) - 1) == pytest.approx(ring_mm, rel=0.1), "the mean year"
    assert all(0.3 * ring_mm < late - early < 2 * ring_mm for early, late in pairwise(board.edges_mm))
    for long_wave, short_wave in (board.across.parts, board.below.parts, board.tremor.parts):
        assert long_wave[0] > short_wave[0] > 0 and long_wave[1] < short_wave[1], "what is longer is higher"
    assert sum(height for height, _, _ in board.tremor.parts) < ring_mm / 2, "rings tremble, they do not cross"
    assert 0 < board.pith.taper_ratio < 0.05, "a log of a metre tapers by less than a hand"
    assert board.across.parts[0][0] < 30, "the pith stays below the face"
    assert 0 < board.below.parts[0][0] < board.pith.below_mm


@pytest.mark.parametrize("sawn", [Sawn.RIFT, Sawn.QUARTERED])
def test_a_board_beside_the_pith_comes_from_either_side_of_it_alike(sawn: Sawn) -> None:
    places_mm = sorted({board_of(USUAL_FIGURE, sawn, face_mm=30, seed=seed).pith.across_mm for seed in SEEDS})
    assert len(places_mm) == 2 and places_mm[0] < 0 and places_mm[1] > 30
    assert sum(places_mm) == pytest.approx(30)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_pith_of_a_flat_board_lies_under_its_face_deeper_under_a_wide_one(seed: str) -> None:
    depths_mm = []
    for face_mm in (5, 10, 30, 60):
        pith = board_of(USUAL_FIGURE, Sawn.FLAT, face_mm=face_mm, seed=seed).pith
        assert 0 < pith.across_mm < face_mm and pith.wander_across_mm < face_mm / 2
        assert pith.wander_below_mm < USUAL_FIGURE.ring_mm
        depths_mm.append(pith.below_mm)
    assert depths_mm[0] == depths_mm[1] > 10 and depths_mm[3] == 2 * depths_mm[2], "never close under a narrow one"
