"""The watch kept over a search: how long it may take, and whether somebody has called it off.

The clock comes from the caller, so that a search can be tested to the second without waiting.
"""

from collections.abc import Callable
from dataclasses import dataclass


def nobody() -> bool:
    """Nobody has called the search off."""
    return False


@dataclass(frozen=True, slots=True, kw_only=True)
class Watch:
    """A clock, the moment on it when the search must end, and a question asked now and then: is it called off?"""

    clock: Callable[[], float]
    until_s: float
    cancelled: Callable[[], bool] = nobody

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
        until_s = min(self.until_s, self.clock() + share_s)
        return Watch(clock=self.clock, until_s=until_s, cancelled=self.cancelled)


def start_watch(time_limit_s: float, *, clock: Callable[[], float], cancelled: Callable[[], bool] = nobody) -> Watch:
    """Start a watch now.

    Args:
        time_limit_s: how long the search may take [s]; 0 still gives the plan found without searching.
        clock: seconds that only ever grow, such as `time.monotonic`.
        cancelled: asked now and then, from the thread that searches.
    Source: derived.

    >>> start_watch(2.0, clock=lambda: 100.0).remaining_s
    2.0
    """
    return Watch(clock=clock, until_s=clock() + time_limit_s, cancelled=cancelled)
