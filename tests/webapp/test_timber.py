"""The timber page without scripts: stock in, a plan worked out beside the page, lists and a proof out."""

import csv
import time
from io import StringIO

import httpx
import pytest
from pages import Bench, Element, read, sent_by


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


def test_a_stop_is_ticked_and_stays_ticked(bench: Bench, address: str) -> None:
    page = worked_out(bench, address)
    button = next(b for b in page.all("button") if b.attributes.get("value", "").startswith("tick:"))
    assert button.attributes["aria-pressed"] == "false"
    bench.type(address, {}, do=button.attributes["value"])
    again = next(b for b in bench.get(address).all("button") if b.attributes.get("value", "").startswith("tick:"))
    assert again.attributes["aria-pressed"] == "true"


def test_a_cell_that_looks_like_a_formula_is_text(bench: Bench, address: str) -> None:
    setting_out = bench.setting_out(address.split("/")[2])
    bench.type(setting_out, {f"frames.{setting_out.split('/')[4]}.name": "=1+1"})
    worked_out(bench, address)
    rows = list(csv.reader(StringIO(bench.client.get(f"{address}/stops.csv").text)))
    assert rows[0] == ["members", "stop", "pieces"] and len(rows) > 1
    assert all(not cell.startswith(("=", "+", "-", "@")) for row in rows for cell in row)


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
