"""The command line reads and writes files without a server; what it refuses it refuses in one sentence."""

import json
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pdfplumber
import pytest
from commands import ROOT, the_sentence

from framecalc.drawing.registry import PAPER_DRAWINGS
from framecalc.project import project_schema, project_text, read_project
from webapp.__main__ import main
from webapp.data.errors import StoreError
from webapp.data.shop import USUAL_SHOP
from webapp.written import draw

DEMOS = sorted((ROOT / "framecalc").rglob("*demo*.json")) + sorted((ROOT / "webapp").rglob("*demo*.json"))
CAFE = next(path for path in DEMOS if path.stem.startswith("cafe"))
NAMES = [path.stem for path in DEMOS]
DrawOnce = Callable[..., tuple[list[Path], Path]]
"""Draws a demo: what is written, and the folder."""


@pytest.fixture
def refusal_to_draw(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Callable[[Path], str]:
    """Draw a file that must be refused, and return the sentence."""

    def refused(project: Path) -> str:
        code = main(["draw", str(project), "--out", str(tmp_path / "drawings")])
        return the_sentence(code, *capsys.readouterr())

    return refused


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
