"""The wall of a job on paper, and its nails as a table."""

import csv
from io import StringIO

from framecalc.drawing.sheet import TitleBlock
from framecalc.drawing.wall.group import draw_wall_paper, wall_drawing
from framecalc.plan import Plan
from framecalc.project import Project
from framecalc.units import format_length


def wall_on_paper(plan: Plan, paper: str, *, shop: str = "") -> str:
    """The wall on a sheet of paper, at a scale.

    Raises:
        FrameCalcError: it cannot be worked out.
    """
    return draw_wall_paper(wall_drawing(plan), paper, block=_title_block(plan.project, shop=shop))


def nails_table(plan: Plan) -> str:
    """The nails as a table, a line for each hook.

    Raises:
        FrameCalcError: they cannot be worked out.
    """
    project, text = plan.project, StringIO()
    side, step = "right" if project.wall.from_right else "left", project.shop.step(project.unit)
    table = csv.writer(text)
    table.writerow(["Frame", "Hook", f"From the {side}", "From the floor", "From the level line"])
    for nail in plan.wall.nails:
        sizes = (nail.across_mm, nail.height_mm, nail.over_level_mm)
        table.writerow([_plain(nail.name), nail.hook, *(format_length(size, step=step).full for size in sizes)])
    return text.getvalue()


def _title_block(project: Project, *, shop: str) -> TitleBlock:
    saved = project.saved
    return TitleBlock(
        project=project.name,
        frame="All frames",
        drawing="Wall",
        revision=f"revision {saved.revision}" if saved else "not saved",
        date=saved.when[:10] if saved else "no date",
        unit=project.unit,
        shop=shop,
    )


def _plain(text: str) -> str:
    """A name that no spreadsheet takes for a formula."""
    return f"'{text}" if text.lstrip().startswith(("=", "+", "-", "@")) else text
