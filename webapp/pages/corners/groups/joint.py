"""The joint: sound or not, its walls, how it is set up, what fits, how it compares with the bare mitre."""

from collections.abc import Iterable

from framecalc.corners.joints.corner_stock import Walls
from framecalc.corners.joints.slots import SlotPlace
from framecalc.corners.joints.splines import SLED_CAUTIONS
from framecalc.drawing.corners.joint_view import can_be_drawn
from framecalc.errors import FrameCalcError
from framecalc.plan.corners.joint import JointPlan
from webapp.live.answers import refusal
from webapp.pages.corners.groups.group import DERIVED, PRACTICE, AnswerGroup, Big, CornersContext, Table

TRAY = (
    "A tray is jointed in its wall, seen here as a plain member; its ledge is left out, and only makes walls thicker."
)
SLOT_CAUTION = (
    "Hold the member in a jig when its mitre is slotted, and keep hands off the line of the cutter: a short mitre tips."
)
LAP_CAUTION = (
    "Cut laps and slots with the member clamped in a tenoning jig or to a sled, never held on end by hand; keep the"
    " waste from being trapped between blade and stop."
)
PIN_CAUTION = "Keep fingers well clear of the joint: a pin follows the grain and may come out at the side."
"""Common practice, no source."""

_STATUS = {
    "loose tenon": f"Sizes of tenons: {PRACTICE}; their width varies, so measure yours.",
    "biscuit": "Sizes of biscuits and depths of their slots: from memory, not re-read; measure yours before you cut.",
    "dowel": f"Sizes of dowels and depths of their holes: {PRACTICE}.",
}


def joint(asked: CornersContext) -> AnswerGroup:
    """What the joint chosen needs and leaves, and whether it is sound; where it cannot be, what could."""
    chosen = asked.plan.corners.joint
    try:
        return _placed(asked, chosen)
    except FrameCalcError as error:
        tables = (*_fitting_tables(asked, chosen), _best_table(asked, chosen))
        return AnswerGroup(name="joint", lines=(refusal(error, asked.say),), tables=tables, refuses=True)


def _placed(asked: CornersContext, chosen: JointPlan) -> AnswerGroup:
    return AnswerGroup(
        name="joint",
        bigs=tuple(_bigs(asked, chosen)),
        lines=tuple(_lines(asked, chosen)),
        tables=tuple(_tables(asked, chosen)),
        drawings=asked.drawn(*_drawings(chosen)),
        findings=asked.advice(chosen.findings),
        sources=tuple(_sources(chosen)),
        cautions=tuple(_cautions(chosen)),
    )


def _tables(asked: CornersContext, chosen: JointPlan) -> Iterable[Table]:
    """The walls, what fits of the kind chosen, and what fits of any kind where no size of this one does."""
    walls = tuple(_walls(chosen))
    if walls:
        yield _wall_table(asked, walls)
    yield from _fitting_tables(asked, chosen)
    if not chosen.is_chosen or (chosen.slots and not chosen.fitting_slots):
        yield _best_table(asked, chosen)


def _drawings(chosen: JointPlan) -> Iterable[str]:
    if chosen.lapped:
        yield "lap"
    if can_be_drawn(chosen):
        yield from ("face", "plan")


def _bigs(asked: CornersContext, chosen: JointPlan) -> Iterable[Big]:
    if not chosen.is_chosen:
        yield Big(label="Joint", text="Bare mitre", says="held by glue alone")
        return
    yield Big(
        label="Verdict",
        text="Sound" if chosen.is_sound else "Not sound",
        says=f"walls of {asked.say(chosen.wall_mm)} wanted",
    )
    if chosen.slot_place:
        yield Big(label="Depth", text=asked.say(chosen.slot_place.slot.depth_mm), says="into each member")
    if chosen.splines:
        yield Big(label="Blade", text=asked.say(chosen.splines[0].blade_mm), says="above the table")
    if chosen.strength:
        least, most = chosen.strength.least_ratio, chosen.strength.most_ratio
        yield Big(
            label="Against the bare mitre", text=f"× {least:.1f} to {most:.1f}", says="glue area and grain, relative"
        )


def _lines(asked: CornersContext, chosen: JointPlan) -> Iterable[str]:
    if chosen.is_tray:
        yield TRAY
    yield from _slot_lines(asked, chosen)
    yield from _spline_lines(asked, chosen)
    yield from _lap_lines(asked, chosen)
    if chosen.pin:
        yield (
            f"The pin holds with {asked.say(chosen.pin.holds_mm)} of its length in the far member; its thinnest wall is"
            f" {asked.say(chosen.pin.walls.least_mm)}."
        )
    if chosen.wedge:
        yield f"The corner wedge leaves {asked.say(chosen.wedge.walls.least_mm)} where it is thinnest."


def _slot_lines(asked: CornersContext, chosen: JointPlan) -> Iterable[str]:
    place, length = chosen.slot_place, chosen.tenon_length
    if place is None:
        if chosen.slots:
            yield "Choose a size; those that fit are below."
        return
    yield _set_up(asked, place, thickness_mm=chosen.stock.thickness_mm)
    yield _room(asked, place)
    if length:
        trim = f"trim {asked.say(length.trim_mm)} off" if length.trim_mm > 0 else "it needs no trimming"
        yield f"The longest tenon with its glue room is {asked.say(length.longest_mm)}: {trim}."
    if chosen.widest_mouth_mm and chosen.deepest_slot_mm:
        yield (
            f"With the walls wanted a slot so deep may be {asked.say(chosen.widest_mouth_mm)} wide, and one so wide"
            f" {asked.say(chosen.deepest_slot_mm)} deep."
        )


