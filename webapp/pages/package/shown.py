"""What the package page shows beside its fields: the groups, the layers and windows, what stands on the shelf."""

from collections.abc import Iterable
from dataclasses import replace
from functools import partial
from typing import Any

from framecalc.artwork.measuring import ArtworkKind
from framecalc.package.layers import LayerKind
from framecalc.package.shelf import ReadyMade, ready_made
from webapp.live.answer import Answer
from webapp.live.answers import Link
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.slots import field_views
from webapp.pages.package.groups import GROUPS, AnswerGroup, PackageContext, groups_of
from webapp.pages.setting_out.shown import where


def package_shown(desk: Desk, opened: ProjectAtRevision, answer: Answer) -> dict[str, Any]:
    """Everything the package page shows."""
    frame, views = answer.frame, field_views(answer)
    return {
        "opened": opened,
        "answer": answer,
        "project": answer.project,
        "frame": frame,
        "base": opened.revision.number,
        "words": answer.project.shop.words,
        "address": package_address(opened.project_id, frame.id),
        "fields": views,
        "slots": tuple(view.slot for view in views.values()),
        "groups": _groups(answer),
        "titles": {name: title for name, (title, _) in GROUPS.items()},
        "messages": answer.messages,
        "layers": frame.package.layers,
        "windows": frame.package.mat.windows if frame.package.mat else (),
        "has_fillet": any(layer.kind is LayerKind.FILLET for layer in frame.package.layers),
        "has_two_mats": sum(layer.kind is LayerKind.MAT for layer in frame.package.layers) > 1,
        "is_canvas": frame.artwork.kind is ArtworkKind.CANVAS,
        "is_boxed": frame.artwork.kind is ArtworkKind.OBJECT or frame.fitting.box.object_depth is not None,
        "has_panel": answer.plan.package.growth.has_panel if not answer.impossible else False,
        "shelf": tuple(_shelf()),
        "place": "package",
        "unit": answer.project.unit.value,
        "kept": bool(answer.impossible),
        "where": partial(where, words=answer.project.shop.words),
    }


def package_address(project_id: str, frame_id: str) -> str:
    """The address of the package page of a frame."""
    return f"/projects/{project_id}/frames/{frame_id}/package"


def _groups(answer: Answer) -> dict[str, AnswerGroup]:
    """Every group; a field that could not be taken counts as it was. All are empty where the frame is impossible."""
    if answer.impossible:
        return {name: AnswerGroup(name=name) for name in GROUPS}
    groups = groups_of(PackageContext(plan=answer.plan))
    return {name: replace(group, links=_links(answer, group)) for name, group in groups.items()}


def _links(answer: Answer, group: AnswerGroup) -> tuple[Link, ...]:
    """What a group has to be printed or downloaded."""
    page = package_address(answer.project_id, answer.frame.id)
    drawings = page.replace("package", "drawings")
    if group.name == "held" and group.drawings:
        return (Link(href=f"{drawings}/held.svg", says="Drawing, A4"),)
    if group.name == "fitting" and not group.refuses:
        return (Link(href=f"{page}/fitting", says="Fitting card, to print", is_file=False),)
    if group.name != "mat" or not group.drawings:
        return ()
    mats = ("upper", "lower") if len(group.drawings) > 1 else ("lower",)
    return tuple(link for which in mats for link in _mat_links(page, drawings, which, len(mats) > 1))


def _mat_links(page: str, drawings: str, which: str, is_double: bool) -> Iterable[Link]:
    of = f", {which} mat" if is_double else ""
    name = "upper-mat" if which == "upper" else "mat"
    yield Link(href=f"{drawings}/{name}.svg", says=f"Drawing, A4{of}")
    yield Link(href=f"{page}/template?mat={which}", says=f"Template to print, true size{of}", is_file=False)
    yield Link(href=f"{page}/template.svg?mat={which}", says=f"Template on one leaf{of}")


def _shelf() -> Iterable[tuple[str, tuple[tuple[str, str], ...]]]:
    """The layers of the shelf by what they are for, each with what stands behind its thickness."""
    for kind in LayerKind:
        here = tuple((name, _said(layer)) for name, layer in ready_made().items() if layer.kind is kind)
        yield f"{kind.value[:1].upper()}{kind.value[1:]}", here


def _said(layer: ReadyMade) -> str:
    behind = layer.standing.value if layer.source.startswith("common") else f"{layer.source}, {layer.standing.value}"
    return f"{layer.name}: {layer.thickness} ({behind})"
