"""A tray whose ledge is a strip of its own: sizes, wood and price agree with those of one milled from solid."""

from typing import Any

import pytest
from test_plan import PANEL_IN_INCHES

from framecalc.plan.frame import FramePlan
from framecalc.plan.quote import price_job
from framecalc.plan.whole import Plan
from framecalc.project import Project, ProjectErrors, read_project

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
