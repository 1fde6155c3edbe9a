"""Milling worked out again from the typed numbers alone: strips by laying them side by side, bow by walking along."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from panel import PANEL_IN_INCHES

from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.stock import StockOffer
from framecalc.plan.whole import Plan
from framecalc.project import read_project
from framecalc.timber.thicknessing import Order

KERF_MM, SHORTEST_MM = 3.175, 300.0


def tenths(least: float, most: float) -> st.SearchStrategy[float]:
    """Millimetres as they are typed, to a tenth."""
    return st.integers(round(10 * least), round(10 * most)).map(lambda number: number / 10)


BOARDS = st.fixed_dictionaries(
    {
        "thickness": tenths(20, 45),
        "width": tenths(60, 300),
        "length": tenths(900, 4000),
        "bow": tenths(0, 15),
        "twist": tenths(0, 6),
    }
)
SHOPS = st.fixed_dictionaries(
    {
        "edge": tenths(0, 10),
        "width_allowance": tenths(0, 6),
        "sanding": tenths(0, 1),
        "clean_up": tenths(0, 3),
        "part_trim": tenths(0, 60),
    }
)


def group_of(board: dict[str, float], shop: dict[str, float]) -> TimberGroup:
    typed = {name: f"{length_mm} mm" for name, length_mm in board.items()}
    timber = {name: f"{length_mm} mm" for name, length_mm in shop.items()} | {"shortest_machined": f"{SHORTEST_MM} mm"}
    stock: dict[str, Any] = {"id": "b1", "name": "board"} | typed
    (group,) = Plan(read_project(PANEL_IN_INCHES | {"timber": {"stock": [stock]} | timber})).timber.groups
    return group


def most_strips(width_mm: float, edge_mm: float, strip_mm: float) -> int:
    """Lay strips side by side, a saw cut between two, while there is room."""
    count, used_mm = 0, strip_mm
    while used_mm <= width_mm - 2 * edge_mm + 1e-6:
        count, used_mm = count + 1, used_mm + KERF_MM + strip_mm
    return count


def rise_mm(bow_mm: float, length_mm: float, part_mm: float) -> float:
    """How far the first part of a bowed board stands off its own chord, found by walking along it."""
    height = [4 * bow_mm * x * (length_mm - x) / length_mm**2 for x in (part_mm * n / 200 for n in range(201))]
    return max(y - height[-1] * n / 200 for n, y in enumerate(height))


@settings(max_examples=80, deadline=None)
@given(board=BOARDS, shop=SHOPS)
def test_a_board_is_taken_as_it_comes_out_by_hand(board: dict[str, float], shop: dict[str, float]) -> None:
    group = group_of(board, shop)
    section, longest_mm = group.section, max(piece.length_mm for piece in group.problem.pieces)
    needed_mm = section.thickness_mm + shop["sanding"]
    long_mm = board["thickness"] - board["bow"] - board["twist"] - shop["clean_up"]
    strip_mm, offer = section.width_mm + shop["width_allowance"], group.offers.get("b1")
    if offer is None or offer.on_edge:
        assert long_mm < needed_mm or not most_strips(board["width"], shop["edge"], strip_mm)
        return
    assert offer.milling is not None
    assert (offer.milling.long_mm, offer.milling.needed_mm) == pytest.approx((long_mm, needed_mm))
    assert (offer.strip_mm, offer.planed_mm) == pytest.approx((strip_mm, needed_mm))
    assert offer.stock.strips == most_strips(board["width"], shop["edge"], strip_mm)
    assert (offer.milling.order is Order.LONG) == (long_mm >= needed_mm - 1e-6)
    if offer.milling.order is Order.CROSSCUT:
        the_parts_are_right(offer, board, shop, needed_mm)
    else:
        assert not offer.crosscuts and longest_mm < board["length"]


def the_parts_are_right(offer: StockOffer, board: dict[str, float], shop: dict[str, float], needed_mm: float) -> None:
    """Each part that is milled reaches the thickness, is long enough for the machines, and keeps clear of its ends."""
    lost_mm = shop["part_trim"]
    for part in offer.parts:
        if part in offer.stock.defects:
            assert part.length_mm < SHORTEST_MM
            continue
        bow_mm = rise_mm(board["bow"], board["length"], part.length_mm)
        twist_mm = board["twist"] * part.length_mm / board["length"]
        assert board["thickness"] - bow_mm - twist_mm - shop["clean_up"] >= needed_mm - 1e-6
        assert part.length_mm >= SHORTEST_MM - 1e-6
    for left, right, crosscut in zip(offer.parts[:-1], offer.parts[1:], offer.crosscuts, strict=True):
        assert right.start_mm - left.end_mm == pytest.approx(KERF_MM)
        assert crosscut.start_mm == pytest.approx(left.end_mm - lost_mm)
        assert crosscut.end_mm == pytest.approx(min(right.start_mm + lost_mm, board["length"]))
