"""The owner's client page: a link is shown once, previewed, handed out as a file, revoked; the yes comes back."""

import re
from typing import Any

import httpx
import pytest
from pages import Browser, read, sent_by
from shared import SECRETS, SHOP, Job, start_job

HOSTILE = (
    '"><script>alert(1)</script>',
    "]]>&<svg onload=alert(1)>",
    "=HYPERLINK(1)",
    "a\x00b\u202ec\u200f",
    "{{ 7*7 }}",
)


@pytest.fixture
def job(lan_app: Any) -> Job:
    return start_job(lan_app)


@pytest.fixture
def browser(here: httpx.Client) -> Browser:
    return Browser(here)


def make(browser: Browser, job: Job, **typed: str) -> httpx.Response:
    sent = {"for_whom": "Ada", "price": "yes", "photo": "yes", "days": "30"} | typed
    return browser.post(f"/projects/{job.project_id}/shares", {name: text for name, text in sent.items() if text})


def link(answer: httpx.Response) -> str:
    return read(answer.text).by_id("link").attributes["value"]


def test_a_link_is_shown_once_and_leads_to_the_clients_page(browser: Browser, job: Job, far: httpx.Client) -> None:
    address = link(make(browser, job))
    assert re.fullmatch(rf"http://{SHOP}:\d+/view/[\w-]{{43}}", address)
    secret = address.rsplit("/", 1)[1]
    assert far.get(f"/view/{secret}").status_code == 200
    page = browser.client.get(f"/projects/{job.project_id}/client").text
    assert secret not in page and "Ada" in page and "open until" in page.casefold()


def test_a_link_begins_with_the_address_that_the_owner_put_first(browser: Browser, job: Job) -> None:
    browser.post("/devices/first", {"first": "192.168.0.9"})
    assert link(make(browser, job)).startswith("http://192.168.0.9:")


def test_the_same_form_sent_twice_makes_one_link(browser: Browser, job: Job) -> None:
    once = (
        read(browser.client.get(f"/projects/{job.project_id}/client").text).by_id("wish").all("input", name="once")[0]
    )
    assert make(browser, job, once=once.attributes["value"]).status_code == 200
    assert make(browser, job, once=once.attributes["value"]).status_code == 303
    assert len(job.app.state.shelf.of_project(job.project_id)) == 1


def test_a_preview_is_what_the_client_sees_and_keeps_nothing(browser: Browser, job: Job, far: httpx.Client) -> None:
    query = {"for_whom": "Ada", "price": "yes", "photo": "yes"}
    preview = read(browser.client.get(f"/projects/{job.project_id}/client/preview", params=query).text).by_id("main")
    assert job.app.state.shelf.of_project(job.project_id) == ()
    secret = link(make(browser, job, days="0")).rsplit("/", 1)[1]
    shown = read(far.get(f"/view/{secret}").text).by_id("main")
    assert [section.markup() for section in preview.all("section")] == [
        section.markup() for section in shown.all("section") if "yes" not in section.attributes["class"]
    ]


def test_without_a_box_ticked_it_is_not_shown(browser: Browser, job: Job) -> None:
    text = browser.client.get(f"/projects/{job.project_id}/client/preview", params={"for_whom": "Ada"}).text
    assert "Total" not in text and "data:image" not in text


def test_a_price_that_is_not_complete_is_not_shown_to_anybody(browser: Browser, job: Job) -> None:
    document = job.document()
    document["quote"]["items"].append({"id": "open", "name": "glass"})
    job.save(document)
    answer = make(browser, job)
    assert answer.status_code == 422 and "not complete yet" in answer.text


def test_a_refused_link_keeps_what_was_asked_for(browser: Browser, job: Job) -> None:
    document = job.document()
    document["quote"]["items"].append({"id": "open", "name": "glass"})
    job.save(document)
    page = read(make(browser, job, for_whom='Ada "B" & Co', photo="", weight="yes", days="7").text)
    kept = sent_by(page, "wish")
    assert kept["for_whom"] == 'Ada "B" & Co' and kept["days"] == "7"
    ticks = {tick.attributes["name"]: "checked" in tick.attributes for tick in page.all("input", type="checkbox")}
    assert ticks == {"price": True, "photo": False, "weight": True}
    assert make(browser, job, price="").status_code == 200
    assert browser.client.get(f"/projects/{job.project_id}/client/preview", params={"price": "yes"}).status_code == 422


def test_a_name_too_long_is_refused_in_words(browser: Browser, job: Job) -> None:
    answer = make(browser, job, for_whom="x" * 10_000)
    assert answer.status_code == 422 and "at most 120" in answer.text


