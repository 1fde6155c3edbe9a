"""The hanging strips: paper at true size, for each frame and for a whole row."""

from framecalc.plan.templates.row_strip import ROWS
from webapp.live.answers import AnswerGroup
from webapp.pages.wall.groups.context import WallContext


def strip(context: WallContext) -> AnswerGroup:
    """What the strips are for."""
    _ = context.plan.hangers.drop_mm, context.plan.hangers.hooks_mm
    is_row = context.whole.wall.grouping.arrangement in ROWS and len(context.whole.wall.pieces) > 1
    return AnswerGroup(
        name="strip",
        answer="For the frame and the row" if is_row else "For the frame",
        does=(
            "Print it at true size, tape it level to the wall, drive a nail at each cross, tear it off.",
            "Measure its bar first: a printer that scales moves every nail.",
        ),
    )
