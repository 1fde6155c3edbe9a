"""Rates: so many tries at once, then one by one, each caller and each thing by itself; time is told by hand."""

import pytest

from webapp.server.rates import MOST_CALLERS, RATES, Rates, TooOften


class Clock:
    def __init__(self) -> None:
        self.now_s = 1000.0

    def __call__(self) -> float:
        return self.now_s


@pytest.mark.parametrize("thing", RATES)
def test_so_many_at_once_and_then_one_by_one(thing: str) -> None:
    clock, rate = Clock(), RATES[thing]
    rates = Rates(clock=clock)
    for _ in range(rate.tries):
        rates.take(thing, "a")
    with pytest.raises(TooOften) as refusal:
        rates.take(thing, "a")
    assert 0 < refusal.value.wait_s <= rate.every_s
    clock.now_s += refusal.value.wait_s
    rates.take(thing, "a")
    with pytest.raises(TooOften):
        rates.take(thing, "a")


def test_a_refused_try_costs_nothing_more() -> None:
    clock, rate = Clock(), RATES["pair"]
    rates = Rates(clock=clock)
    for _ in range(rate.tries):
        rates.take("pair", "a")
    for _ in range(50):
        with pytest.raises(TooOften):
            rates.take("pair", "a")
    clock.now_s += rate.every_s
    rates.take("pair", "a")


def test_callers_and_things_do_not_use_up_each_other() -> None:
    rates = Rates(clock=Clock())
    for _ in range(RATES["pair"].tries):
        rates.take("pair", "a")
    rates.take("pair", "b")
    rates.take("approve", "a")


def test_a_flood_of_callers_is_forgotten_and_never_fills_the_memory() -> None:
    clock = Clock()
    rates = Rates(clock=clock)
    for number in range(MOST_CALLERS):
        rates.take("pair", str(number))
    with pytest.raises(TooOften):
        rates.take("pair", "one more")
    clock.now_s += RATES["pair"].every_s
    rates.take("pair", "one more")
    assert len(rates._full_at) == 1
