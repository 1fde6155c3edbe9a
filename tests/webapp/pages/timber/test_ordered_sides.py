"""Sides that come cut to size are ordered at the lengths that every page says: whole steps of the tape, none short."""

from copy import deepcopy
from typing import Any

import pytest
from panel import PANEL_IN_INCHES

from framecalc.plan import FramePlan, Plan
from framecalc.project import read_project
from webapp.pages.timber.says import ordered_words


def bought(**changes: Any) -> FramePlan:
    """Sixty frames of a panel that is no whole step across."""
    document = deepcopy(PANEL_IN_INCHES)
    frame = document["frames"][0]
    frame |= {"count": 60} | changes
    frame["artwork"] |= {"across": "280 mm"}
    frame["section"] |= {"source": "bought", "moulding": {"name": "Ogee", "sale": "cut to size by the side"}}
    return Plan(read_project(document)).frames["f1"]


@pytest.mark.parametrize("shape", [{}, {"slope": "20"}])
def test_the_order_says_the_outside_of_the_setting_out(shape: dict[str, str]) -> None:
    plan = bought(shape=shape)
    across, up = plan.figures["outside_across"], plan.figures["outside_up"]
    assert across.exact_mm < across.written.written_mm, "no whole step, and rounded up"
    assert f"120 × {across.text} in, 120 × {up.text} in." in str(ordered_words(plan)).replace("\xa0", " ")


def test_a_polygon_orders_its_members() -> None:
    plan = bought(shape={"sides": 6, "size": "12 in"})
    assert f"360 × {plan.figures['member_long'].text} in." in str(ordered_words(plan)).replace("\xa0", " ")
