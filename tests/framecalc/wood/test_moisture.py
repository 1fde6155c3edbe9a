"""Equilibrium against the handbook's table; humidity of warmed air against steam tables.

`emc_table.csv`: table 4-2 of the Wood Handbook, 180 points; each row says whether it was read in a reprint, is from
memory, or is a misprint put right.
"""

import csv
from pathlib import Path

import pytest

from framecalc.errors import FrameCalcError
from framecalc.wood.moisture import (
    equilibrium_pct,
    meter_findings,
    read_meter,
    resting_humidity_pct,
    saturation_ratio,
    warmed_humidity_pct,
)

TABLE = Path(__file__).parents[2] / "check_values/emc_table.csv"
ROWS = list(csv.DictReader(TABLE.read_text("utf-8").splitlines()))


def _celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


def test_the_table_has_all_its_points() -> None:
    assert len(ROWS) == 180


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['temp_F']} F {row['rh_pct']}%")
def test_the_printed_table_is_reproduced(row: dict[str, str]) -> None:
    """Printed to 0.1 %: 0.05 is the rounding, 0.01 what the print rounds otherwise."""
    fahrenheit, humidity, printed = float(row["temp_F"]), float(row["rh_pct"]), float(row["emc_table_pct"])
    assert equilibrium_pct(_celsius(fahrenheit), humidity_pct=humidity) == pytest.approx(printed, abs=0.06)


def test_worked_point() -> None:
    """70 °F and 50 %, every step by hand: 1800/382.250 × (0.693941 + 1.268762) = 9.2423 %."""
    assert equilibrium_pct(_celsius(70), humidity_pct=50) == pytest.approx(9.2423, abs=0.0005)


@pytest.mark.parametrize(("celsius", "humidity", "expect"), [(20, 35, 6.963), (20, 60, 11.000)])
def test_worked_season(celsius: float, humidity: float, expect: float) -> None:
    assert equilibrium_pct(celsius, humidity_pct=humidity) == pytest.approx(expect, abs=0.0005)


@pytest.mark.parametrize("celsius", [0, 10, 20, 35])
def test_damper_air_makes_wood_moister_and_warmer_air_drier(celsius: float) -> None:
    steps = [equilibrium_pct(celsius, humidity_pct=humidity) for humidity in range(5, 96, 5)]
    warmer = [equilibrium_pct(celsius + 10, humidity_pct=humidity) for humidity in range(30, 96, 5)]
    assert steps == sorted(steps)
    assert all(warm < cool for warm, cool in zip(warmer, steps[5:], strict=True))


@pytest.mark.parametrize("celsius", [0.0, 20.0, 40.0])
@pytest.mark.parametrize("humidity", [5.0, 30.0, 52.5, 95.0])
def test_the_humidity_at_rest_gives_back_the_moisture(celsius: float, humidity: float) -> None:
    moisture = equilibrium_pct(celsius, humidity_pct=humidity)
    assert resting_humidity_pct(moisture, temperature_c=celsius) == pytest.approx(humidity, abs=1e-6)


@pytest.mark.parametrize(
    ("celsius", "kilopascal"), [(-10, 0.2865), (0, 0.6113), (10, 1.2282), (20, 2.3392), (25, 3.1698), (40, 7.3849)]
)
def test_saturated_air_is_that_of_the_steam_tables(celsius: float, kilopascal: float) -> None:
    """IAPWS-IF97 saturation pressures, and supercooled water at −10 °C (Smithsonian tables): from memory.

    The formula is known to be within 0.3 % or so of them in this range; 0.4 % is asked.
    """
    assert saturation_ratio(celsius) * 0.6112 == pytest.approx(kilopascal, rel=0.004)


def test_air_that_is_not_warmed_keeps_its_humidity_and_warmed_air_gets_drier() -> None:
    assert warmed_humidity_pct(outdoor_c=15, outdoor_humidity_pct=70, indoor_c=15) == pytest.approx(70)
    steps = [warmed_humidity_pct(outdoor_c=-5, outdoor_humidity_pct=80, indoor_c=room) for room in (0, 10, 18, 22)]
    assert steps == sorted(steps, reverse=True)


def test_winter_air_warmed_to_a_room_is_dry_as_the_steam_tables_say() -> None:
    """0 °C at 80 %, warmed to 20 °C: 80 × 0.6113/2.3392 = 20.9 %."""
    found = warmed_humidity_pct(outdoor_c=0, outdoor_humidity_pct=80, indoor_c=20)
    assert found == pytest.approx(80 * 0.6113 / 2.3392, abs=0.1)


def test_cooling_damp_air_past_its_dew_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="indoor humidity"):
        warmed_humidity_pct(outdoor_c=30, outdoor_humidity_pct=80, indoor_c=18)


def test_wood_that_is_wetter_than_the_room_will_open_inside() -> None:
    found = meter_findings(read_meter(11.0, temperature_c=20, humidity_pct=40))
    assert [finding.code for finding in found] == ["moisture.not-settled"]
    assert "open the mitres inside" in found[0].sentence


def test_wood_that_is_drier_than_the_room_will_open_outside() -> None:
    found = meter_findings(read_meter(6.5, temperature_c=20, humidity_pct=60))
    assert "open the mitres outside" in found[0].sentence


def test_wood_at_rest_with_the_room_is_no_finding() -> None:
    assert meter_findings(read_meter(7.9, temperature_c=20, humidity_pct=40)) == ()


def test_a_meter_is_not_trusted_when_the_wood_is_very_dry() -> None:
    codes = [finding.code for finding in meter_findings(read_meter(5.2, temperature_c=20, humidity_pct=25))]
    assert codes == ["moisture.meter-out-of-range"]


@pytest.mark.parametrize(
    ("celsius", "humidity", "field"),
    [(61, 50, "temperature_c"), (20, 4, "humidity_pct"), (20, 96, "humidity_pct"), (float("nan"), 50, "temperature_c")],
)
def test_air_outside_of_the_equation_is_refused(celsius: float, humidity: float, field: str) -> None:
    with pytest.raises(FrameCalcError, match=r"^Enter ") as refusal:
        equilibrium_pct(celsius, humidity_pct=humidity)
    assert refusal.value.field == field


def test_a_moisture_at_which_no_air_rests_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="Enter a moisture of 1"):
        resting_humidity_pct(40, temperature_c=20)


@pytest.mark.parametrize(
    ("celsius", "humidity", "is_in"),
    [
        (-2, 50, True),
        (-2.1, 50, False),
        (60, 50, True),
        (60.1, 50, False),
        (20, 5, True),
        (20, 4.9, False),
        (20, 95, True),
        (20, 95.1, False),
    ],
)
def test_the_equation_is_used_from_freezing_to_sixty_degrees_and_from_5_to_95_per_cent(
    celsius: float, humidity: float, is_in: bool
) -> None:
    if is_in:
        assert 0 < equilibrium_pct(celsius, humidity_pct=humidity) < 30
    else:
        with pytest.raises(FrameCalcError):
            equilibrium_pct(celsius, humidity_pct=humidity)
