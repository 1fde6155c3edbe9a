"""The data folder: projects as revisions on disk, deleted ones in the trash, the shop profile.

    DATA/projects/k3fw07qz/r000014.json    one saved change of one project, a plain project file
    DATA/projects/k3fw07qz/n000014.json    the name that somebody gave this revision
    DATA/trash/k3fw07qz/…                  a deleted project, whole, until it is brought back
    DATA/shop.json                         the shop profile
    DATA/list.json                         what the list says of each project: may be thrown away
    DATA/.lock                             held by the one running copy

A change is made from the newest revision while nobody else can save (`change`). A step to another revision carries the
number of the one it started from (`base`) and the random id of the browser tab it was made in; it is refused with a
`Conflict` when anyone else has saved since, but a tab does not conflict with itself. Project ids are made here and
matched by a pattern, so nothing a person types ever becomes part of a path.
"""

import secrets
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from threading import Lock
from weakref import WeakValueDictionary

from filelock import FileLock, Timeout

from framecalc.project import read_project
from framecalc.project.document import Document
from webapp.data.disk import building, move, sweep, temporary_beside
from webapp.data.errors import FolderInUse, NoSuchProject, NoSuchRevision, NothingToUndo, UnusableFolder
from webapp.data.finding import folder_of, head_of, require_id
from webapp.data.kept import Stamp
from webapp.data.list_kept import KeptList
from webapp.data.names import names_in, write_name
from webapp.data.of_each import FoundInEach, OfEach
from webapp.data.revisions import Conflict, History, Revision, RevisionStep, same, without_saved
from webapp.data.shop import read_shop
from webapp.data.shop_file import ShopFile
from webapp.data.summaries import Summary, newest_first, read_summary
from webapp.data.taken_over import taken_over
from webapp.data.thinning import Used, superfluous

ID_LETTERS = "0123456789abcdefghjkmnpqrstvwxyz"

Fill = Callable[[Path], None]
"""Puts what belongs beside the revisions of a project into its folder."""


def _nothing(folder: Path) -> None:
    """Nothing lies beside the revisions."""


def _utc_now() -> datetime:
    return datetime.now(UTC)


