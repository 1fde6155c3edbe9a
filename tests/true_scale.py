"""Measure what other programs make of a laser's file: `python tests/true_scale.py`.

Those that are not there are left out. Each turns the file into a PDF, and how far its outlines lie from those of the
template is read from that.
"""

import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parent / "helpers")]
import pdfplumber  # noqa: E402
from drawn_plans import FRAMES, plan_of  # noqa: E402
from real_browser import CHROMIUM, FLAGS, playwright  # noqa: E402
from shapely import LineString, MultiPoint, Point, unary_union  # noqa: E402

from framecalc.drawing.templates.laser import MARGIN_MM, laser_svg  # noqa: E402
from framecalc.geometry.outline import flatten  # noqa: E402
from framecalc.plan.templates.templates import templates_of  # noqa: E402
from framecalc.templates.template import Template  # noqa: E402

MM_PER_POINT = 25.4 / 72
COMMANDS = {
    "rsvg-convert": ["rsvg-convert", "--format=pdf", "--output={pdf}", "{svg}"],
    "inkscape": ["inkscape", "{svg}", "--export-type=pdf", "--export-filename={pdf}"],
    "cairosvg": ["cairosvg", "{svg}", "-o", "{pdf}"],
}


def main() -> None:
    """Print for each program the farthest that any outline of any template lies off, in millimetres."""
    templates = {one.name: one for demo, frame in FRAMES for one in templates_of(plan_of(demo, frame)).templates}
    with tempfile.TemporaryDirectory() as folder:
        svg, pdf = Path(folder) / "one.svg", Path(folder) / "one.pdf"
        for program, command in COMMANDS.items():
            if shutil.which(command[0]) is None:
                print(f"{program}: not here")
                continue
            worst = ("", 0.0)
            for template in templates.values():
                svg.write_text(laser_svg(template, kerf_mm=0, only_cuts=True), "utf-8")
                subprocess.run([part.format(svg=svg, pdf=pdf) for part in command], check=True, capture_output=True)
                worst = max(worst, (template.name, off_mm(template, pdf)), key=lambda one: one[1])
            print(f"{program}: {worst[1]:.4f} mm at most, in {worst[0]}, of {len(templates)} templates")
        print(f"chromium: {in_chromium(templates['mat'], Path(folder)):.4f} mm, the mat on a page of its own size")


def off_mm(template: Template, pdf: Path) -> float:
    """How far any drawn point lies from the outlines, and any corner of theirs from what is drawn, at most."""
    with pdfplumber.open(pdf) as opened:
        page = opened.pages[0]
        drawn = [point for one in (*page.lines, *page.curves, *page.rects) for point in one["pts"]]
    found = MultiPoint([(x * MM_PER_POINT, y * MM_PER_POINT) for x, y in drawn])
    rings = [flatten(one, tolerance_mm=0.001) for one in (*template.holes, *template.outlines)]
    wanted = unary_union([LineString([_on_sheet(template, point) for point in (*ring, ring[0])]) for ring in rings])
    outlines = (*template.holes, *template.outlines)
    corners = [Point(_on_sheet(template, one.start)) for outline in outlines for one in outline.segments]
    return max(*(wanted.distance(point) for point in found.geoms), *(found.distance(corner) for corner in corners))


def _on_sheet(template: Template, point: tuple[float, float]) -> tuple[float, float]:
    """A place of a template on the file, from its upper left corner."""
    return MARGIN_MM + point[0], MARGIN_MM + template.up_mm - point[1]


def in_chromium(template: Template, folder: Path) -> float:
    """The same for a page of Chromium that is as large as the file."""
    svg, pdf = laser_svg(template, kerf_mm=0, only_cuts=True), folder / "chromium.pdf"
    across, up = template.across_mm + 2 * MARGIN_MM, template.up_mm + 2 * MARGIN_MM
    sheet = f"@page{{size:{across + 1}mm {up + 1}mm;margin:0}}html,body{{margin:0}}svg{{display:block}}"
    with playwright.sync_playwright() as player:
        browser = player.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        page = browser.new_page()
        page.set_content(f"<style>{sheet}</style>{svg.partition('?>')[2]}")
        page.pdf(path=pdf, prefer_css_page_size=True)
        browser.close()
    return off_mm(template, pdf)


if __name__ == "__main__":
    main()
