"""The rack of the shop on disk: what stands on it, and what was cut from it.

    DATA/rack.json    sticks, off-cuts and boards; every cut that changed them; what was taken away last

A *cut* is one plan marked as cut: the sticks that went and the off-cuts that came. All of a change is written in one
step, so a crash leaves the rack before it or after it. A cut that was undone stays listed, with the moment of it.
"""

from collections.abc import Callable, Iterable
from datetime import UTC, datetime
from pathlib import Path
from threading import Lock
from typing import Annotated, Literal

from pydantic import Field, StringConstraints, ValidationError

from framecalc.errors import ImpossibleTimber, OutOfRange, quoted
from framecalc.findings import Rounding
from framecalc.project import ProjectErrors, project_text, sentences_of
from framecalc.project.fields import Id, Model, Name, Part, Run, Size
from framecalc.project.look import Words
from framecalc.rack import Rack, RackChange, RackStick, make_change, take_back
from framecalc.units import Step, format_length
from webapp.disk import read_json, write_safely
from webapp.errors import StoreError, UnreadableFile

MOST_STICKS, KEPT_AWAY = 500, 20
"""As many sticks as a rack can hold, and as many as can be put back after they were taken away."""

_ProjectId = Annotated[str, StringConstraints(pattern=r"^[a-z0-9]{8}$")]


class NotOnTheRack(StoreError):
    """There is no such stick on the rack, or no such cut."""


class RackEntry(Model):
    """One stick, off-cut or rough board, as typed or as it came back from a cut."""

    id: Id
    tag: Name
    species: Words = ""
    length: Run
    width: Size
    thickness: Part
    profile: Words = ""
    origin: Annotated[str, StringConstraints(max_length=200)] = ""
    is_off_cut: bool = False
    is_board: bool = False


class CutEntry(Model):
    """One plan marked as cut: of which project, when, what went and what came; `undone` is when it was taken back."""

    id: Id
    project: _ProjectId
    project_name: Name
    members: Annotated[str, StringConstraints(max_length=400)]
    problem: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{64}$")]
    when: str
    taken: tuple[RackEntry, ...] = ()
    returned: tuple[RackEntry, ...] = ()
    undone: str = ""


class RackFile(Model):
    """Everything that is kept about the rack."""

    schema_number: Literal[1] = Field(default=1, alias="schema")
    sticks: tuple[RackEntry, ...] = Field(default=(), max_length=MOST_STICKS)
    cuts: tuple[CutEntry, ...] = ()
    away: tuple[RackEntry, ...] = ()

    @property
    def rack(self) -> Rack:
        """What stands on it, as the topics take it."""
        return tuple(stick_of(entry) for entry in self.sticks)

    def cuts_of(self, project_id: str) -> tuple[CutEntry, ...]:
        """The cuts of a project that were not undone, the newest first."""
        return tuple(cut for cut in reversed(self.cuts) if cut.project == project_id and not cut.undone)


def stick_of(entry: RackEntry) -> RackStick:
    """An entry of the file as the topics take it."""
    return RackStick(
        tag=entry.tag,
        species=entry.species,
        length_mm=entry.length.mm,
        width_mm=entry.width.mm,
        thickness_mm=entry.thickness.mm,
        profile=entry.profile,
        origin=entry.origin,
        is_off_cut=entry.is_off_cut,
        is_board=entry.is_board,
    )


def entry_of(stick: RackStick, entry_id: str) -> RackEntry:
    """A stick as the file keeps it: an off-cut is never called longer than it is, its section is kept exactly."""
    document = {
        "id": entry_id,
        "tag": stick.tag,
        "species": stick.species,
        "length": f"{format_length(stick.length_mm, step=Step.TENTH_MILLIMETRE, rounding=Rounding.DOWN).text} mm",
        "width": _exact(stick.width_mm),
        "thickness": _exact(stick.thickness_mm),
        "profile": stick.profile,
        "origin": stick.origin,
        "is_off_cut": stick.is_off_cut,
        "is_board": stick.is_board,
    }
    return read_entry(document)


def read_entry(document: dict[str, object]) -> RackEntry:
    """Check one stick.

    Raises:
        ProjectErrors: single values are at fault; one sentence for each path.
    """
    try:
        return RackEntry.model_validate(document)
    except ValidationError as error:
        raise ProjectErrors(sentences_of(error, document)) from error


def _utc_now() -> datetime:
    return datetime.now(UTC)


