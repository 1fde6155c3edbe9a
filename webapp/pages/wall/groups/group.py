"""How the frames of the job stand together on their wall."""

from collections.abc import Iterator
from itertools import pairwise

from framecalc.hanging.groups import Arrangement, OnWall
from framecalc.hanging.suggested import OVER_MM
from framecalc.words import typed
from webapp.live.answers import AnswerGroup, Big, Table, plural
from webapp.pages.wall.groups.context import WallContext

RULE = (
    "Balanced: the order in which the areas left and right of the middle weigh alike to the eye, the largest inward."
    " Up to 7 frames every order is tried; of more the largest goes to the middle and the others beside it in turn."
)


def group(context: WallContext) -> AnswerGroup:
    """The group as it hangs."""
    wall = context.whole.wall
    placed = wall.placed
    across_mm = max(one.right_mm for one in placed) - min(one.left_mm for one in placed)
    return AnswerGroup(
        name="group",
        answer=f"{plural(len(placed), 'frame')}, {context.tape(across_mm)} across",
        applies=len(placed) > 1 or wall.is_measured,
        bigs=tuple(_bigs(context, placed, across_mm)),
        drawings=context.wall_drawn,
        tables=(_table(context),),
        findings=context.advice_of_job(wall.findings),
        lines=(RULE, _proportion(context)),
        sources=("75 to 150 mm (3 to 6 in) between frames: usual practice.",),
    )


def _proportion(context: WallContext) -> str:
    """The rules of the other suggestions."""
    return (
        f"Gap in proportion: a sixth of the mean width of the frames. Over furniture: in its middle, the lower edges"
        f" {context.tape(OVER_MM)} above it."
    )


def _bigs(context: WallContext, placed: tuple[OnWall, ...], across_mm: float) -> Iterator[Big]:
    up_mm = max(one.high_mm for one in placed) - min(one.low_mm for one in placed)
    yield Big(label="Group, across", text=context.tape(across_mm))
    yield Big(label="Group, up", text=context.tape(up_mm))
    if context.whole.wall.grouping.arrangement in (Arrangement.ROW, Arrangement.STAIR) and len(placed) > 1:
        gaps_mm = [other.left_mm - one.right_mm for one, other in pairwise(placed)]
        least, most = context.tape(min(gaps_mm)), context.tape(max(gaps_mm))
        yield Big(label="Gaps", text=least if least == most else f"{least} to {most}")


def _table(context: WallContext) -> Table:
    wall = context.whole.wall
    heads = ("Frame", "Left", "Right", "Bottom", "Top")
    rows = tuple(
        (
            typed(f"{number} · {piece.name}"),
            *(context.tape(edge_mm) for edge_mm in (at.left_mm, at.right_mm, at.low_mm, at.high_mm)),
        )
        for number, (piece, at) in enumerate(zip(wall.pieces, wall.placed, strict=True), start=1)
    )
    return Table(
        caption=f"Edges, from the left {context.from_here} and the floor", heads=heads, rows=rows, is_named_above=True
    )
