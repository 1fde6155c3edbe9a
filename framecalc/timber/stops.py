"""The stop list: every length once at the saw, the longest first, and the cautions that go with it.

A *stop* is a block clamped to the fence, against which the cut end of a stick is laid, so that all pieces of one length
come out alike. Pieces are cut by the stop, not by the frame: opposite sides one after the other without touching it. A
saw with a fence to the left and one to the right of its blade needs the stop on one of them; one that is swung over to
cut the other end needs a stop on *both* sides.
"""

from collections.abc import Iterable, Iterator, Sequence
from enum import StrEnum

from framecalc.errors import quoted
from framecalc.evidence import USUAL_PRACTICE
from framecalc.findings import Finding, Severity
from framecalc.records import Record
from framecalc.timber.sticks.answer import StickPlan
from framecalc.timber.sticks.problem import Piece, Purpose, StickProblem, place_round, short_edge_mm
from framecalc.timber.sticks.refusals import SHORTEST_BY_HAND_MM
from framecalc.units import TOLERANCE_MM
from framecalc.words import worded

NARROW_MM = 50.0
"""A strip under 2 in brings the hand too near the blade. Source: common practice, no source."""

_MANUAL = "The machine's manual comes before this advice."
_RIPPING = "Splitter or riving knife on, guard down, push block at hand; a straight edge against the fence."
_NARROW = (
    "Strips of {strip} are narrow: a push block, never the hand, between blade and fence; splitter or riving knife on, "
    "guard down."
)


class StopSide(StrEnum):
    """Where the stop is clamped, as one stands at the saw."""

    LEFT = "left"
    RIGHT = "right"


class Stop(Record):
    """One setting of the stop: the long edge and the short edge it gives, and the pieces cut there, mates together."""

    number: int
    long_mm: float
    short_mm: float
    sides: tuple[StopSide, ...]
    pieces: tuple[Piece, ...]

    @property
    def count(self) -> int:
        """How many pieces are cut at this stop."""
        return len(self.pieces)


class SawHint(Record):
    """One line at the saw, and why."""

    says: str
    why: str


OTHER_END = SawHint(
    says="Outer edge against the fence. Cut one end, set its long point to the stop, cut the other.",
    why="The stop gives the length along the edge that lies on the fence, and from a cut end only.",
)
LONGEST_FIRST = SawHint(
    says="Longest first.",
    why="A long piece that is spoiled can still become a short one.",
)
BACK_TO_BACK = SawHint(
    says="Cut opposite sides one after the other, without touching the stop.",
    why="Two sides that differ open the last corner; the same stop makes them alike, whatever it reads.",
)
TEST_FIRST = SawHint(
    says="Cut a test corner from scrap first, and close it dry.",
    why="A saw that is out shows it there, and not after the good wood is cut.",
)
RELIEVED = SawHint(
    says="Relieve the stop: let the long point stand free, and let the wood touch a little behind it.",
    why="A long point pushed against a flat stop is crushed, and sawdust in front of it shortens the next piece.",
)
FILLER = SawHint(
    says="Lay a filler strip under the rabbeted edge.",
    why="Without it the stick tips into its rabbet, and the mitre comes out of square to the face.",
)
"""Source of all advice: common practice, no source."""


def stop_list(plan: StickPlan, *, problem: StickProblem, both_sides: bool) -> tuple[Stop, ...]:
    """List the settings of the stop for a whole plan but its test pieces, the longest first, each length once.

    Args:
        both_sides: the saw needs a stop to the left and one to the right.
    Source: common practice, no source.
    """
    return stops_for(_pieces(plan), problem=problem, both_sides=both_sides)


def stops_for(pieces: Iterable[Piece], *, problem: StickProblem, both_sides: bool) -> tuple[Stop, ...]:
    """List the settings of the stop for some pieces, the longest first, each length once; test pieces are left out.

    Args:
        both_sides: as in `stop_list`.
    Source: common practice, no source.
    """
    by_length: dict[float, list[Piece]] = {}
    members = (piece for piece in pieces if piece.purpose is not Purpose.TEST)
    for piece in sorted(members, key=lambda piece: -piece.length_mm):
        by_length.setdefault(_same(piece.length_mm, by_length), []).append(piece)
    return tuple(
        Stop(
            number=number,
            long_mm=long_mm,
            short_mm=long_mm - 2 * problem.slope_mm,
            sides=tuple(StopSide) if both_sides else (StopSide.RIGHT,),
            pieces=_mates_together(alike, sides=problem.sides),
        )
        for number, (long_mm, alike) in enumerate(by_length.items(), start=1)
    )


