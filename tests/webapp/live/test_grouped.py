"""A page shows one group at a time: each at its own address, beside a list that says how they all stand."""

import httpx
import pytest
from grouped import PAGES, GroupedBrowser, groups_at
from pages import PARTS, Element, read, sent_by

from webapp.live.addresses import CORNERS, PACKAGE, Address
from webapp.live.grouped import GROUPED, group_of
from webapp.pages.corners.fields import corner_fields_in
from webapp.pages.package.fields import package_fields_in


@pytest.fixture
def browser(client: httpx.Client) -> GroupedBrowser:
    return GroupedBrowser(client)


@pytest.fixture
def frame_at(browser: GroupedBrowser) -> str:
    return browser.setting_out(browser.new()).rsplit("/", 1)[0]


def current(page: Element) -> str:
    (one,) = [link for link in page.by_id("states").all("a") if link.attributes.get("aria-current") == "page"]
    return one.attributes["href"]


@pytest.mark.parametrize("page", PAGES)
def test_every_group_has_an_address_and_is_alone_there(browser: GroupedBrowser, frame_at: str, page: str) -> None:
    for address in groups_at(f"{frame_at}/{page}"):
        shown = browser.get(address)
        assert current(shown) == address and shown.by_id("typed").attributes["action"] == address
        assert len([one for one in shown.all("section") if "group" in one.attributes.get("class", "").split()]) == 1
        listed = shown.by_id("states").all("a")
        links = [link.attributes["href"] for link in listed if link.attributes.get("class") != "to-beside"]
        assert sorted(links) == sorted(groups_at(f"{frame_at}/{page}"))


def test_a_group_that_is_not_there_is_told_so(browser: GroupedBrowser, frame_at: str) -> None:
    for page in PAGES:
        assert browser.client.get(f"{frame_at}/{page}/nothing").status_code == 404


@pytest.mark.parametrize(("page", "fields_in"), [(PACKAGE, package_fields_in), (CORNERS, corner_fields_in)])
def test_every_field_is_in_one_group_and_on_its_page(
    browser: GroupedBrowser, frame_at: str, page: Address, fields_in: object
) -> None:
    project_id, frame_id = frame_at.split("/")[2], frame_at.rsplit("/", 1)[1]
    fields = fields_in(browser.document(project_id), frame_id)  # type: ignore[operator]
    assert all(group_of(path, page=page) for path in fields.fields)
    for name in GROUPED[page]:
        sent = sent_by(browser.get(page(project_id=project_id, frame_id=frame_id) + f"/{name}"))
        typed = [path for path in sent if path.startswith(("frames.", "shop."))]
        assert {group_of(path, page=page) for path in typed} <= {name}


def test_a_page_alone_shows_the_group_that_asks_first(browser: GroupedBrowser, frame_at: str) -> None:
    assert current(browser.get(f"{frame_at}/corners")).endswith("/tests")
    browser.type(f"{frame_at}/corners", {"joint.kind": "biscuit", "joint.size": "biscuit #20"})
    assert current(browser.get(f"{frame_at}/corners")).endswith("/joint")


def test_fields_of_other_groups_keep_their_values(browser: GroupedBrowser, frame_at: str) -> None:
    browser.type(f"{frame_at}/package", {"mat.border": "71", "held.from_corner": "33"})
    answer = browser.type(f"{frame_at}/package/growth", {"room.fitted_humidity": "44"})
    assert (answer.status_code, answer.headers["location"]) == (303, f"{frame_at}/package/growth")
    frame = browser.document(frame_at.split("/")[2])["frames"][0]
    kept = frame["package"]["mat"]["border"], frame["fitting"]["held"]["from_corner"]
    assert (*kept, float(frame["fitting"]["room"]["fitted_humidity"])) == ("71 mm", "33 mm", 44)


def test_a_button_leads_back_to_its_group(browser: GroupedBrowser, frame_at: str) -> None:
    answer = browser.type(f"{frame_at}/package/mat", {}, do="add-window")
    assert answer.headers["location"] == f"{frame_at}/package/mat#of-mat"
    assert browser.get(f"{frame_at}/package/mat").by_id("of-mat")


def test_a_preview_answers_for_its_group_and_the_light_for_all(browser: GroupedBrowser, frame_at: str) -> None:
    at = f"{frame_at}/package/mat"
    browser.type(f"{frame_at}/corners", {"joint.kind": "biscuit", "joint.size": "biscuit #20"})
    sent = sent_by(browser.get(at))
    path = next(name for name in sent if name.endswith("mat.overlap"))
    parts = read(browser.post(f"{at}/preview", sent | {path: "1"}, headers=PARTS).text)
    ids = {one.attributes["id"] for one in parts.walk() if "id" in one.attributes}
    assert "says-mat" in ids and not {f"says-{name}" for name in PAGES["package"] if name != "mat"} & ids
    slots = {name for name in ids if name.startswith("slot-")}
    assert {f"slot-{name.replace('.', '-')}" for name in sent if name.startswith("frames.")} <= slots
    assert all("-package-mat-" in name for name in slots)
    assert "laps over" in parts.by_id("says-mat").text
    assert parts.by_id("verdict").text.startswith("Not yet")


def test_undo_comes_back_to_the_group(browser: GroupedBrowser, frame_at: str) -> None:
    at = f"{frame_at}/package/held"
    browser.type(at, {"held.from_corner": "33"})
    saved = browser.get(at).by_id("saved")
    answer = browser.post(f"{frame_at.split('/frames/')[0]}/undo", sent_by(saved, saved.all("form")[0]))
    assert answer.headers["location"] == at


def test_other_frames_are_shown_at_the_same_group(browser: GroupedBrowser, frame_at: str) -> None:
    browser.post(f"{frame_at}/copy", {"base": "1"})
    (nav,) = browser.get(f"{frame_at}/package/held").all("nav", **{"class": "frames"})
    assert all(link.attributes["href"].endswith("/package/held") for link in nav.all("a"))
