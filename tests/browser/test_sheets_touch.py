"""The sheets page under a finger: looks again by itself while a layout is worked out, ticks where it stands."""

from collections.abc import Callable
from typing import Any

from tablet import field, imported, press, settled


def sheets(page: Any) -> Any:
    """The sheets of the café, laid out."""
    page.goto(imported(page, "cafe-prints.demo").split("/frames/")[0] + "/sheets")
    press(page, page.get_by_role("button", name="Plan the cuts"))
    page.locator("#going").wait_for(state="detached")
    return page


def test_layouts_come_by_themselves_and_what_is_typed_meanwhile_stays(open_page: Callable[..., Any]) -> None:
    page = open_page()
    page.goto(imported(page, "cafe-prints.demo").split("/frames/")[0] + "/sheets")
    press(page, page.get_by_role("button", name="Plan the cuts"))
    trim = field(page, "panel.trim")
    trim.fill("1")
    page.locator("#going").wait_for(state="detached")
    assert page.locator(".verdict-line").count() == page.locator(".plan").count() > 0
    assert trim.input_value() == "1"


def test_a_trim_that_breaks_no_glass_is_said_at_once_and_undone_the_layout_is_there_again(
    open_page: Callable[..., Any],
) -> None:
    page = sheets(open_page())
    state = page.locator("#group-1 .state")
    for text, says in (("5", "it must break"), ("15", "Not worked out yet"), ("0", "Worked out.")):
        field(page, "glass.trim").fill(text)
        field(page, "glass.trim").blur()
        state.get_by_text(says).wait_for()
        settled(page)


def test_a_tick_stays_where_it_is_and_the_page_saves_on(open_page: Callable[..., Any]) -> None:
    page = sheets(open_page())
    page.locator("#group-1 .cut-sheet > summary").first.tap()
    tick = page.locator("#group-1 .cut-sheet .tick").first
    tick.scroll_into_view_if_needed()
    there = page.evaluate("scrollY")
    tick.tap()
    page.locator("#group-1 .cut-sheet .tick[aria-pressed=true]").wait_for()
    assert page.evaluate("scrollY") == there
    field(page, "board.trim").fill("7")
    field(page, "board.trim").blur()
    page.locator("#group-2 .state").get_by_text("Not worked out yet").wait_for()
    assert page.locator("#notice").inner_text() == ""
    page.reload()
    assert field(page, "board.trim").input_value() == "7"
    assert page.locator("#group-1 .cut-sheet .tick").first.get_attribute("aria-pressed") == "true"
