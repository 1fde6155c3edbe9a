"""Closing four sides: against the closed form, a second solver, real polygons in Shapely, and simulation."""

import random
from math import pi, radians, sin, sqrt, tan

import pytest
from scipy.optimize import linprog
from shapely import Polygon
from shapely.affinity import rotate, translate
from shapes_apart import corner_to

from framecalc.corners.closing import (
    Closing,
    Tips,
    chance_of_closing_ratio,
    close_frame,
    closing_findings,
    least_worst_gap_mm,
)
from framecalc.corners.cut_members import CutMember, members_from_the_saw
from framecalc.corners.saw import total_error_deg
from framecalc.errors import FrameCalcError
from framecalc.records import replace
from framecalc.sizes.shape import RECTANGLE_SIDES

WIDTH_MM = 40.0
MITRE_MM = WIDTH_MM * sqrt(2)
ALONG = (1 + 0j, -1j, -1 + 0j, 1j)
"""Clockwise along the four sides, x across and y up as a complex number."""


def _frame(*, lengths_mm: tuple[float, ...], angles_deg: tuple[float, ...]) -> list[CutMember]:
    return [
        CutMember(side=side, long_mm=lengths_mm[i], start_deg=angles_deg[2 * i], finish_deg=angles_deg[2 * i + 1])
        for i, side in enumerate(RECTANGLE_SIDES)
    ]


def _random_frame(seed: int, *, angle_deg: float = 0.2, length_mm: float = 0.8) -> list[CutMember]:
    chance = random.Random(seed)
    across_mm, up_mm = chance.uniform(150, 900), chance.uniform(150, 900)
    strays = [chance.uniform(-length_mm, length_mm) for _ in range(4)]
    lengths_mm = (across_mm + strays[0], up_mm + strays[1], across_mm + strays[2], up_mm + strays[3])
    return _frame(lengths_mm=lengths_mm, angles_deg=tuple(45 + chance.gauss(0, angle_deg) for _ in range(8)))


@pytest.mark.parametrize("seed", range(120))
def test_with_free_tips_the_programme_finds_the_closed_form(seed: int) -> None:
    members = _random_frame(seed)
    closing = close_frame(members, mitre_length_mm=MITRE_MM, tips=Tips.FREE)
    total_deg = sum(member.error_deg for member in members)
    assert closing.total_error_deg == pytest.approx(total_deg)
    assert closing.worst_gap_mm == pytest.approx(least_worst_gap_mm(total_deg, mitre_length_mm=MITRE_MM), abs=1e-6)


@pytest.mark.parametrize("seed", range(40))
@pytest.mark.parametrize("tips", list(Tips))
def test_no_member_runs_into_another(seed: int, tips: Tips) -> None:
    closing = close_frame(_random_frame(seed), mitre_length_mm=MITRE_MM, tips=tips)
    assert min(min(corner.outside_gap_mm, corner.inside_gap_mm) for corner in closing.corners) >= -1e-6


@pytest.mark.parametrize("seed", range(40))
def test_tips_held_flush_have_no_step_and_never_a_smaller_gap(seed: int) -> None:
    members = _random_frame(seed)
    free = close_frame(members, mitre_length_mm=MITRE_MM, tips=Tips.FREE)
    flush = close_frame(members, mitre_length_mm=MITRE_MM, tips=Tips.FLUSH)
    assert flush.worst_step_mm == pytest.approx(0, abs=1e-6)
    assert flush.worst_gap_mm >= free.worst_gap_mm - 1e-6


@pytest.mark.parametrize("mismatch_mm", [-0.8, 0.3, 1.0])
@pytest.mark.parametrize("longer", [0, 1, 2, 3])
def test_a_length_that_does_not_match_opens_no_gap_only_a_quarter_step(mismatch_mm: float, longer: int) -> None:
    lengths_mm = [500.0, 350.0, 500.0, 350.0]
    lengths_mm[longer] += mismatch_mm
    members = _frame(lengths_mm=tuple(lengths_mm), angles_deg=8 * (45.0,))
    free = close_frame(members, mitre_length_mm=MITRE_MM, tips=Tips.FREE)
    assert free.worst_gap_mm == pytest.approx(0, abs=1e-6)
    assert free.worst_step_mm == pytest.approx(abs(mismatch_mm) / 4, abs=1e-6)


