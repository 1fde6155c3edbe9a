"""Two revisions side by side, names of revisions, and copies to try something in."""

import httpx
import pytest
from pages import Browser


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def project(browser: Browser) -> str:
    """A project of three revisions: a wider face, then another number of frames, which no drawing shows."""
    project_id = browser.new(name="Hall")
    address = browser.setting_out(project_id)
    browser.type(address, {"section.face_width": "30"})
    browser.type(address, {"count": "2"})
    return project_id


def test_two_revisions_stand_side_by_side_in_words_and_drawings(browser: Browser, project: str) -> None:
    page = browser.get(f"/projects/{project}/revisions/compare?before=1&after=2")
    assert [line.text for line in page.by_id("main").all("li")] == ["Face width: 25 mm → 30 mm"]
    titles = [svg.all("title")[0].text for svg in page.all("svg") if "drawing" in svg.attributes.get("class", "")]
    assert len(titles) == 4 and len(set(titles)) > 1
    ids = [element.attributes["id"] for element in page.walk() if "id" in element.attributes]
    assert len(ids) == len(set(ids))


def test_what_is_drawn_the_same_is_not_drawn_twice(browser: Browser, project: str) -> None:
    page = browser.get(f"/projects/{project}/revisions/compare?before=2&after=3")
    assert "Both are drawn the same" in page.text
    assert len(page.by_id("main").all("li")) == 1
    same = browser.get(f"/projects/{project}/revisions/compare?before=3&after=3")
    assert "Nothing: the two are alike" in same.text


def test_a_number_that_is_none_is_the_newest_and_one_that_is_not_there_is_said(browser: Browser, project: str) -> None:
    page = browser.get(f"/projects/{project}/revisions/compare?before=x&after=")
    assert [field.attributes["value"] for field in page.all("input", type="text")] == ["2", "3"]
    answer = browser.client.get(f"/projects/{project}/revisions/compare?before=9&after=1")
    assert answer.status_code == 404 and "No revision 9" in answer.text


def test_a_what_if_copy_begins_as_that_revision_and_says_where_it_comes_from(browser: Browser, project: str) -> None:
    answer = browser.post(f"/projects/{project}/revisions/1/what-if", {})
    copy_id = answer.headers["location"].rsplit("/", 1)[1]
    document = browser.document(copy_id)
    assert document["name"] == "Hall – what if"
    assert document["frames"][0]["section"]["face_width"] == "25 mm"
    for page in (f"/projects/{copy_id}", f"/projects/{copy_id}/revisions"):
        assert "revision 1 of “Hall”" in browser.get(page).text
    assert browser.document(project)["frames"][0]["section"]["face_width"] == "30 mm", "the job itself is spared"


def test_a_revision_is_given_a_name_and_loses_it_again(browser: Browser, project: str) -> None:
    address = f"/projects/{project}/revisions"
    assert browser.post(f"{address}/2/name", {"name": "As quoted"}).status_code == 303
    assert "As quoted" in browser.get(address).by_id("revision-2").text
    refused = browser.post(f"{address}/2/name", {"name": "x" * 81})
    assert refused.status_code == 422 and "at most 80 characters" in refused.text and "x" * 81 in refused.text
    browser.post(f"{address}/2/name", {"name": " "})
    assert "As quoted" not in browser.get(address).text
    assert browser.post(f"{address}/9/name", {"name": "None"}).status_code == 404
