"""The command line: it serves, it draws without a server, and what it refuses it refuses in one sentence."""

import json
import os
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from functools import cache
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import httpx
import pdfplumber
import pytest
import uvicorn

from framecalc.drawing.registry import PAPER_DRAWINGS
from framecalc.project import project_schema, project_text, read_project
from webapp.__main__ import main
from webapp.data.errors import StoreError
from webapp.data.shop import USUAL_SHOP
from webapp.server.network import own_addresses
from webapp.written import draw

ROOT = Path(__file__).parents[2]
DEMOS = sorted((ROOT / "framecalc").rglob("*demo*.json")) + sorted((ROOT / "webapp").rglob("*demo*.json"))
CAFE = next(path for path in DEMOS if path.stem.startswith("cafe"))
NAMES = [path.stem for path in DEMOS]
COMMAND = [sys.executable, "-m", "webapp"]
DrawOnce = Callable[..., tuple[list[Path], Path]]
"""Draws a demo: what is written, and the folder."""


def rabbetry(*arguments: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run([*COMMAND, *map(str, arguments)], capture_output=True, text=True, cwd=ROOT)


def the_sentence(code: int, out: str, err: str) -> str:
    """Check that a command was refused in one line, without a traceback, and return the line."""
    assert (code, out) == (2, ""), err
    (line,) = err.splitlines()
    assert line.startswith("rabbetry: ")
    return line


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


@pytest.fixture
def refusal_to_draw(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Callable[[Path], str]:
    """Draw a file that must be refused, and return the sentence."""

    def refused(project: Path) -> str:
        code = main(["draw", str(project), "--out", str(tmp_path / "drawings")])
        return the_sentence(code, *capsys.readouterr())

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


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> DrawOnce:
    """Draw a demo once for all tests: what is written, and the folder."""

    @cache
    def once(path: Path, *, sheet: str = "") -> tuple[list[Path], Path]:
        folder = tmp_path_factory.mktemp("drawn") / "drawings"
        return draw(path, out=folder, sheet=sheet), folder

    return once


def demo() -> dict[str, Any]:
    document: dict[str, Any] = json.loads(CAFE.read_text("utf-8"))
    return document


# --- serving


def test_it_serves_this_computer_and_prints_the_address(running: tuple[str, Path]) -> None:
    address, data = running
    assert httpx.get(address, follow_redirects=True).status_code == 200
    assert (data / "projects").is_dir()


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


# --- drawing


@pytest.mark.parametrize("path", DEMOS, ids=NAMES)
def test_every_drawing_of_a_demo_is_written_at_paper_size(path: Path, drawn: DrawOnce) -> None:
    written, folder = drawn(path, sheet="a4")
    assert sorted(written) == sorted(folder.iterdir())
    names = [file.name for file in written]
    frames = read_project(json.loads(path.read_text("utf-8"))).frames
    for paper in (*PAPER_DRAWINGS, "cutting-plan-1-1"):
        expected = 1 if paper.startswith("cutting") else len(frames)
        assert sum(name.endswith(f"-{paper}-a4.svg") for name in names) == expected, (paper, names)
    for file in (file for file in written if file.suffix == ".svg"):
        root = ElementTree.fromstring(file.read_bytes())
        assert root.attrib["width"].endswith("mm") and root.attrib["height"].endswith("mm")


def test_templates_lists_and_layouts_are_written_too(drawn: DrawOnce) -> None:
    """Fault: “every drawing” were three of each frame; no template, joint, mat, layout or list was among them."""
    job, frame = "prints-for-a-cafe-wall", "linocut-matted"
    written, folder = drawn(CAFE)
    names = {file.name for file in written}
    assert {f"{job}-{frame}-{what}-a4.svg" for what in ("mat", "held", "joint")} <= names
    assert f"{job}-{frame}-upper-mat-a4.svg" not in names
    kinds = (".svg", "-cuts.svg", ".dxf", ".pdf")
    assert {f"{job}-{frame}-{what}{kind}" for what in ("story-stick", "mat", "backing") for kind in kinds} <= names
    assert {name.removeprefix(f"{job}-{frame}-glazing") for name in names if "-glazing" in name} == {".dxf", ".pdf"}
    assert {f"{job}-sheet-1-1-a4.svg", f"{job}-cutting-plan-1-1-a4.svg"} <= names
    assert {f"{job}-wall-a4.svg", f"{job}-nails.csv"} <= names
    assert {f"{job}-timber-{what}.csv" for what in ("buy", "rip", "plane", "stops", "pieces")} <= names
    assert {f"{job}-sheets-{what}.csv" for what in ("parts", "buy", "cuts")} <= names
    pieces = (folder / f"{job}-timber-pieces.csv").read_text("utf-8").splitlines()
    assert pieces[0].startswith("Members,") and len(pieces) > 1


def test_templates_are_made_for_the_machines_of_the_shop(tmp_path: Path) -> None:
    """Fault: the command wrote templates without the kerf, the strokes and the printer that the pages use."""
    square = {"across": "149.1 mm", "up": "150.5 mm", "rising": "212.2 mm", "falling": "211.4 mm"}
    printer = {"id": "p1", "name": "Office", "paper": "a3"} | square
    laser = {"kerf": "0.2 mm", "cut_name": "through"}
    draw(CAFE, out=tmp_path, shop=USUAL_SHOP | {"laser": laser, "printers": [printer]})
    block = tmp_path / "prints-for-a-cafe-wall-linocut-matted-reference-block"
    assert 'id="through"' in (svg := block.with_suffix(".svg").read_text("utf-8")) and "A3.9,3.9" in svg
    with pdfplumber.open(block.with_suffix(".pdf")) as printed:
        (leaf,) = printed.pages
        assert "True on Office only" in leaf.extract_text() and round(float(leaf.width) * 25.4 / 72) == 297
    with pytest.raises(StoreError, match="Shop page"):
        draw(CAFE, out=tmp_path, shop=USUAL_SHOP | {"laser": laser, "printers": [printer | {"paper": "own"}]})


def test_without_a_paper_it_goes_by_the_unit_of_the_job(drawn: DrawOnce) -> None:
    inches = next(path for path in DEMOS if json.loads(path.read_text("utf-8"))["unit"] == "in")
    papers = {
        path: {file.stem.rsplit("-", 1)[1] for file in drawn(path)[0] if "-front-" in file.name}
        for path in (CAFE, inches)
    }
    assert papers == {CAFE: {"a4"}, inches: {"letter"}}


@pytest.mark.parametrize("path", DEMOS, ids=NAMES)
def test_the_plan_of_a_demo_is_written_beside_its_drawings(path: Path, drawn: DrawOnce) -> None:
    plan = json.loads((drawn(path, sheet="a4")[1] / "plan.json").read_text("utf-8"))
    assert plan["project"] == json.loads(path.read_text("utf-8"))["name"]
    assert all(frame["figures"] for frame in plan["frames"])


def test_the_command_prints_what_it_wrote(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code = main(["draw", str(DEMOS[0]), "--out", str(tmp_path / "drawings"), "--sheet", "letter"])
    out, err = capsys.readouterr()
    assert (code, err) == (0, "")
    assert [Path(line) for line in out.splitlines()] == sorted((tmp_path / "drawings").iterdir())


def test_a_revision_from_the_data_folder_draws_too_and_says_which_it_is(tmp_path: Path) -> None:
    saved = {"revision": 14, "when": "2026-03-01T09:00:00.000Z", "tab": "", "step": "save", "equals": 14, "redo": []}
    (tmp_path / "r000014.json").write_text(project_text(demo() | {"saved": saved}), "utf-8")
    draw(tmp_path / "r000014.json", out=tmp_path / "drawings", sheet="a4")
    drawings = [file.read_text("utf-8") for file in (tmp_path / "drawings").glob("*-a4.svg")]
    assert drawings and all("revision 14" in drawing for drawing in drawings)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "not readable as JSON"),
        ("{", "not readable as JSON"),
        ("\ud800", "not readable as JSON"),
        ("[" * 100_000, "not readable as JSON"),
        ("[]", "This is not a Rabbetry project file"),
        ("{}", "This is not a Rabbetry project file"),
        ('{"schema": 99}', "Enter a schema of 1 to 2, not 99"),
    ],
    ids=["empty", "cut off", "no Unicode", "too deep", "a list", "no schema", "another schema"],
)
def test_what_is_no_project_is_refused_by_name(
    tmp_path: Path, refusal_to_draw: Callable[[Path], str], text: str, sentence: str
) -> None:
    (tmp_path / "letter.json").write_bytes(text.encode("utf-8", "surrogatepass"))
    line = refusal_to_draw(tmp_path / "letter.json")
    assert "letter.json: " in line and sentence in line
    assert not (tmp_path / "drawings").exists()


