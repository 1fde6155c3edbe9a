"""What was saved before, and what happens when two tabs save one project."""

import json
from dataclasses import dataclass
from pathlib import Path

import httpx
import pytest
from pages import PARTS, Browser, Element, read, sent_by

from webapp.data.revisions import file_name


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@dataclass
class Tab:
    """A browser tab that keeps the page it opened."""

    browser: Browser
    address: str
    name: str = ""

    def __post_init__(self) -> None:
        self.page = self.browser.get(self.address)

    def path(self, ending: str) -> str:
        return next(name for name in sent_by(self.page) if name.endswith(f".{ending}"))

    def save(self, ending: str, text: str, **more: str) -> httpx.Response:
        sent = sent_by(self.page) | {"tab": self.name, self.path(ending): text} | more
        return self.browser.post(self.address, sent | {"do": "save"})


@pytest.fixture
def address(browser: Browser) -> str:
    return browser.setting_out(browser.new())


def section(browser: Browser, address: str) -> dict[str, str]:
    found: dict[str, str] = browser.document(address.split("/")[2])["frames"][0]["section"]
    return found


def steps(browser: Browser, address: str, name: str) -> httpx.Response:
    return browser.post(f"/projects/{address.split('/')[2]}/{name}", {"base": sent_by(browser.get(address))["base"]})


def test_undo_and_redo_go_through_what_was_typed(browser: Browser, address: str) -> None:
    for width in ("30", "31", "32"):
        browser.type(address, {"section.face_width": width})
    seen = []
    for name in ("undo", "undo", "redo", "undo", "redo", "redo"):
        assert steps(browser, address, name).status_code == 303
        seen.append(section(browser, address)["face_width"])
    assert seen == ["31 mm", "30 mm", "31 mm", "30 mm", "31 mm", "32 mm"]


def test_undo_leads_back_to_the_frame_it_was_pressed_on(browser: Browser, address: str) -> None:
    browser.type(address, {"section.face_width": "30"})
    sent = {"base": sent_by(browser.get(address))["base"], "frame": address.split("/")[4]}
    assert browser.post(f"/projects/{address.split('/')[2]}/undo", sent).headers["location"] == address


@pytest.mark.parametrize("place", ["timber", "timber/reach", "sheets", "costs"])
def test_undo_leads_back_to_the_page_it_was_pressed_on(browser: Browser, address: str, place: str) -> None:
    browser.type(address, {"section.face_width": "30"})
    here = f"/projects/{address.split('/')[2]}/{place}"
    saved = browser.get(here).by_id("saved")
    sent = {one.attributes["name"]: one.attributes.get("value", "") for one in saved.all("input")}
    answer = browser.post(f"/projects/{address.split('/')[2]}/undo", sent)
    assert answer.headers["location"] == here
    assert section(browser, address)["face_width"] == "25 mm"


def test_with_nothing_to_undo_the_button_is_out_and_the_answer_says_so(browser: Browser, address: str) -> None:
    button = next(one for one in browser.get(address).by_id("saved").all("button") if "Undo" in one.text)
    assert "disabled" in button.attributes
    answer = steps(browser, address, "undo")
    assert answer.status_code == 409
    assert "nothing to undo" in answer.text


def test_every_revision_is_listed_with_what_it_changed_and_can_be_brought_back(browser: Browser, address: str) -> None:
    project_id = address.split("/")[2]
    browser.type(address, {"section.face_width": "30"})
    browser.type(address, {}, do="remove-mat")
    page = browser.get(f"/projects/{project_id}/revisions")
    lines = [line.text for line in page.all("li")]
    assert len(lines) == 3
    assert "Face width: 25 mm → 30 mm" in lines[1]
    browser.post(f"/projects/{project_id}/revisions/1/restore", {"base": "3"})
    assert section(browser, address)["face_width"] == "25 mm"
    assert "Brought back" in browser.get(f"/projects/{project_id}/revisions").all("li")[0].text


