"""Small motions of a ring of members: moving all of them changes nothing, and the best motions keep what they won."""

import random
from math import inf, pi, tan

import pytest

from framecalc.corners.small_motions import Ring, best_motions, gaps_and_steps
from framecalc.records import replace

TRUE = Ring(half_across_mm=250, half_up_mm=175, too_long_mm=(0, 0, 0, 0), wedges_rad=(0, 0, 0, 0), mitre_length_mm=56)


def _crooked(seed: int) -> Ring:
    chance = random.Random(seed)
    across_mm, up_mm = chance.uniform(-0.5, 0.5), chance.uniform(-0.5, 0.5)
    return Ring(
        half_across_mm=chance.uniform(80, 500),
        half_up_mm=chance.uniform(80, 500),
        too_long_mm=(across_mm, up_mm, -across_mm, -up_mm),
        wedges_rad=(chance.gauss(0, 0.004), chance.gauss(0, 0.004), chance.gauss(0, 0.004), chance.gauss(0, 0.004)),
        mitre_length_mm=56,
    )


@pytest.mark.parametrize("seed", range(5))
def test_shifting_the_whole_frame_changes_no_gap_and_no_step(seed: int) -> None:
    lengths = gaps_and_steps(_crooked(seed))
    for shift in (4 * (1.0, 0.0, 0.0), 4 * (0.0, 1.0, 0.0)):
        for length in (*lengths.gaps, *lengths.steps):
            assert length.at(shift) == pytest.approx(length.at(12 * (0.0,)))


@pytest.mark.parametrize("seed", range(5))
def test_turning_the_whole_frame_changes_no_gap_and_no_step(seed: int) -> None:
    """Turned about the middle of the frame, each member's middle also moves square to its arm."""
    ring = _crooked(seed)
    middles = ((0, ring.half_up_mm), (ring.half_across_mm, 0), (0, -ring.half_up_mm), (-ring.half_across_mm, 0))
    turned = tuple(motion for x, y in middles for motion in (-y / ring.reach_mm, x / ring.reach_mm, 1.0))
    lengths = gaps_and_steps(ring)
    for length in (*lengths.gaps, *lengths.steps):
        assert length.at(turned) == pytest.approx(length.at(12 * (0.0,)))


def test_a_true_ring_is_best_left_where_it_is() -> None:
    assert best_motions(gaps_and_steps(TRUE)) == pytest.approx(12 * (0.0,), abs=1e-9)


def test_sides_that_are_all_too_long_close_as_a_larger_rectangle() -> None:
    across_mm, up_mm = 0.6, 0.2
    lengths = gaps_and_steps(replace(TRUE, too_long_mm=(across_mm, up_mm, across_mm, up_mm)))
    outward = (0, up_mm / 2, 0, across_mm / 2, 0, 0, 0, -up_mm / 2, 0, -across_mm / 2, 0, 0)
    assert [length.at(outward) for length in (*lengths.gaps, *lengths.steps)] == pytest.approx(12 * [0])


@pytest.mark.parametrize("sides", [3, 6, 8])
def test_sides_that_are_all_too_long_close_as_a_larger_polygon(sides: int) -> None:
    """The middle of a side of length s lies s / (2 · tan(π/n)) from the middle of a regular polygon."""
    ring = replace(TRUE, half_up_mm=250, too_long_mm=sides * (0.6,), wedges_rad=sides * (0.0,))
    out_mm = 0.6 / (2 * tan(pi / sides))
    outward = [part for member in range(sides) for part in _outward(ring.along(member), out_mm)]
    lengths = gaps_and_steps(ring)
    assert [length.at(outward) for length in (*lengths.gaps, *lengths.steps)] == pytest.approx(3 * sides * [0])


def _outward(along: tuple[float, float], out_mm: float) -> tuple[float, float, float]:
    """A side that goes clockwise has the outside to its left."""
    return -along[1] * out_mm, along[0] * out_mm, 0


def test_a_side_whose_ends_err_against_each_other_is_only_turned() -> None:
    """An end angle too large makes the inner edge longer there; clockwise by as much both faces of the top are true."""
    lengths = gaps_and_steps(replace(TRUE, wedges_rad=(0.004, 0, 0, -0.004)))
    turned = (0, 0, -0.004 * TRUE.reach_mm, *9 * (0,))
    for corner in range(4):
        tip, inside = lengths.gaps[2 * corner : 2 * corner + 2]
        assert inside.at(turned) == pytest.approx(tip.at(turned))


@pytest.mark.parametrize("seed", range(10))
@pytest.mark.parametrize("step_mm", [0.0, 0.05, inf])
def test_a_step_that_is_allowed_only_ever_helps_the_gap(seed: int, step_mm: float) -> None:
    lengths = gaps_and_steps(_crooked(seed))
    motions = best_motions(lengths, step_mm=step_mm)
    free = best_motions(lengths)
    assert max(gap.at(motions) for gap in lengths.gaps) >= max(gap.at(free) for gap in lengths.gaps) - 1e-6
    assert max(abs(step.at(motions)) for step in lengths.steps) <= step_mm + 1e-6
    assert min(gap.at(motions) for gap in lengths.gaps) >= -1e-6
