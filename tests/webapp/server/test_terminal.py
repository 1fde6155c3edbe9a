"""What the terminal tells: the code that it shows last is good, or is said to be void."""

from pathlib import Path

import pytest
from test_devices import Clock, other_than

from webapp.server.devices import CODE_LASTS, WRONG_TRIES, Devices, WrongCode
from webapp.server.door import Door
from webapp.server.terminal import OPEN, CodeTeller, tell_addresses


class Terminal:
    def __init__(self, folder: Path) -> None:
        self.lines: list[str] = []
        self.clock = Clock()
        self.devices = Devices(folder, clock=self.clock)
        self.door = Door(names=("shop.test",), devices=self.devices)
        self.teller = CodeTeller(self.devices, self.door, port=8420, write=self.lines.append)

    def told(self) -> list[str]:
        """What is told when it is looked, without the pictures."""
        self.lines.clear()
        self.teller.look()
        return [line for line in self.lines if "code" in line]


@pytest.fixture
def terminal(tmp_path: Path) -> Terminal:
    return Terminal(tmp_path)


def code_in(lines: list[str]) -> str:
    (line,) = lines
    return "".join(line.split("the code ")[1].split()[:2])


def test_a_code_is_told_once_and_is_good(terminal: Terminal) -> None:
    code = code_in(terminal.told())
    assert terminal.told() == []
    assert terminal.devices.pair(code, name="tablet")


def test_after_a_device_was_let_in_the_next_code_is_told(terminal: Terminal) -> None:
    code = code_in(terminal.told())
    terminal.devices.pair(code, name="tablet")
    following = code_in(terminal.told())
    assert following != code and terminal.devices.pair(following, name="telephone")


def test_after_ten_minutes_the_next_code_is_told(terminal: Terminal) -> None:
    code = code_in(terminal.told())
    terminal.clock.now += CODE_LASTS
    following = code_in(terminal.told())
    assert following != code and terminal.devices.pair(following, name="tablet")


def test_a_code_that_was_guessed_at_is_told_to_be_void(terminal: Terminal) -> None:
    code = code_in(terminal.told())
    for _ in range(WRONG_TRIES):
        with pytest.raises(WrongCode):
            terminal.devices.pair(other_than(code), name="guess")
    (line,) = terminal.told()
    assert f"{code[:4]} {code[4:]} is void" in line
    assert terminal.told() == []


@pytest.mark.parametrize(("door", "is_open"), [(Door(), False), (Door(names=("b.test", "a.test")), True)])
def test_an_open_network_is_said(door: Door, is_open: bool) -> None:
    lines: list[str] = []
    tell_addresses(door, port=8420, first="", write=lines.append)
    assert (OPEN in lines) is is_open
    assert [line.split("//")[1].split(":")[0] for line in lines if "In the network" in line] == list(door.names)
