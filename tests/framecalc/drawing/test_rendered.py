"""Drawings as a browser and another renderer really show them: their size, and the room their letters really take."""

import shutil
import struct
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from drawn_plans import FRAMES, plan_of

from framecalc.drawing import PANELS, PAPER_DRAWINGS, PAPERS, draw_panel, draw_paper
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.style import LETTER_MM
from framecalc.drawing.stylesheet import css

RSVG = shutil.which("rsvg-convert")
PX_MM = 25.4 / 96

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


@pytest.fixture(scope="module")
def page(chromium: Any) -> Iterator[Any]:
    """A page of a real browser."""
    context = chromium.new_context(viewport={"width": 640, "height": 900})
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("width_px", [300, 370])
@pytest.mark.parametrize(("name", "frame_id"), FRAMES)
def test_no_words_meet_in_a_browser(page: Any, name: str, frame_id: str, width_px: int) -> None:
    plan = plan_of(name, frame_id)
    panels = "".join(f'<div style="width:{width_px}px">{draw_panel(panel, plan)}</div>' for panel in PANELS)
    page.set_content(f"<style>{css()}</style>{panels}")
    assert page.evaluate(OVERLAPS) == []


def test_letters_need_no_more_room_in_a_browser_than_they_are_given(page: Any) -> None:
    texts = [
        "outside 34 15/16",
        "clearance ½ × 3/8",
        "backing board 1.5",
        "10 × left, right",
        "MITRE",
        "−0.1 mm",
        "27/32",
    ]
    words = "".join(f'<text y="9" class="letter">{text}</text>' for text in texts)
    page.set_content(f'<style>{css()}</style><svg class="drawing" viewBox="0 0 80 20">{words}</svg>')
    widths = page.evaluate("() => [...document.querySelectorAll('text')].map(text => text.getComputedTextLength())")
    assert all(width <= text_across_mm(text) for width, text in zip(widths, texts, strict=True))
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


@pytest.mark.skipif(RSVG is None, reason="no rsvg-convert on this machine")
@pytest.mark.parametrize("paper", ["a4", "letter-portrait"])
@pytest.mark.parametrize("drawing", PAPER_DRAWINGS)
def test_a_paper_has_its_true_size_in_another_renderer(tmp_path: Path, drawing: str, paper: str) -> None:
    file = tmp_path / "drawing.svg"
    file.write_text(draw_paper(drawing, plan_of("maple-canvas", "map1"), paper), "utf-8")
    command = [str(RSVG), "--dpi-x", "300", "--dpi-y", "300", str(file)]
    picture = subprocess.run(command, check=True, capture_output=True).stdout
    size = struct.unpack(">II", picture[16:24])
    sheet = PAPERS[paper]
    assert [side * 25.4 / 300 for side in size] == pytest.approx([sheet.across_mm, sheet.up_mm], abs=0.1)