def test_with_tips_held_flush_a_length_that_does_not_match_opens_a_gap() -> None:
    """Held tip to tip at three corners the fourth would gape by e·sin 45°; the best that can be done is less."""
    mismatch_mm = 25.4 / 32
    members = _frame(lengths_mm=(500 + mismatch_mm, 350, 500, 350), angles_deg=8 * (45.0,))
    flush = close_frame(members, mitre_length_mm=MITRE_MM, tips=Tips.FLUSH)
    assert 0.01 < flush.worst_gap_mm < mismatch_mm * sin(pi / 4)


@pytest.mark.parametrize("seed", range(25))
@pytest.mark.parametrize("tips", list(Tips))
def test_a_second_solver_on_points_of_its_own_finds_the_same_gap(seed: int, tips: Tips) -> None:
    members = _random_frame(seed)
    closing = close_frame(members, mitre_length_mm=MITRE_MM, tips=tips)
    assert closing.worst_gap_mm == pytest.approx(
        _gap_by_scipy(members, flush=tips is Tips.FLUSH), rel=1e-4, abs=1e-5
    )  # the points know the sine of an angle, the programme the angle


@pytest.mark.parametrize("seed", range(25))
@pytest.mark.parametrize("tips", list(Tips))
def test_real_polygons_put_where_it_says_have_the_gaps_it_says(seed: int, tips: Tips) -> None:
    members = _random_frame(seed, angle_deg=0.03, length_mm=0.1)
    closing = close_frame(members, mitre_length_mm=MITRE_MM, tips=tips)
    placed = _placed(members, closing)
    for number, corner in enumerate(closing.corners):
        before, after = placed[number], placed[(number + 1) % 4]
        assert before.intersection(after).area < 0.002 * MITRE_MM
        outside = min(corner_to(before, 1, after), corner_to(after, 0, before))
        inside = min(corner_to(before, 2, after), corner_to(after, 3, before))
        assert outside == pytest.approx(corner.outside_gap_mm, abs=0.004)
        assert inside == pytest.approx(corner.inside_gap_mm, abs=0.004)


def test_mirroring_the_frame_mirrors_its_corners() -> None:
    members = _random_frame(3)
    mirrored = [
        CutMember(
            side={"left": "right", "right": "left"}.get(member.side, member.side),
            long_mm=member.long_mm,
            start_deg=member.finish_deg,
            finish_deg=member.start_deg,
        )
        for member in members
    ]
    closing = close_frame(members, mitre_length_mm=MITRE_MM, tips=Tips.FLUSH)
    other = close_frame(mirrored, mitre_length_mm=MITRE_MM, tips=Tips.FLUSH)
    assert other.worst_gap_mm == pytest.approx(closing.worst_gap_mm, abs=1e-6)


def test_a_true_frame_closes_without_gap_or_step() -> None:
    closing = close_frame(
        _frame(lengths_mm=(500, 350, 500, 350), angles_deg=8 * (45.0,)), mitre_length_mm=MITRE_MM, tips=Tips.FREE
    )
    assert (closing.worst_gap_mm, closing.worst_step_mm) == pytest.approx((0, 0), abs=1e-9)


EDGES_MM = {"top": 348.0, "right": 471.0, "bottom": 348.0, "left": 471.0}


@pytest.mark.parametrize(("left_deg", "right_deg"), [(0.1, 0.1), (0.2, -0.2), (-0.05, -0.1)])
def test_the_sides_of_a_saw_close_as_its_total_error_says(left_deg: float, right_deg: float) -> None:
    members = members_from_the_saw(EDGES_MM, left_error_deg=left_deg, right_error_deg=right_deg)
    closing = close_frame(members, mitre_length_mm=MITRE_MM, tips=Tips.FREE)
    total_deg = total_error_deg(left_deg=left_deg, right_deg=right_deg)
    assert closing.total_error_deg == pytest.approx(total_deg, abs=1e-9)
    assert closing.worst_gap_mm == pytest.approx(MITRE_MM / 4 * abs(radians(total_deg)), abs=1e-6)


def test_a_gap_and_a_step_that_can_be_seen_are_said() -> None:
    blunt = members_from_the_saw(EDGES_MM, left_error_deg=0.2, right_error_deg=0.2)
    long = _frame(lengths_mm=(501, 350, 500, 350), angles_deg=8 * (45.0,))
    gap = closing_findings(close_frame(blunt, mitre_length_mm=MITRE_MM, tips=Tips.FREE), gap_mm=0.1)
    step = closing_findings(close_frame(long, mitre_length_mm=MITRE_MM, tips=Tips.FREE), gap_mm=0.1)
    assert [(finding.code, "outside" in finding.sentence) for finding in gap] == [("closing.gap", True)]
    for off_deg, where in ((0.1, "outside"), (-0.1, "inside")):
        slightly = members_from_the_saw(EDGES_MM, left_error_deg=off_deg, right_error_deg=off_deg)
        (finding,) = closing_findings(close_frame(slightly, mitre_length_mm=MITRE_MM, tips=Tips.FREE), gap_mm=0.1)
        assert finding.sentence.endswith(f"at the {where}.")
    assert [finding.code for finding in step] == ["closing.step"]
    assert step[0].lengths["step"] == pytest.approx(0.25)


