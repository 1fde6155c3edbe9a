"""How much wood a plan takes and leaves, recomputed by hand for boards that are ripped in part."""

from typing import Any

import pytest
from timber_plans import BOARD, frame, groups, planned

from framecalc.plan.timber.wood_use import left_of, wood_use

PART = BOARD | {"length": "8 ft", "width": "6 in", "thickness": "1 in"}
WISHES: dict[str, Any] = {"edge": "0 in", "width_allowance": "1/8 in"}


def test_what_is_not_ripped_of_a_board_is_kept_as_wide_as_it_is() -> None:
    (group,) = groups(PART, frames=(frame("f1", section={"face_width": "1 1/2 in"}),), **WISHES)
    plan = planned(group)
    (rest,) = [one for one in left_of(plan, group) if one.rest_mm is not None]
    strips = sum(bool(strip.pieces) for stick in plan.sticks for strip in stick.strips)
    kerf_in = group.problem.kerf_mm / 25.4
    assert strips in (1, 2) and rest.rest_mm == pytest.approx((6 - strips * (1.625 + kerf_in)) * 25.4)
    ends_in = sum(one.length_mm for one in left_of(plan, group) if one.rest_mm is None and one.length_mm >= 300) / 25.4
    thickness_in = group.section.thickness_mm / 25.4
    kept_bf = (rest.rest_mm / 25.4 * 96 * 1 + ends_in * 1.5 * thickness_in) / 144
    assert wood_use(plan, group).kept.board_feet_bf == pytest.approx(kept_bf)


def test_a_board_that_is_crosscut_first_leaves_its_strips_one_by_one() -> None:
    bowed = PART | {"bow": "6 mm"}
    (group,) = groups(bowed, frames=(frame("f1", section={"face_width": "1 1/2 in"}),), **WISHES)
    assert group.offers["b1"].crosscuts
    assert all(one.rest_mm is None for one in left_of(planned(group), group))


def test_pieces_that_are_turned_never_hold_more_wood_than_their_stick() -> None:
    stick = {"id": "s1", "name": "stick", "length": "50 in"}
    (group,) = groups(stick, frames=(frame("f1", section={"face_width": "3 in"}),), turned=True)
    plan = planned(group)
    use = wood_use(plan, group)
    pieces = [placed.piece for _, _, stretch in plan.stretches() for placed in stretch.pieces]
    assert 0 < use.waste_pct < 100 and use.parts.mm3 < use.stock.mm3
    area_mm2 = sum((piece.length_mm - group.section.width_mm) * group.section.width_mm for piece in pieces)
    assert float(use.parts.mm3) == pytest.approx(area_mm2 * group.section.thickness_mm)
