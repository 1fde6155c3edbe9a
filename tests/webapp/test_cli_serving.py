"""The command line serves this computer, or the network where that is said, and refuses in one sentence."""

import os
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

import httpx
import pytest
import uvicorn
from commands import COMMAND, ROOT, rabbetry, the_sentence

from webapp.__main__ import main
from webapp.server.network import own_addresses


@pytest.fixture
def refusal_to_serve(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Callable[[Path, int | str], str]:
    """Serve a data folder at a port, which must be refused before anything is served, and return the sentence."""

    def served(*_: Any, **__: Any) -> None:
        raise AssertionError("it serves")

    def refused(data: Path, port: int | str = 0) -> str:
        code = main(["--data", str(data), "--port", str(port)])
        return the_sentence(code, *capsys.readouterr())

    monkeypatch.setattr(uvicorn.Server, "run", served)
    return refused


def heed_ctrl_c() -> None:
    signal.signal(signal.SIGINT, signal.SIG_DFL)


@contextmanager
def started(*arguments: str | Path) -> Iterator[tuple[str, "subprocess.Popen[str]"]]:
    """Start a server, lend the address it printed, and stop it as Ctrl+C does: without a traceback.

    Tests that are started in the background ignore Ctrl+C, and so would the server: it is told not to.
    """
    process = subprocess.Popen(
        [*COMMAND, "--port", "0", *map(str, arguments)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
        preexec_fn=None if os.name == "nt" else heed_ctrl_c,
    )
    with process:
        try:
            assert process.stdout is not None
            line = process.stdout.readline()
            address = re.search(r"http://127\.0\.0\.1:[0-9]+", line)
            assert address, (line, process.stderr and process.stderr.read())
            yield address[0], process
        finally:
            process.send_signal(signal.SIGINT)
            assert process.wait(timeout=60) == 0 or os.name == "nt"  # where Ctrl+C cannot be sent to one process


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, Path]]:
    """A server of this computer alone: its address and its data folder."""
    data = tmp_path_factory.mktemp("served") / "data"
    with started("--data", data) as (address, _):
        yield address, data


def test_it_serves_this_computer_and_prints_the_address(running: tuple[str, Path]) -> None:
    address, data = running
    assert httpx.get(address, follow_redirects=True).status_code == 200
    assert (data / "projects").is_dir()


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere the folder of what can be made again is not told so")
def test_compiled_templates_are_kept_for_the_next_start(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "again"))
    monkeypatch.delenv("PYTHONDONTWRITEBYTECODE", raising=False)
    with started("--data", tmp_path / "data") as (address, _):
        assert httpx.get(address, follow_redirects=True).status_code == 200
    assert any((tmp_path / "again").rglob("templates/*"))


@pytest.mark.skipif(os.name == "nt", reason="Ctrl+C cannot be sent to one process there")
def test_it_stops_while_sixty_forms_are_only_half_sent(tmp_path: Path) -> None:
    half = b"POST /pair HTTP/1.1\r\nHost: localhost\r\nOrigin: http://localhost\r\nContent-Length: 99\r\n"
    kind = b"Content-Type: application/x-www-form-urlencoded\r\n\r\ncode="
    with ExitStack() as stack:
        address, process = stack.enter_context(started("--data", tmp_path / "data"))
        for _ in range(60):
            line = socket.create_connection(("127.0.0.1", httpx.URL(address).port or 0))
            line.sendall(half + kind)
            stack.callback(line.close)
        assert httpx.get(address).status_code == 200
        process.send_signal(signal.SIGINT)
        assert process.wait(timeout=30) == 0


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere the limit of another process cannot be set")
def test_three_hundred_silent_lines_do_not_use_up_the_open_files(tmp_path: Path) -> None:
    with ExitStack() as stack:
        address, process = stack.enter_context(started("--data", tmp_path / "data"))
        import resource

        resource.prlimit(process.pid, resource.RLIMIT_NOFILE, (256, 256))
        for _ in range(300):
            stack.enter_context(socket.create_connection(("127.0.0.1", httpx.URL(address).port or 0)))
        assert {httpx.get(address).status_code for _ in range(5)} == {200}


