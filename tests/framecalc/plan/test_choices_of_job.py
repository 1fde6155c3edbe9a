"""A choice worked into its job: what it changes, and that nothing else is changed."""

from typing import Any

from drawn_plans import demo

from framecalc.plan.choices import are_in, changes_of, name_as_it_is, with_changes
from framecalc.project import project_document, read_project
from framecalc.project.choices import Choice

QUOTE = {"items": [{"id": "w1", "name": "Wood", "measure": "each frame", "price": "12"}]}


def job(**more: Any) -> dict[str, Any]:
    return project_document(read_project(demo("cafe-prints") | {"quote": QUOTE} | more))


def choice(**fields: Any) -> Choice:
    return Choice.model_validate({"id": "wal", "name": "Walnut"} | fields)


def test_a_choice_without_a_difference_changes_nothing() -> None:
    document = job()
    assert changes_of(read_project(document), choice()) == () and are_in(document, ())
    assert with_changes(document, ()) == document


def test_what_a_choice_changes_is_in_the_job_and_nothing_else_is() -> None:
    document = job()
    project = read_project(document)
    changes = changes_of(project, choice(species="walnut", face_width="30 mm", glazing="acrylic", more="34"))
    assert not are_in(document, changes)
    changed = with_changes(document, changes)
    assert are_in(changed, changes) and with_changes(changed, changes) == changed
    frame, before = read_project(changed).frames[0], project.frames[0]
    assert (frame.species, frame.section.face_width.text) == ("walnut", "30 mm")
    assert [one.name for one in frame.package.layers if one.kind == "glazing"] == ["acrylic"]
    assert frame.artwork == before.artwork and frame.look.mat_name == before.look.mat_name
    assert [(item.id, str(item.price)) for item in read_project(changed).quote.items] == [("w1", "12"), ("wal", "34")]  # type: ignore[union-attr]
    assert document == job()


def test_another_wood_lays_a_chosen_colour_of_the_wood_aside() -> None:
    document = job()
    document["frames"][0]["look"]["wood_colour"] = "#123456"
    project = read_project(document)
    changed = with_changes(document, changes_of(project, choice(species="walnut")))
    assert read_project(changed).frames[0].look.wood_colour == ""
    kept = with_changes(document, changes_of(project, choice(finish="oil")))
    assert read_project(kept).frames[0].look.wood_colour == "#123456"


def test_a_frame_that_has_gone_meanwhile_is_left_out() -> None:
    document = job()
    changes = (("frames.gone1.species", "walnut"), *changes_of(read_project(document), choice(species="ash")))
    assert [frame["species"] for frame in with_changes(document, changes)["frames"]] == ["ash"]  # type: ignore


def test_the_job_as_it_stands_is_called_by_its_wood() -> None:
    assert name_as_it_is(read_project(job())) == "White oak"
