"""The hanging strips: paper at true size, for each frame and for a whole row."""

from framecalc.drawing.templates.thumbnail import template_thumbnail, wide_panel_mm
from framecalc.plan.templates.strips import ROWS, frame_strip
from webapp.live.answers import AnswerGroup
from webapp.live.render import drawing
from webapp.pages.wall.groups.context import WallContext


def strip(context: WallContext) -> AnswerGroup:
    """What the strips are for."""
    made = frame_strip(context.plan)
    is_row = context.whole.wall.grouping.arrangement in ROWS and len(context.whole.wall.pieces) > 1
    return AnswerGroup(
        name="strip",
        answer="For the frame and the row" if is_row else "For the frame",
        drawings=(drawing(template_thumbnail(made, name="strip", panel_mm=wide_panel_mm(made))),),
        does=(
            "Print it at true size, tape it level to the wall, drive a nail at each cross, tear it off.",
            "Measure its bar first: a printer that scales moves every nail.",
        ),
    )
