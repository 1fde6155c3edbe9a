"""The timber page under a finger: worked out without leaving it behind, lines ticked off, fields that apply."""

import re
from collections.abc import Callable
from typing import Any

import pytest
from tablet import LANDSCAPE, PHONE, field, imported, press


def timber(page: Any, demo: str = "cafe-prints.demo") -> Any:
    page.goto(imported(page, demo).split("/frames/")[0] + "/timber")
    return page


def at(page: Any) -> str:
    """The address of the page, without the list that it shows."""
    return f"{page.url.partition('/timber')[0]}/timber"


def work_out(page: Any) -> None:
    press(page, page.get_by_role("button", name="Plan the cuts"))
    page.locator(".verdict-line").first.wait_for()


def test_a_tick_stays_where_it_is_and_what_is_typed_afterwards_is_saved(open_page: Callable[..., Any]) -> None:
    page = timber(open_page(LANDSCAPE))
    work_out(page)
    page.evaluate("() => { window.isSamePage = true; }")
    page.locator(".tick").first.tap()
    page.locator(".tick[aria-pressed=true]").wait_for()
    # the revision of the tick may be shown a moment later
    before = int(page.locator(".revision").inner_text().split()[1].rstrip(","))
    field(page, "timber.spares").fill("1")
    field(page, "timber.spares").blur()
    page.locator(".revision", has_text=re.compile(rf"Revision ({before + 1}|{before + 2})\b")).wait_for(
        state="attached"
    )
    page.locator(".state", has_text="Not worked out yet").first.wait_for()
    assert page.locator("#notice").inner_text() == "" and page.locator("#trouble").inner_text() == ""
    assert page.evaluate("() => window.isSamePage")


def test_six_lines_ticked_off_fast_are_all_kept(open_page: Callable[..., Any]) -> None:
    page = timber(open_page(LANDSCAPE))
    work_out(page)
    page.goto(f"{at(page)}/pieces")
    page.evaluate("() => [...document.querySelectorAll('.tick')].slice(0, 6).forEach((tick) => tick.click())")
    page.locator(".tick[aria-pressed=true]").nth(5).wait_for(state="attached")
    page.reload()
    assert page.locator(".tick[aria-pressed=true]").count() == 6


@pytest.mark.parametrize("place", ["/stops", "/lists/stops"])
def test_lines_tapped_while_the_line_is_down_wait_and_are_sent_when_it_is_back(
    open_page: Callable[..., Any], place: str
) -> None:
    page = timber(open_page(LANDSCAPE))
    work_out(page)
    page.goto(at(page) + place)
    page.context.set_offline(True)
    page.evaluate("() => [...document.querySelectorAll('.tick')].slice(0, 2).forEach((tick) => tick.click())")
    page.locator("#trouble").get_by_text("Not ticked off yet").wait_for()
    assert page.locator(".tick[aria-busy=true]").count() == 2 and not page.locator(".tick[aria-pressed=true]").count()
    page.context.set_offline(False)
    page.locator(".tick[aria-pressed=true]").nth(1).wait_for(state="attached")
    assert page.locator("#trouble").inner_text() == "" and not page.locator(".tick[aria-busy=true]").count()
    page.reload()
    assert page.locator(".tick[aria-pressed=true]").count() == 2


def test_lines_ticked_on_another_tablet_appear_on_the_list_at_the_machine(open_page: Callable[..., Any]) -> None:
    here, there = timber(open_page(LANDSCAPE)), open_page(LANDSCAPE)
    work_out(here)
    here.goto(f"{at(here)}/lists/stops")
    there.goto(here.url)
    before = int(here.locator("h1").inner_text().rpartition(" ")[2])
    here.evaluate("() => { window.isSamePage = true; }")
    there.locator(".tick").nth(1).tap()
    here.locator(".tick").nth(1).and_(here.locator("[aria-pressed=true]")).wait_for()
    assert here.locator(".tick[aria-pressed=true]").count() == 1
    here.locator(".tick").nth(1).tap()
    there.locator(".tick[aria-pressed=true]").wait_for(state="detached")
    here.locator("h1", has_text=f"revision {before + 2}").wait_for()
    assert here.evaluate("() => window.isSamePage")


def test_a_line_that_waits_to_be_sent_is_left_alone_by_what_is_ticked_elsewhere(open_page: Callable[..., Any]) -> None:
    here, there = timber(open_page(LANDSCAPE)), open_page(LANDSCAPE)
    work_out(here)
    here.goto(f"{at(here)}/lists/stops")
    there.goto(here.url)
    here.route("**/tick/**", lambda route: route.abort("internetdisconnected"))
    here.locator(".tick").first.tap()
    here.locator("#trouble").get_by_text("Not ticked off yet").wait_for()
    there.locator(".tick").nth(1).tap()
    here.locator(".tick").nth(1).and_(here.locator("[aria-pressed=true]")).wait_for()
    assert here.locator(".tick").first.get_attribute("aria-busy") == "true"
    here.unroute("**/tick/**")
    there.locator(".tick[aria-pressed=true]").nth(1).wait_for(state="attached")


def test_a_line_is_ticked_off_in_big_type_on_a_phone(open_page: Callable[..., Any]) -> None:
    page = timber(open_page(PHONE))
    work_out(page)
    page.goto(f"{at(page)}/lists/stops")
    page.locator(".tick").last.tap()
    page.locator(".tick[aria-pressed=true]").wait_for()
    page.reload()
    assert page.locator(".tick[aria-pressed=true]").count() == 1


def test_the_fields_are_those_that_apply(open_page: Callable[..., Any]) -> None:
    page = timber(open_page(LANDSCAPE), "ash-relief.demo")
    assert field(page, "timber.edge").is_visible() and not field(page, "timber.corner").is_visible()
    field(page, "timber.grain").select_option(index=2)
    assert field(page, "timber.corner").is_visible()
    assert not page.locator("[name='timber.turned']").first.is_visible()
