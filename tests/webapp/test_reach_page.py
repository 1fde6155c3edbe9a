"""The page of a stick or board in hand, without scripts and in parts."""

import httpx
import pytest
from pages import PARTS, Bench, read, sent_by


@pytest.fixture
def bench(client: httpx.Client) -> Bench:
    return Bench(client)


@pytest.fixture
def address(bench: Bench) -> str:
    return f"/projects/{bench.new()}/timber/reach"


def test_the_page_opens_with_a_usual_stick(bench: Bench, address: str) -> None:
    page = bench.get(address)
    text = page.by_id("reach").text
    assert "one of 2400 mm is taken" in text and "Can be made, also with the grain running round" in text
    assert page.by_id("reach").all("svg", role="img")


def test_what_is_typed_is_kept_and_worked_out(bench: Bench, address: str) -> None:
    assert bench.type(address, {"reach.length": "500"}).status_code == 303
    page = bench.get(address)
    assert page.by_id("in-reach-length").attributes["value"] == "500"
    assert "Cannot be made of it" in page.by_id("reach").text and "is taken" not in page.by_id("reach").text


def test_a_board_tells_the_widest_member(bench: Bench, address: str) -> None:
    assert "The widest member" not in bench.get(address).by_id("reach").text
    bench.type(address, {"reach.width": "150"})
    assert "still yield the frame" in bench.get(address).by_id("reach").text


def test_the_preview_writes_nothing_and_is_the_page_s_own_markup(bench: Bench, address: str) -> None:
    sent = sent_by(bench.get(address)) | {"reach.length": "1500"}
    parts = read(bench.post(f"{address}/preview", sent, headers=PARTS).text)
    assert bench.get(address).by_id("in-reach-length").attributes["value"] == ""
    bench.post(address, sent | {"do": "save"})
    assert parts.by_id("reach").markup() == bench.get(address).by_id("reach").markup()


@pytest.mark.parametrize(
    ("path", "text", "sentence"),
    [
        ("reach.length", "long", "cannot be read"),
        ("reach.length", "5 mm", "100 mm to"),
        ("reach.count", "0", "would do"),
        ("reach.width", "1,234", "two ways"),
        ("reach.frame", "nobody", "none of the choices"),
    ],
)
def test_nonsense_keeps_its_text_and_gets_a_sentence(
    bench: Bench, address: str, path: str, text: str, sentence: str
) -> None:
    answer = bench.post(address, sent_by(bench.get(address)) | {path: text, "do": "save"})
    assert answer.status_code == 422 and sentence in read(answer.text).by_id("main").text


@pytest.mark.parametrize("typed", [{"reach.length": "150"}, {"reach.width": "20"}, {"reach.length": "20000"}])
def test_what_yields_nothing_or_very_much_is_said(bench: Bench, address: str, typed: dict[str, str]) -> None:
    assert bench.type(address, typed).status_code == 303
    assert bench.get(address).by_id("reach").text


def test_a_frame_that_cannot_be_worked_out_says_so(bench: Bench, address: str) -> None:
    bench.type(bench.setting_out(address.split("/")[2]), {"section.rabbet_width": "25"})
    assert not bench.get(address).by_id("reach").all("svg") and bench.get(address).by_id("reach").text


def test_two_tabs_lose_nothing(bench: Bench, address: str) -> None:
    here = sent_by(bench.get(address))
    bench.type(address, {"reach.length": "1500"})
    answer = bench.post(address, here | {"reach.width": "150", "do": "save"})
    assert answer.status_code == 409
    assert bench.post(address, sent_by(read(answer.text)) | {"do": "save"}).status_code == 303
    saved = sent_by(bench.get(address))
    assert (saved["reach.length"], saved["reach.width"]) == ("1500", "150")
