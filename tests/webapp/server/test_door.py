"""The door to the network: who may come in, under which names, and what a stranger finds."""

import sys
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
from pages import Browser, read
from serving import SHOP, client_of, serving

from webapp.app import create_app
from webapp.server import door as door_module
from webapp.server.devices import WRONG_TRIES, Devices
from webapp.server.door import Caller, Door, cookie_name, name_of
from webapp.server.guard import STRANGER_LIMIT_BYTES
from webapp.server.network import OwnAddress


class Knows:
    def __init__(self, *tokens: str) -> None:
        self.tokens = tokens

    def knows(self, token: str) -> bool:
        return token in self.tokens


def code_shown(here: httpx.Client) -> str:
    return read(here.get("/devices").text).by_id("code").text


def paired(here: httpx.Client, far: httpx.Client) -> httpx.Response:
    return far.post("/pair", data={"code": code_shown(here), "device": "tablet"})


# --- names


@pytest.mark.parametrize(
    ("host", "name"),
    [
        ("shop.test", "shop.test"),
        ("SHOP.TEST:8420", "shop.test"),
        ("[::1]:1", "[::1]"),
        ("", ""),
        ("a@b", ""),
        ("a b", ""),
        ("a:b", ""),
        ("a:1:2", ""),
        ("a:123456", ""),
        ("-a", ""),
        ("a/b", ""),
        ("a\r\nb", ""),
    ],
)
def test_a_host_is_a_name_and_a_port_or_nothing(host: str, name: str) -> None:
    assert name_of(host) == name


def test_only_the_names_said_are_answered_to() -> None:
    door = Door(names=(SHOP,))
    assert door.answers_to(f"{SHOP}:8420") and door.answers_to("127.0.0.1:8420")
    assert not any(
        door.answers_to(host) for host in ("other.test", f"x.{SHOP}", f"{SHOP}.evil", "192.168.0.9", "0.0.0.0")
    )


def test_an_open_door_answers_to_the_address_that_was_reached_and_to_no_other() -> None:
    door = Door(is_open=True)
    assert door.answers_to("192.168.0.9:8420", arrived_at="192.168.0.9")
    assert door.answers_to("[fd00::2]:8420", arrived_at="fd00::2")
    assert door.answers_to("[FD00:0::2]:8420", arrived_at="fd00::2")
    assert not door.answers_to("192.168.0.10:8420", arrived_at="192.168.0.9")
    assert not door.answers_to("shop.test", arrived_at="192.168.0.9")
    assert not Door(names=(SHOP,)).answers_to("192.168.0.9:8420", arrived_at="192.168.0.9")


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere a computer has one loopback address")
def test_an_address_that_is_new_since_the_start_is_answered_to(data_dir: Path) -> None:
    app = create_app(data_dir=data_dir, is_open=True)
    with serving(app, host="127.0.0.2") as address, client_of(address) as far:
        assert far.get("/pair").status_code == 200
        assert far.get("/pair", headers={"Host": "127.0.0.3"}).status_code == 400


def test_the_names_said_come_first_and_in_their_order(monkeypatch: pytest.MonkeyPatch) -> None:
    own = (OwnAddress(name="10.0.0.9", interface="eth0"), OwnAddress(name="zeta.test", interface="eth0"))
    monkeypatch.setattr(door_module, "own_addresses", lambda: own)
    door = Door(names=("zeta.test", "alpha.test"), is_open=True)
    assert [one.name for one in door.addresses()] == ["zeta.test", "alpha.test", "10.0.0.9"]
    assert [one.name for one in door.addresses(first="10.0.0.9")] == ["10.0.0.9", "zeta.test", "alpha.test"]
    assert [one.name for one in door.addresses(first="gone.test")] == ["zeta.test", "alpha.test", "10.0.0.9"]
    assert [one.name for one in Door(names=("b", "a")).addresses()] == ["b", "a"]


def test_two_servers_on_one_computer_have_two_cookies() -> None:
    assert cookie_name("shop.test:8420") != cookie_name("shop.test:8421")


# --- callers


