"""A project with fields changed is what reading the changed document anew gives: the same project, the same refusal."""

import json
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import UnreadableProject
from framecalc.plan import Plan
from framecalc.project import (
    Project,
    ProjectErrors,
    parse_project,
    project_document,
    project_with,
    read_like,
    read_project,
    set_value,
    with_value,
)

DEMOS = {path.stem: path for path in sorted((Path(__file__).parents[3] / "framecalc/demos").glob("*.demo.json"))}
TEXTS = ("12 mm", "1/2 in", "0 mm", "-3 mm", "6", "900 mm", "9000 mm", "yes", "", "flat", "mm", "Grey mat")


def demo(name: str) -> Project:
    return parse_project(DEMOS[name].read_text("utf-8"))


def paths_in(value: Any, above: str = "") -> list[str]:
    """Every path of a document at which a text stands; items of lists by their id."""
    if isinstance(value, dict):
        return [path for name, part in value.items() for path in paths_in(part, f"{above}.{name}" if above else name)]
    if isinstance(value, list):
        items = [item for item in value if isinstance(item, dict) and "id" in item]
        return [path for item in items for path in paths_in(item, f"{above}.{item['id']}")]
    return [above] if isinstance(value, str) and not above.endswith(".id") else []


def read_anew(project: Project, changes: dict[str, str]) -> Project:
    document = project_document(project)
    for path, text in changes.items():
        set_value(document, path, text)
    return read_project(document)


def outcome(project: Project, changes: dict[str, str], change: Any) -> Any:
    """What a project becomes, or the sentences that refuse it."""
    try:
        return change(project, changes)
    except ProjectErrors as error:
        return error.sentences


PLACES = [(name, path) for name in DEMOS for path in paths_in(project_document(demo(name)))]


@given(place=st.sampled_from(PLACES), text=st.sampled_from(TEXTS))
def test_one_changed_field_gives_what_reading_the_whole_project_anew_gives(place: tuple[str, str], text: str) -> None:
    name, path = place
    project = demo(name)
    assert outcome(project, {path: text}, project_with) == outcome(project, {path: text}, read_anew)


SPOILT = {
    "section.rabbet_width": "3 mm",
    "section.rabbet_depth": "3 mm",
    "section.tray_gap": "1 mm",
    "section.ledge_width": "2 mm",
    "section.ledge_thickness": "2 mm",
    "package.clearance_across": "0 mm",
}


@pytest.mark.parametrize("name", DEMOS)
def test_a_way_out_plans_what_the_changed_project_read_anew_plans(name: str) -> None:
    project = demo(name)
    frame_id = project.frames[0].id
    spoilt = project_with(project, {f"frames.{frame_id}.{field}": text for field, text in SPOILT.items()})
    plan = Plan(spoilt).frames[frame_id]
    ways = {(way.path, way.text) for advice in plan.advice for way in advice.ways}
    assert ways
    for path, text in ways:
        one, other = (Plan(change(spoilt, {path: text})) for change in (project_with, read_anew))
        assert json.dumps(one.record()) == json.dumps(other.record())
        assert one.frames[frame_id].stops <= plan.stops


@given(place=st.sampled_from(PLACES), text=st.sampled_from(TEXTS))
def test_a_document_that_shares_parts_is_read_as_a_whole_one_is(place: tuple[str, str], text: str) -> None:
    name, path = place
    project = demo(name).model_copy(update={"saved": None})
    known = project_document(project)
    before = deepcopy(known)

    def read_shared(project: Project, changes: dict[str, str]) -> Project:
        return read_like(with_value(known, path, changes[path]), known=known, project=project)

    assert outcome(project, {path: text}, read_shared) == outcome(project, {path: text}, read_anew)
    assert known == before


