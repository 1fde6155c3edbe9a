"""The timber page without scripts: stock in, a plan worked out beside the page, lists and a proof out."""

import csv
import json
import re
import time
from io import StringIO
from queue import Queue

import httpx
import pytest
from grouped import with_every_list
from pages import PARTS, Browser, Element, cut_again, read, sent_by

from framecalc.search.watch import start_watch
from framecalc.timber.sticks.answer import StickPlan
from framecalc.timber.sticks.plan import plan_sticks
from framecalc.timber.sticks.problem import StickProblem
from webapp.jobs import timber_search
from webapp.jobs.running import Job
from webapp.pages.timber.list_maker import TITLES


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def address(browser: Browser) -> str:
    return f"/projects/{browser.new()}/timber"


def worked_out(browser: Browser, address: str) -> Element:
    """Ask for the plan and look again until it is there."""
    browser.type(address, {}, do="work")
    for _ in range(200):
        page = browser.get(address)
        if "Worked out." in page.by_id("plans").text:
            return page
        time.sleep(0.05)
    raise AssertionError(page.by_id("plans").text)


def bowed_board(browser: Browser, address: str) -> None:
    """A board that is bowed too much to be milled long."""
    browser.type(address, {}, do="add-stock:board")
    browser.type(address, {"thickness": "27", "bow": "6", "price": "40"})


def test_what_is_needed_is_there_before_any_stock(browser: Browser, address: str) -> None:
    text = browser.get(address).by_id("plans").text
    assert "2 × 455 mm" in text and "Estimate" in text and "Not worked out yet" in text


def test_a_plan_is_worked_out_with_a_proof(browser: Browser, address: str) -> None:
    browser.type(address, {}, do="add-stock:stick")
    text = worked_out(browser, address).by_id("plans").text
    assert "Best possible: no plan uses fewer. Why?" in text
    assert "1 stick." in text and "2400 mm" in text


def test_only_what_is_worked_out_bears_the_mark_of_it(browser: Browser, address: str) -> None:
    def marks(page: Element) -> list[str]:
        classes = [one.attributes.get("class", "").split() for one in page.by_id("plans").all("p")]
        return [" ".join(one) for one in classes if "state" in one]

    browser.type(address, {}, do="add-stock:stick")
    assert marks(browser.get(address)) == ["state"]
    assert marks(worked_out(browser, address)) == ["state done visually-hidden"]


def test_a_change_asks_for_a_new_plan(browser: Browser, address: str) -> None:
    browser.type(address, {}, do="add-stock:stick")
    worked_out(browser, address)
    browser.type(address, {"timber.spares": "1"})
    assert "Not worked out yet" in browser.get(address).by_id("plans").text


def test_a_board_is_ripped_into_strips(browser: Browser, address: str) -> None:
    browser.type(address, {}, do="add-stock:board")
    browser.type(address, {"length": "1000"})
    text = worked_out(browser, address).by_id("plans").text
    assert "1 board." in text and "Best possible" in text


def state_of(browser: Browser, address: str) -> str:
    """Ask for the plans, and what is said of them when nothing goes on any more."""
    browser.type(address, {}, do="work")
    for _ in range(400):
        page = browser.get(address)
        if "Look again" not in page.by_id("plans").text:
            return page.by_id("plans").text
        time.sleep(0.05)
    raise AssertionError(page.by_id("plans").text)


@pytest.mark.parametrize(
    ("unit", "stick", "sentence"),
    [
        ("mm", {"length": "400"}, "needs 565 mm in one piece, and the longest clear stretch is 380 mm"),
        ("in", {"length": "15"}, "in one piece, and the longest clear stretch is 14 7/32 in"),
    ],
)
def test_a_piece_longer_than_any_stick_is_refused_in_the_unit_of_the_project(
    browser: Browser, unit: str, stick: dict[str, str], sentence: str
) -> None:
    sizes = {"mm": {}, "in": {"across": "12", "up": "16", "face_width": "1"}}[unit]
    address = f"/projects/{browser.new(unit=unit, **sizes)}/timber"
    browser.type(address, {}, do="add-stock:stick")
    browser.type(address, stick)
    text = state_of(browser, address)
    assert sentence in text and "enter a stick with at least" in text and "Worked out." not in text


