"""The pages to print: the receipt, the packing sheet, the hanging card for the client."""

from collections.abc import Iterator

from markupsafe import Markup

from framecalc.drawing.registry import draw_panel
from framecalc.drawing.wall.condition import condition_drawing, draw_condition
from framecalc.errors import FrameCalcError
from framecalc.findings import Rounding
from framecalc.hanging.hangers import Hanger
from framecalc.hanging.wall import FIXINGS, WallKind
from framecalc.plan import FramePlan
from framecalc.plan.hanging.wall import Nail
from framecalc.units import format_length
from framecalc.words import day_said, typed
from webapp.live.addresses import HAND_OVER
from webapp.live.answers import Table, plural
from webapp.live.desk import Desk
from webapp.live.grouped import at_group
from webapp.live.papers.of_frame import FramePaper, PrintedFact
from webapp.live.render import drawing
from webapp.live.straight_photo import photo_of
from webapp.pages.hand_over.groups import HandOverContext
from webapp.pages.hand_over.groups.intake import intake, kind_of, measured_of, owner_of, receipt_number
from webapp.pages.hand_over.groups.packing import steps_of


class PrintedCard(FramePaper):
    """A page to print. Where `signed` people sign, each has a line; `marks` is the table of a receipt."""

    title: str
    shop: str
    lines: tuple[str, ...] = ()
    marks: tuple[Table, ...] = ()
    signed: tuple[str, ...] = ()


def receipt(desk: Desk, project_id: str, frame_id: str) -> PrintedCard:
    """The receipt for a piece that was taken in."""
    plan, shop = desk.plan(project_id, frame_id), desk.shop().called
    context = _context(desk, plan, project_id)
    typed_in = plan.frame.hand_over.intake
    return PrintedCard(
        plan=plan,
        title=f"Receipt {receipt_number(plan)}",
        back=_back("intake", project_id, frame_id),
        shop=shop,
        facts=tuple(fact for fact in _receipt_facts(context) if fact.text),
        lines=tuple(filter(None, (typed(typed_in.condition),))),
        drawings=(drawing(draw_condition(condition_drawing(plan, picture=context.photo))),),
        marks=intake(context).tables,
        signed=("Owner", shop or "Shop"),
    )


def _receipt_facts(context: HandOverContext) -> Iterator[PrintedFact]:
    plan = context.plan
    typed_in, words = plan.frame.hand_over.intake, plan.project.shop.words
    yield PrintedFact(label="Piece", text=typed_in.piece or plan.frame.name)
    yield PrintedFact(label="Kind", text=kind_of(plan))
    yield PrintedFact(label="Measured", text=measured_of(context))
    yield PrintedFact(label="Owner", text=owner_of(plan))
    yield PrintedFact(label="Declared value", text=typed_in.value)
    yield PrintedFact(label="Received on", text=day_said(typed_in.day, words) if typed_in.day else "")


def packing_sheet(desk: Desk, project_id: str, frame_id: str) -> PrintedCard:
    """What goes into which box, and what is written on it."""
    plan = desk.plan(project_id, frame_id)
    context, packed = _context(desk, plan, project_id), plan.hand_over.packed
    return PrintedCard(
        plan=plan,
        title=f"Packing: {plan.frame.name}",
        back=_back("packing", project_id, frame_id),
        shop=desk.shop().called,
        facts=(
            PrintedFact(label="Box, inside", text=context.sizes(*packed.inside_mm, rounding=Rounding.UP)),
            PrintedFact(label="Boxes", text=str(plan.hand_over.boxes)),
            PrintedFact(label="Weighs, without the box", text=context.weight(packed.mass_kg)),
            PrintedFact(label="Carried by", text="Two people" if packed.is_for_two else "One person"),
        ),
        lines=(*steps_of(context), "Hanging card and hooks into the box, in an envelope on the back."),
        cautions=("This side up. Upright, never flat.",),
        drawings=_drawn("back", plan),
    )


