"""A backup each day into a folder that the shop chooses: a mounted stick, another disk, a synced folder.

    DATA/backup.json                       the chosen folder, and how the last backup went
    FOLDER/rabbetry-2026-11-29.zip         everything of that day, which `whole.py` can take in again

A backup is written beside its name, read once more, and only then takes its name. Kept are one a day for a week, one a
week for five weeks, and one a month for a year; the newest always, and nothing with another kind of name is touched,
but for what a crash left half written. A file that cannot be read is named, and keeps nothing else out of the backup.
"""

import re
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from datetime import UTC, date, datetime
from pathlib import Path
from threading import Lock
from typing import Annotated, Literal
from zipfile import BadZipFile, ZipFile

from pydantic import AfterValidator, Field, ValidationError

from framecalc.project import project_text
from framecalc.project.fields import Model
from framecalc.records import Record
from webapp.data.disk import TEMPORARY, read_json, sync_folder, temporary_beside, write_safely
from webapp.data.errors import NotWritten, StoreError, UnreadableFile
from webapp.data.times import is_time
from webapp.data.whole import pack

DAYS, WEEKS, MONTHS = 7, 5, 12
_LEFT = TEMPORARY + 16 * "[0-9a-f]"
"""What a crash leaves of a backup half written."""

_NAME = re.compile(r"rabbetry-(\d{4}-\d{2}-\d{2})\.zip")


class UnusableBackupFolder(StoreError):
    """A folder into which no backup can go."""


def _a_time(text: str) -> str:
    if text and not is_time(text):
        raise ValueError("the last backup has no date")
    return text


class BackupFile(Model):
    """What `backup.json` holds; `last` is when one was made, `problem` what it lacks, or why the next one failed."""

    schema_number: Literal[1] = Field(default=1, alias="schema")
    folder: Annotated[str, Field(max_length=1000)] = ""
    last: Annotated[str, Field(max_length=40), AfterValidator(_a_time)] = ""
    problem: Annotated[str, Field(max_length=1000)] = ""


class BackupState(Record):
    """Where backups go, when the last one went well, why the last try did not, and the days of which there is one."""

    folder: str
    last: datetime | None
    problem: str
    days: tuple[date, ...]


def kept_days(days: Iterable[date]) -> frozenset[date]:
    """The days whose backups are kept: the newest, and the newest of each of the last days, weeks and months.

    >>> sorted(day.day for day in kept_days(date(2026, 11, day) for day in range(1, 30)))
    [1, 8, 15, 22, 23, 24, 25, 26, 27, 28, 29]
    """
    newest_first = sorted(set(days), reverse=True)
    periods: tuple[tuple[int, Callable[[date], object]], ...] = (
        (DAYS, date.toordinal),
        (WEEKS, lambda day: day.isocalendar()[:2]),
        (MONTHS, lambda day: (day.year, day.month)),
    )
    kept: set[date] = set()
    for most, period in periods:
        newest_of = {period(day): day for day in reversed(newest_first)}
        kept |= set(sorted(newest_of.values(), reverse=True)[:most])
    return frozenset(kept)


