"""The cutting plan: each stick with its pieces in order, what is left of it, and how good the plan is known to be."""

from collections.abc import Iterator
from decimal import Decimal
from enum import StrEnum

from framecalc.records import Record
from framecalc.timber.sticks.problem import Piece, Stock
from framecalc.timber.sticks.proof import StickProof


class ProofStatus(StrEnum):
    """What is known about better plans."""

    PROVED = "proved: no plan does better"
    RULED_OUT = "searched: every better plan was tried and ruled out, without a short proof"
    OPEN = "open: a better plan may exist"


class PlacedPiece(Record):
    """A piece and where its left tip lies on the stick; turned: its long edge lies on the other side.

    `is_cut`: it was cut before the rest of the stick was planned, and stays as it is.
    """

    piece: Piece
    start_mm: float
    turned: bool = False
    is_cut: bool = False

    @property
    def end_mm(self) -> float:
        """Where its right tip lies."""
        return self.start_mm + self.piece.length_mm


class CutStretch(Record):
    """A clear stretch of a strip, its pieces from left to right, and what is left after the last saw cut."""

    start_mm: float
    end_mm: float
    pieces: tuple[PlacedPiece, ...]
    left_over_mm: float


class CutStrip(Record):
    """One strip of a stick or board, from 1 on."""

    number: int
    stretches: tuple[CutStretch, ...]

    @property
    def pieces(self) -> tuple[PlacedPiece, ...]:
        """All its pieces, from left to right."""
        return tuple(placed for stretch in self.stretches for placed in stretch.pieces)


class CutStick(Record):
    """One stick or board that is taken: of which stock, its number, and its strips."""

    stock: Stock
    number: int
    strips: tuple[CutStrip, ...]

    @property
    def label(self) -> str:
        """What is chalked on the stick."""
        return self.stock.name + f" #{self.number}"

    @property
    def is_begun(self) -> bool:
        """Whether pieces were cut from it before the rest was planned."""
        return any(placed.is_cut for strip in self.strips for placed in strip.pieces)

    @property
    def is_to_buy(self) -> bool:
        """Whether it is still to be bought: not in hand, and not begun."""
        return not self.stock.in_hand and not self.is_begun


class StickPlan(Record):
    """The answer to one problem. `least_money` and `least_sticks`: no plan does better, money first, then sticks.

    `longest_left_mm` is the longest off-cut, `longest_possible_mm` the longest that these sticks can leave.
    """

    problem_hash: str
    sticks: tuple[CutStick, ...]
    money: Decimal
    proof_status: ProofStatus
    least_money: Decimal
    least_sticks: int
    proof: StickProof
    longest_left_mm: float
    longest_possible_mm: float

    @property
    def stick_count(self) -> int:
        """How many sticks or boards are taken."""
        return len(self.sticks)

    @property
    def saves_at_most(self) -> Decimal:
        """How much cheaper a better plan could be, at most; nothing where none is left."""
        return self.money - self.least_money if self.proof_status is ProofStatus.OPEN else Decimal(0)

    @property
    def saves_at_most_pct(self) -> float:
        """The same as a share of the money; 0 where all is free."""
        return float(100 * self.saves_at_most / self.money) if self.money else 0.0

    @property
    def saves_at_most_sticks(self) -> int:
        """How many sticks fewer a plan for the same money could take, at most."""
        same = self.proof_status is ProofStatus.OPEN and self.money == self.least_money
        return self.stick_count - self.least_sticks if same else 0

    def stretches(self) -> Iterator[tuple[CutStick, CutStrip, CutStretch]]:
        """Every clear stretch with its strip and its stick."""
        for stick in self.sticks:
            for strip in stick.strips:
                for stretch in strip.stretches:
                    yield stick, strip, stretch
