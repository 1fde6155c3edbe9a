"""The tray: gap, inside, walls, and the ledge that carries the artwork."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.sizes.chain import sizes_around
from framecalc.sizes.tray_sizes import LEAST_BEARING_MM, tray_around, tray_findings
from framecalc.units import TOLERANCE_MM

RELIEF = {"artwork_across_mm": 300.0, "artwork_up_mm": 400.0, "gap_mm": 6.0, "wall_mm": 10.0, "ledge_width_mm": 25.0}


def test_a_tray_is_worked_by_hand() -> None:
    tray = tray_around(**RELIEF)
    assert (tray.inside_across_mm, tray.inside_up_mm) == (312, 412)
    assert (tray.outside_across_mm, tray.outside_up_mm) == (332, 432)
    assert (tray.opening_across_mm, tray.opening_up_mm) == (262, 362)
    assert tray.bearing_mm == 19


@given(
    across_mm=st.floats(min_value=50, max_value=3000),
    up_mm=st.floats(min_value=50, max_value=3000),
    gap_mm=st.floats(min_value=0, max_value=20),
    wall_mm=st.floats(min_value=3, max_value=40),
)
def test_a_tray_is_the_chain_of_a_frame_whose_lip_laps_over_nothing(
    across_mm: float, up_mm: float, gap_mm: float, wall_mm: float
) -> None:
    tray = tray_around(
        artwork_across_mm=across_mm, artwork_up_mm=up_mm, gap_mm=gap_mm, wall_mm=wall_mm, ledge_width_mm=20
    )
    frame = sizes_around(
        package_across_mm=across_mm,
        package_up_mm=up_mm,
        clearance_across_mm=2 * gap_mm,
        clearance_up_mm=2 * gap_mm,
        rabbet_width_mm=0,
        face_width_mm=wall_mm,
    )
    assert (tray.inside_across_mm, tray.inside_up_mm) == pytest.approx(
        (frame.sight_across_mm, frame.sight_up_mm), abs=TOLERANCE_MM
    )
    assert (tray.outside_across_mm, tray.outside_up_mm) == pytest.approx(
        (frame.outside_across_mm, frame.outside_up_mm), abs=TOLERANCE_MM
    )


@pytest.mark.parametrize(
    ("changed", "found"),
    [
        ({}, []),
        ({"gap_mm": 0.0}, [("tray.no-gap", Severity.STOP)]),
        ({"ledge_width_mm": 6.0}, [("tray.carries-nothing", Severity.STOP)]),
        ({"ledge_width_mm": 4.0}, [("tray.carries-nothing", Severity.STOP)]),
        ({"ledge_width_mm": 11.9}, [("tray.carries-little", Severity.WARN)]),
        ({"ledge_width_mm": 6.0 + LEAST_BEARING_MM}, []),
    ],
)
def test_a_ledge_has_to_cross_the_gap_and_carry(changed: dict[str, float], found: list[tuple[str, Severity]]) -> None:
    findings = tray_findings(tray_around(**RELIEF | changed))
    assert [(finding.code, finding.severity) for finding in findings] == found


@pytest.mark.parametrize("changed", [{"gap_mm": 0.0}, {"ledge_width_mm": 4.0}, {"ledge_width_mm": 11.0}])
def test_every_way_out_leaves_no_finding(changed: dict[str, float]) -> None:
    (finding,) = tray_findings(tray_around(**RELIEF | changed))
    (way,) = finding.ways
    argument = way.argument.removeprefix("tray_")
    assert tray_findings(tray_around(**RELIEF | changed | {argument: way.value_mm})) == ()


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"artwork_up_mm": 0.0}, "artwork_up_mm"),
        ({"gap_mm": -1.0}, "tray_gap_mm"),
        ({"wall_mm": 0.0}, "tray_wall_mm"),
        ({"ledge_width_mm": 0.0}, "tray_ledge_width_mm"),
        ({"ledge_width_mm": 156.0}, "tray_ledge_width_mm"),
    ],
)
def test_trays_that_cannot_be_are_refused(changed: dict[str, float], field: str) -> None:
    with pytest.raises(FrameCalcError) as refusal:
        tray_around(**RELIEF | changed)
    assert refusal.value.field == field
