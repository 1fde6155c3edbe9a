"""Answers that come late: an old one never wins over what is typed, and nothing typed is lost while it is awaited."""

from collections.abc import Callable
from typing import Any

import pytest
from tablet import Door, field, press, set_out, settled, take_demo


@pytest.fixture
def page(open_page: Callable[..., Any]) -> Any:
    page = open_page()
    take_demo(page, "cafe-prints.demo")
    return page


def outside(page: Any) -> str:
    text: str = page.locator("#sizes > div").first.locator("dd").first.inner_text()
    return " ".join(text.split())


def test_every_redraw_says_how_it_is_queued(page: Any) -> None:
    assert page.get_attribute("#typed", "hx-sync") == "this:replace"
    assert page.get_attribute("#saver", "hx-sync") == "this:queue last"
    assert page.get_attribute("#typed", "hx-validate") == "false"


def test_a_slow_old_preview_never_wins(page: Any, door: Door) -> None:
    door.hold["preview"] = [0.9]
    width = field(page, "section.face_width")
    for text in ("32", "33", "34"):
        width.fill(text)
        page.wait_for_timeout(200)
    page.wait_for_timeout(1100)
    assert outside(page) == "457 × 389", "the café frame, 12 mm wider on each side"
    assert width.input_value() == "34"


def test_a_slow_save_does_not_bring_back_older_sizes(page: Any, door: Door) -> None:
    door.hold["setting-out"] = [0.9]
    width = field(page, "section.face_width")
    width.fill("32")
    width.blur()
    width.fill("34")
    page.wait_for_timeout(1300)
    assert outside(page) == "457 × 389"
    assert width.input_value() == "34"


def test_what_is_typed_while_an_answer_is_awaited_stays(page: Any, door: Door) -> None:
    door.hold["preview"] = [0.5]
    door.hold["setting-out"] = [0.5]
    field(page, "section.face_width").fill("30")
    page.wait_for_timeout(180)
    thickness = field(page, "section.thickness")
    thickness.focus()
    thickness.fill("")
    thickness.press_sequentially("21.5", delay=120)
    settled(page)
    assert field(page, "section.face_width").input_value() == "30"
    assert thickness.input_value() == "21.5"


def test_parts_renewed_in_place_are_what_the_page_would_be_anew(page: Any) -> None:
    parts = "[...document.querySelectorAll('.sheet, .sizes, .line, .hint, .figures')].map(part => part.outerHTML)"
    for ending, text in (("section.face_width", "31"), ("section.thickness", "14"), ("package.mat.border", "80")):
        field(page, ending).fill(text)
        field(page, ending).blur()
        settled(page)
    renewed = page.evaluate(parts)
    page.reload()
    assert renewed == page.evaluate(parts)
    assert len(renewed) > 20


def test_keystrokes_focus_and_caret_survive_every_redraw(page: Any) -> None:
    width = field(page, "section.face_width")
    width.fill("2")
    width.press_sequentially("2.125", delay=170)
    assert width.input_value() == "22.125"
    assert page.evaluate("document.activeElement.name").endswith("section.face_width")
    width.press("Home")
    width.press_sequentially("1", delay=10)
    settled(page)
    assert page.evaluate("document.activeElement.selectionStart") == 1


def test_the_newest_text_is_what_is_saved(page: Any, door: Door) -> None:
    door.hold["setting-out"] = [0.5]
    width = field(page, "section.face_width")
    for text in ("30", "31", "32"):
        width.fill(text)
        width.blur()
        page.wait_for_timeout(60)
    page.wait_for_timeout(900)
    settled(page)
    page.reload()
    assert field(page, "section.face_width").input_value() == "32"


def test_a_save_under_way_is_awaited_before_the_page_is_left_by_a_button(page: Any, door: Door) -> None:
    door.hold["setting-out"] = [0.6]
    width = field(page, "section.face_width")
    width.fill("31")
    width.blur()
    page.get_by_role("button", name="Undo").tap()
    page.locator("#saved").get_by_text("Revision 3").wait_for()
    assert field(page, "section.face_width").input_value() == "22", "undo took back what was saved just before"


