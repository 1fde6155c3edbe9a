"""The explanations beside the fields: an open one lies within the page at every width."""

from collections.abc import Callable
from typing import Any

import pytest
from tablet import LANDSCAPE, PHONE, PORTRAIT, take_furnished_demo

BEYOND = """() => [...document.querySelectorAll(".explain")].filter(one => {
    one.closest("details:not(.explain)")?.setAttribute("open", "")
    one.open = true
    const box = one.querySelector(".explain-body").getBoundingClientRect()
    one.open = false
    return box.left < 0 || box.right > innerWidth
}).map(one => one.closest(".field").textContent.trim())"""
"""The fields whose explanation begins or ends beside the page."""


@pytest.mark.parametrize("size", [LANDSCAPE, PORTRAIT, PHONE])
def test_no_explanation_reaches_beyond_the_page(open_page: Callable[..., Any], size: tuple[int, int]) -> None:
    """Fault: the explanation of the last of three fields made the page of costs scroll sideways."""
    page = open_page(size)
    at = take_furnished_demo(page, "cafe-prints.demo").removesuffix("/setting-out")
    job = at.split("/frames/")[0]
    for address in (f"{job}/costs", f"{job}/timber", f"{job}/bench/finish", f"{at}/package/mat", f"{at}/corners/joint"):
        page.goto(address)
        assert page.locator(".explain").count() and page.evaluate(BEYOND) == [], address
