"""An address where nothing is leads on to what is nearest."""

import httpx
import pytest
from pages import Browser


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.mark.parametrize(
    ("tail", "says"),
    [("/nothing", "To the project"), ("/bench/nothing/1", "To the bench"), ("/frames/zz/look", "To the project")],
)
def test_under_a_project_the_way_leads_back_to_it(browser: Browser, tail: str, says: str) -> None:
    project_at = f"/projects/{browser.new()}"
    answer = browser.client.get(project_at + tail)
    assert answer.status_code == 404
    assert f'href="{project_at}' in answer.text and says in answer.text


@pytest.mark.parametrize("path", ["/nothing", "/projects/zzzzzzzz/nothing"])
def test_elsewhere_it_leads_to_all_projects(browser: Browser, path: str) -> None:
    assert "To the projects" in browser.client.get(path).text
