"""Two screens on one job: what is saved on one appears on the other, but never under its fingers."""

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import expect
from tablet import field, settled, take_demo


@pytest.fixture
def screens(open_page: Callable[..., Any]) -> tuple[Any, Any]:
    """The same page on two screens."""
    here, there = open_page(), open_page()
    take_demo(here, "cafe-prints.demo")
    there.goto(here.url)
    return here, there


def saves(page: Any, ending: str, text: str) -> None:
    field(page, ending).fill(text)
    field(page, ending).blur()
    settled(page)


def shows(page: Any, ending: str, text: str) -> None:
    """Wait until a field shows a text that was typed elsewhere."""
    expect(field(page, ending)).to_have_value(text)


def outside(page: Any) -> str:
    return " ".join(page.locator("#sizes").inner_text().split())


def test_a_field_saved_elsewhere_appears_with_its_drawings_and_sizes(screens: tuple[Any, Any]) -> None:
    here, there = screens
    saves(there, "section.face_width", "31")
    shows(here, "section.face_width", "31")
    here.locator(".revision", has_text="Revision 2").wait_for()
    assert outside(here) == outside(there)


def test_what_is_being_typed_stays_and_both_changes_are_kept(screens: tuple[Any, Any]) -> None:
    here, there = screens
    field(here, "section.thickness").fill("24")
    saves(there, "section.face_width", "31")
    here.wait_for_timeout(4500)
    assert field(here, "section.thickness").input_value() == "24"
    assert field(here, "section.face_width").input_value() == "22", "nothing moves while something is unsaved"
    field(here, "section.thickness").blur()
    settled(here)
    shows(here, "section.face_width", "31")
    shows(there, "section.thickness", "24")


def test_a_field_that_holds_the_caret_is_left_alone_and_offered(screens: tuple[Any, Any]) -> None:
    here, there = screens
    field(here, "section.face_width").focus()
    saves(there, "section.face_width", "31")
    here.get_by_text("Saved on another screen").wait_for()
    assert field(here, "section.face_width").input_value() == "22"


def test_a_layer_added_elsewhere_appears(screens: tuple[Any, Any]) -> None:
    here, there = screens
    before = here.locator("[name$='.thickness']").count()
    there.goto(there.url.replace("setting-out", "package/layers"))
    there.locator("#new-layer").select_option(index=0)
    there.locator("button[value='add-layer']").tap()
    expect(here.locator("[name$='.thickness']")).to_have_count(before + 1)


def test_an_undo_elsewhere_is_seen_and_undone_here_again(screens: tuple[Any, Any]) -> None:
    here, there = screens
    saves(there, "section.face_width", "31")
    here.locator(".revision", has_text="Revision 2").wait_for()
    with here.expect_navigation():
        here.get_by_role("button", name="Undo").tap()
    shows(there, "section.face_width", "22")
