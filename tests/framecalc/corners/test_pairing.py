"""Putting the sides of a batch together: against every arrangement tried one by one, and against the bound."""

import random
from itertools import combinations, permutations

import pytest

from framecalc.corners.pairing import SEARCH_STEPS, LooseMember, Pairing, pair_sides
from framecalc.errors import FrameCalcError


def _batch(seed: int, frames: int, *, spread_deg: float = 0.1, mean_deg: float = 0.0) -> list[list[LooseMember]]:
    chance = random.Random(seed)
    return [
        [
            LooseMember(name=f"{kind}{number}", error_deg=chance.gauss(mean_deg, spread_deg))
            for number in range(2 * frames)
        ]
        for kind in "AB"
    ]


def _least_worst(kinds: list[list[LooseMember]]) -> float:
    """The best of all arrangements: every way to split each kind in pairs, every way to match the pairs."""
    return min(
        max(abs(one + other) for one, other in zip(across, order, strict=True))
        for across in _splits([member.error_deg for member in kinds[0]])
        for up in _splits([member.error_deg for member in kinds[1]])
        for order in permutations(up)
    )


def _splits(values: list[float]) -> list[list[float]]:
    if not values:
        return [[]]
    first, rest = values[0], values[1:]
    return [
        [first + rest[partner], *pairs]
        for partner in range(len(rest))
        for pairs in _splits(rest[:partner] + rest[partner + 1 :])
    ]


@pytest.mark.parametrize("frames", [1, 2, 3])
@pytest.mark.parametrize("seed", range(8))
def test_a_small_batch_is_put_together_in_the_best_way_there_is(seed: int, frames: int) -> None:
    kinds = _batch(seed, frames)
    pairing = pair_sides(kinds, frames=frames)
    assert pairing.proved
    assert pairing.worst_deg == pytest.approx(_least_worst(kinds), abs=1e-8)


@pytest.mark.parametrize("seed", range(3))
def test_four_frames_of_strays_are_proved_too(seed: int) -> None:
    pairing = pair_sides(_batch(seed, 4, spread_deg=0.2), frames=4)
    assert pairing.proved and pairing.bound_deg == pairing.worst_deg


@pytest.mark.parametrize("frames", [2, 5, 12, 40])
@pytest.mark.parametrize("seed", range(3))
def test_every_side_is_used_once_and_the_totals_are_those_of_the_sides(seed: int, frames: int) -> None:
    kinds = _batch(seed, frames, mean_deg=0.05)
    pairing = pair_sides(kinds, frames=frames)
    errors = {member.name: member.error_deg for kind in kinds for member in kind}
    assert sorted(name for frame in pairing.frames for name in frame.names) == sorted(errors)
    for frame in pairing.frames:
        assert [name[0] for name in frame.names] == ["A", "A", "B", "B"]
        assert frame.total_error_deg == pytest.approx(sum(errors[name] for name in frame.names))
    _check_bound(pairing, total_deg=sum(errors.values()), frames=frames)


def _check_bound(pairing: Pairing, *, total_deg: float, frames: int) -> None:
    assert pairing.worst_deg == pytest.approx(max(abs(frame.total_error_deg) for frame in pairing.frames))
    assert pairing.worst_deg >= abs(total_deg) / frames - 1e-9
    assert abs(total_deg) / frames - 1e-9 <= pairing.bound_deg <= pairing.worst_deg + 1e-9


@pytest.mark.parametrize("seed", range(3))
def test_a_large_batch_comes_near_its_bound(seed: int) -> None:
    """Exchanging must do far better than taking the sides as they come from the saw."""
    kinds = _batch(seed, 40)
    as_they_come = max(
        abs(sum(kinds[0][i].error_deg + kinds[1][i].error_deg for i in (2 * frame, 2 * frame + 1)))
        for frame in range(40)
    )
    pairing = pair_sides(kinds, frames=40)
    assert pairing.worst_deg - pairing.bound_deg < 0.2 * (as_they_come - pairing.bound_deg)


def test_a_square_frame_takes_four_of_one_kind() -> None:
    members = [
        LooseMember(name=str(number), error_deg=error) for number, error in enumerate((3, 1, 1, 1, -3, -1, -1, -1))
    ]
    best = min(
        max(abs(sum(four)), abs(sum((3, 1, 1, 1, -3, -1, -1, -1)) - sum(four)))
        for four in combinations((3, 1, 1, 1, -3, -1, -1, -1), 4)
    )
    pairing = pair_sides([members], frames=2)
    assert pairing.proved and pairing.worst_deg == best == 0


@pytest.mark.parametrize(
    ("counts", "frames", "says"),
    [
        ((4, 3), 2, "do not make 2 frames"),
        ((0, 0), 2, "do not make"),
        ((2, 2), 0, "1 to 100"),
        ((2, 2), 101, "1 to 100"),
    ],
)
def test_batches_that_make_no_frames_are_refused(counts: tuple[int, int], frames: int, says: str) -> None:
    kinds = [
        [LooseMember(name=f"{kind}{number}", error_deg=0.0) for number in range(count)]
        for kind, count in zip("AB", counts, strict=True)
    ]
    with pytest.raises(FrameCalcError, match=says):
        pair_sides(kinds, frames=frames)


def test_sides_of_one_name_are_refused() -> None:
    twins = [LooseMember(name="A1", error_deg=0.0), LooseMember(name="A1", error_deg=0.1)]
    with pytest.raises(FrameCalcError, match="same name"):
        pair_sides([twins], frames=1)


def test_an_error_that_is_no_error_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="-10° to 10°"):
        pair_sides([[LooseMember(name="A", error_deg=float("nan"))]], frames=1)


def test_a_search_that_runs_out_of_steps_claims_no_proof(monkeypatch: pytest.MonkeyPatch) -> None:
    found = {}
    for steps in (2, SEARCH_STEPS):
        monkeypatch.setattr("framecalc.corners.pairing.SEARCH_STEPS", steps)
        found[steps] = pair_sides(_batch(3, 3), frames=3)
    assert found[SEARCH_STEPS].proved and not found[2].proved
    assert found[2].worst_deg >= found[SEARCH_STEPS].worst_deg
