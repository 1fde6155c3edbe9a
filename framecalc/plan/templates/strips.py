"""The hanging strips: of one frame, and of a whole wall with the frames of a row beside each other, as they hang."""

from framecalc.errors import ImpossibleSize
from framecalc.hanging.groups import Arrangement
from framecalc.plan.frame import FramePlan
from framecalc.plan.hanging.wall import WallPlan
from framecalc.templates.hanging_strip import StripPiece, hanging_strip
from framecalc.templates.template import Template

ROWS = frozenset({Arrangement.ROW, Arrangement.STAIR})


def frame_strip(plan: FramePlan) -> Template:
    """Make the strip of one frame.

    Raises:
        FrameCalcError: the drop is not known.
    """
    hangers, across_mm = plan.hangers, plan.hangers.across_mm
    piece = StripPiece(
        name=plan.frame.name,
        left_mm=0.0,
        top_mm=0.0,
        across_mm=across_mm,
        hooks_mm=tuple((across_mm / 2 + hook_mm, hangers.drop_mm) for hook_mm in hangers.hooks_mm),
    )
    return hanging_strip(
        [piece],
        name="hanging-strip",
        title="Hanging strip",
        purpose="Tape it to the wall, its upper edge level where the frame's top edge goes; a nail at each cross.",
    )


def row_strip(wall: WallPlan) -> Template:
    """Make one strip for all frames of a row.

    Raises:
        ImpossibleSize: they do not hang in a row, or a drop is not known.
        FrameCalcError: a frame cannot be worked out.
    """
    if wall.grouping.arrangement not in ROWS:
        raise ImpossibleSize("One strip for all needs a row: print each frame's own.", field="wall")
    left_mm = min(at.left_mm for at in wall.placed)
    top_mm = max(at.high_mm for at in wall.placed)
    pieces = [
        StripPiece(
            name=piece.name,
            left_mm=at.left_mm - left_mm,
            top_mm=top_mm - at.high_mm,
            across_mm=at.across_mm,
            hooks_mm=tuple(
                (at.x_mm + hook_mm - left_mm, top_mm - at.high_mm + piece.plan.hangers.drop_mm)
                for hook_mm in piece.plan.hangers.hooks_mm
            ),
        )
        for piece, at in zip(wall.pieces, wall.placed, strict=True)
    ]
    return hanging_strip(
        pieces,
        name="hanging-strip-row",
        title="Hanging strip of the row",
        purpose="Tape it to the wall, its upper edge level at the highest top edge; a nail at each cross.",
    )
