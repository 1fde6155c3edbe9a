"""The timber page of a new frame."""

import httpx
import pytest
from pages import Browser


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def address(browser: Browser) -> str:
    """The timber page of a frame of 341 × 441 mm outside, of ash members 25 mm wide and 20 mm thick."""
    project_id = browser.new()
    browser.type(browser.setting_out(project_id), {"species": "Ash", "section.thickness": "20"})
    return f"/projects/{project_id}/timber"
