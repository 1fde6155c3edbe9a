"""What the buttons of the package page do, besides those of the setting-out page: windows, a second mat, ways out."""

from functools import partial

from framecalc.mats.windows import MOST_WINDOWS
from framecalc.package.layers import LayerKind
from framecalc.project import items_at, items_of, part_of, remove_item, text_at
from framecalc.project.document import Document
from framecalc.project.moved import ROOM
from framecalc.project.usual_values import layer_from_shelf, step_text
from framecalc.units import Unit
from webapp.live.actions import MOST_LAYERS, Edit, NotDone, carry_out, filling
from webapp.live.desk import Desk, new_id
from webapp.live.typed.forms import Draft, Typed, confirm
from webapp.pages.package.fields import package_fields_in

USUAL_REVEAL = {Unit.MM: "6 mm", Unit.INCH: "1/4 in"}
"""What usually shows of the lower of two mats. Common practice, no source."""


def act(desk: Desk, draft: Draft, typed: Typed, frame_id: str) -> Draft:
    """Apply the pressed button to a draft; `save` changes nothing more."""
    return carry_out(draft, typed, frame_id=frame_id, shop=desk.shop(), also=PACKAGE_ACTIONS)


def _add_window(edit: Edit, argument: str) -> None:
    """Add a picture of the artwork's size; if windows are placed by hand, to the right of them all."""
    mat = _mat(edit)
    windows = items_of(mat, "windows")
    if len(windows) + 1 >= MOST_WINDOWS:
        raise NotDone(f"{MOST_WINDOWS} windows are as many as there can be")
    window: Document = {"id": new_id(), "across": edit.value("artwork.across"), "up": edit.value("artwork.up")}
    if windows:
        window |= {name: windows[-1][name] for name in ("across", "up")}
    plan = edit.plan()
    mats, typed = plan.package.mats, plan.frame.package.mat
    if mats and typed:
        first_mm = min([typed.left.mm, *(one.left.mm for one in typed.windows)])
        window["left"] = step_text(first_mm + mats.mat.window_across_mm + typed.gap.mm, plan.step)
    windows.append(window)


def _remove_window(edit: Edit, window_id: str) -> None:
    remove_item(_mat(edit), "windows", window_id)


def _place_by_hand(edit: Edit, argument: str) -> None:
    """Fix the windows where they are; from now on their places are typed."""
    plan, mat = edit.plan(), _mat(edit)
    mats = plan.package.mats
    if mats is None:
        raise NotDone("nothing is matted in a tray")
    left_mm = min(window.left_mm for window in mats.windows.windows)
    low_mm = min(window.bottom_mm for window in mats.windows.windows)
    for typed, window in zip([mat, *items_at(mat, "windows")], mats.windows.windows, strict=True):
        typed["left"] = step_text(window.left_mm - left_mm, plan.step)
        typed["below"] = step_text(window.bottom_mm - low_mm, plan.step)
    mat["arrangement"] = "placed by hand"


def _second_mat(edit: Edit, argument: str) -> None:
    """Add a second mat behind the first, and its reveal."""
    mat, layers = _mat(edit), edit.layers
    mats = [at for at, layer in enumerate(layers) if layer["kind"] == LayerKind.MAT]
    mat["reveal"] = USUAL_REVEAL[edit.unit]
    if len(mats) > 1:
        return
    if len(layers) >= MOST_LAYERS:
        raise NotDone(f"{MOST_LAYERS} layers are as many as there can be", field=f"{edit.here}package.layers")
    like, lower_id = layers[mats[0]] if mats else layer_from_shelf("mat", words=edit.words, new_id=new_id), new_id()
    lower = {**like, "id": lower_id, "name": f"{text_at(like, 'name')}, lower"[:120]}
    layers.insert(mats[0] + 1 if mats else 0, lower)
    edit.assume(f"package.layers.{lower_id}.thickness")


def _one_mat(edit: Edit, argument: str) -> None:
    """Remove the lower mats."""
    _mat(edit)["reveal"] = "0 mm"
    for layer in [layer for layer in edit.layers if layer["kind"] == LayerKind.MAT][1:]:
        edit.layers.remove(layer)
        confirm(edit.document, partial(_belongs, above=f"{edit.here}package.layers.{layer['id']}."))


def _belongs(path: str, *, above: str) -> bool:
    return path.startswith(above)


def _use_earlier_air(edit: Edit, argument: str) -> None:
    """Have what an older file said of the air counted again, in the place where it is typed now."""
    for name, text in part_of(edit.document, f"{edit.here}fitting.earlier_air").items():
        edit.set(f"corner.seasons.{ROOM[name][0]}", text)
    _drop_earlier_air(edit, argument)


def _drop_earlier_air(edit: Edit, argument: str) -> None:
    """Forget what an older file said of the air."""
    edit.set("fitting.earlier_air", None)


def _mat(edit: Edit) -> Document:
    mat = edit.value("package.mat")
    if not isinstance(mat, dict) or not mat:
        raise NotDone("Add a mat first")
    return mat


PACKAGE_ACTIONS = {
    "add-window": _add_window,
    "remove-window": _remove_window,
    "place-by-hand": _place_by_hand,
    "second-mat": _second_mat,
    "one-mat": _one_mat,
    "fill": filling(package_fields_in),
    "use-earlier-air": _use_earlier_air,
    "drop-earlier-air": _drop_earlier_air,
}
"""The buttons of the page that no other page has, by name."""
