"""A piece that went wrong, on its page: ways with their cost, and one that the plan is changed to."""

import time

import httpx
import pytest
from pages import Browser, cut_again, planned_job, sent_by


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


def test_a_way_changes_the_plan_and_undo_takes_it_back(browser: Browser) -> None:
    project_id = browser.new()
    at = f"/projects/{project_id}/bench/rescue"
    page = browser.get(f"{at}?side=top&trouble=short&by=0.5")
    assert "clearance across give 0.5 mm" in page.by_id("main").text and "8 min, not seen" in page.by_id("main").text
    before = browser.document(project_id)["frames"][0]["package"]["clearance_across"]
    form = next(one for one in page.all("form") if "clearance across" in sent_by(page, one).get("says", ""))
    number = next(one for one in form.all("button")).attributes["value"]
    answer = browser.post(at, sent_by(page, form) | {"way": number})
    assert answer.headers["location"] == f"{at}?taken=yes"
    after = browser.document(project_id)["frames"][0]["package"]["clearance_across"]
    assert float(after.split()[0]) == pytest.approx(float(before.split()[0]) - 0.5)
    browser.post(at, sent_by(page, form) | {"way": "99"})
    assert browser.document(project_id)["frames"][0]["package"]["clearance_across"] == after


@pytest.mark.parametrize("text", ["thick", "0", "-3", "900", "1,500"])
def test_a_text_that_is_no_loss_is_refused_in_words(browser: Browser, text: str) -> None:
    at = f"/projects/{browser.new()}/bench/rescue"
    page = browser.get(f"{at}?side=top&trouble=short&by={text}")
    assert page.by_id("wrong").text and "Ways out" not in page.by_id("main").text


def off_cuts(browser: Browser, at: str) -> list[str]:
    """The lines of the list of off-cuts."""
    return [row.text for row in browser.get(f"{at}/timber/lists/left").by_id("main").all("tr")]


def test_a_side_cut_again_is_on_the_card_and_off_the_off_cut(browser: Browser) -> None:
    at = planned_job(browser)
    before = off_cuts(browser, at)
    cut_again(browser, at, wood="the off-cut of")
    assert len(browser.document(at.split("/")[2])["bench"]["cut_again"]) == 1
    card = browser.get(f"{at}/bench/mitre/2").by_id("main").text
    assert "Top (cut again)" in card and "from the cutoff of" in card
    assert off_cuts(browser, at) != before
    assert "cut again" in browser.get(f"{at}/timber/lists/again").by_id("main").text
    (button,) = [one for one in browser.get(f"{at}/bench").by_id("as-cut").all("button") if one.text == "Remove"]
    browser.type(f"{at}/bench", {}, do=button.attributes["value"])
    assert off_cuts(browser, at) == before


def test_a_side_cut_again_shortens_the_stick_of_the_rack(browser: Browser) -> None:
    at = f"/projects/{browser.new()}"
    section = browser.document(at.split("/")[2])["frames"][0]["section"]
    browser.type(
        "/rack",
        {"tag": "ash-9", "length": "900 mm", "width": section["face_width"], "thickness": section["thickness"]},
    )
    cut_again(browser, at, wood="ash-9")
    rack = browser.get("/rack").by_id("main").text
    assert "900 mm" not in rack and "ash-9" in rack
    assert "from ash-9 on the rack" in browser.get(f"{at}/bench/mitre/2").by_id("main").text


def test_wood_that_is_bought_for_a_side_is_on_the_shopping_list(browser: Browser) -> None:
    at = f"/projects/{browser.new()}"
    page = browser.get(f"{at}/bench/rescue?side=left&trouble=split+end&by=20")
    form = next(one for one in page.all("form") if sent_by(page, one).get("says", "").startswith("Buy wood"))
    number = next(one for one in form.all("button")).attributes["value"]
    browser.post(f"{at}/bench/rescue", sent_by(page, form) | {"way": number})
    assert "A side is cut again" in browser.get(f"{at}/timber/lists/shopping").by_id("main").text


def test_every_way_with_a_button_can_be_taken_and_leaves_the_job_as_able_as_before(browser: Browser) -> None:
    """Each is taken on a job of its own: its light stops at nothing, and cards and lists still open."""

    def is_stopped(at: str) -> bool:
        return "not-yet" in browser.get(f"{at}/bench").by_id("verdict").attributes["class"].split()

    pressed = 0
    while True:
        at = planned_job(browser)
        assert not is_stopped(at)
        page = browser.get(f"{at}/bench/rescue?side=top&trouble=split+end&by=2")
        forms = [one for one in page.all("form") if sent_by(page, one).get("says")]
        if pressed == len(forms):
            break
        number = next(one for one in forms[pressed].all("button")).attributes["value"]
        answer = browser.post(f"{at}/bench/rescue", sent_by(page, forms[pressed]) | {"way": number})
        assert answer.headers["location"].endswith("taken=yes")
        assert not is_stopped(at)
        assert browser.get(f"{at}/bench/mitre/1") and browser.get(f"{at}/timber")
        pressed += 1
    assert pressed >= 4


def test_sides_that_their_sticks_have_no_room_for_are_planned_again_by_one_press(browser: Browser) -> None:
    at = planned_job(browser)
    page = browser.get(f"{at}/bench/width/1")
    (form,) = [one for one in page.all("form") if one.attributes.get("action", "").endswith("/as-cut")]
    browser.post(form.attributes["action"], sent_by(page, form) | {"face width": "300"})
    page = browser.get(f"{at}/bench")
    assert "No room on their sticks" in page.by_id("as-cut").text
    assert (
        "work out again" in browser.get(at).by_id("verdict").text.lower() or "as they came out" in browser.get(at).text
    )
    answer = browser.post(f"{at}/bench/other-wood", sent_by(page, "other-wood"))
    assert answer.headers["location"] == f"{at}/timber#plans"
    assert browser.document(at.split("/")[2])["timber"]["as_cut"] is True
    assert "No room on their sticks" not in browser.get(f"{at}/bench").by_id("as-cut").text
    for _ in range(200):
        if "Worked out." in browser.get(f"{at}/timber").by_id("plans").text:
            break
        time.sleep(0.05)
    assert "1005 mm" in browser.get(f"{at}/timber/lists/pieces").by_id("main").text, "455 mm, and 275 mm at both ends"
