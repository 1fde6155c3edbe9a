"""What holds the package, how many, and how long its screws may be."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as some

from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.package.retainers import (
    LIMITS_MM,
    MOST_SPRING_MM,
    STOCK_OFFSETS_MM,
    Retainer,
    choose_retainer,
    choose_screw,
    hold_with,
    retainer_findings,
    space_retainers,
)


@pytest.mark.parametrize(
    ("left_over_mm", "retainer", "size_mm"),
    [
        (0, Retainer.BUTTONS, 0),
        (-0.4, Retainer.BUTTONS, 0),
        (0.6, Retainer.SHIM, 0.6),
        (2.9, Retainer.SHIM, 2.9),
        (3, Retainer.POINTS, 0),
        (9, Retainer.POINTS, 0),
        (-2, Retainer.STRIP, 2),
        (-3.175, Retainer.CLIPS, 3.175),
        (-6.3, Retainer.CLIPS, 3.175),
        (-6.35, Retainer.CLIPS, 6.35),
        (-11, Retainer.STRIP, 11),
        (-40, Retainer.STRIP, 40),
    ],
)
def test_the_retainer_follows_from_what_is_left(left_over_mm: float, retainer: Retainer, size_mm: float) -> None:
    found = choose_retainer(left_over_mm=left_over_mm)
    assert (found.retainer, found.size_mm) == (retainer, pytest.approx(size_mm))


@given(proud_mm=some.floats(0.51, 60))
def test_a_clip_never_steps_down_further_than_the_package_is_proud(proud_mm: float) -> None:
    found = choose_retainer(left_over_mm=-proud_mm)
    if found.retainer is Retainer.CLIPS:
        assert found.size_mm <= proud_mm + 1e-6 and found.spring_mm <= MOST_SPRING_MM + 1e-6
        assert not any(found.size_mm < offset <= proud_mm for offset in STOCK_OFFSETS_MM)
    else:
        assert found.retainer is Retainer.STRIP and found.size_mm == proud_mm


def test_only_clips_at_hand_are_taken() -> None:
    assert choose_retainer(left_over_mm=-7, offsets_mm=[5.0]).size_mm == 5.0
    with pytest.raises(OutOfRange):
        choose_retainer(left_over_mm=-7, offsets_mm=[0.0])


@given(side_mm=some.floats(20, 3000), limit_mm=some.floats(40, 400), corner_mm=some.floats(0, 100))
def test_none_is_further_apart_than_the_limit(side_mm: float, limit_mm: float, corner_mm: float) -> None:
    spacing = space_retainers(side_mm, limit_mm=limit_mm, from_corner_mm=corner_mm)
    places = spacing.places_mm
    assert all(-1e-9 <= place <= side_mm + 1e-9 for place in places)
    assert places[0] + places[-1] == pytest.approx(side_mm)
    assert all(after - before <= limit_mm + 1e-3 for before, after in pairwise(places))
    assert spacing.count == 1 or places[0] == corner_mm


def test_one_more_would_never_be_needed_and_one_less_never_do() -> None:
    assert space_retainers(500, limit_mm=100).count == 5
    assert space_retainers(501, limit_mm=100).count == 6
    assert space_retainers(90, limit_mm=100).places_mm == (45,)
    assert set(LIMITS_MM) == set(Retainer)


@given(wood_mm=some.floats(13, 50), through_mm=some.floats(0, 3))
def test_a_screw_stays_short_of_the_face(wood_mm: float, through_mm: float) -> None:
    screw = choose_screw(wood_mm=wood_mm, through_mm=through_mm)
    assert screw.length_mm - through_mm <= wood_mm - 3 + 1e-6
    assert screw.bite_mm == screw.length_mm - through_mm >= 6 - 1e-6


def test_wood_too_thin_for_any_screw_is_refused() -> None:
    with pytest.raises(ImpossibleSize, match="thicker member, or points") as refusal:
        choose_screw(wood_mm=8, through_mm=1)
    assert refusal.value.field == "thickness_mm"


@pytest.mark.parametrize(
    ("left_over_mm", "least_mm", "most_mm", "land_mm", "codes"),
    [
        (-7, -7.5, -6.4, 20, []),
        (-7, -7.5, -6, 20, ["retainers.never-presses"]),
        (-7, -7.5, -6.4, 8, ["retainers.foot-off-wood"]),
        (4, 2.5, 5, 8, ["retainers.no-room-for-points"]),
        (4, 3.5, 5, 8, []),
    ],
)
def test_what_is_said_of_a_retainer(
    left_over_mm: float, least_mm: float, most_mm: float, land_mm: float, codes: list[str]
) -> None:
    held = choose_retainer(left_over_mm=left_over_mm)
    found = retainer_findings(held, least_left_over_mm=least_mm, most_left_over_mm=most_mm, land_mm=land_mm, foot_mm=12)
    assert [finding.code for finding in found] == codes
    assert all(finding.sentence.format_map(finding.lengths) for finding in found)


@given(left_over_mm=some.floats(-40, 40))
def test_whatever_is_wished_for_holds_or_is_refused_with_what_would_do(left_over_mm: float) -> None:
    chosen = choose_retainer(left_over_mm=left_over_mm).retainer
    for wished in Retainer:
        try:
            assert hold_with(wished, left_over_mm=left_over_mm).retainer is wished
        except ImpossibleSize as refusal:
            assert wished is not chosen and chosen.value in refusal.sentence