@pytest.mark.parametrize(("mean_deg", "spread_deg"), [(0.0, 0.06), (0.04, 0.03), (-0.05, 0.05)])
def test_the_chance_of_closing_is_that_of_many_frames_cut(mean_deg: float, spread_deg: float) -> None:
    chance, closed, tries = random.Random(7), 0, 20000
    for _ in range(tries):
        total_deg = sum(chance.gauss(mean_deg, spread_deg) for _ in range(8))
        closed += least_worst_gap_mm(total_deg, mitre_length_mm=MITRE_MM) <= 0.06
    found = chance_of_closing_ratio(mean_deg=mean_deg, spread_deg=spread_deg, mitre_length_mm=MITRE_MM, gap_mm=0.06)
    assert found == pytest.approx(closed / tries, abs=0.012)


@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({"start_deg": 52.0}, "start_deg", "40° to 50°"),
        ({"finish_deg": float("nan")}, "finish_deg", "40° to 50°"),
        ({"long_mm": 0.0}, "long_mm", "more than 0 mm"),
        ({"long_mm": 620.0}, "long_mm", "no frame"),
        ({"side": "left"}, "side", "one top, one right, one bottom and one left"),
    ],
)
def test_sides_that_make_no_frame_are_refused(changed: dict[str, float | str], field: str, says: str) -> None:
    given = {"side": "top", "long_mm": 500.0, "start_deg": 45.0, "finish_deg": 45.0} | changed
    members = [CutMember(**given), *_frame(lengths_mm=(500, 350, 500, 350), angles_deg=8 * (45.0,))[1:]]  # type: ignore[arg-type]
    with pytest.raises(FrameCalcError, match=says) as refusal:
        close_frame(members, mitre_length_mm=MITRE_MM, tips=Tips.FREE)
    assert refusal.value.field == field


def _half(members: list[CutMember]) -> tuple[float, float]:
    return (members[0].long_mm + members[2].long_mm) / 4, (members[1].long_mm + members[3].long_mm) / 4


def _middle(half: tuple[float, float], number: int) -> complex:
    """The middle of a member's outer edge in its nominal place, as a complex number."""
    return (half[1] * 1j, complex(half[0]), -half[1] * 1j, complex(-half[0]))[number]


def _corners_of(member: CutMember, number: int, half: tuple[float, float]) -> list[complex]:
    """Start tip, finish tip, finish inside, start inside, of a member in its nominal place."""
    along, middle, reach = ALONG[number], _middle(half, number), member.long_mm / 2
    inward = -1j * along * WIDTH_MM
    return [
        middle - along * reach,
        middle + along * reach,
        middle + along * (reach - WIDTH_MM / tan(radians(member.finish_deg))) + inward,
        middle - along * (reach - WIDTH_MM / tan(radians(member.start_deg))) + inward,
    ]


def _placed(members: list[CutMember], closing: Closing) -> list[Polygon]:
    half, placed = _half(members), []
    for number, (member, place) in enumerate(zip(members, closing.placements, strict=True)):
        middle = _middle(half, number)
        shape = Polygon([(corner.real, corner.imag) for corner in _corners_of(member, number, half)])
        turned = rotate(shape, place.turn_deg, origin=(middle.real, middle.imag))
        placed.append(translate(turned, place.across_mm, place.up_mm))
    return placed