def test_a_revision_that_is_not_there_is_said_so(browser: Browser, address: str) -> None:
    answer = browser.post(f"/projects/{address.split('/')[2]}/revisions/99/restore", {"base": "1"})
    assert answer.status_code == 404
    assert "No revision 99" in answer.text


def clash(answer: httpx.Response) -> Element:
    assert answer.status_code == 409
    return read(answer.text).by_id("clash")


def saved_says(browser: Browser, location: str) -> str:
    return browser.get(location).by_id("saved").text


def test_different_fields_of_two_tabs_go_together_and_the_page_says_so(browser: Browser, address: str) -> None:
    here, there = Tab(browser, address, name="aa"), Tab(browser, address, name="bb")
    assert there.save("section.face_width", "31").status_code == 303
    answer = here.save("section.thickness", "22")
    assert answer.status_code == 303
    assert (section(browser, address)["face_width"], section(browser, address)["thickness"]) == ("31 mm", "22 mm")
    assert "changes from elsewhere" in saved_says(browser, answer.headers["location"])
    assert "elsewhere" not in saved_says(browser, address)


def test_pages_without_a_tab_id_go_together_too(browser: Browser, address: str) -> None:
    here, there = Tab(browser, address), Tab(browser, address)
    there.save("section.face_width", "31")
    assert here.save("section.thickness", "22").status_code == 303
    assert (section(browser, address)["face_width"], section(browser, address)["thickness"]) == ("31 mm", "22 mm")
    clash(Tab(browser, address).save("section.thickness", "23", base="1"))


def test_one_field_changed_in_two_tabs_is_never_overwritten(browser: Browser, address: str) -> None:
    here, there = Tab(browser, address, name="aa"), Tab(browser, address, name="bb")
    there.save("section.face_width", "31")
    shown = clash(here.save("section.face_width", "28", **{here.path("section.thickness"): "22"}))
    rows = {row.all("th")[0].text: [cell.text for cell in row.all("td")] for row in shown.all("tr") if row.all("td")}
    assert rows["Face width"] == ["25", "28", "31"]
    assert rows["Thickness"] == ["20", "22", "the same"]
    assert section(browser, address)["thickness"] == "20 mm", "nothing is written"


def test_the_same_value_typed_in_two_tabs_is_no_conflict(browser: Browser, address: str) -> None:
    here, there = Tab(browser, address, name="aa"), Tab(browser, address, name="bb")
    there.save("section.face_width", "31")
    assert here.save("section.face_width", "31 mm", **{here.path("section.thickness"): "22"}).status_code == 303
    assert (section(browser, address)["face_width"], section(browser, address)["thickness"]) == ("31 mm", "22 mm")


def test_a_button_pressed_on_an_older_page_works_on_the_newest_revision(browser: Browser, address: str) -> None:
    here, there = Tab(browser, address, name="aa"), Tab(browser, address, name="bb")
    there.save("section.face_width", "31")
    layers = len(browser.document(address.split("/")[2])["frames"][0]["package"]["layers"])
    sent = sent_by(here.page) | {"tab": "aa", "do": "add-layer", "new_layer": "acrylic"}
    assert browser.post(address, sent).status_code == 303
    frame = browser.document(address.split("/")[2])["frames"][0]
    assert (frame["section"]["face_width"], len(frame["package"]["layers"])) == ("31 mm", layers + 1)


def test_what_was_typed_about_a_layer_that_is_gone_is_asked_about(browser: Browser, address: str) -> None:
    here, there = Tab(browser, address, name="aa"), Tab(browser, address, name="bb")
    path = next(name for name in sent_by(here.page) if ".layers." in name and name.endswith(".thickness"))
    layer = path.split(".layers.")[1].split(".")[0]
    browser.post(address, sent_by(there.page) | {"tab": "bb", "do": f"remove-layer:{layer}"})
    assert here.save("section.face_width", "31").status_code == 303, "its untouched fields are in nobody's way"
    clash(browser.post(address, sent_by(here.page) | {"tab": "aa", path: "7", "do": "save"}))


