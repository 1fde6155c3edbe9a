"""Devices that the owner lets in from the network: paired once with a code that the shop computer shows, then known.

A *pairing code* has eight digits, lasts ten minutes, serves once, and is void after five wrong tries, so a guess has
one chance in twenty million. A void code stays to be seen until another is asked for or its ten minutes are over, so
that guessing goes on no faster. A paired device carries a random token in a cookie; only its digest is kept, in
`DATA/devices.json`, so that a copy of the data folder opens no door. Beside them stands which address is offered first.

A device is paired under the address that its browser shows: a cookie belongs to one host name, and a secret that could
be carried to another one in a link would lie readable on a plain-http network. While the file is damaged no device is
let in; it is set aside when the first is paired anew.
"""

import hashlib
import hmac
import re
import secrets
from collections.abc import Callable
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from threading import Lock
from typing import Annotated

from pydantic import Field, TypeAdapter, ValidationError

from framecalc.project import project_text
from framecalc.project.fields import Id, Model, Name
from framecalc.records import Record, replace
from webapp.data.disk import read_json, set_aside, write_safely
from webapp.data.errors import StoreError, UnreadableFile

CODE_DIGITS, CODE_LASTS, WRONG_TRIES = 8, timedelta(minutes=10), 5
TOKEN_BYTES = 32
MOST_DEVICES = 30
_NO_MORE = (
    f"{MOST_DEVICES} devices are let in, and there is room for no more. Open Devices on the shop computer, and forget "
    "one that is not used."
)
_TOKEN = re.compile(r"[A-Za-z0-9_-]{43}")


class WrongCode(StoreError):
    """The code is not the one that is shown, or it is no longer shown."""


class UnusableName(StoreError):
    """A device cannot be called that."""


class TooManyDevices(StoreError):
    """As many devices are let in as there is room for."""


class Device(Model):
    """One paired device: what it is called, the digest of its token, since when it is known."""

    id: Id
    name: Name
    digest: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
    when: str


class Code(Record):
    """A pairing code: until when it lasts, and how often it was tried wrongly."""

    digits: str
    until: datetime
    wrong: int = 0

    @property
    def is_void(self) -> bool:
        """Whether it was guessed at too often."""
        return self.wrong >= WRONG_TRIES

    def __str__(self) -> str:
        return f"{self.digits[:4]} {self.digits[4:]}"


@cache
def _kept() -> TypeAdapter[tuple[str, tuple[Device, ...]]]:
    """What the file holds: the address that is offered first, and the devices."""
    return TypeAdapter(tuple[str, tuple[Device, ...]])


def _utc_now() -> datetime:
    return datetime.now(UTC)


class Devices:
    """The paired devices of one data folder, and the pairing code of the moment."""

    def __init__(self, folder: Path, *, clock: Callable[[], datetime] = _utc_now) -> None:
        self._path, self._clock = folder / "devices.json", clock
        self._lock = Lock()
        self._code: Code | None = None
        self._is_damaged = False
        self._first, self._devices = self._read()

    @property
    def first(self) -> str:
        """Which of this computer's addresses is offered first to devices and clients; blank where nobody has chosen."""
        return self._first

    def put_first(self, name: str) -> None:
        """Choose the address that is offered first.

        Raises:
            NotWritten: the disk refused; the choice is as before.
        """
        with self._lock:
            self._write(self._devices, first=name)

    @property
    def damage(self) -> str:
        """Why no device is let in that was paired before; nothing where all is well."""
        return f"{self._path.name} is damaged: pair each device anew. The file is kept." if self._is_damaged else ""

    def list(self) -> tuple[Device, ...]:
        """The paired devices, the oldest first."""
        return self._devices

    def code(self) -> str:
        """The pairing code to show; a new one where the last was used, has lapsed, or was guessed at too often."""
        return self._renewed(keeps_void=False).digits

    def moment(self) -> Code:
        """The pairing code of the moment; a new one where the last was used or has lapsed, but not where it is void."""
        return self._renewed(keeps_void=True)

    def pair(self, code: str, *, name: str) -> str:
        """Let a device in that knows the code, and return the token for its cookie; the code is used up.

        Raises:
            WrongCode: it is not the code of the moment.
            UnusableName: the name is too long.
            TooManyDevices: no more are let in until another is let in no more; the code can be used again.
            NotWritten: the disk refused; the code can be used again.
        """
        digits = re.sub(r"[\s-]", "", code)
        with self._lock:
            if not self._matches(digits):
                raise WrongCode("That is not the code that the shop computer shows now. Look once more: it changes.")
            if len(self._devices) >= MOST_DEVICES:
                raise TooManyDevices(_NO_MORE)
            token = secrets.token_urlsafe(TOKEN_BYTES)
            self._write((*self._devices, _device(name, token, when=self._now())))
            self._code = None
            return token

    def knows(self, token: str) -> bool:
        """Whether a token belongs to a paired device."""
        digest = _digest(token) if _TOKEN.fullmatch(token) else ""
        return any([hmac.compare_digest(device.digest, digest) for device in self._devices])

    def forget(self, device_id: str) -> None:
        """Let a device in no more.

        Raises:
            NotWritten: the disk refused; the device is still known.
        """
        with self._lock:
            self._write(tuple(device for device in self._devices if device.id != device_id))

    def _renewed(self, *, keeps_void: bool) -> Code:
        with self._lock:
            code, now = self._code, self._clock()
            if code is None or now >= code.until or (code.is_void and not keeps_void):
                digits = f"{secrets.randbelow(10**CODE_DIGITS):0{CODE_DIGITS}d}"
                code = self._code = Code(digits=digits, until=now + CODE_LASTS)
            return code

    def _matches(self, digits: str) -> bool:
        code = self._code
        if code is None or code.is_void or self._clock() >= code.until:
            return False
        if hmac.compare_digest(digits.encode(), code.digits.encode()):
            return True
        self._code = replace(code, wrong=code.wrong + 1)
        return False

    def _now(self) -> str:
        return self._clock().astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")

    def _read(self) -> tuple[str, tuple[Device, ...]]:
        try:
            return read_devices(self._path)
        except FileNotFoundError:
            return "", ()
        except UnreadableFile:
            self._is_damaged = True
            return "", ()

    def _write(self, devices: tuple[Device, ...], *, first: str | None = None) -> None:
        first = self._first if first is None else first
        if self._is_damaged:
            with suppress(UnreadableFile):
                set_aside(self._path)
        kept = dict(zip(("first", "devices"), _kept().dump_python((first, devices), mode="json"), strict=True))
        write_safely(self._path, project_text(kept))
        self._first, self._devices, self._is_damaged = first, devices, False


def read_devices(path: Path) -> tuple[str, tuple[Device, ...]]:
    """Read which address is offered first, and the paired devices.

    Raises:
        UnreadableFile: the file is damaged.
        FileNotFoundError: it is not there.
    """
    kept = read_json(path)
    try:
        return _kept().validate_python((kept.get("first", ""), kept.get("devices")))
    except ValidationError as error:
        raise UnreadableFile(f"{path} is damaged: each device is to be paired anew") from error


def _device(name: str, token: str, *, when: str) -> Device:
    try:
        return Device(id=secrets.token_hex(4), name=name.strip() or "A device", digest=_digest(token), when=when)
    except ValidationError:
        raise UnusableName("Enter a name of up to 120 characters.") from None


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()
