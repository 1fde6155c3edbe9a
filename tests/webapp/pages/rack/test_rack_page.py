"""The rack page without scripts: a stick on, changed, away and back."""

import httpx
import pytest
from pages import Browser, Element, read, sent_by


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


STICK = {"species": "ash", "length": "1200", "width": "30", "thickness": "20"}


def put(browser: Browser, address: str = "/rack", **typed: str) -> httpx.Response:
    return browser.post(address, sent_by(browser.get(address)) | typed | {"do": "save"})


def listed(browser: Browser) -> list[Element]:
    return [one for one in browser.get("/rack").all("li") if one.attributes.get("id", "").startswith("stick-")]


def test_an_empty_rack_says_so(browser: Browser) -> None:
    assert "Nothing stands on it yet" in browser.get("/rack").text


def test_a_stick_is_put_on_the_rack_and_gets_a_tag(browser: Browser) -> None:
    assert put(browser, **STICK).status_code == 303
    put(browser, **STICK)
    text = " ".join(one.text for one in listed(browser))
    assert "ash 1" in text and "ash 2" in text and "1200 mm" in text and "30 × 20 mm" in text


def test_a_board_in_inches_keeps_its_words(browser: Browser) -> None:
    put(browser, **STICK | {"is_board": "yes", "length": "8 ft", "width": "6 1/2 in", "tag": "B7"})
    (board,) = listed(browser)
    assert "B7" in board.text and "8 ft" in board.text and "Rough board" in board.text


def test_a_stick_is_changed(browser: Browser) -> None:
    put(browser, **STICK)
    (stick,) = listed(browser)
    address = f"/rack?change={stick.attributes['id'].removeprefix('stick-')}"
    assert browser.get(address).by_id("in-length").attributes["value"] == "1200"
    assert put(browser, address, length="1150").status_code == 303
    assert ["1150 mm" in one.text for one in listed(browser)] == [True]


def test_the_next_stick_starts_like_the_last(browser: Browser) -> None:
    page = browser.get(put(browser, **STICK | {"is_off_cut": "yes"}).headers["location"])
    sent = sent_by(page)
    assert (sent["species"], sent["width"], sent["is_off_cut"]) == ("ash", "30", "yes")
    assert (sent["length"], sent["tag"], sent["base"]) == ("", "", "0")
    assert "“ash 1” is on the rack" in page.text


def test_two_tabs_lose_nothing(browser: Browser) -> None:
    put(browser, **STICK)
    address = f"/rack?change={listed(browser)[0].attributes['id'].removeprefix('stick-')}"
    here = sent_by(browser.get(address))
    put(browser, address, length="1150")
    assert browser.post(address, here | {"width": "31", "do": "save"}).status_code == 303
    assert "1150 mm" in listed(browser)[0].text and "31 × 20 mm" in listed(browser)[0].text


def test_one_field_of_a_stick_changed_in_two_tabs_is_asked_about(browser: Browser) -> None:
    put(browser, **STICK)
    address = f"/rack?change={listed(browser)[0].attributes['id'].removeprefix('stick-')}"
    here = sent_by(browser.get(address))
    put(browser, address, length="1150")
    answer = browser.post(address, here | {"length": "1100", "width": "31", "do": "save"})
    page = read(answer.text)
    assert answer.status_code == 422 and "elsewhere meanwhile as “1150”" in page.by_id("slot-length").text
    assert "1150 mm" in listed(browser)[0].text and "30 × 20 mm" in listed(browser)[0].text
    assert browser.post(address, sent_by(page) | {"do": "save"}).status_code == 303
    assert "1100 mm" in listed(browser)[0].text and "31 × 20 mm" in listed(browser)[0].text


def test_a_form_that_does_not_say_what_it_showed_changes_no_other_stick_than_that(browser: Browser) -> None:
    put(browser, **STICK)
    address = f"/rack?change={listed(browser)[0].attributes['id'].removeprefix('stick-')}"
    here = sent_by(browser.get(address)) | {"was": ""}
    put(browser, address, length="1150")
    answer = browser.post(address, here | {"width": "31", "do": "save"})
    page = read(answer.text)
    assert answer.status_code == 409 and "changed elsewhere" in page.by_id("main").text
    assert "1150 mm" in listed(browser)[0].text and "30 × 20 mm" in listed(browser)[0].text
    assert page.by_id("in-width").attributes["value"] == "31"
    assert browser.post(address, sent_by(page) | {"do": "save"}).status_code == 303
    assert "31 × 20 mm" in listed(browser)[0].text


