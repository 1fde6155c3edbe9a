"""The way that the light names leads there: open, in view, with the caret in it; once more too, and without scripts."""

import json
from collections.abc import Callable
from copy import deepcopy
from typing import Any

import pytest
from panel import PANEL_IN_INCHES
from tablet import LANDSCAPE, PHONE

THIN = {"id": "s1", "name": "Thin oak", "length": "8 ft", "width": "8 in", "thickness": "1/2 in"}
OTHERS = [{"id": f"x{number}", "name": f"Oak {number}", "length": "8 ft"} for number in range(3)]
FIELD = "timber.stock.s1.thickness"


def look(page: Any) -> None:
    """The look page of a job in which a board is too thin; its stock is folded."""
    document = deepcopy(PANEL_IN_INCHES) | {"timber": {"stock": [THIN, *OTHERS]}}
    page.goto("/")
    headers = {"Origin": page.evaluate("() => location.origin")}
    sent = page.request.post("/projects/import", form={"pasted": json.dumps(document)}, headers=headers)
    page.goto(f"{sent.url}/frames/f1/look")


@pytest.mark.parametrize("size", [LANDSCAPE, PHONE])
@pytest.mark.parametrize("scripts", [True, False])
def test_the_way_of_the_light_leads_into_a_fold(
    open_page: Callable[..., Any], size: tuple[int, int], scripts: bool
) -> None:
    page = open_page(size, scripts=scripts)
    look(page)
    page.get_by_role("link", name="Go to Thin oak, rough thickness").tap()
    page.wait_for_url("**/timber#*")
    page.locator("#field-timber-stock-s1-thickness input").wait_for()
    assert _is_in_view(page, size)
    if scripts:
        page.wait_for_function(f"() => document.activeElement.name === '{FIELD}'")
        page.evaluate("() => { document.activeElement.blur(); scrollTo(0, 0); }")
        page.get_by_role("link", name="Go to Thin oak").tap()
        page.wait_for_function(f"() => document.activeElement.name === '{FIELD}'")
        assert _is_in_view(page, size)


def _is_in_view(page: Any, size: tuple[int, int]) -> bool:
    box = page.locator("#field-timber-stock-s1-thickness input").bounding_box()
    return bool(box["y"] >= 0 and box["y"] + box["height"] <= size[1])


def test_where_the_light_leads_is_marked(open_page: Callable[..., Any]) -> None:
    page = open_page()
    look(page)
    page.get_by_role("link", name="Go to Thin oak").tap()
    page.wait_for_url("**/timber#*")
    marked = page.locator("#field-timber-stock-s1-thickness")
    assert marked.evaluate("one => getComputedStyle(one).outlineStyle") == "solid"
