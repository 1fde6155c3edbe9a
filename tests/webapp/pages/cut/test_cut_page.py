"""From the rack to a plan, the plan marked as cut, and undone: all without scripts."""

import json
import re
import time
from pathlib import Path
from typing import Any

import httpx
import pytest
from pages import Browser, Element, read, sent_by

STICK = {"species": "ash", "width": "25", "thickness": "20"}


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def address(browser: Browser) -> str:
    """The timber page of a frame of 341 × 441 mm outside, of ash members 25 mm wide and 20 mm thick."""
    project_id = browser.new()
    browser.type(browser.setting_out(project_id), {"species": "Ash", "section.thickness": "20"})
    return f"/projects/{project_id}/timber"


def put(browser: Browser, length: str, **more: str) -> None:
    sent = sent_by(browser.get("/rack")) | STICK | {"length": length, "do": "save"} | more
    assert browser.post("/rack", sent).status_code == 303


def kept(data_dir: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((data_dir / "rack.json").read_text("utf-8"))
    return found


def button(page: Element, says: str) -> str:
    (found,) = [one for one in page.all("button") if one.text == says]
    return found.attributes["value"]


def take_over(browser: Browser, address: str, says: str = "Take over all") -> None:
    assert browser.type(address, {}, do=button(browser.get(address).by_id("of-rack"), says)).status_code == 303


def worked_out(browser: Browser, address: str) -> Element:
    browser.type(address, {}, do="work")
    for _ in range(200):
        page = browser.get(address)
        if "Worked out." in page.by_id("plans").text:
            return page
        time.sleep(0.05)
    raise AssertionError(page.by_id("plans").text)


def to_mark(page: Element) -> str:
    (link,) = [one.attributes["href"] for one in page.by_id("plans").all("a") if one.text == "Mark as cut"]
    return link


def mark(browser: Browser, link: str, page: Element | None = None) -> httpx.Response:
    page = page or browser.get(link)
    sent = {name: page.all("input", name=name)[0].attributes["value"] for name in ("shown", "after")}
    return browser.post(link, sent | {"do": "cut"})


def offered(page: Element) -> list[str]:
    """The tags that are offered, in their order."""
    (tags,) = [[one.text for one in page.by_id("of-rack").all("p", **{"class": "tag"})]]
    return tags


def test_what_suits_is_offered_off_cuts_first(browser: Browser, address: str) -> None:
    put(browser, "2400")
    put(browser, "900", is_off_cut="yes")
    put(browser, "1000", is_off_cut="yes")
    put(browser, "1000", width="30")
    put(browser, "1000", species="oak")
    put(browser, "1000", profile="rabbet")
    put(browser, "1500", is_board="yes", width="120", thickness="26")
    assert offered(browser.get(address)) == ["ash 2", "ash 3", "ash 1", "ash 6"]
    text = browser.get(address).by_id("of-rack").text
    assert "900 mm" in text and "Board 120 × 26 mm, 3 strips" in text and "of another wood: oak 1 (oak)" in text
    take_over(browser, address, "Take over the off-cuts")
    stock = browser.document(address.split("/")[2])["timber"]["stock"]
    assert [(one["name"], one["length"], one["member_width"]) for one in stock] == [
        ("ash 2", "900 mm", "25 mm"),
        ("ash 3", "1000 mm", "25 mm"),
    ]
    assert all(one["on_rack"] and one["in_hand"] and one["count"] == 1 for one in stock)
    assert offered(browser.get(address)) == ["ash 1", "ash 6"]


def test_a_bought_moulding_is_offered_its_own_off_cuts_alone(browser: Browser, address: str) -> None:
    setting_out = browser.setting_out(address.split("/")[2])
    browser.type(setting_out, {"section.source": "bought", "section.moulding.name": "Ogee 40"})
    put(browser, "900", profile="ogee 40")
    put(browser, "900", profile="rabbet")
    put(browser, "900")
    assert offered(browser.get(address)) == ["ash 1"]
    take_over(browser, address, "Take it over")
    (taken,) = browser.document(address.split("/")[2])["timber"]["stock"]
    assert (taken["name"], taken["moulding"]) == ("ash 1", "ogee 40")
    assert "no stock is typed" not in browser.get(address).text
    browser.type(setting_out, {"section.source": "own"})
    assert offered(browser.get(address)) == ["ash 3"]


def test_what_no_piece_can_be_cut_from_is_not_offered(browser: Browser, address: str) -> None:
    """The shortest side is 341 mm, a strip 28 mm wide, and a board loses 5 mm on each edge."""
    put(browser, "340", is_off_cut="yes")
    for width in ("37.9", "38"):
        put(browser, "1500", is_board="yes", width=width, thickness="26")
    assert offered(browser.get(address)) == ["ash 3"]


def test_a_board_too_thin_to_lie_flat_is_offered_on_edge(browser: Browser, address: str) -> None:
    browser.type(browser.setting_out(address.split("/")[2]), {"section.thickness": "40"})
    put(browser, "1500", is_board="yes", width="150", thickness="30")
    text = browser.get(address).by_id("of-rack").text
    assert "ripped on edge into 3 strips: its thickness gives the width of the members" in text
    take_over(browser, address, "Take it over")
    assert "is ripped on edge" in browser.get(address).text


def test_no_more_is_taken_over_than_the_stock_can_hold(
    browser: Browser, address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    for module in ("rack_offered", "rack_beside"):
        monkeypatch.setattr(f"webapp.pages.timber.{module}.LONGEST_STOCK", 2)
    for _ in range(3):
        put(browser, "2400")
    take_over(browser, address, "Take over the first 2")
    assert len(browser.document(address.split("/")[2])["timber"]["stock"]) == 2
    page = browser.get(address).by_id("of-rack")
    assert "holds no more" in page.text and offered(browser.get(address)) == ["ash 3"] and not page.all("button")


def test_an_off_cut_goes_back_with_its_rabbet_and_serves_that_section_alone(
    browser: Browser, address: str, data_dir: Path
) -> None:
    put(browser, "3000")
    take_over(browser, address, "Take it over")
    mark(browser, to_mark(worked_out(browser, address)))
    (left,) = kept(data_dir)["sticks"]
    assert left["profile"] == "rabbet 6 × 12 mm" and left["is_off_cut"]
    same, other, both = (
        browser.new(**{"across": "100", "up": "120", "name": name}) for name in ("Same", "Other", "Turned")
    )
    for project, more in ((same, {}), (other, {"section.rabbet_depth": "10"}), (both, {})):
        sizes = {"species": "Ash", "section.thickness": "20"} | more
        browser.type(browser.setting_out(project), sizes)
    browser.type(f"/projects/{both}/timber", {"turned": "yes"})
    found = {project: offered(browser.get(f"/projects/{project}/timber")) for project in (same, other, both)}
    assert found == {same: [left["tag"]], other: [], both: []}


def test_what_was_taken_over_with_its_rabbet_is_left_out_when_the_section_changes(
    browser: Browser, address: str, data_dir: Path
) -> None:
    put(browser, "2400", profile="rabbet 6 × 12 mm")
    take_over(browser, address, "Take it over")
    assert "Estimate" not in browser.get(address).by_id("plans").text
    browser.type(browser.setting_out(address.split("/")[2]), {"section.rabbet_depth": "10"})
    assert "Estimate" in browser.get(address).by_id("plans").text


def test_who_else_counts_on_a_stick_is_told_everywhere(browser: Browser, address: str) -> None:
    """On the page of each project, on the rack, and before one of them cuts it; either can leave it."""
    put(browser, "2400")
    take_over(browser, address, "Take it over")
    other = browser.new(name="Second job")
    browser.type(browser.setting_out(other), {"species": "Ash", "section.thickness": "20"})
    second = f"/projects/{other}/timber"
    page = browser.get(second).by_id("of-rack")
    assert "Counted on by" in page.text and not [one for one in page.all("button") if "Take over all" in one.text]
    take_over(browser, second, "Take it over")
    for here, there in ((address, second), (second, address)):
        page = browser.get(here).by_id("of-rack")
        assert "“ash 1” is in the stock of another project, too" in page.text
        assert f"{there}#of-rack" in [one.attributes["href"] for one in page.all("a")]
    assert "Second job" in browser.get("/rack").by_id("main").text
    link = to_mark(worked_out(browser, address))
    assert "Second job" in browser.get(link).by_id("main").text
    browser.type(second, {}, do=button(browser.get(second).by_id("of-rack"), "Leave it to the other"))
    for place in (address, link, "/rack"):
        assert "Second job" not in browser.get(place).by_id("main").text
    assert mark(browser, link).status_code == 303


def test_a_project_that_is_cut_counts_on_nothing_more(browser: Browser, address: str, data_dir: Path) -> None:
    """Neither does it miss what another project takes of the stock that it did not need, nor is it changed by that."""
    for length in ("2400", "2300"):
        put(browser, length)
    take_over(browser, address)
    assert browser.get("/rack").text.count("Counted on by") == 2
    link = to_mark(worked_out(browser, address))
    mark(browser, link)
    assert "Counted on by" not in browser.get("/rack").text
    for one in kept(data_dir)["sticks"]:
        browser.post(f"/rack/sticks/{one['id']}/away")
    text = browser.get(address).by_id("of-rack").text
    assert "What is planned here is cut" in text and "has left the rack" not in text
    browser.type(address, {"timber.spares": "1"})
    assert "has left the rack" in browser.get(address).by_id("of-rack").text


def test_what_is_cut_is_counted_on_no_more(browser: Browser, address: str, data_dir: Path) -> None:
    put(browser, "2400")
    take_over(browser, address, "Take it over")
    assert "Counted on by" in browser.get("/rack").text
    record = mark(browser, to_mark(worked_out(browser, address))).headers["location"]
    put(browser, "2400", tag="ash 1")
    assert "Counted on by" not in browser.get("/rack").text
    for one in kept(data_dir)["sticks"]:
        if one["tag"] == "ash 1":
            browser.post(f"/rack/sticks/{one['id']}/away")
    browser.post(f"{record}/undo")
    assert "Counted on by" in browser.get("/rack").text
    browser.post(f"/projects/{address.split('/')[2]}/delete")
    assert "Counted on by" not in browser.get("/rack").text


def test_a_stick_is_taken_over_once(browser: Browser, address: str) -> None:
    put(browser, "2400")
    do = button(browser.get(address).by_id("of-rack"), "Take it over")
    for _ in range(2):
        browser.type(address, {}, do=do)
    browser.type(address, {}, do="rack-take:nobody,,")
    assert len(browser.document(address.split("/")[2])["timber"]["stock"]) == 1


def test_what_is_gone_from_the_rack_is_pointed_out(browser: Browser, address: str) -> None:
    put(browser, "2400")
    put(browser, "1900")
    take_over(browser, address)
    sticks = [
        one.attributes["id"].removeprefix("stick-") for one in browser.get("/rack").all("li") if "id" in one.attributes
    ]
    browser.post(f"/rack/sticks/{sticks[0]}/away")
    changes = f"/rack?change={sticks[1]}"
    browser.post(changes, sent_by(browser.get(changes)) | {"length": "1850", "do": "save"})
    text = browser.get(address).by_id("of-rack").text
    assert "“ash 1” has left the rack" in text and "“ash 2” is 1850 mm long on the rack" in text
    browser.type(address, {}, do=button(browser.get(address).by_id("of-rack"), "Remove what is gone or changed"))
    assert browser.document(address.split("/")[2])["timber"]["stock"] == []


def test_a_plan_is_marked_as_cut_and_undone(browser: Browser, address: str, data_dir: Path) -> None:
    put(browser, "2400")
    before = kept(data_dir)["sticks"]
    take_over(browser, address, "Take it over")
    link = to_mark(worked_out(browser, address))
    page = browser.get(link).by_id("main")
    assert "ash 1" in page.text and "ash 2" in page.text and "off-cut of ash 1" in page.text
    assert kept(data_dir)["sticks"] == before
    record = mark(browser, link).headers["location"]
    (left,) = kept(data_dir)["sticks"]
    pieces_mm = sum(2 * float(size) for size in outside(browser, address))
    assert 0 < float(left["length"].removesuffix(" mm")) <= 2400 - pieces_mm
    assert (left["tag"], left["species"], left["is_off_cut"], left["width"]) == ("ash 2", "ash", True, "25 mm")
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
    assert "Another plan of this project was marked as cut" in text and "“ash 1” has left the rack" in text
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
