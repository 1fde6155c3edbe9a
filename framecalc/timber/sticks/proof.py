"""Proof in shop words: a worth for each piece, the most that a stick can hold, and so the least that must be bought.

Give every piece a *worth*, in any measure: the length it takes, a share of a stick, money. If no stick can hold pieces
worth more than so much, a plan needs sticks that together can hold what all pieces are worth, and the cheapest such
purchase is a bound that no plan beats. Here a bound that was found and checked in whole numbers is put into words.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction

from framecalc.errors import quoted
from framecalc.money import price_text
from framecalc.timber.sticks.bounds import StickCertificate, WorthMeasure
from framecalc.timber.sticks.problem import StickProblem, Stock
from framecalc.timber.sticks.whole_numbers import Counted, money_of
from framecalc.words import Wording, joined

FINEST_FRACTION = 60
"""The finest fraction that is said; finer worths are decimals."""

LISTED = 6
"""Worths that a sentence lists; where there are more, it sends the reader to the table."""

SEVERAL = "What is bought must hold all pieces by every one of these measures, and nothing that costs less does."


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthSentence:
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
class StickWorths:
    """A worth for every piece, in one measure, what all add up to, and the most that every stick can hold of it."""

    measure: WorthMeasure
    pieces: tuple[PieceWorth, ...]
    sticks: tuple[StickWorth, ...]
    total: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class StickProof:
    """A bound as it is shown: what no plan does better than, the worths that show it, and the paragraph.

    Mostly there is one set of worths. Of several each rules out other purchases, and all together what costs less.
    """

    worths: tuple[StickWorths, ...]
    least_money: Decimal
    least_sticks: int
    saying: LengthSentence


def prove(
    certificates: Sequence[StickCertificate], *, least: int, counted: Counted, problem: StickProblem
) -> StickProof:
    """Put certificates into words, with all their numbers.

    Args:
        least: the cost that they show to be the least.
    Source: derived.
    """
    least_money, least_sticks = money_of(least, counted=counted)
    worths = tuple(_worths(certificate, counted, problem) for certificate in certificates)
    bound = _bound_words(least_money, least_sticks, by_money=counted.by_money)
    return StickProof(worths=worths, least_money=least_money, least_sticks=least_sticks, saying=_saying(worths, bound))


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


def amount_words(amount: Fraction, *, measure: WorthMeasure) -> str:
    """Write an amount as it is said in a measure other than length: money in decimals, a share of a stick in fractions.

    Source: derived (a share of money is stated so that its decimals end).

    >>> amount_words(Fraction("22.41"), measure=WorthMeasure.MONEY)
    '22.41'
    >>> amount_words(Fraction("5.25"), measure=WorthMeasure.STICKS)
    '5 1/4'
    """
    if measure is WorthMeasure.MONEY:
        return f"{(Decimal(amount.numerator) / Decimal(amount.denominator)).normalize():f}"
    return fraction_words(amount)


def _piece_worths(certificate: StickCertificate, counted: Counted) -> tuple[PieceWorth, ...]:
    return tuple(
        PieceWorth(
            length_mm=bundles[0].length_mm,
            pieces=len(bundles[0].pieces),
            count=len(bundles),
            worth=worth * certificate.share,
        )
        for bundles, worth in zip(counted.bundles, certificate.worths, strict=True)
    )


def _stick_worths(certificate: StickCertificate, counted: Counted, problem: StickProblem) -> tuple[StickWorth, ...]:
    return tuple(
        StickWorth(stock=problem.stock[member], most=most * certificate.share)
        for kind, most in zip(counted.kinds, certificate.most, strict=True)
        for member in kind.members
    )


def _worths(certificate: StickCertificate, counted: Counted, problem: StickProblem) -> StickWorths:
    return StickWorths(
        measure=certificate.measure,
        pieces=_piece_worths(certificate, counted),
        sticks=_stick_worths(certificate, counted, problem),
        total=certificate.needed * certificate.share,
    )


def _saying(worths: tuple[StickWorths, ...], bound: str) -> LengthSentence:
    lengths: dict[str, float] = {}
    said = [_said(one, number, lengths) for number, one in enumerate(worths)]
    if len(said) > 1:
        said.append(SEVERAL)
    return LengthSentence(text=joined(" ", [*said, bound]), lengths=lengths)


def _said(worths: StickWorths, number: int, lengths: dict[str, float]) -> str:
    """One set of worths in a sentence or two; the lengths go into the mapping."""
    if worths.measure is WorthMeasure.LENGTH:
        return _by_length(worths, number, lengths)
    return _by_worth(worths, number, lengths)


def _by_length(worths: StickWorths, number: int, lengths: dict[str, float]) -> str:
    lengths[f"total{number}"] = float(worths.total)
    held = joined("; ", _held(worths.sticks, number, lengths))
    return (
        f"Each with one saw cut, the pieces take {{total{number}}} of stick. However they are arranged, " + held + "."
    )


def _held(sticks: tuple[StickWorth, ...], number: int, lengths: dict[str, float]) -> Iterator[str]:
    """What each stick holds at most, in length."""
    for place, stick in enumerate(sticks):
        name = f"held{number}_{place}"
        lengths[name] = float(stick.most)
        yield _stick_words(stick.stock) + f" holds at most {{{name}}} of that"


def _by_worth(worths: StickWorths, number: int, lengths: dict[str, float]) -> str:
    measure = worths.measure
    listed = "; ".join(_worth_words(worths, number, lengths))
    most = joined(
        "; ",
        (
            _stick_words(stick.stock) + f" can hold pieces worth {amount_words(stick.most, measure=measure)} at most"
            for stick in worths.sticks
        ),
    )
    worth = "another worth" if number else "a worth"
    unit = " of a stick" if measure is WorthMeasure.STICKS else ""
    return (
        f"Give each piece {worth}{unit}: {listed}. However they are arranged, "
        + most
        + f". All pieces together are worth {amount_words(worths.total, measure=measure)}."
    )


def _worth_words(worths: StickWorths, number: int, lengths: dict[str, float]) -> Iterator[str]:
    if len(worths.pieces) > LISTED:
        yield "the table lists them"
        return
    for place, piece in enumerate(worths.pieces):
        name = f"piece{number}_{place}"
        lengths[name] = piece.length_mm
        what = f"{{{name}}}" if piece.pieces == 1 else f"{piece.pieces} pieces of {{{name}}} together"
        yield f"{what} is worth {amount_words(piece.worth, measure=worths.measure)}, {piece.count} times"


def _stick_words(stick: Stock) -> Wording:
    there = "" if stick.count is None else f" ({stick.count} there)"
    price = f" at {price_text(stick.price)}" if stick.price else ""
    return quoted(stick.name) + price + there


def _bound_words(money: Decimal, sticks: int, *, by_money: bool) -> str:
    number = f"{sticks} stick" if sticks == 1 else f"{sticks} sticks"
    if by_money:
        return f"So at least {price_text(money)} must be spent, and {number} at that price: no plan costs less."
    return f"So it takes {number}, and no plan has fewer."
