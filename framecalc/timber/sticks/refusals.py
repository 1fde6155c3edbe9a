"""Problems without a cutting plan: one error each, with the numbers and the way out."""

from collections import Counter
from collections.abc import Iterable
from decimal import Decimal
from functools import partial

from framecalc.errors import ImpossibleTimber, OutOfRange, quoted
from framecalc.limits import require_not_negative, require_positive
from framecalc.timber.sticks.problem import (
    Bundle,
    Grain,
    Piece,
    Purpose,
    StickProblem,
    Stock,
    clear_stretches,
    first_after,
    first_of_each_length,
    place_round,
    short_edge_mm,
    unlike_bundles,
)
from framecalc.units import TOLERANCE_MM
from framecalc.words import Wording, worded

SHORTEST_BY_HAND_MM = 150.0
"""No shorter piece is held by hand at the saw (about 6 in). Source: common practice, no source."""

FINEST_PRICE = Decimal("0.0001")
"""Prices are compared exactly, in ten-thousandths of the shop's coin at the finest."""

MOST_PIECES, MOST_STRIPS, LONGEST_MM = 2000, 100, 20_000.0
"""More than a small shop cuts, rips or carries at a time; a larger number is a slip. Ours."""


def refuse_impossible(problem: StickProblem) -> None:
    """Refuse a problem that has no answer for a reason that is known at once.

    Raises:
        OutOfRange: a length, a count or a price out of range.
        ImpossibleTimber: pieces, stock and choices that contradict each other.
    Source: derived; the least length by hand is common practice, no source.
    """
    require_not_negative(kerf_mm=problem.kerf_mm, shortest_useful_mm=problem.shortest_useful_mm)
    require_positive(width_mm=problem.width_mm)
    _refuse_pieces(problem.pieces)
    _refuse_no_stock(problem.stock)
    for stock in problem.stock:
        refuse_stock(stock)
        _refuse_wide_kerf(stock, cut_mm=problem.cut_mm)
    _refuse_wishes(problem)
    _refuse_longer_than_any_stick(problem)


def _refuse_pieces(pieces: tuple[Piece, ...]) -> None:
    if not pieces:
        raise ImpossibleTimber("There is nothing to cut: add a frame, or a loose piece.", field="pieces")
    if len(pieces) > MOST_PIECES:
        says = f"Split the job: {MOST_PIECES} pieces at most, not {len(pieces)}."
        raise ImpossibleTimber(says, field="pieces")
    for piece in first_of_each_length(pieces):
        require_positive(length_mm=piece.length_mm)
    letters, times = Counter(piece.letters for piece in pieces).most_common(1)[0]
    if times > 1:
        says = worded(
            "{times} pieces are called {name}: number the copies, so that each piece has one name.",
            times=times,
            name=quoted(next(piece.label for piece in pieces if piece.letters == letters)),
        )
        raise ImpossibleTimber(says, field="pieces")


def _refuse_no_stock(stock: tuple[Stock, ...]) -> None:
    if not any(kind.count != 0 for kind in stock):
        says = "Enter a stick on hand, or a length that the yard sells."
        raise ImpossibleTimber(says, field="stock")


def refuse_stock(stock: Stock) -> None:
    """Refuse sticks or boards that cannot be, whatever is to be cut from them.

    Raises:
        OutOfRange: a length, a count or a price out of range.
        ImpossibleTimber: a defect that does not lie within the board.
    Source: derived.
    """
    require_positive(length_mm=stock.length_mm)
    require_not_negative(trim_mm=stock.trim_mm)
    if stock.length_mm > LONGEST_MM:
        lengths = {"length": stock.length_mm, "most": LONGEST_MM}
        says = worded("{name}: enter up to {most}, not {length}.", name=quoted(stock.name))
        raise OutOfRange(says, field="stock", lengths=lengths)
    if stock.count is not None and stock.count < 0:
        says = worded("{name}: enter 0 or more, not {count}.", name=quoted(stock.name), count=stock.count)
        raise OutOfRange(says, field="stock")
    if not 1 <= stock.strips <= MOST_STRIPS:
        says = quoted(stock.name) + f": enter 1 to {MOST_STRIPS} strips, not {stock.strips}."
        raise OutOfRange(says, field="stock")
    _refuse_price(stock)
    _refuse_defects(stock)


def _refuse_price(stock: Stock) -> None:
    price = stock.price
    if not price.is_finite() or price < 0 or price % FINEST_PRICE:
        says = quoted(stock.name) + f": enter a price of 0 or more, not {price}."
        raise OutOfRange(says, field="stock")