def test_a_conflict_keeps_everything_typed_in_the_page(browser: Browser, address: str) -> None:
    here, there = Tab(browser, address, name="aa"), Tab(browser, address, name="bb")
    there.save("section.face_width", "31")
    page = read(here.save("section.face_width", "28", **{here.path("section.thickness"): "22"}).text)
    sent = sent_by(page)
    assert (sent[here.path("section.thickness")], sent[here.path("section.face_width")]) == ("22", "28")
    assert sent["base"] == "1", "what the page started from stays known"


def test_keep_mine_keeps_the_rest_of_theirs(browser: Browser, address: str) -> None:
    here, there = Tab(browser, address, name="aa"), Tab(browser, address, name="bb")
    there.save("section.face_width", "31", **{there.path("section.thickness"): "24"})
    page = read(here.save("section.thickness", "22").text)
    answer = browser.post(f"{address}/keep-mine", sent_by(page) | {"over": "2"})
    assert answer.status_code == 303
    assert (section(browser, address)["thickness"], section(browser, address)["face_width"]) == ("22 mm", "31 mm")


def test_keep_mine_wins_where_both_changed_one_field(browser: Browser, address: str) -> None:
    here, there = Tab(browser, address, name="aa"), Tab(browser, address, name="bb")
    there.save("section.face_width", "31")
    page = read(here.save("section.face_width", "28").text)
    browser.post(f"{address}/keep-mine", sent_by(page) | {"over": "2"})
    assert section(browser, address)["face_width"] == "28 mm"
    steps(browser, address, "undo")
    assert section(browser, address)["face_width"] == "31 mm", "theirs is a revision that can be had back"


def test_keep_mine_asks_again_when_there_was_yet_another_save(browser: Browser, address: str) -> None:
    here, there = Tab(browser, address, name="aa"), Tab(browser, address, name="bb")
    there.save("section.face_width", "31")
    page = read(here.save("section.face_width", "28").text)
    there.save("section.face_width", "32")
    clash(browser.post(f"{address}/keep-mine", sent_by(page) | {"over": "2"}))
    assert section(browser, address)["face_width"] == "32 mm"


def test_a_live_page_that_shows_older_fields_goes_on_from_its_own_revision(browser: Browser, address: str) -> None:
    here, there = Tab(browser, address, name="aa"), Tab(browser, address, name="bb")
    there.save("section.face_width", "31")
    sent = sent_by(here.page) | {"tab": "aa", here.path("section.thickness"): "22", "do": "save"}
    parts = read(browser.post(address, sent, headers=PARTS).text)
    bases = [one.attributes["value"] for one in parts.all("input", name="base", form="typed")]
    assert bases == ["1"], "it still shows 25"
    assert "changes from elsewhere" in parts.text
    sent |= {here.path("section.thickness"): "23"}
    assert browser.post(address, sent, headers=PARTS).status_code == 200
    assert (section(browser, address)["thickness"], section(browser, address)["face_width"]) == ("23 mm", "31 mm")


def test_a_field_typed_back_is_saved_although_the_page_never_heard_of_the_save_before(
    browser: Browser, address: str
) -> None:
    tab = Tab(browser, address, name="aa")
    tab.save("section.face_width", "31")
    assert tab.save("section.face_width", "25", meant=tab.path("section.face_width")).status_code == 303
    assert section(browser, address)["face_width"] == "25 mm"


def test_a_tab_never_conflicts_with_its_own_saves(browser: Browser, address: str) -> None:
    tab = Tab(browser, address, name="aa")
    assert tab.save("section.face_width", "31").status_code == 303
    assert tab.save("section.face_width", "32").status_code == 303, "the page still says base 1"


def test_a_conflict_reaches_a_live_page_as_one_part(browser: Browser, address: str) -> None:
    here, there = Tab(browser, address, name="aa"), Tab(browser, address, name="bb")
    there.save("section.face_width", "31")
    sent = sent_by(here.page) | {here.path("section.face_width"): "22", "tab": "aa"}
    answer = browser.post(address, sent, headers=PARTS)
    assert answer.status_code == 409
    assert [part.attributes["hx-target"] for part in read(answer.text).all("hx-partial")] == ["#clash"]


