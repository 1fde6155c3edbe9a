"""One drawing shown large: which one, on which papers it can be had."""

from typing import Any

from framecalc.drawing import PANELS, PAPERS, draw_panel, paper_showing
from webapp.data.errors import StoreError
from webapp.live.desk import Desk
from webapp.live.render import drawing
from webapp.pages.setting_out.shown import address


class NoSuchDrawing(StoreError):
    """There is no drawing, or no paper, of this name."""


def paper_drawing(name: str) -> str:
    """The drawing on paper that shows what a panel of this name shows.

    Raises:
        NoSuchDrawing: there is none.
    """
    try:
        return paper_showing(name)
    except KeyError as error:
        raise NoSuchDrawing("there is no drawing of this name") from error


def paper_named(paper: str) -> str:
    """A paper by its name.

    Raises:
        NoSuchDrawing: there is none.
    """
    if paper not in PAPERS:
        raise NoSuchDrawing(f"there is no such paper: {', '.join(PAPERS)} would do")
    return paper


def drawing_shown(desk: Desk, project_id: str, frame_id: str, name: str) -> dict[str, Any]:
    """What the page of one drawing shows.

    Raises:
        NoSuchDrawing: there is none of this name.
    """
    if name not in PANELS:
        raise NoSuchDrawing("there is no drawing of this name")
    plan = desk.plan(project_id, frame_id)
    return {
        "words": plan.project.shop.words,
        "project": plan.project,
        "project_id": project_id,
        "frame": plan.frame,
        "back": address(project_id, frame_id),
        "name": name,
        "title": PANELS[name],
        "titles": PANELS,
        "svg": drawing(draw_panel(name, plan)),
        "papers": tuple(PAPERS),
    }