def hanging_card(desk: Desk, project_id: str, frame_id: str) -> PrintedCard:
    """How the client hangs it, in plain words."""
    plan = desk.plan(project_id, frame_id)
    context = _context(desk, plan, project_id)
    nails = [nail for nail in context.whole.wall.nails if nail.frame_id == frame_id]
    facts = [PrintedFact(label="Weighs", text=context.weight(plan.package.mass.whole_kg))]
    facts += [PrintedFact(label=name, text=context.sizes(size_mm)) for name, size_mm in _heights(plan, nails)]
    return PrintedCard(
        plan=plan,
        title=f"How to hang it: {plan.frame.name}",
        back=_back("packing", project_id, frame_id),
        shop=desk.shop().called,
        facts=tuple(facts),
        lines=tuple(_hung(plan, nails)),
        cautions=(
            "Look for cables and pipes first: they run up, down and sideways from switches and sockets.",
            "Hold the weight against what the packet of the hook says, for this wall.",
            "Not over a bed or a seat, not over a radiator, not in the sun.",
        ),
        drawings=_drawn("nails", plan),
    )


def _heights(plan: FramePlan, nails: list[Nail]) -> Iterator[tuple[str, float]]:
    if nails:
        yield "Strip on the wall, upper edge" if plan.hangers.cleat else "Hook over the floor", nails[0].height_mm
        hooks_mm = plan.hangers.hooks_mm
        if len(hooks_mm) == 2:
            yield "Hooks apart", hooks_mm[1] - hooks_mm[0]
        yield "Top edge over the hook", plan.hangers.drop_mm


def _hung(plan: FramePlan, nails: list[Nail]) -> Iterator[str]:
    hangers, kind = plan.hangers, plan.project.wall.kind
    count = len(nails) // plan.frame.count if nails else 0
    if count:
        yield _how(hangers.kind, count)
        drop = format_length(hangers.drop_mm, step=plan.step).full
        what = "The upper edge of the strip on the wall" if hangers.cleat else "The hook"
        yield f"Mark where the top edge is to be. {what} goes {drop} under it."
    else:
        yield "Hang it on a nail, measure from its top edge to the nail: the hook goes so far under the top edge."
    if count == 2:
        yield "Put both hooks in with a level; a shim under the lower ring mends a small tilt."
    yield FIXINGS[WallKind(kind)] if kind else ANY_WALL
    if plan.hand_over.is_for_two:
        yield "Two people lift it and hang it."


ANY_WALL = "A screw into a stud or a plug in masonry; in board, an anchor rated for it."
_HOW = {
    Hanger.RINGS: "Each ring on the back goes over a hook.",
    Hanger.WIRE: "The wire on the back goes over {them}.",
    Hanger.TOOTHED: "A tooth of the hanger rests on it.",
    Hanger.PLATES: "Each plate locks on one.",
}


def _how(kind: Hanger, count: int) -> str:
    """What it hangs on, and how."""
    if kind is Hanger.CLEAT:
        return "It hangs on a cleat: screw its strip to the wall, level, bevel up; the one on the back drops over it."
    them = "both" if count > 1 else "it"
    return f"It hangs on {plural(count, 'hook')}. {_HOW[kind].format(them=them)}"


def _context(desk: Desk, plan: FramePlan, project_id: str) -> HandOverContext:
    whole = desk.open(project_id).plan
    return HandOverContext(plan=plan, whole=whole, shop=desk.shop().called, photo=photo_of(plan, project_id=project_id))


def _back(group: str, project_id: str, frame_id: str) -> str:
    return at_group(HAND_OVER, group)(project_id=project_id, frame_id=frame_id)


def _drawn(name: str, plan: FramePlan) -> tuple[Markup, ...]:
    try:
        return (drawing(draw_panel(name, plan)),)
    except FrameCalcError:
        return ()
