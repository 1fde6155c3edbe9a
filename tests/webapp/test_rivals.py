"""Saves that meet on one project: whatever was acknowledged is on the disk."""

from collections.abc import Iterator

import httpx
import pytest
from pages import Browser
from rivals import lost_of_pairs, lost_of_ticks
from serving import client_of

pytestmark = pytest.mark.usefixtures("slow_disk")


@pytest.fixture
def browsers(client: httpx.Client, server: str) -> Iterator[tuple[Browser, Browser]]:
    """Two pairs of hands at one server."""
    with client_of(server) as other:
        yield Browser(client), Browser(other)


def test_of_sixty_pairs_of_saves_at_once_from_one_tab_none_is_lost(browsers: tuple[Browser, Browser]) -> None:
    address = browsers[0].setting_out(browsers[0].new())
    assert lost_of_pairs(browsers, address, pairs=60) == []


def test_of_ticks_set_at_once_on_two_tablets_none_is_lost(browsers: tuple[Browser, Browser]) -> None:
    assert lost_of_ticks(browsers, browsers[0].new(), rounds=10) == []
