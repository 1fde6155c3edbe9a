"""Refusals: the sentence names what was found, in words and with its unit, and what to enter."""

import pytest

from framecalc.errors import OutOfRange
from framecalc.limits import require_between, require_not_negative, require_positive


@pytest.mark.parametrize("value", [0.0, -1.0, float("nan"), float("inf")])
def test_what_is_not_more_than_nothing_is_refused(value: float) -> None:
    with pytest.raises(OutOfRange, match="Enter more than 0 mm") as refusal:
        require_positive(face_width_mm=value)
    assert refusal.value.field == "face_width_mm"
    assert refusal.value.sentence.startswith("Enter more than 0 mm for the face width, not ")


def test_nothing_is_not_less_than_nothing() -> None:
    require_not_negative(kerf_mm=0.0)
    with pytest.raises(OutOfRange, match="Enter 0 mm or more"):
        require_not_negative(kerf_mm=-0.1)


@pytest.mark.parametrize("value", [0.0, 45.0, 90.0])
def test_the_ends_of_a_range_belong_to_it(value: float) -> None:
    require_between(0, 90, slope_deg=value)


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"slope_deg": 91.0}, "Enter 0° to 90° for the slope, not 91°."),
        ({"humidity_pct": -1.0}, "Enter 0% to 90% for the humidity, not -1%."),
        ({"sides": 91}, "Enter 0 to 90 for the sides, not 91."),
        ({"temperature_c": float("nan")}, "Enter 0 °C to 90 °C for the temperature, not nan °C."),
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
