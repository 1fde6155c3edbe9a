"""Proof in shop words: a share for each piece, the most that a stick can hold, and so the least that must be bought.

Give every piece a *share*, in any measure: the length it takes, part of a stick, part of the money. If each stick can
hold only a limited sum of shares, a plan needs sticks that together can hold the shares of all pieces, and the cheapest
such purchase is a bound that no plan beats. This module puts into words a bound found and checked in whole numbers.
"""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from math import sqrt

from framecalc.errors import quoted
from framecalc.money import price_text
from framecalc.records import Record, field
from framecalc.timber.sticks.bounds import ShareMeasure, StickCertificate
from framecalc.timber.sticks.problem import StickProblem, Stock
from framecalc.timber.sticks.whole_numbers import WholeNumbers, money_of
from framecalc.units import Step, format_length
from framecalc.words import Wording, joined

FINEST_FRACTION = 60
"""The largest denominator of a fraction in words; finer shares are decimals. Ours."""

LISTED = 6
"""Shares that a sentence lists; where there are more, it sends the reader to the table. Ours."""

SEVERAL = "What is bought must hold all pieces by every one of these measures, and nothing that costs less does."

NEARLY = Fraction(1, 50)
"""What is short by no more of what fewer sticks hold could be gained at the saw, and it is said how. Ours."""

SHORT = {"short": ("total0", "fewer_hold")}
"""What fewer sticks are short of is what the pieces take less what those hold, as both are printed."""

PIECE = "piece"
"""How the hole of the length of a piece begins."""

PRICE = "price "
"""How the hole of a price begins; the rest of it is the price."""


class _Holes(dict[str, str]):
    """The lengths of a text by their names, and its prices."""

    def __init__(self, lengths: Mapping[str, str], price: Callable[[Decimal], str]) -> None:
        super().__init__(lengths)
        self._price: Callable[[Decimal], str] = price

    def __missing__(self, hole: str) -> str:
        """A price; what is none is no hole, but was typed."""
        return self._price(Decimal(hole.removeprefix(PRICE))) if hole.startswith(PRICE) else f"{{{hole}}}"


_HOLE = re.compile(rf"\{{(\w+|{PRICE}\d+(?:\.\d+)?)\}}")


def _filled(text: str, holes: _Holes) -> str:
    """A text with its holes filled. One from an older file does not say what was typed: not every brace is a hole."""
    return text.format_map(holes) if isinstance(text, Wording) else _HOLE.sub(lambda hole: holes[hole[1]], text)


class LengthSentence(Record):
    """A text that names lengths and prices in braces, and the values of the lengths [mm].

    A length that is the *difference* of two others is written as what those leave as printed: printed numbers subtract.
    """

    text: str
    lengths: Mapping[str, float] = field(default_factory=dict)
    differences: Mapping[str, tuple[str, str]] = field(default_factory=dict)

    @property
    def in_mm(self) -> str:
        """The text with its lengths in millimetres."""
        step = Step.HUNDREDTH_MILLIMETRE
        return self.written(lambda length_mm: f"{length_mm:.6g} mm", step=step, price=price_text)

    def written(
        self,
        length: Callable[[float], str],
        *,
        step: Step,
        price: Callable[[Decimal], str],
        piece: Callable[[float], str] | None = None,
    ) -> str:
        """The text with its lengths and its prices as a project writes them; a hole of a price is called after it.

        Args:
            length: writes a length [mm], to the step.
            piece: writes the length of a piece [mm], where that is written otherwise.
        """
        written_mm = {**self.lengths, **dict(self._left_mm(step))}
        lengths = {
            name: piece(length_mm) if piece and name.startswith(PIECE) else length(length_mm)
            for name, length_mm in written_mm.items()
        }
        return _filled(self.text, _Holes(lengths, price))

    def _left_mm(self, step: Step) -> Iterator[tuple[str, float]]:
        """What printed lengths leave of each other; where they are printed alike, what is left in truth."""
        for name, pair in self.differences.items():
            more_mm, less_mm = (format_length(self.lengths[one], step=step).written_mm for one in pair)
            yield name, more_mm - less_mm or self.lengths[name]


class PieceShare(Record):
    """The share of one piece, or of one bundle of pieces cut in order, and how many there are."""

    length_mm: float
    pieces: int
    count: int
    share: Fraction


class StickCapacity(Record):
    """The most that one stick (or board) of a stock can hold, in the measure of the proof."""

    stock: Stock
    most: Fraction


class StickShares(Record):
    """A share for every piece in one measure, their sum, and the most that each stick can hold."""

    measure: ShareMeasure
    pieces: tuple[PieceShare, ...]
    sticks: tuple[StickCapacity, ...]
    total: Fraction


class StickProof(Record):
    """A bound as the page shows it: the least that any plan costs, the shares that prove it, and the paragraph.

    Usually one set of shares is enough. Of several sets each rules out other purchases; together they rule out all
    that cost less.
    """

    shares: tuple[StickShares, ...]
    least_money: Decimal
    least_sticks: int
    saying: LengthSentence


