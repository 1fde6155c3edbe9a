"""Everything of the shop as one zip, back again on another computer, and a backup each day.

All of it is for the shop's own computer alone: a paired tablet sees how old the last backup is.
"""

from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path
from tempfile import TemporaryFile
from typing import IO, Annotated

from fastapi import APIRouter, Depends, Request, Response
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.responses import StreamingResponse

from framecalc.records import Record, field
from framecalc.words import Words
from webapp.data.backup import Backups, BackupState
from webapp.data.errors import NotWritten, OnlyHere, StoreError
from webapp.data.whole import TakenIn, UnusableZip, pack, take_in
from webapp.live.days import with_age
from webapp.live.desk import AtDesk, Desk
from webapp.live.render import render, see_other
from webapp.live.statuses import CANNOT_TAKE, UNREADABLE
from webapp.live.typed.forms import Form
from webapp.pages.backup import PAGE
from webapp.server.door import Caller
from webapp.server.guard import ZIP_LIMIT_BYTES

VIEW = router = APIRouter()
CHUNK_BYTES = 1 << 20


class BackupShown(Record):
    """What the page shows: where backups go, how old the last is, what was typed and refused, what of a zip."""

    state: BackupState
    is_here: bool
    typed: str
    refused: str = ""
    zip_refused: str = ""
    lost: str = ""
    taken: TakenIn | None = None
    names: Mapping[str, str] = field(default_factory=dict)
    words: Words = Words.US

    @property
    def last(self) -> str:
        """When the last good backup was made, how many days ago; empty where there is none."""
        return with_age(self.state.last, today=date.today()) if self.state.last else ""

    @property
    def days(self) -> str:
        """Of which days there is a backup, the newest first."""
        return ", ".join(f"{one.day} {one:%b %Y}" for one in self.state.days)

    @property
    def kept(self) -> str:
        """What of the zip was left out, since it is here already and differs."""
        return ", ".join(dict.fromkeys(_called(name) for name in self.taken.kept)) if self.taken else ""

    @property
    def beside(self) -> tuple[tuple[str, str], ...]:
        """The projects that came in beside those of the same kind here: id and name."""
        ids = self.taken.beside.values() if self.taken else ()
        return tuple((project_id, self.names.get(project_id, project_id)) for project_id in ids)


def _called(name: str) -> str:
    """What a file is about.

    >>> _called("rack.json"), _called("shop-before.json"), _called("shares/0af3.json")
    ('the rack', 'the values of the shop', 'the link of a client, with its answer')
    """
    if name.startswith("shares/"):
        return "the link of a client, with its answer"
    return {"rack": "the rack", "cuts": "what was cut"}.get(name[:4], "the values of the shop")


def require_here(request: Request) -> None:
    """Refuse whoever is not at the shop's own computer.

    Raises:
        OnlyHere: the request comes from the network.
    """
    if request.state.caller is not Caller.HERE:
        raise OnlyHere("Export and import everything at the shop's own computer only.")


def backups(request: Request) -> Backups:
    """The backups of this server."""
    found: Backups = request.app.state.backups
    return found


AtBackups = Annotated[Backups, Depends(backups)]
Here = Depends(require_here)


@router.get(PAGE.path)
def page(request: Request, kept: AtBackups) -> Response:
    """Show where backups go, and how old the last one is."""
    return _shown(request, kept)


@router.post(PAGE.path + "/folder", dependencies=[Here])
def choose(request: Request, kept: AtBackups, form: Form) -> Response:
    """Choose the folder of the backups, and make the first one."""
    typed = form.texts.get("folder", "").strip()
    try:
        kept.choose(typed)
        if typed:
            kept.make()
    except StoreError as error:
        return _shown(request, kept, typed=typed, refused=error.sentence, status=CANNOT_TAKE)
    return see_other(PAGE.path)


@router.post(PAGE.path + "/now", dependencies=[Here])
def make(request: Request, kept: AtBackups) -> Response:
    """Make a backup now."""
    try:
        kept.make()
    except StoreError as error:
        return _shown(request, kept, refused=error.sentence, status=CANNOT_TAKE)
    return see_other(PAGE.path)


@router.get(PAGE.path + "/everything.zip", dependencies=[Here])
def everything(request: Request, desk: AtDesk, kept: AtBackups, rest: bool = False) -> Response:
    """Hand out everything as one zip. It is made before it is sent: what cannot be read is said on a page first.

    Args:
        rest: everything else is wanted.
    Raises:
        NotWritten: the disk refused.
    """
    headers = {"content-disposition": 'attachment; filename="rabbetry.zip"', "cache-control": "no-store"}
    parts = _packed(desk.store.place)
    lost = next(parts)
    if lost and not rest:
        return _shown(request, kept, lost=lost.decode(), status=UNREADABLE)
    return StreamingResponse(parts, media_type="application/zip", headers=headers)


@router.post(PAGE.path + "/everything", dependencies=[Here], max_body_size=ZIP_LIMIT_BYTES)
async def bring_in(request: Request, desk: AtDesk, kept: AtBackups) -> Response:
    """Take a zip in beside what is here."""
    async with request.form() as form:
        file = form.get("zip")
        if not isinstance(file, UploadFile):
            return _shown(request, kept, zip_refused="Choose a zip first.", status=CANNOT_TAKE)
        try:
            taken = await run_in_threadpool(_taken, desk, file.file)
        except UnusableZip as error:
            return _shown(request, kept, zip_refused=error.sentence, status=CANNOT_TAKE)
    return _shown(request, kept, taken=taken, names={one.project_id: one.name for one in desk.store.list()})


def _taken(desk: Desk, file: IO[bytes]) -> TakenIn:
    return take_in(desk.store.place, file, new_ids=desk.store.unused_ids())


def _packed(place: Path) -> Iterator[bytes]:
    """What could not be read, once all is packed, then the zip; its file is closed even where nobody takes it."""
    with TemporaryFile() as file:
        try:
            lost = pack(place, file)
        except OSError as error:
            raise NotWritten(f"The zip could not be made: {error.strerror or error}") from error
        yield ", ".join(lost).encode()
        file.seek(0)
        while part := file.read(CHUNK_BYTES):
            yield part


def _shown(request: Request, kept: Backups, *, typed: str | None = None, status: int = 200, **more: object) -> Response:
    state = kept.state()
    shown = BackupShown(
        state=state,
        is_here=request.state.caller is Caller.HERE,
        typed=state.folder if typed is None else typed,
        **more,  # type: ignore[arg-type]
    )
    return render(request, PAGE.template, shown, status=status)
