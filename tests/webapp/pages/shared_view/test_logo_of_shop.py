"""The mark of the shop: added once, on every page that clients are sent from then on, and on no earlier one."""

import base64
import io
from typing import Any

import httpx
import pytest
from pages import Browser, read
from PIL import Image
from shared import Job, start_job


@pytest.fixture
def job(lan_app: Any) -> Job:
    return start_job(lan_app)


def picture(across: int = 900, up: int = 300) -> bytes:
    written = io.BytesIO()
    Image.new("RGB", (across, up), "#335577").save(written, "PNG")
    return written.getvalue()


def send(here: httpx.Client, content: bytes) -> httpx.Response:
    return Browser(here).post("/shop/logo", files={"photo": ("mark.png", content, "image/png")})


def logos(client: httpx.Client, secret: str) -> list[str]:
    head = read(client.get(f"/view/{secret}").text)._all("header.top")[0]
    return [image.attributes["src"] for image in head.all("img")]


def test_a_mark_stands_on_what_is_issued_after_it(job: Job, far: httpx.Client, here: httpx.Client) -> None:
    before, _ = job.share()
    assert send(here, picture()).headers["location"] == "/shop#logo"
    after, _ = job.share()
    assert logos(far, before) == []
    (logo,) = logos(far, after)
    kept = Image.open(io.BytesIO(base64.b64decode(logo.removeprefix("data:image/png;base64,"))))
    assert kept.size == (360, 120)
    assert Browser(here).get("/shop").by_id("logo").all("img")[0].attributes["src"] == logo
    Browser(here).post("/shop/logo/remove")
    assert Browser(here).get("/shop").by_id("logo").all("img") == []
    assert logos(far, after) == [logo]


def test_what_is_no_picture_is_refused_and_the_mark_stays(job: Job, here: httpx.Client) -> None:
    send(here, picture(40, 40))
    kept = Browser(here).get("/shop").by_id("logo").all("img")[0].attributes["src"]
    assert send(here, b"no picture").status_code == 422
    assert send(here, b"").status_code == 422
    assert Browser(here).get("/shop").by_id("logo").all("img")[0].attributes["src"] == kept
