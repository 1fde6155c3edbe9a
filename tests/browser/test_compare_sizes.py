"""Two revisions side by side are seen on every screen: fault: on a narrow one no drawing was shown at all."""

from collections.abc import Callable
from typing import Any

import pytest
from tablet import LANDSCAPE, PHONE, PORTRAIT, field, settled, take_demo


@pytest.mark.parametrize("size", [LANDSCAPE, PORTRAIT, PHONE])
def test_both_drawings_of_a_pair_are_seen(open_page: Callable[..., Any], size: tuple[int, int]) -> None:
    page = open_page(size)
    project = take_demo(page, "cafe-prints.demo").partition("/frames/")[0]
    field(page, "section.face_width").fill("40")
    field(page, "section.face_width").blur()
    settled(page)
    page.goto(f"{project}/revisions/compare?before=1&after=2")
    drawings = page.locator(".side-by-side svg.drawing")
    assert drawings.count() == 4
    for at in range(4):
        assert drawings.nth(at).is_visible() and drawings.nth(at).bounding_box()["width"] > 300
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
