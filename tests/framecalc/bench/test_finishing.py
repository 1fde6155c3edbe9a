"""Coats by the day against a clock that ticks in quarters of an hour; colder and damper air never makes it sooner."""

from itertools import pairwise

import pytest

from framecalc.bench.finishing import BY_HUMIDITY, BY_TEMPERATURE, FINISHES, Finish, dust_notes, finish_times


def by_the_clock(coats: int, recoat_h: float, day_h: float) -> list[int]:
    """The day of each coat: every quarter of an hour somebody looks whether it is day and the last coat is dry."""
    days: list[int] = []
    last_h = -1e9
    for quarter in range(4 * 24 * 90):
        at_h = quarter / 4
        if len(days) < coats and at_h % 24 <= day_h and at_h - last_h >= recoat_h:
            days.append(int(at_h // 24))
            last_h = at_h
    return days


@pytest.mark.parametrize("recoat_h", [0.5, 2, 4, 9, 9.25, 12, 24, 30, 48])
@pytest.mark.parametrize("day_h", [6, 9])
def test_every_coat_goes_on_as_soon_as_it_may(recoat_h: float, day_h: float) -> None:
    found = finish_times(
        FINISHES[Finish.OIL], temperature_c=20, humidity_pct=50, day_h=day_h, coats=5, recoat_h=recoat_h, cure_days=3
    )
    assert list(found.coat_days) == by_the_clock(5, recoat_h, day_h)
    assert found.closing_day == found.coat_days[-1] + 3


def test_half_hours_over_a_day_add_up_until_a_coat_falls_past_the_evening() -> None:
    found = finish_times(
        FINISHES[Finish.OIL], temperature_c=20, humidity_pct=50, day_h=9, coats=30, recoat_h=24.5, cure_days=0
    )
    assert list(found.coat_days) == by_the_clock(30, 24.5, 9) and found.coat_days[-1] == 30


@pytest.mark.parametrize("finish", Finish)
def test_colder_or_damper_air_never_makes_it_sooner(finish: Finish) -> None:
    def closing(temperature_c: float, humidity_pct: float) -> int:
        return finish_times(
            FINISHES[finish], temperature_c=temperature_c, humidity_pct=humidity_pct, day_h=9
        ).closing_day

    assert all(closing(low, 50) >= closing(high, 50) for low, high in pairwise((5, 9, 14, 20, 26, 40)))
    assert all(closing(20, damp) >= closing(20, dry) for dry, damp in pairwise((30, 50, 65, 80, 99)))


def test_only_what_dries_by_oil_sets_rags_on_fire() -> None:
    assert {finish for finish, usual in FINISHES.items() if usual.oily} == {
        Finish.OIL,
        Finish.HARD_WAX_OIL,
        Finish.WIPING_VARNISH,
    }


@pytest.mark.parametrize(("temperature_c", "temperature_ratio"), [*BY_TEMPERATURE, (-9, 2.5), (50, 0.8)])
@pytest.mark.parametrize(("humidity_pct", "humidity_ratio"), [*BY_HUMIDITY, (20, 1.0)])
def test_cold_and_damp_lengthen_what_a_finish_takes_each_by_its_row(
    temperature_c: float, temperature_ratio: float, humidity_pct: float, humidity_ratio: float
) -> None:
    usual = FINISHES[Finish.WIPING_VARNISH]
    found = finish_times(usual, temperature_c=temperature_c, humidity_pct=humidity_pct, day_h=9)
    ratio = temperature_ratio * humidity_ratio
    assert found.recoat_h == pytest.approx(usual.recoat_h * ratio)
    assert usual.cure_days * ratio - 1e-6 <= found.cure_days < usual.cure_days * ratio + 1


def test_half_way_between_two_rows_it_takes_the_mean_of_both() -> None:
    usual = FINISHES[Finish.OIL]
    for (low_c, low_ratio), (high_c, high_ratio) in pairwise(BY_TEMPERATURE):
        found = finish_times(usual, temperature_c=(low_c + high_c) / 2, humidity_pct=50, day_h=9)
        assert found.recoat_h == pytest.approx(usual.recoat_h * (low_ratio + high_ratio) / 2)


def test_without_a_coat_only_the_cure_is_waited_for() -> None:
    found = finish_times(FINISHES[Finish.OIL], temperature_c=20, humidity_pct=50, day_h=9, coats=0, cure_days=4)
    assert (found.coats, found.coat_days, found.closing_day) == (0, (), 4)


@pytest.mark.parametrize(
    ("species", "count"), [("Oak, white", 1), ("European beech", 1), ("walnut-sapele", 2), ("Pine, soaked", 0)]
)
def test_the_dust_of_a_wood_is_told_of_by_whole_words_of_its_name(species: str, count: int) -> None:
    assert len(dust_notes(species)) == count
