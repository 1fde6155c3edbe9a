"""From the rack to a plan, the plan marked as cut, and undone: all without scripts."""

import json
import re
import time
from pathlib import Path
from typing import Any

import httpx
import pytest
from pages import Bench, Element, read, sent_by

STICK = {"species": "ash", "width": "25", "thickness": "20"}


@pytest.fixture
def bench(client: httpx.Client) -> Bench:
    return Bench(client)


@pytest.fixture
def address(bench: Bench) -> str:
    """The timber page of a frame of 341 × 441 mm outside, of ash members 25 mm wide and 20 mm thick."""
    project_id = bench.new()
    bench.type(bench.setting_out(project_id), {"species": "Ash", "section.thickness": "20"})
    return f"/projects/{project_id}/timber"


def put(bench: Bench, length: str, **more: str) -> None:
    sent = sent_by(bench.get("/rack")) | STICK | {"length": length, "do": "save"} | more
    assert bench.post("/rack", sent).status_code == 303


def kept(data_dir: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((data_dir / "rack.json").read_text("utf-8"))
    return found


def button(page: Element, says: str) -> str:
    (found,) = [one for one in page.all("button") if one.text == says]
    return found.attributes["value"]


def take_over(bench: Bench, address: str, says: str = "Take over all") -> None:
    assert bench.type(address, {}, do=button(bench.get(address).by_id("of-rack"), says)).status_code == 303


def worked_out(bench: Bench, address: str) -> Element:
    bench.type(address, {}, do="work")
    for _ in range(200):
        page = bench.get(address)
        if "Worked out." in page.by_id("plans").text:
            return page
        time.sleep(0.05)
    raise AssertionError(page.by_id("plans").text)


def to_mark(page: Element) -> str:
    (link,) = [one.attributes["href"] for one in page.by_id("plans").all("a") if one.text == "Mark as cut"]
    return link


def mark(bench: Bench, link: str, page: Element | None = None) -> httpx.Response:
    page = page or bench.get(link)
    sent = {name: page.all("input", name=name)[0].attributes["value"] for name in ("shown", "after")}
    return bench.post(link, sent | {"do": "cut"})


def offered(page: Element) -> list[str]:
    """The tags that are offered, in their order."""
    (tags,) = [[one.text for one in page.by_id("of-rack").all("p", **{"class": "tag"})]]
    return tags


def test_what_suits_is_offered_off_cuts_first(bench: Bench, address: str) -> None:
    put(bench, "2400")
    put(bench, "900", is_off_cut="yes")
    put(bench, "1000", is_off_cut="yes")
    put(bench, "1000", width="30")
    put(bench, "1000", species="oak")
    put(bench, "1000", profile="rabbet")
    put(bench, "1500", is_board="yes", width="120", thickness="26")
    assert offered(bench.get(address)) == ["ash 2", "ash 3", "ash 1", "ash 6"]
    text = bench.get(address).by_id("of-rack").text
    assert "900 mm" in text and "Board 120 mm × 26 mm, 3 strips" in text and "of another wood: oak 1 (oak)" in text
    take_over(bench, address, "Take over the off-cuts")
    stock = bench.document(address.split("/")[2])["timber"]["stock"]
    assert [(one["name"], one["length"], one["member_width"]) for one in stock] == [
        ("ash 2", "900 mm", "25 mm"),
        ("ash 3", "1000 mm", "25 mm"),
    ]
    assert all(one["on_rack"] and one["in_hand"] and one["count"] == 1 for one in stock)
    assert offered(bench.get(address)) == ["ash 1", "ash 6"]


def test_what_no_piece_can_be_cut_from_is_not_offered(bench: Bench, address: str) -> None:
    """The shortest side is 341 mm, a strip 28 mm wide, and a board loses 5 mm on each edge."""
    put(bench, "340", is_off_cut="yes")
    for width in ("37.9", "38"):
        put(bench, "1500", is_board="yes", width=width, thickness="26")
    assert offered(bench.get(address)) == ["ash 3"]


def test_a_board_too_thin_to_lie_flat_is_offered_on_edge(bench: Bench, address: str) -> None:
    bench.type(bench.setting_out(address.split("/")[2]), {"section.thickness": "40"})
    put(bench, "1500", is_board="yes", width="150", thickness="30")
    text = bench.get(address).by_id("of-rack").text
    assert "ripped on edge into 3 strips: its thickness gives the width of the members" in text
    take_over(bench, address, "Take it over")
    assert "is ripped on edge" in bench.get(address).text


def test_no_more_is_taken_over_than_the_stock_can_hold(
    bench: Bench, address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    for module in ("rack_offered", "rack_beside"):
        monkeypatch.setattr(f"webapp.pages.timber.{module}.LONGEST_STOCK", 2)
    for _ in range(3):
        put(bench, "2400")
    take_over(bench, address, "Take over the first 2")
    assert len(bench.document(address.split("/")[2])["timber"]["stock"]) == 2
    page = bench.get(address).by_id("of-rack")
    assert "holds no more" in page.text and offered(bench.get(address)) == ["ash 3"] and not page.all("button")


def test_who_else_counts_on_a_stick_is_told_everywhere(bench: Bench, address: str) -> None:
    """On the page of each project, on the rack, and before one of them cuts it; either can leave it."""
    put(bench, "2400")
    take_over(bench, address, "Take it over")
    other = bench.new(name="Second job")
    bench.type(bench.setting_out(other), {"species": "Ash", "section.thickness": "20"})
    second = f"/projects/{other}/timber"
    page = bench.get(second).by_id("of-rack")
    assert "Counted on by" in page.text and not [one for one in page.all("button") if "Take over all" in one.text]
    take_over(bench, second, "Take it over")
    for here, there in ((address, second), (second, address)):
        page = bench.get(here).by_id("of-rack")
        assert "“ash 1” is in the stock of another project, too" in page.text
        assert f"{there}#of-rack" in [one.attributes["href"] for one in page.all("a")]
    assert "Second job" in bench.get("/rack").by_id("main").text
    link = to_mark(worked_out(bench, address))
    assert "Second job" in bench.get(link).by_id("main").text
    bench.type(second, {}, do=button(bench.get(second).by_id("of-rack"), "Leave it to the other"))
    for place in (address, link, "/rack"):
        assert "Second job" not in bench.get(place).by_id("main").text
    assert mark(bench, link).status_code == 303


def test_a_project_that_is_cut_counts_on_nothing_more(bench: Bench, address: str, data_dir: Path) -> None:
    """Neither does it miss what another project takes of the stock that it did not need, nor is it changed by that."""
    for length in ("2400", "2300"):
        put(bench, length)
    take_over(bench, address)
    assert bench.get("/rack").text.count("Counted on by") == 2
    link = to_mark(worked_out(bench, address))
    mark(bench, link)
    assert "Counted on by" not in bench.get("/rack").text
    for one in kept(data_dir)["sticks"]:
        bench.post(f"/rack/sticks/{one['id']}/away")
    text = bench.get(address).by_id("of-rack").text
    assert "What is planned here is cut" in text and "no longer on the rack" not in text
    bench.type(address, {"timber.spares": "1"})
    assert "no longer on the rack" in bench.get(address).by_id("of-rack").text


def test_what_is_cut_is_counted_on_no_more(bench: Bench, address: str, data_dir: Path) -> None:
    put(bench, "2400")
    take_over(bench, address, "Take it over")
    assert "Counted on by" in bench.get("/rack").text
    record = mark(bench, to_mark(worked_out(bench, address))).headers["location"]
    put(bench, "2400", tag="ash 1")
    assert "Counted on by" not in bench.get("/rack").text
    for one in kept(data_dir)["sticks"]:
        if one["tag"] == "ash 1":
            bench.post(f"/rack/sticks/{one['id']}/away")
    bench.post(f"{record}/undo")
    assert "Counted on by" in bench.get("/rack").text
    bench.post(f"/projects/{address.split('/')[2]}/delete")
    assert "Counted on by" not in bench.get("/rack").text


def test_a_stick_is_taken_over_once(bench: Bench, address: str) -> None:
    put(bench, "2400")
    do = button(bench.get(address).by_id("of-rack"), "Take it over")
    for _ in range(2):
        bench.type(address, {}, do=do)
    bench.type(address, {}, do="rack-take:nobody,,")
    assert len(bench.document(address.split("/")[2])["timber"]["stock"]) == 1


def test_what_is_gone_from_the_rack_is_pointed_out(bench: Bench, address: str) -> None:
    put(bench, "2400")
    put(bench, "1900")
    take_over(bench, address)
    sticks = [
        one.attributes["id"].removeprefix("stick-") for one in bench.get("/rack").all("li") if "id" in one.attributes
    ]
    bench.post(f"/rack/sticks/{sticks[0]}/away")
    changes = f"/rack?change={sticks[1]}"
    bench.post(changes, sent_by(bench.get(changes)) | {"length": "1850", "do": "save"})
    text = bench.get(address).by_id("of-rack").text
    assert "“ash 1” is no longer on the rack" in text and "“ash 2” is 1850 mm long on the rack" in text
    bench.type(address, {}, do=button(bench.get(address).by_id("of-rack"), "Take out what is gone or changed"))
    assert bench.document(address.split("/")[2])["timber"]["stock"] == []


def test_a_plan_is_marked_as_cut_and_undone(bench: Bench, address: str, data_dir: Path) -> None:
    put(bench, "2400")
    before = kept(data_dir)["sticks"]
    take_over(bench, address, "Take it over")
    link = to_mark(worked_out(bench, address))
    page = bench.get(link).by_id("main")
    assert "ash 1" in page.text and "ash 2" in page.text and "off-cut of ash 1" in page.text
    assert kept(data_dir)["sticks"] == before
    record = mark(bench, link).headers["location"]
    (left,) = kept(data_dir)["sticks"]
    pieces_mm = sum(2 * float(size) for size in outside(bench, address))
    assert 0 < float(left["length"].removesuffix(" mm")) <= 2400 - pieces_mm
    assert (left["tag"], left["species"], left["is_off_cut"], left["width"]) == ("ash 2", "ash", True, "25 mm")
    text = bench.get(record).by_id("main").text
    assert "ash 2" in text and "The plan as it was cut" in text and "Revision" in text
    assert "Cut on" in bench.get(address).by_id("plans").text
    assert "What is planned here is cut" in bench.get(address).by_id("of-rack").text
    assert "no longer on the rack" not in bench.get(address).by_id("of-rack").text
    assert bench.post(f"{record}/undo").status_code == 303
    assert json.dumps(kept(data_dir)["sticks"]) == json.dumps(before)
    assert "Cut, and undone" in bench.get(record).by_id("main").text and to_mark(bench.get(address))
    assert bench.post(f"{record}/undo").status_code == 303
    assert json.dumps(kept(data_dir)["sticks"]) == json.dumps(before)


def outside(bench: Bench, address: str) -> tuple[str, str]:
    """The lengths of the two kinds of side, as the timber page says them."""
    words = bench.get(address).by_id("plans").text.split("long point: ", 1)[1].split(".")[0].replace(",", "").split()
    return words[2], words[6]


def test_a_plan_is_marked_once_unless_it_was_cut_again(bench: Bench, address: str, data_dir: Path) -> None:
    link = to_mark(worked_out(bench, address))
    assert "Nothing leaves the rack" in bench.get(link).text and "usual stick #1" in bench.get(link).text
    page = bench.get(link)
    assert mark(bench, link).status_code == 303
    first, twice = kept(data_dir)["cuts"], mark(bench, link, page=page)
    assert twice.headers["location"] == f"/rack/cuts/{first[0]['id']}" and kept(data_dir)["cuts"] == first
    asked = bench.get(link)
    assert "It was cut a second time" in asked.text and "Mark it again only if" in asked.text
    for _ in range(2):
        assert mark(bench, link, asked).status_code == 303
    assert [one["tag"] for one in kept(data_dir)["sticks"]] == ["Ash 1", "Ash 2"]


@pytest.mark.parametrize(("page", "place"), [("timber", "#plans"), ("/rack", "#cuts")])
def test_undo_leads_back_to_where_it_was_asked(bench: Bench, address: str, page: str, place: str) -> None:
    mark(bench, to_mark(worked_out(bench, address)))
    here = address if page == "timber" else page
    undo = re.compile("/rack/cuts/.*/undo")
    (form,) = [one for one in bench.get(here).all("form") if undo.fullmatch(one.attributes["action"])]
    sent = {one.attributes["name"]: one.attributes["value"] for one in form.all("input")}
    assert bench.post(form.attributes["action"], sent).headers["location"] == f"{here}{place}"
    assert to_mark(bench.get(address))


def test_a_rack_that_changed_meanwhile_is_shown_first(bench: Bench, address: str, data_dir: Path) -> None:
    put(bench, "2400")
    take_over(bench, address, "Take it over")
    link = to_mark(worked_out(bench, address))
    page = bench.get(link)
    put(bench, "500")
    answer = mark(bench, link, page=page)
    assert answer.status_code == 409 and "ash 3" in read(answer.text).by_id("main").text
    assert len(kept(data_dir)["sticks"]) == 2
    assert mark(bench, link, page=read(answer.text)).status_code == 303


def test_a_stick_that_is_gone_is_not_cut(bench: Bench, address: str) -> None:
    put(bench, "2400")
    take_over(bench, address, "Take it over")
    link = to_mark(worked_out(bench, address))
    page = bench.get(link)
    (stick,) = [one.attributes["id"] for one in bench.get("/rack").all("li") if "id" in one.attributes]
    bench.post(f"/rack/sticks/{stick.removeprefix('stick-')}/away")
    asked = bench.get(link)
    assert "no longer on the rack" in asked.text and "It is cut" not in asked.text
    assert mark(bench, link, page=page).status_code == 422


def test_a_changed_job_says_that_another_plan_was_cut(bench: Bench, address: str) -> None:
    put(bench, "2400")
    take_over(bench, address, "Take it over")
    link = to_mark(worked_out(bench, address))
    mark(bench, link)
    bench.type(address, {"timber.spares": "1"})
    text = bench.get(address).by_id("of-rack").text
    assert "Another plan of this project was marked as cut" in text and "“ash 1” is no longer on the rack" in text
    gone = bench.client.get(link)
    assert gone.status_code == 404 and "It was marked as cut on" in read(gone.text).text
    assert read(gone.text).by_id("main").all("a", href=f"{address}#plans")


def test_a_plan_made_stale_by_an_edit_is_not_marked(bench: Bench, address: str, data_dir: Path) -> None:
    put(bench, "2400")
    take_over(bench, address, "Take it over")
    link = to_mark(worked_out(bench, address))
    page = bench.get(link)
    bench.type(address, {"timber.spares": "1"})
    answer = mark(bench, link, page=page)
    assert answer.status_code == 404 and "Something was changed since" in read(answer.text).text
    assert kept(data_dir)["cuts"] == [] and len(kept(data_dir)["sticks"]) == 1


def test_a_cut_that_was_undone_can_be_marked_again(bench: Bench, address: str, data_dir: Path) -> None:
    put(bench, "2400")
    take_over(bench, address, "Take it over")
    link = to_mark(worked_out(bench, address))
    record = mark(bench, link).headers["location"]
    after = kept(data_dir)["sticks"]
    bench.post(f"{record}/undo")
    (again,) = [one.attributes["href"] for one in bench.get(record).all("a") if one.text == "Mark as cut again"]
    assert again == link and mark(bench, again).status_code == 303
    assert [one["length"] for one in kept(data_dir)["sticks"]] == [one["length"] for one in after]


def test_the_rest_of_a_board_comes_back_as_a_board(bench: Bench, address: str, data_dir: Path) -> None:
    put(bench, "2000", is_board="yes", width="300", thickness="26", tag="B1")
    take_over(bench, address, "Take it over")
    mark(bench, to_mark(worked_out(bench, address)))
    boards = [one for one in kept(data_dir)["sticks"] if one["is_board"]]
    assert len(boards) == 1 and boards[0]["origin"] == "rest of B1"
    assert 100 < float(boards[0]["width"].removesuffix(" mm")) < 300 and boards[0]["length"] == "2000 mm"


@pytest.mark.parametrize("place", ["cut/nothing", f"cut/{'0' * 64}"])
def test_a_plan_that_is_not_there_is_said(bench: Bench, address: str, place: str) -> None:
    assert bench.client.get(f"{address}/{place}").status_code == 404
    assert bench.post(f"{address}/{place}").status_code == 404
    assert bench.client.get("/rack/cuts/nobody").status_code == 404
    assert bench.post("/rack/cuts/nobody/undo").status_code == 404


def test_a_record_that_is_damaged_is_no_crash(bench: Bench, address: str, data_dir: Path) -> None:
    record = mark(bench, to_mark(worked_out(bench, address))).headers["location"]
    (path,) = (data_dir / "cuts").iterdir()
    path.write_text("{", "utf-8")
    assert bench.client.get(record).status_code == 424
    path.unlink()
    assert bench.client.get(record).status_code == 424


def test_a_damaged_rack_leaves_the_timber_page_open(bench: Bench, address: str, data_dir: Path) -> None:
    put(bench, "2400")
    (data_dir / "rack.json").write_text("{", "utf-8")
    assert "damaged" in bench.get(address).by_id("of-rack").text
    answer = bench.client.get("/rack")
    assert answer.status_code == 424 and "Start with an empty rack" in read(answer.text).text


def test_a_damaged_rack_can_be_gone_on_with(bench: Bench, data_dir: Path) -> None:
    for length in ("2400", "1900"):
        put(bench, length)
    (data_dir / "rack.json").write_text("{", "utf-8")
    assert "held 1 stick or board" in read(bench.client.get("/rack").text).text
    assert bench.post("/rack/mend").headers["location"] == "/rack"
    assert [one["length"] for one in kept(data_dir)["sticks"]] == ["2400 mm"]
    assert (data_dir / "rack-damaged-1.json").read_text("utf-8") == "{"
