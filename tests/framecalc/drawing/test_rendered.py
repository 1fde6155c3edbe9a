"""Drawings as a browser and another renderer really show them: their size, and the room their letters really take."""

import base64
import shutil
import struct
import subprocess
from collections.abc import Iterable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from drawn_plans import FRAMES, plan_of
from real_browser import lacking

from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.registry import DRAWINGS, PANELS, PAPER_DRAWINGS, draw_panel, draw_paper
from framecalc.drawing.sheet import PAPERS
from framecalc.drawing.style import LETTER_MM
from framecalc.drawing.stylesheet import css
from framecalc.errors import FrameCalcError

RSVG = shutil.which("rsvg-convert")
PX_MM = 25.4 / 96
INTER = Path(__file__).parents[3] / "static/fonts/inter.woff2"
FACES = ("Inter", "DejaVu Sans", "Liberation Sans", "DejaVu Serif")
"""The font of the pages, and three that stand in where it is not there."""

OVERLAPS = """() => [...document.querySelectorAll("svg")].flatMap(svg => {
  const words = [...svg.querySelectorAll("text")], box = word => word.getBoundingClientRect(), sheet = box(svg);
  const meet = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1
    && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1;
  const apart = words.flatMap((word, at) => words.slice(at + 1).filter(other => meet(box(word), box(other)))
    .map(other => [word.textContent, other.textContent]));
  const out = words.filter(word => box(word).left < sheet.left - 1 || box(word).right > sheet.right + 1
    || box(word).top < sheet.top - 1 || box(word).bottom > sheet.bottom + 1).map(word => [word.textContent, "outside"]);
  return [...apart, ...out];
})"""

HAS_FACE = """face => {
  const pen = document.createElement("canvas").getContext("2d");
  const across = family => { pen.font = `40px ${family}`; return pen.measureText("Ihm 3/16 WlL").width; };
  return across(`"${face}", monospace`) !== across("monospace") || across(`"${face}", cursive`) !== across("cursive");
}"""


@pytest.fixture(scope="module")
def page(chromium: Any) -> Iterator[Any]:
    """A page of a real browser."""
    context = chromium.new_context(viewport={"width": 640, "height": 900})
    yield context.new_page()
    context.close()


def in_face(page: Any, face: str, drawings: Iterable[str], *, width_px: int) -> None:
    """Show drawings with their letters in one face, which has to be there."""
    inter = base64.b64encode(INTER.read_bytes()).decode()
    rules = (
        f'@font-face {{ font-family: Inter; src: url("data:font/woff2;base64,{inter}"); font-weight: 400 800; }}'
        "svg { display: block; width: 100%; height: auto; }"
        f'svg text {{ font-family: "{face}" !important; font-variant-numeric: tabular-nums; }}'
    )
    shown = "".join(f'<div style="width:{width_px}px">{drawing}</div>' for drawing in drawings)
    page.set_content(f"<style>{css()}{rules}</style>{shown}")
    page.evaluate("() => document.fonts.ready")
    if not page.evaluate(HAS_FACE, face):
        lacking(f"no {face} on this machine (Debian: apt-get install fonts-dejavu-core fonts-liberation)")


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize(("name", "frame_id"), FRAMES)
def test_no_words_meet_in_a_browser_in_any_face(page: Any, name: str, frame_id: str, face: str) -> None:
    plan = plan_of(name, frame_id)
    for width_px in (300, 370, 900):
        in_face(page, face, (draw_panel(panel, plan) for panel in PANELS), width_px=width_px)
        assert page.evaluate(OVERLAPS) == []
    in_face(page, face, (draw_paper(drawing, plan, "a4") for drawing in PAPER_DRAWINGS), width_px=1100)
    assert page.evaluate(OVERLAPS) == []


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize(("name", "frame_id"), FRAMES)
def test_no_words_meet_on_the_other_pages_in_any_face(page: Any, name: str, frame_id: str, face: str) -> None:
    plan, drawings = plan_of(name, frame_id), []
    for drawing in DRAWINGS:
        if not drawing.of_every_frame:
            with suppress(FrameCalcError):  # a demo has not measured or chosen everything
                drawings.append(draw_panel(drawing.name, plan))
    assert len(drawings) > 4  # the thumbnail among them
    for width_px in (370, 900):
        in_face(page, face, drawings, width_px=width_px)
        assert page.evaluate(OVERLAPS) == []


@pytest.mark.parametrize("face", FACES[:3])
@pytest.mark.parametrize("role", ["letter", "strong"])
def test_letters_need_no_more_room_in_a_browser_than_they_are_given(page: Any, face: str, role: str) -> None:
    texts = [
        "outside 34 15/16",
        "clearance ½ × 3/8",
        "backing board 1.5",
        "10 × left, right",
        "MITRE",
        "−0.1 mm",
        "27/32",
        "Grüße, Øystein – 18 °C",
    ]
    words = "".join(f'<text y="9" class="{role}">{text}</text>' for text in texts)
    in_face(page, face, [f'<svg class="drawing" viewBox="0 0 80 20">{words}</svg>'], width_px=300)
    widths = page.evaluate("() => [...document.querySelectorAll('text')].map(text => text.getComputedTextLength())")
    room = [text_across_mm(text, bold=role == "strong") for text in texts]
    assert all(width <= given + 0.01 for width, given in zip(widths, room, strict=True))
    assert min(widths) > LETTER_MM


@pytest.mark.parametrize("paper", ["a4", "letter-portrait"])
@pytest.mark.parametrize("drawing", PAPER_DRAWINGS)
def test_a_paper_has_its_true_size_in_a_browser(page: Any, tmp_path: Path, drawing: str, paper: str) -> None:
    file = tmp_path / "drawing.svg"
    file.write_text(draw_paper(drawing, plan_of("cafe-prints", "oak5"), paper), "utf-8")
    page.goto(file.as_uri())
    size = page.evaluate(
        "() => { const box = document.documentElement.getBoundingClientRect(); return [box.width, box.height] }"
    )
    sheet = PAPERS[paper]
    assert [side * PX_MM for side in size] == pytest.approx([sheet.across_mm, sheet.up_mm], abs=0.03)


@pytest.mark.parametrize("paper", ["a4", "letter-portrait"])
@pytest.mark.parametrize("drawing", PAPER_DRAWINGS)
def test_a_paper_has_its_true_size_in_another_renderer(tmp_path: Path, drawing: str, paper: str) -> None:
    if RSVG is None:
        lacking("no rsvg-convert on this machine (Debian: apt-get install librsvg2-bin)")
    file = tmp_path / "drawing.svg"
    file.write_text(draw_paper(drawing, plan_of("maple-canvas", "map1"), paper), "utf-8")
    command = [str(RSVG), "--dpi-x", "300", "--dpi-y", "300", str(file)]
    picture = subprocess.run(command, check=True, capture_output=True).stdout
    size = struct.unpack(">II", picture[16:24])
    sheet = PAPERS[paper]
    assert [side * 25.4 / 300 for side in size] == pytest.approx([sheet.across_mm, sheet.up_mm], abs=0.1)
