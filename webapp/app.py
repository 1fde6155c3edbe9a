"""The application: one data folder, the pages, the guard in front of them, error pages in plain words."""

from asyncio import Semaphore, create_task, sleep
from collections.abc import AsyncIterator, Iterable
from contextlib import asynccontextmanager
from functools import partial
from pathlib import Path

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect

from framecalc.errors import FrameCalcError
from webapp.data import errors
from webapp.data.backup import Backups
from webapp.data.rack import RackFolder
from webapp.data.revisions import Conflict
from webapp.data.store import Store
from webapp.issue.issued import NotReady, Shelf
from webapp.issue.job_light import Lights
from webapp.issue.way import known_beside
from webapp.jobs.running import Jobs
from webapp.live.desk import Desk, SpoiledProject, new_id
from webapp.live.news import News
from webapp.live.routing import PageRoutes
from webapp.live.spoiled import spoiled
from webapp.live.statuses import CANNOT_TAKE, CHANGED_ELSEWHERE, NOT_SAVED, NOT_THERE, TOO_MANY, UNREADABLE
from webapp.live.trouble import sentence_for, trouble
from webapp.live.way import menu_for
from webapp.live.work.cuts_told import tell_all
from webapp.pages.all_pages import PAGES
from webapp.server.access_log import AccessLog
from webapp.server.devices import Devices
from webapp.server.door import Door
from webapp.server.folders import STATIC
from webapp.server.guard import Guard
from webapp.server.rates import Rates, TooOften
from webapp.server.static_files import KeptFiles

BACKUP_PAUSE_S = 600
"""How long the server waits before it looks again whether a backup is due."""


def create_app(
    data_dir: Path, *, names: Iterable[str] = (), is_open: bool = False, access_log: bool = False
) -> FastAPI:
    """Make the application that serves one data folder; it locks the folder until it stops.

    Args:
        data_dir: the folder with all projects and settings.
        names: under which names the network is served too, in small letters, the one to be offered first at first.
        is_open: whether the network is served under this computer's own addresses too.
        access_log: whether the log records each request.
    Raises:
        UnusableFolder, FolderInUse: before anything is served, so that the command line can say so.
    """
    store = Store(data_dir)
    jobs = Jobs(data_dir / "answers")
    backups = Backups(data_dir)

    @asynccontextmanager
    async def lifespan(app: FastAPI) -> AsyncIterator[None]:
        await run_in_threadpool(tell_all, app.state.desk)
        daily = create_task(_keep_backed_up(backups))
        yield
        daily.cancel()
        jobs.close()
        store.close()

    app = FastAPI(lifespan=lifespan, docs_url=None, redoc_url=None, openapi_url=None)
    app.state.shelf = Shelf(folder=data_dir / "shares", has_project=store.has)
    app.state.desk = Desk(
        store=store,
        jobs=jobs,
        rack=RackFolder(data_dir, new_id=new_id),
        looks_beside=partial(known_beside, app.state.shelf, Lights()),
    )
    app.state.pages, app.state.backups = PAGES, backups
    app.state.news, app.state.menu_of = News(), menu_for
    app.state.devices, app.state.rates = Devices(data_dir), Rates()
    app.state.photo_turn = Semaphore()
    app.state.door = Door(names=tuple(names), is_open=is_open, devices=app.state.devices)
    app.add_middleware(Guard, door=app.state.door)
    if access_log:
        app.add_middleware(AccessLog)
    app.mount("/static", KeptFiles(directory=STATIC), name="static")
    app.router.routes.append(PageRoutes(PAGES))
    _speak_plainly(app)
    return app


async def _keep_backed_up(backups: Backups) -> None:
    """Make the backup of each day while the server runs, one that was missed first."""
    while True:
        await run_in_threadpool(backups.make_if_due)
        await sleep(BACKUP_PAUSE_S)


def _speak_plainly(app: FastAPI) -> None:
    """Answer every error with a page of our own."""

    @app.exception_handler(errors.StoreError)
    def store_error(request: Request, error: errors.StoreError) -> Response:
        return trouble(request, error.sentence, status=STATUS_OF.get(type(error), NOT_THERE))

    @app.exception_handler(TooOften)
    def too_often(request: Request, error: TooOften) -> Response:
        return trouble(request, error.sentence, status=TOO_MANY, headers={"retry-after": str(error.wait_s)})

    @app.exception_handler(SpoiledProject)
    def spoiled_project(request: Request, error: SpoiledProject) -> Response:
        return spoiled(request, app.state.desk, error)

    @app.exception_handler(FrameCalcError)
    def calc_error(request: Request, error: FrameCalcError) -> Response:
        return trouble(request, error.sentence, status=CANNOT_TAKE)

    @app.exception_handler(HTTPException)
    def http_error(request: Request, error: HTTPException) -> Response:
        return trouble(request, sentence_for(error.status_code), status=error.status_code, headers=error.headers)

    @app.exception_handler(RequestValidationError)
    def validation_error(request: Request, error: RequestValidationError) -> Response:
        return trouble(request, sentence_for(NOT_THERE), status=NOT_THERE)

    @app.exception_handler(ClientDisconnect)
    def gone(request: Request, error: ClientDisconnect) -> Response:
        return Response(status_code=400)  # a newer preview took its place: there is nobody left to answer

    @app.exception_handler(Exception)
    def crash(request: Request, error: Exception) -> Response:
        return trouble(request, sentence_for(500), status=500)


STATUS_OF = {
    Conflict: CHANGED_ELSEWHERE,
    errors.NothingToUndo: CHANGED_ELSEWHERE,
    errors.NotWritten: NOT_SAVED,
    errors.UnreadableFile: UNREADABLE,
    errors.UnusablePhoto: CANNOT_TAKE,
    errors.OnlyHere: 403,
    NotReady: CANNOT_TAKE,
}
"""The status of each kind of trouble with the store; anything else is not there."""
