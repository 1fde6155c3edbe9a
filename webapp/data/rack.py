"""The rack of the shop on disk: what stands on it, and what was cut from it.

    DATA/rack.json          sticks, off-cuts and boards; every cut that changed them; what was taken away last
    DATA/rack-before.json   the same before the last change, should the disk spoil the file
    DATA/cuts/<cut>.json    a plan as it was when it was marked as cut, and the problem that it answers

A *cut* is one plan marked as cut: the sticks that went and the off-cuts that came. All of a change is written in one
step, so a crash leaves the rack before it or after it. A cut that was undone stays listed, with the moment of it. What
is asked twice, by a button pressed twice or in two tabs, is done once.
"""

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from threading import RLock

from pydantic import ValidationError

from framecalc.errors import OutOfRange, quoted
from framecalc.project import project_text
from framecalc.records import Record
from framecalc.timber.rack import Rack, RackChange, make_change, take_back
from webapp.data.disk import make_folder, read_bytes, read_json, set_aside, stamp_of, write_safely
from webapp.data.errors import StoreError, UnreadableFile
from webapp.data.rack_file import MOST_STICKS, CutEntry, RackEntry, RackFile, digest_of, entry_of

KEPT_AWAY = 20
"""As many sticks as can be put back after they were taken away."""


class NotOnTheRack(StoreError):
    """There is no such stick on the rack, or no such cut."""


class RackChanged(StoreError):
    """The rack is no longer as it was shown."""


class CutWish(Record):
    """A plan to be marked as cut.

    `problem` is the hash of what it answers, `record` the text that is kept of both, `after` how often the person knows
    it to be cut already. `revision` is that of the project, which is told of the cut afterwards; 0 for nobody to tell.
    """

    project_id: str
    project_name: str
    members: str
    problem: str
    record: str
    after: int = 0
    revision: int = 0


def _utc_now() -> datetime:
    return datetime.now(UTC)