def _refuse_defects(stock: Stock) -> None:
    for defect in stock.defects:
        if not -TOLERANCE_MM <= defect.start_mm < defect.end_mm <= stock.length_mm + TOLERANCE_MM:
            raise ImpossibleTimber(
                worded(
                    "A defect of {name} runs from {start} to {end}: "
                    "it must end after it starts, and lie within the {length} of the board.",
                    name=quoted(stock.name),
                ),
                field="stock",
                lengths={"start": defect.start_mm, "end": defect.end_mm, "length": stock.length_mm},
            )


def _refuse_wide_kerf(stock: Stock, *, cut_mm: float) -> None:
    if cut_mm >= stock.length_mm:
        raise ImpossibleTimber(
            worded(
                "One saw cut takes {cut} of {name}, {length} long: enter a narrower kerf.",
                name=quoted(stock.name),
            ),
            field="kerf_mm",
            lengths={"cut": cut_mm, "length": stock.length_mm},
        )


def _refuse_wishes(problem: StickProblem) -> None:
    if problem.grain is not Grain.FREE:
        _refuse_odd_mates(problem)
        _refuse_unknown_corner(problem)
        _refuse_unknown_sides(problem)
    if problem.turned:
        _refuse_turning(problem)


def _refuse_odd_mates(problem: StickProblem) -> None:
    if problem.grain is Grain.MATES and problem.sides % 2:
        raise ImpossibleTimber(
            f"{problem.sides} sides have no opposites: choose grain round the frame.",
            field="grain",
        )


def _refuse_unknown_corner(problem: StickProblem) -> None:
    if first_after(problem.corner, sides=problem.sides) < 0:
        says = worded(
            "The grain cannot break at {corner}: name two sides that meet, such as bottom-left or 8-1.",
            corner=quoted(problem.corner),
        )
        raise ImpossibleTimber(says, field="corner")


def _refuse_unknown_sides(problem: StickProblem) -> None:
    members = [piece for piece in problem.pieces if piece.purpose is Purpose.MEMBER]
    for piece in members:
        if place_round(piece.side, sides=problem.sides) < 0:
            says = quoted(piece.label) + (": enter top, right, bottom or left (or 1, 2, 3 …).")
            raise ImpossibleTimber(says, field="pieces")


def _refuse_turning(problem: StickProblem) -> None:
    if problem.milled:
        says = "Pieces of a stick that has its rabbet or profile cannot be turned: leave turning off."
        raise ImpossibleTimber(says, field="turned")
    if problem.grain is not Grain.FREE:
        says = "Turned pieces break the grain round the frame: leave one of the two off."
        raise ImpossibleTimber(says, field="turned")
    shortest = min(problem.pieces, key=lambda piece: piece.length_mm)
    short_mm = short_edge_mm(shortest, slope_mm=problem.slope_mm)
    if short_mm < SHORTEST_BY_HAND_MM:
        raise ImpossibleTimber(
            worded(
                "{name} is too short to turn: its short edge is {short}, under {least}. Leave turning off.",
                name=quoted(shortest.label),
            ),
            field="turned",
            lengths={"short": short_mm, "least": SHORTEST_BY_HAND_MM},
        )


def _refuse_longer_than_any_stick(problem: StickProblem) -> None:
    cut_mm = problem.cut_mm
    longest = max(unlike_bundles(problem), key=partial(_needs_mm, cut_mm=cut_mm))
    needed_mm, clear_mm = _needs_mm(longest, cut_mm=cut_mm), _longest_clear_mm(problem.stock, cut_mm=cut_mm)
    if needed_mm > clear_mm + TOLERANCE_MM:
        raise ImpossibleTimber(
            worded(
                "{what} {needed} in one piece, and the longest clear stretch is {longest}: ",
                what=_what(longest),
            )
            + f"{_way_out(longest)}.",
            field="stock",
            lengths={"needed": needed_mm, "longest": clear_mm},
        )


def _needs_mm(bundle: Bundle, *, cut_mm: float) -> float:
    return bundle.length_mm + (len(bundle.pieces) - 1) * cut_mm


def _longest_clear_mm(stock: Iterable[Stock], *, cut_mm: float) -> float:
    usable = (kind for kind in stock if kind.count != 0)
    lengths_mm = [part.length_mm for kind in usable for part in clear_stretches(kind, cut_mm=cut_mm)]
    return max(lengths_mm, default=0.0)


def _what(bundle: Bundle) -> Wording:
    first = bundle.pieces[0]
    if len(bundle.pieces) == 1:
        return quoted(first.label) + " needs"
    sides = ", ".join(piece.side for piece in bundle.pieces)
    return worded("Frame {name} ({sides}) needs", name=quoted(f"{first.frame}/{first.copy}"), sides=sides)


def _way_out(bundle: Bundle) -> str:
    longer = "enter a stick with at least {needed} clear"
    return longer if len(bundle.pieces) == 1 else f"{longer}, or let any piece come from any stick"
