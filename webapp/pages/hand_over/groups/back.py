"""The back as it leaves the shop: dust cover, bumpers, label, hangers, wire."""

from collections.abc import Iterator

from markupsafe import Markup

from framecalc.drawing.registry import draw_panel
from framecalc.errors import FrameCalcError
from webapp.live.answers import AnswerGroup, Big
from webapp.live.render import drawing
from webapp.pages.hand_over.groups.context import HandOverContext


def back(context: HandOverContext) -> AnswerGroup:
    """The back as it leaves the shop."""
    plan = context.plan
    has_cover = plan.hand_over.has_cover and not plan.shape.slopes
    cover = context.sizes(*plan.hand_over.cover_mm) if has_cover else ""
    return AnswerGroup(
        name="back",
        answer=f"Dust cover {cover}" if cover else "No dust cover",
        bigs=tuple(_bigs(context, cover)),
        does=(
            (
                "Glue the dust cover to the back, trim it flush to its size, then bumpers, label, hangers.",
                "Screw hangers through the cover, never pull it over them.",
            )
            if cover
            else ("Without a dust cover the back stays open: dust and insects come in.",)
        ),
        drawings=_drawn(context),
        sources=("A dust cover ends 3 mm (1/8 in) inside the edge: usual practice.",),
    )


def _bigs(context: HandOverContext, cover: str) -> Iterator[Big]:
    if cover:
        yield Big(label="Dust cover", text=cover, says="cut to size")
    yield Big(label="Bumpers", text=context.say(context.plan.frame.hanging.bumper.mm), says="two, at the lower edge")


def _drawn(context: HandOverContext) -> tuple[Markup, ...]:
    try:
        return (drawing(draw_panel("back", context.plan)),)
    except FrameCalcError:
        return ()
