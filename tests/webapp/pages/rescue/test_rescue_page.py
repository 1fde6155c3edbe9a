"""A piece that went wrong, on its page: ways with their cost, and one that the plan is changed to."""

import httpx
import pytest
from pages import Browser, sent_by


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
