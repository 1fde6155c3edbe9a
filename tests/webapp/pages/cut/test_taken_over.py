"""What the rack offers a plan, and what is taken over from it."""

from pathlib import Path

import pytest
from pages import Browser, sent_by
from racked import button, kept, mark, offered, put, take_over, to_mark, worked_out


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
