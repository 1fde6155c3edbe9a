"""A tray whose ledge is a strip of its own: sizes, wood and price agree with those of one milled from solid."""

from typing import Any

import pytest
from panel import PANEL_IN_INCHES

from framecalc.plan.frame import FramePlan
from framecalc.plan.price.price import price_job
from framecalc.plan.whole import Plan
from framecalc.project import Project, ProjectErrors, project_document, read_project
from framecalc.timber.sticks.problem import short_edge_mm

WOOD = {"items": [{"id": "i1", "name": "wood", "group": "wood", "measure": "board foot", "price": "10"}]}


def project(ledge: str, **more: Any) -> Project:
    first = PANEL_IN_INCHES["frames"][0]
    section = first["section"] | {"kind": "tray", "ledge": ledge, "face_width": "3/8 in", "thickness": "1 1/2 in"}
    return read_project(PANEL_IN_INCHES | {"frames": [first | {"species": "ash", "section": section}]} | more)


def frame(ledge: str) -> FramePlan:
    (plan,) = Plan(project(ledge)).frames.values()
    plan.compute_all()
    return plan


def ring_mm2(across_mm: float, up_mm: float, width_mm: float) -> float:
    """Four mitred pieces are four trapeziums: half the sum of long and short edge, times the width, each twice."""
    return sum(2 * (long_mm - width_mm) * width_mm for long_mm in (across_mm, up_mm))


def test_the_section_and_all_sizes_are_the_same() -> None:
    solid, strip = frame("solid"), frame("strip")
    assert solid.section == strip.section and solid.sizes == strip.sizes and solid.tray == strip.tray
    assert {name: figure for name, figure in strip.figures.items() if name in solid.figures} == solid.figures


def test_wall_and_ledge_strip_hold_as_much_wood_as_the_tray() -> None:
    plan = frame("strip")
    assert plan.tray is not None
    sizes, section = plan.sizes, plan.frame.section
    wall_mm, ledge_mm, high_mm, thick_mm = (
        one.mm for one in (section.face_width, section.ledge_width, section.thickness, section.ledge_thickness)
    )
    inside = plan.figures["ledge_long_across"].exact_mm, plan.figures["ledge_long_up"].exact_mm
    built_mm3 = ring_mm2(sizes.outside_across_mm, sizes.outside_up_mm, wall_mm) * high_mm
    built_mm3 += ring_mm2(*inside, ledge_mm) * thick_mm
    outside_mm2 = sizes.outside_across_mm * sizes.outside_up_mm
    inside_mm2 = plan.tray.inside_across_mm * plan.tray.inside_up_mm
    opening_mm2 = plan.tray.opening_across_mm * plan.tray.opening_up_mm
    assert built_mm3 == pytest.approx((outside_mm2 - inside_mm2) * high_mm + (inside_mm2 - opening_mm2) * thick_mm)


def test_a_blank_is_as_wide_as_wall_and_ledge_only_where_both_are_one() -> None:
    assert frame("solid").blank_width_mm == pytest.approx((3 / 8 + 1) * 25.4)
    assert frame("strip").blank_width_mm == pytest.approx(3 / 8 * 25.4)


def test_a_rabbet_has_no_ledge_whatever_is_typed() -> None:
    first = PANEL_IN_INCHES["frames"][0]
    loose = first | {"section": first["section"] | {"ledge": "strip"}}
    (plan,) = Plan(read_project(PANEL_IN_INCHES | {"frames": [loose]})).frames.values()
    assert not plan.has_loose_ledge and "ledge_stick" not in plan.figures
    assert plan.blank_width_mm == plan.settled.face_width_mm


