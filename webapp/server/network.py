"""This computer in its network: the addresses that others reach it by, and a QR code of one."""

import socket
from contextlib import suppress
from io import StringIO
from ipaddress import ip_address

import segno

_ANYWHERE = ("192.0.2.1", 9)
"""An address that belongs to nobody (RFC 5737): asking for the way to it sends nothing, and tells our own address."""


def own_addresses() -> tuple[str, ...]:
    """The addresses of this computer in its networks, the one on the usual way out first; none without a network."""
    found: list[str] = []
    with suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as way_out:
        way_out.connect(_ANYWHERE)
        found.append(way_out.getsockname()[0])
    with suppress(OSError):
        found += [str(info[4][0]) for info in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)]
    return tuple(dict.fromkeys(address for address in found if not ip_address(address).is_loopback))


def pairing_address(name: str, *, port: int, code: str) -> str:
    """The address of the pairing form with its code filled in.

    >>> pairing_address("192.168.0.9", port=8420, code="12345678")
    'http://192.168.0.9:8420/pair?code=12345678'
    """
    return f"http://{name}:{port}/pair?code={code}"


def qr_svg(text: str) -> str:
    """A QR code as SVG to stand in a page."""
    return str(segno.make(text, error="m").svg_inline(scale=5, border=4, svgclass="qr", lineclass=None, omitsize=False))


def qr_terminal(text: str) -> str:
    """A QR code as letters for a terminal."""
    written = StringIO()
    segno.make(text, error="l").terminal(out=written, compact=True, border=2)
    return written.getvalue()
