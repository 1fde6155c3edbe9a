"""The door: under which names this server answers, and who stands before it.

Whoever speaks from this computer, to a name of this computer, is *here*: the owner. Others come in only where the
server was started for the network: with the cookie of a *paired device* as the owner too, without it as a *stranger*,
to whom nothing is open but a client's page under its secret address, the pairing form, and the stylesheets.
"""

import re
from collections.abc import Mapping
from enum import Enum
from http.cookies import CookieError, SimpleCookie
from ipaddress import ip_address
from typing import Protocol

from starlette.types import Scope

from framecalc.records import Record, field
from webapp.server.network import OwnAddress, own_addresses

LOOPBACK_NAMES = frozenset({"127.0.0.1", "localhost", "[::1]"})
OPEN_TO_STRANGERS = re.compile(r"/(?:view/[^/]*(?:/(?:approve|ask))?|pair|static/.*)")
_HOST = re.compile(r"(?P<name>[a-z0-9](?:[a-z0-9.-]{0,251}[a-z0-9])?|\[[0-9a-f:.]{2,45}\])(?::(?P<port>[0-9]{1,5}))?")


class Caller(Enum):
    """Who sends a request."""

    HERE = "at this computer"
    PAIRED = "a paired device"
    STRANGER = "a stranger"


class DeviceBook(Protocol):
    """Who knows the paired devices by their token."""

    def knows(self, token: str) -> bool: ...


class NoDevices:
    """Nobody is paired where only this computer is served."""

    def knows(self, token: str) -> bool:
        """Whether a token belongs to a paired device: never."""
        return False


class Door(Record):
    """The names that are answered to besides those of this computer itself, and who is let in.

    `names`: those that the owner has said, in small letters and in that order. `is_open`: whether this computer's own
    addresses are answered to as well, whatever they are at the time.
    """

    names: tuple[str, ...] = ()
    is_open: bool = False
    devices: DeviceBook = field(default_factory=NoDevices)

    @property
    def serves_network(self) -> bool:
        """Whether anybody but this computer is served."""
        return self.is_open or bool(self.names)

    def addresses(self, *, first: str = "") -> tuple[OwnAddress, ...]:
        """How this computer is reached now: by the one that the owner puts first, by the names said, by its own."""
        said = [OwnAddress(name=name) for name in self.names]
        own = [one for one in own_addresses() if one.name not in self.names] if self.is_open else []
        return tuple(sorted([*said, *own], key=lambda one: one.name != first))

    def answers_to(self, host: str, *, arrived_at: str = "") -> bool:
        """Whether a Host header names this server, or the very address that the connection has arrived at."""
        name = name_of(host)
        return name in LOOPBACK_NAMES or name in self.names or (self.is_open and _is_address(name, arrived_at))

    def caller(self, scope: Scope, headers: Mapping[bytes, list[str]]) -> Caller:
        """Who sends a request to a host that is answered to."""
        (host,) = headers[b"host"]
        if name_of(host) in LOOPBACK_NAMES and is_this_computer(scope.get("client")):
            return Caller.HERE
        token = _cookie(headers.get(b"cookie", []), cookie_name(host))
        return Caller.PAIRED if token and self.devices.knows(token) else Caller.STRANGER


def _is_address(name: str, address: str) -> bool:
    try:
        return ip_address(name.strip("[]")) == ip_address(address)
    except ValueError:
        return False


def name_of(host: str) -> str:
    """The name in a Host header, in small letters; blank where it is no host.

    >>> name_of("LOCALHOST:8420"), name_of("localhost@evil"), name_of("[::1]:8420")
    ('localhost', '', '[::1]')
    """
    match = _HOST.fullmatch(host.lower())
    return match["name"] if match else ""


def cookie_name(host: str) -> str:
    """The name of the cookie for a host: browsers share cookies between the ports of one name, so it says the port.

    >>> cookie_name("192.168.0.9:8420"), cookie_name("shop.lan")
    ('rabbetry_8420', 'rabbetry_80')
    """
    match = _HOST.fullmatch(host.lower())
    return f"rabbetry_{match['port'] or 80}" if match else "rabbetry"


def is_this_computer(client: tuple[str, int] | None) -> bool:
    """Whether the connection itself comes from this computer: a Host header alone can be made up."""
    try:
        return client is not None and ip_address(client[0]).is_loopback
    except ValueError:
        return False


def _cookie(headers: list[str], name: str) -> str:
    try:
        cookies: SimpleCookie = SimpleCookie("; ".join(headers))
    except CookieError:
        return ""
    return cookies[name].value if name in cookies else ""