def test_a_defect_that_leaves_its_board_is_told_beside_the_board(browser: Browser, address: str) -> None:
    browser.type(address, {}, do="add-stock:board")
    entry = browser.document(address.split("/")[2])["timber"]["stock"][0]["id"]
    browser.type(address, {}, do=f"add-defect:{entry}")
    browser.type(address, {"end": "2500"})
    page = browser.get(address)
    assert "from 0 mm to 2500 mm" in page.by_id(f"slot-timber-stock-{entry}-length").text
    text = page.by_id("plans").text
    assert "It is left out of the plan" in text and "No plan: of the stock typed" in text and "Estimate" not in text
    defect = browser.document(address.split("/")[2])["timber"]["stock"][0]["defects"][0]["id"]
    browser.type(address, {}, do=f"remove-defect:{entry}:{defect}")
    assert "left out" not in browser.get(address).text


def test_a_kerf_wider_than_the_stick_is_refused(browser: Browser, address: str) -> None:
    browser.type(browser.setting_out(address.split("/")[2]), {"shop.kerf": "120", "shop.end_trim": "0"})
    browser.type(address, {}, do="add-stock:stick")
    browser.type(address, {"length": "150"})
    assert "One saw cut takes 169.71 mm of" in state_of(browser, address)


def test_stock_that_is_used_up_is_not_taken_twice(browser: Browser, address: str) -> None:
    project = address.split("/")[2]
    browser.post(f"/projects/{project}/frames", {"base": "1"})
    second = browser.client.get(f"/projects/{project}/project.json").json()["frames"][1]["id"]
    browser.type(f"/projects/{project}/frames/{second}/setting-out", {"section.face_width": "40"})
    browser.type(address, {}, do="add-stock:stick")
    browser.type(address, {"count": "1", "in_hand": "yes"})
    assert "Enter a stick on hand" in state_of(browser, address)
    browser.type(address, {}, do="add-stock:stick")
    text = state_of(browser, address)
    assert "Stick #1: 2400 mm" in text and "Stick (2) #1: 2400 mm" in text


def test_a_board_that_must_be_crosscut_first_says_both_thicknesses(browser: Browser, address: str) -> None:
    bowed_board(browser, address)
    text = worked_out(browser, address).by_id("plans").text
    assert "Milled long, the board reaches 19.5 mm" in text
    assert "Crosscut to 1200 mm first: then it reaches 24 mm" in text
    assert with_every_list(browser, address).by_id("list-1-rough").all("tbody")


def test_the_worths_add_up_on_the_page(browser: Browser, address: str) -> None:
    browser.type(address, {}, do="add-stock:stick")
    page = worked_out(browser, address)
    table = next(table for table in page.all("table") if "Together" in table.text and "All together" in table.text)
    together = [float(row.all("td")[-1].text.split()[0]) for row in table.all("tbody")[0].all("tr")]
    assert sum(together[:-1]) == pytest.approx(together[-1], abs=0.02)


def test_a_sheet_of_the_plan_is_a_file_that_runs_nothing(browser: Browser, address: str) -> None:
    browser.type(address, {}, do="add-stock:board")
    worked_out(browser, address)
    answer = browser.client.get(f"{address}/groups/1/sheet-1.svg?paper=letter")
    assert answer.headers["content-type"] == "image/svg+xml" and "sandbox" in answer.headers["content-security-policy"]
    assert 'width="279.4mm"' in answer.text and "along 1:" in answer.text
    assert browser.client.get(f"{address}/groups/1/sheet-2.svg?paper=letter").status_code == 404
    assert browser.client.get(f"{address}/groups/1/sheet-1.svg?paper=napkin").status_code == 404


