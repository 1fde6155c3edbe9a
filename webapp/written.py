"""Every file that a job has to take away: drawings at the size of their paper, templates, lists, and the plan itself.

The pages hand the same files out one by one, under the same names. Cutting plans and layouts are searched for as long
as the pages would search; one that is not proved by then is the best that was found.
"""

from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from tempfile import TemporaryDirectory
from time import sleep
from typing import TypeAlias

from framecalc.drawing.registry import draw_paper, papers_of
from framecalc.drawing.sheet import usual_paper
from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan, Plan
from framecalc.project import Project, parse_project, project_text
from webapp.data.disk import write_safely
from webapp.data.errors import StoreError
from webapp.data.rack import RackFolder
from webapp.data.shop import read_shop
from webapp.data.shop_file import Profile
from webapp.data.store import Store
from webapp.jobs import sheet_search, sheets, timber, timber_search
from webapp.jobs.running import Jobs
from webapp.live.desk import Desk, new_id
from webapp.live.papers.files import frame_file, job_file
from webapp.live.papers.of_wall import nails_table, wall_on_paper
from webapp.pages.sheets.layouts import kinds_of
from webapp.pages.sheets.shown import sheet_on_paper
from webapp.pages.sheets.view import LISTS as SHEET_LISTS
from webapp.pages.templates.files import Wish, every_file
from webapp.pages.templates.query import TemplatesQuery
from webapp.pages.timber.shown import sheets_on_paper
from webapp.pages.timber.view import LISTS as TIMBER_LISTS

UPRIGHT = "-portrait"
"""How the name of a paper that stands upright ends; the leaves of templates always do."""

PAUSE_S = 0.02
"""How long it waits before it looks again whether a search has ended."""


class UnusableMachine(StoreError):
    """Values of the shop's printer or laser cannot be used together."""


class NotDrawn(StoreError):
    """There is no project to be drawn, or no folder to draw it into."""


Files: TypeAlias = dict[str, str | bytes]
"""What is in each file, by its name."""


def draw(project: Path, *, out: Path, sheet: str = "", shop: Profile | None = None) -> list[Path]:
    """Write every file of a project, and return the paths: drawings, templates, lists and the computed plan.

    Everything is computed before anything is written.

    Args:
        project: a project file, or a revision from a data folder.
        out: the folder for the files; it is made if need be.
        sheet: one of `framecalc.drawing.sheet.PAPERS`; without one that which goes with the unit of the project.
        shop: the profile of the shop, with its price list, its laser and its printer.
    Raises:
        NotDrawn: the file cannot be read, is no project or describes no frame, or the folder cannot be written into.
    """
    try:
        files = files_of(parse_project(project.read_bytes()), paper=sheet, shop=shop)
    except OSError as error:
        raise NotDrawn(f"{project} cannot be read: {error.strerror}") from error
    except FrameCalcError as error:
        raise NotDrawn(f"{project}: {error}") from error
    return [_write(out / name, content) for name, content in sorted(files.items())]


def _write(path: Path, content: str | bytes) -> Path:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise NotDrawn(f"{path.parent} cannot hold the drawings: {error.strerror}") from error
    write_safely(path, content)
    return path


def files_of(project: Project, *, paper: str = "", shop: Profile | None = None) -> Files:
    """Draw and compute all of a project.

    Args:
        paper: one of `framecalc.drawing.sheet.PAPERS`; without one that which goes with the unit of the project.
        shop: the profile of the shop, for its price list, its laser and its printer; without one the usual one, which
            has no prices and no machines.
    Raises:
        FrameCalcError: a frame cannot be computed.
        UnusableMachine: values of a printer or of the laser cannot be used together.
    """
    plan = Plan(project)
    wish = _machines(project, paper.removesuffix(UPRIGHT), shop or {})
    paper = paper or usual_paper(project.unit)
    files: Files = {}
    for frame in plan.frames.values():
        frame.compute_all()
        files |= dict(_of_frame(frame, paper))
    files |= dict(every_file(plan, wish))
    with _desk(shop or {}) as desk:
        _work_out(desk.jobs, plan)
        files |= dict(_of_job(desk, plan, paper))
    return files | {"plan.json": project_text(plan.record())}


def _machines(project: Project, paper: str, shop: Profile) -> Wish:
    """The shop's laser and its first printer, for the templates."""
    try:
        return TemplatesQuery(paper=paper).wish(project, read_shop(shop))
    except FrameCalcError as error:
        raise UnusableMachine(f"Printers and laser, on the Shop page: {error.sentence}") from error


def _of_frame(frame: FramePlan, paper: str) -> Iterator[tuple[str, str]]:
    """The papers that every frame has, and those that this one has besides."""
    for name in papers_of(frame):
        yield _named(frame, name, paper), draw_paper(name, frame, paper)


def _named(frame: FramePlan, *what: str) -> str:
    return f"{frame_file(frame.project, frame.frame, *what)}.svg"


@contextmanager
def _desk(shop: Profile) -> Iterator[Desk]:
    """A desk of its own, with the prices of the shop, that leaves nothing behind."""
    with (
        TemporaryDirectory() as name,
        closing(Store(folder := Path(name))) as store,
        closing(Jobs(folder / "answers")) as jobs,
    ):
        if shop:
            store.shop.change(lambda profile: shop)
        yield Desk(store=store, jobs=jobs, rack=RackFolder(folder, new_id=new_id))


def _work_out(jobs: Jobs, plan: Plan) -> None:
    """Search for every cutting plan and every layout, and wait until all have ended."""
    with suppress(FrameCalcError):
        timber_search.start_jobs(jobs, plan)
    with suppress(FrameCalcError):
        sheet_search.start_jobs(jobs, plan)
    while any(work.is_going for work in _sticks(jobs, plan)) or any(work.is_going for work in _layouts(jobs, plan)):
        sleep(PAUSE_S)


def _sticks(jobs: Jobs, plan: Plan) -> tuple[timber.GroupWork, ...]:
    """The cutting plans; none where the stock as typed allows of none, which the page of timber says."""
    with suppress(FrameCalcError):
        return timber.work_of(jobs, plan)
    return ()


def _layouts(jobs: Jobs, plan: Plan) -> tuple[sheets.SheetWork, ...]:
    with suppress(FrameCalcError):
        return sheets.work_of(jobs, plan)
    return ()


def _of_job(desk: Desk, plan: Plan, paper: str) -> Iterator[tuple[str, str]]:
    """The cutting plans, the layouts and the wall on paper, and every list that has lines."""
    project = plan.project
    for group, work in enumerate(_sticks(desk.jobs, plan), start=1):
        for number, svg in enumerate(sheets_on_paper(work, project, paper), start=1):
            yield f"{job_file(project, f'cutting-plan-{group}-{number}', paper)}.svg", svg
    for group, laid in enumerate(_layouts(desk.jobs, plan), start=1):
        for numbers in kinds_of(laid.layout) if laid.layout else ():
            svg = sheet_on_paper(desk, project, group, numbers[0], paper)
            yield f"{job_file(project, f'sheet-{group}-{numbers[0]}', paper)}.svg", svg
    with suppress(FrameCalcError):
        yield f"{job_file(project, 'wall', paper)}.svg", wall_on_paper(plan, paper, shop=desk.shop().called)
        yield f"{job_file(project, 'nails')}.csv", nails_table(plan)
    for pages in (TIMBER_LISTS, SHEET_LISTS):
        for name in pages.titles:
            if text := pages.text(desk, project, name):
                yield f"{job_file(project, pages.part, name)}.csv", text
