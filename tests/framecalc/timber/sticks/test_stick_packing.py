"""How full a bay can be, what goes in ahead of a search, and how long a search goes on."""

from collections.abc import Sequence
from itertools import product
from random import Random
from typing import Any

import pytest

from framecalc.timber.sticks import packing
from framecalc.timber.sticks.packing import (
    SNUG_STEPS,
    STEPS_A_TRY,
    GaveUp,
    _taken_ahead,
    doublings,
    fill_snugly,
    fullest,
    pack_exactly,
    pack_snugly,
    reachable,
)


def job(seed: int) -> tuple[list[int], list[int], int]:
    """Lengths, the longest first, their counts, and a room."""
    draw = Random(seed)
    lengths = sorted(draw.sample(range(3, 40), draw.randint(1, 4)), reverse=True)
    return lengths, [draw.randint(0, 3) for _ in lengths], draw.randint(40, 90)


def total(lengths: Sequence[int], pattern: Sequence[int]) -> int:
    return sum(length * number for length, number in zip(lengths, pattern, strict=True))


@pytest.mark.parametrize("count", range(20))
def test_every_number_up_to_a_count_is_a_sum_of_its_doublings(count: int) -> None:
    parts = list(doublings(count))
    sums = {total(parts, chosen) for chosen in product((0, 1), repeat=len(parts))}
    assert sums == set(range(count + 1)) and all(part > 0 for part in parts)
    assert len(parts) == count.bit_length()


@pytest.mark.parametrize("seed", range(20))
def test_lengths_that_can_be_reached_are_the_sums_of_parts_within_the_room(seed: int) -> None:
    lengths, counts, room = job(seed)
    sums = {total(lengths, each) for each in product(*(range(count + 1) for count in counts))}
    totals = reachable(lengths, counts=counts, room_um=room)
    assert {at for at in range(totals.bit_length()) if totals >> at & 1} == {one for one in sums if one <= room}
    for smaller in range(room + 1):
        assert fullest(totals, room_um=smaller) == max(one for one in sums if one <= smaller)


