"""Small motions of a ring of members: moving all of them changes nothing, and the best motions keep what they won."""

import random
from math import inf

import pytest

from framecalc.corners.small_motions import Ring, best_motions, gaps_and_steps

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


@pytest.mark.parametrize("seed", range(10))
@pytest.mark.parametrize("step_mm", [0.0, 0.05, inf])
def test_a_step_that_is_allowed_only_ever_helps_the_gap(seed: int, step_mm: float) -> None:
    lengths = gaps_and_steps(_crooked(seed))
    motions = best_motions(lengths, step_mm=step_mm)
    free = best_motions(lengths)
    assert max(gap.at(motions) for gap in lengths.gaps) >= max(gap.at(free) for gap in lengths.gaps) - 1e-6
    assert max(abs(step.at(motions)) for step in lengths.steps) <= step_mm + 1e-6
    assert min(gap.at(motions) for gap in lengths.gaps) >= -1e-6