def _gap_by_scipy(members: list[CutMember], *, flush: bool) -> float:
    """The same question put to another solver: both ends of every joint, from the corner points of real members."""
    half = _half(members)
    shapes = [_corners_of(member, number, half) for number, member in enumerate(members)]
    rows, limits, equal, to = [], [], [], []
    for before in range(4):
        after = (before + 1) % 4
        tip = _middle(half, before) + _middle(half, after)
        inward, square = _unit(ALONG[after] - ALONG[before]), _unit(ALONG[after] + ALONG[before])
        faces = [
            (shapes[before][1] + along * _unit(shapes[before][2] - shapes[before][1]),
             shapes[after][0] + along * _unit(shapes[after][3] - shapes[after][0]))
            for along in (0.0, MITRE_MM)
        ]  # fmt: skip
        for along, (one, other) in zip((0.0, MITRE_MM), faces, strict=True):
            row, gap = _moves(half, before, after, tip + along * inward, square), _part(other - one, square)
            rows += [[*(-slope for slope in row), 0.0], [*row, -1.0]]
            limits += [gap, -gap]
        equal.append([*_moves(half, before, after, tip, inward), 0.0])
        to.append(-_part(shapes[after][0] - shapes[before][1], inward))
    solved = linprog(
        [0.0] * 12 + [1.0],
        A_ub=rows,
        b_ub=limits,
        A_eq=equal if flush else None,
        b_eq=to if flush else None,
        bounds=[(0, 0)] * 3 + [(None, None)] * 9 + [(0, None)],
    )
    return float(solved.fun)


def _moves(half: tuple[float, float], before: int, after: int, point: complex, direction: complex) -> list[float]:
    """How shifts and turns of two members move them apart at a point: slopes for all twelve motions."""
    row = [0.0] * 12
    for member, sign in ((before, -1), (after, 1)):
        turn = _part(1j * (point - _middle(half, member)), direction)
        row[3 * member : 3 * member + 3] = [sign * direction.real, sign * direction.imag, sign * turn]
    return row


def _part(vector: complex, direction: complex) -> float:
    return (vector * direction.conjugate()).real


def _unit(vector: complex) -> complex:
    return vector / abs(vector)


@pytest.mark.parametrize("wedge_deg", [0.1, -0.3, 1.0])
def test_wedges_that_cancel_close_to_a_rhombus_as_much_out_of_square(wedge_deg: float) -> None:
    """Corners of 90° ± w in turn close without a gap; sides of one length leave no step either (plane geometry)."""
    more, less = 45 + wedge_deg / 2, 45 - wedge_deg / 2
    angles_deg = (more, less, less, more, more, less, less, more)
    closing = close_frame(
        _frame(lengths_mm=(400,) * 4, angles_deg=angles_deg), mitre_length_mm=MITRE_MM, tips=Tips.FLUSH
    )
    assert closing.worst_gap_mm == pytest.approx(0, abs=1e-6)
    assert closing.out_of_square_deg == pytest.approx(abs(wedge_deg), abs=1e-6)


def test_a_frame_of_true_sides_is_square() -> None:
    sides = _frame(lengths_mm=(400, 300, 400, 300), angles_deg=(45,) * 8)
    assert close_frame(sides, mitre_length_mm=MITRE_MM, tips=Tips.FREE).out_of_square_deg == pytest.approx(0, abs=1e-9)


def test_the_reason_of_a_step_is_the_true_one() -> None:
    """Fault: sides of one length were said not to be, where wrong angles had moved the tips."""
    angles = close_frame(
        _frame(lengths_mm=(600, 300, 600, 300), angles_deg=(46, 45, 45, 45, 45, 45, 45, 45)),
        mitre_length_mm=MITRE_MM, tips=Tips.FREE,
    )  # fmt: skip
    lengths = close_frame(
        _frame(lengths_mm=(600, 300, 602, 300), angles_deg=(45,) * 8), mitre_length_mm=MITRE_MM, tips=Tips.FREE
    )
    whys = [
        finding.why
        for closing in (angles, lengths)
        for finding in closing_findings(closing, gap_mm=0.2)
        if finding.code == "closing.step"
    ]
    assert [why.partition(";")[0].partition(",")[0] for why in whys] == [
        "The wrong angles turn the sides",
        "Opposite sides are not of one length",
    ]


def test_the_corner_furthest_from_square_counts() -> None:
    closing = close_frame(_random_frame(5), mitre_length_mm=MITRE_MM, tips=Tips.FREE)
    turned = (replace(one, turn_deg=deg) for one, deg in zip(closing.placements, (0, 0.1, 0.4, 0.2), strict=True))
    assert replace(closing, placements=tuple(turned)).out_of_square_deg == pytest.approx(0.3)


@pytest.mark.parametrize("by_deg", [0.2, -1.0])
def test_a_frame_that_lies_askew_is_as_square_as_before(by_deg: float) -> None:
    closing = close_frame(_random_frame(5), mitre_length_mm=MITRE_MM, tips=Tips.FREE)
    askew = tuple(replace(placed, turn_deg=placed.turn_deg + by_deg) for placed in closing.placements)
    assert replace(closing, placements=askew).out_of_square_deg == pytest.approx(closing.out_of_square_deg, abs=1e-9)
