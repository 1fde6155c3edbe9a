"""The timber page of a project: stock, wishes, cutting plans, lists to tick off, sheets to print."""

from fastapi import APIRouter, Response

from framecalc.drawing.timber.stick_sheet import draw_stick_sheet
from framecalc.project import Project
from framecalc.project.timber import MOST_TICKS
from webapp.live.addresses import TIMBER
from webapp.live.desk import AtDesk, Desk
from webapp.live.lists import ListPages, NamedLists
from webapp.live.papers.files import drawing_file, job_file, paper_named
from webapp.live.tabbed import TabbedPage
from webapp.live.work.pieces_cut import with_pieces_of
from webapp.pages.timber import PAGE
from webapp.pages.timber.actions import ANCHORS, carry_out
from webapp.pages.timber.fields import timber_fields_in
from webapp.pages.timber.list_maker import TITLES
from webapp.pages.timber.shopping import SHOPPING, TITLE, shopping_lists
from webapp.pages.timber.shown import lists_of, sheet_of, timber_shown

router = APIRouter()


@router.get(TIMBER + "/groups/{group}/sheet-{number}.svg")
def sheet(project_id: str, group: int, number: int, desk: AtDesk, paper: str = "") -> Response:
    """Answer with one sheet of a cutting plan as a file at the true size of its paper."""
    project = desk.open(project_id).project
    paper = paper_named(paper, unit=project.unit)
    cuts, block = sheet_of(desk, project, group, number, paper)
    svg = draw_stick_sheet(cuts, number=number, paper=paper, block=block)
    return drawing_file(svg, name=job_file(project, f"cutting-plan-{group}-{number}", paper))


def _lists_of(desk: Desk, project: Project, name: str) -> NamedLists:
    return shopping_lists(desk, project) if name == SHOPPING else lists_of(desk, project, name)


LISTS = ListPages(
    path=TIMBER,
    title="Timber",
    comes_from="plan",
    part="timber",
    titles={SHOPPING: TITLE} | TITLES,
    lists_of=_lists_of,
    head="Members",
    heads={SHOPPING: "Kind"},
    most=MOST_TICKS,
    also=with_pieces_of,
)
LISTS.add_to(router)

VIEW = TabbedPage(
    page=PAGE,
    fields=timber_fields_in,
    act=carry_out,
    shows=timber_shown,
    anchors=ANCHORS,
    has_preview=False,
    router=router,
)
