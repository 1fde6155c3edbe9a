"""Money and plain numbers: exact decimals, read from typed text and written for a reader.

Nothing here is a float: a price of 0.10 is a tenth. An amount is brought to the smallest *coin* of the currency once,
halves up, and what is printed is what is added: the lines of a quote sum to its total.
"""

import re
from collections.abc import Sequence
from decimal import ROUND_DOWN, ROUND_HALF_UP, ROUND_UP, Decimal
from enum import StrEnum
from functools import cache
from itertools import islice

from framecalc.errors import OutOfRange, UnreadableNumber
from framecalc.records import Record

MOST = Decimal(10_000_000)
"""No price, hour or count in a frame shop is larger. Common practice, no source."""

MOST_DECIMALS = 6
"""Finer than any price per millimetre needs."""

_GROUPED = re.compile(r"\d{1,3}(?:[ '’\u00a0\u202f]\d{3})+(?=[.,]|$)")
_NUMBER = re.compile(r"\d{0,12}(?:[.,]\d{1,12})?")
_SIGNS = re.compile(r"^[$€£¥₹₩₽₺₪₫฿]\s*|\s*[$€£¥₹₩₽₺₪₫฿]$")


class PriceStep(StrEnum):
    """What a price is rounded to."""

    COIN = "the coin"
    FIVE_HUNDREDTHS = "0.05"
    HALF = "0.50"
    WHOLE = "1"
    FIVE = "5"
    TEN = "10"


class Currency(Record):
    """How the shop writes money: its mark, on which side it stands, how many decimals a coin has, comma or point."""

    mark: str = "$"
    mark_follows: bool = False
    decimals: int = 2
    decimal_comma: bool = False

    @property
    def coin(self) -> Decimal:
        """The smallest amount."""
        return _coin_of(self.decimals)


@cache
def _coin_of(decimals: int) -> Decimal:
    """The smallest amount with so many decimals; there are but a few."""
    return Decimal(1).scaleb(-decimals)


def parse_number(text: str) -> Decimal:
    """Read a number as a person types it: point or comma, thousands apart by spaces, marks or the other sign.

    A lone comma before exactly three digits can be read two ways and is asked back.

    Raises:
        UnreadableNumber: it is none, or it can be read two ways.
        OutOfRange: it is larger than anything in a shop, or finer.
    Source: derived (the grammar is our own).

    >>> parse_number("1,234.50"), parse_number("12,5"), parse_number("€ 40")
    (Decimal('1234.50'), Decimal('12.5'), Decimal('40'))
    """
    typed = " ".join(text.split())
    plain = _without_groups(_SIGNS.sub("", typed), typed)
    if not _NUMBER.fullmatch(plain) or not any(digit in plain for digit in "0123456789"):
        raise UnreadableNumber("Enter a number, such as 12.50")
    number = Decimal(plain.replace(",", "."))
    _require_in_range(number, typed)
    return number


def number_text(number: Decimal) -> str:
    """A number as the file keeps it: with a point, without an exponent, without zeros that say nothing.

    Source: derived.

    >>> number_text(Decimal("12.50")), number_text(Decimal("1E+3"))
    ('12.5', '1000')
    """
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def to_coin(amount: Decimal, *, currency: Currency) -> Decimal:
    """An amount brought to the smallest coin, halves up (away from nothing).

    Source: common practice, no source.

    >>> to_coin(Decimal("2.345"), currency=Currency())
    Decimal('2.35')
    """
    return amount.quantize(currency.coin, rounding=ROUND_HALF_UP)


def to_price(amount: Decimal, *, step: PriceStep, rounds_up: bool, currency: Currency) -> Decimal:
    """An amount brought to what the shop's prices end in, to the nearest (halves up) or always up.

    Source: common practice, no source.

    >>> to_price(Decimal("187.31"), step=PriceStep.FIVE, rounds_up=True, currency=Currency())
    Decimal('190.00')
    """
    unit = currency.coin if step is PriceStep.COIN else max(Decimal(step.value), currency.coin)
    exact = to_coin(amount, currency=currency) if rounds_up else amount
    steps = (exact / unit).to_integral_value(rounding=ROUND_UP if rounds_up else ROUND_HALF_UP)
    return (steps * unit).quantize(currency.coin)


