"""Older files: every step has samples of what it lifts, and the file still means the same."""

import json
from typing import Any

import pytest
from panel import PANEL_IN_INCHES

from framecalc.corners.saw import CutMethod
from framecalc.project import SCHEMA, parse_project, project_document, read_project
from framecalc.project.steps import STEPS, lifted, state_the_shape

OLD_CORNER = {
    "cutting": "a sled with two fences",
    "polygon": 6,
    "polygon_given": "the package, one of its sides",
    "polygon_flats": "7 1/2 in",
    "slope": "20",
}


def old(**corner: Any) -> dict[str, Any]:
    return PANEL_IN_INCHES | {"schema": 1, "frames": [PANEL_IN_INCHES["frames"][0] | {"corner": corner}]}


def test_sides_and_slope_become_the_shape_of_the_frame() -> None:
    (frame,) = state_the_shape(old(**OLD_CORNER))["frames"]
    assert frame["corner"] == {"cutting": "a sled with two fences"}
    assert frame["shape"] == {
        "sides": 6, "given": "the package, one of its sides", "size": "7 1/2 in", "slope": "20",
    }  # fmt: skip


@pytest.mark.parametrize("document", [{}, {"frames": "none"}, {"frames": [None, 7]}, {"frames": [{"corner": []}]}])
def test_what_a_step_does_not_know_it_leaves(document: dict[str, Any]) -> None:
    assert state_the_shape(document) == document


def test_a_step_changes_nothing_in_place() -> None:
    document = old(**OLD_CORNER)
    before = json.dumps(document)
    lifted(document)
    assert json.dumps(document) == before


def test_an_old_file_is_read_as_what_it_means() -> None:
    project = parse_project(json.dumps(old(**OLD_CORNER)))
    frame = project.frames[0]
    assert (frame.shape.sides, float(frame.shape.slope)) == (6, 20.0) and frame.shape.size is not None
    assert frame.shape.size.text == "7 1/2 in" and frame.corner.cutting is CutMethod.SLED
    assert project_document(project)["schema"] == SCHEMA == 1 + len(STEPS)


def test_a_file_of_today_is_not_lifted() -> None:
    document = project_document(read_project(old(**OLD_CORNER)))
    assert lifted(document) == document
