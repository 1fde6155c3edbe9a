"""Rough sizes and footage as the timber page tells them."""

from typing import Any

import pytest
from frame_jobs import shaped
from panel import PANEL_IN_INCHES

from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.whole import Plan
from framecalc.project import Project, read_project
from webapp.pages.timber.sizes import footage_words, rough_table

ALLOWANCES = {"width_allowance": "1/8 in", "thickness_allowance": "1/8 in", "sanding": "1/64 in", "part_trim": "1/2 in"}


def asked(section: dict[str, Any] | None = None, count: int = 1, **timber: Any) -> tuple[TimberGroup, Project]:
    """A frame 8 × 10 with a face of 1 1/2 in, a rabbet of 1/4 in and a clearance of 1/8 in."""
    first = PANEL_IN_INCHES["frames"][0]
    sides = {"face_width": "1 1/2 in", "rabbet_width": "1/4 in"} | (section or {})
    one = first | {"count": count, "artwork": {"across": "8 in", "up": "10 in"}, "section": first["section"] | sides}
    project = read_project(PANEL_IN_INCHES | {"frames": [one], "timber": ALLOWANCES | timber})
    (group,) = Plan(project).timber.groups
    return group, project


def test_rough_sizes_are_the_finished_ones_and_the_allowances() -> None:
    table = rough_table(*asked(count=3))
    assert table.rows == (
        ("3/4 × 1 1/2 in × 12 5/8 in", "6", "57/64 in", "1 5/8 in", "13 5/8 in"),
        ("3/4 × 1 1/2 in × 10 5/8 in", "6", "57/64 in", "1 5/8 in", "11 5/8 in"),
    )


def test_a_rough_length_is_the_long_point_as_cut_and_its_allowance() -> None:
    """A side of 249.99 mm is cut as 250, so its piece is 300 mm rough, not 299.99."""
    project = read_project(shaped(sides=6, size="400 mm"))
    (group,) = Plan(project).timber.groups
    (row,) = rough_table(group, project).rows
    assert group.problem.pieces[0].length_mm == pytest.approx(433 / 3**0.5)  # side of a hexagon by its flats
    assert (row[0].split(" × ")[-1], row[-1]) == ("250 mm", "300 mm")


def test_published_footage() -> None:
    """Worked example: 46.5 in exact, 47.914 in with eight cuts of 1/8 in at 45°, 48 in by the rule (derived)."""
    group, project = asked()
    most, rule = footage_words(group, project)
    assert group.total_mm == pytest.approx(46.5 * 25.4)
    assert "47 15/16 in" in most  # 47.914 in, up to the next sixteenth
    assert "says 48 in" in rule


@pytest.mark.parametrize(
    "more",
    [{"section": {"kind": "tray", "thickness": "2 in"}}, {"spares": 1}, {"tests": 2}],
    ids=["a tray", "spares", "test pieces"],
)
def test_the_rule_of_thumb_is_not_stretched(more: dict[str, Any]) -> None:
    assert len(list(footage_words(*asked(**more)))) == 1
