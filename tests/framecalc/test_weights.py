"""Weights as typed: read exactly in the unit that the scales show, or refused with what to enter."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as some

from framecalc.errors import UnreadableNumber
from framecalc.units import Comma, Unit
from framecalc.weights import KG_PER_POUND, mass_text, parse_weight


@pytest.mark.parametrize(
    ("typed", "kg"),
    [
        ("1 kg", 1),
        ("850 g", 0.85),
        ("1 lb", 0.45359237),
        ("1 oz", 0.028349523125),
        ("2 lb 8 oz", 2.5 * 0.45359237),
        ("2lb8oz", 2.5 * 0.45359237),
        ("2 1/2 lb", 2.5 * 0.45359237),
        ("16 OZ", 0.45359237),
        ("3 lbs", 3 * 0.45359237),
        ("2½ lb", 2.5 * 0.45359237),
        ("2 pounds 8 ounces", 2.5 * 0.45359237),
        ("5 kilos", 5),
        ("5. kg", 5),
        (".5 kg", 0.5),
        ("1,25 kg", 1.25),
    ],
)
def test_a_weight_is_read_in_its_unit(typed: str, kg: float) -> None:
    """Pound and ounce: NIST SP 811 (2008 ed.), Appendix B.8, from memory, not re-read."""
    assert parse_weight(typed).kg == pytest.approx(kg, rel=1e-12)


@pytest.mark.parametrize(("unit", "kept"), [(Unit.MM, "2 kg"), (Unit.INCH, "2 lb")])
def test_a_bare_number_takes_the_unit_of_the_project_and_says_so(unit: Unit, kept: str) -> None:
    assert parse_weight("2", bare=unit).text == kept


@pytest.mark.parametrize("typed", ["", "heavy", "2 stone", "-1 kg", "1/0 kg", "5 8 oz", "2 kg 3 oz", "1e3 g", "9" * 99])
def test_what_is_no_weight_is_refused_with_what_would_do(typed: str) -> None:
    with pytest.raises(UnreadableNumber, match=r"^Enter "):
        parse_weight(typed)


def test_a_doubtful_comma_is_asked_back_unless_the_shop_has_said() -> None:
    with pytest.raises(UnreadableNumber, match="two ways"):
        parse_weight("1,250 g")
    assert parse_weight("1,250 g", comma=Comma.THOUSANDS).exact_kg == Fraction(5, 4)
    assert parse_weight("1,250 kg", comma=Comma.DECIMAL).exact_kg == Fraction(5, 4)


@given(some.integers(1, 9999), some.sampled_from(["kg", "g", "lb", "oz"]))
def test_the_text_that_is_kept_reads_the_same_again(count: int, unit: str) -> None:
    weight = parse_weight(f"{count}{unit}")
    assert parse_weight(weight.text) == weight


@pytest.mark.parametrize("unit", Unit)
def test_a_whole_one_is_said_in_the_larger_unit_and_what_is_under_it_in_the_smaller(unit: Unit) -> None:
    one_kg, large, small = (1.0, "kg", "g") if unit is Unit.MM else (float(KG_PER_POUND), "lb", "oz")
    assert mass_text(one_kg, unit=unit) == f"1.00 {large}"
    assert mass_text(one_kg * 0.99, unit=unit).endswith(f" {small}")
