"""The watch over a search: its deadline, its cancellation, and the report of its progress.

The caller passes the clock, so that a test can set the time without waiting.
"""

from collections.abc import Callable, Iterable, Iterator
from decimal import Decimal
from typing import TypeVar

from framecalc.records import Record, replace


def nobody() -> bool:
    """Never cancelled."""
    return False


Found = TypeVar("Found")


def until_enough(found: Iterable[Found], *, is_enough: Callable[[], bool]) -> Iterator[Found]:
    """What is found until that is enough: one at least, where there is any.

    >>> list(until_enough([3, 1, 2], is_enough=lambda: True))
    [3]
    """
    for one in found:
        yield one
        if is_enough():
            return


class SoFar(Record):
    """The progress of a search: the best plan so far, if there is one, and the bound that no plan beats.

    `money` and `sticks` are None while there is no plan.
    """

    money: Decimal | None
    sticks: int | None
    least_money: Decimal
    least_sticks: int


def to_nobody(so_far: SoFar) -> None:
    """Report progress to nobody."""


class Watch(Record):
    """A clock, the deadline on it, and a function that says whether the search is cancelled.

    The search calls `tell`, in its own thread, whenever it finds a better plan or a better bound.
    """

    clock: Callable[[], float]
    until_s: float
    cancelled: Callable[[], bool] = nobody
    tell: Callable[[SoFar], None] = to_nobody

    @property
    def remaining_s(self) -> float:
        """The time left, never below zero."""
        return max(0.0, self.until_s - self.clock())

    @property
    def over(self) -> bool:
        """Whether the search must stop now and return the best it has."""
        return self.cancelled() or self.clock() >= self.until_s

    def at_most(self, share_s: float) -> "Watch":
        """The same watch over one step of the search, which may take no longer than its share."""
        return replace(self, until_s=min(self.until_s, self.clock() + share_s))


def start_watch(
    time_limit_s: float,
    *,
    clock: Callable[[], float],
    cancelled: Callable[[], bool] = nobody,
    tell: Callable[[SoFar], None] = to_nobody,
) -> Watch:
    """Start a watch now.

    Args:
        time_limit_s: how long the search may take [s]; 0 still gives the plan found without searching.
        clock: seconds that only ever grow, such as `time.monotonic`.
        cancelled: called now and then, from the thread that searches.
        tell: called with every better plan and bound, from the same thread.
    Source: derived.

    >>> start_watch(2.0, clock=lambda: 100.0).remaining_s
    2.0
    """
    return Watch(clock=clock, until_s=clock() + time_limit_s, cancelled=cancelled, tell=tell)