def test_what_a_document_shares_is_taken_over() -> None:
    document = project_document(demo("cafe-prints.demo"))
    document["frames"].append(deepcopy(document["frames"][0]) | {"id": "f2"})
    project = read_project(document)
    changed = read_like(with_value(document, "frames.f2.name", "Other"), known=document, project=project)
    assert changed.frames[0] is project.frames[0]
    assert changed.frames[1].name == "Other"
    assert changed.shop is project.shop


def test_what_a_changed_frame_shares_is_taken_over_too() -> None:
    document = project_document(demo("cafe-prints.demo"))
    project, (first, *_) = read_project(document), document["frames"]
    layers = f"frames.{first['id']}.package.layers"
    path = f"{layers}.{first['package']['layers'][0]['id']}.thickness"
    changed = read_like(with_value(document, path, "2.5 mm"), known=document, project=project).frames[0]
    assert changed.section is project.frames[0].section and changed.corner is project.frames[0].corner
    assert changed.package.layers[0].thickness.text == "2.5 mm"
    assert changed.package.layers[1:] and all(
        one is other
        for one, other in zip(changed.package.layers[1:], project.frames[0].package.layers[1:], strict=True)
    )


def test_two_frames_of_one_id_are_refused_though_each_is_known() -> None:
    document = project_document(demo("cafe-prints.demo"))
    twice = document | {"frames": [*document["frames"], *document["frames"]]}
    with pytest.raises(UnreadableProject):
        read_like(twice, known=document, project=read_project(document))


def test_a_value_put_in_leaves_the_document_as_it_was() -> None:
    document: dict[str, Any] = {"frames": [{"id": "a", "look": {}}, {"id": "b", "look": {}}], "note": "old"}
    changed = with_value(with_value(document, "frames.b.look.wall", "#ffffff"), "note", None)
    assert document == {"frames": [{"id": "a", "look": {}}, {"id": "b", "look": {}}], "note": "old"}
    assert changed == {"frames": [{"id": "a", "look": {}}, {"id": "b", "look": {"wall": "#ffffff"}}]}
    assert changed["frames"][0] is document["frames"][0]


@given(place=st.sampled_from(PLACES), value=st.sampled_from((*TEXTS, None)))
def test_a_value_is_put_in_as_it_is_put_in_place(place: tuple[str, str], value: str | None) -> None:
    document = project_document(demo(place[0]))
    changed = with_value(document, place[1], value)
    set_value(document, place[1], value)
    assert changed == document


def test_several_fields_are_changed_together() -> None:
    project = demo("cafe-prints.demo")
    here = f"frames.{project.frames[0].id}."
    changes = {f"{here}section.face_width": "30 mm", "shop.kerf": "3 mm", f"{here}artwork.across_bottom": "300 mm"}
    assert project_with(project, changes) == read_anew(project, changes)


def test_what_is_not_changed_is_taken_over_as_it_is() -> None:
    project = demo("cafe-prints.demo")
    changed = project_with(project, {f"frames.{project.frames[0].id}.section.face_width": "30 mm"})
    assert changed.shop is project.shop
    assert changed.frames[0].package is project.frames[0].package


def test_an_object_that_is_not_there_yet_is_made_on_the_way() -> None:
    project = demo("cafe-prints.demo").model_copy(update={"quote": None})
    path = "quote.terms.currency"
    assert outcome(project, {path: "EUR"}, project_with) == outcome(project, {path: "EUR"}, read_anew)


def test_a_text_that_does_not_fit_is_refused_at_its_path() -> None:
    project = demo("cafe-prints.demo")
    path = f"frames.{project.frames[0].id}.section.sight_edge.size"
    with pytest.raises(ProjectErrors) as caught:
        project_with(project, {path: "9 m"})
    assert list(caught.value.sentences) == [path]


def test_a_list_item_that_is_not_there_cannot_be_changed() -> None:
    with pytest.raises(KeyError):
        project_with(demo("cafe-prints.demo"), {"frames.zz9.section.face_width": "30 mm"})