def hints_at_the_saw(*, milled: bool, tested: bool) -> tuple[SawHint, ...]:
    """The lines that stand over a stop list.

    Args:
        milled: the sticks have their rabbet when they are cut.
        tested: test pieces are cut before.
    Source: common practice, no source.

    >>> [hint.says for hint in hints_at_the_saw(milled=False, tested=True)][0]
    'Outer edge against the fence. Cut one end, set its long point to the stop, cut the other.'
    """
    before = () if tested else (TEST_FIRST,)
    return (*before, OTHER_END, LONGEST_FIRST, BACK_TO_BACK, RELIEVED, *((FILLER,) if milled else ()))


def cutting_cautions(pieces: Sequence[Piece], *, slope_mm: float) -> tuple[Finding, ...]:
    """Warn of pieces that are too short to be held by hand at the saw, measured along the short edge.

    Source: common practice, no source.
    """
    long_enough_mm = SHORTEST_BY_HAND_MM - TOLERANCE_MM + 2 * slope_mm
    short = [piece for piece in pieces if piece.length_mm < long_enough_mm]
    if not short:
        return ()
    shortest = min(short, key=lambda piece: piece.length_mm)
    return (
        Finding(
            code="stops.short-piece",
            severity=Severity.WARN,
            sentence=worded(
                "{count} pieces are short: {name} has a short edge of {short}. Hold them down with a clamp or on a "
                "sled, never by hand, and cut each off the end of a long stick.",
                count=len(short),
                name=quoted(shortest.label),
            ),
            why="Under {least} the hand comes too near the blade, and a short piece turns and is thrown. " + _MANUAL,
            source=USUAL_PRACTICE,
            argument="pieces",
            lengths={"short": short_edge_mm(shortest, slope_mm=slope_mm), "least": SHORTEST_BY_HAND_MM},
        ),
    )


def ripping_cautions(*, strip_mm: float) -> tuple[Finding, ...]:
    """Report the caution for the rip saw, and warn of a narrow strip.

    Source: common practice, no source.
    """
    narrow = strip_mm < NARROW_MM - TOLERANCE_MM
    return (
        Finding(
            code="stops.narrow-strip" if narrow else "stops.ripping",
            severity=Severity.WARN if narrow else Severity.NOTE,
            sentence=_NARROW if narrow else _RIPPING,
            why="Ripping frees tensions: a strip that closes on the blade is thrown back. " + _MANUAL,
            source=USUAL_PRACTICE,
            argument="strip_mm",
            lengths={"strip": strip_mm},
        ),
    )


def planing_cautions(lengths_mm: Iterable[float], *, shortest_mm: float) -> tuple[Finding, ...]:
    """Stop pieces that are too short for planer and jointer.

    Args:
        shortest_mm: the machine's own figure, or the usual one if that is longer [mm].
    Source: common practice, no source.
    """
    short = sorted(length for length in lengths_mm if length < shortest_mm - TOLERANCE_MM)
    if not short:
        return ()
    return (
        Finding(
            code="stops.too-short-to-plane",
            severity=Severity.STOP,
            sentence=f"{len(short)} pieces are too short for planer and jointer: "
            "{shortest}, under {least}. Mill a longer stick, then crosscut it.",
            why="Rollers must hold a piece while the knives cut it. " + _MANUAL,
            source=USUAL_PRACTICE,
            argument="pieces",
            lengths={"shortest": short[0], "least": shortest_mm},
        ),
    )


def _pieces(plan: StickPlan) -> Iterator[Piece]:
    """Every piece of a plan but those that were cut before."""
    for _, _, stretch in plan.stretches():
        yield from (placed.piece for placed in stretch.pieces if not placed.is_cut)


def _same(length_mm: float, known: Iterable[float]) -> float:
    """The length that is already listed for this one, if they differ by less than any tool shows."""
    return next((other for other in known if abs(other - length_mm) <= TOLERANCE_MM), length_mm)


def _mates_together(pieces: Iterable[Piece], *, sides: int) -> tuple[Piece, ...]:
    """Frame by frame, each side followed by the one opposite."""

    def order(piece: Piece) -> tuple[str, str, int, int, int]:
        place = place_round(piece.side, sides=sides)
        return piece.purpose, piece.frame, piece.copy, place % max(1, sides // 2), place

    return tuple(sorted(pieces, key=order))