def caller(client: tuple[str, int] | None, host: str, cookie: str = "") -> Caller:
    door = Door(names=(SHOP,), devices=Knows("good"))
    headers = {b"host": [host], **({b"cookie": [cookie]} if cookie else {})}
    return door.caller({"client": client}, headers)


def test_a_made_up_host_header_makes_nobody_the_owner() -> None:
    assert caller(("192.168.0.44", 5), "127.0.0.1:8420") is Caller.STRANGER
    assert caller(("192.168.0.44", 5), "localhost:8420") is Caller.STRANGER
    assert caller(None, "localhost:8420") is Caller.STRANGER
    assert caller(("not an address", 5), "localhost:8420") is Caller.STRANGER


@pytest.mark.parametrize("address", ["127.0.0.1", "127.0.0.53", "::1"])
def test_this_computer_under_its_own_name_is_the_owner(address: str) -> None:
    assert caller((address, 5), "127.0.0.1:8420") is Caller.HERE
    assert caller((address, 5), f"{SHOP}:8420") is Caller.STRANGER


@pytest.mark.parametrize(
    "cookie",
    ["", "rabbetry_8420=bad", "rabbetry_8421=good", "x=good", "rabbetry_8420", "=;;=", 'rabbetry_8420="g\\"ood"'],
)
def test_without_the_right_cookie_a_caller_is_a_stranger(cookie: str) -> None:
    assert caller(("192.168.0.44", 5), f"{SHOP}:8420", cookie) is Caller.STRANGER


def test_with_the_right_cookie_among_others_a_caller_is_paired() -> None:
    assert caller(("192.168.0.44", 5), f"{SHOP}:8420", "a=b; rabbetry_8420=good; c=d") is Caller.PAIRED


# --- pairing


def test_a_stranger_is_sent_to_the_pairing_form(far: httpx.Client) -> None:
    answer = far.get("/")
    assert answer.status_code == 403 and 'href="/pair"' in answer.text
    assert far.get("/pair").status_code == 200
    assert far.get("/static/app.css").status_code == 200


def test_a_browser_that_opens_a_page_has_the_pairing_form_at_once(far: httpx.Client) -> None:
    opened = {"Accept": "text/html,application/xhtml+xml"}
    answer = far.get("/projects/k3fw07qz", headers=opened)
    assert (answer.status_code, answer.headers["location"]) == (303, "/pair")
    part = far.get("/", headers=opened | {"HX-Request": "true"})
    assert part.status_code == 403 and "still here" in part.text and "<main" not in part.text
    sent = far.post("/shop", data={"name": "x"}, headers=opened)
    assert sent.status_code == 403 and 'href="/pair" target="_blank"' in sent.text


def test_a_device_with_the_code_comes_in_and_stays_in(here: httpx.Client, far: httpx.Client) -> None:
    answer = paired(here, far)
    assert answer.status_code == 303
    cookie = answer.headers["set-cookie"]
    assert "HttpOnly" in cookie and "SameSite=strict" in cookie and "Path=/" in cookie and "Secure" not in cookie
    assert far.get("/").status_code == 200
    assert Browser(here).new() in far.get("/").text


def test_a_wrong_code_is_refused_in_words_and_then_slowed_down(here: httpx.Client, far: httpx.Client) -> None:
    code_shown(here)
    answers = [far.post("/pair", data={"code": "1", "device": "x"}) for _ in range(7)]
    assert [answer.status_code for answer in answers[:5]] == [422] * 5
    assert "not the code" in answers[0].text and "set-cookie" not in answers[0].headers
    assert answers[-1].status_code == 429 and int(answers[-1].headers["retry-after"]) > 0


def test_the_code_is_shown_on_the_shop_computer_alone(here: httpx.Client, far: httpx.Client) -> None:
    paired(here, far)
    code = code_shown(here)
    page = far.get("/devices").text
    assert code not in page and code.replace(" ", "") not in page
    assert "on the shop computer alone" in page