def test_the_price_counts_both_sticks() -> None:
    plan = frame("strip")
    section = plan.frame.section
    wall_mm3 = plan.figures["stick_needed"].exact_mm * section.face_width.mm * section.thickness.mm
    ledge_mm3 = plan.figures["ledge_stick"].exact_mm * section.ledge_width.mm * section.ledge_thickness.mm
    job = project("strip", quote=WOOD)
    assert job.quote is not None
    (line,) = price_job(job, quote=job.quote).lines
    assert float(line.quantity) == pytest.approx((wall_mm3 + ledge_mm3) / (144 * 25.4**3), abs=0.001)


def test_another_kind_of_ledge_is_refused() -> None:
    with pytest.raises(ProjectErrors, match="ledge"):
        project("nailed")


def test_a_solid_tray_is_one_section_and_a_built_up_one_is_two() -> None:
    (solid,) = Plan(project("solid")).timber.groups
    assert (solid.section.width_mm, solid.section.thickness_mm) == pytest.approx((1.375 * 25.4, 38.1))
    ledge, wall = Plan(project("strip")).timber.groups
    assert (ledge.section.width_mm, ledge.section.thickness_mm) == pytest.approx((25.4, 9.525))
    assert (wall.section.width_mm, wall.section.thickness_mm) == pytest.approx((9.525, 38.1))
    assert [group.is_ledge for group in (solid, ledge, wall)] == [False, True, False]


def test_ledge_strips_reach_from_wall_to_wall_and_have_labels_of_their_own() -> None:
    plan = Plan(project("strip", timber={"spares": 1, "tests": 2}))
    tray = plan.frames["f1"].tray
    assert tray is not None
    ledge, wall = plan.timber.groups
    lengths_mm = [piece.length_mm for piece in ledge.problem.pieces]
    assert lengths_mm == pytest.approx([tray.inside_across_mm, tray.inside_up_mm] * 3)
    assert len(wall.problem.pieces) == 4 + 2 + 2
    short_mm = [short_edge_mm(piece, slope_mm=wall.problem.slope_mm) for piece in wall.problem.pieces[:4]]
    assert short_mm == pytest.approx(lengths_mm[:4])
    labels = [piece.label for group in (ledge, wall) for piece in group.problem.pieces]
    assert len(set(labels)) == len(labels) and "Panel ledge/1 top" in labels


def test_a_frame_that_is_called_like_a_ledge_keeps_its_labels_apart() -> None:
    frames = project_document(project("strip"))["frames"]
    frames.append(frames[0] | {"id": "f2", "name": "Panel ledge"})
    groups = Plan(read_project(PANEL_IN_INCHES | {"frames": frames})).timber.groups
    labels = [piece.label for group in groups for piece in group.problem.pieces]
    assert len(labels) == 16 and len(set(labels)) == 16


def test_ledges_as_thick_and_wide_as_the_members_of_a_frame_share_its_sticks() -> None:
    frames = project_document(project("strip"))["frames"]
    section = frames[0]["section"] | {"kind": "rabbet", "face_width": "1 in", "thickness": "3/8 in"}
    section |= {"rabbet_width": "1/4 in", "rabbet_depth": "1/8 in"}
    frames.append(frames[0] | {"id": "f2", "name": "Print", "section": section})
    shared, _ = Plan(read_project(PANEL_IN_INCHES | {"frames": frames})).timber.groups
    assert len(shared.problem.pieces) == 8 and not shared.is_ledge and shared.names == ("Print", "Panel")


@pytest.mark.parametrize("sides", [3, 6, 8])
def test_the_ledge_of_a_polygon_is_its_wall_less_what_two_mitres_take(sides: int) -> None:
    frames = project_document(project("strip"))["frames"]
    frames[0]["corner"] |= {"polygon": sides, "polygon_flats": "16 in"}
    ledge, wall = Plan(read_project(PANEL_IN_INCHES | {"frames": frames})).timber.groups
    short_mm = {round(short_edge_mm(piece, slope_mm=wall.problem.slope_mm), 6) for piece in wall.problem.pieces}
    assert {round(piece.length_mm, 6) for piece in ledge.problem.pieces} == short_mm
    assert len(ledge.problem.pieces) == sides
