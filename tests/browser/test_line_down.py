"""A line that is down, for a while or for long: nothing typed is lost, and nothing looks saved that is not.

The page's own clock is put forward; what is down is the browser's network, or a line that takes and never answers.
"""

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import expect
from tablet import field, press, set_out, settled, take_demo

PORTAL = "<html><p>Please log in to the network</p></html>"


@pytest.fixture
def page(open_page: Callable[..., Any]) -> Any:
    page = open_page()
    page.clock.install()
    take_demo(page, "cafe-prints.demo")
    return page


def leave(page: Any, ending: str, text: str) -> None:
    field(page, ending).fill(text)
    field(page, ending).blur()


def is_kept(page: Any, ending: str, text: str) -> None:
    """What was typed is saved, the page says so, and its drawings are of it."""
    page.locator("body:not(.unsaved, .lags)").wait_for()
    page.locator("#trouble:empty").wait_for(state="attached")
    settled(page)
    page.reload()
    assert field(page, ending).input_value() == text


@pytest.mark.parametrize("seconds", [10, 60])
def test_what_is_typed_while_the_line_is_down_is_saved_when_it_is_back(
    page: Any, open_page: Callable[..., Any], seconds: int
) -> None:
    other = open_page()
    other.goto(page.url)
    page.context.set_offline(True)
    leave(page, "section.face_width", "31")
    page.clock.fast_forward(seconds * 1000)
    expect(page.get_by_text("Not saved yet")).to_be_visible()
    expect(page.locator(".revision")).to_be_hidden()
    for what in (".view", "#verdict"):
        assert page.locator(what).evaluate("one => getComputedStyle(one).filter") == "grayscale(1)", what
    leave(page, "section.thickness", "24")
    leave(other, "section.rabbet_width", "8")
    settled(other)
    page.context.set_offline(False)
    is_kept(page, "section.face_width", "31")
    assert field(page, "section.thickness").input_value() == "24"
    assert field(page, "section.rabbet_width").input_value() == "8", "what was saved on the other screen meanwhile"
    expect(field(other, "section.face_width")).to_have_value("31")


def test_the_same_field_changed_on_both_sides_of_a_line_that_was_down_is_asked_about(
    page: Any, open_page: Callable[..., Any]
) -> None:
    other = open_page()
    other.goto(page.url)
    page.context.set_offline(True)
    leave(page, "section.face_width", "31")
    leave(other, "section.face_width", "33")
    settled(other)
    page.clock.fast_forward(60_000)
    page.context.set_offline(False)
    clash = page.locator("#clash")
    clash.get_by_text("33").first.wait_for()
    assert field(page, "section.face_width").input_value() == "31"
    said = clash.inner_text()
    page.clock.run_for(15_000)
    settled(page)
    assert clash.inner_text() == said, "what is asked is not sent again and again"


def test_a_line_that_takes_and_never_answers_is_one_that_is_down(page: Any) -> None:
    held: list[Any] = []
    page.route("**/setting-out", lambda route: held.append(route))
    leave(page, "section.face_width", "31")
    page.clock.run_for(4_000)
    expect(page.get_by_text("Not saved yet")).to_be_visible()
    page.clock.run_for(20_000)
    page.locator("#trouble").get_by_text("Not saved").wait_for()
    page.unroute("**/setting-out")
    page.clock.run_for(6_000)
    is_kept(page, "section.face_width", "31")
    assert held


@pytest.mark.parametrize("status", [200, 504])
def test_an_answer_from_somebody_else_is_no_save(page: Any, status: int) -> None:
    page.route("**/setting-out", lambda route: route.fulfill(status=status, content_type="text/html", body=PORTAL))
    leave(page, "section.face_width", "31")
    page.locator("#trouble").get_by_text("The shop computer does not answer").wait_for()
    assert not page.get_by_text("Please log in").count()
    page.unroute("**/setting-out")
    page.clock.run_for(6_000)
    is_kept(page, "section.face_width", "31")


def test_a_server_that_is_busy_is_asked_again_by_itself(page: Any) -> None:
    page.evaluate(
        """() => {
        const own = window.fetch;
        const busy = new Response("<p>Busy: one moment.</p>", { status: 503, headers: { "x-rabbetry": "1" } });
        window.fetch = (to, ...more) => {
          if (!to.endsWith("/setting-out")) return own(to, ...more);
          window.fetch = own;
          return Promise.resolve(busy);
        };
      }"""
    )
    leave(page, "section.face_width", "31")
    page.locator("#trouble").get_by_text("Busy").wait_for()
    page.clock.run_for(6_000)
    is_kept(page, "section.face_width", "31")


def test_what_buttons_confirmed_while_the_line_was_down_is_confirmed(open_page: Callable[..., Any]) -> None:
    page = open_page()
    page.clock.install()
    page.goto("/")
    for name, text in (("across", "300"), ("up", "400"), ("face_width", "25")):
        page.locator(f"#new-{name}").fill(text)
    press(page, page.get_by_role("button", name="Draw it"))
    set_out(page)
    names = ("section-thickness", "section-rabbet_width", "section-rabbet_depth")
    marks = [page.locator(f"[id$='{name}'] .assumed") for name in names]
    field(page, "section.thickness")
    page.context.set_offline(True)
    for mark in marks:
        mark.tap()
        page.locator("body:not(.saving)").wait_for()
    page.locator("#trouble").get_by_text("Not saved").wait_for()
    page.context.set_offline(False)
    for mark in marks:
        mark.wait_for(state="detached")
    page.locator("#trouble:empty").wait_for(state="attached")
