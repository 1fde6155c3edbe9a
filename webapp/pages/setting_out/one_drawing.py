"""What the page of one enlarged drawing shows: the sheet of paper that it goes on, lying and upright."""

from collections.abc import Mapping
from typing import ClassVar

from markupsafe import Markup

from framecalc.drawing.registry import draw_paper, paper_showing, papers_of
from framecalc.drawing.sheet import PAPERS, usual_paper
from framecalc.plan import FramePlan
from framecalc.project import Frame, Project
from framecalc.records import Record, cached_property
from webapp.live.addresses import DRAWING, FRAME, SETTING_OUT
from webapp.live.desk import Desk
from webapp.live.of_project import OfProject
from webapp.live.papers.files import NoSuchDrawing
from webapp.live.render import drawing

ZOOMS = ("1", "2", "4")
"""How many times the sheet may be as large as the window; with scripts any size between the first and the last."""


def paper_drawing(name: str) -> str:
    """The paper drawing that goes with the panel of this name.

    Raises:
        NoSuchDrawing: there is none.
    """
    try:
        return paper_showing(name)
    except KeyError as error:
        raise NoSuchDrawing("No drawing of this name") from error


class OneDrawing(OfProject, Record, dict=True):
    """What the page of one drawing shows."""

    plan: FramePlan
    frame_at: str
    back: str
    at: str
    name: str
    zoom: str
    sheets: Mapping[str, Markup]
    most_zoom: ClassVar[str] = ZOOMS[-1]
    papers: ClassVar[tuple[str, ...]] = tuple(PAPERS)

    @property
    def project(self) -> Project:
        """The job."""
        return self.plan.project

    @property
    def frame(self) -> Frame:
        """The frame."""
        return self.plan.frame

    @cached_property
    def titles(self) -> Mapping[str, str]:
        """The sheets of the frame, by their names."""
        return papers_of(self.plan)

    @property
    def title(self) -> str:
        """What this one is called."""
        return self.titles[self.name]

    @property
    def usual_paper(self) -> str:
        """The paper that goes with the unit of the job."""
        return usual_paper(self.project.unit)

    @property
    def smaller(self) -> str:
        """The address of the next smaller size, if there is one."""
        return self._sized(-1)

    @property
    def larger(self) -> str:
        """The address of the next larger size, if there is one."""
        return self._sized(1)

    def _sized(self, way: int) -> str:
        number = ZOOMS.index(self.zoom) + way
        return f"{self.at}?zoom={ZOOMS[number]}" if 0 <= number < len(ZOOMS) else ""


def drawing_shown(desk: Desk, project_id: str, frame_id: str, name: str, *, zoom: str) -> OneDrawing:
    """What the page of one drawing shows.

    Raises:
        NoSuchDrawing: there is none of this name, or no such size.
        FrameCalcError: it cannot be drawn, or the frame has no such thing.
    """
    if zoom not in ZOOMS:
        raise NoSuchDrawing(f"Choose a size: {', '.join(ZOOMS)}")
    sheet, ids = paper_drawing(name), {"project_id": project_id, "frame_id": frame_id}
    plan = desk.plan(project_id, frame_id)
    return OneDrawing(
        plan=plan,
        frame_at=FRAME(**ids),
        back=SETTING_OUT(**ids),
        at=DRAWING(name=name, **ids),
        name=sheet,
        zoom=zoom,
        sheets=_both_ways(sheet, plan, shop=desk.shop().called),
    )


def _both_ways(name: str, plan: FramePlan, *, shop: str) -> Mapping[str, Markup]:
    """The sheet as it lies and upright: the shape of the window decides which is seen."""
    usual = usual_paper(plan.unit)
    papers = {"lying": usual, "upright": f"{usual}-portrait"}
    return {way: drawing(draw_paper(name, plan, paper, shop=shop)) for way, paper in papers.items()}