class RackFolder:
    """The one door to `rack.json`; every method may be called from any thread."""

    def __init__(
        self, data_folder: Path, *, new_id: Callable[[], str], clock: Callable[[], datetime] = _utc_now
    ) -> None:
        self._path, self._records = data_folder / "rack.json", data_folder / "cuts"
        self._before = data_folder / "rack-before.json"
        self._new_id, self._clock, self._lock = new_id, clock, RLock()
        self._known: tuple[tuple[int, int, int], RackFile] | None = None

    def read(self) -> RackFile:
        """Read the rack; an empty one when nothing was kept yet. A file that is as it was read last is not read again.

        Raises:
            UnreadableFile: the file is damaged.
        """
        stamp, known = stamp_of(self._path), self._known
        if stamp and known and known[0] == stamp:
            return known[1]
        file = _read(self._path)
        self._known = (stamp, file) if stamp else None
        return file

    def before(self) -> RackFile:
        """Read the rack as it was before its last change; an empty one where that cannot be read.

        It is what there is to go on with when the rack itself is damaged.
        """
        try:
            return _read(self._before)
        except UnreadableFile:
            return RackFile.model_validate({})

    def mend(self) -> None:
        """Put a damaged rack file aside, and go on with the rack as it was before its last change.

        A rack that can be read is left as it is.

        Raises:
            UnreadableFile: not even its bytes can be read.
            NotWritten: the disk refused.
        """
        with self._lock:
            with suppress(UnreadableFile):
                self.read()
                return
            set_aside(self._path)
            write_safely(self._path, _text(self.before()))

    @contextmanager
    def held(self) -> Iterator[None]:
        """Hold the rack still while it is looked at and changed: nobody else can change it meanwhile."""
        with self._lock:
            yield

    def put(self, entry: RackEntry, *, stamp: int = 0) -> None:
        """Put a stick on the rack, or change the one of its id.

        One that stands there as it is to be was put there by the same press, and stays.

        Args:
            stamp: of the stick as it was shown; 0 for one that is not on the rack yet.
        Raises:
            RackChanged: the stick of this id is not as it was shown.
            OutOfRange: another stick has its tag, or the rack is full.
            NotWritten: the disk refused.
        """
        with self._lock:
            file = self.read()
            there = next((one.stamp for one in file.sticks if one.id == entry.id), 0)
            if there == entry.stamp:
                return
            if there != stamp:
                raise RackChanged(_CHANGED if there else _GONE)
            self._write(file.with_sticks(_with(file.sticks, entry)))

    def take_away(self, stick_id: str) -> None:
        """Take a stick from the rack, if it is not away already; it can be put back.

        Raises:
            NotOnTheRack: there is none of this id.
        """
        with self._lock:
            file = self.read()
            if _has(file.away, stick_id) and not _has(file.sticks, stick_id):
                return
            gone = _entry(file.sticks, stick_id)
            away = (gone, *file.away)[:KEPT_AWAY]
            self._write(file.with_sticks(_without(file.sticks, stick_id), away=away))

    def put_back(self, stick_id: str) -> None:
        """Put a stick back that was taken away, if it is not back already.

        Raises:
            NotOnTheRack: it was taken away too long ago.
            OutOfRange: its tag has gone to another stick.
        """
        with self._lock:
            file = self.read()
            if _has(file.sticks, stick_id) and not _has(file.away, stick_id):
                return
            back = _entry(file.away, stick_id)
            self._write(file.with_sticks(_with(file.sticks, back), away=_without(file.away, stick_id)))

    def cut(self, wish: CutWish, *, change_of: Callable[[RackFile], RackChange], shown: str) -> CutEntry:
        """Mark a plan as cut, in one step: its sticks go, its off-cuts come, and what was cut is kept.

        A plan that was cut more often than the person knows of was marked by the same press, or in another tab: it is
        not cut once more.

        Args:
            change_of: what the plan does to the rack as it stands.
            shown: the digest of the change that the person agreed to.
        Raises:
            RackChanged: the plan now does something else to the rack than was shown.
            ImpossibleTimber: a stick has gone meanwhile.
            NotWritten: the disk refused.
        """
        with self._lock:
            file = self.read()
            before = file.cuts_of(wish.project_id, problem=wish.problem)
            if len(before) > wish.after:
                return before[0]
            done = change_of(file)
            if digest_of(done) != shown:
                raise RackChanged("The rack was changed meanwhile: look over what goes and what comes, and mark again.")
            cut = self._cut(wish, file, done)
            make_folder(self._records)
            write_safely(self._record(cut.id), wish.record)
            known = (*file.sticks, *cut.returned)
            self._write(file.with_sticks(_after(make_change(file.rack, done), known), cuts=(*file.cuts, cut)))
            return cut

    def undo(self, cut_id: str) -> CutEntry:
        """Take a cut back, if it is not undone already: its off-cuts go, its sticks come back. What was cut is kept.

        Raises:
            NotOnTheRack: there is no such cut.
            ImpossibleTimber: an off-cut of it has been used since.
        """
        with self._lock:
            file = self.read()
            cut = _cut(file, cut_id)
            if cut.undone:
                return cut
            sticks = _after(take_back(file.rack, cut.change), (*cut.taken, *file.sticks))
            undone = cut.model_copy(update={"undone": self._now(), "untold": 1})
            self._write(file.with_sticks(sticks, cuts=_with_cut(file.cuts, undone)))
            return undone

    def untold(self) -> tuple[CutEntry, ...]:
        """The cuts, made or undone, of which their project does not know yet: a crash came between.

        Raises:
            UnreadableFile: the file is damaged.
        """
        return tuple(cut for cut in self.read().cuts if cut.untold)

    def told(self, cut: CutEntry) -> None:
        """Keep that the project of a cut knows of it as it was then; what was done to it since is still to be told."""
        with self._lock:
            file = self.read()
            if cut in file.cuts:
                cuts = _with_cut(file.cuts, cut.model_copy(update={"untold": 0}))
                self._write(file.with_sticks(file.sticks, cuts=cuts))

    def record(self, cut_id: str) -> tuple[CutEntry, bytes]:
        """What was cut, and the text that was kept of its plan.

        Raises:
            NotOnTheRack: there is no such cut.
            UnreadableFile: the text is gone.
        """
        cut = _cut(self.read(), cut_id)
        return cut, _record_bytes(self._record(cut.id))

    def _record(self, cut_id: str) -> Path:
        return self._records / f"{cut_id}.json"

    def _cut(self, wish: CutWish, file: RackFile, done: RackChange) -> CutEntry:
        by_tag = {entry.tag: entry for entry in file.sticks}
        return CutEntry(
            id=self._new_id(),
            project=wish.project_id,
            project_name=wish.project_name,
            members=wish.members,
            problem=wish.problem,
            when=self._now(),
            untold=wish.revision,
            taken=tuple(by_tag[stick.tag] for stick in done.taken),
            returned=tuple(entry_of(stick, self._new_id()) for stick in done.returned),
        )

    def _write(self, file: RackFile) -> None:
        if len(file.sticks) > MOST_STICKS:
            raise OutOfRange(f"The rack holds {MOST_STICKS} sticks and boards: take one away first.", field="tag")
        checked = RackFile.model_validate(file.model_dump(mode="json", by_alias=True))
        if self._path.exists():
            write_safely(self._before, _text(self.read()))
        write_safely(self._path, _text(checked))

    def _now(self) -> str:
        return self._clock().astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")