class Backups:
    """The one door to the backups of a data folder; every method may be called from any thread."""

    def __init__(self, data_folder: Path, *, clock: Callable[[], datetime] = lambda: datetime.now(UTC)) -> None:
        self._data, self._path, self._clock, self._lock = data_folder, data_folder / "backup.json", clock, Lock()

    def state(self) -> BackupState:
        """How things stand; a folder that is not there now has no days."""
        file = self._read()
        last = datetime.fromisoformat(file.last).astimezone(UTC) if file.last else None
        days = tuple(sorted(_days_in(Path(file.folder)), reverse=True)) if file.folder else ()
        return BackupState(folder=file.folder, last=last, problem=file.problem, days=days)

    def choose(self, typed: str) -> None:
        """Let backups go to a folder from now on; a blank ends them. Backups that are there already stay.

        Raises:
            UnusableBackupFolder: it is not there, cannot be written into, or lies in the data folder itself.
            NotWritten: the disk refused the setting.
        """
        folder = Path(typed)
        if typed:
            self._require_usable(folder)
        with self._lock:
            self._write(BackupFile(folder=str(folder) if typed else "", last="", problem=""))

    def make(self) -> Path:
        """Write the backup of today, in place of one made earlier today, and thin the older ones.

        Raises:
            UnusableBackupFolder: none is chosen, or it cannot be written into now.
            UnreadableFile, NotWritten: a file could not be read, or the disk refused.
        """
        with self._lock:
            file = self._read()
            try:
                made, lost = self._made(Path(file.folder) if file.folder else None)
            except StoreError as error:
                self._write(file.model_copy(update={"problem": error.sentence[:1000]}))
                raise
            now = self._clock().astimezone(UTC).isoformat(timespec="seconds")
            self._write(file.model_copy(update={"last": now, "problem": _lacking(lost)[:1000]}))
            return made

    def make_if_due(self) -> None:
        """Write the backup of today where one is wanted and there is none yet; what goes wrong stands in the state."""
        state = self.state()
        is_made = state.last is not None and state.last.astimezone().date() == self._today()
        if state.folder and not (is_made and self._today() in state.days):
            with suppress(StoreError):
                self.make()

    def _made(self, folder: Path | None) -> tuple[Path, tuple[str, ...]]:
        """The backup of today, and what could not be read for it."""
        if folder is None:
            raise UnusableBackupFolder("Choose a folder for backups first")
        self._require_usable(folder)
        path = folder / f"rabbetry-{self._today().isoformat()}.zip"
        try:
            for left in folder.glob(_LEFT):
                left.unlink()
            with temporary_beside(path) as temporary:
                lost = self._pack(temporary)
                temporary.replace(path)
            sync_folder(folder)
        except OSError as error:
            raise NotWritten(f"{path} could not be written: {error.strerror or error}") from error
        _thin(folder)
        return path, lost

    def _pack(self, path: Path) -> tuple[str, ...]:
        """Write a zip, read it once more from the disk, and return the names of what could not be read for it.

        Raises:
            NotWritten: it does not read back.
        """
        with path.open("xb") as file:
            lost = pack(self._data, file)
            file.flush()
        try:
            with ZipFile(path) as whole:
                damaged = whole.testzip()
        except BadZipFile as error:
            damaged = str(error)
        if damaged:
            raise NotWritten(f"The backup does not read back ({damaged}): the disk may be failing")
        return lost

    def _require_usable(self, folder: Path) -> None:
        if not folder.is_absolute():
            raise UnusableBackupFolder("Enter the whole path of a folder, such as /media/stick/backups")
        try:
            if not folder.is_dir():
                raise UnusableBackupFolder(f"{folder} is not there: plug it in, or make it")
            if folder.resolve().is_relative_to(self._data.resolve()):
                raise UnusableBackupFolder("This folder lies among the projects: choose one on another disk or stick")
            probe = folder / f"{TEMPORARY}probe"
            probe.touch()
            probe.unlink()
        except OSError as error:
            raise UnusableBackupFolder(f"{str(folder)[:200]} cannot be used: {error.strerror or error}") from error

    def _today(self) -> date:
        return self._clock().astimezone().date()

    def _read(self) -> BackupFile:
        try:
            return BackupFile.model_validate(read_json(self._path))
        except FileNotFoundError:
            return BackupFile()
        except (UnreadableFile, ValidationError, ValueError):
            return BackupFile(problem=f"{self._path} is damaged: choose the folder anew")

    def _write(self, file: BackupFile) -> None:
        write_safely(self._path, project_text(file.model_dump(mode="json", by_alias=True)))


def _lacking(lost: Sequence[str]) -> str:
    """What a backup lacks; nothing where it holds everything."""
    return f"Could not be read, and is not in the last backup: {', '.join(lost)}" if lost else ""


def _days_in(folder: Path) -> list[date]:
    try:
        matches = [_NAME.fullmatch(path.name) for path in folder.iterdir()]
    except (OSError, ValueError):
        return []
    days = []
    for match in matches:
        with suppress(ValueError):
            days += [date.fromisoformat(match[1])] if match else []
    return days


def _thin(folder: Path) -> None:
    """Remove the backups that the rule does not keep; one that cannot be removed stays."""
    days = _days_in(folder)
    for day in set(days) - kept_days(days):
        with suppress(OSError):
            (folder / f"rabbetry-{day.isoformat()}.zip").unlink()
