"""What the buttons on the pages of a frame do to a document. Each works on the typed values, and is saved like typing.

A button sends `do=name` or `do=name:argument`. An action changes the document in place; one that
cannot be carried out says why in one sentence.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TypeAlias

from framecalc.errors import FrameCalcError
from framecalc.package.layers import LayerKind
from framecalc.package.shelf import ready_made
from framecalc.plan import FramePlan, Plan
from framecalc.plan.advice import WayOut
from framecalc.project import items_at, items_of, read_project, set_value, text_at, texts_at, value_at
from framecalc.project.document import Document, Json
from framecalc.project.form import fields_under
from framecalc.project.package import Mat
from framecalc.project.section import MOST_POINTS
from framecalc.project.usual_values import clearance_text, layer_from_shelf, step_text, usual_values
from framecalc.records import Record
from framecalc.section.typed_points import WayToPoint
from framecalc.units import Comma, Unit, parse_length
from framecalc.words import Words
from webapp.data.shop import ShopProfile, shop_values
from webapp.live.desk import new_id
from webapp.live.typed.field import FieldSet
from webapp.live.typed.forms import Draft, Typed, confirm, edited
from webapp.live.typed.texts import Reading, value_of

TAPPED_ACROSS = 320
"""How wide a picture is shown that is tapped without scripts, in pixels of the page."""

MOST_LAYERS = 24
FIRST_POINTS = {
    Unit.MM: (("0 mm", "3 mm"), ("12 mm", "0 mm")),
    Unit.INCH: (("0 in", "1/8 in"), ("1/2 in", "0 in")),
}
"""The first two points of a face, across and down: a flat bevel to start from. Common practice, no source."""

CONFIRMED_TOGETHER = {
    "section": ("section.",),
    "mat": ("package.mat.",),
    "package": ("package.layers.",),
    "fit": ("package.clearance_",),
    "saw": ("shop.",),
}
"""Which assumed values one button confirms together, by the beginning of their paths within the frame."""


class NotDone(FrameCalcError):
    """A button whose action cannot be carried out."""


class Edit(Record):
    """A document that an action edits, and the frame on the page."""

    document: Document
    frame_id: str
    typed: Typed
    shop: ShopProfile

    @property
    def here(self) -> str:
        """The start of every path of the frame."""
        return f"frames.{self.frame_id}."

    @property
    def words(self) -> Words:
        """The trade words of the project."""
        return Words(text_at(self.document, "shop.words"))

    @property
    def unit(self) -> Unit:
        """The unit of the project."""
        return Unit(text_at(self.document, "unit"))

    @property
    def layers(self) -> list[Document]:
        """The layers of the package of the frame, to be changed in place."""
        return items_of(self.document, f"{self.here}package.layers")

    def value(self, path: str) -> Json:
        """The value at a path of the frame."""
        return value_at(self.document, self.here + path)

    def items(self, path: str) -> list[Document]:
        """The items of a list at a path of the frame; none where there is no list."""
        return items_at(self.document, self.here + path)

    def set(self, path: str, value: Json) -> None:
        """Put a value at a path of the frame."""
        set_value(self.document, self.here + path, value)

    def assume(self, *paths: str) -> None:
        """Mark paths of the frame as holding usual values that nobody has confirmed."""
        there = texts_at(self.document, "assumed")
        self.document["assumed"] = [*dict.fromkeys([*there, *(self.here + path for path in paths)])]

    def plan(self) -> FramePlan:
        """The plan of the frame in its present state."""
        return Plan(read_project(self.document)).frames[self.frame_id]


Action: TypeAlias = Callable[[Edit, str], None]
"""What a button does to a document; the text is what follows the colon in what it sends."""

NO_MORE: Mapping[str, Action] = MappingProxyType({})


def carry_out(
    draft: Draft, typed: Typed, *, frame_id: str, shop: ShopProfile, also: Mapping[str, Action] = NO_MORE
) -> Draft:
    """Apply the pressed button to a draft; `save` changes nothing more.

    Args:
        also: actions of one page alone, by name.
    Returns: the changed draft, or the draft with a sentence that says why the action fails.
    """
    if typed.do == "save":
        return draft
    name, _, argument = typed.do.partition(":")
    action = {**ACTIONS, **also}.get(name, _unknown)
    return edited(
        draft,
        lambda document: action(Edit(document=document, frame_id=frame_id, typed=typed, shop=shop), argument),
    )


def filling(fields_in: Callable[[Document, str], FieldSet]) -> Callable[[Edit, str], None]:
    """The button of a way out that fills a field, like typing; its argument is `path:text`.

    A field of the page, or of the frame where another page has it: a pane asks for wider sides.
    """

    def fill(edit: Edit, argument: str) -> None:
        path, _, text = argument.partition(":")
        here = fields_in(edit.document, edit.frame_id).fields
        one = here.get(path) or fields_under(edit.document, edit.here.rstrip(".")).get(path)
        if one is None:
            raise NotDone("this way out fills a field that is not there any more")
        reading = Reading(unit=edit.unit, comma=Comma(text_at(edit.document, "shop.comma")))
        try:
            set_value(edit.document, path, value_of(text, one, reading))
        except FrameCalcError as error:
            raise NotDone(error.sentence, field=path) from error
        confirm(edit.document, path.__eq__)

    return fill


def _unknown(edit: Edit, argument: str) -> None:
    raise NotDone("this button is not known here: nothing was changed by it")


def _confirm(edit: Edit, path: str) -> None:
    confirm(edit.document, path.__eq__)


def _confirm_group(edit: Edit, group: str) -> None:
    begins = CONFIRMED_TOGETHER.get(group, ())
    confirm(edit.document, lambda path: path.removeprefix(edit.here).startswith(begins))


def _fix(edit: Edit, argument: str) -> None:
    way = _way_out(edit.plan(), argument)
    set_value(edit.document, way.path, way.text)
    confirm(edit.document, way.path.__eq__)


def _way_out(plan: FramePlan, argument: str) -> WayOut:
    code, _, number = argument.rpartition(":")
    ways = [way for advice in plan.advice if advice.code == code for way in advice.ways]
    if not number.isdecimal() or int(number) >= len(ways):
        raise NotDone("this way out no longer fits what is typed: the findings have been worked out again")
    return ways[int(number)]


def _add_mat(edit: Edit, argument: str) -> None:
    if edit.value("package.mat"):
        edit.set("package.mat.is_planned", True)
        return
    edit.set("package.mat", usual_values(Mat, edit.unit))
    mat = fields_under(edit.document, f"{edit.here}package.mat").items()
    edit.assume(*(path.removeprefix(edit.here) for path, field in mat if field.to_confirm))


def _remove_mat(edit: Edit, argument: str) -> None:
    """Plan the frame without a mat; what was typed about it, and its boards, stay in the file."""
    if edit.value("package.mat"):
        edit.set("package.mat.is_planned", False)


def _add_layer(edit: Edit, argument: str) -> None:
    if edit.typed.new_layer not in ready_made():
        raise NotDone("choose a layer from the list first", field=f"{edit.here}package.layers")
    layers = edit.layers
    if len(layers) >= MOST_LAYERS:
        raise NotDone(f"{MOST_LAYERS} layers are as many as there can be", field=f"{edit.here}package.layers")
    layer = layer_from_shelf(edit.typed.new_layer, words=edit.words, new_id=new_id)
    layers.insert(_place(layers, layer["kind"]), {**layer})
    edit.assume(f"package.layers.{layer['id']}.thickness")


def _place(layers: list[Document], kind: str) -> int:
    """The place of a new layer: behind the last layer that belongs as far to the front."""
    order = [kind.value for kind in LayerKind]
    rank = order.index(kind)
    in_front = [at for at, layer in enumerate(layers) if order.index(text_at(layer, "kind")) <= rank]
    return in_front[-1] + 1 if in_front else 0


def _remove_layer(edit: Edit, layer_id: str) -> None:
    edit.layers.pop(_position(edit.layers, layer_id))
    confirm(edit.document, lambda path: path.startswith(f"{edit.here}package.layers.{layer_id}."))


def _take_out(edit: Edit, kind: str) -> None:
    """Remove every layer of a kind; a mat is kept as typed, and no longer planned."""
    if kind == LayerKind.MAT:
        _remove_mat(edit, "")
        return
    for layer in [layer for layer in edit.layers if layer["kind"] == kind]:
        _remove_layer(edit, text_at(layer, "id"))


def _move_layer(edit: Edit, layer_id: str, by: int) -> None:
    """Move a layer past the next one that the page shows."""
    layers, at = edit.layers, _position(edit.layers, layer_id)
    has_mat = edit.value("package.mat") is not None and edit.value("package.mat.is_planned") is not False
    to = at + by
    while 0 < to < len(layers) - 1 and layers[to]["kind"] == LayerKind.MAT and not has_mat:
        to += by
    layers.insert(min(max(to, 0), len(layers) - 1), layers.pop(at))


def _position(layers: list[Document], layer_id: str) -> int:
    at = next((at for at, layer in enumerate(layers) if layer["id"] == layer_id), None)
    if at is None:
        raise NotDone("this layer is not there any more")
    return at


def _add_point(edit: Edit, point_id: str) -> None:
    """Add a point of the face halfway to the next one; the first two bevel the sight edge."""
    points = edit.items("section.points")
    if len(points) >= MOST_POINTS:
        raise NotDone(f"{MOST_POINTS} points are as many as there can be", field=f"{edit.here}section.face")
    at = next((at for at, point in enumerate(points) if point["id"] == point_id), len(points) - 1)
    added = [_point(across, down) for across, down in _places_after(edit, points, at)]
    edit.set("section.points", [*points[: at + 1], *added, *points[at + 1 :]])
    edit.assume(*(f"section.points.{point['id']}.{name}" for point in added for name in ("across", "down")))


def _places_after(edit: Edit, points: list[Document], at: int) -> list[tuple[str, str]]:
    """Where new points go, across and down, as they would be typed."""
    if not points:
        return list(FIRST_POINTS[edit.unit])
    here, step = points[at], edit.plan().step
    outer: Document = {"across": edit.value("section.face_width"), "down": here["down"]}
    after = points[at + 1] if at + 1 < len(points) else outer
    across_mm, down_mm = (_middle_mm(text_at(here, name), text_at(after, name)) for name in ("across", "down"))
    return [(step_text(across_mm, step), step_text(down_mm, step))]


def _middle_mm(one: str, other: str) -> float:
    return (parse_length(one).mm + parse_length(other).mm) / 2


def _point(across: str, down: str) -> Document:
    return {"id": new_id(), "across": across, "down": down, "way": WayToPoint.LINE.value}


def _remove_point(edit: Edit, point_id: str) -> None:
    points = [point for point in edit.items("section.points") if point["id"] != point_id]
    edit.set("section.points", points)
    confirm(edit.document, lambda path: path.startswith(f"{edit.here}section.points.{point_id}."))


def _usual_clearance(edit: Edit, argument: str) -> None:
    plan = edit.plan()
    kind, sizes = plan.frame.artwork.kind, plan.sizes
    usual = clearance_text(kind, across_mm=sizes.package_across_mm, up_mm=sizes.package_up_mm, step=plan.step)
    for direction in ("across", "up"):
        edit.set(f"package.clearance_{direction}", edit.shop.clearance(kind) or usual)


def _fit_to_the_tape(edit: Edit, argument: str) -> None:
    plan = edit.plan()
    if plan.is_tray:
        raise NotDone("a tray has no clearance that could take up the difference: set the gap by hand")
    if plan.is_bought:
        raise NotDone("A bought moulding keeps its sizes: set the clearance by hand.")
    fit = plan.tape_fit
    edit.set("section.face_width", step_text(fit.face_width_mm, plan.step))
    edit.set("section.rabbet_width", step_text(fit.rabbet_width_mm, plan.step))
    edit.set("package.clearance_across", exact_text(fit.clearance_across_mm))
    edit.set("package.clearance_up", exact_text(fit.clearance_up_mm))


def exact_text(length_mm: float) -> str:
    """A length in millimetres, unrounded: a clearance that takes up a difference is rarely a round number.

    Seven decimals are exact for every length that can be typed, down to 1/128 in.

    >>> exact_text(3.175)
    '3.175 mm'
    """
    return f"{f'{length_mm:.7f}'.rstrip('0').rstrip('.')} mm"


def _change_unit(edit: Edit, argument: str) -> None:
    if argument not in set(Unit):
        raise NotDone("Choose millimetres or inches")
    edit.document["unit"] = argument


def _take_shop(edit: Edit, argument: str) -> None:
    edit.document["shop"] = shop_values(edit.shop)
    confirm(edit.document, "shop.kerf".__eq__)


def _measured_once(edit: Edit, argument: str) -> None:
    for name in ("across_bottom", "up_right", "diagonal_rising", "diagonal_falling"):
        edit.set(f"artwork.{name}", None)


ACTIONS: dict[str, Action] = {
    "confirm": _confirm,
    "confirm-group": _confirm_group,
    "fix": _fix,
    "add-mat": _add_mat,
    "remove-mat": _remove_mat,
    "add-layer": _add_layer,
    "remove-layer": _remove_layer,
    "take-out": _take_out,
    "add-point": _add_point,
    "remove-point": _remove_point,
    "layer-up": lambda edit, layer_id: _move_layer(edit, layer_id, -1),
    "layer-down": lambda edit, layer_id: _move_layer(edit, layer_id, +1),
    "usual-clearance": _usual_clearance,
    "fit-to-tape": _fit_to_the_tape,
    "unit": _change_unit,
    "take-shop": _take_shop,
    "measured-once": _measured_once,
}
"""The buttons of the setting-out page, which other pages of a frame have too, by name."""
