"""The face by typed points on the setting-out page, without scripts: added, typed, drawn, refused, removed."""

from typing import Any

import httpx
import pytest
from pages import Browser


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def address(browser: Browser) -> str:
    address = browser.setting_out(browser.new())
    browser.type(address, {"section.face": "through typed points"}, do="add-point")
    return address


def frame_of(browser: Browser, address: str) -> dict[str, Any]:
    frame: dict[str, Any] = browser.document(address.split("/")[2])["frames"][0]
    return frame


def points_of(browser: Browser, address: str) -> list[dict[str, Any]]:
    points: list[dict[str, Any]] = frame_of(browser, address)["section"]["points"]
    return points


def test_the_first_two_points_bevel_the_sight_edge_and_are_only_assumed(browser: Browser, address: str) -> None:
    assert [(one["across"], one["down"]) for one in points_of(browser, address)] == [
        ("0 mm", "3 mm"),
        ("12 mm", "0 mm"),
    ]
    assumed = browser.document(address.split("/")[2])["assumed"]
    assert len([path for path in assumed if ".section.points." in path]) == 4


def test_a_hollow_is_typed_drawn_and_gives_the_true_lip(browser: Browser, address: str) -> None:
    first, second = (point["id"] for point in points_of(browser, address))
    flat = browser.get(address).by_id("drawing-section").markup()
    typed = {"across": "4", "down": "0"}, {"across": "12", "down": "0", "way": "hollow", "radius": "4"}
    texts = {
        f"section.points.{one}.{name}": text
        for one, row in zip((first, second), typed, strict=True)
        for name, text in row.items()
    }
    assert browser.type(address, texts).status_code == 303
    page = browser.get(address)
    assert page.by_id("drawing-section").markup() != flat
    assert points_of(browser, address)[1]["radius"] == "4 mm"
    section = frame_of(browser, address)["section"]
    left_mm = float(section["thickness"].split()[0]) - float(section["rabbet_depth"].split()[0])
    assert section["rabbet_width"] == "6 mm"
    assert f"Lip {left_mm - (4**2 - 2**2) ** 0.5:.1f}" in page.text


def test_a_radius_that_does_not_reach_is_refused_beside_its_field(browser: Browser, address: str) -> None:
    second = points_of(browser, address)[1]["id"]
    answer = browser.type(address, {f"section.points.{second}.way": "round", f"section.points.{second}.radius": "2"})
    frame_id = address.split("/")[4]
    slot = browser.get(address).by_id(f"slot-frames-{frame_id}-section-points-{second}-radius")
    assert answer.status_code == 303
    assert "does not reach point 2" in slot.text
    assert browser.get(address).by_id("verdict").text.startswith("Not yet")


def test_points_are_added_between_and_removed(browser: Browser, address: str) -> None:
    first, second = (point["id"] for point in points_of(browser, address))
    browser.type(address, {}, do=f"add-point:{first}")
    assert [(one["across"], one["down"]) for one in points_of(browser, address)][1] == ("6 mm", "1.5 mm")
    browser.type(address, {}, do=f"remove-point:{second}")
    assert second not in [point["id"] for point in points_of(browser, address)]
    assert not [path for path in browser.document(address.split("/")[2])["assumed"] if second in path]


def test_points_of_another_face_keep_nobody_waiting(browser: Browser, address: str) -> None:
    for do in ("section", "mat", "package", "fit", "saw"):
        browser.type(address, {}, do=f"confirm-group:{do}")
    browser.type(address, {}, do=f"add-point:{points_of(browser, address)[0]['id']}")
    assert browser.get(address).by_id("verdict").text.startswith("Confirm first")
    browser.type(address, {"section.face": "flat"})
    assert browser.get(address).by_id("verdict").text.startswith("Ready to cut")


def test_a_face_without_points_says_what_to_add(browser: Browser) -> None:
    address = browser.setting_out(browser.new())
    browser.type(address, {"section.face": "through typed points"})
    page = browser.get(address)
    assert "Add two or more points" in page.text
    assert page.by_id("points").all("button", value="add-point")
