"""The package page under a finger: worked out while it is typed, ways out fill their field, prints have their size."""

from collections.abc import Callable
from io import BytesIO
from typing import Any

from real_browser import needed
from tablet import field, imported, press, settled


def package(page: Any, demo: str = "cafe-prints.demo") -> str:
    """Open the mat of a demo; the address of its package."""
    found = imported(page, demo).replace("setting-out", "package")
    page.goto(f"{found}/mat")
    return found


def says(page: Any, group: str) -> str:
    return " ".join(page.locator(f"#says-{group}").inner_text().split())


def test_what_is_typed_is_worked_out_and_saved_and_a_way_out_fills_its_field(open_page: Callable[..., Any]) -> None:
    page = open_page()
    package(page)
    overlap = field(page, "mat.overlap")
    overlap.fill("1")
    settled(page)
    assert "laps over the artwork by 1 mm" in says(page, "mat")
    overlap.blur()
    settled(page)
    page.locator("#says-mat").get_by_role("button", name="Lap over more").tap()
    settled(page)
    assert overlap.input_value() == "3 mm" and "laps over" not in says(page, "mat")
    page.reload()
    assert field(page, "mat.overlap").input_value() == "3"


def test_fields_for_windows_come_when_they_are_wanted(open_page: Callable[..., Any]) -> None:
    page = open_page()
    package(page)
    page.get_by_text("More windows").tap()
    press(page, page.get_by_role("button", name="Add a window"))
    page.get_by_text("How they stand").tap()
    assert not field(page, "mat.columns").is_visible()
    field(page, "mat.arrangement").select_option("grid")
    settled(page)
    assert field(page, "mat.columns").is_visible()
    press(page, page.get_by_role("button", name="Place them by hand from here"))
    assert not field(page, "mat.gap").is_visible()


def test_a_preview_that_comes_late_does_not_hide_a_conflict(open_page: Callable[..., Any]) -> None:
    here, there = open_page(), open_page()
    there.goto(f"{package(here)}/mat")
    field(there, "mat.border").fill("90")
    field(there, "mat.border").blur()
    settled(there)
    field(here, "mat.border").fill("70")
    field(here, "mat.border").blur()
    settled(here)
    assert "saved elsewhere meanwhile" in here.locator("#notice").inner_text()


def test_the_fitting_card_of_a_usual_package_goes_on_one_sheet(open_page: Callable[..., Any]) -> None:
    pdfplumber = needed("pdfplumber")
    page = open_page()
    page.goto(f"{package(page)}/fitting")
    with pdfplumber.open(BytesIO(page.pdf(prefer_css_page_size=True))) as printed:
        assert len(printed.pages) == 1