class Store:
    """The one door to a data folder. Open it once per process; every method may be called from any thread."""

    def __init__(
        self,
        data_folder: Path,
        *,
        check: Callable[[Document], object] = read_project,
        check_shop: Callable[[Document], object] = read_shop,
        clock: Callable[[], datetime] = _utc_now,
    ) -> None:
        """Take hold of a data folder, make it if need be, and sweep away what a crash left.

        Args:
            data_folder: where everything is kept.
            check: raises a FrameCalcError for a document that is no project.
            check_shop: raises one for a document that is no shop profile.
            clock: tells the time, with its zone.
        Raises:
            UnusableFolder: it cannot be made or written into.
            FolderInUse: another running copy holds it.
        """
        self.place, self._check, self._clock = data_folder, check, clock
        self._projects, self._trash = data_folder / "projects", data_folder / "trash"
        self._lines = KeptList(self._projects, data_folder / "list.json")
        self._trashed_lines = OfEach(self._trash, read_summary)
        self.of_each = FoundInEach(self._projects)
        self.shop = ShopFile(data_folder, check=check_shop)
        self._project_locks: WeakValueDictionary[str, Lock] = WeakValueDictionary()
        self._locks_lock = Lock()
        with _usable(data_folder):
            for folder in (data_folder, self._projects, self._trash):
                folder.mkdir(parents=True, exist_ok=True)
            self._folder_lock = _hold(data_folder)
            sweep(data_folder)

    def close(self) -> None:
        """Let go of the data folder, so that another copy can take it."""
        self._folder_lock.release()

    def list(self) -> tuple[Summary, ...]:
        """List the projects, the one changed last first."""
        return self._lines.all()

    def trashed(self) -> tuple[Summary, ...]:
        """List the deleted projects, the one changed last first."""
        return newest_first(self._trashed_lines.all().values())

    def head(self, project_id: str) -> Revision:
        """Read the newest readable revision of a project.

        Raises:
            NoSuchProject: there is none of this id.
            UnreadableFile: not one of its revisions can be read.
        """
        return head_of(self._history(project_id), project_id)

    def revision(self, project_id: str, number: int) -> Revision:
        """Read one revision of a project.

        Raises:
            NoSuchProject, NoSuchRevision: there is none.
            UnreadableFile: it is damaged.
        """
        return self._history(project_id).read(number)

    def origin(self, project_id: str) -> str:
        """What a project was copied from; blank where it was not, or where its first revision cannot be read."""
        return self._history(project_id).origin

    def count(self, project_id: str) -> int:
        """How many revisions a project has, readable or not.

        Raises:
            NoSuchProject: there is none.
        """
        return len(self._history(project_id).numbers())

    def stamp(self, project_id: str, number: int = 0) -> Stamp | None:
        """Say which file holds a revision, or the newest one, without reading it; None where there is none.

        Raises:
            NoSuchProject: there is none.
        """
        return self._history(project_id).stamp(number)

    def revisions(self, project_id: str, *, before: int | None = None) -> Iterator[Revision]:
        """Read the readable revisions of a project, or those before one, newest first, each when it is asked for.

        Raises:
            NoSuchProject: there is none.
        """
        return self._history(project_id).readable(before=before)

    def create(
        self, document: Document, *, step: RevisionStep = "new", tab: str = "", origin: str = "", fill: Fill = _nothing
    ) -> str:
        """Start a project with a first revision, whole or not at all, and return its id; a copy says its `origin`.

        Args:
            fill: puts what else belongs into its folder, before it has its name.
        Raises:
            FrameCalcError: the document is no project.
            NotWritten: the disk refused.
        """
        project = without_saved(document)
        self._check(project)
        project_id = next(self.unused_ids())
        with building(self._projects / project_id) as nursery:
            History(nursery).append(project, when=self._now(), tab=tab, step=step, origin=origin)
            fill(nursery)
        return project_id

    def withdraw(self, project_id: str) -> None:
        """Take a project back that was only just started, where what follows has failed: it leaves nothing.

        Raises:
            NoSuchProject, NotWritten: it stays.
        """
        with self._lock_of(project_id):
            folder = self.folder(project_id)
            with temporary_beside(folder) as leaving:
                move(folder, leaving)

    def copy(self, project_id: str, *, name: str, number: int = 0, tab: str = "", fill: Fill = _nothing) -> str:
        """Start a project from the head of another, or from one of its revisions, and return its id.

        Args:
            name: what the copy is called.
            number: the revision; 0 for the head.
            tab: the random id of the browser tab; "" when it has none.
            fill: as for `create`.
        Raises:
            NoSuchProject, NoSuchRevision, UnreadableFile: there is none to be copied.
        """
        source = self.revision(project_id, number) if number else self.head(project_id)
        document = taken_over(source.document)
        origin = f"revision {source.number} of “{source.document.get('name', project_id)}”"
        return self.create({**document, "name": name}, step="copy", tab=tab, origin=origin, fill=fill)

    def change(self, project_id: str, make: Callable[[Revision], Document], *, tab: str) -> Revision:
        """Work a change into the head while nobody else can save, and return the new head.

        What equals the head already is not written again.

        Args:
            make: makes the whole project from the head; it changes nothing in place, and saves nothing itself.
            tab: the random id of the browser tab; "" when it has none.
        Raises:
            Conflict: `make` says so.
            FrameCalcError: what it makes is no project.
            NotWritten: the disk refused.
        """
        with self._athead_of(project_id) as (history, head):
            document = without_saved(make(head))
            if same(document, head.document):
                return head
            self._check(document)
            return history.append(document, when=self._now(), tab=tab, step="save")

    def rename(self, project_id: str, name: str, *, base: int, tab: str) -> Revision:
        """Give a project another name, as one more saved change.

        Raises:
            Conflict: it was given yet another one since `base`.
        """

        def named(head: Revision) -> Document:
            shown = self._history(project_id).read_or_none(base)
            if shown is None or head.document["name"] not in (shown.document["name"], name):
                raise Conflict(current=head, base=shown)
            return {**head.document, "name": name}

        return self.change(project_id, named, tab=tab)

    def restore(self, project_id: str, number: int, *, base: int, tab: str) -> Revision:
        """Bring an older revision back as a new change, which can itself be undone.

        Args:
            base: the number of the revision that was seen as the newest.
            tab: as for `change`.
        Raises:
            Conflict: another tab saved since `base`.
            NoSuchRevision, UnreadableFile, NotWritten: it cannot be brought back.
        """
        document = self.revision(project_id, number).document
        self._check(document)
        with self._athead_of(project_id) as (history, head):
            if same(document, head.document):
                return head
            _require_base(history, head, base=base, tab=tab)
            return history.append(document, when=self._now(), tab=tab, step="restore")

    def undo(self, project_id: str, *, base: int, tab: str) -> Revision:
        """Write a revision equal to what stood before the present one.

        Raises:
            NothingToUndo: the present one is the first.
            Conflict, NotWritten: as for `restore`.
        """
        with self._athead_of(project_id) as (history, head):
            _require_base(history, head, base=base, tab=tab)
            before = history.newest(before=head.saved.equals)
            if before is None:
                raise NothingToUndo("there is nothing to undo: this is the first revision")
            redo = (head.saved.equals, *head.saved.redo)
            return history.append(
                before.document, when=self._now(), tab=tab, step="undo", equals=before.saved.equals, redo=redo
            )

    def redo(self, project_id: str, *, base: int, tab: str) -> Revision:
        """Write a revision equal to the one last undone.

        Raises:
            NothingToUndo: nothing was undone since the last change.
            Conflict, NotWritten: as for `restore`.
        """
        with self._athead_of(project_id) as (history, head):
            _require_base(history, head, base=base, tab=tab)
            if not head.saved.redo:
                raise NothingToUndo("there is nothing to redo: nothing was undone since the last change")
            number, *redo = head.saved.redo
            document = history.read(number).document
            return history.append(document, when=self._now(), tab=tab, step="redo", equals=number, redo=tuple(redo))

    def names(self, project_id: str) -> dict[int, str]:
        """The names that revisions were given, by their numbers; blank where one cannot be read."""
        return names_in(self.folder(project_id))

    def name_revision(self, project_id: str, number: int, name: str) -> None:
        """Give a revision a name, or take it off it again with a blank.

        Raises:
            NoSuchProject, NoSuchRevision: there is none.
            OutOfRange: the name is too long.
            NotWritten: the disk refused.
        """
        with self._lock_of(project_id):
            history = self._history(project_id)
            if number not in history.numbers():
                raise NoSuchRevision(f"No revision {number} here")
            write_name(history.folder, number, name)

    def superfluous(self, project_id: str, used: Used) -> tuple[int, ...]:
        """The revisions that the rule of `thinning.py` would remove now, the oldest first."""
        return superfluous(self._history(project_id), used=used, now=self._clock())

    def thin(self, project_id: str, used: Used) -> int:
        """Remove the revisions that the rule removes, and say how many.

        Raises:
            NoSuchProject, NotWritten: as for `change`.
        """
        with self._lock_of(project_id):
            history = self._history(project_id)
            numbers = superfluous(history, used=used, now=self._clock())
            history.remove(numbers)
            return len(numbers)

    def has(self, project_id: str) -> bool:
        """Whether there is a project of this id, deleted ones aside."""
        try:
            return self.folder(project_id).is_dir()
        except NoSuchProject:
            return False

    def folder(self, project_id: str) -> Path:
        """The folder of a project, for what is kept beside its revisions and goes to the trash with them.

        Raises:
            NoSuchProject: there is none of this id.
        """
        return folder_of(self._projects, project_id)

    def delete(self, project_id: str) -> None:
        """Move a project to the trash, with all its revisions."""
        with self._lock_of(project_id):
            move(folder_of(self._projects, project_id), self._trash / project_id)

    def undelete(self, project_id: str) -> None:
        """Bring a project back from the trash."""
        with self._lock_of(project_id):
            move(folder_of(self._trash, project_id), self._projects / project_id)

    def read_shop(self) -> Document:
        """Read the shop profile; an empty one when none was saved yet, the one before while the file is damaged."""
        return self.shop.read()

    @contextmanager
    def _athead_of(self, project_id: str) -> Iterator[tuple[History, Revision]]:
        """Hold a project still while it is looked at and changed."""
        with self._lock_of(project_id):
            history = self._history(project_id)
            yield history, head_of(history, project_id)

    def _lock_of(self, project_id: str) -> Lock:
        """The lock of a project; it goes when nobody holds it or waits for it."""
        require_id(project_id)
        with self._locks_lock:
            return self._project_locks.setdefault(project_id, Lock())

    def _history(self, project_id: str) -> History:
        return History(folder_of(self._projects, project_id))

    def unused_ids(self) -> Iterator[str]:
        """New ids, none of which a project here has, deleted ones included."""
        while True:
            project_id = "".join(secrets.choice(ID_LETTERS) for _ in range(8))
            if not (self._projects / project_id).exists() and not (self._trash / project_id).exists():
                yield project_id

    def _now(self) -> str:
        return self._clock().astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


@contextmanager
def _usable(data_folder: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        reason = error.strerror or error
        raise UnusableFolder(
            f"{data_folder} cannot hold the projects ({reason}): choose a folder that you may write into"
        ) from error


def _hold(data_folder: Path) -> FileLock:
    lock = FileLock(data_folder / ".lock", thread_local=False)
    try:
        lock.acquire(blocking=False)
    except Timeout:
        raise FolderInUse(
            f"{data_folder} is in use by another running copy: stop that one, or choose another folder"
        ) from None
    return lock


def _require_base(history: History, head: Revision, *, base: int, tab: str) -> None:
    """Refuse a change that did not start from the head, unless only its own tab saved since."""
    known = base in history.numbers()
    if known and all(tab and revision.saved.tab == tab for revision in history.readable(after=base)):
        return
    raise Conflict(current=head, base=history.read_or_none(base))
