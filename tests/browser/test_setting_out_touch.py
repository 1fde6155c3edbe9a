"""On a tablet at the bench: the café demo typed from nothing, by touch, and the pad for fractions."""

from collections.abc import Callable
from typing import Any

import pytest
from tablet import LANDSCAPE, PHONE, PORTRAIT, field, open_card, press, set_out, settled, take_demo

from framecalc.drawing.registry import PANELS
from framecalc.plan import Plan
from framecalc.project import read_project

CAFE = "cafe-prints.demo"
SHELF = {"glazing": "glass", "mat": "mat", "artwork": "print", "backing": "backing", "back": "back"}
"""Which layer from the shelf stands in for one of a kind, before it is renamed and measured."""


def start(page: Any, across: str, up: str, face_width: str) -> None:
    page.goto("/")
    for name, text in (("across", across), ("up", up), ("face_width", face_width)):
        page.locator(f"#new-{name}").tap()
        page.locator(f"#new-{name}").fill(text)
    press(page, page.get_by_role("button", name="Draw it"))
    set_out(page)


def put(page: Any, ending: str, text: str) -> None:
    """Tap a field and type into it, as fast as a person."""
    box = field(page, ending)
    if not box.is_visible():
        page.locator("details.more", has=box).locator("> summary").tap()
    if box.evaluate("box => box.tagName") == "SELECT":
        box.select_option(text)
        return
    box.tap()
    box.fill("")
    box.press_sequentially(text, delay=15)


def exported(page: Any) -> dict[str, Any]:
    address = page.url.split("/frames/")[0] + "/project.json"
    document: dict[str, Any] = page.request.get(address).json()
    return document


def figures(document: dict[str, Any]) -> dict[str, str]:
    frame = Plan(read_project(document)).record()["frames"][0]
    return {name: figure["written"] for name, figure in frame["figures"].items()}


def build_layers(page: Any, wanted: list[dict[str, str]]) -> None:
    """Make the list of layers what it should be, with the buttons of the package page."""
    here = page.url
    open_card(page, page.locator("#in-package"))
    press(page, page.get_by_role("link", name="Add or reorder"))
    while page.locator("[value^='remove-layer:']").count():
        button = page.locator("[value^='remove-layer:']").first
        if not button.is_visible():
            page.locator(".layers details.more > summary").first.tap()
        press(page, button)
    for number, layer in enumerate(wanted):
        page.locator("#new-layer").select_option(SHELF[layer["kind"]])
        press(page, page.get_by_role("button", name="Add", exact=True))
        row = page.locator(".layers > li").nth(number)
        row.locator("details.more > summary").tap()
        for ending in ("name", "thickness", "tolerance"):
            box = row.locator(f"input[name$='.{ending}']")
            box.tap()
            box.fill(layer[ending])
        settled(page)
    page.keyboard.press("Tab")
    settled(page)
    page.goto(here)


def test_the_café_demo_is_typed_from_nothing(
    open_page: Callable[..., Any], demo_documents: dict[str, dict[str, Any]]
) -> None:
    demo = demo_documents[CAFE]
    frame = demo["frames"][0]
    page = open_page(LANDSCAPE)
    start(page, frame["artwork"]["across"], frame["artwork"]["up"], frame["section"]["face_width"])
    build_layers(page, frame["package"]["layers"])
    put(page, "count", str(frame["count"]))
    put(page, "species", frame["species"])
    for name in ("overlap", "border", "bottom"):
        put(page, f"package.mat.{name}", frame["package"]["mat"][name])
    for name in ("clearance_across", "clearance_up"):
        put(page, f"package.{name}", frame["package"][name])
    for name in ("thickness", "rabbet_width", "rabbet_depth"):
        put(page, f"section.{name}", frame["section"][name])
    for edge in ("sight_edge", "back_edge"):
        put(page, f"section.{edge}.shape", frame["section"][edge]["shape"])
        put(page, f"section.{edge}.size", frame["section"][edge]["size"])
    for name in ("kerf", "end_trim"):
        put(page, f"shop.{name}", demo["shop"][name])
    page.keyboard.press("Tab")
    settled(page)
    confirm_the_rest(page)

    document = exported(page)
    assert figures(document) == figures(demo)
    assert document["frames"][0]["count"] == frame["count"]
    assert page.locator("#verdict").inner_text().startswith("Ready to cut")

    page.set_viewport_size({"width": PORTRAIT[0], "height": PORTRAIT[1]})
    settled(page)
    assert field(page, "artwork.across").input_value() == "280"
    assert page.evaluate("document.documentElement.scrollWidth") == PORTRAIT[0]