@pytest.mark.parametrize("deepest", [1, 2, 4])
@pytest.mark.parametrize("seed", range(20))
def test_the_longest_go_in_ahead_until_few_enough_of_the_shortest_fit_beside_them(
    seed: int, deepest: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(packing, "DEEPEST", deepest)
    lengths, counts, room = job(seed)
    ahead = _taken_ahead(lengths, counts, room)
    assert all(0 <= taken <= there for taken, there in zip(ahead, counts, strict=True))
    there = [length for length, count in zip(lengths, counts, strict=True) if count]
    over = max(0, room - deepest * min(there, default=0))
    for length, count in zip(lengths, counts, strict=True):
        taken = min(count, over // length)
        assert ahead[lengths.index(length)] == taken
        over -= taken * length
    filled = fill_snugly(lengths, left=counts, room_um=room)
    assert all(low <= number <= count for low, number, count in zip(ahead, filled, counts, strict=True))
    assert total(lengths, filled) <= room


@pytest.mark.parametrize("seed", range(20))
def test_with_the_longest_it_is_in_and_the_rest_is_as_full_as_can_be(seed: int) -> None:
    lengths, counts, room = job(seed)
    first = next((kind for kind, count in enumerate(counts) if count and lengths[kind] <= room), None)
    every = [each for each in product(*(range(count + 1) for count in counts)) if total(lengths, each) <= room]
    if first is not None:
        every = [each for each in every if each[first]]
    found = fill_snugly(lengths, left=counts, room_um=room, with_longest=True, steps=10**6)
    assert total(lengths, found) == max(total(lengths, each) for each in every)
    assert first is None or found[first] > 0


@pytest.mark.parametrize("seed", range(20))
def test_a_filling_that_is_good_enough_ends_the_search(seed: int) -> None:
    lengths, counts, room = job(seed)
    best = total(lengths, fill_snugly(lengths, left=counts, room_um=room))
    for spare in (0, room - best, room - best + 5, room):
        found = total(lengths, fill_snugly(lengths, left=counts, room_um=room, spare_um=spare))
        assert room - found <= max(spare, room - best)
    assert fill_snugly(lengths, left=counts, room_um=room, spare_um=room) == (0,) * len(lengths)


@pytest.mark.parametrize("bays", [1, 30, 60, 61, 300])
def test_bays_of_one_try_share_the_steps_of_a_try(bays: int, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[int] = []

    def nothing(lengths_um: Sequence[int], **ways: Any) -> tuple[int, ...]:
        asked.append(ways["steps"])
        return (0,) * len(lengths_um)

    monkeypatch.setattr(packing, "fill_snugly", nothing)
    assert pack_snugly([5], counts=[2], rooms_um=[10] * bays) is None
    assert set(asked) == {min(SNUG_STEPS, STEPS_A_TRY // bays)}


@pytest.mark.parametrize("seed", range(30))
def test_parts_that_just_fit_their_bays_are_packed_snugly(seed: int) -> None:
    """Bays are as long as what was put into them: a packing with nothing to spare."""
    draw = Random(seed)
    bays = [[draw.randint(3, 12) for _ in range(draw.randint(1, 3))] for _ in range(draw.randint(1, 3))]
    lengths = sorted({length for bay in bays for length in bay}, reverse=True)
    counts = [sum(bay.count(length) for bay in bays) for length in lengths]
    rooms = [sum(bay) for bay in bays]
    packed = pack_exactly(lengths, counts=counts, rooms_um=rooms)
    assert packed
    for found in (packed, pack_snugly(lengths, counts=counts, rooms_um=rooms) or packed):
        assert [total(lengths, pattern) for pattern in found] == rooms
        assert [sum(column) for column in zip(*found, strict=True)] == counts
    rooms[0] -= 1
    assert pack_snugly(lengths, counts=counts, rooms_um=rooms) is None
    assert pack_exactly(lengths, counts=counts, rooms_um=rooms) is None


def test_an_exact_search_gives_up_after_its_steps_and_not_before() -> None:
    """Three parts are placed one after the other: a step each, and with the fourth none is left."""
    for steps, is_enough in ((3, False), (4, True)):
        if is_enough:
            assert pack_exactly([5], counts=[3], rooms_um=[15], steps=steps) == ((3,),)
        else:
            with pytest.raises(GaveUp):
                pack_exactly([5], counts=[3], rooms_um=[15], steps=steps)


def test_what_cannot_fit_is_found_without_a_search() -> None:
    """Bays that no part fits do not count: four parts of 5 do not go into 8 + 8 + 4, and one look tells."""
    assert pack_exactly([8, 5], counts=[1, 2], rooms_um=[9, 4, 4], steps=3) is None


def test_six_bays_that_hold_one_part_each_are_tried_once_for_each_choice_of_them() -> None:
    """Equal parts go into bays in rising order: of seven that do not fit, two to the power of six ways are tried."""
    rooms = [12, 13, 14, 15, 16, 17]
    assert pack_exactly([10], counts=[7], rooms_um=rooms, steps=2**6 + 1) is None
    assert pack_exactly([50, 10], counts=[1, 7], rooms_um=[50, *rooms], steps=2**6 + 2) is None


def test_a_part_that_fills_its_bay_is_the_longest_that_fits() -> None:
    assert fill_snugly([10, 9], left=[1, 1], room_um=10, with_longest=True) == (1, 0)
    assert fill_snugly([11, 10, 9], left=[1, 1, 1], room_um=10, with_longest=True) == (0, 1, 0)


@pytest.mark.parametrize(("steps", "taken"), [(1, 0), (2, 1), (9, 1)])
def test_a_search_takes_a_step_for_each_part_and_one_to_begin(steps: int, taken: int) -> None:
    assert fill_snugly([5], left=[1], room_um=9, steps=steps) == (taken,)
