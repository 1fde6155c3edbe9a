"""With scripts off everything works by ordinary forms and buttons."""

from collections.abc import Callable
from typing import Any

import pytest
from tablet import LANDSCAPE, PHONE, field, open_card, press, set_out, take_demo


@pytest.fixture
def page(open_page: Callable[..., Any]) -> Any:
    page = open_page(LANDSCAPE, scripts=False)
    page.goto("/")
    for name, text in (("across", "300"), ("up", "400"), ("face_width", "25")):
        page.locator(f"#new-{name}").fill(text)
    press(page, page.get_by_role("button", name="Draw it"))
    set_out(page)
    return page


def save(page: Any) -> None:
    press(page, page.get_by_role("button", name="Save and redraw"))


def outside(page: Any) -> str:
    return " ".join(page.locator("#sizes > div").first.locator("dd").first.inner_text().split())


def test_a_change_is_saved_and_drawn_by_the_button(page: Any) -> None:
    field(page, "section.face_width").fill("30")
    save(page)
    assert outside(page) == "465 × 575"
    assert page.locator("#drawing-front svg").is_visible()


def test_enter_saves_like_the_button(page: Any) -> None:
    field(page, "section.face_width").fill("30")
    with page.expect_navigation():
        field(page, "section.face_width").press("Enter")
    assert outside(page) == "465 × 575"


def test_a_bad_text_stays_with_its_sentence_and_the_last_drawings(page: Any) -> None:
    field(page, "section.face_width").fill("wide")
    field(page, "section.thickness").fill("22")
    save(page)
    assert field(page, "section.face_width").input_value() == "wide"
    assert "Enter a length" in page.locator("[id$='section-face_width'] .error").inner_text()
    assert "as saved in revision" in page.locator("#kept").inner_text()
    assert page.locator("#drawing-section svg").is_visible()
    assert field(page, "section.thickness").input_value() == "22"


def test_layers_mats_and_assumed_values_have_their_buttons(page: Any) -> None:
    before = page.locator("[id$='-thickness'].length").count()
    open_card(page, page.locator("#in-mat"))
    press(page, page.get_by_role("button", name="Remove the mat"))
    assert not field(page, "package.mat.border").count()
    press(page, page.get_by_role("button", name="Add a mat"))
    assert field(page, "package.mat.border").is_visible()
    here = page.url
    open_card(page, page.locator("#in-package"))
    press(page, page.get_by_role("link", name="Add or reorder"))
    page.locator("#new-layer").select_option("spacer")
    press(page, page.get_by_role("button", name="Add", exact=True))
    page.goto(here)
    assert page.locator("[id$='-thickness'].length").count() == before + 1
    before = page.locator(".assumed").count()
    field(page, "section.thickness")
    press(page, page.locator("[id$='section-thickness'] .assumed").first)
    assert page.locator(".assumed").count() == before - 1
    assert field(page, "section.thickness").is_visible()
    press(page, page.locator(".drawer[open]").get_by_role("button", name="These are right"))
    assert not page.locator("#group-section .assumed").count()
    assert page.locator(".drawer[open]").get_attribute("id") == "group-mat", "the next one with something assumed"


def test_a_finding_is_put_right_by_its_button_and_undone(page: Any) -> None:
    field(page, "package.clearance_across").fill("0")
    save(page)
    assert page.locator("#verdict").inner_text().startswith("Not yet")
    press(page, page.locator("#findings .ways button").first)
    assert not page.locator("#verdict").inner_text().startswith("Not yet")
    press(page, page.get_by_role("button", name="Undo"))
    assert field(page, "package.clearance_across").input_value() == "0"


def test_the_chosen_start_shows_its_fields_and_solves(page: Any) -> None:
    open_card(page, page.locator("#in-artwork"))
    page.get_by_label("Wall space", exact=True).check()
    field(page, "start.wall_across").fill("500")
    field(page, "start.wall_up").fill("600")
    save(page)
    assert outside(page) == "500 × 600"


def test_a_field_is_explained_on_a_tap(page: Any) -> None:
    field(page, "section.rabbet_width")
    page.locator("[id$='section-rabbet_width'] .explain summary").tap()
    assert page.locator("[id$='section-rabbet_width'] .explain-body svg").is_visible()


def test_frames_come_and_go(page: Any) -> None:
    press(page, page.get_by_role("button", name="Add a frame"))
    assert page.locator(".frames a").count() == 2
    open_card(page, page.locator("#in-frame"))
    press(page, page.get_by_role("button", name="Delete this frame"))
    assert page.locator(".frames a").count() == 1


def test_drawings_are_shown_large_and_downloaded(page: Any) -> None:
    press(page, page.get_by_role("link", name="Section: enlarge"))
    sheet = page.locator("figure svg >> visible=true")
    fitted = sheet.bounding_box()["width"]
    press(page, page.get_by_role("link", name="Larger"))
    assert sheet.bounding_box()["width"] == pytest.approx(2 * fitted, rel=0.02)
    with page.expect_download() as download:
        page.get_by_role("button", name="Download").tap()
    assert download.value.suggested_filename.endswith(".svg")


def test_projects_are_copied_deleted_and_brought_back(page: Any) -> None:
    page.goto("/")
    page.locator("article summary").tap()
    press(page, page.get_by_role("button", name="Copy"))
    page.goto("/")
    assert page.locator("article").count() == 2
    page.locator("article summary").first.tap()
    press(page, page.get_by_role("button", name="Delete").first)
    assert page.locator("article").count() == 1
    press(page, page.get_by_role("button", name="Undo"))
    assert page.locator("article").count() == 2


def test_on_a_phone_each_drawing_is_chosen_without_scripts(open_page: Callable[..., Any]) -> None:
    page = open_page(PHONE, scripts=False)
    take_demo(page, "ash-relief.demo")
    page.get_by_label("Members", exact=True).check()
    assert page.locator(".panel.members").is_visible()
    assert not page.locator(".panel.front").is_visible()


def test_the_pad_is_not_offered_where_it_could_not_work(page: Any) -> None:
    assert page.locator("#pad").is_hidden()
    assert page.locator(".pad-key").first.is_hidden()
