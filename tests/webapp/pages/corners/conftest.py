"""The corners page of a new frame."""

import httpx
import pytest
from grouped import GroupedBrowser


@pytest.fixture
def browser(client: httpx.Client) -> GroupedBrowser:
    return GroupedBrowser(client)


@pytest.fixture
def address(browser: GroupedBrowser) -> str:
    return browser.setting_out(browser.new()).replace("setting-out", "corners")
