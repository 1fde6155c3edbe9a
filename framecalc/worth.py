"""Proof in shop words: a worth for each piece, the most that a stick can hold, and so the least that must be bought.

Give every piece a *worth*, in any measure: the length it takes, a share of a stick, money. If no stick can hold pieces
worth more than so much, a plan needs sticks that together can hold what all pieces are worth, and the cheapest such
purchase is a bound that no plan beats. Here a bound that was found and checked in whole numbers is put into words.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction

from framecalc.errors import quoted
from framecalc.sticks.bounds import Certificate, Measure
from framecalc.sticks.counted import Counted, money_of
from framecalc.sticks.problem import StickProblem, Stock

FINEST_FRACTION = 60
"""The finest fraction that is said; finer worths are decimals."""

LISTED = 6
"""Worths that a sentence lists; where there are more, it sends the reader to the table."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Saying:
    """A text that names lengths in braces, and their values [mm], for whoever writes them in the project's unit."""

    text: str
    lengths: Mapping[str, float] = field(default_factory=dict)

    @property
    def in_mm(self) -> str:
        """The text with its lengths in millimetres."""
        return self.text.format_map({name: f"{length_mm:.6g} mm" for name, length_mm in self.lengths.items()})


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceWorth:
    """The worth of one piece, or of one bundle of pieces cut in order; and how many there are."""

    length_mm: float
    pieces: int
    count: int
    worth: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class StickWorth:
    """The most that one stick (or board) of a stock can hold, in the measure of the proof."""

    stock: Stock
    most: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """A bound as it is shown: every worth, what all add up to, what no plan does better than, and the paragraph."""

    measure: Measure
    pieces: tuple[PieceWorth, ...]
    sticks: tuple[StickWorth, ...]
    total: Fraction
    least_money: Decimal
    least_sticks: int
    saying: Saying


def prove(certificate: Certificate, *, counted: Counted, problem: StickProblem) -> Proof:
    """Put a certificate whose bound is a cost into words, with all its numbers.

    Source: derived.
    """
    least_money, least_sticks = money_of(certificate.cost or 0, counted=counted)
    pieces = _piece_worths(certificate, counted)
    sticks = _stick_worths(certificate, counted, problem)
    total = certificate.needed * certificate.share
    bound = _bound_words(least_money, least_sticks, by_money=counted.by_money)
    return Proof(
        measure=certificate.measure,
        pieces=pieces,
        sticks=sticks,
        total=total,
        least_money=least_money,
        least_sticks=least_sticks,
        saying=_by_length(sticks, total, bound)
        if certificate.measure is Measure.LENGTH
        else _by_worth(pieces, sticks, total, bound, certificate.measure),
    )


def fraction_words(worth: Fraction) -> str:
    """Write a worth as it is said: a whole number, a fraction, or an exact decimal where the fraction is too fine.

    Source: derived.

    >>> [fraction_words(Fraction(n)) for n in ("4", "1/2", "452.25", "0.3333")]
    ['4', '1/2', '452 1/4', '0.3333']
    """
    whole, part = divmod(worth, 1)
    if not part:
        return str(whole)
    if part.denominator > FINEST_FRACTION:
        return f"{worth.numerator / worth.denominator:.10g}"
    return f"{whole} {part}" if whole else str(part)


def _piece_worths(certificate: Certificate, counted: Counted) -> tuple[PieceWorth, ...]:
    return tuple(
        PieceWorth(
            length_mm=bundles[0].length_mm,
            pieces=len(bundles[0].pieces),
            count=len(bundles),
            worth=worth * certificate.share,
        )
        for bundles, worth in zip(counted.bundles, certificate.worths, strict=True)
    )


def _stick_worths(certificate: Certificate, counted: Counted, problem: StickProblem) -> tuple[StickWorth, ...]:
    return tuple(
        StickWorth(stock=problem.stock[member], most=most * certificate.share)
        for kind, most in zip(counted.kinds, certificate.most, strict=True)
        for member in kind.members
    )


def _by_length(sticks: tuple[StickWorth, ...], total: Fraction, bound: str) -> Saying:
    lengths = {"total": float(total)}
    held = list(_held(sticks, lengths))
    text = (
        f"Each with one saw cut, the pieces take {{total}} of stick. However they are arranged, {'; '.join(held)}. "
        f"{bound}"
    )
    return Saying(text=text, lengths=lengths)


def _held(sticks: tuple[StickWorth, ...], lengths: dict[str, float]) -> Iterator[str]:
    """What each stick holds at most, in length; the lengths go into the mapping."""
    for number, stick in enumerate(sticks):
        lengths[f"held{number}"] = float(stick.most)
        yield f"{_stick_words(stick.stock)} holds at most {{held{number}}} of that"


def _by_worth(
    pieces: tuple[PieceWorth, ...], sticks: tuple[StickWorth, ...], total: Fraction, bound: str, measure: Measure
) -> Saying:
    lengths: dict[str, float] = {}
    worths = "; ".join(_worth_words(pieces, lengths))
    most = "; ".join(
        f"{_stick_words(stick.stock)} can hold pieces worth {fraction_words(stick.most)} at most" for stick in sticks
    )
    unit = " of a stick" if measure is Measure.STICKS else ""
    text = (
        f"Give each piece a worth{unit}: {worths}. However they are arranged, {most}. "
        f"All pieces together are worth {fraction_words(total)}. {bound}"
    )
    return Saying(text=text, lengths=lengths)


def _worth_words(pieces: tuple[PieceWorth, ...], lengths: dict[str, float]) -> Iterator[str]:
    if len(pieces) > LISTED:
        yield "the table lists them"
        return
    for number, piece in enumerate(pieces):
        lengths[f"piece{number}"] = piece.length_mm
        what = f"{{piece{number}}}" if piece.pieces == 1 else f"{piece.pieces} pieces of {{piece{number}}} together"
        yield f"{what} is worth {fraction_words(piece.worth)}, {piece.count} times"


def _stick_words(stick: Stock) -> str:
    there = "" if stick.count is None else f" ({stick.count} there)"
    price = f" at {stick.price}" if stick.price else ""
    return f"{quoted(stick.name)}{price}{there}"


def _bound_words(money: Decimal, sticks: int, *, by_money: bool) -> str:
    number = f"{sticks} stick" if sticks == 1 else f"{sticks} sticks"
    if by_money:
        return f"So at least {money.normalize():f} must be spent, and {number} at that price: no plan costs less."
    return f"So it takes {number}, and no plan has fewer."
