"""Pieces cut, in the problems of a job: under the same problems they change nothing, under others they stay."""

from typing import Any

import pytest
from panel import PANEL_IN_INCHES
from timber_plans import BOARD, STICK, frame

from framecalc.plan.timber.cut_fits import CutFit, misfits
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.whole import Plan
from framecalc.project import read_project
from framecalc.timber.sticks.problem import name_of


def planned(*cut: dict[str, Any], stock: dict[str, Any] = STICK, **more: Any) -> Plan:
    return Plan(
        read_project(
            PANEL_IN_INCHES | {"frames": [frame("f1", count=2, **more)], "timber": {"stock": [stock], "cut": list(cut)}}
        )
    )


def piece(side: str, *, asked: str, at: int = 0, **more: Any) -> dict[str, Any]:
    """A side of the first copy, cut from the first stick as it is planned."""
    (group,) = planned().timber.groups
    length_mm = next(one.length_mm for one in group.problem.pieces if (one.copy, one.side) == (1, side))
    return {
        "id": f"c{side}{at}"[:16],
        "frame": "f1",
        "name": "f1",
        "side": side,
        "length": f"{length_mm:.4f} mm",
        "start": f"{10 + at} mm",
        "stock": "s1",
        "stick": "stick",
        "stick_length": "2400 mm",
        "width": f"{group.section.width_mm:.4f} mm",
        "thickness": f"{group.section.thickness_mm:.4f} mm",
        "asked": asked,
    } | more


def asked_now(plan: Plan) -> str:
    return plan.timber.asked(plan.timber.groups[0])


def searched(plan: Plan) -> tuple[str, list[str]]:
    (group,) = plan.timber.groups
    return group.key, list(group.offers)


def left(group: TimberGroup) -> set[tuple[str, str, int, str]]:
    assert group.left is not None
    return {name_of(one) for one in group.searched.pieces}


def test_pieces_cut_under_the_plan_that_is_asked_for_change_nothing() -> None:
    before = planned()
    after = planned(piece("top", asked=asked_now(before)), piece("left", at=700, asked=asked_now(before)))
    assert searched(after) == searched(before) and after.timber.groups[0].left is None


@pytest.mark.parametrize("sides", [("top",), ("top", "bottom", "left")])
def test_once_sizes_change_what_is_cut_stays_and_its_stick_is_no_whole_one(sides: tuple[str, ...]) -> None:
    asked, wider = asked_now(planned()), {"package": PANEL_IN_INCHES["frames"][0]["package"] | {"clearance_up": "9 mm"}}
    cut = [piece(side, asked=asked, at=500 * number) for number, side in enumerate(sides)]
    (group,) = planned(*cut, **wider).timber.groups
    assert left(group) == {name_of(one) for one in group.problem.pieces} - {("member", "f1", 1, s) for s in sides}
    rest, whole = group.searched.stock
    assert (rest.name, rest.first, rest.count, rest.in_hand, rest.price) == ("stick", 1, 1, True, 0)
    assert (whole.id, whole.first, whole.count) == ("s1", 2, None)


def test_a_piece_mitred_for_another_number_of_sides_is_cut_again() -> None:
    plan = planned(piece("top", asked="0" * 16, corners=6))
    (found,) = misfits(plan.project, plan.timber.groups[0].runs)
    assert found.fit is CutFit.SIDES and "mitred for 6 sides, now 4: cut it again." in str(found.says)
    plan = planned(piece("top", asked="0" * 16))
    assert misfits(plan.project, plan.timber.groups[0].runs) == (), "older files do not say"


def test_pieces_ticked_under_the_plan_of_the_rest_are_lines_of_it() -> None:
    asked, wider = asked_now(planned()), {"package": PANEL_IN_INCHES["frames"][0]["package"] | {"clearance_up": "9 mm"}}
    first = piece("top", asked=asked)
    frozen = planned(first, **wider)
    more = planned(first, piece("bottom", at=900, asked=asked_now(frozen)), **wider)
    assert searched(more) == searched(frozen) and len(left(more.timber.groups[0])) == 7


def test_a_spoiled_piece_is_cut_again_and_its_wood_is_gone() -> None:
    asked = asked_now(planned())
    (group,) = planned(piece("top", asked=asked, spoiled=True)).timber.groups
    assert ("member", "f1", 1, "top") in left(group)
    assert group.searched.stock[0].id == "s1-1-1", "what the begun stick has left"


def test_a_board_that_is_begun_leaves_the_strips_that_it_was_ripped_into() -> None:
    asked = asked_now(planned(stock=BOARD))
    cut = piece("top", asked="0" * 16, stock="b1", stick="board", strip=2, strips=[1, 2])
    (group,) = planned(cut, stock=BOARD).timber.groups
    assert asked and [one.name for one in group.searched.stock] == ["board #1, strip", "board #1, strip", "board"]
    assert [one.first for one in group.searched.stock] == [1, 2, 2]
    assert group.left and group.part_ripped == ("board #1",), "and the page says that its other width is left out"
    (whole,) = planned(cut | {"strips": [*range(1, group.left.begun[0].stock.strips + 1)]}, stock=BOARD).timber.groups
    assert whole.part_ripped == (), "nothing to say of a board that is ripped all through"


@pytest.mark.parametrize(
    ("more", "fit"),
    [
        ({"clearance_across": "1 mm"}, CutFit.TRIM),
        ({"clearance_across": "9 mm"}, CutFit.SHORT),
        ({}, None),
    ],
)
def test_a_piece_is_told_where_it_no_longer_fits(more: dict[str, str], fit: CutFit | None) -> None:
    package = PANEL_IN_INCHES["frames"][0]["package"] | more
    plan = planned(piece("top", asked="0" * 16), package=package)
    found = misfits(plan.project, plan.timber.groups[0].runs)
    assert [one.fit for one in found] == ([fit] if fit else [])
    told = {one.code for one in plan.obstacles if one.code.startswith("cut.")}
    assert told == ({f"cut.{fit.value}"} if fit else set())
