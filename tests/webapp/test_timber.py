"""The timber page without scripts: stock in, a plan worked out beside the page, lists and a proof out."""

import csv
import time
from io import StringIO

import httpx
import pytest
from pages import PARTS, Bench, Element, read, sent_by

from webapp.timber_lists import TITLES


@pytest.fixture
def bench(client: httpx.Client) -> Bench:
    return Bench(client)


@pytest.fixture
def address(bench: Bench) -> str:
    return f"/projects/{bench.new()}/timber"


def worked_out(bench: Bench, address: str) -> Element:
    """Ask for the plan and look again until it is there."""
    bench.type(address, {}, do="work")
    for _ in range(200):
        page = bench.get(address)
        if "Worked out." in page.by_id("plans").text:
            return page
        time.sleep(0.05)
    raise AssertionError(page.by_id("plans").text)


def bowed_board(bench: Bench, address: str) -> None:
    """A board that is bowed too much to be milled long."""
    bench.type(address, {}, do="add-stock:board")
    bench.type(address, {"thickness": "27", "bow": "6", "price": "40"})


def test_what_is_needed_is_there_before_any_stock(bench: Bench, address: str) -> None:
    text = bench.get(address).by_id("plans").text
    assert "2 × 455 mm" in text and "Estimate" in text and "Not worked out yet" in text


def test_a_plan_is_worked_out_with_a_proof(bench: Bench, address: str) -> None:
    bench.type(address, {}, do="add-stock:stick")
    text = worked_out(bench, address).by_id("plans").text
    assert "Proved: no plan does better" in text
    assert "One stick" in text and "2400 mm" in text


def test_a_change_asks_for_a_new_plan(bench: Bench, address: str) -> None:
    bench.type(address, {}, do="add-stock:stick")
    worked_out(bench, address)
    bench.type(address, {"timber.spares": "1"})
    assert "Not worked out yet" in bench.get(address).by_id("plans").text


def test_a_board_is_ripped_into_strips(bench: Bench, address: str) -> None:
    bench.type(address, {}, do="add-stock:board")
    bench.type(address, {"length": "1000"})
    assert "One stick" in worked_out(bench, address).by_id("plans").text


def test_a_piece_longer_than_any_stick_is_refused_with_numbers(bench: Bench, address: str) -> None:
    bench.type(address, {}, do="add-stock:stick")
    bench.type(address, {"length": "400"})
    bench.type(address, {}, do="work")
    for _ in range(200):
        text = bench.get(address).by_id("plans").text
        if "Being worked out" not in text and "Waiting" not in text:
            break
        time.sleep(0.05)
    assert "565" in text or "455" in text
    assert "Worked out." not in text


def ticks(page: Element) -> list[Element]:
    """The buttons that tick a line off, of the whole page."""
    return [button for button in page.all("button") if button.attributes.get("class") == "tick"]


def test_a_line_is_ticked_off_and_stays_so(bench: Bench, address: str) -> None:
    button = ticks(worked_out(bench, address))[0]
    assert button.attributes["aria-pressed"] == "false"
    answer = bench.post(button.attributes["formaction"], {"place": "buy"})
    assert answer.status_code == 303 and f"{address}/lists/buy#" in answer.headers["location"]
    assert ticks(bench.get(address))[0].attributes["aria-pressed"] == "true"
    bench.post(button.attributes["formaction"])
    assert ticks(bench.get(address))[0].attributes["aria-pressed"] == "false"


def test_a_live_tick_renews_its_button_alone(bench: Bench, address: str) -> None:
    button = ticks(worked_out(bench, address))[0]
    parts = read(bench.post(button.attributes["formaction"], headers=PARTS).text)
    (renewed,) = ticks(parts)
    assert renewed.attributes["aria-pressed"] == "true"
    assert renewed.markup() == ticks(bench.get(address))[0].markup()


def test_a_tick_does_not_stand_in_the_way_of_what_is_typed_meanwhile(bench: Bench, address: str) -> None:
    page = worked_out(bench, address)
    sent = sent_by(page) | {"tab": "tablet"}
    bench.post(ticks(page)[0].attributes["formaction"], {"tab": "tablet"})
    assert bench.post(address, sent | {"timber.spares": "2", "do": "save"}).status_code == 303
    assert ticks(worked_out(bench, address))


@pytest.mark.parametrize("key", ["none", "x" * 200, "..", "0123456789-stops-1-1"])
def test_a_tick_that_no_list_has_changes_nothing(bench: Bench, address: str, key: str) -> None:
    before = bench.document(address.split("/")[2])
    assert bench.post(f"{address}/tick/{key}").status_code < 500
    assert bench.document(address.split("/")[2]) == before


@pytest.mark.parametrize("name", sorted(TITLES))
def test_every_list_is_there_in_big_type_and_as_a_table(bench: Bench, address: str, name: str) -> None:
    setting_out = bench.setting_out(address.split("/")[2])
    bench.type(setting_out, {f"frames.{setting_out.split('/')[4]}.name": "=1+1"})
    bowed_board(bench, address)
    worked_out(bench, address)
    page = bench.get(f"{address}/lists/{name}")
    rows = list(csv.reader(StringIO(bench.client.get(f"{address}/lists/{name}.csv").text)))
    (heads,) = [table.all("thead")[0].all("th") for table in page.all("table")]
    assert [head.text for head in heads if head.text != "Done"] == rows[0][1:]
    assert len(rows) - 1 == len(page.all("tbody")[0].all("tr")) > 0
    assert all(not cell.startswith(("=", "+", "-", "@")) for row in rows for cell in row)


def test_a_list_that_is_not_there_is_told(bench: Bench, address: str) -> None:
    assert bench.client.get(f"{address}/lists/nails").status_code == 404
    assert bench.client.get(f"{address}/groups/1/sheet-1.svg").status_code == 404


@pytest.mark.parametrize("name", ["{a}", "{", "{length}", "%s {0}"])
def test_a_name_with_braces_is_shown_as_it_is(bench: Bench, address: str, name: str) -> None:
    bench.type(address, {}, do="add-stock:stick")
    bench.type(address, {"name": name})
    assert name in worked_out(bench, address).by_id("plans").text
    bench.type(address, {"length": "400"})
    bench.type(address, {}, do="work")
    for _ in range(200):
        page = bench.get(address)
        if "Being worked out" not in page.text and "Waiting" not in page.text:
            break
        time.sleep(0.05)


@pytest.mark.parametrize(
    ("ending", "text", "sentence"),
    [
        ("timber.spares", "many", "no whole number"),
        ("timber.spares", "99", "20 or fewer would do"),
        ("timber.shortest_useful", "1 mm", "would do"),
    ],
)
def test_nonsense_gets_a_sentence(bench: Bench, address: str, ending: str, text: str, sentence: str) -> None:
    answer = bench.type(address, {ending: text})
    assert answer.status_code == 422 and sentence in read(answer.text).text


def test_two_tabs_lose_nothing(bench: Bench, address: str) -> None:
    here = sent_by(bench.get(address))
    bench.type(address, {"timber.spares": "2"})
    answer = bench.post(address, here | {"timber.edge": "7", "do": "save"})
    assert answer.status_code == 409
    assert bench.post(address, sent_by(read(answer.text)) | {"do": "save"}).status_code == 303
    saved = sent_by(bench.get(address))
    assert (saved["timber.edge"], saved["timber.spares"]) == ("7", "2")
