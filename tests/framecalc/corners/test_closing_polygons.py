"""Closing polygons: against the closed form, a second solver and real polygons in Shapely."""

import random
from math import pi, radians, sin, tan

import pytest
from scipy.optimize import linprog
from shapely import Polygon
from shapely.affinity import rotate, translate
from shapes_apart import corner_to

from framecalc.corners.closing import (
    Closing,
    Tips,
    close_frame,
    least_worst_gap_mm,
)
from framecalc.corners.cut_members import CutMember
from framecalc.errors import FrameCalcError
from framecalc.sizes.shape import RECTANGLE_SIDES


@pytest.mark.parametrize("sides", [3, 5, 6, 8, 12])
@pytest.mark.parametrize("seed", range(3))
def test_a_polygon_closes_as_well_as_the_closed_form_allows(sides: int, seed: int) -> None:
    """Fault: a hexagon as cut could not be put together; four sides alone had names."""
    chance = random.Random(seed)
    members = [
        CutMember(
            side=str(1 + number),
            long_mm=300 + chance.uniform(-0.5, 0.5),
            start_deg=45 + chance.gauss(0, 0.2),
            finish_deg=45 + chance.gauss(0, 0.2),
        )
        for number in range(sides)
    ]
    free = close_frame(members, mitre_length_mm=46, tips=Tips.FREE)
    total_deg = sum(member.error_deg for member in members)
    least_mm = least_worst_gap_mm(total_deg, mitre_length_mm=46, sides=sides)
    assert free.worst_gap_mm == pytest.approx(least_mm, abs=1e-6)
    flush = close_frame(members, mitre_length_mm=46, tips=Tips.FLUSH)
    assert flush.worst_step_mm == pytest.approx(0, abs=1e-6) and flush.worst_gap_mm >= free.worst_gap_mm - 1e-6
    assert [corner.corner for corner in free.corners][-1] == f"{sides}-1"


@pytest.mark.parametrize("sides", [3, 6, 8])
def test_a_polygon_of_equal_sides_too_long_or_short_alike_has_neither_gap_nor_step(sides: int) -> None:
    members = [CutMember(side=str(1 + number), long_mm=299.0) for number in range(sides)]
    closing = close_frame(members, mitre_length_mm=46, tips=Tips.FREE)
    assert closing.worst_gap_mm == pytest.approx(0, abs=1e-6) and closing.worst_step_mm == pytest.approx(0, abs=1e-6)


def _least_step_mm(longer_mm: list[float]) -> float:
    """The least worst step of true ends in contact, by sliding tips as vectors; a solver of its own.

    Unknown are each side's shifts outward and along, and the worst step. Both tips of a corner lie on the one line of
    its mitre; the step is how far the first stands out over the next one's edge.
    """
    sides = len(longer_mm)
    along = [complex(0, 1) ** (-4 * number / sides) for number in range(sides)]
    columns = 2 * sides + 1
    equal, equals, rows, most = [], [], [], []
    for before in range(sides):
        after = (before + 1) % sides
        mitre = (along[after] - along[before]) / abs(along[after] - along[before])
        apart = [0j] * columns  # the tip of the side before, less that of the side after
        apart[2 * before], apart[2 * before + 1] = along[before] * 1j, along[before]
        apart[2 * after], apart[2 * after + 1] = -along[after] * 1j, -along[after]
        fixed = along[before] * longer_mm[before] / 2 + along[after] * longer_mm[after] / 2
        equal.append([(one * mitre.conjugate()).imag for one in apart])
        equals.append(-(fixed * mitre.conjugate()).imag)
        proud = [(one * (along[after] * 1j).conjugate()).real for one in apart]
        at = (fixed * (along[after] * 1j).conjugate()).real
        rows += [[*proud[:-1], -1.0], [*(-one for one in proud[:-1]), -1.0]]
        most += [-at, at]
    found = linprog([0.0] * (columns - 1) + [1.0], rows, most, equal, equals, bounds=[(None, None)] * columns)
    return float(found.fun)


