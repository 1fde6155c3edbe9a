"""The page of handing over without scripts: groups, papers, marks, a job made again, a dedication kept from clients."""

import io
import zipfile

import httpx
import pytest
from grouped import GroupedBrowser, says, whole
from pages import PARTS, read, sent_by

GROUPS = ("intake", "label", "back", "packing", "again")


@pytest.fixture
def browser(client: httpx.Client) -> GroupedBrowser:
    return GroupedBrowser(client)


@pytest.fixture
def address(browser: GroupedBrowser) -> str:
    return browser.setting_out(browser.new()).replace("setting-out", "hand-over")


def press(browser: GroupedBrowser, address: str, do: str, **more: str) -> httpx.Response:
    return browser.post(address, sent_by(browser.get(address)) | more | {"do": do})


def path_of(browser: GroupedBrowser, address: str, end: str) -> str:
    return next(name for name in sent_by(browser.get(address)) if name.endswith(end))


def test_every_group_speaks_for_a_usual_print(browser: GroupedBrowser, address: str) -> None:
    page = whole(browser, address)
    assert "Receipt" in says(page, "intake") and "to a sheet" in says(page, "label")
    assert "Bumpers" in says(page, "back") and "Box, inside" in says(page, "packing")


@pytest.mark.parametrize("group", GROUPS)
def test_fragments_of_handing_over_are_the_same_in_the_page(browser: GroupedBrowser, address: str, group: str) -> None:
    page = browser.get(f"{address}/{group}")
    parts = read(browser.post(f"{address}/{group}/preview", sent_by(page), headers=PARTS).text)
    for name in (f"says-{group}", f"more-{group}", "states", "verdict"):
        assert parts.by_id(name).markup() == page.by_id(name).markup()


def test_a_mark_is_added_by_numbers_and_by_a_tap_and_stands_on_the_receipt(
    browser: GroupedBrowser, address: str
) -> None:
    press(browser, f"{address}/intake", "add-mark")
    press(browser, f"{address}/intake", "save", **{"tap.x": "160", "tap.y": "10"})
    page = browser.get(f"{address}/intake")
    across = [text for name, text in sent_by(page).items() if name.endswith(".across") and ".marks." in name]
    assert len(across) == 2 and across[0] == "0"
    assert "2 marks on the piece" in browser.client.get(f"{address}/receipt").text
    remove = next(one.attributes["value"] for one in page.all("button") if "Remove mark 1" in one.text)
    press(browser, f"{address}/intake", remove)
    assert "Remove mark 2" not in browser.get(f"{address}/intake").text


def test_a_dust_cover_goes_on_and_off(browser: GroupedBrowser, address: str) -> None:
    had = "Remove the dust cover" in browser.get(f"{address}/back").text
    press(browser, f"{address}/back", "remove-cover" if had else "add-cover")
    back = browser.get(f"{address}/back").text
    assert ("Remove the dust cover" in back) is not had
    sheets = browser.get(f"{address.partition('/frames/')[0]}/sheets").text
    assert ("Dust cover of" in sheets) is not had


def test_papers_of_handing_over_open(browser: GroupedBrowser, address: str) -> None:
    for name, words in (("receipt", "Owner, date"), ("packing-sheet", "This side up"), ("hanging-card", "hooks")):
        answer = browser.client.get(f"{address}/{name}")
        assert answer.status_code == 200 and words in answer.text
    assert browser.client.get(f"{address}/labels.pdf?of=job").content[:5] == b"%PDF-"


def test_the_dedication_is_on_the_label_and_nowhere_a_client_looks(browser: GroupedBrowser, address: str) -> None:
    path = path_of(browser, f"{address}/label", "label.dedication")
    press(browser, f"{address}/label", "save", **{path: "A surprise for Anna"})
    assert "A surprise for Anna" in browser.get(f"{address}/label").text
    project = address.partition("/frames/")[0]
    assert "surprise" not in browser.client.get(f"{project}/client/preview").text
    assert "surprise" not in browser.client.get(f"{address}/hanging-card").text
    assert "surprise" not in browser.client.get(f"{address}/receipt").text


def test_a_frame_is_made_again_in_another_size_with_what_was_learnt(browser: GroupedBrowser, address: str) -> None:
    said, piece = (path_of(browser, f"{address}/{at}", end) for at, end in (("again", ".said"), ("intake", ".piece")))
    press(browser, f"{address}/intake", "save", **{piece: "Etching of a harbour"})
    press(browser, f"{address}/again", "save", **{said: "Lighter next time"})
    form = sent_by(browser.get(f"{address}/again")) | {
        "beside-across": "250",
        "beside-count": "3",
        "beside-wood": "ash",
    }
    answer = browser.post(f"{address}/again/new", form)
    assert answer.status_code == 303
    new = f"{answer.headers['location']}/frames/{address.split('/')[-2]}"
    again = browser.get(f"{new}/hand-over/again")
    assert "The last time" in again.text and "Lighter next time" in again.text
    assert "Etching" not in browser.get(f"{new}/hand-over/intake").text
    setting_out = sent_by(browser.get(f"{new}/setting-out"))
    assert next(text for name, text in setting_out.items() if name.endswith("artwork.across")) == "250"
    assert next(text for name, text in setting_out.items() if name.endswith(".count")) == "3"
    refused = browser.post(f"{address}/again/new", form | {"beside-count": "none"})
    assert refused.status_code == 422


def test_everything_of_a_job_comes_as_one_folder(browser: GroupedBrowser, address: str) -> None:
    answer = browser.client.get(f"{address.partition('/frames/')[0]}/leaves.zip")
    with zipfile.ZipFile(io.BytesIO(answer.content)) as archive:
        names = archive.namelist()
        card = archive.read(next(name for name in names if name.endswith("hanging.html"))).decode()
    papers = ("labels.pdf", "templates.pdf", "receipt.html", "packing.html", "-back-a4.svg", "-wall-a4.svg")
    for end in (*papers, "-nails.csv", ".json"):
        assert any(name.rstrip().endswith(end) for name in names), end
    assert "<style>" in card and "/static/" not in card
