"""What of the rack is offered: only what the cutting plan can use, and how it would use it."""

from typing import Any

import pytest
from panel import PANEL_IN_INCHES
from timber_plans import frame, groups

from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.rack import offers_of
from framecalc.plan.timber.stock import StockOffer
from framecalc.project import read_project
from framecalc.project.timber import Stock
from framecalc.timber.sticks.problem import Grain

FLAT, DEEP = {"face_width": "2 in", "thickness": "1 1/4 in"}, {"face_width": "1 in", "thickness": "2 1/2 in"}
STICK = {"id": "s1", "name": "ash 1", "length": "2400 mm"}
BOARD = {"id": "b1", "name": "ash 2", "length": "2400 mm", "width": "150 mm", "thickness": "2 in"}


def group_of(section: dict[str, str] = FLAT, *stock: dict[str, Any], **timber: Any) -> TimberGroup:
    (group,) = groups(*stock, frames=(frame("f1", section=section),), **timber)
    return group


def offered(one: dict[str, Any], *, wood: str = "", section: dict[str, str] = FLAT, **timber: Any) -> StockOffer | None:
    """See one stick or board beside a project that has nothing in its stock yet."""
    project = read_project(PANEL_IN_INCHES | {"timber": timber})
    stock = [Stock.model_validate(one)]
    return offers_of(stock, project=project, group=group_of(section, **timber), wood=wood).get(one["id"])


TRIMS_MM = 2 * read_project(PANEL_IN_INCHES).shop.end_trim.mm


def test_an_off_cut_that_holds_no_piece_is_not_offered() -> None:
    shortest_mm = min(piece.length_mm for piece in group_of().problem.pieces)
    assert offered(STICK | {"length": f"{shortest_mm + TRIMS_MM + 0.01:.3f} mm"})
    assert offered(STICK | {"length": f"{shortest_mm + TRIMS_MM - 0.01:.3f} mm"}) is None


def test_with_the_grain_running_round_an_off_cut_holds_a_whole_frame() -> None:
    problem = group_of().problem
    whole_mm = sum(piece.length_mm for piece in problem.pieces) + 3 * problem.cut_mm
    long, short = (STICK | {"length": f"{whole_mm + TRIMS_MM + more:.3f} mm"} for more in (0.01, -0.01))
    assert offered(long, grain=Grain.ROUND) and offered(short, grain=Grain.ROUND) is None
    assert offered(short)


@pytest.mark.parametrize(("width", "strips"), [("63.7 mm", 0), ("63.8 mm", 1), ("130 mm", 2)])
def test_a_board_loses_both_its_edges(width: str, strips: int) -> None:
    """A strip is 50.8 + 3 mm wide, and 5 mm are lost on each edge."""
    found = offered(BOARD | {"width": width})
    assert (found.stock.strips if found else 0) == strips


def test_a_board_too_thin_to_lie_flat_is_offered_on_edge() -> None:
    found = offered(BOARD | {"thickness": "1 3/8 in"}, section=DEEP)
    assert found and found.on_edge and found.planed_mm == pytest.approx(25.7)
    assert offered(BOARD | {"thickness": "1 in"}, section=DEEP) is None


def test_another_wood_is_not_offered() -> None:
    oak = STICK | {"species": "Oak"}
    assert offered(oak, wood="ash") is None
    assert offered(oak, wood="oak") and offered(oak)


@pytest.mark.parametrize("section", [FLAT, DEEP], ids=["flat", "deep"])
def test_it_is_offered_as_the_plan_takes_it(section: dict[str, str]) -> None:
    board = BOARD | {"thickness": "1 3/8 in"} if section is DEEP else BOARD
    assert offered(board, section=section) == group_of(section, board).offers["b1"]
