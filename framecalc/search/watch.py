"""The watch kept over a search: how long it may take, whether somebody has called it off, whom it tells how far it is.

The clock comes from the caller, so that a search can be tested to the second without waiting.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal


def nobody() -> bool:
    """Nobody has called the search off."""
    return False


@dataclass(frozen=True, slots=True, kw_only=True)
class SoFar:
    """What a search knows while it goes on: the best plan in hand, if there is one, and what no plan does better than.

    `money` and `sticks` are None while there is no plan.
    """

    money: Decimal | None
    sticks: int | None
    least_money: Decimal
    least_sticks: int


def to_nobody(so_far: SoFar) -> None:
    """Nobody wants to hear how far the search is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Watch:
    """A clock, the moment on it when the search must end, and a question asked now and then: is it called off?

    `tell` is called, from the thread that searches, whenever a better plan or a better bound is found.
    """

    clock: Callable[[], float]
    until_s: float
    cancelled: Callable[[], bool] = nobody
    tell: Callable[[SoFar], None] = to_nobody

    @property
    def remaining_s(self) -> float:
        """What is left of the time, never below nothing."""
        return max(0.0, self.until_s - self.clock())

    @property
    def over(self) -> bool:
        """Whether the search must stop now and hand over the best it has."""
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
        cancelled: asked now and then, from the thread that searches.
        tell: told of every better plan and bound, from the same thread.
    Source: derived.

    >>> start_watch(2.0, clock=lambda: 100.0).remaining_s
    2.0
    """
    return Watch(clock=clock, until_s=clock() + time_limit_s, cancelled=cancelled, tell=tell)
