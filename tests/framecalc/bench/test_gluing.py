"""Glue: the table at its rows and between them, rounded to the safe side; what is said of it exactly at its limits."""

from itertools import pairwise
from math import ceil, floor

import pytest
from hypothesis import given
from hypothesis import strategies as some

from framecalc.bench.gluing import (
    BY_TEMPERATURE,
    COLDEST_C,
    GLUE_TIMES,
    SIZED,
    Glue,
    GlueTimes,
    closing_min,
    first_coat,
    glue_findings,
    hands_on_min,
    times_at,
)

HUNDRED = GlueTimes(open_min=100, clamped_min=100)
"""Of these the times at a temperature are its ratios in hundredths."""


@pytest.mark.parametrize(("at_c", "open_ratio", "clamped_ratio"), BY_TEMPERATURE)
def test_at_a_row_of_the_table_times_are_those_of_the_row(at_c: float, open_ratio: float, clamped_ratio: float) -> None:
    found = times_at(Glue.WHITE, temperature_c=at_c, own=HUNDRED)
    assert (found.open_min, found.clamped_min) == (round(100 * open_ratio), round(100 * clamped_ratio))


def test_half_way_between_two_rows_times_are_half_way_too() -> None:
    for low, high in pairwise(BY_TEMPERATURE):
        found = times_at(Glue.WHITE, temperature_c=(low[0] + high[0]) / 2, own=HUNDRED)
        assert found.open_min == floor(50 * (low[1] + high[1]) + 1e-6)
        assert found.clamped_min == ceil(50 * (low[2] + high[2]) - 1e-6)


@pytest.mark.parametrize("glue", Glue)
def test_in_a_warm_shop_a_glue_takes_its_usual_times_and_past_the_table_those_of_its_ends(glue: Glue) -> None:
    assert times_at(glue, temperature_c=20) == GLUE_TIMES[glue]
    assert times_at(glue, temperature_c=-5) == times_at(glue, temperature_c=5)
    assert times_at(glue, temperature_c=50) == times_at(glue, temperature_c=35)


@given(glue=some.sampled_from(Glue), at_c=some.floats(0, 40), more_c=some.floats(0, 20))
def test_the_warmer_it_is_the_sooner_all_of_it_is_over(glue: Glue, at_c: float, more_c: float) -> None:
    cold, warm = times_at(glue, temperature_c=at_c), times_at(glue, temperature_c=at_c + more_c)
    assert cold.open_min >= warm.open_min and cold.clamped_min >= warm.clamped_min


@pytest.mark.parametrize("corners", [3, 4, 6, 8])
def test_two_corners_more_take_a_minute_more_and_hands_are_on_a_frame_for_each_minute(corners: int) -> None:
    assert closing_min(corners + 2) == closing_min(corners) + 1
    for glue in Glue:
        assert hands_on_min(glue, closing_min=closing_min(corners) + 1) == 1 + hands_on_min(
            glue, closing_min=closing_min(corners)
        )


def test_a_size_coat_takes_longer_than_damping_and_is_told_of() -> None:
    sized, damped = (hands_on_min(glue, closing_min=3) for glue in (Glue.WHITE, Glue.POLYURETHANE))
    assert sized > damped
    assert {glue for glue in Glue if first_coat(glue).startswith("Size")} == SIZED
    assert first_coat(Glue.POLYURETHANE) != first_coat(Glue.EPOXY)


@pytest.mark.parametrize("glue", Glue)
@pytest.mark.parametrize(
    ("colder_c", "longer_min", "codes"),
    [(0, 0, []), (0.1, 0, ["glue.cold"]), (0, 1, ["glue.open-time"]), (0.1, 1, ["glue.cold", "glue.open-time"])],
)
def test_a_glue_holds_from_its_least_warmth_on_and_to_the_last_minute_of_its_open_time(
    glue: Glue, colder_c: float, longer_min: int, codes: list[str]
) -> None:
    found = glue_findings(glue, temperature_c=COLDEST_C[glue] - colder_c, open_min=5, closing_min=5 + longer_min)
    assert [one.code for one in found] == codes
    assert all(one.measures["least"] == (COLDEST_C[glue], "°C") for one in found if one.code == "glue.cold")
