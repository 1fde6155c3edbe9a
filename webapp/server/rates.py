"""How often somebody may try: a bucket of tokens for each caller and each thing that is tried.

A bucket holds a few tries and fills slowly. Whoever finds it empty is told how long to wait. Callers are forgotten when
their bucket is full again, so a flood of strange addresses does not fill the memory.
"""

from collections.abc import Callable
from math import ceil
from threading import Lock
from time import monotonic

from framecalc.records import Record
from webapp.data.errors import StoreError

MOST_CALLERS = 10_000


class TooOften(StoreError):
    """Too many tries in a short time; `wait_s` says when the next one is free."""

    def __init__(self, wait_s: int) -> None:
        seconds = "1 second" if wait_s == 1 else f"{wait_s} seconds"
        super().__init__(f"That was tried too often. Wait {seconds} and try once more.")
        self.wait_s = wait_s


class Rate(Record):
    """So many tries at once, and one more after every so many seconds."""

    tries: int
    every_s: float


RATES = {
    "pair": Rate(tries=5, every_s=30),
    "unknown link": Rate(tries=20, every_s=6),
    "approve": Rate(tries=5, every_s=60),
    "photo": Rate(tries=10, every_s=6),
}
"""What is tried by guessing (a code, a link), what writes without a paired device, and what costs much work."""


class Rates:
    """The buckets of one server."""

    def __init__(self, *, clock: Callable[[], float] = monotonic) -> None:
        self._clock = clock
        self._full_at: dict[tuple[str, str], float] = {}
        self._lock = Lock()

    def take(self, thing: str, caller: str) -> None:
        """Take one try of a caller at a thing.

        Raises:
            TooOften: there is none left for now.
        """
        rate, now = RATES[thing], self._clock()
        with self._lock:
            self._forget(now)
            full_at = max(self._full_at.get((thing, caller), now), now) + rate.every_s
            wait_s = full_at - now - rate.tries * rate.every_s
            if wait_s > 1e-9:
                raise TooOften(ceil(wait_s))
            self._full_at[thing, caller] = full_at

    def _forget(self, now: float) -> None:
        if len(self._full_at) >= MOST_CALLERS:
            self._full_at = {key: full_at for key, full_at in self._full_at.items() if full_at > now}
        if len(self._full_at) >= MOST_CALLERS:
            raise TooOften(60)
