"""A canvas on its stretcher, and a box for an object."""

from collections.abc import Iterator

from framecalc.artwork.measuring import ArtworkKind
from framecalc.errors import FrameCalcError
from framecalc.evidence import PLANE_GEOMETRY
from framecalc.plan.package.canvas_and_box import BoxPlan, CanvasPlan
from webapp.live.answers import AnswerGroup, Big, Table, degrees, refusal
from webapp.pages.package.groups.context import PackageContext, source_words

CANVAS_ALONE, OBJECT_ALONE = "Only for stretched canvas", "Only for an object"


def canvas(context: PackageContext) -> AnswerGroup:
    """The canvas over its folds, the room for its keys, and the screws of a tray."""
    plan = context.plan.package.canvas
    if plan is None:
        return AnswerGroup(name="canvas", answer=CANVAS_ALONE, applies=False, does=(f"{CANVAS_ALONE}.",))
    widest = plan.canvas
    return AnswerGroup(
        name="canvas",
        answer=f"Over its folds {context.size(widest.widest_across_mm, widest.widest_up_mm)}",
        bigs=(
            Big(label="Over its folds", text=context.size(widest.widest_across_mm, widest.widest_up_mm)),
            Big(label="Room for keys", text=context.say(widest.key_room_mm), says="both sides together"),
        ),
        does=tuple(_canvas_lines(context, plan)),
        refuses=_refuses_screws(plan),
        findings=context.advice(plan.findings),
        sources=("Three layers of cloth at a folded corner, room for keys, bite of screws: usual practice.",),
    )


def _canvas_lines(context: PackageContext, plan: CanvasPlan) -> Iterator[str]:
    left_mm = context.plan.seat.left_over_mm
    if plan.is_tray:
        yield "An even gap is left all round, and screws from behind go through the ledge into the bars."
        yield from _tray_screw_lines(context, plan)
    elif left_mm < 0:
        yield f"It stands {context.say(-left_mm)} proud of the back, as a canvas usually does."
    if not plan.is_tray:
        yield "A canvas is usually framed without glazing."


def _refuses_screws(plan: CanvasPlan) -> bool:
    try:
        _ = plan.screw
    except FrameCalcError:
        return True
    return False


def _tray_screw_lines(context: PackageContext, plan: CanvasPlan) -> Iterator[str]:
    try:
        screw = plan.screw
    except FrameCalcError as error:
        yield refusal(error, context.say)
        return
    if screw:
        yield (
            f"Screws from {context.say(screw.shortest_mm)} to {context.say(screw.longest_mm)} long hold it and stay"
            " short of the canvas."
        )


def box(context: PackageContext) -> AnswerGroup:
    """The box for an object: its walls, its depth, the lip's shadow."""
    if context.plan.is_tray:
        return AnswerGroup(
            name="box",
            answer="Not in a tray",
            applies=False,
            does=("A box stands in a rabbet: in a tray nothing holds its glazing.",),
        )
    plan = context.plan.package.box
    if plan is None:
        is_object = context.plan.frame.artwork.kind is ArtworkKind.OBJECT
        return AnswerGroup(
            name="box",
            answer="How deep is the object?" if is_object else OBJECT_ALONE,
            applies=is_object,
            is_open=True,
            does=("Type how deep the object is, and the walls of its box are worked out.",),
        )
    return AnswerGroup(
        name="box",
        answer=f"Needs {context.say(plan.needed_mm)} of depth",
        bigs=_box_bigs(context, plan),
        tables=(_walls(context, plan),),
        findings=context.advice(plan.findings),
        sources=(source_words(PLANE_GEOMETRY), "Air before an object: usual practice."),
    )


def _box_bigs(context: PackageContext, plan: BoxPlan) -> tuple[Big, ...]:
    return (
        Big(label="Rabbet depth needed", text=context.say(plan.needed_mm), says="glazing, walls and back"),
        Big(
            label="Clear inside",
            text=context.size(plan.box.inside_across_mm, plan.box.inside_up_mm),
            says=f"{context.say(plan.box.inside_depth_mm)} deep",
        ),
        Big(
            label="Lip's shadow",
            text=context.say(plan.shadow_mm),
            says=f"on the back, lamp at {degrees(plan.lamp_deg)}",
        ),
    )


def _walls(context: PackageContext, plan: BoxPlan) -> Table:
    through, between = plan.box.walls
    return Table(
        caption="Walls",
        heads=("Which", "How many", "Long", "High", "Thick"),
        rows=tuple(
            (
                name,
                str(wall.count),
                context.tape(wall.length_mm),
                context.tape(wall.height_mm),
                context.say(wall.thickness_mm),
            )
            for name, wall in (("top and bottom, through", through), ("sides, between them", between))
        ),
    )
