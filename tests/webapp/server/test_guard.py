"""The guard at the door: hosts, origins, sizes, headers; and plain words for whatever goes wrong."""

from collections.abc import Iterator

import httpx
import pytest
from every_route import every_template
from pages import Browser, read

from webapp.app import create_app
from webapp.server.guard import BODY_LIMIT_BYTES, HEADERS


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


def test_every_answer_carries_the_safety_headers(client: httpx.Client) -> None:
    for address in ("/", "/shop", "/nothing", "/static/app.css", "/projects/zz"):
        answer = client.get(address)
        assert {name: answer.headers[name] for name in HEADERS} == HEADERS, address


@pytest.mark.parametrize("host", ["127.0.0.1", "127.0.0.1:8420", "localhost", "LOCALHOST:1", "[::1]:8420"])
def test_this_computer_is_answered_under_its_own_names(client: httpx.Client, host: str) -> None:
    assert client.get("/", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "host",
    ["evil.example", "127.0.0.1.evil.example", "localhost@evil", "localhost:80:80", "192.168.0.9", "0.0.0.0", "[::2]"],
)
def test_another_name_is_refused(client: httpx.Client, host: str) -> None:
    answer = client.get("/", headers={"Host": host})
    assert answer.status_code == 400
    assert "answers to 127.0.0.1" in answer.text


@pytest.mark.parametrize("origin", [None, "null", "http://evil.example", "http://127.0.0.1:1", "http://[", "file://"])
def test_a_form_of_another_page_changes_nothing(browser: Browser, origin: str | None) -> None:
    project_id = browser.new()
    headers = {"Origin": origin} if origin else {}
    answer = browser.client.post(f"/projects/{project_id}/delete", headers=headers)
    assert answer.status_code == 403
    assert browser.document(project_id)


@pytest.mark.parametrize("site", ["cross-site", "same-site", "none"])
def test_the_browser_s_own_word_for_another_site_is_enough(browser: Browser, site: str) -> None:
    project_id = browser.new()
    assert browser.post(f"/projects/{project_id}/delete", headers={"Sec-Fetch-Site": site}).status_code == 403


def test_a_body_that_says_it_is_too_large_is_refused_in_words(browser: Browser) -> None:
    answer = browser.post("/projects/import", {"pasted": "x" * (BODY_LIMIT_BYTES + 1)})
    assert answer.status_code == 413
    assert "Send at most" in answer.text


def test_a_body_that_grows_too_large_is_refused(browser: Browser) -> None:
    def pieces() -> Iterator[bytes]:
        yield b"pasted="
        for _ in range(BODY_LIMIT_BYTES // 50_000 + 2):
            yield b"x" * 50_000

    headers = {"Origin": browser.origin, "Content-Type": "application/x-www-form-urlencoded"}
    answer = browser.client.post("/projects/import", content=pieces(), headers=headers)
    assert answer.status_code == 413
    assert "Send at most" in answer.text


@pytest.mark.parametrize(
    "address", ["/nothing", "/projects/..%2f..%2fetc", "/projects/%00", "/projects/" + "x" * 3000, "/docs"]
)
def test_what_is_not_there_is_a_page_of_our_own(client: httpx.Client, address: str) -> None:
    answer = client.get(address, follow_redirects=True)
    assert answer.status_code == 404
    assert read(answer.text).by_id("main").all("h1")[0].text == "Not here"


@pytest.mark.parametrize(
    ("method", "address"), [("PUT", "/"), ("DELETE", "/projects/zz"), ("GET", "/projects/demos/x")]
)
def test_a_wrong_method_is_said_in_words(browser: Browser, method: str, address: str) -> None:
    answer = browser.client.request(method, address, headers={"Origin": browser.origin})
    assert answer.status_code == 405
    assert "takes no such request" in answer.text


@pytest.mark.parametrize("content", [b"\xff\xfe%%%", b"--x\r\n", b"a" * 100, b"=&=&=", b"\x00"])
@pytest.mark.parametrize(
    "kind", ["application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "text/plain", ""]
)
def test_a_body_that_is_no_form_breaks_nothing(browser: Browser, content: bytes, kind: str) -> None:
    address = browser.setting_out(browser.new())
    headers = {"Origin": browser.origin} | ({"Content-Type": kind} if kind else {})
    for target in (address, f"{address}/preview", "/projects", "/shop", "/projects/import"):
        assert browser.client.post(target, content=content, headers=headers).status_code < 500


def test_more_fields_than_any_page_has_break_nothing(browser: Browser) -> None:
    address = browser.setting_out(browser.new())
    answer = browser.post(address, {f"x{number}": "1" for number in range(3000)})
    assert 400 <= answer.status_code < 500


def test_every_write_is_a_post_and_every_get_changes_nothing(browser: Browser, server: str) -> None:
    project_id = browser.new()
    before = browser.document(project_id)
    address = browser.setting_out(project_id)
    for path in (
        "/",
        "/shop",
        f"/projects/{project_id}/revisions",
        address,
        address.replace("setting-out", "drawings/front"),
    ):
        assert browser.client.get(path).status_code == 200
    assert browser.document(project_id) == before


def test_no_page_of_the_framework_is_served(data_dir: object) -> None:
    paths = every_template(create_app(data_dir=data_dir))  # type: ignore[arg-type]
    assert not paths & {"/docs", "/redoc", "/openapi.json"}
    assert "/projects/{project_id}/frames/{frame_id}/setting-out" in paths
