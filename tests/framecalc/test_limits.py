"""Refusals: the sentence names what was found, in words and with its unit, and what would do."""

import pytest

from framecalc.errors import OutOfRange
from framecalc.limits import require_between, require_not_negative, require_positive


@pytest.mark.parametrize("value", [0.0, -1.0, float("nan"), float("inf")])
def test_what_is_not_more_than_nothing_is_refused(value: float) -> None:
    with pytest.raises(OutOfRange, match="more than 0 mm would do") as refusal:
        require_positive(face_width_mm=value)
    assert refusal.value.field == "face_width_mm"
    assert refusal.value.sentence.startswith("The face width cannot be")


def test_nothing_is_not_less_than_nothing() -> None:
    require_not_negative(kerf_mm=0.0)
    with pytest.raises(OutOfRange, match="0 mm or more would do"):
        require_not_negative(kerf_mm=-0.1)


@pytest.mark.parametrize("value", [0.0, 45.0, 90.0])
def test_the_ends_of_a_range_belong_to_it(value: float) -> None:
    require_between(0, 90, slope_deg=value)


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"slope_deg": 91.0}, "The slope cannot be 91°: 0° to 90° would do."),
        ({"humidity_pct": -1.0}, "The humidity cannot be -1 %: 0 % to 90 % would do."),
        ({"sides": 91}, "The sides cannot be 91: 0 to 90 would do."),
        ({"temperature_c": float("nan")}, "The temperature cannot be nan °C: 0 °C to 90 °C would do."),
    ],
)
def test_the_unit_is_read_from_the_name(given: dict[str, float], says: str) -> None:
    with pytest.raises(OutOfRange) as refusal:
        require_between(0, 90, **given)
    assert refusal.value.sentence == says


def test_a_length_stays_in_braces_for_whoever_writes_the_projects_unit() -> None:
    with pytest.raises(OutOfRange) as refusal:
        require_between(0, 10, kerf_mm=12.7)
    assert refusal.value.lengths == {"value": 12.7, "least": 0, "most": 10}
    assert "{value}" in refusal.value.wording
