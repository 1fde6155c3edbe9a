"""One number on a page: the sag beside its finding, and a weight that nobody knows."""

import httpx
import pytest
from grouped import GroupedBrowser, says, whole


@pytest.fixture
def browser(client: httpx.Client) -> GroupedBrowser:
    return GroupedBrowser(client)


def test_a_sag_is_the_same_beside_its_finding(browser: GroupedBrowser) -> None:
    """Fault: “sags 9/16 in, up to 1/8 in is usual” stood above “sags by 37/64 in; up to 5/32 in is usual”."""
    project = browser.new(unit="in", across="52", up="40", face_width="1 1/4")
    package = browser.setting_out(project).replace("setting-out", "package")
    said = says(whole(browser, package), "handling").replace("\u00a0", " ")
    assert "37/64 in" in said and "sags by 37/64 in" in said
    assert said.count("up to 5/32 in is usual") == 2


def test_a_package_of_which_nothing_is_known_weighs_no_ounce(browser: GroupedBrowser) -> None:
    """Fault: the card of a stretched canvas said “Package weighs 0.0 oz”."""
    package = browser.setting_out(browser.import_demo("maple-canvas.demo")).replace("setting-out", "package")
    card = whole(browser, f"{package}/fitting").by_id("main").text
    assert "not known canvas on stretcher" in card and "0.0 oz" not in card
    assert "0.0 oz" not in says(whole(browser, package), "layers")
