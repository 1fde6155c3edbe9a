"""The list of projects: late ones first, found by name, client or wood, forty a page."""

import json
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import httpx
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pages import Browser

from framecalc.drawing.job.fronts import UP_MM
from webapp.data.summaries import Summary
from webapp.pages.projects.finding import A_PAGE, Due, due_of, in_order, is_found, page_of_list

TODAY = date(2026, 11, 29)


def project(name: str = "Oak frame", **more: Any) -> Summary:
    usual: dict[str, Any] = {"project_id": "k3fw07qz", "name": name, "number": 1, "when": "", "problem": ""}
    return Summary(**(usual | more))


@pytest.mark.parametrize(
    ("find", "finds"),
    [("", True), ("oak", True), ("OAK", True), ("ellis", True), ("walnut", True), ("ellis oak", True), ("ash", False),
     ("oak ash", False), ("  ", True), ("fram", True)],
)  # fmt: skip
def test_every_word_is_looked_for_in_name_client_and_wood(find: str, finds: bool) -> None:
    assert is_found(project(client="Nora Ellis", woods=("walnut",)), find) is finds


@pytest.mark.parametrize(
    ("days", "due"), [(-1, Due.LATE), (0, Due.SOON), (7, Due.SOON), (8, Due.LATER), (None, Due.NO_DAY)]
)
def test_a_day_has_its_part_of_the_list(days: int | None, due: Due) -> None:
    one = project(due=None if days is None else TODAY + timedelta(days=days))
    assert due_of(one, today=TODAY) is due


summaries = st.lists(
    st.builds(
        project,
        st.text(max_size=5),
        when=st.sampled_from(["2026-01-01", "2026-02-01", "2026-03-01"]),
        due=st.none() | st.dates(date(2026, 11, 1), date(2026, 12, 31)),
        is_over=st.booleans(),
    ),
    max_size=100,
)


@given(summaries)
def test_the_list_runs_from_the_latest_to_the_last_and_loses_nothing(found: list[Summary]) -> None:
    ordered = in_order(found, today=TODAY)
    assert sorted(map(repr, ordered)) == sorted(map(repr, found))
    parts = [list(Due).index(due_of(one, today=TODAY)) for one in ordered]
    assert parts == sorted(parts)
    days = [one.due for one in ordered if one.due and not one.is_over]
    assert days == sorted(days)


@given(summaries, st.integers(-3, 9))
def test_the_pages_together_are_the_list(found: list[Summary], number: int) -> None:
    first = page_of_list(found, find="", number=1, today=TODAY)
    pages = [page_of_list(found, find="", number=at, today=TODAY) for at in range(1, first.pages + 1)]
    shown = [one for page in pages for _, part in page.parts for one in part]
    assert shown == list(in_order(found, today=TODAY))
    assert all(sum(len(part) for _, part in page.parts) <= A_PAGE for page in pages)
    assert 1 <= page_of_list(found, find="", number=number, today=TODAY).number <= first.pages


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


def take(browser: Browser, name: str, **more: Any) -> str:
    """Start a project and fill in whom it is for, and when it is due."""
    project_id = browser.new(name=name)
    assert browser.type(f"/projects/{project_id}", more).status_code == 303
    return project_id


def names(browser: Browser, address: str = "/") -> list[str]:
    return [one.all("h4")[0].text for one in browser.get(address).all("article")]


def test_the_list_shows_days_and_next_steps_the_late_ones_first(browser: Browser) -> None:
    today = date.today()
    take(browser, "Later", **{"way.due": (today + timedelta(days=30)).isoformat()})
    take(browser, "No day")
    late = take(browser, "Late", client="Tom Baker", **{"way.due": (today - timedelta(days=2)).isoformat()})
    over = take(browser, "Over", **{"way.due": (today - timedelta(days=9)).isoformat()})
    browser.post(f"/projects/{over}/way/hand-over", {"do": "done"})
    assert names(browser) == ["Late", "Later", "No day", "Over"]
    entry = browser.get("/").by_id(f"project-{late}").text
    assert "Tom Baker" in entry and "2 days late" in entry and "Confirm" in entry
    assert "late" not in browser.get("/").by_id(f"project-{over}").text


def test_a_project_is_found_by_its_client_without_scripts(browser: Browser) -> None:
    take(browser, "One", client="Nora Ellis")
    take(browser, "Two", client="Tom Baker")
    page = browser.get("/")
    (form,) = page.all("form", role="search")
    assert (form.attributes["method"], form.attributes["action"]) == ("get", "/")
    assert names(browser, "/?find=baker") == ["Two"]
    assert names(browser, "/?find=nobody") == []
    assert "No project has “nobody”" in browser.get("/?find=nobody").by_id("list").text


@pytest.mark.parametrize("query", ["page=0", "page=-1", "page=x", "page=999999", "find=%00%ff", "find=" + "x" * 5000])
def test_whatever_is_asked_for_is_answered(browser: Browser, query: str) -> None:
    browser.new()
    assert browser.client.get(f"/?{query}").status_code == 200


def test_forty_stand_on_a_page(browser: Browser, data_dir: Path) -> None:
    first = browser.new(name="Frame 0")
    text = (data_dir / f"projects/{first}/r000001.json").read_text("utf-8")
    for number in range(1, A_PAGE + 2):
        folder = data_dir / f"projects/{number:08d}"
        folder.mkdir()
        (folder / "r000001.json").write_text(text.replace('"Frame 0"', f'"Frame {number}"'), "utf-8")
    assert len(names(browser)) == A_PAGE
    (further,) = [one for one in browser.get("/").by_id("list").all("a") if "Further" in one.text]
    assert len(names(browser, further.attributes["href"])) == 2


@pytest.mark.parametrize("way", [[], "soon", {"due": 7, "done": None}, {"due": ["x"], "done": 3}])
@pytest.mark.parametrize("frames", [None, "oak", [1], [{"species": 5}]])
def test_a_spoiled_file_stands_in_the_list(browser: Browser, data_dir: Path, way: object, frames: object) -> None:
    file = data_dir / f"projects/{browser.new(name='Oak')}/r000001.json"
    file.write_text(json.dumps(json.loads(file.read_text("utf-8")) | {"way": way, "frames": frames, "client": 5}))
    assert names(browser) == ["Oak"]


def test_a_small_frame_is_seen_beside_a_large_one(browser: Browser) -> None:
    """Fault: one wide frame in the list made a dot of the picture of every other job."""
    small, large = browser.new(across="60", up="90"), browser.new(across="2400", up="300")
    page = browser.get("/")
    for job in (small, large):
        (front,) = page.by_id(f"project-{job}").all("a.small-fronts svg")
        across, up = (float(text) for text in front.attributes["viewBox"].split()[2:])
        assert up == UP_MM and across > UP_MM / 2
