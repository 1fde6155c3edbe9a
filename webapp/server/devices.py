"""Devices that the owner lets in from the network: paired once with a code that the shop computer shows, then known.

A *pairing code* has eight digits, lasts ten minutes, serves once, and is dropped after five wrong tries, so a guess has
one chance in twenty million. A paired device carries a random token in a cookie; only its digest is kept, in
`DATA/devices.json`, so that a copy of the data folder opens no door.
"""

import hashlib
import hmac
import re
import secrets
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from threading import Lock
from typing import Annotated

from pydantic import Field, TypeAdapter, ValidationError

from framecalc.project import project_text
from framecalc.project.fields import Id, Model, Name
from webapp.data.disk import read_json, write_safely
from webapp.data.errors import StoreError, UnreadableFile

CODE_DIGITS, CODE_LASTS, WRONG_TRIES = 8, timedelta(minutes=10), 5
TOKEN_BYTES = 32
MOST_DEVICES = 30
_TOKEN = re.compile(r"[A-Za-z0-9_-]{43}")


class WrongCode(StoreError):
    """The code is not the one that is shown, or it is no longer shown."""


class UnusableName(StoreError):
    """A device cannot be called that."""


class Device(Model):
    """One paired device: what it is called, the digest of its token, since when it is known."""

    id: Id
    name: Name
    digest: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
    when: str


@dataclass(slots=True, kw_only=True)
class _Code:
    digits: str
    until: datetime
    wrong: int = 0


_DEVICES = TypeAdapter(tuple[Device, ...])


def _utc_now() -> datetime:
    return datetime.now(UTC)


class Devices:
    """The paired devices of one data folder, and the pairing code of the moment."""

    def __init__(self, folder: Path, *, clock: Callable[[], datetime] = _utc_now) -> None:
        self._path, self._clock = folder / "devices.json", clock
        self._lock = Lock()
        self._code: _Code | None = None
        self._devices = self._read()

    def list(self) -> tuple[Device, ...]:
        """The paired devices, the oldest first."""
        return self._devices

    def code(self) -> str:
        """The pairing code to show; a new one where the last was used, has lapsed, or was guessed at too often."""
        with self._lock:
            if not self._is_good(self._code):
                digits = f"{secrets.randbelow(10**CODE_DIGITS):0{CODE_DIGITS}d}"
                self._code = _Code(digits=digits, until=self._clock() + CODE_LASTS)
            assert self._code is not None
            return self._code.digits

    def pair(self, code: str, *, name: str) -> str:
        """Let a device in that knows the code, and return the token for its cookie; the code is used up.

        Raises:
            WrongCode: it is not the code of the moment.
            UnusableName: the name is too long.
            NotWritten: the disk refused; the code can be used again.
        """
        digits = re.sub(r"[\s-]", "", code)
        with self._lock:
            if not self._matches(digits):
                raise WrongCode("That is not the code that the shop computer shows now. Look once more: it changes.")
            token = secrets.token_urlsafe(TOKEN_BYTES)
            self._write((*self._devices, _device(name, token, when=self._now()))[-MOST_DEVICES:])
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

    def _matches(self, digits: str) -> bool:
        code = self._code
        if code is None or not self._is_good(code):
            return False
        if hmac.compare_digest(digits.encode(), code.digits.encode()):
            return True
        code.wrong += 1
        return False

    def _is_good(self, code: _Code | None) -> bool:
        return code is not None and code.wrong < WRONG_TRIES and self._clock() < code.until

    def _now(self) -> str:
        return self._clock().astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")

    def _read(self) -> tuple[Device, ...]:
        try:
            return _DEVICES.validate_python(read_json(self._path).get("devices"))
        except FileNotFoundError:
            return ()
        except ValidationError:
            raise UnreadableFile(f"{self._path} is damaged: take it away, and pair the devices anew") from None

    def _write(self, devices: tuple[Device, ...]) -> None:
        write_safely(self._path, project_text({"devices": _DEVICES.dump_python(devices, mode="json")}))
        self._devices = devices


def _device(name: str, token: str, *, when: str) -> Device:
    try:
        return Device(id=secrets.token_hex(4), name=name.strip() or "A device", digest=_digest(token), when=when)
    except ValidationError:
        raise UnusableName("The device cannot be called that: a name of up to 120 letters would do.") from None


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()
