"""A plan that is marked as cut, and undone: all without scripts."""

import json
import re
from pathlib import Path

import pytest
from pages import Browser, read
from racked import kept, mark, put, take_over, to_mark, worked_out


def test_a_plan_is_marked_as_cut_and_undone(browser: Browser, address: str, data_dir: Path) -> None:
    put(browser, "2400")
    before = kept(data_dir)["sticks"]
    take_over(browser, address, "Take it over")
    link = to_mark(worked_out(browser, address))
    page = browser.get(link).by_id("main")
    assert "ash 1" in page.text and "ash 2" in page.text and "cutoff of ash 1" in page.text
    assert kept(data_dir)["sticks"] == before
    record = mark(browser, link).headers["location"]
    (left,) = kept(data_dir)["sticks"]
    pieces_mm = sum(2 * float(size) for size in outside(browser, address))
    assert 0 < float(left["length"].removesuffix(" mm")) <= 2400 - pieces_mm
    assert (left["tag"], left["species"], left["is_off_cut"], left["width"]) == ("ash 2", "ash", True, "25 mm")
    assert "Cutoff of ash 1" in browser.get("/rack").by_id("main").text
    text = browser.get(record).by_id("main").text
    assert "ash 2" in text and "The plan as it was cut" in text and "Revision" in text
    assert "Cut on" in browser.get(address).by_id("plans").text
    assert "What is planned here is cut" in browser.get(address).by_id("of-rack").text
    assert "has left the rack" not in browser.get(address).by_id("of-rack").text
    assert browser.post(f"{record}/undo").status_code == 303
    assert json.dumps(kept(data_dir)["sticks"]) == json.dumps(before)
    assert "Cut, and undone" in browser.get(record).by_id("main").text and to_mark(browser.get(address))
    assert browser.post(f"{record}/undo").status_code == 303
    assert json.dumps(kept(data_dir)["sticks"]) == json.dumps(before)


def outside(browser: Browser, address: str) -> tuple[str, str]:
    """The lengths of the two kinds of side, as the timber page says them."""
    words = browser.get(address).by_id("plans").text.split("long point: ", 1)[1].split(".")[0].replace(",", "").split()
    return words[2], words[6]


def test_a_plan_is_marked_once_unless_it_was_cut_again(browser: Browser, address: str, data_dir: Path) -> None:
    link = to_mark(worked_out(browser, address))
    assert "Nothing leaves the rack" in browser.get(link).text and "usual stick #1" in browser.get(link).text
    page = browser.get(link)
    assert mark(browser, link).status_code == 303
    first, twice = kept(data_dir)["cuts"], mark(browser, link, page=page)
    assert twice.headers["location"] == f"/rack/cuts/{first[0]['id']}" and kept(data_dir)["cuts"] == first
    asked = browser.get(link)
    assert "Mark as cut a second time" in asked.text and "Mark it again only if" in asked.text
    for _ in range(2):
        assert mark(browser, link, asked).status_code == 303
    assert [one["tag"] for one in kept(data_dir)["sticks"]] == ["Ash 1", "Ash 2"]


@pytest.mark.parametrize(("page", "place"), [("timber", "#plans"), ("/rack", "#cuts")])
def test_undo_leads_back_to_where_it_was_asked(browser: Browser, address: str, page: str, place: str) -> None:
    mark(browser, to_mark(worked_out(browser, address)))
    here = address if page == "timber" else page
    undo = re.compile("/rack/cuts/.*/undo")
    (form,) = [one for one in browser.get(here).all("form") if undo.fullmatch(one.attributes["action"])]
    sent = {one.attributes["name"]: one.attributes["value"] for one in form.all("input")}
    assert browser.post(form.attributes["action"], sent).headers["location"] == f"{here}{place}"
    assert to_mark(browser.get(address))


def test_a_rack_that_changed_meanwhile_is_shown_first(browser: Browser, address: str, data_dir: Path) -> None:
    put(browser, "2400")
    take_over(browser, address, "Take it over")
    link = to_mark(worked_out(browser, address))
    page = browser.get(link)
    put(browser, "500")
    answer = mark(browser, link, page=page)
    assert answer.status_code == 409 and "ash 3" in read(answer.text).by_id("main").text
    assert len(kept(data_dir)["sticks"]) == 2
    assert mark(browser, link, page=read(answer.text)).status_code == 303


def test_a_stick_that_is_gone_is_not_cut(browser: Browser, address: str) -> None:
    put(browser, "2400")
    take_over(browser, address, "Take it over")
    link = to_mark(worked_out(browser, address))
    page = browser.get(link)
    (stick,) = [one.attributes["id"] for one in browser.get("/rack").all("li") if "id" in one.attributes]
    browser.post(f"/rack/sticks/{stick.removeprefix('stick-')}/away")
    asked = browser.get(link)
    assert "has left the rack" in asked.text and "Mark as cut" not in [one.text for one in asked.all("button")]
    assert mark(browser, link, page=page).status_code == 422


