"""Whether the paired devices can still be read: while they cannot, none is let in."""

from collections.abc import Iterator
from pathlib import Path

from webapp.data.checking import Check, Fault
from webapp.data.errors import UnreadableFile
from webapp.server.devices import read_devices


def _device_faults(file: Path) -> Iterator[Fault]:
    try:
        read_devices(file)
    except UnreadableFile as error:
        yield Fault(file=file, field="", sentence=error.sentence)


DEVICE_FILES: dict[str, Check] = {"devices.json": _device_faults}
