"""The finish by the day, rags at every coat of oil, and hours that only two other jobs make an experience."""

import httpx
import pytest
from pages import Browser


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


def finish_of(browser: Browser) -> str:
    return f"/projects/{browser.new()}/bench/finish"


def worked(browser: Browser, minutes: int) -> str:
    """A job in which gluing up took so long."""
    at = finish_of(browser)
    browser.type(at, {"beside-step": "Gluing up", "beside-minutes": str(minutes)}, do="write-hours")
    return at


def test_every_coat_of_oil_has_its_day_and_its_rags(browser: Browser) -> None:
    at = finish_of(browser)
    browser.type(at, {"bench.finish_kind": "drying oil", "bench.finish_day": "2026-12-01"})
    coats = browser.get(at).by_id("coats")
    assert [" ".join(one.text.split()) for one in coats.all("li") if one.text.startswith("Coat")] == [
        f"Coat {number} Dec {number}, 2026 Rags: spread flat or in water." for number in (1, 2, 3)
    ]
    assert "Close in the package: Dec 24, 2026" in " ".join(coats.text.split())
    assert "Rags catch fire by themselves" in coats.text
    browser.type(at, {"bench.finish_kind": "shellac"})
    assert "Rags" not in browser.get(at).by_id("coats").text


def test_the_day_due_is_met_or_missed_and_by_what(browser: Browser) -> None:
    at = finish_of(browser)
    browser.type(at.removesuffix("/bench/finish"), {"way.due": "2026-12-20"})
    browser.type(at, {"bench.finish_kind": "drying oil"})
    assert "Due Dec 20, 2026: first coat by Nov 27, 2026." in browser.get(at).by_id("coats").text
    browser.type(at, {"bench.finish_day": "2026-12-01"})
    assert "4 days late; coats take 3 days, curing 21 days" in browser.get(at).by_id("coats").text
    browser.type(at, {"bench.cure_days": "5"})
    assert "met, 12 days to spare" in browser.get(at).by_id("coats").text


def test_one_job_is_no_experience_and_two_are_offered_to_the_costs(browser: Browser) -> None:
    worked(browser, 30)
    at = finish_of(browser)
    assert "Use in Costs" not in browser.get(at).by_id("hours").text
    past = worked(browser, 60)
    page = browser.get(at).by_id("hours")
    assert "45 min (30 min to 1 h, 2 jobs)" in page.text
    browser.type(at, {}, do="use-hours:Gluing up")
    items = browser.document(at.split("/")[2])["quote"]["items"]
    assert [(one["name"], one["amount"]) for one in items if one["name"] == "Gluing up"] == [("Gluing up", "0.75")]
    assert "Past jobs, one frame: 45 min (30 min to 1 h, 2 jobs)." in browser.get(f"{at.split('/bench')[0]}/costs").text
    (button,) = [one for one in browser.get(past).all("button") if "remove-hours" in one.attributes.get("value", "")]
    browser.type(past, {}, do=button.attributes["value"])
    assert "Use in Costs" not in browser.get(at).by_id("hours").text


def test_a_copy_brings_no_hours_and_minutes_that_are_none_are_refused(browser: Browser) -> None:
    at = worked(browser, 30)
    project_id = at.split("/")[2]
    browser.post(f"/projects/{project_id}/copy", {"name": "again"})
    assert "jobs)" not in browser.get(finish_of(browser)).by_id("hours").text
    for text in ("", "0", "1.5", "9999"):
        answer = browser.type(at, {"beside-step": "Gluing up", "beside-minutes": text}, do="write-hours")
        assert "Enter whole minutes" in answer.text
    assert len(browser.document(project_id)["bench"]["hours"]) == 1


def test_a_card_is_timed_from_start_to_stop(browser: Browser) -> None:
    at = finish_of(browser).removesuffix("/finish")
    project_id = at.split("/")[2]
    browser.post(f"{at}/timer", {"step": "Gluing up", "run": "yes", "place": "glue/1"})
    assert browser.document(project_id)["bench"]["running"] == "Gluing up"
    assert "Timed: Gluing up" in browser.get(f"{at}/glue/1").by_id("main").text
    answer = browser.post(f"{at}/timer", {"step": "Gluing up", "run": "no", "place": "glue/1"})
    assert answer.headers["location"] == f"{at}/glue/1"
    bench = browser.document(project_id)["bench"]
    assert bench.get("running") is None and len(bench["hours"]) <= 1
