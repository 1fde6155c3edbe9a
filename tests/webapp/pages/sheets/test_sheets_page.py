"""The sheets page without scripts: stock in, layouts worked out beside the page, lists, drawings and a proof out."""

import csv
import re
import time
from io import StringIO

import httpx
import pytest
from pages import PARTS, Browser, Element, read, sent_by

ODD = ("{a}", "=1+1", "<b>&\"'", "0", "-5", "1e9", "١٢", "½ in", "x" * 10_000, "12,345", "\u202e\x00 mm", "9" * 40)


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def address(browser: Browser) -> str:
    """The sheets of one print of 300 × 400 mm with its mat: glass, mat, backing board; each part 414 × 524 mm."""
    return f"/projects/{browser.new()}/sheets"


def settled(browser: Browser, address: str) -> Element:
    """Ask for the layouts and look again until nothing is going on."""
    browser.type(address, {}, do="work")
    for _ in range(400):
        page = browser.get(address)
        if not [one for one in page.walk() if one.attributes.get("id") == "going"]:
            return page
        time.sleep(0.05)
    raise AssertionError(page.by_id("layouts").text)


def pressed(browser: Browser, address: str, start: str) -> str:
    """What the first button says whose value begins so."""
    buttons = browser.get(address).all("button")
    return next(b.attributes["value"] for b in buttons if b.attributes.get("value", "").startswith(start))


def test_every_material_is_there_before_any_stock(browser: Browser, address: str) -> None:
    text = browser.get(address).by_id("layouts").text
    assert text.count("Not worked out yet") == 4 and text.count("Estimate: no sheet is typed") == 4
    assert "usual practice" in text and "cut-resistant gloves" in text


def test_layouts_are_worked_out_with_drawings_lists_and_a_proof(browser: Browser, address: str) -> None:
    plans = settled(browser, address).by_id("layouts")
    assert plans.text.count("Worked out.") == 4
    assert "proved: no layout needs fewer" in plans.text and "Best possible. Why?" in plans.text
    assert all(svg.attributes["role"] == "img" for svg in plans.all("svg")) and plans.all("svg")


def test_only_what_is_worked_out_bears_the_mark_of_it(browser: Browser, address: str) -> None:
    def marks(page: Element) -> list[tuple[str, str]]:
        states = [one for one in page.by_id("layouts").all("p") if "state" in one.attributes.get("class", "").split()]
        return [(one.attributes["class"], one.text.strip()) for one in states]

    before = marks(browser.get(address))
    assert [(kind, "Not worked out yet" in text) for kind, text in before] == 4 * [("state", True)]
    after = marks(settled(browser, address))
    assert after == 4 * [("state done", "Worked out.")]


def test_stock_at_hand_is_used_before_anything_is_bought(browser: Browser, address: str) -> None:
    browser.type(address, {}, do=pressed(browser, address, "add-off-cut:"))
    browser.type(address, {"across": "600", "up": "800"})
    text = settled(browser, address).by_id("group-1").text
    assert "Nothing to buy, 1 sheet to cut" in text and "Estimate" not in text
    assert "at hand" in browser.get(f"{address}/stock").by_id("lists").text


def test_what_is_missing_at_hand_is_said(browser: Browser, address: str) -> None:
    browser.type(address, {}, do=pressed(browser, address, "add-off-cut:"))
    browser.type(address, {"across": "600", "up": "800"})
    setting_out = browser.setting_out(address.split("/")[2])
    browser.type(setting_out, {f"frames.{setting_out.split('/')[4]}.count": "5"})
    text = settled(browser, address).by_id("group-1").text
    assert "more than are at hand" in text and "missing" in text


def test_a_change_asks_for_a_new_layout(browser: Browser, address: str) -> None:
    settled(browser, address)
    browser.type(address, {"sheets.board.trim": "7"})
    text = browser.get(address).by_id("group-2").text
    assert "Not worked out yet" in text and "Worked out." in browser.get(address).by_id("group-1").text


def test_parts_that_must_not_turn_are_kept_upright(browser: Browser, address: str) -> None:
    browser.type(address, {}, do=pressed(browser, address, "turn:"))
    assert "The parts stay upright" in browser.get(address).by_id("group-1").text
    browser.type(address, {}, do=pressed(browser, address, "turn:"))
    assert "The parts stay upright" not in browser.get(address).by_id("group-1").text


def test_a_sheet_too_small_is_refused_with_its_size_and_the_others_go_on(browser: Browser, address: str) -> None:
    browser.type(address, {}, do=pressed(browser, address, "add-off-cut:"))
    browser.type(address, {"across": "100", "up": "100"})
    page = settled(browser, address)
    assert "leaves 100 × 100 mm inside its trim. Add a larger sheet" in page.by_id("group-1").text
    assert "Worked out." in page.by_id("group-2").text