def test_a_changed_job_says_that_another_plan_was_cut(browser: Browser, address: str) -> None:
    put(browser, "2400")
    take_over(browser, address, "Take it over")
    link = to_mark(worked_out(browser, address))
    mark(browser, link)
    browser.type(address, {"timber.spares": "1"})
    text = browser.get(address).by_id("of-rack").text
    assert "Another plan of this project was marked as cut" in text
    assert "has left the rack" not in text, "nothing is planned on a stick that was cut"
    gone = browser.client.get(link)
    assert gone.status_code == 404 and "It was marked as cut on" in read(gone.text).text
    assert read(gone.text).by_id("main").all("a", href=f"{address}#plans")


def test_a_plan_made_stale_by_an_edit_is_not_marked(browser: Browser, address: str, data_dir: Path) -> None:
    put(browser, "2400")
    take_over(browser, address, "Take it over")
    link = to_mark(worked_out(browser, address))
    page = browser.get(link)
    browser.type(address, {"timber.spares": "1"})
    answer = mark(browser, link, page=page)
    assert answer.status_code == 404 and "Something was changed since" in read(answer.text).text
    assert kept(data_dir)["cuts"] == [] and len(kept(data_dir)["sticks"]) == 1


def test_a_cut_that_was_undone_can_be_marked_again(browser: Browser, address: str, data_dir: Path) -> None:
    put(browser, "2400")
    take_over(browser, address, "Take it over")
    link = to_mark(worked_out(browser, address))
    record = mark(browser, link).headers["location"]
    after = kept(data_dir)["sticks"]
    browser.post(f"{record}/undo")
    (again,) = [one.attributes["href"] for one in browser.get(record).all("a") if one.text == "Mark as cut again"]
    assert again == link and mark(browser, again).status_code == 303
    assert [one["length"] for one in kept(data_dir)["sticks"]] == [one["length"] for one in after]


def test_the_rest_of_a_board_comes_back_as_a_board(browser: Browser, address: str, data_dir: Path) -> None:
    put(browser, "2000", is_board="yes", width="300", thickness="26", tag="B1")
    take_over(browser, address, "Take it over")
    mark(browser, to_mark(worked_out(browser, address)))
    boards = [one for one in kept(data_dir)["sticks"] if one["is_board"]]
    assert len(boards) == 1 and boards[0]["origin"] == "rest of B1"
    assert 100 < float(boards[0]["width"].removesuffix(" mm")) < 300 and boards[0]["length"] == "2000 mm"


@pytest.mark.parametrize("place", ["cut/nothing", f"cut/{'0' * 64}"])
def test_a_plan_that_is_not_there_is_said(browser: Browser, address: str, place: str) -> None:
    assert browser.client.get(f"{address}/{place}").status_code == 404
    assert browser.post(f"{address}/{place}").status_code == 404
    assert browser.client.get("/rack/cuts/nobody").status_code == 404
    assert browser.post("/rack/cuts/nobody/undo").status_code == 404


def test_a_record_that_is_damaged_is_no_crash(browser: Browser, address: str, data_dir: Path) -> None:
    record = mark(browser, to_mark(worked_out(browser, address))).headers["location"]
    (path,) = (data_dir / "cuts").iterdir()
    path.write_text("{", "utf-8")
    assert browser.client.get(record).status_code == 424
    path.unlink()
    assert browser.client.get(record).status_code == 424


def test_a_damaged_rack_leaves_the_timber_page_open(browser: Browser, address: str, data_dir: Path) -> None:
    put(browser, "2400")
    (data_dir / "rack.json").write_text("{", "utf-8")
    assert "damaged" in browser.get(address).by_id("of-rack").text
    answer = browser.client.get("/rack")
    assert answer.status_code == 424 and "Start with an empty rack" in read(answer.text).text


def test_a_damaged_rack_can_be_gone_on_with(browser: Browser, data_dir: Path) -> None:
    for length in ("2400", "1900"):
        put(browser, length)
    (data_dir / "rack.json").write_text("{", "utf-8")
    assert "held 1 stick or board" in read(browser.client.get("/rack").text).text
    assert browser.post("/rack/mend").headers["location"] == "/rack"
    assert [one["length"] for one in kept(data_dir)["sticks"]] == ["2400 mm"]
    assert (data_dir / "rack-damaged-1.json").read_text("utf-8") == "{"


def test_what_was_marked_as_cut_stays_cut_until_it_is_undone(browser: Browser, address: str) -> None:
    put(browser, "2400")
    take_over(browser, address, "Take it over")
    answer = mark(browser, to_mark(worked_out(browser, address)))
    cut = browser.document(address.split("/")[2])["timber"]["cut"]
    assert {one["side"] for one in cut} == {"top", "right", "bottom", "left"} and all(one["away"] for one in cut)
    browser.type(address, {"timber.spares": "1"})
    assert "Enter a stick on hand" in browser.get(address).by_id("plans").text, "the one that was there is cut up"
    browser.post(answer.headers["location"] + "/undo")
    assert not any(one["away"] for one in browser.document(address.split("/")[2])["timber"]["cut"])