def test_the_network_is_served_when_it_is_named_and_a_code_is_told(tmp_path: Path) -> None:
    with started("--data", tmp_path / "data", "--host", "shop.test") as (address, process):
        assert process.stdout is not None
        told = [process.stdout.readline() for _ in range(3)]
        port = httpx.URL(address).port
        assert told[0] == f"In the network: http://shop.test:{port}/\n"
        assert "The network is open" in told[1]
        assert re.search(r"the code [0-9]{4} [0-9]{4} \(once, until [0-9]{2}:[0-9]{2}\)", told[2])
        assert httpx.get(address, headers={"Host": f"shop.test:{port}"}).status_code == 403
        assert httpx.get(address, headers={"Host": "other.test"}).status_code == 400


def test_names_said_are_told_first_and_in_their_order(tmp_path: Path) -> None:
    with started("--data", tmp_path / "data", "--lan", "--host", "zeta.test", "--host", "fd00::7") as (
        address,
        process,
    ):
        assert process.stdout is not None
        port, told = httpx.URL(address).port, []
        while not told or told[-1].startswith("In the network: "):
            told.append(process.stdout.readline())
        own = [f"In the network: http://{one.name}:{port}/ ({one.interface})\n" for one in own_addresses()]
        said = [f"In the network: http://{name}:{port}/\n" for name in ("zeta.test", "[fd00::7]")]
        assert told[:-1] == said + own and "The network is open" in told[-1]
        for one in own_addresses():
            assert httpx.get(f"http://{one.name}:{port}/pair").status_code == 200


def test_a_name_of_this_computer_itself_opens_no_network(tmp_path: Path) -> None:
    with started("--data", tmp_path / "data", "--host", "localhost") as (address, _):
        for own in own_addresses():
            with pytest.raises(httpx.ConnectError):
                httpx.get(f"http://{own.name}:{httpx.URL(address).port}/")


def test_without_the_network_only_this_computer_listens(running: tuple[str, Path]) -> None:
    port = httpx.URL(running[0]).port
    for own in own_addresses():
        with pytest.raises(httpx.ConnectError):
            httpx.get(f"http://{own.name}:{port}/")


@pytest.mark.parametrize("name", ["", "a b", "http://shop", "shop:80", "shop/x", "-"])
def test_what_is_no_name_of_a_computer_is_refused(capsys: pytest.CaptureFixture[str], name: str) -> None:
    with pytest.raises(SystemExit):
        main([f"--host={name}"])
    assert "shop.local or 192.168.0.9" in capsys.readouterr().err


@pytest.mark.parametrize("name", ["0.0.0.0", "::", "0::0"])
def test_what_stands_for_all_addresses_is_refused(capsys: pytest.CaptureFixture[str], name: str) -> None:
    """Fault: the network was opened, and every device was sent to an address that nobody answers at."""
    with pytest.raises(SystemExit):
        main([f"--host={name}"])
    assert "Say --lan for every network" in capsys.readouterr().err


def test_a_taken_port_is_named(tmp_path: Path, refusal_to_serve: Callable[..., str]) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        assert f"port {port} is taken" in refusal_to_serve(tmp_path / "data", port)


@pytest.mark.parametrize("port", ["x", "-1", "65536", "1.5", ""])
def test_what_is_no_port_is_refused(capsys: pytest.CaptureFixture[str], port: str) -> None:
    with pytest.raises(SystemExit, match="2"):
        main([f"--port={port}"])
    assert f"Enter a port up to 65535, or 0 for any free one, not “{port}”" in capsys.readouterr().err


def test_a_data_folder_in_use_is_named_to_the_shell_too(running: tuple[str, Path]) -> None:
    answer = rabbetry("--data", running[1], "--port", "0")
    assert "in use by another running copy" in the_sentence(answer.returncode, answer.stdout, answer.stderr)


def test_a_data_folder_that_is_a_file_is_named(tmp_path: Path, refusal_to_serve: Callable[..., str]) -> None:
    (tmp_path / "data").write_text("a letter")
    assert "choose a folder that you may write into" in refusal_to_serve(tmp_path / "data")


def read_only_folder(tmp_path: Path) -> Path:
    """Make a folder nobody here may write into; to root only a part of the system is closed."""
    if os.geteuid() == 0:
        return Path("/proc/rabbetry")
    (tmp_path / "closed").mkdir(mode=0o555)
    return tmp_path / "closed"


@pytest.mark.skipif(os.name == "nt", reason="a folder has no mode there")
def test_a_read_only_data_folder_is_named(tmp_path: Path, refusal_to_serve: Callable[..., str]) -> None:
    assert "cannot hold the projects" in refusal_to_serve(read_only_folder(tmp_path))