def test_a_part_that_fits_no_sheet_is_named_and_the_rest_is_laid_out(browser: Browser, address: str) -> None:
    project = address.split("/")[2]
    browser.post(f"/projects/{project}/frames", {"base": "1"})
    second = browser.document(project)["frames"][1]
    sizes = {f"frames.{second['id']}.artwork.{side}": "3000" for side in ("across", "up")}
    browser.type(f"/projects/{project}/frames/{second['id']}/setting-out", sizes)
    group = settled(browser, address).by_id("group-1")
    assert "No sheet holds" in group.text and "It is left out; the others are planned." in group.text
    assert "Worked out, but for what is left out." in group.text and "Best possible. Why?" in group.text
    rows = list(csv.reader(StringIO(browser.client.get(f"{address}/lists/parts.csv").text)))
    assert [row[1] for row in rows if row[1].endswith("(left out)")] == 4 * [f"{second['name']} (left out)"]


def test_a_cut_is_ticked_and_stays_ticked(browser: Browser, address: str) -> None:
    page = settled(browser, address)
    button = next(b for b in page.all("button", **{"class": "tick"}) if "-cuts" in b.attributes["id"])
    answer = browser.post(button.attributes["formaction"])
    assert answer.status_code == 303 and answer.headers["location"].endswith(f"#{button.attributes['id']}")
    assert browser.get(address).by_id(button.attributes["id"]).attributes["aria-pressed"] == "true"
    parts = read(browser.post(button.attributes["formaction"], {"done": "no"}, headers=PARTS).text)
    assert parts.by_id(button.attributes["id"]).attributes["aria-pressed"] == "false"


def test_sheets_that_are_cut_alike_are_drawn_once_with_their_count(browser: Browser, address: str) -> None:
    setting_out = browser.setting_out(address.split("/")[2])
    browser.type(setting_out, {f"frames.{setting_out.split('/')[4]}.count": "60"})
    glass = settled(browser, address).by_id("group-1")
    sheets = glass.all("details", **{"class": "more cut-sheet"})
    counts = [int(found[1]) if (found := re.match(r"(\d+) sheets cut alike", one.text)) else 1 for one in sheets]
    of = re.search(r"of (\d+):", sheets[0].text)
    assert of is not None and sum(counts) == int(of[1]) and len(sheets) == len(glass.all("svg")) < int(of[1])
    rows = list(csv.reader(StringIO(browser.client.get(f"{address}/lists/cuts.csv").text)))
    assert any(f"{counts[0]} sheets cut alike" in cell for row in rows for cell in row)


def test_a_sheet_has_a_page_of_its_own_to_tick_its_cuts_off(browser: Browser, address: str) -> None:
    settled(browser, address)
    page = browser.get(f"{address}/groups/1/sheet-1")
    assert len(page.by_id("group-1").all("svg")) == 1
    button = page.all("button", **{"class": "tick"})[0]
    answer = browser.post(button.attributes["formaction"], {"place": "sheet-1-1"})
    assert answer.headers["location"].endswith(f"/groups/1/sheet-1#{button.attributes['id']}")
    assert browser.get(address).by_id(button.attributes["id"]).attributes["aria-pressed"] == "true"
    for wrong in ("groups/9/sheet-1", "groups/1/sheet-9", "groups/1/sheet-0"):
        assert browser.client.get(f"{address}/{wrong}").status_code == 404


