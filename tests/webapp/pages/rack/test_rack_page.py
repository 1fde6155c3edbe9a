"""The rack page without scripts: a stick on, changed, away and back."""

import httpx
import pytest
from pages import Bench, Element, read, sent_by


@pytest.fixture
def bench(client: httpx.Client) -> Bench:
    return Bench(client)


STICK = {"species": "ash", "length": "1200", "width": "30", "thickness": "20"}


def put(bench: Bench, address: str = "/rack", **typed: str) -> httpx.Response:
    return bench.post(address, sent_by(bench.get(address)) | typed | {"do": "save"})


def listed(bench: Bench) -> list[Element]:
    return [one for one in bench.get("/rack").all("li") if one.attributes.get("id", "").startswith("stick-")]


def test_an_empty_rack_says_so(bench: Bench) -> None:
    assert "Nothing stands on it yet" in bench.get("/rack").text


def test_a_stick_is_put_on_the_rack_and_gets_a_tag(bench: Bench) -> None:
    assert put(bench, **STICK).status_code == 303
    put(bench, **STICK)
    text = " ".join(one.text for one in listed(bench))
    assert "ash 1" in text and "ash 2" in text and "1200 mm" in text and "30 mm × 20 mm" in text


def test_a_board_in_inches_keeps_its_words(bench: Bench) -> None:
    put(bench, **STICK | {"is_board": "yes", "length": "8 ft", "width": "6 1/2 in", "tag": "B7"})
    (board,) = listed(bench)
    assert "B7" in board.text and "8 ft" in board.text and "Rough board" in board.text


def test_a_stick_is_changed(bench: Bench) -> None:
    put(bench, **STICK)
    (stick,) = listed(bench)
    address = f"/rack?change={stick.attributes['id'].removeprefix('stick-')}"
    assert bench.get(address).by_id("in-length").attributes["value"] == "1200"
    assert put(bench, address, length="1150").status_code == 303
    assert ["1150 mm" in one.text for one in listed(bench)] == [True]


def test_the_next_stick_starts_like_the_last(bench: Bench) -> None:
    page = bench.get(put(bench, **STICK | {"is_off_cut": "yes"}).headers["location"])
    sent = sent_by(page)
    assert (sent["species"], sent["width"], sent["is_off_cut"]) == ("ash", "30", "yes")
    assert (sent["length"], sent["tag"], sent["base"]) == ("", "", "0")
    assert "“ash 1” is on the rack" in page.text


def test_two_tabs_lose_nothing(bench: Bench) -> None:
    put(bench, **STICK)
    address = f"/rack?change={listed(bench)[0].attributes['id'].removeprefix('stick-')}"
    here = sent_by(bench.get(address))
    put(bench, address, length="1150")
    answer = bench.post(address, here | {"width": "31", "do": "save"})
    page = read(answer.text)
    assert answer.status_code == 409 and "changed elsewhere" in page.by_id("main").text
    assert "1150 mm" in listed(bench)[0].text and "30 mm × 20 mm" in listed(bench)[0].text
    assert page.by_id("in-width").attributes["value"] == "31"
    assert bench.post(address, sent_by(page) | {"do": "save"}).status_code == 303
    assert "31 mm × 20 mm" in listed(bench)[0].text


def test_a_stick_that_was_taken_away_meanwhile_is_put_on_by_a_second_press(bench: Bench) -> None:
    put(bench, **STICK)
    stick_id = listed(bench)[0].attributes["id"].removeprefix("stick-")
    here = sent_by(bench.get(f"/rack?change={stick_id}"))
    for _ in range(2):
        assert bench.post(f"/rack/sticks/{stick_id}/away").status_code == 303
    answer = bench.post(f"/rack?change={stick_id}", here | {"length": "900", "do": "save"})
    assert answer.status_code == 409 and "taken from the rack" in read(answer.text).text
    assert bench.post(f"/rack?change={stick_id}", sent_by(read(answer.text)) | {"do": "save"}).status_code == 303
    assert "900 mm" in listed(bench)[0].text


def test_a_stick_whose_tag_is_taken_is_not_put_back(bench: Bench) -> None:
    put(bench, **STICK | {"tag": "A"})
    stick_id = listed(bench)[0].attributes["id"].removeprefix("stick-")
    bench.post(f"/rack/sticks/{stick_id}/away")
    put(bench, **STICK | {"tag": "A"})
    answer = bench.post(f"/rack/sticks/{stick_id}/back")
    assert answer.status_code == 422 and "another tag would do" in read(answer.text).by_id("main").text
    assert len(listed(bench)) == 1


def test_a_stick_is_taken_away_and_put_back(bench: Bench) -> None:
    put(bench, **STICK)
    stick_id = listed(bench)[0].attributes["id"].removeprefix("stick-")
    bench.post(f"/rack/sticks/{stick_id}/away")
    assert listed(bench) == [] and "Taken away last" in bench.get("/rack").text
    bench.post(f"/rack/sticks/{stick_id}/back")
    assert len(listed(bench)) == 1


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"length": ""}, "Nothing typed yet"),
        ({"length": "long"}, "cannot be read"),
        ({"length": "10 mm"}, "100 mm to 20000 mm would do"),
        ({"width": ""}, "Nothing typed yet"),
        ({"thickness": "1,234"}, "two ways"),
    ],
)
def test_nonsense_stays_in_the_form_with_a_sentence(bench: Bench, typed: dict[str, str], sentence: str) -> None:
    answer = put(bench, **STICK | typed)
    page = read(answer.text)
    assert answer.status_code == 422 and sentence in page.by_id("main").text
    (path,) = typed
    assert page.by_id(f"in-{path}").attributes["value"] == typed[path]
    assert page.by_id("in-species").attributes["value"] == "ash"
    assert listed(bench) == []


@pytest.mark.parametrize("path", ["tag", "species", "profile", "length", "width", "thickness"])
def test_a_text_too_long_stays_in_the_form(bench: Bench, path: str) -> None:
    answer = put(bench, **STICK | {path: "x" * 10_000})
    page = read(answer.text)
    assert answer.status_code == 422 and listed(bench) == []
    assert page.by_id(f"in-{path}").attributes["value"] == "x" * 10_000
    assert page.by_id(f"slot-{path}").text


def test_a_form_sent_twice_puts_one_stick_on(bench: Bench) -> None:
    sent = sent_by(bench.get("/rack")) | STICK | {"do": "save"}
    places = {bench.post("/rack", sent).headers["location"] for _ in range(2)}
    assert len(places) == 1 and len(listed(bench)) == 1
    assert bench.post("/rack", sent | {"length": "900"}).status_code == 303
    assert sorted(one.all("p")[0].text for one in listed(bench)) == ["ash 1", "ash 2"]


def test_a_tag_is_given_once(bench: Bench) -> None:
    put(bench, **STICK | {"tag": "A"})
    answer = put(bench, **STICK | {"tag": "A"})
    assert answer.status_code == 422 and "another tag would do" in read(answer.text).text


@pytest.mark.parametrize("address", ["/rack/sticks/nobody/away", "/rack/sticks/nobody/back", "/rack/cuts/nobody/undo"])
def test_what_is_not_there_is_said(bench: Bench, address: str) -> None:
    assert bench.post(address).status_code == 404


@pytest.mark.parametrize("text", ["{a}", "<b>", "=1+1", "“”", "ä" * 60])
def test_any_name_is_shown_as_it_is(bench: Bench, text: str) -> None:
    put(bench, **STICK | {"tag": text, "species": text})
    assert text in listed(bench)[0].text
