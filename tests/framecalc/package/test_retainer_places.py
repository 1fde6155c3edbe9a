"""Where retainers stand, how many there are, and how long their screws are."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as some

from framecalc.errors import ImpossibleSize
from framecalc.package.retainer_places import (
    LIMITS_MM,
    STOCK_SCREWS_MM,
    RetainerSpacing,
    choose_screw,
    space_on_stretcher,
    space_retainers,
)
from framecalc.package.retainers import Retainer
from framecalc.units import Step, Unit

SIDES, STEPS = some.floats(20, 3000), some.sampled_from([0.0, *(float(step.size_mm) for step in Step)])


@given(side_mm=SIDES, limit_mm=some.floats(40, 400), corner_mm=some.floats(0, 100), step_mm=STEPS)
def test_none_is_further_apart_than_the_limit(
    side_mm: float, limit_mm: float, corner_mm: float, step_mm: float
) -> None:
    spacing = space_retainers(side_mm, limit_mm=limit_mm, from_corner_mm=corner_mm, step_mm=step_mm)
    places = spacing.places_mm
    assert all(-step_mm - 1e-6 <= place <= side_mm + step_mm + 1e-6 for place in places)
    assert places[0] + places[-1] == pytest.approx(side_mm, abs=step_mm + 1e-6)
    assert all(after - before <= limit_mm + 1e-3 for before, after in pairwise(places))
    assert spacing.count == 1 or places[0] == pytest.approx(corner_mm, abs=step_mm / 2 + 1e-6)


@given(side_mm=SIDES, corner_mm=some.floats(0, 100), step=some.sampled_from(Step))
def test_every_place_lies_on_a_whole_step_of_the_tape(side_mm: float, corner_mm: float, step: Step) -> None:
    step_mm = float(step.size_mm)
    for spacing in (
        space_retainers(side_mm, limit_mm=200, from_corner_mm=corner_mm, step_mm=step_mm),
        space_on_stretcher(side_mm, from_corner_mm=corner_mm, step_mm=step_mm),
    ):
        assert all(abs(place / step_mm - round(place / step_mm)) < 1e-6 for place in spacing.places_mm)


@given(side_mm=some.floats(160, 4000))
def test_a_canvas_has_two_to_four_a_side_and_no_fewer_on_a_longer_one(side_mm: float) -> None:
    found = space_on_stretcher(side_mm)
    assert 2 <= found.count <= 4
    assert found.count <= space_on_stretcher(side_mm + 100).count


def test_one_more_would_never_be_needed_and_one_less_never_do() -> None:
    assert space_retainers(500, limit_mm=100).count == 5
    assert space_retainers(501, limit_mm=100).count == 6
    assert space_retainers(90, limit_mm=100).places_mm == (45,)
    assert set(LIMITS_MM) == set(Retainer)


@given(wood_mm=some.floats(14, 50), through_mm=some.floats(0, 3), unit=some.sampled_from(Unit))
def test_a_screw_is_one_as_sold_and_stays_short_of_the_face(wood_mm: float, through_mm: float, unit: Unit) -> None:
    lengths_mm = STOCK_SCREWS_MM[unit]
    screw = choose_screw(wood_mm=wood_mm, through_mm=through_mm, lengths_mm=lengths_mm)
    assert screw.length_mm in lengths_mm
    assert screw.length_mm - through_mm <= wood_mm - 3 + 1e-6
    assert screw.bite_mm == screw.length_mm - through_mm >= 6 - 1e-6
    assert not any(9 <= length_mm - through_mm < screw.bite_mm - 1e-6 for length_mm in lengths_mm)


@pytest.mark.parametrize(
    ("wood_mm", "through_mm", "unit", "length_mm"),
    [(18, 1, Unit.MM, 10), (58, 1, Unit.INCH, 12.7), (18, 7.35, Unit.INCH, 19.05), (18, 8, Unit.MM, 20)],
)
def test_a_thick_member_gets_no_longer_screw(wood_mm: float, through_mm: float, unit: Unit, length_mm: float) -> None:
    found = choose_screw(wood_mm=wood_mm, through_mm=through_mm, lengths_mm=STOCK_SCREWS_MM[unit])
    assert found.length_mm == length_mm


@pytest.mark.parametrize("unit", Unit)
def test_wood_too_thin_for_any_screw_is_refused(unit: Unit) -> None:
    with pytest.raises(ImpossibleSize, match="A screw of 6 mm cannot bite 6 mm: use points or thicken") as refusal:
        choose_screw(wood_mm=8, through_mm=1, lengths_mm=STOCK_SCREWS_MM[unit])
    assert refusal.value.field == "thickness_mm"


@given(side_mm=SIDES, limit_mm=some.floats(40, 400), corner_mm=some.floats(0, 100))
def test_one_less_would_leave_a_gap_wider_than_the_limit(side_mm: float, limit_mm: float, corner_mm: float) -> None:
    spacing = space_retainers(side_mm, limit_mm=limit_mm, from_corner_mm=corner_mm)
    between_mm = side_mm - 2 * corner_mm
    assert spacing.count <= 2 or between_mm / (spacing.count - 2) > limit_mm


@pytest.mark.parametrize("side_mm", [40.0, 90.0, 100.0])
def test_a_side_too_short_for_two_has_one_in_its_middle(side_mm: float) -> None:
    assert space_on_stretcher(side_mm, from_corner_mm=50).places_mm == (side_mm / 2,)
    assert space_retainers(side_mm, limit_mm=200, from_corner_mm=50).places_mm == (side_mm / 2,)


@pytest.mark.parametrize(
    ("side_mm", "number"), [(160, 2), (400, 2), (401, 3), (700, 3), (701, 4), (1001, 4), (3000, 4)]
)
def test_a_stretcher_has_one_more_for_each_length_that_it_bridges_up_to_four(side_mm: float, number: int) -> None:
    found = space_on_stretcher(side_mm)
    assert found.count == number
    assert found.places_mm[0] == 50 and found.places_mm[-1] == side_mm - 50
    assert found.apart_mm == pytest.approx((side_mm - 100) / (number - 1))


def test_of_one_alone_nothing_is_apart() -> None:
    assert space_retainers(80, limit_mm=200).apart_mm == 0
    assert RetainerSpacing(places_mm=(10, 30, 80, 90)).apart_mm == 50


@pytest.mark.parametrize(("wood_mm", "length_mm"), [(20, 10), (11, None), (12, 10), (12.5, 10)])
def test_what_a_screw_goes_through_makes_it_longer_and_what_is_kept_shorter(
    wood_mm: float, length_mm: float | None
) -> None:
    if length_mm is None:
        with pytest.raises(ImpossibleSize) as refusal:
            choose_screw(wood_mm=wood_mm, through_mm=1, lengths_mm=[10, 20])
        assert refusal.value.lengths == {"longest": 9, "bite": 6}
        return
    found = choose_screw(wood_mm=wood_mm, through_mm=1, lengths_mm=[10, 20])
    assert (found.length_mm, found.bite_mm, found.longest_mm) == (length_mm, length_mm - 1, wood_mm - 2)


def test_where_none_holds_well_the_longest_that_bites_is_taken() -> None:
    assert choose_screw(wood_mm=12, through_mm=1, lengths_mm=[7.5, 9, 9.5, 30]).length_mm == 9.5