def test_revoked_is_gone_at_once_and_stays_in_the_list(browser: Browser, job: Job, far: httpx.Client) -> None:
    secret = link(make(browser, job)).rsplit("/", 1)[1]
    page = read(browser.client.get(f"/projects/{job.project_id}/client").text)
    (form,) = [form for form in page.all("form") if form.attributes["action"].endswith("/revoke")]
    assert browser.post(form.attributes["action"]).status_code == 303
    assert far.get(f"/view/{secret}").status_code == 404
    page = read(browser.client.get(f"/projects/{job.project_id}/client").text).by_id("links")
    assert "Revoked on" in page.text and not page.all("form")


def test_the_owner_reads_the_yes_and_what_changed_since(browser: Browser, job: Job, far: httpx.Client) -> None:
    secret = link(make(browser, job)).rsplit("/", 1)[1]
    far.post(f"/view/{secret}/approve", data={"name": "Ada <b>", "note": "thank you"})
    document = job.document()
    document["frames"][0]["look"]["mat_name"] = "black"
    job.save(document)
    text = read(browser.client.get(f"/projects/{job.project_id}/client").text).by_id("links").text
    assert "Approved revision 2: Ada <b>" in text and "thank you" in text
    assert "Since then: mat: antique white → black" in text


def test_a_file_changed_by_hand_is_said(browser: Browser, job: Job) -> None:
    make(browser, job)
    (share,) = job.app.state.shelf.of_project(job.project_id)
    path = job.app.state.shelf.folder / f"{share.digest}.json"
    path.write_text(path.read_text("utf-8").replace("white oak", "plywood"), "utf-8")
    assert "was changed by hand" in browser.client.get(f"/projects/{job.project_id}/client").text


@pytest.mark.parametrize("share_id", ["0" * 16, "x", "../../shop", "%00"])
def test_a_link_of_another_name_is_not_there(browser: Browser, job: Job, share_id: str) -> None:
    make(browser, job)
    for address in ("", "/frame.html"):
        assert browser.client.get(f"/projects/{job.project_id}/shares/{share_id}{address}").status_code == 404
    assert browser.post(f"/projects/{job.project_id}/shares/{share_id}/revoke").status_code == 404


def test_a_link_belongs_to_its_project(browser: Browser, job: Job) -> None:
    make(browser, job)
    (share,) = job.app.state.shelf.of_project(job.project_id)
    other = browser.new(name="other")
    assert browser.client.get(f"/projects/{other}/shares/{share.share_id}").status_code == 404


# --- the file to mail


def test_the_file_asks_nothing_of_any_network_and_has_no_script(browser: Browser, job: Job) -> None:
    make(browser, job)
    (share,) = job.app.state.shelf.of_project(job.project_id)
    answer = browser.client.get(f"/projects/{job.project_id}/shares/{share.share_id}/frame.html")
    assert answer.headers["content-disposition"] == 'attachment; filename="frame-revision-2.html"'
    page = read(answer.text)
    assert not page.all("script") and not page.all("link") and not page.all("form")
    named = ("src", "href", "xlink:href", "action", "srcset", "data", "poster")
    addresses = [element.attributes[name] for element in page.walk() for name in named if name in element.attributes]
    addresses += re.findall(r"url\(([^)]*)\)", answer.text) + re.findall(r"@import\s+(\S+)", answer.text)
    assert len(addresses) > 1
    assert all(address.startswith(("data:", "#")) for address in addresses)
    assert "data:image/jpeg" in answer.text and share.content_hash[:12] in answer.text
    assert not any(word in answer.text for word in (*SECRETS, job.project_id, share.digest))


# --- hostile texts


@pytest.mark.parametrize("hostile", HOSTILE)
def test_hostile_texts_are_shown_as_text_everywhere(
    browser: Browser, job: Job, far: httpx.Client, hostile: str
) -> None:
    document = job.document()
    frame = document["frames"][0]
    frame["name"] = frame["species"] = f"x{hostile}"[:60]
    frame["look"] |= {"finish": hostile, "mat_name": hostile}
    document["quote"]["note"] = hostile
    document["quote"]["terms"]["tax_name"] = hostile[:30]
    job.save(document)
    secret = link(make(browser, job, for_whom=hostile)).rsplit("/", 1)[1]
    far.post(f"/view/{secret}/approve", data={"name": hostile, "note": hostile})
    (share,) = job.app.state.shelf.of_project(job.project_id)
    pages = [
        far.get(f"/view/{secret}"),
        *(
            browser.client.get(f"/projects/{job.project_id}/{at}")
            for at in ("client", f"shares/{share.share_id}", f"shares/{share.share_id}/frame.html", "costs", "quote")
        ),
    ]
    for answer in pages:
        assert answer.status_code == 200
        page = read(answer.text)
        scripts = [script for script in page.all("script") if "src" not in script.attributes]
        assert not scripts
        assert "{{" not in hostile or hostile in page.text
        assert not [name for element in page.walk() for name in element.attributes if name.startswith("onload")]
        assert not any(sign in answer.text for sign in ("\x00", "\u202e", "\u200f"))