_CHANGED = "This stick was changed elsewhere meanwhile; what you typed is not saved yet. Look it over and save again."
_GONE = "This stick was taken from the rack meanwhile. Save again to put it on as it is typed here."


def _read(path: Path) -> RackFile:
    try:
        return RackFile.model_validate(read_json(path))
    except FileNotFoundError:
        return RackFile.model_validate({})
    except ValidationError as error:
        raise UnreadableFile(f"{path} is damaged: {error.errors()[0]['msg']}") from error


def _record_bytes(path: Path) -> bytes:
    try:
        return read_bytes(path)
    except FileNotFoundError:
        raise UnreadableFile(f"{path} is gone: the plan of this cut is not kept any more") from None


def _text(file: RackFile) -> str:
    return project_text(file.model_dump(mode="json", by_alias=True, exclude_none=True))


def _has(entries: Iterable[RackEntry], entry_id: str) -> bool:
    return any(entry.id == entry_id for entry in entries)


def _with(entries: Iterable[RackEntry], entry: RackEntry) -> tuple[RackEntry, ...]:
    others = _without(entries, entry.id)
    if any(other.tag.casefold() == entry.tag.casefold() for other in others):
        raise OutOfRange(quoted(entry.tag) + " is on the rack already: enter another tag", field="tag")
    return (*others, entry)


def _without(entries: Iterable[RackEntry], entry_id: str) -> tuple[RackEntry, ...]:
    return tuple(entry for entry in entries if entry.id != entry_id)


def _entry(entries: Iterable[RackEntry], entry_id: str) -> RackEntry:
    found = next((entry for entry in entries if entry.id == entry_id), None)
    if found is None:
        raise NotOnTheRack("Not on the rack any more: it may have been used or removed.")
    return found


def _with_cut(cuts: Iterable[CutEntry], cut: CutEntry) -> tuple[CutEntry, ...]:
    """The cuts, one of them changed."""
    return tuple(cut if one.id == cut.id else one for one in cuts)


def _cut(file: RackFile, cut_id: str) -> CutEntry:
    found = next((cut for cut in file.cuts if cut.id == cut_id), None)
    if found is None:
        raise NotOnTheRack("No such cut.")
    return found


def _after(rack: Rack, known: Iterable[RackEntry]) -> tuple[RackEntry, ...]:
    """The entries of a rack, each as it is known."""
    by_tag = {entry.tag: entry for entry in known}
    return tuple(by_tag[stick.tag] for stick in rack)
