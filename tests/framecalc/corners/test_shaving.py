"""Shaving an end: the taper, the length it costs, and the best of the eight ends."""

import random
from math import hypot, radians, tan

import pytest

from framecalc.corners.closing import Tips, close_frame
from framecalc.corners.cut_members import CutMember
from framecalc.corners.shaving import MemberEnd, MitreEnd, best_shave, recut_ends, shave_end, taper_mm
from framecalc.sizes.shape import RECTANGLE_SIDES

MITRE_MM = 56.0


def _frame(seed: int, *, mean_deg: float) -> list[CutMember]:
    chance = random.Random(seed)
    return [
        CutMember(
            side=side,
            long_mm=nominal_mm + chance.uniform(-0.4, 0.4),
            start_deg=45 + chance.gauss(mean_deg, 0.1),
            finish_deg=45 + chance.gauss(mean_deg, 0.1),
        )
        for side, nominal_mm in zip(RECTANGLE_SIDES, (500.0, 350.0, 500.0, 350.0), strict=True)
    ]


@pytest.mark.parametrize("mean_deg", [-0.15, -0.03, 0.03, 0.15])
@pytest.mark.parametrize("seed", range(6))
def test_the_best_shave_closes_the_frame_and_no_other_end_does_better(seed: int, mean_deg: float) -> None:
    members = _frame(seed, mean_deg=mean_deg)
    shave = best_shave(members, mitre_length_mm=MITRE_MM)
    total_deg = sum(member.error_deg for member in members)
    assert shave.after.worst_gap_mm == pytest.approx(0, abs=1e-6)
    assert shave.taper_mm == pytest.approx(MITRE_MM * radians(abs(total_deg)))
    assert shave.at is (MitreEnd.INSIDE if total_deg > 0 else MitreEnd.OUTSIDE)
    for number, member in enumerate(members):
        for end in MemberEnd:
            shaved = shave_end(member, end=end, by_deg=total_deg, mitre_length_mm=MITRE_MM)
            other = close_frame(
                [*members[:number], shaved, *members[number + 1 :]], mitre_length_mm=MITRE_MM, tips=Tips.FREE
            )
            assert other.worst_step_mm >= shave.after.worst_step_mm - 0.00101
            assert other.worst_gap_mm == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize(("longer_mm", "shaved"), [(0.5, "bottom"), (1.0, "left")])
def test_an_end_further_off_is_shaved_only_within_a_micron_of_the_least_step(longer_mm: float, shaved: str) -> None:
    """The ends of one corner share its error; at 1 mm more of the top their steps differ by a tenth of a micron."""
    members = [
        CutMember(side="top", long_mm=400 + longer_mm, start_deg=44.9),
        CutMember(side="right", long_mm=400),
        CutMember(side="bottom", long_mm=400, finish_deg=44.9),
        CutMember(side="left", long_mm=400, start_deg=44.8),
    ]
    assert best_shave(members, mitre_length_mm=MITRE_MM).side == shaved


def test_of_ends_that_do_equally_well_the_one_furthest_off_is_shaved() -> None:
    members = [CutMember(side=side, long_mm=400.0) for side in RECTANGLE_SIDES]
    members[2] = CutMember(side="bottom", long_mm=400.0, finish_deg=45.3)
    shave = best_shave(members, mitre_length_mm=MITRE_MM)
    assert (shave.side, shave.end, shave.at) == ("bottom", MemberEnd.FINISH, MitreEnd.INSIDE)
    assert shave.members[2].finish_deg == pytest.approx(45)
    assert [member.long_mm for member in shave.members] == 4 * [400.0]


@pytest.mark.parametrize("by_deg", [-0.05, -0.3])
@pytest.mark.parametrize("end", list(MemberEnd))
def test_a_shave_at_the_tip_costs_the_length_that_geometry_says(by_deg: float, end: MemberEnd) -> None:
    """The new face runs through the old inside end at the larger angle; it meets the outer edge at the new tip."""
    width_mm = MITRE_MM / hypot(1, 1)
    shaved = shave_end(CutMember(side="top", long_mm=400), end=end, by_deg=by_deg, mitre_length_mm=MITRE_MM)
    lost_mm = width_mm - width_mm / tan(radians(45 - by_deg))
    assert 400 - shaved.long_mm == pytest.approx(lost_mm, rel=0.01)


def test_a_shave_at_the_sight_edge_leaves_the_long_edge() -> None:
    shaved = shave_end(CutMember(side="top", long_mm=400), end=MemberEnd.START, by_deg=0.2, mitre_length_mm=MITRE_MM)
    assert (shaved.long_mm, shaved.start_deg, shaved.finish_deg) == (400, 44.8, 45)


def test_a_frame_without_error_needs_no_taper() -> None:
    assert taper_mm(0.0, mitre_length_mm=MITRE_MM) == 0


@pytest.mark.parametrize("seed", range(20))
def test_ends_cut_again_close_square_without_gap_or_step(seed: int) -> None:
    again = recut_ends(_frame(seed, mean_deg=0.1), within_deg=1e-9, within_mm=1e-9, mitre_length_mm=MITRE_MM)
    assert again is not None and len(again.ends) == 8
    after = again.after
    assert (after.worst_gap_mm, after.worst_step_mm, after.out_of_square_deg) == pytest.approx((0, 0, 0), abs=1e-5)


def test_only_what_is_off_is_cut_again_and_the_longer_of_a_pair_is_trimmed() -> None:
    sides = [
        CutMember(side="top", long_mm=500, start_deg=44.6),
        CutMember(side="right", long_mm=351),
        CutMember(side="bottom", long_mm=500, finish_deg=45.03),
        CutMember(side="left", long_mm=350),
    ]
    again = recut_ends(sides, within_deg=0.05, within_mm=0.2, mitre_length_mm=MITRE_MM)
    assert again is not None
    lost_mm = 2**0.5 * taper_mm(0.4, mitre_length_mm=MITRE_MM)
    assert again.ends == (
        ("top", MemberEnd.START), ("bottom", MemberEnd.FINISH), ("right", MemberEnd.FINISH)
    )  # fmt: skip
    assert [member.long_mm for member in again.members] == pytest.approx([500 - lost_mm, 350, 500 - lost_mm, 350])


def test_nothing_is_cut_again_where_nothing_is_off() -> None:
    sides = [CutMember(side=side, long_mm=400) for side in RECTANGLE_SIDES]
    assert recut_ends(sides, within_deg=0.05, within_mm=0.2, mitre_length_mm=MITRE_MM) is None
