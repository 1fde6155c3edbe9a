"""The template of a mat: at its true size, whole on its leaves, with bars in both directions on each."""

import xml.etree.ElementTree as ET
from typing import Any

import pytest
from drawn_plans import plan_of
from svg_reading import Drawn

from framecalc.drawing.package.mat import MatDrawing, read_lower_mat
from framecalc.drawing.package.template import MARGIN_MM, TEMPLATE_PAPERS, draw_leaves, draw_whole
from framecalc.drawing.sheet import PAPERS
from framecalc.errors import ImpossibleSize

PAIR = [{"id": "p2", "across": "200 mm", "up": "150 mm"}, {"id": "p3", "across": "100 mm", "up": "150 mm"}]


def mat(**changes: Any) -> MatDrawing:
    typed = {"package.mat.windows": PAIR} | {path.replace("__", "."): one for path, one in changes.items()}
    return read_lower_mat(plan_of("cafe-prints", "oak5", typed))


def length_mm(drawn: Drawn, role: str) -> float:
    return sum(abs(start[0] - end[0]) + abs(start[1] - end[1]) for start, end in drawn.segments(role))


def test_on_one_leaf_every_window_has_its_true_size_and_place() -> None:
    wanted = mat()
    svg = draw_whole(wanted)
    drawn = Drawn(svg)
    assert ET.fromstring(svg).attrib["width"] == f"{drawn.across_mm:g}mm"
    verticals = sorted({round(start[0], 2) for start, end in drawn.segments("outline") if start[0] == end[0]})
    edges = {0.0, wanted.outside[0].exact_mm}
    edges |= {edge for one in wanted.windows for edge in (one.window.left_mm, one.window.right_mm)}
    assert verticals == pytest.approx(sorted(edge + MARGIN_MM for edge in edges), abs=0.01)


@pytest.mark.parametrize("paper", TEMPLATE_PAPERS)
def test_the_leaves_together_hold_the_whole_of_it_and_each_its_bars(paper: str) -> None:
    whole = length_mm(Drawn(draw_whole(mat())), "outline")
    leaves = [Drawn(svg) for svg in draw_leaves(mat(), paper=paper)]
    assert sum(length_mm(leaf, "outline") for leaf in leaves) == pytest.approx(whole, abs=0.5)
    for leaf in leaves:
        assert (leaf.across_mm, leaf.up_mm) == pytest.approx((PAPERS[paper].across_mm - 2, PAPERS[paper].up_mm - 2))
        bars = [run for run in leaf.runs("bar") if len(run) == 5]
        sizes = {(round(run[1][0] - run[0][0], 1), round(run[2][1] - run[1][1], 1)) for run in bars}
        assert sizes >= {(50.0, 1.2), (1.2, 50.0)}
        assert any("from behind" in text.text for text in leaf.texts)
        assert all(text.left >= 0 and text.right <= leaf.across_mm for text in leaf.texts)


def test_more_leaves_than_anybody_puts_together_are_refused_with_what_would_do() -> None:
    with pytest.raises(ImpossibleSize, match="Too large for 60 leaves: choose a larger paper, or one file"):
        draw_leaves(mat(package__mat__gap="300 mm", package__mat__border="1000 mm"), paper="a4")
