"""The corners page without scripts: what is typed is worked out, saved, or refused in its own place."""

import httpx
import pytest
from pages import PARTS, Bench, Element, read, sent_by


@pytest.fixture
def bench(client: httpx.Client) -> Bench:
    return Bench(client)


@pytest.fixture
def address(bench: Bench) -> str:
    return bench.setting_out(bench.new()).replace("setting-out", "corners")


def says(page: Element, group: str) -> str:
    return page.by_id(f"says-{group}").text


def test_every_group_says_something_before_anything_is_typed(bench: Bench, address: str) -> None:
    page = bench.get(address)
    for group in ("angles", "tolerance", "tests", "parts", "clamps", "joint", "seasons"):
        assert says(page, group)
    assert "45° from a square cut" in says(page, "angles")


def test_a_fragment_is_the_same_in_the_page_and_by_itself(bench: Bench, address: str) -> None:
    page = bench.get(address)
    parts = read(bench.post(f"{address}/preview", sent_by(page), headers=PARTS).text)
    assert parts.by_id("says-tolerance").markup() == page.by_id("says-tolerance").markup()


def test_a_preview_writes_nothing(bench: Bench, address: str) -> None:
    sent = sent_by(bench.get(address))
    path = next(name for name in sent if name.endswith("corner.gap"))
    parts = read(bench.post(f"{address}/preview", sent | {path: "0.5"}, headers=PARTS).text)
    assert says(parts, "tolerance") != says(bench.get(address), "tolerance")


def test_a_test_cut_is_read_and_taken_away_again(bench: Bench, address: str) -> None:
    bench.type(address, {}, do="add-test")
    bench.type(address, {"outside_gap": "0.3"})
    page = bench.get(address)
    assert "further from a square cut" in says(page, "tests")
    (button,) = [b for b in page.all("button") if b.attributes.get("value", "").startswith("remove-test:")]
    bench.type(address, {}, do=button.attributes["value"])
    assert "No test cut yet" in says(bench.get(address), "tests")


def test_parts_in_hand_are_closed(bench: Bench, address: str) -> None:
    bench.type(address, {"sides.top.start": "46.8"})
    text = says(bench.get(address), "parts")
    assert "+1.80°" in text and "Shave" in text


def test_a_joint_that_is_too_large_is_refused_in_its_place(bench: Bench, address: str) -> None:
    bench.type(address, {"joint.kind": "biscuit"})
    bench.type(address, {"joint.size": "biscuit #20"})
    page = bench.get(address)
    assert "refuses" in page.by_id("says-joint").attributes["class"]
    assert "would do" in says(page, "joint")
    assert "Miter length" in says(page, "tolerance")


@pytest.mark.parametrize(
    ("ending", "text", "sentence"),
    [
        ("sides.top.start", "55", "40 to 50° would do"),
        ("sides.top.start", "a lot", "cannot be read as a number"),
        ("corner.gap", "", "Nothing typed yet"),
        ("corner.polygon", "2", "3 or more would do"),
        ("seasons.winter_humidity", "120", "1 to 99 % would do"),
        ("sides.top.long", "1e3", "write the number out"),
        ("corner.slope", "9" * 5000, "cannot be read as a number"),
    ],
)
def test_nonsense_keeps_its_text_and_gets_a_sentence(
    bench: Bench, address: str, ending: str, text: str, sentence: str
) -> None:
    answer = bench.type(address, {ending: text})
    page = read(answer.text)
    assert answer.status_code == 422
    (shown,) = [value for name, value in sent_by(page).items() if name.endswith(ending)]
    assert shown == text
    assert sentence in page.text


def test_two_tabs_lose_nothing(bench: Bench, address: str) -> None:
    here = sent_by(bench.get(address))
    bench.type(address, {"corner.gap": "0.4"})
    path = next(name for name in here if name.endswith("sides.top.start"))
    answer = bench.post(address, here | {path: "45.5", "do": "save"})
    page = read(answer.text)
    assert answer.status_code == 409 and "saved elsewhere" in page.by_id("notice").text
    assert bench.post(address, sent_by(page) | {"do": "save"}).status_code == 303
    saved = sent_by(bench.get(address))
    assert saved[path] == "45.5" and saved[path.replace("sides.top.start", "gap")] == "0.4"