def money_text(amount: Decimal, *, currency: Currency) -> str:
    """An amount for a person: thousands apart, all decimals of the coin, the mark on its side, a true minus.

    Source: common practice, no source.

    >>> money_text(Decimal("1234.5"), currency=Currency())
    '$1,234.50'
    >>> money_text(Decimal("-1234.5"), currency=Currency(mark="€", mark_follows=True, decimal_comma=True))
    '−1.234,50\xa0€'
    """
    text = f"{abs(to_coin(amount, currency=currency)):,.{currency.decimals}f}"
    if currency.decimal_comma:
        text = text.translate(str.maketrans(",.", ".,"))
    sign = "−" if to_coin(amount, currency=currency) < 0 else ""
    return sign + _marked(text, currency=currency)


def price_text(price: Decimal) -> str:
    """A price as on a price tag: cents where there are some, more decimals only where they are needed.

    Source: common practice, no source.

    >>> price_text(Decimal("12.5")), price_text(Decimal("38")), price_text(Decimal("0.0125"))
    ('12.50', '38', '0.0125')
    """
    cents = price.quantize(Decimal("0.01"))
    if cents != price:
        return f"{price.normalize():f}"
    return f"{price:.0f}" if price == price.to_integral_value() else f"{cents:f}"


def tag_text(price: Decimal, *, currency: Currency) -> str:
    """The same with its mark, on its side.

    Source: common practice, no source.

    >>> tag_text(Decimal("12.5"), currency=Currency()), tag_text(Decimal(38), currency=Currency(mark="£"))
    ('$12.50', '£38')
    """
    text = price_text(price)
    return _marked(text.replace(".", ",") if currency.decimal_comma else text, currency=currency)


def share_out(amount: Decimal, *, weights: Sequence[Decimal], currency: Currency) -> tuple[Decimal, ...]:
    """Share an amount of whole coins among weights, so that the shares add up to it again.

    Each share is rounded down, and the coins left over go to those who lost most by it, the first of equals first.
    Weights that are all nothing share alike. What is taken off is shared as what is put on.

    Args:
        amount: in whole coins.
        weights: one or more, ≥ 0.
    Source: the method of largest remainders, common knowledge.

    >>> share_out(Decimal("10.00"), weights=(Decimal(1), Decimal(1), Decimal(1)), currency=Currency())
    (Decimal('3.34'), Decimal('3.33'), Decimal('3.33'))
    """
    if amount < 0:
        return tuple(-share for share in share_out(-amount, weights=weights, currency=currency))
    even = weights if any(weights) else [Decimal(1)] * len(weights)
    whole, coin = sum(even), currency.coin
    exact = [amount * weight / whole for weight in even]
    shares = [share.quantize(coin, rounding=ROUND_DOWN) for share in exact]
    coins = int((amount - sum(shares)) / coin)
    losers = sorted(range(len(shares)), key=lambda at: shares[at] - exact[at])
    for at in islice(losers, coins):
        shares[at] += coin
    return tuple(shares)


def _marked(text: str, *, currency: Currency) -> str:
    """A number with the mark of the currency, on its side."""
    if currency.mark_follows:
        return f"{text}\u00a0{currency.mark}".rstrip()
    space = "\u00a0" if currency.mark[-1:].isalpha() else ""
    return f"{currency.mark}{space}{text}"


def _without_groups(text: str, typed: str) -> str:
    """Remove the signs that only group thousands."""
    if _GROUPED.match(text):
        text = re.sub("[ '’\u00a0\u202f]", "", text)
    points, commas = text.count("."), text.count(",")
    if points and commas:
        grouping, decimal = sorted(".,", key=text.rindex)
        return text.replace(grouping, "") if _groups_well(text.rpartition(decimal)[0], grouping) else text
    if points + commas == 1 and re.fullmatch(r"[1-9]\d{0,2},\d{3}", text):
        thousand, decimal = text.replace(",", ""), text.replace(",", ".")
        raise UnreadableNumber(f"“{typed}” can be read two ways: type {thousand} or {decimal}")
    if points + commas > 1:
        sign = "." if points else ","
        return text.replace(sign, "") if _groups_well(text, sign) else text
    return text


def _groups_well(whole: str, sign: str) -> bool:
    """Whether a sign stands between thousands."""
    return re.fullmatch(rf"\d{{1,3}}(?:\{sign}\d{{3}})+", whole) is not None


def _require_in_range(number: Decimal, typed: str) -> None:
    if number > MOST:
        raise OutOfRange(f"Enter {MOST:,} or less")
    exponent = number.normalize().as_tuple().exponent
    if isinstance(exponent, int) and -exponent > MOST_DECIMALS:
        raise OutOfRange(f"Enter at most {MOST_DECIMALS} decimals")
