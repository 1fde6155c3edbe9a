"""What is deep: a canvas on its stretcher, and a box for an object."""

from collections.abc import Iterator

from framecalc.errors import FrameCalcError
from framecalc.evidence import PLANE_GEOMETRY
from framecalc.plan.package.canvas_and_box import BoxPlan, CanvasPlan
from webapp.live.answers import AnswerGroup, Big, Table, degrees, refusal
from webapp.pages.package.groups.asked import PackageContext, source_words


def canvas(asked: PackageContext) -> AnswerGroup:
    """The canvas over its folds, the room for its keys, and the screws of a tray."""
    plan = asked.plan.package.canvas
    if plan is None:
        return AnswerGroup(name="canvas", lines=("The artwork is no canvas on a stretcher.",))
    widest = plan.canvas
    return AnswerGroup(
        name="canvas",
        bigs=(
            Big(label="Over its folds", text=asked.size(widest.widest_across_mm, widest.widest_up_mm)),
            Big(label="Keys may want", text=asked.say(widest.key_room_mm), says="both sides together"),
        ),
        lines=tuple(_canvas_lines(asked, plan)),
        findings=asked.advice(plan.findings),
        sources=(
            "Three layers of cloth at a folded corner, room for keys, bite of screws: common practice, no source.",
        ),
    )


def _canvas_lines(asked: PackageContext, plan: CanvasPlan) -> Iterator[str]:
    left_mm = asked.plan.seat.left_over_mm
    if plan.is_tray:
        yield "An even gap is left all round, and screws from behind go through the ledge into the bars."
        yield from _tray_screw_lines(asked, plan)
    elif left_mm < 0:
        yield f"It stands {asked.say(-left_mm)} proud of the back, as a canvas usually does: offset clips hold it."
    yield "A canvas is usually framed without glazing."


def _tray_screw_lines(asked: PackageContext, plan: CanvasPlan) -> Iterator[str]:
    try:
        screw = plan.screw
    except FrameCalcError as error:
        yield refusal(error, asked.say)
        return
    if screw:
        yield (
            f"Screws from {asked.say(screw.shortest_mm)} to {asked.say(screw.longest_mm)} long hold it and stay short"
            " of the canvas."
        )


def box(asked: PackageContext) -> AnswerGroup:
    """The box for an object: its walls, its depth, the lip's shadow."""
    if asked.plan.is_tray:
        return AnswerGroup(name="box", lines=("A box stands in a rabbet: in a tray nothing holds its glazing.",))
    plan = asked.plan.package.box
    if plan is None:
        return AnswerGroup(name="box", lines=("Type how deep the object is, and the walls of its box are worked out.",))
    return AnswerGroup(
        name="box",
        bigs=_box_bigs(asked, plan),
        tables=(_walls(asked, plan),),
        findings=asked.advice(plan.findings),
        sources=(source_words(PLANE_GEOMETRY), "Air before an object: common practice, no source."),
    )


def _box_bigs(asked: PackageContext, plan: BoxPlan) -> tuple[Big, ...]:
    return (
        Big(label="Rabbet depth it wants", text=asked.say(plan.needed_mm), says="glazing, walls and back"),
        Big(
            label="Clear inside",
            text=asked.size(plan.box.inside_across_mm, plan.box.inside_up_mm),
            says=f"{asked.say(plan.box.inside_depth_mm)} deep",
        ),
        Big(
            label="Lip's shadow", text=asked.say(plan.shadow_mm), says=f"on the back, lamp at {degrees(plan.lamp_deg)}"
        ),
    )


def _walls(asked: PackageContext, plan: BoxPlan) -> Table:
    through, between = plan.box.walls
    return Table(
        caption="Walls",
        heads=("Which", "How many", "Long", "High", "Thick"),
        rows=tuple(
            (
                name,
                str(wall.count),
                asked.tape(wall.length_mm),
                asked.tape(wall.height_mm),
                asked.say(wall.thickness_mm),
            )
            for name, wall in (("top and bottom, through", through), ("sides, between them", between))
        ),
    )