def confirm_the_rest(page: Any) -> None:
    while page.locator(".assumed").count():
        mark = page.locator(".assumed").first
        open_card(page, mark)
        page.locator(".drawer[open]").get_by_role("button", name="These are right").tap()
        settled(page)


@pytest.fixture
def page(open_page: Callable[..., Any]) -> Any:
    page = open_page(LANDSCAPE)
    take_demo(page, CAFE)
    return page


def key(page: Any, name: str) -> None:
    page.locator(f"#pad [data-key='{name}'], #pad .sixteenths [data-fraction='{name}']").first.tap()


def open_pad(page: Any, ending: str) -> Any:
    box = field(page, ending)
    page.locator(f"[data-pad='{box.get_attribute('id')}']").tap()
    return box


def test_the_pad_writes_whole_inches_and_sixteenths(page: Any) -> None:
    box = open_pad(page, "artwork.across")
    key(page, "unit")
    for name in ("1", "3", "1/8"):
        key(page, name)
    assert box.input_value() == "13 1/8 in"
    key(page, "ok")
    settled(page)
    assert page.locator("#pad").is_hidden()
    assert exported(page)["frames"][0]["artwork"]["across"] == "13 1/8 in"


def test_a_second_tap_offers_what_is_finer_than_a_sixteenth(page: Any) -> None:
    box = open_pad(page, "artwork.across")
    key(page, "unit")
    for name in ("1", "3", "3/16", "3/16"):
        key(page, name)
    offered = [one.get_attribute("data-fraction") for one in page.locator("#pad .finer button").all()]
    assert offered == ["3/16", "13/64", "7/32", "15/64"]
    page.locator("#pad .finer button").nth(2).tap()
    assert box.input_value() == "13 7/32 in"


def test_the_pad_takes_back_and_goes_on_to_the_next_field(page: Any) -> None:
    box = open_pad(page, "artwork.across")
    for name in ("2", "9", "5", "back", "1", "next"):
        key(page, name)
    assert box.input_value() == "291"
    assert page.evaluate("document.activeElement.name").endswith("artwork.up")
    key(page, "close")
    settled(page)
    assert exported(page)["frames"][0]["artwork"]["across"] == "291 mm"


def test_the_pad_leaves_focus_and_plain_typing_alone(page: Any) -> None:
    box = open_pad(page, "section.face_width")
    assert page.evaluate("document.activeElement.inputMode") == "none"
    key(page, "3")
    box.press_sequentially("5.5", delay=20)
    assert page.evaluate("document.activeElement.name").endswith("section.face_width")
    assert page.locator("#pad-shown").inner_text() == "35.5 mm"
    key(page, "ok")
    assert box.evaluate("box => box.inputMode") == ""
    assert box.input_value() == "35.5"


def test_the_pad_never_covers_the_field_it_writes_into(open_page: Callable[..., Any]) -> None:
    for size in (LANDSCAPE, PORTRAIT, PHONE):
        page = open_page(size)
        take_demo(page, CAFE)
        box = field(page, "shop.kerf")
        box.scroll_into_view_if_needed()
        page.locator(f"[data-pad='{box.get_attribute('id')}']").tap()
        page.wait_for_timeout(100)
        under = box.evaluate(
            "box => { const r = box.getBoundingClientRect();"
            " return document.elementFromPoint(r.left + 8, r.top + r.height / 2) === box; }"
        )
        assert under, size


