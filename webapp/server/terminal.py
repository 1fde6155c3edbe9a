"""What is printed in the terminal: where the pages are, who else is served, and a pairing code that is good.

A code that is used up or over is followed by the next; one that was guessed at is said to be void, and is not, so that
guessing goes on no faster than one code in ten minutes.
"""

from collections.abc import Callable
from contextlib import suppress

from webapp.server.devices import Code, Devices
from webapp.server.door import Door
from webapp.server.network import pairing_address, qr_terminal
from webapp.settings import LOOPBACK

Write = Callable[[str], None]
OPEN = "The network is open to paired devices and clients' links. Whoever listens there can read along."


def tell_addresses(door: Door, *, port: int, first: str, write: Write) -> None:
    """Write where the pages are, on this computer and in its networks."""
    write(f"Rabbetry is at http://{LOOPBACK}:{port}/ (Ctrl+C stops it)")
    if not door.serves_network:
        return
    for address in door.addresses(first=first):
        where = f" ({address.interface})" if address.interface else ""
        write(f"In the network: http://{address.name}:{port}/{where}")
    write(OPEN)


class CodeTeller:
    """Tells the pairing code of the moment, and the next one when that is used up, over or void."""

    def __init__(self, devices: Devices, door: Door, *, port: int, write: Write) -> None:
        self._devices, self._door, self._port, self._write = devices, door, port, write
        self._told: tuple[str, bool] | None = None

    def look(self) -> None:
        """Tell the code if another is good now than was told last, or if it is void."""
        code = self._devices.moment()
        if self._told != (code.digits, code.is_void):
            self._told = code.digits, code.is_void
            self._tell(code)

    async def look_again(self) -> None:
        """The same, for the server to call each second; it serves on where nobody takes what is told any more."""
        with suppress(OSError):
            self.look()

    def _tell(self, code: Code) -> None:
        if code.is_void:
            self._write(f"The code {code} is void: it was tried wrongly too often. The page Devices shows another.")
            return
        until = code.until.astimezone().strftime("%H:%M")
        self._write(f"Pair a device with the code {code} (once, until {until}), or scan:")
        ways = self._door.addresses(first=self._devices.first)
        if ways:
            self._write(qr_terminal(pairing_address(ways[0].name, port=self._port, code=code.digits)))
