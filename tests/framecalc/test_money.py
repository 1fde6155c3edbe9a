"""Money: read exactly or asked back, written as the shop writes it, shared out to the coin."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import FrameCalcError, OutOfRange, UnreadableNumber
from framecalc.money import (
    Currency,
    PriceStep,
    money_text,
    number_text,
    parse_number,
    share_out,
    to_coin,
    to_price,
)

DOLLAR = Currency()
EURO = Currency(mark="€", mark_follows=True, decimal_comma=True)
YEN = Currency(mark="¥", decimals=0)
CURRENCIES = st.builds(
    Currency,
    mark=st.sampled_from(["$", "€", "kr", "CHF", "¥"]),
    mark_follows=st.booleans(),
    decimals=st.sampled_from([0, 2, 3]),
    decimal_comma=st.booleans(),
)
AMOUNTS = st.decimals(0, 1_000_000, places=3)


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("12", "12"),
        ("12.50", "12.5"),
        ("12,50", "12.5"),
        (".5", "0.5"),
        (",5", "0.5"),
        ("1,234.50", "1234.5"),
        ("1.234,50", "1234.5"),
        ("1 234,50", "1234.5"),
        ("1'234.50", "1234.5"),
        ("1,234,567", "1234567"),
        ("1.234.567", "1234567"),
        ("$ 40", "40"),
        ("40 €", "40"),
        ("0,125", "0.125"),
        ("12.125", "12.125"),
        ("  7  ", "7"),
    ],
)
def test_a_number_is_read_as_it_is_typed(typed: str, value: str) -> None:
    assert parse_number(typed) == Decimal(value)


@pytest.mark.parametrize(
    "typed",
    [
        *("", "  ", "twelve", "1e3", "-5", "1_000", "12.5.6", "1,23,456", "1,234.5,6", "1,23.50", "1234,567.5"),
        *(",123.5", "1.23,50", "٣", "nan", "inf", "0x10", "$", "."),
    ],
)
def test_what_is_no_number_is_refused_in_words(typed: str) -> None:
    with pytest.raises(UnreadableNumber, match=r"such as 12\.50"):
        parse_number(typed)


def test_a_doubtful_comma_is_asked_back() -> None:
    with pytest.raises(UnreadableNumber, match=r"two ways: type 1234 or 1\.234"):
        parse_number("1,234")


@pytest.mark.parametrize("typed", ["10000001", "0.1234567"])
def test_what_no_shop_needs_is_refused(typed: str) -> None:
    with pytest.raises(OutOfRange, match=r"^Enter "):
        parse_number(typed)


@pytest.mark.parametrize("typed", ["10000000", "0.123456"])
def test_the_most_and_the_finest_is_read(typed: str) -> None:
    assert parse_number(typed) == Decimal(typed)


@given(st.text(max_size=30))
def test_any_text_is_read_or_refused(typed: str) -> None:
    try:
        assert 0 <= parse_number(typed) <= 10_000_000
    except FrameCalcError as refusal:
        assert refusal.sentence


@given(AMOUNTS)
def test_a_number_comes_back_from_its_text(number: Decimal) -> None:
    assert parse_number(number_text(number)) == number


@pytest.mark.parametrize(
    ("amount", "currency", "text"),
    [
        ("0", DOLLAR, "$0.00"),
        ("1234567.891", DOLLAR, "$1,234,567.89"),
        ("1234.5", EURO, "1.234,50\u00a0€"),
        ("-3", EURO, "−3,00\u00a0€"),
        ("-0.001", DOLLAR, "$0.00"),
        ("1234.5", YEN, "¥1,235"),
        ("9", Currency(mark="CHF"), "CHF\u00a09.00"),
        ("9", Currency(mark=""), "9.00"),
        ("9", Currency(mark="", mark_follows=True), "9.00"),
    ],
)
def test_money_is_written_as_the_shop_writes_it(amount: str, currency: Currency, text: str) -> None:
    assert money_text(Decimal(amount), currency=currency) == text


@given(AMOUNTS, CURRENCIES)
def test_a_coin_is_the_nearest_one(amount: Decimal, currency: Currency) -> None:
    assert abs(to_coin(amount, currency=currency) - amount) <= currency.coin / 2


@given(AMOUNTS, st.sampled_from(PriceStep), st.booleans(), CURRENCIES)
def test_a_price_is_whole_steps_and_less_than_one_away(
    amount: Decimal, step: PriceStep, rounds_up: bool, currency: Currency
) -> None:
    price = to_price(amount, step=step, rounds_up=rounds_up, currency=currency)
    size = max(currency.coin, Decimal(0) if step is PriceStep.COIN else Decimal(step.value))
    assert Fraction(price) % Fraction(size) == 0
    if rounds_up:
        assert to_coin(amount, currency=currency) <= price < to_coin(amount, currency=currency) + size
    else:
        assert abs(price - amount) <= size / 2


@given(
    st.integers(0, 10_000_000),
    st.lists(st.decimals(0, 1000, places=2), min_size=1, max_size=8),
    st.sampled_from([DOLLAR, YEN]),
)
def test_shares_add_up_to_what_is_shared(coins: int, weights: list[Decimal], currency: Currency) -> None:
    amount = coins * currency.coin
    shares = share_out(amount, weights=weights, currency=currency)
    assert sum(shares) == amount
    whole = sum(weights)
    if whole:
        assert all(
            abs(share - amount * weight / whole) < currency.coin for share, weight in zip(shares, weights, strict=True)
        )


def test_no_weight_at_all_shares_alike() -> None:
    assert share_out(Decimal("9.00"), weights=[Decimal(0)] * 3, currency=DOLLAR) == (Decimal("3.00"),) * 3


def test_nothing_weighs_nothing_takes_nothing() -> None:
    shares = share_out(Decimal("0.01"), weights=[Decimal(0), Decimal(5)], currency=DOLLAR)
    assert shares == (Decimal("0.00"), Decimal("0.01"))


def test_the_coins_left_over_go_to_who_lost_most() -> None:
    """Source: by hand: of ten coins the quotas are 4.16, 3.38 and 2.46, and one coin is left over."""
    shares = share_out(Decimal(10), weights=[Decimal(one) for one in (416, 338, 246)], currency=YEN)
    assert shares == (4, 3, 3)