def test_too_much_stock_is_told(browser: Browser, address: str) -> None:
    document = browser.document(address.split("/")[2])
    document["timber"]["stock"] = [{"id": f"s{n}", "name": "stick", "length": "2400 mm"} for n in range(60)]
    answer = browser.post("/projects/import", files={"file": ("full.json", json.dumps(document), "application/json")})
    full = f"{answer.headers['location'].split('#')[0]}/timber"
    answer = browser.type(full, {}, do="add-stock:stick")
    assert answer.status_code == 422 and "60" in read(answer.text).by_id("notice").text


def ticks(page: Element) -> list[Element]:
    """The buttons that tick a line off, of the whole page."""
    return [button for button in page.all("button") if button.attributes.get("class") == "tick"]


def test_a_line_is_ticked_off_and_stays_so(browser: Browser, address: str) -> None:
    worked_out(browser, address)
    button = ticks(browser.get(f"{address}/stock"))[0]
    assert button.attributes["aria-pressed"] == "false"
    answer = browser.post(button.attributes["formaction"], {"place": "buy", "done": button.attributes["value"]})
    assert answer.status_code == 303 and f"{address}/lists/buy#" in answer.headers["location"]
    ticked = ticks(browser.get(f"{address}/stock"))[0]
    assert ticked.attributes["aria-pressed"] == "true"
    browser.post(ticked.attributes["formaction"], {"done": ticked.attributes["value"]})
    assert ticks(browser.get(f"{address}/stock"))[0].attributes["aria-pressed"] == "false"


def test_each_kind_of_list_has_an_address_and_a_tick_leads_back_to_it(browser: Browser, address: str) -> None:
    worked_out(browser, address)
    for name, wanted in (
        ("stock", {"buy"}),
        ("stops", {"stops"}),
        ("pieces", {"pieces", "fit"}),
        ("off-cuts", {"left"}),
    ):
        page = browser.get(f"{address}/{name}")
        ids = {one.attributes["id"] for one in page.all("div") if one.attributes.get("id", "").startswith("list-1-")}
        assert ids == {f"list-1-{one}" for one in wanted}
    page = browser.get(f"{address}/stops")
    answer = browser.post(ticks(page)[0].attributes["formaction"], sent_by(page, form="ticks"))
    assert answer.headers["location"].startswith(f"{address}/stops#tick-")


def test_the_band_says_what_to_buy_and_what_is_left(browser: Browser, address: str) -> None:
    browser.type(address, {}, do="add-stock:stick")
    browser.type(address, {"price": "42"})
    job = worked_out(browser, address).by_id("job").text
    assert "1 stick “Stick”" in job and "2400 mm · $42" in job and "Left for the rack" in job


def test_a_tick_set_on_two_tablets_stays_set(browser: Browser, address: str) -> None:
    button = ticks(worked_out(browser, address))[0]
    for tab in ("aa", "bb"):
        browser.post(button.attributes["formaction"], {"tab": tab, "done": button.attributes["value"]})
    assert ticks(browser.get(f"{address}/stock"))[0].attributes["aria-pressed"] == "true"


def test_a_live_tick_renews_its_button_alone(browser: Browser, address: str) -> None:
    button = ticks(worked_out(browser, address))[0]
    parts = read(browser.post(button.attributes["formaction"], headers=PARTS).text)
    (renewed,) = ticks(parts)
    assert renewed.attributes["aria-pressed"] == "true"
    assert renewed.markup() == ticks(browser.get(f"{address}/stock"))[0].markup()


def test_a_tick_does_not_stand_in_the_way_of_what_is_typed_meanwhile(browser: Browser, address: str) -> None:
    page = worked_out(browser, address)
    sent = sent_by(page) | {"tab": "tablet"}
    browser.post(ticks(page)[0].attributes["formaction"], {"tab": "tablet"})
    assert browser.post(address, sent | {"timber.spares": "2", "do": "save"}).status_code == 303
    assert ticks(worked_out(browser, address))


