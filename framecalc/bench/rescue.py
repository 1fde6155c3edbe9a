"""Rescue: what can still be done with a piece that went wrong, and what each way costs in wood, minutes and looks.

A *trouble* is a side that is short by so much, whose end has split, whose rabbet came out too wide; or two mates that
are both spoiled. A *way* may change sizes of the frame, which is then planned anew; or it takes other wood, and the
frame stays as it is.
"""

from collections.abc import Iterable
from enum import IntEnum, StrEnum

from framecalc.records import Record, field


class Trouble(StrEnum):
    """What went wrong."""

    SHORT = "short"
    SPLIT = "split end"
    WIDE_RABBET = "rabbet too wide"
    SPOILED_PAIR = "spoiled pair"


class Looks(IntEnum):
    """What is seen of it afterwards, the least first."""

    NOTHING = 0
    A_LITTLE = 1
    PLAINLY = 2

    @property
    def words(self) -> str:
        """As it stands beside a way."""
        return ("not seen", "seen a little", "plainly seen")[self]


TRIM_MIN, CUT_PIECE_MIN, MILL_PIECE_MIN, REPEAT_RABBET_MIN = 4, 6, 15, 3
"""To trim a side at the stop; to cut a new one from milled stick, or from rough wood; to widen the rabbet of one.
Common practice, no source."""

MAT_MIN, STRIP_MIN, RIP_MIN = 20, 25, 4
"""To cut a new mat; to glue a strip into a rabbet and plane it flush; to rip one side. Common practice, no source."""


class CutAgainOf(Record):
    """A side to cut again: how long, from what, and how much that gives; blank for wood that is bought."""

    side: str
    length_mm: float
    wood_mm: float = 0.0
    source: str = ""
    on_rack: bool = False


class Rescue(Record):
    """One way out: what to do, the texts that it changes by their paths, and its cost in wood, minutes and looks.

    `again`: sides that it cuts again, each as the bench keeps it.
    """

    says: str
    changes: dict[str, str] = field(default_factory=dict)
    again: tuple[CutAgainOf, ...] = ()
    wood_mm: float = 0.0
    minutes_min: int = 0
    looks: Looks = Looks.NOTHING


def ranked(ways: Iterable[Rescue]) -> tuple[Rescue, ...]:
    """Ways in the order in which a shop would want them: least seen, then least wood, then soonest done.

    Source: common practice, no source.

    >>> [one.says for one in ranked([Rescue(says="buy", wood_mm=500), Rescue(says="trim", minutes_min=8)])]
    ['trim', 'buy']
    """
    return tuple(sorted(ways, key=lambda one: (one.looks, one.wood_mm, one.minutes_min)))
