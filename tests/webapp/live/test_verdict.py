"""The light on every page: the same words, as many stops and warnings as there are boxes, and a way to the first."""

import json
from copy import deepcopy
from typing import Any
from urllib.parse import urljoin, urlsplit

import httpx
import pytest
from grouped import groups_at, whole
from pages import PARTS, Browser, Element, read, sent_by
from panel import PANEL_IN_INCHES

FRAME_PAGES = ("setting-out", "package", "corners", "look")
PROJECT_PAGES = ("timber", "timber/reach", "sheets", "costs", "client")
TENON = {"corner": {"joint": {"kind": "loose tenon", "size": "tenon 10 x 50"}}}
SPLINE_AND_TIGHT = {
    "corner": {"joint": {"kind": "spline", "spline_depth": "40 mm", "spline_kerf": "1/8 in"}},
    "package": PANEL_IN_INCHES["frames"][0]["package"] | {"clearance_across": "0 in", "clearance_up": "1/64 in"},
}
PULLED = {"corner": {"clamps": {"strap_force": "100", "eased_to": "200"}}}
NO_SCREW = {"section": PANEL_IN_INCHES["frames"][0]["section"] | {"thickness": "10 mm", "rabbet_depth": "7 mm"}}
LAP_IN_A_TRAY = {
    "section": PANEL_IN_INCHES["frames"][0]["section"] | {"kind": "tray"},
    "corner": {"joint": {"kind": "half-lap"}},
}


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


def started(browser: Browser, changes: dict[str, Any], assumed: tuple[str, ...] = ()) -> str:
    """A project of the panel with its frame changed; the address of its frame."""
    document = deepcopy(PANEL_IN_INCHES)
    document["frames"][0] |= changes
    document["assumed"] = [f"frames.f1.{path}" for path in assumed]
    answer = browser.post("/projects/import", {"pasted": json.dumps(document)})
    return browser.setting_out(urlsplit(answer.headers["location"]).path.rsplit("/", 1)[1]).rsplit("/", 1)[0]


def light(page: Element) -> Element:
    return page.by_id("verdict")


def said(page: Element) -> str:
    return light(page).text


def boxes(page: Element, severity: str) -> int:
    return len([one for one in page.walk() if {"finding", severity} <= set(one.attributes.get("class", "").split())])


def refusals(page: Element) -> int:
    return len([one for one in page.walk() if "refuses" in one.attributes.get("class", "").split()])


CASES = [
    ({}, (), "Ready to cut Nothing stands in the way."),
    (TENON, (), "Not yet Before cutting: 3 stops"),
    (SPLINE_AND_TIGHT, (), "Not yet Before cutting: 2 stops, 1 warning."),
    (LAP_IN_A_TRAY, (), "Not yet Before cutting: 1 stop"),
    (NO_SCREW, (), "Do not fit yet Before cutting: 1 warning; before fitting: 1 stop."),
    (PULLED, (), "Do not glue yet Before gluing: 1 stop."),
    ({}, ("section.thickness", "package.clearance_up"), "Confirm first Before cutting: 2 values only assumed."),
]


@pytest.mark.parametrize(("changes", "assumed", "begins"), CASES)
def test_every_page_has_the_same_light(
    browser: Browser, changes: dict[str, Any], assumed: tuple[str, ...], begins: str
) -> None:
    frame_at = started(browser, changes, assumed)
    project_at = frame_at.partition("/frames/")[0]
    addresses = [one for page in FRAME_PAGES for one in groups_at(f"{frame_at}/{page}")] + [
        f"{project_at}/{page}" for page in PROJECT_PAGES
    ]
    texts = {said(browser.get(address)) for address in addresses}
    assert len(texts) == 1
    assert texts.pop().startswith(begins)


@pytest.mark.parametrize(("changes", "assumed", "begins"), CASES)
def test_the_way_to_the_first_leads_to_something_that_is_there(
    browser: Browser, changes: dict[str, Any], assumed: tuple[str, ...], begins: str
) -> None:
    frame_at = started(browser, changes, assumed)
    here = [one for name in ("setting-out", "package", "corners", "look") for one in groups_at(f"{frame_at}/{name}")]
    for one in here:
        ways = light(browser.get(one)).all("a")
        assert bool(ways) is not begins.startswith("Ready")
        for way in ways:
            address, _, anchor = urljoin(one, way.attributes["href"]).partition("#")
            assert browser.get(address).by_id(anchor)


