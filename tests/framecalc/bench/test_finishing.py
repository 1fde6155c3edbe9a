"""Coats by the day against a clock that ticks in quarters of an hour; colder and damper air never makes it sooner."""

from itertools import pairwise

import pytest

from framecalc.bench.finishing import FINISHES, Finish, finish_times


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
