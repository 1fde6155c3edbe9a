"""The log of requests: a line for each, without a client's secret or a query, and nothing that forges a line."""

import logging
from pathlib import Path

import pytest
from serving import client_of, serving

from webapp.app import create_app
from webapp.server.access_log import told

SECRET = "s3cret" * 7 + "x"


@pytest.fixture
def lines(data_dir: Path, caplog: pytest.LogCaptureFixture) -> list[str]:
    caplog.set_level(logging.INFO, logger="rabbetry.access")
    with serving(create_app(data_dir=data_dir, access_log=True)) as address, client_of(address) as client:
        client.get("/shop?saved=yes")
        client.get(f"/view/{SECRET}?x={SECRET}")
        client.post(f"/view/{SECRET}/approve", headers={"Origin": address})
        client.get("/pair?code=12345678")
        client.get("/nothing%0a127.0.0.1 GET /forged 200")
    return [record.getMessage() for record in caplog.records if record.name == "rabbetry.access"]


def test_each_request_has_one_line(lines: list[str]) -> None:
    assert len(lines) == 5
    assert lines[0] == "127.0.0.1 GET /shop 200"


def test_no_line_holds_a_secret_or_a_query(lines: list[str]) -> None:
    said = "\n".join(lines)
    assert SECRET not in said and "12345678" not in said and "saved" not in said
    assert "GET /view/…" in said and "POST /view/…/approve" in said


def test_a_line_cannot_be_forged(lines: list[str]) -> None:
    assert all("\n" not in line for line in lines)
    assert told("/a\nb") == "/a\\nb"
