"""The joint: sound or not, its walls, its set-up, the sizes that fit, its strength against the bare mitre."""

from collections.abc import Iterable, Sequence

from framecalc.bench.cautions import LAP_CAUTION, PIN_CAUTION, SLOT_CAUTION
from framecalc.corners.joints.corner_stock import Walls
from framecalc.corners.joints.slots import SlotPlace
from framecalc.corners.joints.splines import SLED_CAUTIONS
from framecalc.drawing.corners.joint_view import can_be_drawn
from framecalc.drawing.registry import papers_showing
from framecalc.errors import FrameCalcError
from framecalc.plan.corners.joint import JointPlan
from framecalc.units import describe_size
from framecalc.words import capitalised
from webapp.live.answers import refusal
from webapp.pages.corners.groups.context import DERIVED, USUAL_PRACTICE, AnswerGroup, Big, CornersContext, Table

TRAY = (
    "A tray is jointed in its wall, seen here as a plain member; its ledge is left out, and only makes walls thicker."
)
_STATUS = {
    "loose tenon": f"Plain thicknesses of tenons: {USUAL_PRACTICE}; measure yours.",
    "biscuit": "Sizes of biscuits and depths of their slots: unchecked: measure yours before you cut.",
    "dowel": f"Sizes of dowels and depths of their holes: {USUAL_PRACTICE}.",
}


def joint(context: CornersContext) -> AnswerGroup:
    """The joint chosen: its walls and whether it is sound; if it cannot be made, joints that can."""
    chosen = context.plan.corners.joint
    if context.plan.shape.slopes:
        bare = Big(label="Joint", text="Bare mitre", says="held by glue alone")
        does = ("Joints are worked out for flat sides alone.",)
        return AnswerGroup(name="joint", answer="Bare mitre", applies=False, bigs=(bare,), does=does)
    try:
        return _placed(context, chosen)
    except FrameCalcError as error:
        tables = (*_fitting_tables(context, chosen), _best_table(context, chosen))
        does = (refusal(error, context.say),)
        return AnswerGroup(name="joint", answer="Cannot be made", does=does, tables=tables, refuses=True)


def _placed(context: CornersContext, chosen: JointPlan) -> AnswerGroup:
    lines = tuple(_lines(context, chosen))
    return AnswerGroup(
        name="joint",
        answer=_answer(chosen),
        is_open=chosen.is_unmeasured,
        bigs=tuple(_bigs(context, chosen)),
        does=lines[:1],
        lines=lines[1:],
        tables=tuple(_tables(context, chosen)),
        drawings=context.drawn(*_drawings(chosen)),
        papers=papers_showing(*_drawings(chosen)),
        findings=context.advice(chosen.findings),
        sources=tuple(_sources(chosen)),
        cautions=tuple(_cautions(chosen)),
    )


def _answer(chosen: JointPlan) -> str:
    if chosen.is_unmeasured:
        return f"{capitalised(str(chosen.kind))}, size not known"
    if not chosen.is_chosen:
        return "Bare mitre"
    return f"{capitalised(str(chosen.kind))}, {'sound' if chosen.is_sound else 'not sound'}"


def _tables(context: CornersContext, chosen: JointPlan) -> Iterable[Table]:
    """The walls, the sizes of this kind that fit, and other kinds if none of this kind fits."""
    walls = tuple(_walls(chosen))
    if walls:
        yield _wall_table(context, walls)
    yield from _fitting_tables(context, chosen)
    if not chosen.is_chosen or (chosen.slots and not chosen.fitting_slots):
        yield _best_table(context, chosen)


def _drawings(chosen: JointPlan) -> Iterable[str]:
    if chosen.lapped:
        yield "lap"
    if can_be_drawn(chosen):
        yield from ("face", "plan")


def _bigs(context: CornersContext, chosen: JointPlan) -> Iterable[Big]:
    if chosen.is_unmeasured:
        yield Big(label="Verdict", text="Not known", says=f"until the {chosen.kind} is measured")
        return
    if not chosen.is_chosen:
        yield Big(label="Joint", text="Bare mitre", says="held by glue alone")
        return
    yield Big(
        label="Verdict",
        text="Sound" if chosen.is_sound else "Not sound",
        says=f"needs walls of {context.say(chosen.wall_mm)}",
    )
    if chosen.slot_place:
        yield Big(label="Depth", text=context.say(chosen.slot_place.slot.depth_mm), says="into each member")
    if chosen.splines:
        yield Big(label="Blade", text=context.say(chosen.splines[0].blade_mm), says="above the table")
    if chosen.strength:
        least, most = chosen.strength.least_ratio, chosen.strength.most_ratio
        yield Big(label="Strength, bare mitre = 1", text=f"× {least:.1f} to {most:.1f}", says="by glue area and grain")