def prove(
    certificates: Sequence[StickCertificate],
    *,
    least: int,
    is_reached: bool,
    whole_numbers: WholeNumbers,
    problem: StickProblem,
) -> StickProof:
    """Put certificates into words, with all their numbers.

    Args:
        least: the cost that they show to be the least.
        is_reached: whether a plan costs no more: then it is said how one stick fewer might be gained at the saw.
    Source: derived.
    """
    least_money, least_sticks = money_of(least, whole_numbers=whole_numbers)
    shares = tuple(_shares(certificate, whole_numbers, problem) for certificate in certificates)
    bound = _bound_words(least_money, least_sticks, by_money=whole_numbers.by_money)
    saying = _saying(shares, least_sticks, bound, problem if is_reached else None)
    return StickProof(shares=shares, least_money=least_money, least_sticks=least_sticks, saying=saying)


def fraction_words(share: Fraction) -> str:
    """Write a share in words: a whole number, a fraction, or a decimal where the fraction is too fine.

    Source: derived.

    >>> [fraction_words(Fraction(n)) for n in ("4", "1/2", "452.25", "0.3333")]
    ['4', '1/2', '452 1/4', '0.3333']
    """
    whole, part = divmod(share, 1)
    if not part:
        return str(whole)
    if part.denominator > FINEST_FRACTION:
        return f"{share.numerator / share.denominator:.10g}"
    return f"{whole} {part}" if whole else str(part)


def amount_words(amount: Fraction, *, measure: ShareMeasure) -> str:
    """Write an amount in a measure other than length: money in decimals, parts of a stick in fractions.

    Source: derived (units of money are chosen so that the decimals end).

    >>> amount_words(Fraction("22.41"), measure=ShareMeasure.MONEY)
    '22.41'
    >>> amount_words(Fraction("5.25"), measure=ShareMeasure.STICKS)
    '5 1/4'
    """
    if measure is ShareMeasure.MONEY:
        return f"{(Decimal(amount.numerator) / Decimal(amount.denominator)).normalize():f}"
    return fraction_words(amount)


def _piece_shares(certificate: StickCertificate, whole_numbers: WholeNumbers) -> tuple[PieceShare, ...]:
    return tuple(
        PieceShare(
            length_mm=bundles[0].length_mm,
            pieces=len(bundles[0].pieces),
            count=len(bundles),
            share=share * certificate.unit,
        )
        for bundles, share in zip(whole_numbers.bundles, certificate.shares, strict=True)
    )


def _stick_capacities(
    certificate: StickCertificate, whole_numbers: WholeNumbers, problem: StickProblem
) -> tuple[StickCapacity, ...]:
    return tuple(
        StickCapacity(stock=problem.stock[member], most=most * certificate.unit)
        for kind, most in zip(whole_numbers.kinds, certificate.most, strict=True)
        for member in kind.members
    )


def _shares(certificate: StickCertificate, whole_numbers: WholeNumbers, problem: StickProblem) -> StickShares:
    return StickShares(
        measure=certificate.measure,
        pieces=_piece_shares(certificate, whole_numbers),
        sticks=_stick_capacities(certificate, whole_numbers, problem),
        total=certificate.needed * certificate.unit,
    )


def _saying(
    shares: tuple[StickShares, ...], least_sticks: int, bound: str, problem: StickProblem | None
) -> LengthSentence:
    shortage = _shortage(shares, least_sticks)
    if shortage and shares[0].measure is ShareMeasure.LENGTH:
        return _short_saying(shares[0], least_sticks - 1, float(shortage), bound, problem)
    lengths: dict[str, float] = {}
    said = [_said(one, number, lengths) for number, one in enumerate(shares)]
    if len(said) > 1:
        said.append(SEVERAL)
    last = [_short_worth(shares[0], least_sticks - 1, shortage)] if shortage else []
    return LengthSentence(text=joined(" ", [*said, bound, *last]), lengths=lengths)


def _shortage(shares: tuple[StickShares, ...], least_sticks: int) -> Fraction:
    """What one stick fewer would be short of; 0 where sticks differ, or one stick is enough."""
    if len(shares) > 1 or len(shares[0].sticks) > 1 or least_sticks < 2:
        return Fraction(0)
    return max(shares[0].total - (least_sticks - 1) * shares[0].sticks[0].most, Fraction(0))


def _short_worth(told: StickShares, fewer: int, shortage: Fraction) -> str:
    most, short = (_worth(one, told.measure) for one in (told.total - shortage, shortage))
    return f"{_hold(fewer, '')} pieces worth {most} at most: {short} short."


def _hold(fewer: int, of: str) -> str:
    return f"{fewer} sticks" + of + " hold" if fewer > 1 else "1 stick" + of + " holds"


