"""What the page of one enlarged drawing shows."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from markupsafe import Markup

from framecalc.drawing import PANELS, PAPERS, draw_panel, paper_showing, usual_paper
from framecalc.project import Frame, Project
from framecalc.words import Words
from webapp.live.addresses import FRAME, SETTING_OUT
from webapp.live.desk import Desk
from webapp.live.papers import NoSuchDrawing
from webapp.live.render import drawing


def paper_drawing(name: str) -> str:
    """The paper drawing that goes with the panel of this name.

    Raises:
        NoSuchDrawing: there is none.
    """
    try:
        return paper_showing(name)
    except KeyError as error:
        raise NoSuchDrawing("No drawing of this name") from error


@dataclass(frozen=True, slots=True, kw_only=True)
class OneDrawing:
    """What the page of one drawing shows."""

    project: Project
    frame: Frame
    frame_at: str
    back: str
    name: str
    title: str
    svg: Markup
    titles: ClassVar[Mapping[str, str]] = PANELS
    papers: ClassVar[tuple[str, ...]] = tuple(PAPERS)

    @property
    def usual_paper(self) -> str:
        """The paper that goes with the unit of the job."""
        return usual_paper(self.project.unit)

    @property
    def words(self) -> Words:
        """The trade words of the shop."""
        return self.project.shop.words


def drawing_shown(desk: Desk, project_id: str, frame_id: str, name: str) -> OneDrawing:
    """What the page of one drawing shows.

    Raises:
        NoSuchDrawing: there is none of this name.
    """
    if name not in PANELS:
        raise NoSuchDrawing("No drawing of this name")
    plan = desk.plan(project_id, frame_id)
    return OneDrawing(
        project=plan.project,
        frame=plan.frame,
        frame_at=FRAME(project_id=project_id, frame_id=frame_id),
        back=SETTING_OUT(project_id=project_id, frame_id=frame_id),
        name=name,
        title=PANELS[name],
        svg=drawing(draw_panel(name, plan)),
    )
