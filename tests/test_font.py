"""The font that ships: the recorded file, small, and with a shape for every sign that the product writes."""

import ast
import csv
import hashlib
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[1]
FONTS = ROOT / "static/fonts"
SHOWN = {".html", ".js", ".css", ".json", ".csv"}


def test_the_fonts_are_the_recorded_ones_and_small() -> None:
    sums = (FONTS / "SHA256SUMS").read_text("utf-8").splitlines()
    recorded = {name: digest for digest, name in map(str.split, sums)}
    assert set(recorded) == {path.name for path in FONTS.glob("*.woff2")} >= {"inter.woff2", "garamond.woff2"}
    for name, digest in recorded.items():
        assert digest == hashlib.sha256((FONTS / name).read_bytes()).hexdigest()
    assert (FONTS / "inter.woff2").stat().st_size <= 150_000
    assert "fonts/inter.woff2" in (ROOT / "static/fonts.css").read_text("utf-8")


def test_the_serif_of_the_clients_page_is_small_and_comes_with_its_licence() -> None:
    serifs = [path for path in FONTS.glob("garamond*.woff2")]
    assert len(serifs) == 2 and sum(path.stat().st_size for path in serifs) <= 40_000
    assert "SIL Open Font License" in (FONTS / "garamond-OFL.txt").read_text("utf-8")
    assert all(f"fonts/{path.name}" in (ROOT / "static/serif.css").read_text("utf-8") for path in serifs)


def test_every_page_brings_the_font() -> None:
    pages = [path.read_text("utf-8") for path in (ROOT / "templates").rglob("*.html")]
    styled = [page for page in pages if 'rel="stylesheet"' in page and "{% extends" not in page]
    assert len(styled) >= 7
    assert all("{{ static }}/fonts.css" in page for page in styled)


def test_every_sign_has_a_shape_in_the_font_or_a_stated_stand_in() -> None:
    """The table of widths says which letters the font has; the note beside it, which the device's own faces draw."""
    with (ROOT / "framecalc/tables/letter_widths.csv").open(encoding="utf-8", newline="") as table:
        drawn = {chr(int(row["code"], 16)) for row in csv.DictReader(table) if row["inter"]}
    stand_ins = (FONTS / "README.md").read_text("utf-8").split("Not in it")[1].split("\n\n")[0]
    written = {letter for text in _written() for letter in text if letter.isprintable() and letter < "\U00010000"}
    assert len(written) > 100
    assert written - drawn - set(stand_ins) == set()


def _written() -> Iterator[str]:
    """What templates, scripts and tables say, and the modules' texts but for their documentation."""
    for folder in ("templates", "static", "framecalc", "webapp"):
        for path in (ROOT / folder).rglob("*"):
            if path.suffix in SHOWN and "htmx" not in path.parts:
                yield path.read_text("utf-8")
            elif path.suffix == ".py":
                yield from _texts(ast.parse(path.read_text("utf-8")))


def _texts(module: ast.Module) -> Iterator[str]:
    nodes = list(ast.walk(module))
    told = {id(node.value) for node in nodes if isinstance(node, ast.Expr)}
    for node in nodes:
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in told:
            yield node.value