def _short_saying(
    told: StickShares, fewer: int, short_mm: float, bound: str, problem: StickProblem | None
) -> LengthSentence:
    """How much one stick fewer is short of, as one sum: what a single stick holds would not add up to it as printed."""
    lengths = {"total0": float(told.total), "fewer_hold": float(told.total) - short_mm, "short": short_mm}
    hold = _hold(fewer, " of " + _stick_words(told.sticks[0].stock))
    text = (
        "Each with one saw cut, the pieces take {total0} of stick. However they are arranged, "
        + hold
        + f" at most {{fewer_hold}} of that: {{short}} short. {bound}"
    )
    if problem is None or short_mm > lengths["fewer_hold"] * NEARLY:
        return LengthSentence(text=text, lengths=lengths, differences=SHORT)
    made_up = _made_up(told, fewer, short_mm, problem)
    return LengthSentence(text=text + " " + made_up.text, lengths=lengths | dict(made_up.lengths), differences=SHORT)


def _made_up(told: StickShares, fewer: int, short_mm: float, problem: StickProblem) -> LengthSentence:
    """What is short, in what a shop can change: the trim of the ends, the kerf on its slant, the sides."""
    ends, cuts = 2 * fewer, sum(piece.count * piece.pieces for piece in told.pieces)
    off_trim_mm, off_kerf_mm = short_mm / ends, short_mm / cuts / sqrt(2)
    ways = ["make sides {short} shorter together"]
    if off_trim_mm < told.sticks[0].stock.trim_mm:
        ways.append("trim each end about {off_trim} less")
    if off_kerf_mm < problem.kerf_mm:
        ways.append("take a blade about {off_kerf} thinner")
    text = f"To gain it, {', or '.join(ways)}; then plan again before another stick is bought."
    return LengthSentence(text=text, lengths={"off_trim": off_trim_mm, "off_kerf": off_kerf_mm})


def _said(shares: StickShares, number: int, lengths: dict[str, float]) -> str:
    """One set of shares in a sentence or two; the lengths go into the mapping."""
    if shares.measure is ShareMeasure.LENGTH:
        return _by_length(shares, number, lengths)
    return _by_share(shares, number, lengths)


def _by_length(shares: StickShares, number: int, lengths: dict[str, float]) -> str:
    lengths[f"total{number}"] = float(shares.total)
    held = joined("; ", _held(shares.sticks, number, lengths))
    return (
        f"Each with one saw cut, the pieces take {{total{number}}} of stick. However they are arranged, " + held + "."
    )


def _held(sticks: tuple[StickCapacity, ...], number: int, lengths: dict[str, float]) -> Iterator[str]:
    """What each stick holds at most, in length."""
    for place, stick in enumerate(sticks):
        name = f"held{number}_{place}"
        lengths[name] = float(stick.most)
        yield _stick_words(stick.stock) + f" holds at most {{{name}}} of that"


def _by_share(shares: StickShares, number: int, lengths: dict[str, float]) -> str:
    measure = shares.measure
    listed = "; ".join(_share_words(shares, number, lengths))
    most = joined(
        "; ",
        (
            _stick_words(stick.stock) + f" can hold pieces worth {_worth(stick.most, measure)} at most"
            for stick in shares.sticks
        ),
    )
    name = "another worth" if number else "a worth"
    unit = " of a stick" if measure is ShareMeasure.STICKS else ""
    return (
        f"Give each piece {name}{unit}: {listed}. However they are arranged, "
        + most
        + f". All pieces together are worth {_worth(shares.total, measure)}."
    )


def _share_words(shares: StickShares, number: int, lengths: dict[str, float]) -> Iterator[str]:
    if len(shares.pieces) > LISTED:
        yield "the table lists them"
        return
    for place, piece in enumerate(shares.pieces):
        name = f"{PIECE}{number}_{place}"
        lengths[name] = piece.length_mm
        what = f"{{{name}}}" if piece.pieces == 1 else f"{piece.pieces} pieces of {{{name}}} together"
        yield f"{what} is worth {_worth(piece.share, shares.measure)}, {piece.count} times"


def _stick_words(stick: Stock) -> Wording:
    there = "" if stick.count is None else f" ({stick.count} there)"
    price = f" at {_priced(stick.price)}" if stick.price else ""
    return quoted(stick.name) + price + there


def _priced(money: Decimal) -> str:
    """The hole for a price."""
    return f"{{{PRICE}{money.normalize():f}}}"


def _worth(amount: Fraction, measure: ShareMeasure) -> str:
    """What a piece or a stick is worth: money is left open, to be written as the project does."""
    text = amount_words(amount, measure=measure)
    return _priced(Decimal(text)) if measure is ShareMeasure.MONEY else text


def _bound_words(money: Decimal, sticks: int, *, by_money: bool) -> str:
    number = f"{sticks} stick" if sticks == 1 else f"{sticks} sticks"
    if by_money:
        return f"So at least {_priced(money)} must be spent, and {number} at that price: no plan costs less."
    return f"So it takes {number}, and no plan has fewer."