def test_a_button_pressed_while_a_save_is_under_way_is_not_dropped(open_page: Callable[..., Any], door: Door) -> None:
    page = open_page()
    page.goto("/")
    for name, text in (("across", "300"), ("up", "400"), ("face_width", "25")):
        page.locator(f"#new-{name}").fill(text)
    press(page, page.get_by_role("button", name="Draw it"))
    set_out(page)
    door.hold["setting-out"] = [0.6]
    field(page, "artwork.across").fill("310")
    field(page, "artwork.across").blur()
    field(page, "section.thickness")
    page.locator("[id$='section-thickness'] .assumed").tap()
    field(page, "artwork.up").fill("410")
    field(page, "artwork.up").blur()
    page.wait_for_timeout(900)
    settled(page)
    page.reload()
    assert not page.locator("[id$='section-thickness'] .assumed").count()
    assert field(page, "artwork.up").input_value() == "410"


def test_a_server_that_is_gone_is_said_and_nothing_typed_is_lost(page: Any) -> None:
    page.route("**/setting-out", lambda route: route.abort("internetdisconnected"), times=1)
    field(page, "section.face_width").fill("31")
    field(page, "section.face_width").blur()
    page.locator("#trouble").get_by_text("Not saved").wait_for()
    page.locator("#trouble").get_by_role("button", name="Try again").tap()
    settled(page)
    assert page.locator("#trouble").inner_text() == ""
    page.reload()
    assert field(page, "section.face_width").input_value() == "31"


def test_while_the_line_is_down_the_page_says_what_is_not_saved_and_greys_what_is_old(page: Any) -> None:
    page.context.set_offline(True)
    field(page, "section.face_width").fill("31")
    page.get_by_text("Not saved yet").wait_for()
    assert not page.locator(".revision").is_visible(), "Revision 1, saved does not stand above a field that is not"
    assert page.locator(".view").evaluate("view => getComputedStyle(view).filter") == "grayscale(1)"
    page.context.set_offline(False)


def test_what_did_not_arrive_is_sent_again_as_soon_as_the_line_is_back(page: Any) -> None:
    page.context.set_offline(True)
    field(page, "section.face_width").fill("31")
    field(page, "section.face_width").blur()
    page.locator("#trouble").get_by_text("Not saved").wait_for()
    page.context.set_offline(False)
    page.locator("#trouble:empty").wait_for(state="attached")
    settled(page)
    page.locator("body:not(.lags)").wait_for()
    page.reload()
    assert field(page, "section.face_width").input_value() == "31"


@pytest.mark.parametrize("status", [502, 504])
def test_an_error_that_is_not_ours_is_a_line_that_is_down_and_is_tried_again(page: Any, status: int) -> None:
    page.route("**/setting-out", lambda route: route.fulfill(status=status, body="<p>gateway</p>"), times=1)
    field(page, "section.face_width").fill("31")
    field(page, "section.face_width").blur()
    page.locator("#trouble").get_by_text("The shop computer does not answer").wait_for()
    page.locator("#trouble:empty").wait_for(state="attached", timeout=20_000)
    settled(page)
    page.reload()
    assert field(page, "section.face_width").input_value() == "31"


def test_a_field_typed_back_is_saved_although_the_answer_to_the_save_before_was_lost(page: Any) -> None:
    width, was = field(page, "section.face_width"), field(page, "section.face_width").input_value()

    def lose(route: Any) -> None:
        route.fetch()
        route.abort("internetdisconnected")

    page.route("**/setting-out", lose, times=1)
    width.fill("31")
    width.blur()
    page.locator("#trouble").get_by_text("Not saved").wait_for()
    width.fill(was)
    width.blur()
    settled(page)
    page.reload()
    assert page.locator(".revision").inner_text().startswith("Revision 3"), (
        "31 was saved, and then what was there before"
    )
    assert field(page, "section.face_width").input_value() == was


def test_what_another_tablet_saves_meanwhile_stays_although_the_page_shows_the_old_text(
    page: Any, open_page: Callable[..., Any]
) -> None:
    other = open_page()
    other.goto(page.url)
    field(other, "section.thickness").fill("24")
    field(other, "section.thickness").blur()
    settled(other)
    width, was = field(page, "section.face_width"), field(page, "section.face_width").input_value()
    for text in ("31", was):
        width.fill(text)
        width.blur()
        settled(page)
    page.reload()  # what is saved elsewhere appears by itself, before or after these two saves
    assert field(page, "section.thickness").input_value() == "24"
    assert field(page, "section.face_width").input_value() == was, "typed back"
