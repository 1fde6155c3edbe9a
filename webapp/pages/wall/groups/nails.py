"""Where the nails of the job go, and what a hook that came out uneven does."""

from collections.abc import Iterator
from itertools import groupby

from framecalc.hanging.wall import FIXINGS, WallKind
from framecalc.plan.hanging.wall import Nail
from framecalc.units import TOLERANCE_MM, format_length
from framecalc.words import typed
from webapp.live.answers import AnswerGroup, Big, Table, degrees
from webapp.pages.wall.groups.context import WallContext

CAUTIONS = (
    "Look for cables and pipes before drilling: they run straight up, down and sideways from switches and sockets.",
    "No figure here approves a fixing: check the load against its packet, for this wall.",
    "Local codes come first, along walkways above all.",
)
SOURCES = (
    "Hook: wanted middle + half the height − drop as loaded. The eye line, 1450 to 1550 mm: usual practice.",
    "Walkways: 2010 ADA Standards, 307.2 (4 in between 27 and 80 in over the floor).",
)


def nails(context: WallContext) -> AnswerGroup:
    """The nails of the frame first, then the table of all of them."""
    found = context.whole.wall
    mine = [nail for nail in found.nails if nail.frame_id == context.plan.frame.id]
    return AnswerGroup(
        name="nails",
        answer=_answer(context, mine),
        is_open=not found.is_measured,
        bigs=tuple(_bigs(context, mine)),
        does=tuple(_does(context)),
        tables=(_table(context),),
        drawings=context.wall_drawn,
        cautions=(*CAUTIONS, *_more_cautions(context)),
        sources=SOURCES,
    )


def _answer(context: WallContext, mine: list[Nail]) -> str:
    if not mine:
        return "Drop not known"
    return f"{'Cleat' if context.is_on_cleat else 'Hooks'} at {context.tape(mine[0].height_mm)}"


def _bigs(context: WallContext, mine: list[Nail]) -> Iterator[Big]:
    if mine:
        label = "Upper edge of the wall strip, over the floor" if context.is_on_cleat else "Hooks over the floor"
        yield Big(label=label, text=context.tape(mine[0].height_mm), says=typed(context.plan.frame.name))
        hooks_mm = context.plan.hangers.hooks_mm
        if len(hooks_mm) == 2:
            yield Big(label="Hooks apart", text=context.tape(hooks_mm[1] - hooks_mm[0]))
    yield Big(label="Stands out", text=context.tape(context.plan.hangers.out_mm), says="at most, from the wall")


def _does(context: WallContext) -> Iterator[str]:
    kind = context.plan.project.wall.kind
    if kind:
        yield FIXINGS[WallKind(kind)]
    level = None if context.plan.shape.slopes else context.plan.hangers.level
    if level:
        yield (
            f"It tilts {degrees(abs(level.tilt_deg))}: one edge is {context.say(level.edge_off_mm)} off. Put"
            f" {context.say(level.shim_mm)} under the ring at the {level.low_side} hook."
        )


def _more_cautions(context: WallContext) -> Iterator[str]:
    wall = context.plan.project.wall
    if wall.kind == WallKind.PLASTER:
        yield "Old plaster: its strength is not known. Hang a trial weight for a day."
    if wall.has_children:
        yield "Children pull and climb: plates that lock, acrylic instead of glass, nothing over a cot."


def _table(context: WallContext) -> Table:
    """A line for each frame, whose hooks are level."""
    wall = context.whole.wall
    side = "right" if context.plan.project.wall.from_right else "left"
    heads = ("Frame", f"Hooks from the {side}", "Over the floor", "From the level line")
    rows = []
    for _, found in groupby(wall.nails, key=lambda nail: nail.key):
        nails = tuple(found)
        across = ", ".join(context.tape(nail.across_mm) for nail in nails)
        named = typed(f"{nails[0].number} · {nails[0].name}")
        rows.append((named, across, context.tape(nails[0].height_mm), _over(context, nails[0])))
    level = context.tape(wall.level_mm)
    caption = f"Nails from the {side} {context.from_here}; the level line is {level} over the floor"
    return Table(caption=caption, heads=heads, rows=tuple(rows), is_named_above=True)


def _over(context: WallContext, nail: Nail) -> str:
    if abs(nail.over_level_mm) < TOLERANCE_MM:
        return "on it"
    written = format_length(abs(nail.over_level_mm), step=context.plan.step).full
    return f"{written} {'up' if nail.over_level_mm > 0 else 'down'}"
