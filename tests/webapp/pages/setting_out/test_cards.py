"""The cards of the setting-out page: each closed to one line, with its values and its state."""

import json
from pathlib import Path

import httpx
import pytest
from pages import PARTS, Browser, Element, read, sent_by

from webapp.pages.setting_out.cards import CARDS, card_of

DEMOS = sorted((Path(__file__).parents[4] / "framecalc").rglob("*demo*.json"))


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def address(browser: Browser) -> str:
    return browser.setting_out(browser.new())


def line(page: Element, name: str) -> str:
    return page.by_id(f"line-{name}").text


def open_cards(page: Element) -> list[str]:
    return [one.attributes["id"] for one in page.all("details", name="card") if "open" in one.attributes]


def test_every_line_says_its_values_in_trade_order(browser: Browser, address: str) -> None:
    browser.type(address, {"species": "Walnut"})
    page = browser.get(address)
    assert [one.attributes["id"] for one in page.all("details", name="card")] == [f"group-{name}" for name in CARDS]
    assert {name: line(page, name) for name in CARDS} == {
        "artwork": "300 × 400 · paper",
        "section": "Assumed: Walnut 25 × 20",
        "mat": "Assumed: 60, bottom 70",
        "package": "Assumed: 8.4 mm of 12",
        "fit": "Assumed: 3 in all",
        "shape": "4 sides, flat",
        "saw": "Assumed: kerf 3.2 · end trim 10",
        "frame": "300 × 400 mm × 1",
    }


def test_an_inch_job_says_inches(browser: Browser) -> None:
    address = browser.setting_out(browser.new(unit="in", across="8", up="10", face_width="1 1/4"))
    browser.type(address, {"package.mat.bottom": "2 1/2", "package.clearance_up": "3/16"})
    page = browser.get(address)
    assert line(page, "artwork") == "8 × 10 · paper"
    assert line(page, "mat").endswith("2 1/2 all round")
    assert line(page, "fit").endswith("1/8 across, 3/16 up")


def test_a_value_only_assumed_is_marked_in_the_line(browser: Browser, address: str) -> None:
    def marked(page: Element) -> list[str]:
        spans = page.by_id("line-section").all("span")
        return [one.text for one in spans if "to-confirm" in one.attributes.get("class", "")]

    assert marked(browser.get(address)) == ["20"]
    browser.type(address, {"section.thickness": "21"})
    assert marked(browser.get(address)) == []
    assert line(browser.get(address), "section").startswith("Assumed"), "the rabbet still is"


@pytest.mark.parametrize("name", ["section", "mat", "package", "fit", "saw"])
def test_these_are_right_confirms_its_own_card_alone(browser: Browser, address: str, name: str) -> None:
    before = {one: line(browser.get(address), one) for one in CARDS}
    (button,) = browser.get(address).by_id(f"group-{name}").all("button", value=f"confirm-group:{name}")
    browser.type(address, {}, do=button.attributes["value"])
    after = {one: line(browser.get(address), one) for one in CARDS}
    assert before[name].startswith("Assumed: ")
    assert after == before | {name: before[name].removeprefix("Assumed: ")}


def test_the_first_card_with_something_assumed_is_open_and_none_once_all_is_right(
    browser: Browser, address: str
) -> None:
    for name in ("section", "mat", "package", "fit", "saw"):
        assert open_cards(browser.get(address)) == [f"group-{name}"]
        browser.type(address, {}, do=f"confirm-group:{name}")
    assert open_cards(browser.get(address)) == []


def test_a_field_at_fault_opens_its_card_and_is_named_in_its_line(browser: Browser, address: str) -> None:
    page = read(browser.type(address, {"shop.kerf": "wide"}).text)
    assert open_cards(page) == ["group-saw"]
    assert line(page, "saw").startswith("At fault:") and line(page, "saw").endswith("Kerf")
    browser.type(address, {"section.rabbet_depth": "40"})
    page = browser.get(address)
    assert open_cards(page) == ["group-section"], "a size that cannot be built, too"
    assert line(page, "section").startswith("At fault:") and line(page, "section").endswith("Rabbet depth")


def test_a_warning_is_a_mark_on_the_line_of_its_card(browser: Browser, address: str) -> None:
    browser.type(address, {"package.mat.overlap": "0.5"})
    assert line(browser.get(address), "mat").startswith("Check:")


def test_the_lines_follow_while_it_is_typed(browser: Browser, address: str) -> None:
    sent = sent_by(browser.get(address))
    paths = {path.split(".", 2)[2]: path for path in sent if path.startswith("frames.")}
    typed = {paths["section.face_width"]: "30", paths["artwork.across"]: "no length"}
    parts = read(browser.post(f"{address}/preview", sent | typed, headers=PARTS).text)
    assert line(parts, "section").endswith("30 × 20"), "although another field is at fault"
    assert line(parts, "artwork").startswith("At fault:")


def test_what_the_starting_point_solves_stands_in_the_line(browser: Browser, address: str) -> None:
    browser.type(address, {"start.given": "wall", "start.wall_across": "500", "start.wall_up": "610"})
    page = browser.get(address)
    assert "from wall space" in line(page, "artwork")
    assert shown(page, "package.mat.border") == "60"
    assert "82.5" in line(page, "mat")


def shown(page: Element, ending: str) -> str:
    (text,) = [text for name, text in sent_by(page).items() if name.endswith(f".{ending}")]
    return text


@pytest.mark.parametrize("demo", DEMOS, ids=lambda path: path.stem)
def test_every_field_is_on_the_card_that_speaks_for_it(browser: Browser, demo: Path) -> None:
    answer = browser.post("/projects/import", {"pasted": demo.read_text("utf-8")})
    address = browser.setting_out(answer.headers["location"].rsplit("/", 1)[1])
    page, here = browser.get(address), f"frames.{address.split('/')[4]}."
    found = {
        one.attributes["name"]: card.attributes["id"].removeprefix("group-")
        for card in page.all("details", name="card")
        for tag in ("input", "select", "textarea")
        for one in card.all(tag)
        if one.attributes.get("name")
    }
    fields = {path for path in sent_by(page) if path.startswith((here, "shop.")) or path == "note"}
    assert set(found) == fields
    assert {path: card_of(path.removeprefix(here)) for path in found} == found


@pytest.mark.parametrize("demo", DEMOS, ids=lambda path: path.stem)
def test_no_card_shows_more_than_two_lines_of_hints(browser: Browser, demo: Path) -> None:
    document = json.loads(demo.read_text("utf-8"))
    document["frames"][0]["section"]["source"] = "bought"
    for pasted in (demo.read_text("utf-8"), json.dumps(document)):
        answer = browser.post("/projects/import", {"pasted": pasted})
        page = browser.get(browser.setting_out(answer.headers["location"].rsplit("/", 1)[1]))
        hints = {name: page.by_id(f"hint-{name}").all("p") for name in CARDS if name not in ("saw", "frame")}
        assert {name: len(lines) for name, lines in hints.items() if len(lines) > 2} == {}


def test_the_unit_chosen_last_is_the_one_that_the_shop_goes_on_with(browser: Browser, address: str) -> None:
    def unit_of_the_next() -> str:
        return sent_by(browser.get("/"), "new")["unit"]

    assert unit_of_the_next() == "mm"
    browser.type(address, {}, do="unit:in")
    assert unit_of_the_next() == "in"
    browser.new(unit="mm")
    assert unit_of_the_next() == "mm"
    browser.type(address, {}, do="unit:cubit")
    assert unit_of_the_next() == "mm"
