"""What is milled into a stick is compared by its sizes, in whichever unit they are written."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.plan.timber.profiles import Milled, mills_alike
from framecalc.units import Unit, describe_length, describe_size

MILLIMETRES = st.floats(min_value=1, max_value=60)


def words(across_mm: float, deep_mm: float, unit: Unit) -> str:
    edge = f"sight edge cove {describe_length(deep_mm, unit=unit)}"
    return Milled(rabbet=describe_size(across_mm, deep_mm, unit=unit), profile=edge).words


@given(across_mm=MILLIMETRES, deep_mm=MILLIMETRES)
def test_one_section_is_itself_in_every_unit(across_mm: float, deep_mm: float) -> None:
    for one, other in product(Unit, Unit):
        assert mills_alike(words(across_mm, deep_mm, one), words(across_mm, deep_mm, other))


@given(across_mm=MILLIMETRES, deep_mm=MILLIMETRES)
def test_half_a_millimetre_more_is_another_section(across_mm: float, deep_mm: float) -> None:
    for one, other in product(Unit, Unit):
        assert not mills_alike(words(across_mm, deep_mm, one), words(across_mm, deep_mm + 0.5, other))


@pytest.mark.parametrize(
    "other", ["rabbet 6 × 12 mm, sight edge cove 3 mm", "no rabbet", "rabbet 6 mm", "rabbet 1/0 × 12 in", "", "Ogee"]
)
def test_other_words_are_another_section(other: str) -> None:
    assert not mills_alike("rabbet 6 × 12 mm", other) and not mills_alike(other, "rabbet 6 × 12 mm")