def _set_up(asked: CornersContext, place: SlotPlace, *, thickness_mm: float) -> str:
    """The line for the set-up card: depth, fence, marks."""
    marks = place.marks
    return (
        f"Set-up card: {place.slot.name}, depth {asked.say(place.slot.depth_mm)}; fence to the middle of the cutter"
        f" {asked.say(place.height_mm)} from the back ({asked.say(thickness_mm - place.height_mm)} from the face);"
        " marks"
        f" {asked.say(marks.near_mm)}, {asked.say(marks.centre_mm)} and {asked.say(marks.far_mm)} from the tip."
    )


def _room(asked: CornersContext, place: SlotPlace) -> str:
    if not place.has_room:
        return "With the walls wanted it fits nowhere at this height."
    earliest, latest, lowest, highest = map(
        asked.say, (place.earliest_mm, place.latest_mm, place.lowest_mm, place.highest_mm)
    )
    return (
        f"Its middle may lie anywhere from {earliest} to {latest} from the tip and from {lowest} to {highest} above the"
        " back."
    )


def _spline_lines(asked: CornersContext, chosen: JointPlan) -> Iterable[str]:
    if not chosen.splines:
        return
    first = chosen.splines[0]
    heights = ", ".join(asked.say(spline.height_mm) for spline in chosen.splines)
    yield (
        f"Set-up card: {'splines' if len(chosen.splines) > 1 else 'spline'}, blade {asked.say(first.blade_mm)}"
        " above the"
        f" table (cradle and depth), middle {heights} from the back."
    )
    yield (
        f"It may go {asked.say(chosen.even_depth_mm)} deep with its wall, and shows {asked.say(first.visible_mm)}"
        " long on"
        " each outer edge."
    )
    blank = first.blank
    yield (
        f"Blank {asked.say(blank.length_mm)} × {asked.say(blank.width_mm)}, {asked.say(blank.thickness_mm)} thick, its"
        " grain across the joint."
    )


def _lap_lines(asked: CornersContext, chosen: JointPlan) -> Iterable[str]:
    lapped = chosen.lapped
    if lapped is None:
        return
    reach, between = asked.say(lapped.reach_mm), asked.say(lapped.between_mm)
    if chosen.half_laps:
        yield f"Set-up card: half-lap, split {asked.say(lapped.high_mm)} above the back, laps {reach} wide."
        yield (
            f"Behind the split left and right run through at {asked.say(lapped.upright_long_mm)}; top and bottom are"
            f" cut back square to {between} between shoulders. In front of it all four are mitred, as long as planned."
        )
        return
    yield (
        f"Set-up card: bridle, tenon and slot from {asked.say(lapped.low_mm)} to {asked.say(lapped.high_mm)} above the"
        f" back, {reach} deep."
    )
    yield (
        f"Left and right carry the tenons and run through at {asked.say(lapped.upright_long_mm)}; top and bottom are"
        f" slotted, {between} between the bottoms of their slots. Before and behind all four are mitred, as long as"
        " planned."
    )


def _walls(chosen: JointPlan) -> Iterable[tuple[str, Walls]]:
    if chosen.slot_place:
        yield chosen.slot_place.slot.name, chosen.slot_place.walls
    if chosen.pin:
        yield "pin", chosen.pin.walls
    if chosen.wedge:
        yield "corner wedge", chosen.wedge.walls


def _wall_table(asked: CornersContext, walls: tuple[tuple[str, Walls], ...]) -> Table:
    return Table(
        caption="Walls that stay",
        heads=("Of the", "Outer", "Inner", "Back", "Face"),
        rows=tuple(
            (name, *(asked.say(wall_mm) for wall_mm in (left.outer_mm, left.inner_mm, left.back_mm, left.face_mm)))
            for name, left in walls
        ),
    )


def _fitting_tables(asked: CornersContext, chosen: JointPlan) -> Iterable[Table]:
    if not chosen.slots:
        return
    rows = tuple(
        (
            place.slot.name,
            asked.say(place.slot.mouth_mm),
            asked.say(place.slot.depth_mm),
            asked.say(place.walls.least_mm),
            "" if chosen.kind != "loose tenon" or place.slot.name in chosen.usual_names else "thicker than a third",
        )
        for place in chosen.fitting_slots
    )
    caption = "Sizes that leave sound walls, the largest first" if rows else "No ready size leaves sound walls here"
    yield Table(caption=caption, heads=("Size", "Mouth", "Depth", "Thinnest wall", "Remark"), rows=rows)


def _best_table(asked: CornersContext, chosen: JointPlan) -> Table:
    """The largest of every kind that this mitre takes with the walls wanted."""
    rows = [_best_row(asked, kind, place) for kind, place in chosen.best_slots.items()]
    deepest_mm = chosen.deepest_spline_mm
    rows.append(("spline", "any", f"to {asked.say(deepest_mm)} deep" if deepest_mm else "no room for one"))
    return Table(
        caption=f"What fits at {asked.say(chosen.height_mm)} above the back, with walls of {asked.say(chosen.wall_mm)}",
        heads=("Joint", "Largest", "Mouth and depth"),
        rows=tuple(rows),
    )


def _best_row(asked: CornersContext, kind: str, place: SlotPlace | None) -> tuple[str, ...]:
    if place is None:
        return kind, "none", "no ready size leaves sound walls"
    slot = place.slot
    return kind, slot.name.split(" ", 1)[1], f"{asked.say(slot.mouth_mm)} × {asked.say(slot.depth_mm)}"


def _sources(chosen: JointPlan) -> Iterable[str]:
    yield DERIVED
    if chosen.kind in _STATUS:
        yield _STATUS[chosen.kind]
    if chosen.strength:
        yield (
            "What end grain is worth is not known well, so strength is a range and no load; Hankinson's formula,"
            f" from memory. Walls and glue room: {PRACTICE}."
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