@pytest.mark.parametrize("key", ["none", "x" * 200, "..", "0123456789-stops-1-1"])
def test_a_tick_that_no_list_has_changes_nothing(browser: Browser, address: str, key: str) -> None:
    before = browser.document(address.split("/")[2])
    assert browser.post(f"{address}/tick/{key}").status_code < 500
    assert browser.document(address.split("/")[2]) == before


def test_the_lists_stand_in_the_order_of_the_work(browser: Browser, address: str) -> None:
    bowed_board(browser, address)
    browser.type(address, {"tests": "2"})
    worked_out(browser, address)
    cut_again(browser, address.removesuffix("/timber"))
    page = with_every_list(browser, address)
    lists = [one.attributes["id"] for one in page.all("div") if one.attributes.get("id", "").startswith("list-1-")]
    assert [one.removeprefix("list-1-") for one in lists] == list(TITLES)
    assert list(TITLES)[1:9] == ["rough", "joint", "rip", "plane", "width", "mill", "tests", "stops"]
    assert "6 × 12 mm" in page.by_id("list-1-mill").text
    assert "test piece" in page.by_id("list-1-tests").text
    assert "test piece" not in page.by_id("list-1-stops").text
    planed = [cell.text.strip() for cell in page.by_id("list-1-plane").all("td") + page.by_id("list-1-plane").all("th")]
    assert "27 mm" in planed and "20.3 mm" in planed and "25.5 mm" in planed


def test_pieces_that_are_turned_over_are_milled_when_they_are_cut(browser: Browser, address: str) -> None:
    browser.type(address, {}, do="add-stock:stick")
    browser.type(address, {"turned": "yes"})
    worked_out(browser, address)
    page = with_every_list(browser, address)
    assert "after their corners are cut" in page.by_id("list-1-mill").text
    assert "nothing yet" in page.by_id("list-1-left").text and "rabbet" not in page.by_id("list-1-left").text


@pytest.mark.parametrize("name", sorted(TITLES))
def test_every_list_is_there_in_big_type_and_as_a_table(browser: Browser, address: str, name: str) -> None:
    setting_out = browser.setting_out(address.split("/")[2])
    browser.type(setting_out, {f"frames.{setting_out.split('/')[4]}.name": "=1+1"})
    bowed_board(browser, address)
    browser.type(address, {"tests": "2"})
    worked_out(browser, address)
    cut_again(browser, address.removesuffix("/timber"))
    page = browser.get(f"{address}/lists/{name}")
    rows = list(csv.reader(StringIO(browser.client.get(f"{address}/lists/{name}.csv").text)))
    (heads,) = [table.all("thead")[0].all("th") for table in page.all("table")]
    assert [head.text for head in heads if head.text != "Done"] == rows[0][1:]
    assert len(rows) - 1 == len(page.all("tbody")[0].all("tr")) > 0
    assert all(not cell.startswith(("=", "+", "-", "@")) for row in rows for cell in row)


def test_a_saw_that_is_swung_over_needs_a_stop_on_both_sides(browser: Browser, address: str) -> None:
    corners = browser.setting_out(address.split("/")[2]).replace("setting-out", "corners/angles")
    assert "left and right" not in worked_out(browser, address).by_id("plans").text
    browser.type(corners, {"corner.cutting": "a left and a right setting"})
    page = browser.get(f"{address}/lists/stops")
    assert "Set one stop to the left" in page.text and "left and right" in page.all("tbody")[0].text


def test_a_list_that_is_not_there_is_told(browser: Browser, address: str) -> None:
    assert browser.client.get(f"{address}/lists/nails").status_code == 404
    assert browser.client.get(f"{address}/groups/1/sheet-1.svg").status_code == 404


@pytest.mark.parametrize("name", ["{a}", "{", "{length}", "%s {0}"])
def test_a_name_with_braces_is_shown_as_it_is(browser: Browser, address: str, name: str) -> None:
    browser.type(address, {}, do="add-stock:stick")
    browser.type(address, {"name": name})
    assert name in worked_out(browser, address).by_id("plans").text
    browser.type(address, {"length": "400"})
    browser.type(address, {}, do="work")
    for _ in range(200):
        page = browser.get(address)
        if "Being worked out" not in page.text and "Waiting" not in page.text:
            break
        time.sleep(0.05)