def ways(page: str) -> list[str]:
    """The addresses on the page of devices, in their order; each has a QR code of its own."""
    found = [one for one in read(page).all("figure") if "pairing address" in one.attributes.get("aria-label", "")]
    assert all(one.all("svg") for one in found)
    return [one.attributes["aria-label"].split("//")[1].split(":")[0] for one in found]


def test_each_address_has_a_code_and_the_owner_chooses_the_first(here: httpx.Client, lan: str) -> None:
    assert ways(here.get("/devices").text) == [SHOP, "192.168.0.9"]
    assert Browser(here).post("/devices/first", {"first": "192.168.0.9"}).status_code == 303
    assert ways(here.get("/devices").text) == ["192.168.0.9", SHOP]
    Browser(here).post("/devices/first", {"first": "evil.test"})
    assert ways(here.get("/devices").text) == ["192.168.0.9", SHOP]


def test_the_choice_of_the_first_address_is_kept(data_dir: Path) -> None:
    devices = Devices(data_dir.parent)
    token = devices.pair(devices.code(), name="tablet")
    devices.put_first("shop.test")
    again = Devices(data_dir.parent)
    assert again.first == "shop.test" and again.knows(token)


def test_a_code_that_was_guessed_at_is_shown_as_void(here: httpx.Client, far: httpx.Client) -> None:
    code = code_shown(here)
    for _ in range(WRONG_TRIES):
        far.post("/pair", data={"code": "1", "device": "x"})
    page = here.get("/devices").text
    assert "no longer works" in page and code in page and 'id="code"' not in page
    assert Browser(here).post("/devices/code").status_code == 303
    assert code_shown(here) != code


def test_a_device_let_in_no_more_is_a_stranger_at_once(here: httpx.Client, far: httpx.Client) -> None:
    paired(here, far)
    page = read(here.get("/devices").text)
    (form,) = [form for form in page.all("form") if form.attributes["action"].endswith("/forget")]
    assert Browser(here).post(form.attributes["action"]).status_code == 303
    assert far.get("/").status_code == 403


def test_a_name_of_markup_is_text(here: httpx.Client, far: httpx.Client) -> None:
    far.post("/pair", data={"code": code_shown(here), "device": "<script>x</script>"})
    assert "&lt;script&gt;x" in here.get("/devices").text


def test_a_name_too_long_is_refused_in_words(here: httpx.Client, far: httpx.Client) -> None:
    answer = far.post("/pair", data={"code": code_shown(here), "device": "x" * 10_000})
    assert answer.status_code == 422 and "120 characters" in answer.text


def test_a_paired_device_still_needs_the_right_origin(here: httpx.Client, far: httpx.Client) -> None:
    paired(here, far)
    project_id = Browser(here).new()
    for origin in ("http://evil.test", "null", f"http://{SHOP}:1", "http://192.168.0.9"):
        answer = far.post(f"/projects/{project_id}/delete", headers={"Origin": origin})
        assert answer.status_code == 403
    assert here.get(f"/projects/{project_id}/project.json").status_code == 200


# --- what goes out into the network


def test_a_browser_in_the_network_keeps_no_private_page(here: httpx.Client, far: httpx.Client) -> None:
    assert far.get("/").headers["cache-control"] == "no-store"
    paired(here, far)
    for address in ("/", "/shop", "/devices"):
        assert far.get(address).headers["cache-control"] == "no-store"
    assert far.get("/static/app.css").headers["cache-control"] != "no-store"


def test_a_stranger_sends_little(far: httpx.Client) -> None:
    answer = far.post("/pair", content=b"x" * (STRANGER_LIMIT_BYTES + 1))
    assert answer.status_code == 413

    def pieces() -> Iterator[bytes]:
        for _ in range(30):
            yield b"code=" + b"x" * 1000

    headers = {"Content-Type": "application/x-www-form-urlencoded"}
    assert far.post("/pair", content=pieces(), headers=headers).status_code == 413


def test_without_lan_there_is_no_way_in(client: httpx.Client) -> None:
    assert client.get("/", headers={"Host": SHOP}).status_code == 400
    assert "Start with <code>--lan</code>" in client.get("/devices").text
