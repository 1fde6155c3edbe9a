"""What the package page shows beside its fields: the groups, the layers and windows, what stands on the shelf."""

from collections.abc import Iterable
from functools import partial
from typing import Any

from framecalc.artwork import Kind
from framecalc.package import LayerKind
from framecalc.shelf import ReadyMade, ready_made
from webapp.answer import Answer
from webapp.desk import Desk, Opened
from webapp.package_groups import GROUPS, Asked, Group, groups_of
from webapp.page import where
from webapp.slots import field_views, slots_of


def package_shown(
    desk: Desk, opened: Opened, answer: Answer, *, notice: str = "", renews: bool = False
) -> dict[str, Any]:
    """Everything the package page shows."""
    frame = answer.frame
    return {
        "opened": opened,
        "answer": answer,
        "project": answer.project,
        "frame": frame,
        "base": opened.revision.number,
        "words": answer.project.shop.words,
        "address": package_address(opened.project_id, frame.id),
        "fields": field_views(answer),
        "slots": tuple(slots_of(answer)),
        "groups": _groups(answer),
        "titles": {name: title for name, (title, _) in GROUPS.items()},
        "messages": answer.messages,
        "layers": frame.package.layers,
        "windows": frame.package.mat.windows if frame.package.mat else (),
        "has_fillet": any(layer.kind is LayerKind.FILLET for layer in frame.package.layers),
        "has_two_mats": sum(layer.kind is LayerKind.MAT for layer in frame.package.layers) > 1,
        "is_canvas": frame.artwork.kind is Kind.CANVAS,
        "is_boxed": frame.artwork.kind is Kind.OBJECT or frame.fitting.box.object_depth is not None,
        "has_panel": answer.plan.package.growth.has_panel if not answer.impossible else False,
        "shelf": tuple(_shelf()),
        "place": "package",
        "notice": notice,
        "renews": renews,
        "unit": answer.project.unit.value,
        "kept": bool(answer.impossible),
        "where": partial(where, words=answer.project.shop.words),
    }


def package_address(project_id: str, frame_id: str) -> str:
    """The address of the package page of a frame."""
    return f"/projects/{project_id}/frames/{frame_id}/package"


def _groups(answer: Answer) -> dict[str, Group]:
    """Every group; a field that could not be taken counts as it was. All are empty where the frame is impossible."""
    if answer.impossible:
        return {name: Group(name=name) for name in GROUPS}
    return groups_of(Asked(plan=answer.plan))


def _shelf() -> Iterable[tuple[str, tuple[tuple[str, str], ...]]]:
    """The layers of the shelf by what they are for, each with what stands behind its thickness."""
    for kind in LayerKind:
        here = tuple((name, _said(layer)) for name, layer in ready_made().items() if layer.kind is kind)
        yield f"{kind.value[:1].upper()}{kind.value[1:]}", here


def _said(layer: ReadyMade) -> str:
    behind = layer.standing.value if layer.source.startswith("common") else f"{layer.source}, {layer.standing.value}"
    return f"{layer.name}: {layer.thickness} ({behind})"
