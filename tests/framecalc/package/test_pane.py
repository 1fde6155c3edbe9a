"""The pane: the largest that is usual for its thickness, and which thickness a size asks for."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as some

from framecalc.findings import Severity
from framecalc.package.glazing import Glazing
from framecalc.package.pane import measure_pane, pane_findings
from framecalc.tables.sheets import PaneLimit, pane_limits

GLAZINGS = (Glazing.GLASS, Glazing.ACRYLIC)


@pytest.mark.parametrize("limit", pane_limits(), ids=lambda limit: f"{limit.material} {limit.thickness_mm}")
def test_a_pane_as_large_as_usual_is_silent_and_one_a_little_larger_is_not(limit: PaneLimit) -> None:
    glazing = Glazing(limit.material)
    at_limit, over = (
        measure_pane(glazing, across_mm=limit.long_mm + more, up_mm=limit.short_mm, thickness_mm=limit.thickness_mm)
        for more in (0, 1)
    )
    assert pane_findings(at_limit, argument="layer") == ()
    assert [finding.severity for finding in pane_findings(over, argument="layer")] == [Severity.WARN]


@pytest.mark.parametrize("limit", pane_limits(), ids=lambda limit: f"{limit.material} {limit.thickness_mm}")
def test_a_quarter_of_a_millimetre_under_a_thickness_is_that_thickness_still(limit: PaneLimit) -> None:
    of_it, of_less = (
        measure_pane(
            Glazing(limit.material),
            across_mm=limit.long_mm,
            up_mm=limit.short_mm,
            thickness_mm=limit.thickness_mm - under_mm,
        )
        for under_mm in (0.24, 0.26)
    )
    assert pane_findings(of_it, argument="layer") == () != pane_findings(of_less, argument="layer")


@given(across_mm=some.floats(50, 3000), up_mm=some.floats(50, 3000), thickness_mm=some.floats(1, 8))
@pytest.mark.parametrize("glazing", GLAZINGS)
def test_the_thicker_pane_offered_is_silent_and_turning_a_pane_changes_nothing(
    glazing: Glazing, across_mm: float, up_mm: float, thickness_mm: float
) -> None:
    pane = measure_pane(glazing, across_mm=across_mm, up_mm=up_mm, thickness_mm=thickness_mm)
    assert pane == measure_pane(glazing, across_mm=up_mm, up_mm=across_mm, thickness_mm=thickness_mm)
    for finding in pane_findings(pane, argument="layer"):
        for way in finding.ways:
            thicker = measure_pane(glazing, across_mm=across_mm, up_mm=up_mm, thickness_mm=way.value_mm)
            assert way.value_mm > thickness_mm and pane_findings(thicker, argument="layer") == ()


def test_a_pane_far_too_large_is_a_stop_and_one_thinner_than_any_is_named() -> None:
    large = measure_pane(Glazing.GLASS, across_mm=1340, up_mm=1041, thickness_mm=2)
    assert [finding.severity for finding in pane_findings(large, argument="layer")] == [Severity.STOP]
    film = measure_pane(Glazing.ACRYLIC, across_mm=300, up_mm=200, thickness_mm=0.5)
    assert [finding.code for finding in pane_findings(film, argument="layer")] == ["pane.thin"]


@pytest.mark.parametrize("material", ["glass", "acrylic"])
def test_a_thicker_pane_is_never_smaller(material: str) -> None:
    rows = [limit for limit in pane_limits() if limit.material == material]
    assert len(rows) > 4
    for thinner, thicker in pairwise(rows):
        assert thinner.thickness_mm < thicker.thickness_mm
        assert thinner.short_mm <= thicker.short_mm and thinner.long_mm <= thicker.long_mm
        assert thinner.short_mm <= thinner.long_mm


@pytest.mark.parametrize("limit", pane_limits(), ids=lambda limit: f"{limit.material} {limit.thickness_mm}")
def test_a_pane_as_large_as_a_thickness_takes_is_offered_that_one(limit: PaneLimit) -> None:
    pane = measure_pane(
        Glazing(limit.material), across_mm=limit.long_mm, up_mm=limit.short_mm, thickness_mm=limit.thickness_mm - 0.5
    )
    offered = [way.value_mm for finding in pane_findings(pane, argument="layer") for way in finding.ways]
    assert all(thickness_mm <= limit.thickness_mm for thickness_mm in offered)
