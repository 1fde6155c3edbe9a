"""A damaged file is named in words; the program does not fall over it, and does not write over it."""

from pathlib import Path

import httpx
import pytest
from pages import Browser, read


@pytest.mark.parametrize("content", [b"", b"{", b"[]", b"\xff\xfe", b'{"schema": 7}'])
@pytest.mark.parametrize("name", ["shop.json", "rack.json", "project"])
def test_a_damaged_file_is_named(client: httpx.Client, data_dir: Path, name: str, content: bytes) -> None:
    project_id = Browser(client).new()
    of_project = data_dir / "projects" / project_id / "r000001.json"
    damaged = of_project if name == "project" else data_dir / name
    damaged.write_bytes(content)
    addresses = ("/", "/shop", "/rack", f"/projects/{project_id}", f"/projects/{project_id}/timber")
    answers = [client.get(address, follow_redirects=True) for address in addresses]
    assert {answer.status_code for answer in answers} <= {200, 404, 422, 424}
    said = " ".join(read(answer.text).text for answer in answers if answer.status_code != 200)
    assert "Something went wrong" not in said
    assert name == "project" or name in said or "shop profile" in said
    assert damaged.read_bytes() == content
