"""What the seasons do to a mitre: the exact angle, the worked example, the year of a room, the levers."""

from math import atan, cos, degrees, radians, sin, sqrt, tan

import pytest

from framecalc.errors import FrameCalcError
from framecalc.wood.movement import Coefficients
from framecalc.wood.seasons import Air, Levers, OpensAt, Year, find_levers, mitre_gap_mm, through_the_year, two_seasons

CHERRY = Coefficients(radial_per_pct=0.00126, tangential_per_pct=0.00248, from_table=True, agrees=True)
WINTER, SUMMER = Air(temperature_c=20, humidity_pct=30), Air(temperature_c=23, humidity_pct=60)


def _year(*, assembled_pct: float, width_mm: float = 60) -> Year:
    return through_the_year(
        width_mm, coefficient_per_pct=0.00248, assembled_pct=assembled_pct, air=two_seasons(WINTER, SUMMER)
    )


def test_worked_cherry_mitre() -> None:
    """60 mm, 9 to 6 %: each cut becomes 44.7861°, the joint opens 0.4279°, 0.631 mm at the inside."""
    strain = 0.00248 * 3
    assert degrees(atan(1 - strain)) == pytest.approx(44.7861, abs=0.00005)
    assert mitre_gap_mm(60, coefficient_per_pct=0.00248, change_pct=-3) == pytest.approx(0.631, abs=0.0005)


@pytest.mark.parametrize("sides", [3, 4, 6, 12])
@pytest.mark.parametrize("change_pct", [-4.0, 3.0])
def test_the_gap_is_that_of_the_angle_that_each_cut_turns_by(sides: int, change_pct: float) -> None:
    """Shrink a member across its width alone and measure the angle of its cut; both turn alike."""
    tip = radians(90 - 180 / sides)
    across = 60 * (1 + 0.00248 * change_pct)
    turned = tip - atan(across / (60 / tan(tip)))
    exact_mm = abs(2 * turned) * 60 / cos(radians(180 / sides))
    found = mitre_gap_mm(60, coefficient_per_pct=0.00248, change_pct=change_pct, sides=sides)
    assert found == pytest.approx(exact_mm, rel=0.02)
    assert found == pytest.approx(2 * 60 * 0.00248 * abs(change_pct) * sin(radians(180 / sides)))


def test_drying_opens_inside_and_swelling_outside() -> None:
    moist, dry = _year(assembled_pct=12), _year(assembled_pct=5)
    assert {month.opens for month in moist.months} == {OpensAt.INSIDE}
    assert {month.opens for month in dry.months} == {OpensAt.OUTSIDE}
    assert moist.outside_mm == 0 == dry.inside_mm


def test_the_wood_is_driest_in_winter_and_moistest_in_summer() -> None:
    moistures = [month.moisture_pct for month in _year(assembled_pct=8).months]
    assert moistures.index(min(moistures)) == 0
    assert moistures.index(max(moistures)) == 6


def test_two_seasons_meet_half_way_and_south_of_the_equator_half_a_year_later() -> None:
    north, south = two_seasons(WINTER, SUMMER), two_seasons(WINTER, SUMMER, coldest_month=7)
    assert north[0] == south[6] == WINTER
    assert [round(air.humidity_pct, 9) for air in north[3:4]] == [45]
    assert [air.humidity_pct for air in north] == pytest.approx([air.humidity_pct for air in south[6:] + south[:6]])


def test_twelve_values_of_ones_own_are_taken_as_they_are() -> None:
    air = tuple(Air(temperature_c=20, humidity_pct=30 + month) for month in range(12))
    year = through_the_year(60, coefficient_per_pct=0.00248, assembled_pct=8, air=air)
    assert [month.month for month in year.months] == list(range(1, 13))
    assert [month.moisture_pct for month in year.months] == sorted(month.moisture_pct for month in year.months)


def _levers(year: Year, *, width_mm: float = 60, gap_mm: float = 0.3, spline_depth_mm: float = 0.0) -> Levers:
    return find_levers(
        year,
        face_width_mm=width_mm,
        coefficients=CHERRY,
        ring_deg=0,
        gap_mm=gap_mm,
        spline_depth_mm=spline_depth_mm,
    )


def test_each_lever_does_what_it_says_when_it_is_pulled() -> None:
    year = _year(assembled_pct=6.5)
    levers = _levers(year, spline_depth_mm=30)
    settled = _year(assembled_pct=levers.best_moisture_pct)
    narrow = _year(assembled_pct=6.5, width_mm=levers.widest_mm)
    quarter = through_the_year(60, coefficient_per_pct=0.00126, assembled_pct=6.5, air=two_seasons(WINTER, SUMMER))
    assert levers.now_mm == year.worst_mm
    assert settled.worst_mm == pytest.approx(levers.settled_mm)
    assert settled.inside_mm == pytest.approx(settled.outside_mm)
    assert narrow.worst_mm == pytest.approx(0.3)
    assert quarter.worst_mm == pytest.approx(levers.quarter_sawn_mm)
    past_the_spline_mm = 60 * sqrt(2) - 30  # the same angle over what is left of the mitre
    assert levers.splined_mm == pytest.approx(year.worst_mm / (60 * sqrt(2)) * past_the_spline_mm)


def test_a_member_that_is_narrow_enough_may_stay() -> None:
    assert _levers(_year(assembled_pct=8), gap_mm=5).widest_mm == 60


@pytest.mark.parametrize("months", [0, 11, 13])
def test_a_year_of_other_than_twelve_months_is_refused(months: int) -> None:
    with pytest.raises(FrameCalcError, match="twelve months"):
        through_the_year(60, coefficient_per_pct=0.00248, assembled_pct=8, air=months * (WINTER,))


def test_a_spline_longer_than_the_mitre_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="spline depth"):
        _levers(_year(assembled_pct=8), spline_depth_mm=90)


def test_air_outside_of_the_equation_is_refused_with_its_field() -> None:
    with pytest.raises(FrameCalcError) as refusal:
        through_the_year(
            60, coefficient_per_pct=0.0025, assembled_pct=8, air=12 * (Air(temperature_c=20, humidity_pct=2),)
        )
    assert refusal.value.field == "humidity_pct"


@pytest.mark.parametrize(("assembled_pct", "is_taken"), [(-0.1, False), (0, True), (30, True), (30.1, False)])
def test_wood_was_assembled_between_dry_and_the_point_where_it_moves_no_more(
    assembled_pct: float, is_taken: bool
) -> None:
    if is_taken:
        assert _year(assembled_pct=assembled_pct).worst_mm > 0
    else:
        with pytest.raises(FrameCalcError, match="0% to 30%") as refusal:
            _year(assembled_pct=assembled_pct)
        assert refusal.value.field == "assembled_pct"


@pytest.mark.parametrize(("change_pct", "is_taken"), [(-30.1, False), (-30, True), (30, True), (30.1, False)])
def test_no_mitre_moves_by_more_than_wood_can_take_up(change_pct: float, is_taken: bool) -> None:
    if is_taken:
        assert mitre_gap_mm(60, coefficient_per_pct=0.0025, change_pct=change_pct) > 0
    else:
        with pytest.raises(FrameCalcError, match="30"):
            mitre_gap_mm(60, coefficient_per_pct=0.0025, change_pct=change_pct)
