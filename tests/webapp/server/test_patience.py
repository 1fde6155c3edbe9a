"""Slow clients: silent, half a head, half a body, an answer left lying; the owner is answered meanwhile."""

import asyncio
import socket
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from threading import Event
from time import sleep
from typing import Any

import httpx
import pytest
from pages import Browser
from serving import SHOP, client_of, serving
from starlette.types import Receive, Scope, Send

from webapp.server import patience, room

HEAD = b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n"
HALF_BODY = (
    b"POST /pair HTTP/1.1\r\nHost: 127.0.0.1\r\nOrigin: http://127.0.0.1\r\nContent-Length: 100\r\n"
    b"Content-Type: application/x-www-form-urlencoded\r\n\r\ncode=1"
)
BEGUN = {"silent": b"", "half a head": HEAD, "half a body": HALF_BODY}


@pytest.fixture
def hurried(monkeypatch: pytest.MonkeyPatch) -> None:
    """Deadlines that a test can wait for."""
    for name, seconds in {"HEAD_S": 0.3, "QUIET_S": 0.3, "LOOK_S": 0.05}.items():
        monkeypatch.setattr(patience, name, seconds)


@pytest.fixture
def afar(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every connection counts as one from another computer, as far as room is concerned."""
    monkeypatch.setattr(patience, "is_this_computer", lambda client: False)


@contextmanager
def lines(address: str, count: int, begun: bytes) -> Iterator[list[socket.socket]]:
    """Connections on which only so much is sent."""
    url = httpx.URL(address)
    with ExitStack() as stack:
        opened = [stack.enter_context(socket.create_connection((url.host, url.port or 80))) for _ in range(count)]
        for line in opened:
            line.settimeout(30)
            line.sendall(begun)
        yield opened


def is_cut(line: socket.socket) -> bool:
    """Whether a connection ends, sooner or later, without an answer."""
    try:
        return line.recv(1) == b""
    except ConnectionError:
        return True


@pytest.mark.parametrize("begun", BEGUN.values(), ids=BEGUN)
def test_sixty_lines_that_are_held_keep_the_owner_from_nothing(server: str, begun: bytes) -> None:
    with lines(server, 60, begun), client_of(server) as owner:
        assert owner.get("/").status_code == 200
        browser = Browser(owner)
        browser.new()


def test_more_lines_than_there_are_places_keep_the_owner_from_nothing(server: str) -> None:
    with lines(server, room.MOST_OPEN + 20, b""), client_of(server) as owner:
        assert owner.get("/").status_code == 200


def test_eleven_browsers_with_six_connections_each_are_answered(server: str) -> None:
    with ExitStack() as stack:
        owners = [stack.enter_context(client_of(server)) for _ in range(66)]
        assert {owner.get("/").status_code for owner in owners} == {200}
        assert {owner.get("/").status_code for owner in owners} == {200}


def test_a_paired_device_comes_in_past_strangers_that_hold_every_line(lan_app: Any, afar: None) -> None:
    with serving(lan_app) as address:
        host = f"{SHOP}:{httpx.URL(address).port}"
        as_device = {"Host": host, "Origin": f"http://{host}"}
        form = {"code": lan_app.state.devices.code(), "device": "tablet"}
        with client_of(address, headers=as_device) as far:
            assert far.post("/pair", data=form).status_code == 303
            assert far.get("/").status_code == 200
            with lines(address, 60, HALF_BODY):
                assert far.get("/").status_code == 200
                with client_of(address, headers=as_device, cookies=far.cookies) as again:
                    assert again.get("/").status_code == 200


def test_of_one_strange_address_the_longest_silent_line_goes(server: str, afar: None) -> None:
    with lines(server, room.MOST_OF_ONE_STRANGER + 1, b"") as opened:
        assert is_cut(opened[0])
        opened[-1].sendall(HEAD + b"\r\n")
        assert opened[-1].recv(12) == b"HTTP/1.1 200"


@pytest.mark.parametrize("begun", BEGUN.values(), ids=BEGUN)
def test_who_only_holds_the_line_is_cut_off(server: str, hurried: None, begun: bytes) -> None:
    with lines(server, 3, begun) as opened:
        assert all(is_cut(line) for line in opened)


def test_a_head_that_trickles_in_is_no_sign_of_life(server: str, hurried: None) -> None:
    with lines(server, 1, HEAD) as (line,), pytest.raises(ConnectionError):
        while True:
            line.sendall(b"X: y\r\n")
            sleep(0.05)


def test_a_body_that_trickles_in_is_taken(server: str, hurried: None) -> None:
    head = (
        b"POST /projects HTTP/1.1\r\nHost: 127.0.0.1\r\nOrigin: http://127.0.0.1\r\nContent-Length: 12\r\n"
        b"Content-Type: application/x-www-form-urlencoded\r\n\r\n"
    )
    with lines(server, 1, head) as (line,):
        for _ in range(12):
            sleep(0.1)
            line.sendall(b"a")
        assert line.recv(9) == b"HTTP/1.1 "


async def much(scope: Scope, receive: Receive, send: Send) -> None:
    """An application that says more than a line holds."""
    if scope["type"] == "lifespan":
        while True:
            kind = (await receive())["type"]
            await send({"type": f"{kind}.complete"})
            if kind == "lifespan.shutdown":
                return
    await send({"type": "http.response.start", "status": 200, "headers": [(b"content-length", b"90000000")]})
    await send({"type": "http.response.body", "body": bytes(90_000_000)})


async def much_after_long(scope: Scope, receive: Receive, send: Send) -> None:
    """The same, after some time."""
    if scope["type"] == "http":
        await asyncio.sleep(patience.WHOLE_S * 1.1)
    await much(scope, receive, send)


def test_what_took_long_to_make_may_still_be_taken(hurried: None, monkeypatch: pytest.MonkeyPatch) -> None:
    """Fault: an answer that took as long to make as a request may last in all was cut off at its first byte."""
    monkeypatch.setattr(patience, "WHOLE_S", 3)
    with serving(much_after_long) as address, lines(address, 1, HEAD + b"Connection: close\r\n\r\n") as (line,):
        assert line.recv(1)
        sleep(0.2)
        assert taken_from(line) > 90_000_000


def test_an_answer_that_nobody_takes_is_given_up(hurried: None, monkeypatch: pytest.MonkeyPatch) -> None:
    given_up, leave = Event(), patience.PatientProtocol.leave
    monkeypatch.setattr(patience.PatientProtocol, "leave", lambda one: (leave(one), given_up.set()))
    with serving(much) as address, lines(address, 1, HEAD + b"\r\n") as (line,):
        assert given_up.wait(timeout=30)
        assert taken_from(line) < 90_000_000


def taken_from(line: socket.socket) -> int:
    """How much comes until the end, which may be sudden."""
    taken = 0
    with suppress(ConnectionError):
        while piece := line.recv(1_000_000):
            taken += len(piece)
    return taken


def test_an_answer_that_is_taken_slowly_comes_whole(hurried: None) -> None:
    with serving(much) as address, lines(address, 1, HEAD + b"Connection: close\r\n\r\n") as (line,):
        taken = 0
        while piece := line.recv(1_000_000):
            taken += len(piece)
            sleep(0.005)
        assert taken > 90_000_000


def test_whoever_finds_no_place_is_told_so_on_a_page(
    server: str, monkeypatch: pytest.MonkeyPatch, client: httpx.Client
) -> None:
    monkeypatch.setattr(patience, "make_room", lambda new, guests: False)
    answer = client.get("/")
    assert answer.status_code == 503 and answer.headers["retry-after"]
    assert "<h1>Busy</h1>" in answer.text and "Try again in a moment" in answer.text


@pytest.mark.parametrize("name", ["X-Forwarded-For", "X-Real-IP", "Forwarded", "X-Forwarded-Host", "X-Forwarded-Proto"])
def test_what_a_header_says_of_its_caller_is_never_believed(
    here: httpx.Client, far: httpx.Client, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    for said in ("127.0.0.1", "localhost", "for=127.0.0.1;host=localhost", "https"):
        assert far.get("/", headers={name: said}).status_code == 403
    for said in ("192.168.0.44", "shop.test", "for=192.168.0.44", "https"):
        assert here.get("/", headers={name: said}).status_code == 200