def _lines(context: CornersContext, chosen: JointPlan) -> Iterable[str]:
    yield from _slot_lines(context, chosen)
    yield from _spline_lines(context, chosen)
    yield from _lap_lines(context, chosen)
    if chosen.is_tray:
        yield TRAY
    if chosen.pin:
        yield (
            f"The pin holds with {context.say(chosen.pin.holds_mm)} of its length in the far member; its thinnest wall"
            f" is {context.say(chosen.pin.walls.least_mm)}."
        )
    if chosen.wedge:
        yield f"The corner wedge leaves {context.say(chosen.wedge.walls.least_mm)} where it is thinnest."


def _slot_lines(context: CornersContext, chosen: JointPlan) -> Iterable[str]:
    place, length = chosen.slot_place, chosen.tenon_length
    if place is None:
        return
    yield _set_up(context, chosen.slot_places, thickness_mm=chosen.stock.thickness_mm)
    yield _room(context, place)
    if length and not chosen.has_tenon_length:
        yield f"With its glue room the tenon is {context.say(length.longest_mm)} long."
    elif length:
        trim = f"trim {context.say(length.trim_mm)} off" if length.trim_mm > 0 else "it needs no trimming"
        yield f"The longest tenon with its glue room is {context.say(length.longest_mm)}: {trim}."
    if chosen.widest_mouth_mm and chosen.deepest_slot_mm:
        yield (
            f"With the walls wanted a slot so deep may be {context.say(chosen.widest_mouth_mm)} wide, and one so wide"
            f" {context.say(chosen.deepest_slot_mm)} deep."
        )


def _set_up(context: CornersContext, places: Sequence[SlotPlace], *, thickness_mm: float) -> str:
    """The line for the set-up card: depth, fence, marks."""
    place = places[0]
    return (
        f"Set-up card: {place.slot.name}, depth {context.say(place.slot.depth_mm)}; fence to the middle of the cutter"
        f" {context.say(place.height_mm)} from the back ({context.say(thickness_mm - place.height_mm)} from the face);"
        f" {_marks(context, places)} from the tip."
    )


def _marks(context: CornersContext, places: Sequence[SlotPlace]) -> str:
    if len(places) > 1:
        first, second = (context.say(place.marks.centre_mm) for place in places)
        return f"two of them, their middles {first} and {second}"
    marks = places[0].marks
    return f"marks {context.say(marks.near_mm)}, {context.say(marks.centre_mm)} and {context.say(marks.far_mm)}"


def _room(context: CornersContext, place: SlotPlace) -> str:
    if not place.has_room:
        return "With the walls wanted it fits nowhere at this height."
    earliest, latest, lowest, highest = map(
        context.say, (place.earliest_mm, place.latest_mm, place.lowest_mm, place.highest_mm)
    )
    return (
        f"Its middle may lie anywhere from {earliest} to {latest} from the tip and from"
        f" {lowest} to {highest} above the back."
    )


def _spline_lines(context: CornersContext, chosen: JointPlan) -> Iterable[str]:
    if not chosen.splines:
        return
    first = chosen.splines[0]
    heights = ", ".join(context.say(spline.height_mm) for spline in chosen.splines)
    yield (
        f"Set-up card: {'splines' if len(chosen.splines) > 1 else 'spline'}, blade {context.say(first.blade_mm)}"
        " above the"
        f" table (cradle and depth), middle {heights} from the back."
    )
    yield (
        f"At most {context.say(chosen.even_depth_mm)} deep, which leaves its wall;"
        f" {context.say(first.visible_mm)} of it show on each outer edge."
    )
    blank = first.blank
    size = describe_size(blank.length_mm, blank.width_mm, unit=context.plan.unit)
    yield f"Blank {size}, {context.say(blank.thickness_mm)} thick, its grain across the joint."


