"""A browser keeps what lies under the digest of the static files, and asks anew for everything else."""

import re
from pathlib import Path

import httpx
import pytest

from webapp.server.folders import STATIC
from webapp.server.static_files import AT, DIGEST, FOR_GOOD, digest_of


def test_every_file_of_a_page_is_kept_for_good(client: httpx.Client) -> None:
    parts = re.findall(r'(?:href|src)="(/static/[^"]+)"', client.get("/", follow_redirects=True).text)
    assert len(parts) > 5 and all(part.startswith(f"{AT}/") for part in parts)
    for part in parts:
        answer = client.get(part)
        assert (answer.status_code, answer.headers["cache-control"]) == (200, FOR_GOOD)
        assert answer.content == (STATIC / part.removeprefix(f"{AT}/")).read_bytes()


@pytest.mark.parametrize("at", ["/static", "/static/0123456789abcdef", f"/static/{DIGEST}x", f"{AT}/.."])
def test_nothing_else_is(client: httpx.Client, at: str) -> None:
    answer = client.get(f"{at}/app.css")
    assert answer.headers["cache-control"] == "no-cache"
    assert answer.status_code == (200 if at in ("/static", f"{AT}/..") else 404)


def test_what_is_not_there_is_kept_by_nobody(client: httpx.Client) -> None:
    for name in ("nothing.css", "", "../pyproject.toml", "%2e%2e/%2e%2e/pyproject.toml"):
        answer = client.get(f"{AT}/{name}")
        assert answer.status_code == 404 and answer.headers["cache-control"] == "no-cache"


def test_another_letter_or_name_is_another_digest(tmp_path: Path) -> None:
    file = tmp_path / "app.css"
    file.write_text("a")
    first = digest_of(tmp_path)
    file.write_text("b")
    second = digest_of(tmp_path)
    file.rename(tmp_path / "app.js")
    assert len({first, second, digest_of(tmp_path)}) == 3