@pytest.mark.parametrize("sides", [3, 4, 5, 6, 8])
@pytest.mark.parametrize("seed", range(3))
def test_tips_of_unlike_sides_slide_as_a_second_solver_finds(sides: int, seed: int) -> None:
    chance = random.Random(seed)
    longer_mm = [chance.uniform(-0.5, 0.5) for _ in range(sides)]
    if sides == 4:
        longer_mm = [longer_mm[0], longer_mm[1], -longer_mm[0], -longer_mm[1]]
        names = RECTANGLE_SIDES
    else:
        mean_mm = sum(longer_mm) / sides
        longer_mm, names = [one - mean_mm for one in longer_mm], tuple(str(1 + number) for number in range(sides))
    members = [CutMember(side=name, long_mm=300 + one) for name, one in zip(names, longer_mm, strict=True)]
    closing = close_frame(members, mitre_length_mm=46, tips=Tips.FREE)
    assert closing.worst_gap_mm == pytest.approx(0, abs=1e-6)
    assert closing.worst_step_mm == pytest.approx(_least_step_mm(longer_mm), abs=1e-6)


def _placed_polygon(members: list[CutMember], closing: Closing) -> list[Polygon]:
    """Real sides of a regular polygon from the bottom, clockwise, each put where the closing says."""
    sides, placed = len(members), []
    inner_rad = pi / 2 - pi / sides
    apothem = sum(member.long_mm for member in members) / sides / 2 / tan(pi / sides)
    for number, (member, place) in enumerate(zip(members, closing.placements, strict=True)):
        along = -(complex(0, 1) ** (-4 * number / sides))
        middle, reach, inward = 1j * along * apothem, member.long_mm / 2, -1j * along * 46 * sin(inner_rad)
        finish, start = (46 * sin(inner_rad) / tan(inner_rad + radians(end_deg - 45)) for end_deg in _ends(member))
        ring = [
            middle - along * reach,
            middle + along * reach,
            middle + along * (reach - finish) + inward,
            middle - along * (reach - start) + inward,
        ]
        shape = Polygon([(corner.real, corner.imag) for corner in ring])
        turned = rotate(shape, place.turn_deg, origin=(middle.real, middle.imag))
        placed.append(translate(turned, place.across_mm, place.up_mm))
    return placed


def _ends(member: CutMember) -> tuple[float, float]:
    return member.finish_deg, member.start_deg


@pytest.mark.parametrize("sides", [3, 5, 8])
@pytest.mark.parametrize("tips", list(Tips))
def test_real_sides_of_a_polygon_put_where_it_says_have_the_gaps_it_says(sides: int, tips: Tips) -> None:
    chance = random.Random(sides)
    members = [
        CutMember(side=str(1 + number), long_mm=300, start_deg=45 + chance.gauss(0, 0.1), finish_deg=45)
        for number in range(sides)
    ]
    closing = close_frame(members, mitre_length_mm=46, tips=tips)
    placed = _placed_polygon(members, closing)
    assert closing.worst_gap_mm > 0.01
    for number, corner in enumerate(closing.corners):
        before, after = placed[number], placed[(number + 1) % sides]
        outside = min(corner_to(before, 1, after), corner_to(after, 0, before))
        inside = min(corner_to(before, 2, after), corner_to(after, 3, before))
        assert (outside, inside) == pytest.approx((corner.outside_gap_mm, corner.inside_gap_mm), abs=0.004)


@pytest.mark.parametrize(("sides", "most_deg"), [(4, 40.0), (6, 60.0)])
def test_all_ends_together_are_off_by_no_more_than_each_may_be(sides: int, most_deg: float) -> None:
    for sign in (1, -1):
        assert least_worst_gap_mm(sign * most_deg, mitre_length_mm=50, sides=sides) > 0
        with pytest.raises(FrameCalcError, match=rf"^Enter [−-]{most_deg:.0f}° to {most_deg:.0f}°"):
            least_worst_gap_mm(sign * (most_deg + 0.1), mitre_length_mm=50, sides=sides)


def test_sides_of_a_polygon_that_make_none_are_refused() -> None:
    members = [CutMember(side=str(1 + number), long_mm=300.0 + 60 * (number == 2)) for number in range(6)]
    with pytest.raises(FrameCalcError, match=r"side 1 \{one\}|side 1 300") as refusal:
        close_frame(members, mitre_length_mm=46, tips=Tips.FREE)
    assert refusal.value.field == "long_mm"
