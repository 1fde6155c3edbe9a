"""What the buttons of the corners page do: add or remove a test cut, record that the fence has been turned."""

from framecalc.project import items_at, items_of, part_of, remove_item, text_at
from framecalc.project.document import Document
from framecalc.sizes.polygons import side_names
from webapp.live.actions import Edit, filling
from webapp.live.desk import Desk, frame_in, new_id
from webapp.live.typed.forms import Draft, Typed, confirm, edited
from webapp.pages.corners.fields import corner_fields_in


def carry_out(desk: Desk, draft: Draft, typed: Typed, frame_id: str) -> Draft:
    """Apply the pressed button to a draft; `save` changes nothing more."""
    name, argument = typed.do.partition(":")[::2]
    frame_in(draft.document, frame_id)
    if name == "confirm":
        return edited(draft, lambda document: confirm(document, argument.__eq__))
    if name == "fill":
        shop = desk.shop()
        return edited(
            draft,
            lambda document: _fill(Edit(document=document, frame_id=frame_id, typed=typed, shop=shop), argument),
        )
    frame = draft.checked.frame(frame_id)
    if name == "add-sides" and frame:
        argument = str(frame.shape.sides)
    if name not in _ACTIONS:
        return draft
    return edited(draft, lambda document: _ACTIONS[name](part_of(document, f"frames.{frame_id}.corner"), argument))


def _add_test(corner: Document, argument: str) -> None:
    at: Document = {"setting": corner.get("settings", 0), "since": corner.get("since", "")}
    items_of(corner, "tests").append({"id": new_id()} | at)


def _remove_test(corner: Document, test_id: str) -> None:
    remove_item(corner, "tests", test_id)


def _turned(corner: Document, argument: str) -> None:
    """Record that the fence has been turned: the next test cuts belong to another setting."""
    settings = corner.get("settings", 0)
    corner["settings"] = settings + 1 if isinstance(settings, int) else 1


def _add_sides(corner: Document, sides: str) -> None:
    """Add the sides of a polygon that are not there yet, in their order."""
    known = {text_at(side, "id"): side for side in items_at(corner, "numbered")}
    wanted: dict[str, Document] = {f"s{name}": {"id": f"s{name}"} for name in side_names(int(sides))}
    corner["numbered"] = [*(wanted | known).values()]


_fill = filling(corner_fields_in)

_ACTIONS = {"add-test": _add_test, "remove-test": _remove_test, "turned": _turned, "add-sides": _add_sides}
"""What the buttons do to the corners of a frame, by name."""
