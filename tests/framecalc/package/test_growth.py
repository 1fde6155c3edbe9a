"""How layers grow: worked examples, and what holds for every sheet and panel."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as some

from framecalc.errors import OutOfRange
from framecalc.package.growth import (
    LEAST_COVER_MM,
    Growth,
    Room,
    along_the_grain,
    growth_findings,
    hold_panel,
    longest_mm,
    panel_growth,
    sheet_growth,
)
from framecalc.tables.sheets import SheetMaterial, sheet_materials
from framecalc.units import TOLERANCE_MM
from framecalc.wood.movement import Coefficients
from framecalc.wood.seasons import Air

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/growth.toml").read_text("utf-8"))
PINE = Coefficients(radial_per_pct=0.00071, tangential_per_pct=0.00212, from_table=True, agrees=True)


def room(*, fitted: tuple[float, float] = (20, 50), driest: tuple[float, float], dampest: tuple[float, float]) -> Room:
    return Room(
        *(),
        **{
            name: Air(temperature_c=air[0], humidity_pct=air[1])
            for name, air in (("fitted", fitted), ("driest", driest), ("dampest", dampest))
        },
    )


def material(material_id: str) -> SheetMaterial:
    return next(sheet for sheet in sheet_materials() if sheet.material_id == material_id)


@pytest.mark.parametrize("check", CHECKS["growth"], ids=lambda check: check["name"])
def test_worked_growth(check: dict[str, Any]) -> None:
    later = (20 + check["warmer_k"], 50 + check["damper_pct"])
    growth = sheet_growth(
        check["length_mm"], material=material(check["material"]), room=room(driest=(20, 50), dampest=later)
    )
    assert growth.swells_mm == pytest.approx(check["expect_mm"], abs=check["tolerance_mm"])
    assert growth.shrinks_mm == 0


@pytest.mark.parametrize("check", CHECKS["longest"], ids=lambda check: check["name"])
def test_longest_sheet(check: dict[str, Any]) -> None:
    found = longest_mm(check["clearance_mm"], growth_ratio=check["growth_ratio"])
    assert found == pytest.approx(check["expect_mm"], abs=check["tolerance_mm"])


@given(length_mm=some.floats(10, 3000), warm_c=some.floats(20, 40), damp_pct=some.floats(50, 90))
def test_growth_is_in_proportion_and_never_negative(length_mm: float, warm_c: float, damp_pct: float) -> None:
    later = room(driest=(15, 30), dampest=(warm_c, damp_pct))
    for sheet in sheet_materials():
        one = sheet_growth(length_mm, material=sheet, room=later)
        two = sheet_growth(2 * length_mm, material=sheet, room=later)
        assert min(one.swells_mm, one.shrinks_mm) >= 0
        assert two.swells_mm == pytest.approx(2 * one.swells_mm) and two.shrinks_mm == pytest.approx(2 * one.shrinks_mm)


@given(ring_deg=some.floats(0, 90), damp_pct=some.floats(55, 90), dry_pct=some.floats(10, 45))
def test_a_panel_moves_most_flat_sawn_and_least_quarter_sawn(ring_deg: float, damp_pct: float, dry_pct: float) -> None:
    air = room(driest=(20, dry_pct), dampest=(20, damp_pct))
    flat, any_, quarter = (panel_growth(400, coefficients=PINE, ring_deg=deg, room=air) for deg in (0, ring_deg, 90))
    assert flat.swells_mm + 1e-9 >= any_.swells_mm >= quarter.swells_mm - 1e-9 > 0
    assert flat.shrinks_mm + 1e-9 >= any_.shrinks_mm >= quarter.shrinks_mm - 1e-9 > 0


def test_a_room_that_never_changes_asks_for_play_alone() -> None:
    growth = panel_growth(400, coefficients=PINE, ring_deg=0, room=room(driest=(20, 50), dampest=(20, 50)))
    assert (growth.swells_mm, growth.shrinks_mm, growth.clearance_mm) == (0, 0, 1)
    assert along_the_grain(400).clearance_mm == 1


def test_acrylic_grows_with_damp_as_with_heat() -> None:
    growth = sheet_growth(1000, material=material("acrylic"), room=room(driest=(20, 50), dampest=(20, 60)))
    assert growth.swells_mm == pytest.approx(0.4)


def test_a_slot_is_longest_at_the_edge_and_no_slot_on_the_middle_line() -> None:
    growth = Growth(length_mm=400, swells_mm=3, shrinks_mm=2)
    at_edge, at_middle = (hold_panel(growth, grain_runs_up=False, screw_mm=4, from_edge_mm=place) for place in (0, 200))
    assert (at_edge.slot_mm, at_middle.slot_mm) == (6.5, 4)
    assert at_edge.fixed == "at the middle of the left and of the right"


@pytest.mark.parametrize(
    ("growth", "clearance_mm", "rabbet_width_mm", "codes"),
    [
        (Growth(length_mm=900, swells_mm=4, shrinks_mm=0), 3, 6, ["growth.binds-across"]),
        (Growth(length_mm=900, swells_mm=2.5, shrinks_mm=0), 3, 6, ["growth.tight-across"]),
        (Growth(length_mm=900, swells_mm=2, shrinks_mm=0), 3, 6, []),
        (Growth(length_mm=900, swells_mm=1, shrinks_mm=3), 3, 6, ["growth.light-across"]),
        (Growth(length_mm=900, swells_mm=1, shrinks_mm=3), 3, 0, []),
    ],
)
def test_what_is_said_of_a_layer(growth: Growth, clearance_mm: float, rabbet_width_mm: float, codes: list[str]) -> None:
    found = growth_findings(
        growth,
        along_the_grain(900),
        name="panel {1}",
        clearance_across_mm=clearance_mm,
        clearance_up_mm=3,
        rabbet_width_mm=rabbet_width_mm,
    )
    assert [finding.code for finding in found] == codes
    for finding in found:
        assert "panel {1}" in finding.sentence.format_map(finding.lengths)
        assert all(way.value_mm > 0 for way in finding.ways)


def test_a_way_out_takes_the_finding_away() -> None:
    growth = Growth(length_mm=900, swells_mm=4, shrinks_mm=0)
    same = {"name": "panel", "clearance_up_mm": 6.0, "rabbet_width_mm": 9.0}
    (finding,) = growth_findings(growth, growth, clearance_across_mm=3, **same)
    assert growth_findings(growth, growth, clearance_across_mm=finding.ways[0].value_mm, **same) == ()


def test_in_a_tray_the_gap_of_the_way_out_on_both_sides_is_just_enough() -> None:
    growth = Growth(length_mm=900, swells_mm=4, shrinks_mm=0)

    def said(gap_mm: float) -> tuple[Any, ...]:
        sides = {"clearance_across_mm": 2 * gap_mm, "clearance_up_mm": 2 * gap_mm}
        return growth_findings(growth, along_the_grain(900), name="panel", rabbet_width_mm=0, is_tray=True, **sides)

    (finding,) = said(1.5)
    (way,) = finding.ways
    assert way.argument == "tray_gap_mm" and said(way.value_mm) == ()
    assert said(way.value_mm - 0.1) != ()


AIR = some.tuples(some.floats(5, 40), some.floats(10, 90))


@given(one=AIR, other=AIR)
def test_what_swells_from_one_air_to_another_shrinks_on_the_way_back(
    one: tuple[float, float], other: tuple[float, float]
) -> None:
    there, back = room(fitted=one, driest=one, dampest=other), room(fitted=other, driest=one, dampest=other)
    there_dry, back_dry = room(fitted=other, driest=other, dampest=one), room(fitted=one, driest=other, dampest=one)
    for go, come in ((there, back), (there_dry, back_dry)):
        gone, came = (panel_growth(400, coefficients=PINE, ring_deg=30, room=air) for air in (go, come))
        assert (gone.swells_mm, gone.shrinks_mm) == pytest.approx((came.shrinks_mm, came.swells_mm), abs=1e-9)
    dry_side = sheet_growth(400, material=material("acrylic"), room=back)
    damp_side = sheet_growth(400, material=material("acrylic"), room=there)
    assert dry_side.shrinks_mm == pytest.approx(damp_side.swells_mm, abs=1e-9)


@given(dry_pct=some.floats(15, 49), drier_pct=some.floats(0.5, 9))
def test_the_drier_the_driest_air_the_more_a_panel_and_a_sheet_shrink(dry_pct: float, drier_pct: float) -> None:
    airs = [room(driest=(20, humidity_pct), dampest=(20, 60)) for humidity_pct in (dry_pct, dry_pct - drier_pct)]
    panels = [panel_growth(400, coefficients=PINE, ring_deg=0, room=air) for air in airs]
    sheets = [sheet_growth(400, material=material("acrylic"), room=air) for air in airs]
    for less, more in (panels, sheets):
        assert more.shrinks_mm > less.shrinks_mm > 0 and more.swells_mm == less.swells_mm


@given(clearance_mm=some.floats(1, 6), shrinks_mm=some.floats(0.1, 6), rabbet_width_mm=some.floats(4, 15))
def test_what_has_shrunk_and_slipped_to_one_wall_lies_under_the_lip_by_what_is_left_of_it(
    clearance_mm: float, shrinks_mm: float, rabbet_width_mm: float
) -> None:
    growth, opening_mm = Growth(length_mm=400, swells_mm=0, shrinks_mm=shrinks_mm), 400 + clearance_mm
    far_edge_mm = opening_mm - (growth.length_mm - shrinks_mm)
    cover_mm = rabbet_width_mm - far_edge_mm
    same = {"name": "panel", "clearance_across_mm": clearance_mm, "clearance_up_mm": clearance_mm}
    found = growth_findings(growth, along_the_grain(400), rabbet_width_mm=rabbet_width_mm, **same)
    assert bool(found) == (cover_mm < LEAST_COVER_MM - TOLERANCE_MM)
    for finding in found:
        assert finding.lengths["cover"] == pytest.approx(cover_mm, abs=1e-9)
        (way,) = finding.ways
        assert growth_findings(growth, along_the_grain(400), rabbet_width_mm=way.value_mm, **same) == ()


@pytest.mark.parametrize("length_mm", [0, -5, float("nan")])
def test_a_length_that_is_none_is_refused(length_mm: float) -> None:
    with pytest.raises(OutOfRange):
        sheet_growth(length_mm, material=material("glass"), room=room(driest=(20, 50), dampest=(20, 50)))
