"""A page on another port of the same computer reads, writes and shows nothing."""

from collections.abc import Callable, Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from clients import link_for, photo, priced
from every_route import every_path, kept
from tablet import LANDSCAPE, press, set_out


class _OtherPage(BaseHTTPRequestHandler):
    target = ""

    def do_GET(self) -> None:
        form = f'<form method="post" action="{self.target}"><input name="name" value="Eve"><button>Go</button></form>'
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.end_headers()
        self.wfile.write(f"<!doctype html><title>Other</title>{form}".encode())

    def log_message(self, format: str, *args: Any) -> None:
        pass


@pytest.fixture
def other_port() -> Iterator[str]:
    """Another server on another port of the same computer."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), _OtherPage)
    thread = Thread(target=server.serve_forever)
    thread.start()
    yield f"127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()
    thread.join()


@pytest.mark.parametrize("name", ["127.0.0.1", "shop.test"])
def test_a_page_on_another_port_changes_nothing(
    open_page: Callable[..., Any], address: str, other_port: str, name: str
) -> None:
    owner = open_page(LANDSCAPE)
    here = priced(owner)
    link = link_for(owner, here, "Ada")
    for target in (f"{address}{here}/delete", f"{link}/approve", link.replace("shop.test", "127.0.0.1") + "/approve"):
        _OtherPage.target = target
        other = owner.context.new_page()
        other.goto(f"http://{other_port.replace('127.0.0.1', name)}/")
        with other.expect_navigation() as gone:
            other.get_by_role("button").click()
        assert gone.value.status == 403, target
        other.close()
    owner.goto(f"{here}/client")
    assert "Approved" not in owner.locator("#links").inner_text()


TRY_ALL = """async (addresses) => {
  const found = { read: [], written: [], shown: [] };
  const tried = (url, more) => fetch(url, { credentials: 'include', ...more }).then(a => a, () => null);
  for (const url of addresses) {
    if (await tried(url)) found.read.push(url);
    if (await tried(url, { method: 'PUT' }) || await tried(url, { method: 'DELETE' })) found.written.push(url);
    if (await tried(url, { method: 'POST', headers: { 'HX-Request': 'true' } })) found.written.push(url);
    await tried(url, { method: 'POST', mode: 'no-cors', body: new URLSearchParams({ name: 'Eve', do: 'save' }) });
    const image = new Image();
    image.src = url;
    if (await image.decode().then(() => true, () => false)) found.shown.push(url);
  }
  return found;
}"""


def test_a_page_on_another_port_reads_writes_and_shows_nothing_of_any_route(
    open_page: Callable[..., Any], app: Any, address: str, other_port: str, tmp_path: Path
) -> None:
    owner = open_page(LANDSCAPE)
    here, data = priced(owner), tmp_path / "data"
    secret = link_for(owner, here, "Ada").rsplit("/", 1)[1]
    owner.goto(here)
    set_out(owner)
    frame_id = owner.url.split("/frames/")[1].split("/")[0]
    sent = {"name": "photo.jpg", "mimeType": "image/jpeg", "buffer": photo()}
    owner.goto(f"{here}/frames/{frame_id}/look")
    owner.locator("#file").set_input_files(sent)
    press(owner, owner.get_by_role("button", name="Add the photo"))
    (photo_id,) = {path.stem for path in data.glob("projects/*/photos/*.jpg")}
    known = {"project_id": here.rsplit("/", 1)[1], "frame_id": frame_id, "photo_id": photo_id, "secret": secret}
    paths = every_path(app, known | {"number": "1", "name": "front", "path": "favicon.svg"})
    before = kept(data)
    # complaints of the other page are its own
    other = owner.context.browser.new_context(storage_state=owner.context.storage_state()).new_page()
    other.goto(f"http://{other_port}/")
    assert other.evaluate(TRY_ALL, [f"{address}{path}" for path in paths]) == {"read": [], "written": [], "shown": []}
    assert kept(data) == before and len(paths) > 40
    other.context.close()
