"""The shop page: units, steps, words, blades; kept in its own file, used by new projects alone."""

import json
from functools import partial
from pathlib import Path

import httpx
import pytest
from pages import Browser, read, sent_by
from rivals import at_once

FIELD_OF_KERF = "blades.full.kerf"


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


def test_the_page_opens_with_the_usual_shop(browser: Browser) -> None:
    page = browser.get("/shop")
    assert page.by_id("in-blades-full-kerf").attributes["value"] == "3.2"


def test_what_is_typed_is_kept_in_a_file_of_its_own(browser: Browser, data_dir: Path) -> None:
    answer = browser.post("/shop", {FIELD_OF_KERF: "3", "mm_step": "1 mm", "fence_length": "4 ft", "do": "save"})
    assert answer.status_code == 303
    shop = json.loads((data_dir / "shop.json").read_text("utf-8"))
    assert (shop["blades"][0]["kerf"], shop["mm_step"], shop["fence_length"]) == ("3 mm", "1 mm", "4 ft")


def test_a_new_project_starts_with_the_values_of_the_shop(browser: Browser) -> None:
    typed = {FIELD_OF_KERF: "2.9", "clearances.paper": "4", "words": "UK", "saw_kind": "chopper"}
    browser.post("/shop", typed | {"do": "save"})
    project_id = browser.new()
    browser.post(f"/projects/{project_id}/frames")
    document = browser.document(project_id)
    assert [one["corner"]["saw_kind"] for one in document["frames"]] == ["chopper", "chopper"]
    assert (document["shop"]["kerf"], document["shop"]["words"]) == ("2.9 mm", "UK")
    assert document["frames"][0]["package"]["clearance_across"] == "4 mm"
    assert "shop.kerf" not in document["assumed"], "the shop has confirmed its kerf"


def test_a_started_project_keeps_its_values(browser: Browser) -> None:
    project_id = browser.new()
    browser.post("/shop", {FIELD_OF_KERF: "2.9", "do": "save"})
    assert browser.document(project_id)["shop"]["kerf"] == "3.2 mm"


def test_a_kerf_that_cannot_be_read_stays_with_its_sentence_and_the_rest_is_saved(browser: Browser) -> None:
    answer = browser.post("/shop", {FIELD_OF_KERF: "thin", "end_trim": "12", "do": "save"})
    assert answer.status_code == 422
    page = read(answer.text)
    assert page.by_id("in-blades-full-kerf").attributes["value"] == "thin"
    assert "Enter a length" in page.by_id("slot-blades-full-kerf").text
    assert browser.get("/shop").by_id("in-end_trim").attributes["value"] == "12"


@pytest.mark.parametrize("sent", [{"unit": "cubit"}, {"colour": "blue"}, {"blade": "none"}, {"do": "explode"}])
def test_what_the_page_does_not_offer_is_refused(browser: Browser, sent: dict[str, str]) -> None:
    assert browser.post("/shop", {"do": "save"} | sent).status_code == 422
    assert browser.get("/shop")


def test_blades_come_and_go_and_one_stays(browser: Browser) -> None:
    browser.post("/shop", {"do": "add-blade"})
    names = [one for one in browser.get("/shop").all("fieldset") if one.attributes.get("class") == "blade"]
    assert len(names) == 3
    browser.post("/shop", {"do": "remove-blade:full"})
    browser.post("/shop", {"do": "remove-blade:thin"})
    (last,) = _blades(browser)
    assert browser.post("/shop", {"do": f"remove-blade:{last}"}).status_code == 422
    assert _blades(browser) == [last]


def _blades(browser: Browser) -> list[str]:
    options = browser.get("/shop").by_id("in-blade").all("option")
    return [option.attributes["value"] for option in options]


def test_numbers_with_a_comma_are_read_as_the_shop_says(browser: Browser) -> None:
    browser.post("/shop", {"comma": "thousands", "do": "save"})
    project_id = browser.new(across="1,250")
    assert browser.document(project_id)["frames"][0]["artwork"]["across"] == "1250 mm"
    browser.post("/shop", {"comma": "ask", "do": "save"})
    asked = {"name": "", "unit": "mm", "kind": "paper", "across": "1,250", "up": "400", "face_width": "25"}
    answer = browser.post("/projects", asked)
    assert answer.status_code == 422
    assert "two ways" in read(answer.text).by_id("new-across-slot").text


def form_of(browser: Browser) -> dict[str, str]:
    page = browser.get("/shop")
    return sent_by(page, page.all("form", action="/shop")[0]) | {"do": "save"}


def test_what_two_tabs_change_on_the_page_goes_together(browser: Browser, data_dir: Path) -> None:
    here, there = form_of(browser), form_of(browser)
    browser.post("/shop", there | {"called": "Corner & Co.", "unit": "in", "do": "add-blade"})
    assert browser.post("/shop", here | {FIELD_OF_KERF: "3", "end_trim": "12"}).status_code == 303
    shop = json.loads((data_dir / "shop.json").read_text("utf-8"))
    assert (shop["called"], shop["unit"], len(shop["blades"])) == ("Corner & Co.", "in", 3)
    assert (shop["blades"][0]["kerf"], shop["end_trim"]) == ("3 mm", "12 mm"), "read in the unit that the page showed"


def test_one_field_changed_in_two_tabs_keeps_the_first_and_asks(browser: Browser) -> None:
    here, there = form_of(browser), form_of(browser)
    browser.post("/shop", there | {"called": "Corner & Co."})
    answer = browser.post("/shop", here | {"called": "Mitre Ltd", "end_trim": "12"})
    page = read(answer.text)
    assert answer.status_code == 422 and "as “Corner & Co.”" in page.by_id("slot-called").text
    assert (form_of(browser)["called"], form_of(browser)["end_trim"]) == ("Corner & Co.", "12")
    again = sent_by(page, page.all("form", action="/shop")[0])
    assert again["called"] == "Mitre Ltd"
    assert browser.post("/shop", again | {"do": "save"}).status_code == 303
    assert form_of(browser)["called"] == "Mitre Ltd"


def test_a_blade_taken_out_elsewhere_is_in_nobodys_way(browser: Browser) -> None:
    here, there = form_of(browser), form_of(browser)
    browser.post("/shop", there | {"do": "remove-blade:thin"})
    assert browser.post("/shop", here | {"called": "Mitre Ltd"}).status_code == 303
    answer = browser.post("/shop", here | {"blades.thin.kerf": "2"})
    assert answer.status_code == 422 and "removed elsewhere" in read(answer.text).by_id("main").text


@pytest.mark.parametrize("was", ["", "{", "[" * 100_000, "null", '{"called": 1}', '{"unit": "ell"}'])
def test_a_form_that_does_not_say_what_it_showed_is_read_all_the_same(browser: Browser, was: str) -> None:
    assert browser.post("/shop", {"called": "Mitre Ltd", "was": was, "do": "save"}).status_code == 303
    assert form_of(browser)["called"] == "Mitre Ltd"


def test_saves_of_the_page_at_once_are_all_kept(browser: Browser) -> None:
    for number in range(10):
        typed = {FIELD_OF_KERF: f"{3 + number}", "called": f"Shop {number}", "end_trim": f"{12 + number}"}
        form = form_of(browser)
        at_once(partial(browser.post, "/shop", form | {path: text}) for path, text in typed.items())
        assert form_of(browser).items() >= typed.items()