def test_where_the_page_has_no_room_left_it_links_to_the_sheets(
    browser: Browser, address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("webapp.pages.sheets.shown.DRAWN", 0)
    glass = settled(browser, address).by_id("group-1")
    assert not glass.all("svg")
    links = [link.attributes["href"] for link in glass.all("a") if link.attributes["href"].endswith("/sheet-1")]
    assert links and browser.client.get(links[0]).status_code == 200


def test_the_fragment_that_is_polled_is_the_one_of_the_page(browser: Browser, address: str) -> None:
    page = settled(browser, address)
    fragment = read(browser.client.get(f"{address}/layouts").text)
    assert fragment.by_id("layouts").markup() == page.by_id("layouts").markup()


def test_a_poll_brings_each_material_once(browser: Browser, address: str) -> None:
    page = settled(browser, address)
    polled = f"{address}/layouts?of={len(page.by_id('layouts').all('section'))}"
    answer = browser.client.get(polled)
    for name in ("at-work", "group-1", "group-2", "lists"):
        assert read(answer.text).by_id(name).markup() == page.by_id(name).markup()
    assert 'id="layouts"' not in answer.text
    assert browser.client.get(f"{polled}&holds={answer.headers['x-holds']}").status_code == 204


def test_many_sheets_are_named_on_a_page_of_their_own(
    browser: Browser, address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("webapp.pages.sheets.shown.DRAWN", 0)
    monkeypatch.setattr("webapp.pages.sheets.layouts.FURTHER", -1)
    glass = settled(browser, address).by_id("group-1")
    (link,) = [link.attributes["href"] for link in glass.all("a") if link.attributes["href"].endswith("/groups/1")]
    named = [one.attributes["href"] for one in browser.get(link).all("a")]
    assert f"{address}/groups/1/sheet-1" in named
    assert browser.client.get(f"{address}/groups/99").status_code == 404


def test_the_parts_of_an_answer_are_those_of_the_page(browser: Browser, address: str) -> None:
    sent = sent_by(browser.get(address)) | {"sheets.glass.trim": "15"}
    parts = read(browser.post(address, sent, headers=PARTS).text)
    page = browser.get(address)
    for name in ("layouts", "notice", "slot-sheets-glass-trim", "saved"):
        assert parts.by_id(name).markup() == page.by_id(name).markup()


@pytest.mark.parametrize("name", ["parts", "buy", "cuts", "left"])
def test_a_list_is_the_same_in_big_type_and_as_a_table(browser: Browser, address: str, name: str) -> None:
    setting_out = browser.setting_out(address.split("/")[2])
    browser.type(setting_out, {f"frames.{setting_out.split('/')[4]}.name": "=1+1"})
    settled(browser, address)
    rows = list(csv.reader(StringIO(browser.client.get(f"{address}/lists/{name}.csv").text)))
    text = browser.get(f"{address}/lists/{name}").text
    assert rows[0][0] == "Material" and len(rows) > 1
    assert all(cell.lstrip("'") in text for row in rows[1:] for cell in row)
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@"))]


def test_a_sheet_can_be_had_on_paper_once_it_is_worked_out(browser: Browser, address: str) -> None:
    drawing = f"{address}/groups/1/sheet-1.svg?paper=a3"
    assert browser.client.get(drawing).status_code == 404
    settled(browser, address)
    answer = browser.client.get(drawing)
    assert (
        answer.status_code == 200
        and 'width="420mm"' in answer.text
        and "sandbox" in answer.headers["content-security-policy"]
    )
    for wrong in ("groups/9/sheet-1.svg", "groups/1/sheet-9.svg", "groups/1/sheet-1.svg?paper=a9", "lists/none"):
        assert browser.client.get(f"{address}/{wrong}").status_code == 404


@pytest.mark.parametrize(
    ("ending", "text", "sentence"),
    [
        ("across", "nothing", "Enter "),
        ("across", "6 m", "Enter "),
        ("count", "1000", "Enter 999 or fewer"),
        ("price", "1.005", "Enter a price of two decimals"),
        ("sheets.glass.trim", "-3", "Enter "),
    ],
)
def test_nonsense_gets_a_sentence_beside_its_field(
    browser: Browser, address: str, ending: str, text: str, sentence: str
) -> None:
    browser.type(address, {}, do=pressed(browser, address, "add-off-cut:"))
    answer = browser.type(address, {ending: text})
    page = read(answer.text)
    assert answer.status_code == 422 and sentence in page.text
    assert text in sent_by(page).values()


def test_no_text_in_any_field_breaks_the_page(browser: Browser, address: str) -> None:
    browser.type(address, {}, do=pressed(browser, address, "add-off-cut:"))
    sent = sent_by(browser.get(address))
    fields = [name for name in sent if name.startswith("sheets.")]
    for number, name in enumerate(fields):
        for text in ODD[number % 3 :: 3]:
            answer = browser.post(address, sent_by(browser.get(address)) | {name: text, "do": "save"})
            assert answer.status_code in (303, 422), (name, text, answer.status_code)
    for do in ("add-sold:99:glass", "add-sold:x", "turn:" + "y" * 500, "tick:../..", "remove-sheet:", "add-sheet:"):
        assert browser.post(address, sent_by(browser.get(address)) | {"do": do}).status_code in (303, 422)


def test_two_tabs_lose_nothing(browser: Browser, address: str) -> None:
    here = sent_by(browser.get(address))
    browser.type(address, {"sheets.glass.trim": "15"})
    assert browser.post(address, here | {"sheets.board.trim": "7", "do": "save"}).status_code == 303
    saved = sent_by(browser.get(address))
    assert (saved["sheets.board.trim"], saved["sheets.glass.trim"]) == ("7", "15")


def test_stock_for_a_layer_that_is_renamed_is_kept_and_can_be_given_another(browser: Browser, address: str) -> None:
    browser.type(address, {}, do=pressed(browser, address, "add-off-cut:"))
    package = browser.setting_out(address.split("/")[2]).replace("setting-out", "package")
    layer = next(name for name in sent_by(browser.get(package)) if ".layers." in name and name.endswith(".name"))
    browser.type(package, {layer: "Museum glass"})
    page = browser.get(address)
    assert "For no layer of this project" in page.text
    browser.type(address, {"serves": "Museum glass"})
    assert "For no layer of this project" not in browser.get(address).text


def test_a_frame_that_cannot_be_computed_is_named_and_keeps_the_stock_on_the_page(
    browser: Browser, address: str
) -> None:
    browser.type(address, {}, do=pressed(browser, address, "add-off-cut:"))
    setting_out = browser.setting_out(address.split("/")[2])
    browser.type(setting_out, {"section.rabbet_width": "200"})
    answer = browser.client.get(address)
    assert answer.status_code == 200
    page = read(answer.text)
    assert "Look at the Setting-out page first" in page.by_id("notice").text and "Off-cut" in page.text
    assert browser.type(address, {}, do="work").status_code == 303
