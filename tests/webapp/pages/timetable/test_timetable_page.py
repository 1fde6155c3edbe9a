"""The timetable on its page: what is begun late moves the rest, on the card too, and the calendar file follows."""

from datetime import datetime

import httpx
import pytest
from pages import Browser, sent_by


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


def job(browser: Browser, *, copies: int) -> tuple[str, str, str]:
    """A job of so many copies of a frame: its timetable, its id, and the id of its frame."""
    project_id = browser.new()
    frame_id = browser.document(project_id)["frames"][0]["id"]
    browser.type(f"/projects/{project_id}/frames/{frame_id}/setting-out", {f"frames.{frame_id}.count": str(copies)})
    return f"/projects/{project_id}/bench/glue-up-timetable", project_id, frame_id


def turns(browser: Browser, at: str) -> list[str]:
    return [
        " ".join(one.text.split()) for one in browser.get(at).by_id("turns").all("li") if "data-frees" in one.attributes
    ]


def unfolded(text: str) -> list[str]:
    """The lines of a calendar file as a calendar reads them."""
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))
    return text.replace("\r\n ", "").split("\r\n")


def test_more_clamps_end_sooner_and_the_page_says_why(browser: Browser) -> None:
    at, _, _ = job(browser, copies=4)
    page = browser.get(at).by_id("turns").text
    assert (
        "No order ends before 9:27" in page
        and "2 clamp sets take 4 frames in turn" in page
        and "One clamp set more" in page
    )
    browser.type(at, {"bench.clamp_sets": "4"})
    page = browser.get(at).by_id("turns").text
    assert "No order ends before 9:06: one worker needs 36 min of work, and the last must set" in page
    assert "Another clamp set saves nothing." in page


def test_what_is_begun_late_moves_the_rest_and_is_ticked_on_its_card(browser: Browser) -> None:
    at, project_id, frame_id = job(browser, copies=2)
    browser.type(at, {"bench.clamp_sets": "1"})
    assert ["glue 8:00" in turns(browser, at)[0], "glue 8:39" in turns(browser, at)[1]] == [True, True]
    browser.type(at, {"beside-begun-at": "8:20"}, do=f"begin:{frame_id}:1")
    first, second = turns(browser, at)
    assert "begun 8:20 · clamps off 8:59" in first and "glue 8:59 · clamps off 9:38" in second
    bench = browser.document(project_id)["bench"]
    assert bench["glue_day"] == datetime.now().date().isoformat()
    card = browser.get(f"/projects/{project_id}/bench/glue")
    pressed = [one for one in card.all("button") if one.attributes.get("class") == "tick"]
    assert [one.attributes["aria-pressed"] for one in pressed] == ["true", "false"]
    browser.post(pressed[0].attributes["formaction"], {"done": "no"})
    assert "glue 8:00" in turns(browser, at)[0] and browser.document(project_id)["bench"]["glued"] == []


def test_a_tick_on_the_card_is_a_frame_begun(browser: Browser) -> None:
    at, project_id, frame_id = job(browser, copies=1)
    card = browser.get(f"/projects/{project_id}/bench/glue")
    (tick,) = [one for one in card.all("button") if one.attributes.get("class") == "tick"]
    for _ in range(2):
        browser.post(tick.attributes["formaction"], {"done": "yes"})
    (begun,) = browser.document(project_id)["bench"]["glued"]
    assert begun["frame"] == frame_id and begun["day"] == 1
    assert f"begun {begun['at']}" in turns(browser, at)[0]


def test_a_time_that_is_none_stays_with_a_sentence(browser: Browser) -> None:
    at, project_id, frame_id = job(browser, copies=1)
    answer = browser.type(at, {"beside-begun-at": "half past"}, do=f"begin:{frame_id}:1")
    assert "Enter a time of the day, such as 8:30" in answer.text
    assert browser.document(project_id)["bench"]["glued"] == []


def test_glue_that_skins_too_soon_stops_the_gluing(browser: Browser) -> None:
    at, project_id, _ = job(browser, copies=1)
    browser.type(at, {"bench.open_minutes": "2"})
    says = "Closing a frame takes 3 min, the glue stays open 2 min."
    assert says in browser.get(at).by_id("turns").text
    assert says in browser.get(f"/projects/{project_id}/bench").by_id("glue-up").text
    browser.type(at, {"bench.open_minutes": "", "bench.temperature": "6"})
    assert "Too cold for yellow wood glue: it wants 10 °C or more." in browser.get(at).by_id("turns").text


def test_the_calendar_file_has_every_step_with_an_alarm(browser: Browser) -> None:
    at, _, _ = job(browser, copies=2)
    browser.type(at, {"bench.glue_day": "2026-12-01"})
    answer = browser.client.get(f"{at}.ics")
    assert answer.headers["content-type"].startswith("text/calendar")
    lines = unfolded(answer.text)
    assert lines.count("BEGIN:VEVENT") == lines.count("BEGIN:VALARM") == 4
    assert "DTSTART:20261201T080000" in lines and "DTSTART:20261201T083900" in lines
    assert len({line for line in lines if line.startswith("UID:")}) == 4


def test_more_frames_than_one_timetable_takes_are_refused_in_words(browser: Browser) -> None:
    at, _, _ = job(browser, copies=61)
    assert "A timetable takes 60 frames at a time; this job has 61" in browser.get(at).by_id("turns").text
    assert browser.client.get(f"{at}.ics").status_code == 422


def test_hands_rest_on_closed_days_and_glue_goes_on_setting(browser: Browser) -> None:
    at, _, _ = job(browser, copies=3)
    friday = {"bench.glue_day": "2026-12-04", "bench.clamp_sets": "1", "bench.glue": "epoxy"}
    browser.type(at, friday)
    assert "glue day 2, 8:00" in browser.get(at).by_id("turns").text
    browser.type(at, {"bench.week": "Monday to Friday"})
    assert "glue day 4, 8:00" in browser.get(at).by_id("turns").text


def test_the_shop_has_times_of_its_own_and_a_new_job_goes_by_them(browser: Browser) -> None:
    def send(**typed: str) -> str:
        page = browser.get("/shop")
        browser.post("/shop", sent_by(page, "shop-form") | typed)
        return browser.client.get("/shop").text

    path = send(do="add-glue").partition('name="glues.')[2].partition(".")[0]
    of = f"glues.{path}"
    send(**{f"{of}.open_minutes": "8", f"{of}.clamped_minutes": "50", "do": "save"})
    at, _, _ = job(browser, copies=1)
    assert "Open time 8 min, in the clamps 50 min, by the Shop's own times." in browser.get(at).by_id("turns").text
    browser.type(at, {"bench.clamped_minutes": "20"})
    assert "in the clamps 20 min" in browser.get(at).by_id("turns").text
