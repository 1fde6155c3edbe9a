"""What the buttons of the page do: marks on the piece, by a button or by a tap; a dust cover."""

from framecalc.package.layers import LayerKind
from framecalc.project import items_of, remove_item
from framecalc.project.hand_over import MOST_MARKS
from framecalc.project.usual_values import layer_from_shelf, step_text
from framecalc.records import replace
from webapp.live.actions import MOST_LAYERS, TAPPED_ACROSS, Edit, NotDone, carry_out, filling
from webapp.live.desk import Desk, new_id
from webapp.live.typed.forms import Draft, Typed
from webapp.pages.hand_over.fields import hand_over_fields_in

COVER, MARKS = "dust", "hand_over.intake.marks"


def act(desk: Desk, draft: Draft, typed: Typed, frame_id: str) -> Draft:
    """Apply the pressed button to a draft; a tap on the piece adds a mark, `save` changes nothing more."""
    typed = replace(typed, do="add-mark") if "tap.x" in typed.texts else typed
    return carry_out(draft, typed, frame_id=frame_id, shop=desk.shop(), also=HAND_OVER_ACTIONS)


def _add_mark(edit: Edit, _: str) -> None:
    """Add a mark where the piece was tapped; without a tap in its upper left corner."""
    marks = items_of(edit.document, f"{edit.here}{MARKS}")
    if len(marks) >= MOST_MARKS:
        raise NotDone(f"{MOST_MARKS} marks are as many as there can be")
    plan = edit.plan()
    tap = edit.typed.tap("tap") if "tap.x" in edit.typed.texts else (0, 0)
    if tap is None:
        raise NotDone("Tap on the piece")
    mm_per_px, sizes_mm = plan.fit.across_mm / TAPPED_ACROSS, (plan.fit.across_mm, plan.fit.up_mm)
    across, down = (
        step_text(min(place * mm_per_px, size_mm), plan.step) for place, size_mm in zip(tap, sizes_mm, strict=True)
    )
    marks.append({"id": new_id(), "across": across, "down": down, "says": ""})


def _remove_mark(edit: Edit, mark_id: str) -> None:
    remove_item(edit.document, f"{edit.here}{MARKS}", mark_id)


def _add_cover(edit: Edit, _: str) -> None:
    """Add the ready-made dust cover behind all layers."""
    if len(edit.layers) >= MOST_LAYERS:
        raise NotDone(f"{MOST_LAYERS} layers are as many as there can be")
    edit.layers.append({**layer_from_shelf(COVER, words=edit.words, new_id=new_id)})


def _remove_cover(edit: Edit, _: str) -> None:
    edit.layers[:] = [layer for layer in edit.layers if layer["kind"] != LayerKind.DUST_COVER]


HAND_OVER_ACTIONS = {
    "add-mark": _add_mark,
    "remove-mark": _remove_mark,
    "add-cover": _add_cover,
    "remove-cover": _remove_cover,
    "fill": filling(hand_over_fields_in),
}
"""The buttons of the page that no other page has, by name."""