def test_after_the_last_field_of_a_card_the_next_card_opens(page: Any) -> None:
    box = field(page, "package.mat.overlap")
    box.tap()
    page.keyboard.press("Enter")
    assert page.locator(".drawer[open]").get_attribute("id") == "group-package"
    assert page.evaluate("document.activeElement.name").endswith(".thickness")
    box = open_pad(page, "package.clearance_up")
    key(page, "next")
    assert page.evaluate("document.activeElement.name").endswith("shape.size")
    assert page.locator("#pad").is_visible()


@pytest.mark.parametrize("scripts", [True, False])
def test_one_card_is_open_at_a_time_and_a_closed_one_says_its_values(
    open_page: Callable[..., Any], scripts: bool
) -> None:
    page = open_page(PHONE, scripts=scripts)
    take_demo(page, CAFE)
    for name in ("section", "fit", "mat", "saw"):
        open_card(page, page.locator(f"#in-{name}"))
        assert [one.get_attribute("id") for one in page.locator(".drawer[open]").all()] == [f"group-{name}"]
        assert page.locator(f"#in-{name}").is_visible()
    assert page.locator("#line-section .values").inner_text() == "white oak 22 × 20"


def test_a_card_that_is_opened_stays_in_view_although_the_one_above_closes(open_page: Callable[..., Any]) -> None:
    page = open_page(PHONE)
    take_demo(page, CAFE)
    for name in ("artwork", "section", "frame", "artwork"):
        open_card(page, page.locator(f"#in-{name}"))
        page.wait_for_timeout(100)
        top = page.locator(f"#group-{name} > summary").bounding_box()["y"]
        assert 0 <= top < PHONE[1] - 100, name


def test_the_line_of_a_card_follows_while_its_field_is_typed_and_names_it_at_fault(page: Any) -> None:
    put(page, "section.face_width", "31")
    settled(page)
    assert page.locator("#line-section .values").inner_text() == "white oak 31 × 20"
    put(page, "section.face_width", "3 1")
    settled(page)
    open_card(page, page.locator("#in-saw"))
    assert page.locator("#line-section .fault").inner_text() == "Face width"


def test_a_way_out_fills_its_field_and_is_undone(page: Any) -> None:
    put(page, "package.clearance_across", "0")
    settled(page)
    assert page.locator("#verdict").inner_text().startswith("Not yet")
    page.locator("#findings [data-fills$='package.clearance_across']").first.tap()
    settled(page)
    assert page.locator("#verdict").inner_text().startswith("Ready to cut")
    assert field(page, "package.clearance_across").input_value() != "0"
    press(page, page.get_by_role("button", name="Undo"))
    assert field(page, "package.clearance_across").input_value() == "0"


def test_the_same_value_typed_again_confirms_it(open_page: Callable[..., Any]) -> None:
    """To a browser that is no change; the light and the mark follow at once, and the file knows it."""
    page = open_page(LANDSCAPE)
    start(page, "280", "380", "38")
    box = field(page, "section.thickness")
    mark = page.locator("[id$='section-thickness'] .assumed")
    before, text = page.locator("#verdict").inner_text(), box.input_value()
    assert mark.count() == 1
    put(page, "section.thickness", text)
    page.keyboard.press("Tab")
    settled(page)
    assert mark.count() == 0 and page.locator("#verdict").inner_text() != before
    assert not any(path.endswith("section.thickness") for path in exported(page)["assumed"])
    assert box.input_value() == text


def test_the_light_leads_to_the_first_value_to_confirm(open_page: Callable[..., Any]) -> None:
    page = open_page(LANDSCAPE)
    start(page, "280", "380", "38")
    page.goto(page.url.replace("/setting-out", "/look"))
    page.locator("#verdict a").tap()
    page.wait_for_url("**/setting-out#field-*")
    target = page.locator(":target")
    assert target.locator(".assumed").is_visible()
    assert target.evaluate("target => target.contains(document.activeElement)")
    assert target.evaluate(
        "target => { const r = target.getBoundingClientRect(); return r.top >= 0 && r.bottom <= innerHeight; }"
    )