class RackFolder:
    """The one door to `rack.json`; every method may be called from any thread."""

    def __init__(
        self, data_folder: Path, *, new_id: Callable[[], str], clock: Callable[[], datetime] = _utc_now
    ) -> None:
        self._path, self._new_id, self._clock = data_folder / "rack.json", new_id, clock
        self._lock = Lock()

    def read(self) -> RackFile:
        """Read the rack; an empty one when nothing was kept yet.

        Raises:
            UnreadableFile: the file is damaged.
        """
        try:
            return RackFile.model_validate(read_json(self._path))
        except FileNotFoundError:
            return RackFile.model_validate({})
        except ValidationError as error:
            raise UnreadableFile(f"{self._path} is damaged: {error.errors()[0]['msg']}") from error

    def put(self, entry: RackEntry) -> None:
        """Put a stick on the rack, or change the one of its id.

        Raises:
            OutOfRange: another stick has its tag, or the rack is full.
            NotWritten: the disk refused.
        """
        with self._lock:
            file = self.read()
            others = tuple(stick for stick in file.sticks if stick.id != entry.id)
            if any(stick.tag == entry.tag for stick in others):
                raise OutOfRange(f"{quoted(entry.tag)} is on the rack already: another tag would do", field="tag")
            if len(others) >= MOST_STICKS:
                raise OutOfRange(f"the rack holds {MOST_STICKS} sticks: take one away first", field="tag")
            self._write(file.model_copy(update={"sticks": (*others, entry)}))

    def take_away(self, stick_id: str) -> None:
        """Take a stick from the rack; it can be put back.

        Raises:
            NotOnTheRack: there is none of this id.
        """
        with self._lock:
            file = self.read()
            gone = _entry(file.sticks, stick_id)
            sticks = tuple(stick for stick in file.sticks if stick.id != stick_id)
            away = (gone, *file.away)[:KEPT_AWAY]
            self._write(file.model_copy(update={"sticks": sticks, "away": away}))

    def put_back(self, stick_id: str) -> None:
        """Put a stick back that was taken away.

        Raises:
            NotOnTheRack: it was taken away too long ago.
            OutOfRange: its tag has gone to another stick.
        """
        back = _entry(self.read().away, stick_id)
        self.put(back)
        with self._lock:
            file = self.read()
            self._write(file.model_copy(update={"away": tuple(one for one in file.away if one.id != stick_id)}))

    def cut(
        self, *, project_id: str, project_name: str, members: str, problem: str, change: Callable[[Rack], RackChange]
    ) -> CutEntry:
        """Mark a plan as cut, in one step: its sticks go, its off-cuts come.

        Args:
            problem: the hash of the problem that the plan answers.
            change: what the plan does to the rack as it stands.
        Raises:
            ImpossibleTimber: the plan was marked before, or a stick has gone meanwhile.
            NotWritten: the disk refused.
        """
        with self._lock:
            file = self.read()
            if any(cut.problem == problem for cut in file.cuts_of(project_id)):
                raise ImpossibleTimber("This plan is marked as cut already: undo that first.", field="rack")
            done = change(file.rack)
            returned = tuple(entry_of(stick, self._new_id()) for stick in done.returned)
            taken = tuple(_tagged(file.sticks, stick.tag) for stick in done.taken)
            cut = CutEntry(
                id=self._new_id(),
                project=project_id,
                project_name=project_name,
                members=members,
                problem=problem,
                when=self._now(),
                taken=taken,
                returned=returned,
            )
            sticks = _after(make_change(file.rack, done), (*file.sticks, *returned))
            self._write(file.model_copy(update={"sticks": sticks, "cuts": (*file.cuts, cut)}))
            return cut

    def undo(self, cut_id: str) -> CutEntry:
        """Take a cut back: its off-cuts go, its sticks come back.

        Raises:
            NotOnTheRack: there is no such cut.
            ImpossibleTimber: it was undone before, or an off-cut of it has been used since.
        """
        with self._lock:
            file = self.read()
            cut = next((cut for cut in file.cuts if cut.id == cut_id), None)
            if cut is None:
                raise NotOnTheRack("there is no such cut")
            if cut.undone:
                raise ImpossibleTimber("This cut was undone already.", field="rack")
            change = RackChange(taken=_sticks(cut.taken), returned=_sticks(cut.returned))
            sticks = _after(take_back(file.rack, change), (*file.sticks, *cut.taken))
            undone = cut.model_copy(update={"undone": self._now()})
            cuts = tuple(undone if one.id == cut_id else one for one in file.cuts)
            self._write(file.model_copy(update={"sticks": sticks, "cuts": cuts}))
            return undone

    def _write(self, file: RackFile) -> None:
        checked = RackFile.model_validate(file.model_dump(mode="json", by_alias=True))
        write_safely(self._path, project_text(checked.model_dump(mode="json", by_alias=True, exclude_none=True)))

    def _now(self) -> str:
        return self._clock().astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")


def next_tag(file: RackFile, *, species: str, is_board: bool) -> str:
    """A tag that no stick has yet: the wood and a number."""
    word = species or ("board" if is_board else "stick")
    known = {stick.tag for stick in (*file.sticks, *file.away)}
    number = 1
    while f"{word} {number}" in known:
        number += 1
    return f"{word} {number}"


def _entry(entries: Iterable[RackEntry], entry_id: str) -> RackEntry:
    found = next((entry for entry in entries if entry.id == entry_id), None)
    if found is None:
        raise NotOnTheRack("there is no such stick on the rack: it may have been taken away meanwhile")
    return found


def _tagged(entries: Iterable[RackEntry], tag: str) -> RackEntry:
    return next(entry for entry in entries if entry.tag == tag)


def _after(rack: Rack, known: Iterable[RackEntry]) -> tuple[RackEntry, ...]:
    """The entries of a rack, each as it is known."""
    by_tag = {entry.tag: entry for entry in known}
    return tuple(by_tag[stick.tag] for stick in rack)


def _sticks(entries: Iterable[RackEntry]) -> Rack:
    return tuple(stick_of(entry) for entry in entries)


def _exact(length_mm: float) -> str:
    """A size of the section as it is: rounded for a tape, an off-cut would be of another section than its stick."""
    return f"{round(length_mm, 6):.10g} mm"