@pytest.mark.parametrize("base", ["", "0", "-1", "abc", "99", "9" * 5000])
def test_a_page_that_does_not_know_its_revision_changes_nothing(browser: Browser, address: str, base: str) -> None:
    tab = Tab(browser, address)
    clash(tab.save("section.face_width", "31", base=base))
    assert section(browser, address)["face_width"] == "25 mm"


def listed(browser: Browser, address: str) -> tuple[list[int], str]:
    """The numbers on a page of revisions, and where its link to older ones leads."""
    page = browser.get(address)
    numbers = [int(one.text) for one in page.all("p", **{"class": "number"})]
    return numbers, next((link.attributes["href"] for link in page.all("a") if link.text == "Older"), "")


def test_a_long_list_of_revisions_is_read_a_page_at_a_time(browser: Browser, address: str, data_dir: Path) -> None:
    project_id = address.split("/")[2]
    grow(data_dir / "projects" / project_id, to=55)
    first, older = listed(browser, f"/projects/{project_id}/revisions")
    second, oldest = listed(browser, older)
    third, end = listed(browser, oldest)
    assert first + second + third == list(range(55, 0, -1))
    assert (len(first), len(second), end) == (20, 20, "")


def test_the_last_line_of_a_page_says_what_it_changed_too(browser: Browser, address: str, data_dir: Path) -> None:
    project_id = address.split("/")[2]
    grow(data_dir / "projects" / project_id, to=60)
    lines = [line.text for line in browser.get(f"/projects/{project_id}/revisions").all("li")]
    assert "Face width: 40 mm → 41 mm" in lines[-1]


@pytest.mark.parametrize("before", ["x", "-1", "1e400", "999999999999", "²", "1"])
def test_an_address_of_no_revision_is_answered(browser: Browser, address: str, before: str) -> None:
    numbers, _ = listed(browser, f"/projects/{address.split('/')[2]}/revisions?before={before}")
    assert numbers == ([] if before == "1" else [1])


def grow(folder: Path, *, to: int) -> None:
    """Write revisions as saves would, each one with another face width."""
    first = json.loads((folder / file_name(1)).read_text("utf-8"))
    for number in range(2, to + 1):
        first["frames"][0]["section"]["face_width"] = f"{number} mm"
        first["saved"] |= {"revision": number, "equals": number, "step": "save"}
        (folder / file_name(number)).write_text(json.dumps(first), "utf-8")


@pytest.mark.parametrize("place", ["setting-out", "package", "package/mat", "costs"])
@pytest.mark.parametrize("step", ["undo", "redo"])
def test_a_step_on_an_outdated_page_does_nothing_and_comes_back_to_the_page(
    browser: Browser, address: str, step: str, place: str
) -> None:
    is_of_project = place == "costs"
    here = f"/projects/{address.split('/')[2]}/costs" if is_of_project else address.replace("setting-out", place)
    page = browser.get(here)
    browser.type(address, {"section.face_width": "30"})
    sent = sent_by(page, page.by_id("saved").all("form")[0])
    answer = browser.post(f"/projects/{address.split('/')[2]}/{step}", sent)
    assert answer.status_code == 303
    assert answer.headers["location"].startswith(here)
    assert "nothing was undone" in saved_says(browser, answer.headers["location"])
    assert section(browser, address)["face_width"] == "30 mm"


def test_a_restore_from_an_outdated_list_does_nothing_and_shows_the_new_list(browser: Browser, address: str) -> None:
    project_id = address.split("/")[2]
    for width in ("30", "31"):
        browser.type(address, {"section.face_width": width})
    answer = browser.post(f"/projects/{project_id}/revisions/1/restore", {"base": "2"})
    assert answer.status_code == 303
    assert "nothing was brought back" in browser.client.get(answer.headers["location"]).text
    assert section(browser, address)["face_width"] == "31 mm"