def test_a_bad_field_keeps_the_drawings_and_says_so(page: Any) -> None:
    before = page.locator("#drawing-section").inner_html()
    put(page, "section.rabbet_depth", "12 13")
    settled(page)
    assert "Enter one number" in page.locator("[id$='section-rabbet_depth'] .error").inner_text()
    assert page.locator("#drawing-section").inner_html() == before
    assert "as before" in page.locator("#kept").inner_text()
    assert page.locator("#verdict").inner_text().startswith("Not yet")
    put(page, "section.rabbet_depth", "13")
    settled(page)
    assert page.locator("#kept").inner_text() == ""


def test_only_the_fields_of_the_chosen_start_are_in_view(page: Any) -> None:
    assert not field(page, "start.wall_across").is_visible()
    page.get_by_label("Wall space", exact=True).tap()
    assert field(page, "start.wall_across").is_visible()
    put(page, "start.wall_across", "500")
    put(page, "start.wall_up", "430")
    settled(page)
    field(page, "package.mat.border")
    assert "Worked out" in page.locator("[id$='package-mat-border']").first.inner_text()
    assert "500" in page.locator("#sizes").inner_text()


def test_in_portrait_the_drawing_in_view_follows_the_field(open_page: Callable[..., Any]) -> None:
    page = open_page(PORTRAIT)
    take_demo(page, CAFE)
    assert page.locator(".panel.front").is_visible()
    field(page, "section.rabbet_width").tap()
    assert page.locator(".panel.section").is_visible()
    assert not page.locator(".panel.front").is_visible()


def test_on_a_phone_each_tab_shows_its_own_drawing_alone(open_page: Callable[..., Any]) -> None:
    page = open_page(PHONE)
    take_demo(page, CAFE)
    tabs = page.locator(".drawings .tabs label")
    assert tabs.count() == len(PANELS)
    for number, name in enumerate(PANELS):
        tabs.nth(number).tap()
        panels = page.locator(".drawings > .panel:visible")
        assert [panel.get_attribute("data-panel") for panel in panels.all()] == [name]


def test_in_landscape_the_drawings_stay_in_view_while_the_form_scrolls(page: Any) -> None:
    field(page, "note").scroll_into_view_if_needed()
    for name in ("front", "section"):
        box = page.locator(f"#drawing-{name}").bounding_box()
        assert box["y"] >= 0 and box["y"] + box["height"] <= LANDSCAPE[1]


def two_tabs(open_page: Callable[..., Any]) -> tuple[Any, Any]:
    """Two pages of one frame; in the other one a face width has been saved meanwhile, while the caret is in it here."""
    here = open_page(LANDSCAPE)
    address = take_demo(here, CAFE)
    field(here, "section.face_width").focus()
    there = here.context.new_page()
    there.goto(address)
    put(there, "section.face_width", "30")
    settled(there)
    there.keyboard.press("Tab")
    settled(there)
    return here, there


def section_of(page: Any) -> tuple[str, str]:
    section = exported(page)["frames"][0]["section"]
    return section["face_width"], section["thickness"]


def test_different_fields_of_two_tabs_go_together(open_page: Callable[..., Any]) -> None:
    here, _ = two_tabs(open_page)
    put(here, "section.thickness", "23")
    here.keyboard.press("Tab")
    settled(here)
    assert section_of(here) == ("30 mm", "23 mm")


def test_two_tabs_on_one_field_are_told_and_neither_loses_a_word(open_page: Callable[..., Any]) -> None:
    here, _ = two_tabs(open_page)
    put(here, "section.face_width", "24")
    here.keyboard.press("Tab")
    here.locator("#clash h2").wait_for()
    assert here.locator("#clash h2").bounding_box()["y"] > 0
    assert field(here, "section.face_width").input_value() == "24"
    assert section_of(here)[0] == "30 mm"
    press(here, here.get_by_role("button", name="Keep mine"))
    assert section_of(here)[0] == "24 mm"