def test_a_stick_that_was_taken_away_meanwhile_is_put_on_by_a_second_press(browser: Browser) -> None:
    put(browser, **STICK)
    stick_id = listed(browser)[0].attributes["id"].removeprefix("stick-")
    here = sent_by(browser.get(f"/rack?change={stick_id}"))
    for _ in range(2):
        assert browser.post(f"/rack/sticks/{stick_id}/away").status_code == 303
    answer = browser.post(f"/rack?change={stick_id}", here | {"length": "900", "do": "save"})
    assert answer.status_code == 409 and "taken from the rack" in read(answer.text).text
    assert browser.post(f"/rack?change={stick_id}", sent_by(read(answer.text)) | {"do": "save"}).status_code == 303
    assert "900 mm" in listed(browser)[0].text


def test_a_stick_whose_tag_is_taken_is_not_put_back(browser: Browser) -> None:
    put(browser, **STICK | {"tag": "A"})
    stick_id = listed(browser)[0].attributes["id"].removeprefix("stick-")
    browser.post(f"/rack/sticks/{stick_id}/away")
    put(browser, **STICK | {"tag": "A"})
    answer = browser.post(f"/rack/sticks/{stick_id}/back")
    assert answer.status_code == 422 and "enter another tag" in read(answer.text).by_id("main").text
    assert len(listed(browser)) == 1


def test_a_stick_is_taken_away_and_put_back(browser: Browser) -> None:
    put(browser, **STICK)
    stick_id = listed(browser)[0].attributes["id"].removeprefix("stick-")
    browser.post(f"/rack/sticks/{stick_id}/away")
    assert listed(browser) == [] and "Removed last" in browser.get("/rack").text
    browser.post(f"/rack/sticks/{stick_id}/back")
    assert len(listed(browser)) == 1


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"length": ""}, "Enter a length"),
        ({"length": "long"}, "Enter a length"),
        ({"length": "10 mm"}, "Enter 100 mm to 20000 mm"),
        ({"width": ""}, "Enter a length"),
        ({"thickness": "1,234"}, "two ways"),
    ],
)
def test_nonsense_stays_in_the_form_with_a_sentence(browser: Browser, typed: dict[str, str], sentence: str) -> None:
    answer = put(browser, **STICK | typed)
    page = read(answer.text)
    assert answer.status_code == 422 and sentence in page.by_id("main").text
    (path,) = typed
    assert page.by_id(f"in-{path}").attributes["value"] == typed[path]
    assert page.by_id("in-species").attributes["value"] == "ash"
    assert listed(browser) == []


@pytest.mark.parametrize("path", ["tag", "species", "profile", "length", "width", "thickness"])
def test_a_text_too_long_stays_in_the_form(browser: Browser, path: str) -> None:
    answer = put(browser, **STICK | {path: "x" * 10_000})
    page = read(answer.text)
    assert answer.status_code == 422 and listed(browser) == []
    assert page.by_id(f"in-{path}").attributes["value"] == "x" * 10_000
    assert page.by_id(f"slot-{path}").text


def test_a_form_sent_twice_puts_one_stick_on(browser: Browser) -> None:
    sent = sent_by(browser.get("/rack")) | STICK | {"do": "save"}
    places = {browser.post("/rack", sent).headers["location"] for _ in range(2)}
    assert len(places) == 1 and len(listed(browser)) == 1
    assert browser.post("/rack", sent | {"length": "900"}).status_code == 303
    assert sorted(one.all("p")[0].text for one in listed(browser)) == ["ash 1", "ash 2"]


def test_a_tag_is_given_once(browser: Browser) -> None:
    put(browser, **STICK | {"tag": "A"})
    answer = put(browser, **STICK | {"tag": "A"})
    assert answer.status_code == 422 and "enter another tag" in read(answer.text).text


@pytest.mark.parametrize("address", ["/rack/sticks/nobody/away", "/rack/sticks/nobody/back", "/rack/cuts/nobody/undo"])
def test_what_is_not_there_is_said(browser: Browser, address: str) -> None:
    assert browser.post(address).status_code == 404


@pytest.mark.parametrize("text", ["{a}", "<b>", "=1+1", "“”", "ä" * 60])
def test_any_name_is_shown_as_it_is(browser: Browser, text: str) -> None:
    put(browser, **STICK | {"tag": text, "species": text})
    assert text in listed(browser)[0].text
