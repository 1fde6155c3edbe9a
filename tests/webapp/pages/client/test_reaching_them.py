"""A new link is told with what reaches it: the file alone where only this computer is served."""

from typing import Any

import httpx
import pytest
from pages import Browser, read
from shared import start_job

from webapp.server.network import answers


def made(browser: Browser, project_id: str) -> Any:
    sent = {"for_whom": "Ada", "photo": "yes", "days": "30"}
    return read(browser.post(f"/projects/{project_id}/shares", sent).text).by_id("made")


def test_without_a_network_the_file_comes_first_and_no_code_leads_a_telephone_to_itself(
    client: httpx.Client,
) -> None:
    browser = Browser(client)
    section = made(browser, browser.new())
    assert not section.all("figure") and "not served to a network" in section.text and "--lan" in section.text
    assert section.all("a")[0].attributes["href"].endswith("/frame.html")
    assert section.by_id("link").attributes["value"].startswith("http://127.0.0.1:")


def test_with_a_network_the_code_the_copy_and_whether_it_answers_are_there(lan_app: Any, here: httpx.Client) -> None:
    section = made(Browser(here), start_job(lan_app).project_id)
    assert section.all("figure") and section.all("button", **{"data-copies": "link"})
    assert "does not answer here" in section.by_id("answers").text  # nobody knows the name of the tests
    assert [one for one in section.all("a") if one.attributes["href"].endswith("/frame.html")]


@pytest.mark.parametrize(("name", "is_there"), [("127.0.0.1", True), ("no-such-name.test", False)])
def test_an_address_is_asked_whether_it_answers(here: httpx.Client, name: str, is_there: bool) -> None:
    port = httpx.URL(str(here.base_url)).port
    assert port and answers(name, port=port) is is_there
    assert not answers("127.0.0.1", port=1)
