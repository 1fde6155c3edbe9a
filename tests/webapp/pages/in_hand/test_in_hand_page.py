"""The page of a stick or board in hand, without scripts and in parts."""

from pathlib import Path

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


def test_a_refusal_is_in_the_unit_of_the_project(bench: Bench) -> None:
    project = bench.new(unit="in", across="12", up="16", face_width="1 1/2")
    address = f"/projects/{project}/timber/reach"
    bench.type(address, {"reach.length": "24", "reach.width": "1 1/2"})
    assert "is 1 1/2 in wide and loses 3/16 in on each edge" in bench.get(address).by_id("reach").text
    bench.type(address, {"reach.length": "24", "reach.width": "2"})
    assert "members wider than their rabbet of 1/4 in" in bench.get(address).by_id("reach").text


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


def put(bench: Bench, **typed: str) -> None:
    usual = {"species": "ash", "length": "1500", "width": "25", "thickness": "20", "do": "save"}
    assert bench.post("/rack", sent_by(bench.get("/rack")) | usual | typed).status_code == 303


def test_what_stands_on_the_rack_can_be_taken_in_hand(bench: Bench, address: str) -> None:
    """A stick of the member's section; a board where a strip comes of it, of 25 + 3 mm beside edges of 5 mm."""
    bench.type(bench.setting_out(address.split("/")[2]), {"species": "Ash", "section.thickness": "20"})
    put(bench)
    put(bench, length="900", is_off_cut="yes")
    put(bench, is_board="yes", width="150", thickness="26", length="2000")
    for other in ({"width": "30"}, {"species": "oak"}):
        put(bench, **other)
    for small in ({"width": "37.9", "thickness": "26"}, {"width": "150", "thickness": "23.2"}):
        put(bench, is_board="yes", **small)
    page = bench.get(address).by_id("in-rack")
    assert [one.text for one in page.all("p", **{"class": "tag"})] == ["ash 1", "ash 2", "ash 3"]
    stick, _, board = (one.attributes["value"] for one in page.all("button"))
    bench.type(address, {"reach.count": "3", "reach.defect_from": "10", "reach.defect_to": "30"}, do=board)
    sent = sent_by(bench.get(address))
    sizes = ("length", "width", "count", "defect_from", "defect_to")
    assert [sent[f"reach.{name}"] for name in sizes] == ["2000", "150", "1", "", ""]
    assert bench.type(address, {"reach.length": "nonsense"}, do=stick).status_code == 303
    sent = sent_by(bench.get(address))
    assert (sent["reach.length"], sent["reach.width"]) == ("1500", "")
    assert bench.type(address, {}, do="in-hand:nobody").status_code == 303


def test_a_damaged_rack_leaves_the_page_open(bench: Bench, address: str, data_dir: Path) -> None:
    put(bench)
    (data_dir / "rack.json").write_text("{", "utf-8")
    assert bench.get(address).by_id("reach").all("svg") and not bench.get(address).by_id("in-rack").all("li")


def test_several_boards_yield_a_wider_member_than_one(bench: Bench, address: str) -> None:
    """A board 640 mm long gives one side a strip: four strips of one board, or two of each of two."""
    bench.type(address, {"reach.length": "640", "reach.width": "150"})
    one = bench.get(address).by_id("reach").text
    bench.type(address, {"reach.count": "2"})
    two = bench.get(address).by_id("reach").text
    assert "from 4 strips; the width is the limit" in one and "from 2 strips of each board" in two


def test_grain_that_costs_nothing_is_told_once(bench: Bench, address: str) -> None:
    assert "either way" in bench.get(address).by_id("reach").text
    bench.type(address, {"reach.count": "2"})
    text = bench.get(address).by_id("reach").text
    assert "sides from anywhere" in text and "grain running round" in text and "either way" not in text