def test_an_unknown_field_is_named(tmp_path: Path, refusal_to_draw: Callable[[Path], str]) -> None:
    (tmp_path / "new.json").write_text(project_text(demo() | {"colour": "blue"}), "utf-8")
    assert "“colour” is not known here" in refusal_to_draw(tmp_path / "new.json")


def test_sizes_that_describe_no_frame_are_refused_by_name(
    tmp_path: Path, refusal_to_draw: Callable[[Path], str]
) -> None:
    document = demo()
    document["frames"][0]["section"]["rabbet_depth"] = document["frames"][0]["section"]["thickness"]
    (tmp_path / "through.json").write_text(project_text(document), "utf-8")
    assert "through.json: " in refusal_to_draw(tmp_path / "through.json")
    assert not (tmp_path / "drawings").exists()


@pytest.mark.parametrize("name", ["missing.json", "."])
def test_a_file_that_cannot_be_read_is_named(tmp_path: Path, refusal_to_draw: Callable[[Path], str], name: str) -> None:
    line = refusal_to_draw(tmp_path / name)
    assert str(tmp_path / name) in line and "cannot be read" in line


def test_an_out_folder_that_is_a_file_is_named(tmp_path: Path, refusal_to_draw: Callable[[Path], str]) -> None:
    (tmp_path / "drawings").write_text("a letter")
    assert "drawings cannot hold the drawings" in refusal_to_draw(DEMOS[0])


def test_a_sheet_that_is_not_known_is_refused_with_those_that_are(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit, match="2"):
        main(["draw", str(DEMOS[0]), "--out", str(tmp_path / "drawings"), "--sheet", "napkin"])
    message = capsys.readouterr().err
    assert "napkin" in message and "letter" in message


# --- the schema


def test_the_schema_is_printed_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    code = main(["schema"])
    out, err = capsys.readouterr()
    assert (code, err) == (0, "")
    assert json.loads(out) == project_schema()
