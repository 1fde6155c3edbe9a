"""Hangers: where a side is to screw them to, and what is said of place, load and size, exactly at each limit."""

from math import cos, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as some
from shapely import LineString, Polygon

from framecalc.errors import ImpossibleSize
from framecalc.findings import Severity
from framecalc.hanging.hangers import (
    BUILDING_KG,
    HIGH_RATIO,
    LOW_RATIO,
    ON_TOP,
    ONE_HOOK_KG,
    ONE_HOOK_MM,
    TOOTHED_KG,
    Hanger,
    crossings_mm,
    heavy_findings,
    place_findings,
    strength_findings,
    usual_down_mm,
)

AT_THE_SIDES = [kind for kind in Hanger if kind not in ON_TOP]


@given(sides=some.integers(3, 9), turn=some.floats(0, 6), share=some.floats(-0.95, 0.95))
def test_a_level_line_meets_an_outline_where_shapely_says(sides: int, turn: float, share: float) -> None:
    corners = [(300 * cos(turn + 2 * pi * n / sides), 200 * sin(turn + 2 * pi * n / sides)) for n in range(sides)]
    low, high = min(y for _, y in corners), max(y for _, y in corners)
    up_mm = (low + high) / 2 + share * (high - low) / 2
    cut = LineString([(-999, up_mm), (999, up_mm)]).intersection(Polygon(corners))
    assert crossings_mm(corners, up_mm=up_mm) == pytest.approx((cut.bounds[0], cut.bounds[2]), abs=1e-6)


@pytest.mark.parametrize("up_mm", [-6, 5.01, 9])
def test_past_the_frame_is_no_side_to_screw_to(up_mm: float) -> None:
    with pytest.raises(ImpossibleSize, match="No side is there"):
        crossings_mm([(-5, -5), (-5, 5), (5, 5), (5, -5)], up_mm=up_mm)


@pytest.mark.parametrize("kind", sorted(AT_THE_SIDES))
def test_the_usual_place_is_no_finding_and_lies_over_the_middle(kind: Hanger) -> None:
    down_mm = usual_down_mm(kind, up_mm=600)
    assert 600 * HIGH_RATIO <= down_mm <= 600 * LOW_RATIO
    assert list(place_findings(kind, down_mm=down_mm, up_mm=600, centre_down_mm=300)) == []


@pytest.mark.parametrize(
    ("down_mm", "codes"),
    [
        (148.5, ["hangers.place"]),
        (149.5, []),
        (200.5, []),
        (201.5, ["hangers.place"]),
        (299.9, ["hangers.place"]),
        (300, ["hangers.low"]),
    ],
)
@pytest.mark.parametrize("kind", sorted(AT_THE_SIDES))
def test_a_place_is_usual_to_the_millimetre_and_low_from_the_centre_of_gravity_on(
    kind: Hanger, down_mm: float, codes: list[str]
) -> None:
    found = list(place_findings(kind, down_mm=down_mm, up_mm=600, centre_down_mm=300))
    assert [one.code for one in found] == codes
    for one in found:
        assert one.lengths == {"down": down_mm, "high": 150, "low": 200, "centre": 300}
        assert all(
            not list(place_findings(kind, down_mm=way.value_mm, up_mm=600, centre_down_mm=300)) for way in one.ways
        )


@pytest.mark.parametrize("kind", sorted(ON_TOP))
def test_what_is_fixed_to_the_top_side_has_no_place_of_its_own(kind: Hanger) -> None:
    assert not list(place_findings(kind, down_mm=400, up_mm=600, centre_down_mm=300))


@pytest.mark.parametrize(
    ("load_kg", "rating_kg", "severity"),
    [(2.5, 10, None), (2.5, None, None), (2.6, 10, Severity.WARN), (10, 10, Severity.WARN), (10.1, 10, Severity.STOP)],
)
def test_a_hanger_is_weak_past_its_rating_by_the_factor_and_a_stop_past_its_rating(
    load_kg: float, rating_kg: float | None, severity: Severity | None
) -> None:
    found = list(strength_findings(Hanger.RINGS, load_kg=load_kg, rating_kg=rating_kg, factor_ratio=4))
    assert [(one.code, one.severity) for one in found] == ([("hangers.weak", severity)] if severity else [])


@pytest.mark.parametrize("kind", Hanger)
def test_only_a_toothed_hanger_has_a_load_past_which_it_is_none(kind: Hanger) -> None:
    at, past = (
        [one.code for one in strength_findings(kind, load_kg=load_kg, rating_kg=None, factor_ratio=4)]
        for load_kg in (TOOTHED_KG, TOOTHED_KG + 0.1)
    )
    assert (at, past) == ([], ["hangers.toothed"] if kind is Hanger.TOOTHED else [])


@pytest.mark.parametrize(
    ("kind", "hooks", "more_kg", "more_mm", "codes"),
    [
        (Hanger.WIRE, 1, 0, 0, []),
        (Hanger.WIRE, 1, 0.1, 0, ["hangers.one_hook"]),
        (Hanger.WIRE, 1, 0, 0.1, ["hangers.one_hook"]),
        (Hanger.WIRE, 2, 0.1, 0.1, []),
        (Hanger.CLEAT, 1, 0.1, 0.1, []),
    ],
)
def test_one_hook_does_for_what_is_neither_wide_nor_heavy(
    kind: Hanger, hooks: int, more_kg: float, more_mm: float, codes: list[str]
) -> None:
    found = heavy_findings(kind, hooks=hooks, mass_kg=ONE_HOOK_KG + more_kg, across_mm=ONE_HOOK_MM + more_mm)
    assert [one.code for one in found] == codes


def test_what_is_heavier_than_a_board_carries_goes_into_the_building() -> None:
    for more_kg, codes in ((0, []), (0.1, ["hangers.building"])):
        found = heavy_findings(Hanger.CLEAT, hooks=2, mass_kg=BUILDING_KG + more_kg, across_mm=300)
        assert [one.code for one in found] == codes