@pytest.mark.parametrize("changes", [TENON, SPLINE_AND_TIGHT, LAP_IN_A_TRAY, PULLED, NO_SCREW])
def test_the_light_counts_the_boxes_that_are_seen(browser: Browser, changes: dict[str, Any]) -> None:
    frame_at = started(browser, changes)
    pages = [whole(browser, f"{frame_at}/{name}") for name in ("setting-out", "corners", "package")]
    stops = sum(boxes(page, "stop") + refusals(page) for page in pages)
    assert f": {stops} stop" in said(pages[0])
    warnings = sum(boxes(page, "warn") for page in pages)
    assert (f" {warnings} warning" in said(pages[0])) is bool(warnings)


COUNT = {"paper": "clearance_across mat.border mat.overlap", "solid panel": "clearance_up seasons.winter_humidity"}
"""What counts, among other things, for two kinds of artwork."""


@pytest.mark.parametrize("kind", COUNT)
def test_as_many_values_are_only_assumed_as_there_are_marks(browser: Browser, kind: str) -> None:
    frame_at = browser.setting_out(browser.new(kind=kind)).rsplit("/", 1)[0]
    pages = [whole(browser, f"{frame_at}/{name}") for name in ("setting-out", "package", "corners")]
    buttons = [one for page in pages for one in page.all("button", name="do")]
    marks = {one.attributes["value"] for one in buttons if "assumed" in one.attributes.get("class", "").split()}
    assert f"Before cutting: {len(marks)} values only assumed" in said(pages[0])
    assert all(any(mark.endswith(path) for mark in marks) for path in COUNT[kind].split())
    assert any("humidity" in mark for mark in marks) is (kind == "solid panel")


def test_the_way_to_the_last_assumed_value_leads_to_its_page(browser: Browser) -> None:
    frame_at = browser.setting_out(browser.new(kind="solid panel")).rsplit("/", 1)[0]
    for _ in range(30):
        page = browser.get(f"{frame_at}/look")
        (way,) = light(page).all("a")
        address, _, anchor = urljoin(f"{frame_at}/look", way.attributes["href"]).partition("#")
        assert browser.get(address).by_id(anchor).all("button", name="do")
        if "/package/" in address:
            break
        page = browser.get(address)
        browser.post(
            address, sent_by(page) | {"do": page.by_id(anchor).all("button", name="do")[0].attributes["value"]}
        )
    assert way.text == "Go to at fitting, % humidity"


def test_a_warning_is_not_captioned_by_plain_green(browser: Browser) -> None:
    package = PANEL_IN_INCHES["frames"][0]["package"] | {"clearance_up": "1/64 in"}
    page = browser.get(started(browser, {"package": package}) + "/look")
    assert said(page).startswith("Ready to cut · 1 warning")
    assert "ready" not in light(page).attributes["class"].split()


def test_the_light_follows_what_is_typed_on_another_page(browser: Browser) -> None:
    address = started(browser, TENON) + "/corners/joint"
    sent = sent_by(browser.get(address))
    path = next(name for name in sent if name.endswith("joint.kind"))
    parts = read(browser.post(f"{address}/preview", sent | {path: "none"}, headers=PARTS).text)
    assert said(parts).startswith("Ready to cut")
    assert said(browser.get(address)).startswith("Not yet")


def test_a_field_in_error_is_said_before_anything_else(browser: Browser) -> None:
    address = started(browser, TENON) + "/setting-out"
    sent = sent_by(browser.get(address))
    path = next(name for name in sent if name.endswith("section.thickness"))
    parts = read(browser.post(f"{address}/preview", sent | {path: "thick"}, headers=PARTS).text)
    assert "Thickness" in said(parts)
    assert light(parts).all("a")[0].attributes["href"] == f"#field-{path.replace('.', '-')}"


def test_two_frames_have_one_light_on_a_page_of_both(browser: Browser) -> None:
    frame_at = started(browser, TENON)
    browser.post(f"{frame_at}/copy", {"base": "1"})
    text = said(browser.get(frame_at.partition("/frames/")[0] + "/timber"))
    assert text.startswith("Not yet Before cutting: 6 stops. Panel: ")
    assert said(browser.get(f"{frame_at}/look")).startswith("Not yet Before cutting: 3 stops.")