@pytest.mark.parametrize(
    ("ending", "text", "sentence"),
    [
        ("timber.spares", "many", "Enter a whole number"),
        ("timber.spares", "99", "Enter 20 or fewer"),
        ("timber.shortest_useful", "1 mm", "Enter "),
    ],
)
def test_nonsense_gets_a_sentence(browser: Browser, address: str, ending: str, text: str, sentence: str) -> None:
    answer = browser.type(address, {ending: text})
    assert answer.status_code == 422 and sentence in read(answer.text).text


def test_two_tabs_lose_nothing(browser: Browser, address: str) -> None:
    here = sent_by(browser.get(address))
    browser.type(address, {"timber.spares": "2"})
    assert browser.post(address, here | {"timber.edge": "7", "do": "save"}).status_code == 303
    saved = sent_by(browser.get(address))
    assert (saved["timber.edge"], saved["timber.spares"]) == ("7", "2")


def test_what_goes_through_the_planer_is_told_by_number_and_rough_length(browser: Browser, address: str) -> None:
    bowed_board(browser, address)
    worked_out(browser, address)
    rows = list(csv.DictReader(StringIO(browser.client.get(f"{address}/lists/plane.csv").text)))
    ripped = list(csv.DictReader(StringIO(browser.client.get(f"{address}/lists/rip.csv").text)))
    assert {row["Rough lengths"] for row in rows} == {f"{rows[0]['Pieces']} × 1198.4 mm"}
    assert sum(int(row["Strips"]) for row in ripped) == int(rows[0]["Pieces"])
    assert all("part" in row["Board"] for row in ripped)


def test_a_ledge_of_its_own_is_chosen_where_the_section_is_and_planned_with_the_rest(
    browser: Browser, address: str
) -> None:
    setting_out = browser.setting_out(address.split("/")[2])
    assert browser.type(setting_out, {"section.kind": "tray"}).status_code == 303
    assert "ledge strips" not in browser.get(address).by_id("plans").text.lower()
    assert browser.type(setting_out, {"section.ledge": "strip"}).status_code == 303
    assert "Ledge strips" in browser.get(setting_out).by_id("main").text
    assert "Ledge strips" in browser.get(address).by_id("plans").text
    assert browser.type(setting_out, {"section.ledge": "nailed"}).status_code == 422


def test_a_newer_search_of_a_project_calls_the_older_one_off(
    browser: Browser, address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun: Queue[Job] = Queue()

    def goes_on(problem: StickProblem, job: Job) -> StickPlan:
        begun.put(job)
        assert job.called_off.wait(timeout=30)
        return plan_sticks(problem, watch=start_watch(0, clock=time.monotonic))

    monkeypatch.setattr(timber_search, "_search", goes_on)
    browser.type(address, {}, do="add-stock:stick")
    browser.type(address, {}, do="work")
    older = begun.get(timeout=30)
    browser.type(address, {"timber.spares": "1"}, do="work")
    assert older.called_off.wait(timeout=30)
    browser.type(address, {}, do="stop")
    for _ in range(200):
        text = browser.get(address).by_id("plans").text
        if "Stopped; this is the best that was found." in text:
            return
        time.sleep(0.05)
    raise AssertionError(text)


@pytest.mark.parametrize(("words", "sign"), [("US", "$"), ("UK", "£")])
def test_every_price_of_the_timber_has_its_sign(browser: Browser, words: str, sign: str) -> None:
    """Fault: the timber said "Each 12.50" and "1 stick for 38" without a sign."""
    browser.post("/shop", {"words": words, "do": "save"})
    address = f"/projects/{browser.new()}/timber"
    browser.type(address, {}, do="add-stock:stick")
    browser.type(address, {"price": "12.5"})
    text = worked_out(browser, address).by_id("plans").text
    assert f"{sign}12.50" in text and not re.search(r"(?<![£$\d.])12\.50", text)
