"""What was read of revisions, kept for as long as it is used: a revision never changes, so it is read once per process.

What is kept belongs to a *stamp*: the number of a revision and the state of its file. A file that goes, or that another
one takes the place of, has another stamp or none, so nothing old is ever handed out for it. What was not asked for
longest is let go first, once the files of what is kept are larger together than `MOST_BYTES`.
"""

from collections import OrderedDict
from dataclasses import dataclass
from threading import Lock
from typing import Generic, TypeVar

MOST_BYTES = 4_000_000
"""Files of what is kept, in all: ten projects of 60 frames, or several hundred of one. Read and planned, a project
takes about twelve times its file in memory (measured), so this is some 50 MB at most."""

_Kept = TypeVar("_Kept")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamp:
    """Which revision of which project, and which file it was read from."""

    project_id: str
    number: int
    file: int
    changed_ns: int
    size: int


class Keeping(Generic[_Kept]):
    """What is kept, by stamp; every method may be called from any thread."""

    def __init__(self, *, most_bytes: int = MOST_BYTES) -> None:
        self._most_bytes, self._bytes = most_bytes, 0
        self._kept: OrderedDict[Stamp, _Kept] = OrderedDict()
        self._lock = Lock()

    def find(self, stamp: Stamp) -> _Kept | None:
        """What is kept for a stamp, if anything is."""
        with self._lock:
            if stamp in self._kept:
                self._kept.move_to_end(stamp)
            return self._kept.get(stamp)

    def keep(self, stamp: Stamp, found: _Kept) -> _Kept:
        """Keep what was found for a stamp, and return it; what another thread has put there first stays."""
        with self._lock:
            if stamp not in self._kept:
                self._kept[stamp] = found
                self._bytes += stamp.size
            found = self._kept[stamp]
            while self._bytes > self._most_bytes:
                gone, _ = self._kept.popitem(last=False)
                self._bytes -= gone.size
            return found

    def all(self) -> tuple[_Kept, ...]:
        """Everything that is kept, what was asked for longest first."""
        with self._lock:
            return tuple(self._kept.values())

    def drop(self, project_id: str) -> None:
        """Let go of all revisions of a project."""
        with self._lock:
            for stamp in [stamp for stamp in self._kept if stamp.project_id == project_id]:
                del self._kept[stamp]
                self._bytes -= stamp.size
