"""Every page of every demo: no violation that axe knows of, and nothing that a quick eye would find wrong."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from conftest import LANDSCAPE, PHONE, PORTRAIT
from everywhere import every_page

axe = pytest.importorskip("axe_playwright_python.sync_playwright")
LOOK = (Path(__file__).parent / "look.js").read_text("utf-8")
NOTHING = {
    "overlaps": [],
    "outside": [],
    "smallText": [],
    "smallTargets": [],
    "weakContrast": [],
    "doubledLines": 0,
}


@pytest.mark.parametrize("size", [LANDSCAPE, PORTRAIT, PHONE], ids=["landscape", "portrait", "phone"])
def test_no_page_keeps_anyone_out_or_is_hard_to_read(open_page: Callable[..., Any], size: tuple[int, int]) -> None:
    page = open_page(size)
    found: dict[str, Any] = {}
    for name, address in list(every_page(page)):
        page.goto(address)
        violations = [one["id"] for one in axe.Axe().run(page).response["violations"]]
        looked = {key: value for key, value in page.evaluate(LOOK).items() if value != NOTHING[key]}
        sideways = page.evaluate("document.documentElement.scrollWidth") > size[0]
        if violations or looked or sideways:
            found[name] = (violations, looked, sideways)
    assert found == {}
