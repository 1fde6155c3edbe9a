"""Pairing: a code serves once, lapses, is dropped when guessed at; a device is known by a token that no file holds."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from webapp.server.devices import (
    CODE_LASTS,
    MOST_DEVICES,
    WRONG_TRIES,
    Devices,
    TooManyDevices,
    UnusableName,
    WrongCode,
)


class Clock:
    def __init__(self) -> None:
        self.now = datetime(2026, 3, 1, 9, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def devices(tmp_path: Path, clock: Clock) -> Devices:
    return Devices(tmp_path, clock=clock)


def other_than(code: str) -> str:
    return f"{(int(code) + 1) % 10**8:08d}"


def test_a_device_with_the_code_is_known_afterwards(devices: Devices) -> None:
    token = devices.pair(devices.code(), name="tablet")
    assert devices.knows(token)
    assert [device.name for device in devices.list()] == ["tablet"]


def test_a_code_is_shown_until_it_is_used_and_serves_once(devices: Devices) -> None:
    code = devices.code()
    assert devices.code() == code and len(code) == 8
    devices.pair(f"{code[:4]} {code[4:]}", name="tablet")
    with pytest.raises(WrongCode):
        devices.pair(code, name="another")


def test_a_code_lapses(devices: Devices, clock: Clock) -> None:
    code = devices.code()
    clock.now += CODE_LASTS
    with pytest.raises(WrongCode):
        devices.pair(code, name="late")
    assert devices.list() == ()


def test_a_code_guessed_at_is_dropped_even_for_who_knows_it(devices: Devices) -> None:
    code = devices.code()
    for _ in range(WRONG_TRIES):
        with pytest.raises(WrongCode):
            devices.pair(other_than(code), name="guess")
    with pytest.raises(WrongCode):
        devices.pair(code, name="late")
    assert devices.pair(devices.code(), name="tablet")


def test_a_code_guessed_at_is_shown_as_void_until_another_is_asked_for(devices: Devices) -> None:
    code = devices.moment()
    for _ in range(WRONG_TRIES):
        assert not devices.moment().is_void
        with pytest.raises(WrongCode):
            devices.pair(other_than(code.digits), name="guess")
    assert devices.moment().digits == code.digits and devices.moment().is_void
    assert devices.code() != code.digits and not devices.moment().is_void


def test_a_void_code_is_followed_by_another_when_its_time_is_over(devices: Devices, clock: Clock) -> None:
    code = devices.moment()
    for _ in range(WRONG_TRIES):
        with pytest.raises(WrongCode):
            devices.pair(other_than(code.digits), name="guess")
    clock.now += CODE_LASTS
    assert devices.moment().digits != code.digits and not devices.moment().is_void


def test_one_device_too_many_is_refused_and_nobody_is_put_out(devices: Devices) -> None:
    tokens = [devices.pair(devices.code(), name=f"tablet {number}") for number in range(MOST_DEVICES)]
    code = devices.code()
    with pytest.raises(TooManyDevices, match="room for no more"):
        devices.pair(code, name="one more")
    assert all(devices.knows(token) for token in tokens) and len(devices.list()) == MOST_DEVICES
    devices.forget(devices.list()[3].id)
    assert devices.knows(devices.pair(code, name="one more"))


@pytest.mark.parametrize("code", ["", "0", "x" * 8, "٠" * 8, "\x00", "0" * 9])
def test_no_code_that_is_not_shown_lets_in(devices: Devices, code: str) -> None:
    with pytest.raises(WrongCode):
        devices.pair(code, name="x")


def test_before_a_code_is_shown_none_lets_in(devices: Devices) -> None:
    with pytest.raises(WrongCode):
        devices.pair("00000000", name="x")


def test_no_file_holds_a_token(devices: Devices, tmp_path: Path) -> None:
    token = devices.pair(devices.code(), name="tablet")
    assert all(token not in path.read_text("utf-8") for path in tmp_path.iterdir())


def test_devices_are_known_after_a_restart_and_forgotten_for_good(devices: Devices, tmp_path: Path) -> None:
    token, other = (devices.pair(devices.code(), name=name) for name in ("tablet", "phone"))
    again = Devices(tmp_path)
    assert again.knows(token) and again.knows(other)
    again.forget(again.list()[0].id)
    assert not again.knows(token) and again.knows(other)
    assert not Devices(tmp_path).knows(token)


@pytest.mark.parametrize("token", ["", "x", "A" * 43, "A" * 44, "é" * 43])
def test_a_strange_token_is_not_known(devices: Devices, token: str) -> None:
    devices.pair(devices.code(), name="tablet")
    assert not devices.knows(token)


def test_a_name_is_plain_text_of_some_letters(devices: Devices) -> None:
    with pytest.raises(UnusableName, match="Enter a name of up to 120 characters"):
        devices.pair(devices.code(), name="x" * 200)
    devices.pair(devices.code(), name="a\x00\u202eb")
    assert devices.list()[0].name == "ab"


@pytest.mark.parametrize("damaged", ["", "{", "{}", '{"devices": [{"id": "x"}]}'])
def test_a_damaged_list_lets_nobody_in_and_keeps_nobody_from_starting(tmp_path: Path, damaged: str) -> None:
    """Fault: the program did not start."""
    path = tmp_path / "devices.json"
    path.write_text(damaged)
    devices = Devices(tmp_path)
    assert "pair each device anew" in devices.damage and not devices.list()
    token = devices.pair(devices.code(), name="tablet")
    assert Devices(tmp_path).knows(token) and not devices.damage
    assert (tmp_path / "devices-damaged-1.json").read_text() == damaged
