"""Temperatures, forces and pressures: typed values keep their unit, worked out ones are written in the job's."""

from fractions import Fraction

import pytest

from framecalc.errors import FrameCalcError, OutOfRange
from framecalc.measures import Kind, measure_text, parse_reading, within, written_measures
from framecalc.units import Unit


@pytest.mark.parametrize(
    ("text", "kind", "exact", "kept"),
    [
        ("20", Kind.TEMPERATURE, 20, "20"),
        ("20 °C", Kind.TEMPERATURE, 20, "20"),
        ("68 F", Kind.TEMPERATURE, 20, "68 °F"),
        ("-40°F", Kind.TEMPERATURE, -40, "-40 °F"),
        ("−4 f", Kind.TEMPERATURE, -20, "-4 °F"),
        ("20,5", Kind.TEMPERATURE, Fraction(41, 2), "20.5"),
        ("300 N", Kind.FORCE, 300, "300"),
        ("1 lb", Kind.FORCE, Fraction(44482216152605, 10**13), "1 lbf"),
    ],
)
def test_a_value_is_read_exactly_and_keeps_its_unit(text: str, kind: Kind, exact: Fraction, kept: str) -> None:
    """212 °F is 100 °C, −40 both; a pound-force 4.4482216 N: NIST SP 811, Appendix B.8, from memory, not re-read."""
    read = parse_reading(text, kind=kind)
    assert (read.exact, read.text) == (exact, kept)
    assert parse_reading(read.text, kind=kind) == read


@pytest.mark.parametrize(("unit", "kept"), [(Unit.MM, "20"), (Unit.INCH, "20 °F")])
def test_a_bare_number_takes_the_unit_of_the_job(unit: Unit, kept: str) -> None:
    assert parse_reading("20", kind=Kind.TEMPERATURE, bare=unit).text == kept


@pytest.mark.parametrize(
    ("text", "kind"), [("45 lb", Kind.TEMPERATURE), ("68 F", Kind.FORCE), ("30°", Kind.FORCE), ("", Kind.FORCE)]
)
def test_a_unit_of_another_kind_is_refused(text: str, kind: Kind) -> None:
    with pytest.raises(FrameCalcError, match=r"^Enter "):
        parse_reading(text, kind=kind)


@pytest.mark.parametrize(("text", "says"), [("200", "-?.40 °C to 60 °C"), ("200 F", "-?.40 °F to 140 °F")])
def test_a_range_is_told_in_the_unit_that_was_typed(text: str, says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        within(parse_reading(text, kind=Kind.TEMPERATURE), least=-40, most=60, name="temperature")


def test_the_ends_of_a_range_lie_in_it() -> None:
    for text in ("-40", "60", "140 F"):
        reading = parse_reading(text, kind=Kind.TEMPERATURE)
        assert within(reading, least=-40, most=60, name="temperature") == reading


def test_a_pressure_is_written_to_hundredths_of_a_megapascal_or_whole_psi_and_all_else_to_tenths() -> None:
    measures = {"pressure": (0.8274, "MPa"), "pull": (12.345, "N")}
    assert written_measures(measures, Unit.MM) == {"pressure": "0.83 MPa", "pull": "12.3 N"}
    assert written_measures(measures, Unit.INCH) == {"pressure": "120 psi", "pull": "2.8 lbf"}


def test_what_is_worked_out_is_written_in_the_unit_of_the_job() -> None:
    assert [measure_text(1.0, kind=Kind.PRESSURE, unit=unit) for unit in Unit] == ["1 MPa", "145 psi"]
    assert [measure_text(444.82, kind=Kind.FORCE, unit=unit) for unit in Unit] == ["445 N", "100 lbf"]
    error = OutOfRange("Enter {low} to {high}", measures={"low": (-2.0, "°C"), "high": (60.0, "°C")})
    assert error.sentence == "Enter -2 °C to 60 °C"
    assert written_measures(error.measures, Unit.INCH) == {"low": "28.4 °F", "high": "140 °F"}