def _lap_lines(context: CornersContext, chosen: JointPlan) -> Iterable[str]:
    lapped = chosen.lapped
    if lapped is None:
        return
    reach, between = context.say(lapped.reach_mm), context.say(lapped.between_mm)
    if chosen.half_laps:
        yield f"Set-up card: half-lap, split {context.say(lapped.high_mm)} above the back, laps {reach} wide."
        yield (
            f"Behind the split left and right run through at {context.say(lapped.upright_long_mm)}; top and bottom are"
            f" cut back square to {between} between shoulders. In front of it all four are mitred, as long as planned."
        )
        return
    yield (
        f"Set-up card: bridle, tenon and slot from {context.say(lapped.low_mm)} to {context.say(lapped.high_mm)} above"
        f" the back, {reach} deep."
    )
    yield (
        f"Left and right carry the tenons and run through at {context.say(lapped.upright_long_mm)}; top and bottom are"
        f" slotted, {between} between the bottoms of their slots. Before and behind all four are"
        " mitred, as long as planned."
    )


def _walls(chosen: JointPlan) -> Iterable[tuple[str, Walls]]:
    for number, place in enumerate(chosen.slot_places, start=1):
        name = place.slot.name
        yield f"{name}, {number}" if len(chosen.slot_places) > 1 else name, place.walls
    if chosen.pin:
        yield "pin", chosen.pin.walls
    if chosen.wedge:
        yield "corner wedge", chosen.wedge.walls


def _wall_table(context: CornersContext, walls: tuple[tuple[str, Walls], ...]) -> Table:
    return Table(
        caption="Walls that stay",
        heads=("Of the", "Outer", "Inner", "Back", "Face"),
        rows=tuple(
            (name, *(context.say(wall_mm) for wall_mm in (left.outer_mm, left.inner_mm, left.back_mm, left.face_mm)))
            for name, left in walls
        ),
        is_folded=True,
    )


def _fitting_tables(context: CornersContext, chosen: JointPlan) -> Iterable[Table]:
    if not chosen.slots:
        return
    rows = tuple(
        (
            place.slot.name,
            context.say(place.slot.mouth_mm),
            context.say(place.slot.depth_mm),
            context.say(place.walls.least_mm),
            "" if chosen.kind != "loose tenon" or place.slot.name in chosen.usual_names else "thicker than a third",
        )
        for place in chosen.fitting_slots
    )
    caption = "Sizes that leave sound walls, the largest first" if rows else "No usual size leaves sound walls here"
    yield Table(caption=caption, heads=("Size", "Mouth", "Depth", "Thinnest wall", "Remark"), rows=rows, is_folded=True)


def _best_table(context: CornersContext, chosen: JointPlan) -> Table:
    """The largest size of every kind that leaves the wanted walls."""
    rows = [_best_row(context, kind, place) for kind, place in chosen.best_slots.items()]
    deepest_mm = chosen.deepest_spline_mm
    rows.append(("spline", "any", f"to {context.say(deepest_mm)} deep" if deepest_mm else "no room for one"))
    return Table(
        caption=(
            f"What fits at {context.say(chosen.height_mm)} above the back, with walls of {context.say(chosen.wall_mm)}"
        ),
        heads=("Joint", "Largest", "Mouth and depth"),
        rows=tuple(rows),
        is_folded=True,
    )


def _best_row(context: CornersContext, kind: str, place: SlotPlace | None) -> tuple[str, ...]:
    if place is None:
        return kind, "none", "no usual size leaves sound walls"
    slot = place.slot
    return kind, slot.name.split(" ", 1)[1], f"{context.say(slot.mouth_mm)} × {context.say(slot.depth_mm)}"


def _sources(chosen: JointPlan) -> Iterable[str]:
    yield DERIVED
    if chosen.kind in _STATUS:
        yield _STATUS[chosen.kind]
    if chosen.strength:
        yield (
            "The strength of end grain is poorly known, so it is a range and not a load; Hankinson's formula."
            f" Walls and glue room: {USUAL_PRACTICE}."
        )


def _cautions(chosen: JointPlan) -> Iterable[str]:
    if chosen.splines:
        yield from SLED_CAUTIONS
    if chosen.slot_place:
        yield SLOT_CAUTION
    if chosen.lapped:
        yield LAP_CAUTION
    if chosen.pin or chosen.wedge:
        yield PIN_CAUTION
