"""A stiffener of a frame: in its sag, weight, box, shopping list and drawings; without one all as before."""

from typing import Any

import pytest
from frame_jobs import matted, shaped

from framecalc.drawing.registry import draw_panel
from framecalc.plan import Plan
from framecalc.plan.package.stiffener_words import stiffeners_said
from framecalc.plan.price.counts import LaidOut
from framecalc.plan.price.price import price_job
from framecalc.plan.price.shopping import to_buy
from framecalc.project import read_project
from framecalc.project.price import Quote


def large(**stiffening: str) -> dict[str, Any]:
    """A print so large that its bottom member sags."""
    document = matted(count=2, fitting={"stiffening": stiffening}, species="eastern white pine")
    document["frames"][0]["artwork"] |= {"across": "1300 mm", "up": "1000 mm"}
    return document


def planned(**stiffening: str) -> Plan:
    return Plan(read_project(large(**stiffening)))


@pytest.mark.parametrize("kind", ["strip", "bar"])
def test_a_stiffener_as_large_as_is_needed_takes_the_stop_away(kind: str) -> None:
    (bare,), (frame,) = planned().frames.values(), planned(by=kind).frames.values()
    assert bare.package.handling and frame.package.handling and frame.package.stiffener
    assert "sag.bottom" in {one.code for one in bare.package.handling.findings}
    assert "sag.bottom" not in {one.code for one in frame.package.handling.findings}
    offered = {one.kind.value: one for one in bare.package.handling.ways_to_stiffen}
    assert offered[kind] == frame.package.stiffener
    more_kg = frame.package.mass.whole_kg - bare.package.mass.whole_kg
    assert more_kg == pytest.approx(frame.package.stiffener.mass_kg)
    assert frame.hand_over.deep_mm >= bare.hand_over.deep_mm


def test_it_is_drawn_from_behind_bought_and_cut() -> None:
    plan, bare = planned(by="strip"), planned()
    (frame,), (without,) = plan.frames.values(), bare.frames.values()
    assert "a stiffener" in draw_panel("hangers", frame) and "a stiffener" not in draw_panel("hangers", without)
    found = frame.package.stiffener
    job = price_job(plan.project, quote=Quote(), plan=plan)
    line = next(one for one in to_buy(job, laid_out=LaidOut()) if "strip of wood" in one.name)
    assert found and (line.quantity, line.sizes_mm) == (2, (found.out_mm, found.wide_mm, found.long_mm))
    assert [str(one).endswith("2 to cut.") for one in stiffeners_said(plan.frames.values())] == [True]
    assert not list(stiffeners_said(bare.frames.values()))


def test_a_thick_one_asks_for_bumpers_and_a_hexagon_has_no_strut() -> None:
    document = large(by="strip")
    document["frames"][0]["hanging"] = {"by": "rings", "bumper": "6 mm"}
    (frame,) = Plan(read_project(document)).frames.values()
    assert "hangers.bumpers" in {one.code for one in frame.hangers.findings}
    hexagon = shaped(sides=6, size="400 mm")
    hexagon["frames"][0]["fitting"] = {"stiffening": {"by": "strut"}}
    (polygon,) = Plan(read_project(hexagon)).frames.values()
    assert polygon.package.stiffener is None
