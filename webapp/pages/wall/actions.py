"""What the buttons of the wall page do: things on the wall, the order of the frames, places of their own, ways out."""

from framecalc.drawing.wall.group import wall_drawing
from framecalc.hanging.groups import Arrangement, WallLine
from framecalc.hanging.placing import Lines, put
from framecalc.hanging.suggested import gap_in_proportion_mm, over_furniture
from framecalc.hanging.things import USUAL_SIZES, ThingKind
from framecalc.plan import Plan
from framecalc.project import items_at, items_of, read_project, remove_item, set_value, text_at
from framecalc.project.usual_values import step_text
from framecalc.project.wall import MOST_THINGS
from framecalc.records import replace
from framecalc.units import Unit, parse_length
from webapp.live.actions import TAPPED_ACROSS, Edit, NotDone, carry_out, exact_text, filling
from webapp.live.desk import Desk, new_id
from webapp.live.typed.forms import Draft, Typed
from webapp.pages.wall.fields import wall_fields_in

REACH_PX = 8
"""How near a tap is to what it snaps to, in pixels of the page."""


def act(desk: Desk, draft: Draft, typed: Typed, frame_id: str) -> Draft:
    """Apply the pressed button to a draft; `save` changes nothing more."""
    typed = replace(typed, do="put") if "spot.x" in typed.texts else typed
    return carry_out(draft, typed, frame_id=frame_id, shop=desk.shop(), also=WALL_ACTIONS)


def _add_thing(edit: Edit, kind: str) -> None:
    """Add something on the wall at its usual size, by the left corner; the kind stands in the form or the button."""
    kind = kind or str(edit.typed.texts.get("new_thing", ""))
    things = items_of(edit.document, "wall.things")
    if kind not in set(ThingKind):
        raise NotDone("choose what is on the wall from the list")
    if len(things) >= MOST_THINGS:
        raise NotDone(f"{MOST_THINGS} things are as many as there can be")
    inch = edit.unit is Unit.INCH
    sizes = USUAL_SIZES[ThingKind(kind)][inch]
    things.append({"id": new_id(), "kind": kind, "name": kind, "left": "0 in" if inch else "0 mm", **sizes})


def _remove_thing(edit: Edit, thing_id: str) -> None:
    remove_item(edit.document, "wall.things", thing_id)


def _earlier(edit: Edit, key: str) -> None:
    """Let a frame change places with the one before it."""
    keys = [piece.key for piece in _plan(edit).wall.pieces]
    if key not in keys or keys.index(key) == 0:
        raise NotDone("it is the first already")
    at = keys.index(key)
    keys[at - 1], keys[at] = keys[at], keys[at - 1]
    set_value(edit.document, "wall.order", keys)
    _swap_places(edit, keys[at - 1], keys[at])


def _swap_places(edit: Edit, one: str, other: str) -> None:
    """Frames that have places of their own change those too."""
    ids = {one: other, other: one}
    for place in items_at(edit.document, "wall.places"):
        place["id"] = ids.get(text_at(place, "id"), place["id"])


def _balance(edit: Edit, _: str) -> None:
    """Put them in the order in which both halves of a row weigh alike to the eye."""
    set_value(edit.document, "wall.order", list(_plan(edit).wall.balanced))


def _over(edit: Edit, thing_id: str) -> None:
    """Hang the group over a piece of furniture: in its middle, the lower edges a hand's breadth above it."""
    plan = _plan(edit)
    typed, placed = plan.project.wall.things, plan.wall.things
    place = next((one.place for thing, one in zip(typed, placed, strict=True) if thing.id == thing_id), None)
    if place is None:
        raise NotDone("It is not on the wall any more")
    found, step = over_furniture(place), plan.project.shop.step(edit.unit)
    set_value(edit.document, "wall.middle", step_text(found.middle_mm, step))
    set_value(edit.document, "wall.line", step_text(found.low_mm, step))
    set_value(edit.document, "wall.on_line", WallLine.BOTTOM.value)
    if plan.project.wall.arrangement is Arrangement.FREE:
        set_value(edit.document, "wall.arrangement", Arrangement.ROW.value)


def _gap(edit: Edit, _: str) -> None:
    """A gap in proportion to the frames."""
    plan = _plan(edit)
    gap_mm = gap_in_proportion_mm([one.across_mm for one in plan.wall.placed])
    set_value(edit.document, "wall.gap", step_text(gap_mm, plan.project.shop.step(edit.unit)))


def _place_by_hand(edit: Edit, _: str) -> None:
    """Fix every frame where it is; from now on their places are typed."""
    places = [{"id": one.key, "across": _text(one.x_mm), "up": _text(one.y_mm)} for one in _plan(edit).wall.placed]
    set_value(edit.document, "wall.places", places)
    set_value(edit.document, "wall.arrangement", Arrangement.FREE.value)


def _put(edit: Edit, _: str) -> None:
    """Put the chosen frame where the wall was tapped, snapped to what is near; from then on places are typed."""
    wall, key = _plan(edit).wall, edit.typed.beside.get("piece", "")
    tap = edit.typed.tap("spot")
    mine = next((one for one in wall.placed if one.key == key), None)
    if mine is None or tap is None:
        raise NotDone("Choose a frame, then tap the wall")
    drawn = wall_drawing(_plan(edit)).view
    mm_per_px = drawn.across_mm / TAPPED_ACROSS
    across_mm, up_mm = tap[0] * mm_per_px, drawn.up_mm - tap[1] * mm_per_px
    lines = Lines(
        line_mm=wall.line_mm,
        gap_mm=wall.gap_mm,
        wall_mm=drawn.across_mm,
        reach_mm=REACH_PX * mm_per_px,
        ceiling_mm=drawn.up_mm,
    )
    others = [one for one in wall.placed if one.key != key]
    at = put(replace(mine, x_mm=across_mm, y_mm=up_mm), others=others, lines=lines)
    _place_by_hand(edit, "")
    for name, size_mm in (("across", at.x_mm), ("up", at.y_mm)):
        set_value(edit.document, f"wall.places.{key}.{name}", _text(size_mm))


def _text(length_mm: float) -> str:
    text = exact_text(max(length_mm, 0.0))
    parse_length(text)
    return text


def _plan(edit: Edit) -> Plan:
    return Plan(read_project(edit.document))


WALL_ACTIONS = {
    "add-thing": _add_thing,
    "remove-thing": _remove_thing,
    "earlier": _earlier,
    "balance": _balance,
    "over": _over,
    "gap": _gap,
    "place-by-hand": _place_by_hand,
    "put": _put,
    "fill": filling(wall_fields_in),
}
"""The buttons of the page that no other page has, by name."""
