"""Pieces ticked off keep their stick: after a change of sizes they stay, and the rest is planned over what is left."""

import time

import httpx
import pytest
from pages import Browser, planned_job, sent_by


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


def tick(browser: Browser, at: str, *sides: str, name: str = "pieces") -> None:
    """Tick off the lines of these sides, or of everything at a stop."""
    for side in sides:
        page = browser.get(f"{at}/timber/lists/{name}")
        (row,) = [one for one in page.all("tr") if side in one.text and one.all("button")]
        (button,) = row.all("button")
        is_done = button.attributes["aria-pressed"] == "true"
        browser.post(button.attributes["formaction"], sent_by(page, "ticks") | {"done": "no" if is_done else "yes"})


def change_clearance(browser: Browser, at: str, across: str) -> None:
    frame = browser.document(at.split("/")[2])["frames"][0]["id"]
    browser.type(f"{at}/frames/{frame}/setting-out", {f"frames.{frame}.package.clearance_across": across})


def plan_again(browser: Browser, at: str) -> str:
    """Plan the cuts, and what the page says of them."""
    browser.post(f"{at}/bench/plan", sent_by(browser.get(f"{at}/bench"), "plan-cuts"))
    for _ in range(200):
        said: str = browser.get(f"{at}/timber").by_id("plans").text
        if "Worked out." in said or "All pieces are cut." in said:
            return said
        time.sleep(0.05)
    raise AssertionError("no plan in ten seconds")


def pieces(browser: Browser, at: str) -> dict[str, tuple[str, str]]:
    """Every piece by its side: its long point, and whether it is ticked."""
    rows = [one for one in browser.get(f"{at}/timber/lists/pieces").all("tr") if one.all("button")]
    cells = [(row.all("td")[-2].text, row.all("td")[-1].text, row.all("button")[0]) for row in rows]
    return {piece.split("/1 ")[1]: (long, button.attributes["aria-pressed"]) for piece, long, button in cells}


def test_what_is_cut_stays_and_the_rest_is_planned_over_what_is_left(browser: Browser) -> None:
    at = planned_job(browser)
    tick(browser, at, "left", "top")
    assert [one["side"] for one in browser.document(at.split("/")[2])["timber"]["cut"]] == ["left", "top"]
    before = pieces(browser, at)
    change_clearance(browser, at, "1")
    assert "1 of" not in browser.get(f"{at}/bench").by_id("bench-cards").text
    said = plan_again(browser, at)
    assert "What is cut stays." in said and "Board #1 is not ripped further: its rest is for the rack." in said
    assert "what begun ones have left" in said and "share these boards" not in said
    assert pieces(browser, at) == {
        "left": before["left"],
        "top: trim to 453 mm": ("455 mm", "true"),
        "right": before["right"],
        "bottom": ("453 mm", "false"),
    }
    stops = browser.get(f"{at}/timber/lists/stops").by_id("main").text
    assert "453 mm" in stops and "455 mm" not in stops, "nothing more is cut at the old stop"
    assert "Nothing to buy." in browser.get(f"{at}/timber").by_id("plans").text, "the begun board is there"
    assert "nothing on this list" in browser.get(f"{at}/timber/lists/rip").by_id("main").text, "and is ripped"
    light = browser.get(at).by_id("verdict").text
    page = browser.get(f"{at}/bench")
    assert "top was cut 455 mm, now 453 mm: trim it." in page.by_id("as-cut").text and "warning" in light
    (done,) = [one for one in page.by_id("as-cut").all("button") if one.attributes.get("value", "").startswith("trimm")]
    browser.type(f"{at}/bench", {}, do=done.attributes["value"])
    assert "trim it" not in browser.get(f"{at}/bench").by_id("as-cut").text
    assert pieces(browser, at)["top: trimmed to 453 mm"] == ("455 mm", "true")


def test_sizes_that_come_back_bring_back_the_plan_and_its_ticks(browser: Browser) -> None:
    at = planned_job(browser)
    tick(browser, at, "left")
    before, was = pieces(browser, at), browser.document(at.split("/")[2])["frames"][0]["package"]["clearance_across"]
    change_clearance(browser, at, "1")
    plan_again(browser, at)
    assert pieces(browser, at) != before
    change_clearance(browser, at, was)
    assert pieces(browser, at) == before
    tick(browser, at, "left")
    assert browser.document(at.split("/")[2])["timber"] | {"stock": []} == (
        browser.document(at.split("/")[2])["timber"] | {"stock": [], "cut": [], "done": []}
    )


def test_a_stop_ticked_off_ticks_its_pieces_and_all_cut_needs_no_search(browser: Browser) -> None:
    at = planned_job(browser)
    tick(browser, at, "left", "top", name="stops")
    assert {ticked for _, ticked in pieces(browser, at).values()} == {"true"}
    tick(browser, at, "left")
    stops = [one for one in browser.get(f"{at}/timber/lists/stops").all("tr") if one.all("button")]
    done = {"left" in one.text: one.all("button")[0].attributes["aria-pressed"] for one in stops}
    assert done == {True: "false", False: "true"}, "a stop is done when all its pieces are"
    tick(browser, at, "left")
    change_clearance(browser, at, "1")
    assert "All pieces are cut." in plan_again(browser, at)
    plans = browser.get(f"{at}/timber").by_id("plans")
    assert all(one.text for one in plans.all("summary")) and "share these boards" not in plans.text, "nothing to prove"
    assert "325.5 mm" not in browser.get(f"{at}/timber/lists/left").by_id("main").text
    assert "321.5 mm" in browser.get(f"{at}/timber/lists/left").by_id("main").text, "455 mm were cut, not 453 mm"


def test_a_piece_that_is_too_short_now_is_cut_again_from_what_is_left(browser: Browser) -> None:
    at = planned_job(browser)
    tick(browser, at, "top")
    change_clearance(browser, at, "4")
    plan_again(browser, at)
    page = browser.get(f"{at}/bench")
    assert "too short." in page.by_id("as-cut").text and "too short" in browser.get(at).by_id("verdict").text
    (ways,) = [one for one in page.by_id("as-cut").all("a") if one.text == "Ways out"]
    assert "Cut the top side again" in browser.get(ways.attributes["href"]).by_id("main").text
    (again,) = [one for one in page.by_id("as-cut").all("button") if one.text == "Cut it again"]
    browser.type(f"{at}/bench", {}, do=again.attributes["value"])
    assert "too short" not in browser.get(f"{at}/bench").by_id("as-cut").text
    plan_again(browser, at)
    said = browser.get(f"{at}/timber/lists/pieces").by_id("main").text
    assert "top (spoiled)" in said and pieces(browser, at)["top"][1] == "false"


def test_what_is_left_of_a_stick_of_another_section_is_said(browser: Browser) -> None:
    at = planned_job(browser)
    tick(browser, at, "top")
    frame = browser.document(at.split("/")[2])["frames"][0]["id"]
    browser.type(f"{at}/frames/{frame}/setting-out", {"section.face_width": "30"})
    said = plan_again(browser, at)
    assert "Board #1 was begun in another section: put what is left of it on the rack." in said
    assert "cut it again" in browser.get(f"{at}/bench").by_id("as-cut").text


def test_a_copy_of_a_job_begins_with_nothing_ticked(browser: Browser) -> None:
    at = planned_job(browser)
    tick(browser, at, "top")
    copy = browser.post(f"{at}/copy").headers["location"]
    assert {ticked for _, ticked in pieces(browser, copy).values()} == {"false"}, "nothing of it is cut"
