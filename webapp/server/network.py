"""This computer in its network: the addresses that others reach it by, in what order, and a QR code of one.

An address is read from the interfaces each time it is asked for: they change while the server runs.
"""

import re
import socket
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from io import StringIO
from ipaddress import ip_address

from framecalc.records import Record

_FAR = {socket.AF_INET: "192.0.2.1", socket.AF_INET6: "2001:db8::1"}
"""Addresses that belong to nobody (RFC 5737, RFC 3849): asking for the way sends nothing, and tells our own address."""

ANSWER_S = 0.5
"""How long a computer in the same network may take to answer; common practice, no source."""

ANYWHERE = frozenset({"0.0.0.0", "[::]"})
"""What stands for all addresses of a computer, and is none of them."""

_ASIDE = re.compile(
    r"br-|bridge\d{3}|cali|cni|docker|flannel|incusbr|ipsec|lxc|lxdbr|podman|ppp|tap|tun|utun|vbox|veth|virbr|vmnet|wg|zt"
)
"""How interfaces are called that lead to containers, virtual machines and tunnels; common practice, no source."""


class OwnAddress(Record):
    """One way to reach this computer: what stands between `http://` and the port, and the interface that has it.

    There is no interface where the name was said by the owner.
    """

    name: str
    interface: str = ""


class Interface(Record):
    """A network interface: what it is called, whether it leads to one other computer only, its addresses."""

    name: str
    is_tunnel: bool
    addresses: tuple[str, ...]


def own_addresses() -> tuple[OwnAddress, ...]:
    """The addresses of this computer in its networks, the likeliest first; none without a network."""
    return in_order(_interfaces(), ways_out=_ways_out())


def in_order(interfaces: tuple[Interface, ...], *, ways_out: frozenset[str] = frozenset()) -> tuple[OwnAddress, ...]:
    """Put the addresses first that a tablet is likeliest to reach.

    Addresses of tunnels, containers and virtual machines come last, whatever the way out is; then an address that was
    given comes before one that a computer gave itself, the way out before others, the shorter kind before the longer.
    Addresses that are good on this computer or on one cable only (an IPv6 address with a zone) are left out.
    """
    found = [
        ((_is_aside(one), ip_address(text).is_link_local, text not in ways_out, ip_address(text).version), text, one)
        for one in interfaces
        for text in one.addresses
        if _reaches(text)
    ]
    return tuple(
        OwnAddress(name=name_for(text), interface=one.name) for _, text, one in sorted(found, key=lambda one: one[0])
    )


def name_for(address: str) -> str:
    """An address as it stands in a link.

    >>> name_for("192.168.0.9"), name_for("FD00::2")
    ('192.168.0.9', '[fd00::2]')
    """
    found = ip_address(address)
    return f"[{found}]" if found.version == 6 else str(found)


def pairing_address(name: str, *, port: int, code: str) -> str:
    """The address of the pairing form with its code filled in.

    >>> pairing_address("192.168.0.9", port=8420, code="12345678")
    'http://192.168.0.9:8420/pair?code=12345678'
    """
    return f"http://{name}:{port}/pair?code={code}"


def answers(name: str, *, port: int) -> bool:
    """Whether a connection to an address comes about from this computer; nothing is sent.

    A name that nobody knows is not waited for longer than for the connection.
    """
    asking = ThreadPoolExecutor(max_workers=1)
    try:
        return asking.submit(_connects, name.strip("[]"), port).result(timeout=2 * ANSWER_S)
    except TimeoutError:
        return False
    finally:
        asking.shutdown(wait=False, cancel_futures=True)


def _connects(name: str, port: int) -> bool:
    with suppress(OSError), socket.create_connection((name, port), timeout=ANSWER_S):
        return True
    return False


def qr_svg(text: str) -> str:
    """A QR code as SVG to stand in a page."""
    import segno  # only where a code is shown

    return str(segno.make(text, error="m").svg_inline(scale=5, border=4, svgclass="qr", lineclass=None, omitsize=False))


def qr_terminal(text: str) -> str:
    """A QR code as letters for a terminal."""
    import segno

    written = StringIO()
    segno.make(text, error="l").terminal(out=written, compact=True, border=2)
    return written.getvalue()


def _interfaces() -> tuple[Interface, ...]:
    """The interfaces that are up."""
    import psutil  # only where the network is served

    states = psutil.net_if_stats()
    return tuple(
        Interface(
            name=name,
            is_tunnel="pointopoint" in states[name].flags,
            addresses=tuple(one.address for one in found if one.family in _FAR),
        )
        for name, found in psutil.net_if_addrs().items()
        if name in states and states[name].isup
    )


def _ways_out() -> frozenset[str]:
    """Our own addresses on the usual ways out, where there are any."""
    found: set[str] = set()
    for family, anywhere in _FAR.items():
        with suppress(OSError), socket.socket(family, socket.SOCK_DGRAM) as way_out:
            way_out.connect((anywhere, 9))
            found.add(way_out.getsockname()[0])
    return frozenset(found)


def _is_aside(interface: Interface) -> bool:
    return interface.is_tunnel or _ASIDE.match(interface.name.lower()) is not None


def _reaches(text: str) -> bool:
    address = ip_address(text)
    return not (address.is_loopback or address.is_unspecified or (address.version == 6 and address.is_link_local))
