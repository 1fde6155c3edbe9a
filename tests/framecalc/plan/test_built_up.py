"""A rabbet that is built up with a strip: both parts have their wood in the plan, the lists and the costs."""

import pytest
from drawn_plans import demo
from timber_plans import planned

from framecalc.plan import Plan
from framecalc.plan.bench.job import bench_job, cards_of
from framecalc.project import read_project


def built(name: str, way: str) -> Plan:
    document = demo(name)
    document["bench"]["rabbet_way"] = way
    document["timber"]["stock"] = []
    return Plan(read_project(document))


def test_face_and_strip_are_a_group_each_and_together_the_section_less_its_rabbet() -> None:
    solid, strip = built("cafe-prints", "router table"), built("cafe-prints", "strip")
    (whole,) = {(one.section.width_mm, one.section.thickness_mm) for one in solid.timber.groups}
    parts = {one.is_strip: one for one in strip.timber.groups}
    assert len(strip.timber.groups) == 2 and set(parts) == {True, False}
    section = next(iter(strip.frames.values())).frame.section
    area_mm2 = sum(one.section.width_mm * one.section.thickness_mm for one in parts.values())
    assert area_mm2 == pytest.approx(whole[0] * whole[1] - section.rabbet_width.mm * section.rabbet_depth.mm, rel=1e-4)
    assert parts[False].section.thickness_mm == pytest.approx(section.thickness.mm - section.rabbet_depth.mm)
    assert parts[True].total_mm == pytest.approx(
        sum(piece.length_mm for piece in parts[False].problem.pieces if piece.side != "test")
    )


def test_strips_are_glued_on_before_the_saw_and_have_no_stop_there() -> None:
    plan = built("cafe-prints", "strip")
    cards = {
        way: cards_of(bench_job(one, [(group, planned(group)) for group in one.timber.groups]))
        for way, one in (("strip", plan), ("router table", built("cafe-prints", "router table")))
    }
    stops = {way: [line for c in all_ if c.title == "Mitre saw" for s in c.settings for line in s.lines] for way, all_
             in cards.items()}  # fmt: skip
    assert len(stops["strip"]) == len(stops["router table"]) > 0
    assert not any("strip" in line.says for line in stops["strip"])


@pytest.mark.parametrize("name", ["ash-relief", "maple-canvas"])
def test_a_tray_has_no_rabbet_to_build_up(name: str) -> None:
    plan, before = built(name, "strip"), built(name, "router table")
    trays = [one for one in plan.frames.values() if one.is_tray]
    assert not any(one.has_strip for one in trays)
    assert len(trays) == len([one for one in before.frames.values() if one.is_tray])
    if all(one.is_tray for one in plan.frames.values()):
        assert [one.section for one in plan.timber.groups] == [one.section for one in before.timber.groups]
