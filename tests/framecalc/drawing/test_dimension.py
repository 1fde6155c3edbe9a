"""Dimensions after ISO 129-1: gaps, arrowheads of one size, figures that find their place."""

import pytest
from svg_reading import Drawn

from framecalc.drawing.dimension import ARROW_MM, FOOT_GAP_MM, PAST_MM, Axis, DimensionSpan, draw_dimension, draw_lanes
from framecalc.drawing.pen import Pen
from framecalc.plan.figures import Figure, write_figures
from framecalc.units import Step


def figure(name: str = "outside_across", length_mm: float = 433.0) -> Figure:
    return write_figures([(name, length_mm)], step=Step.HALF_MILLIMETRE)[name]


def drawn(length_mm: float, *, axis: Axis = Axis.ACROSS, toward: int = 1) -> Drawn:
    pen = Pen(name="test", across_mm=80, up_mm=80, title="", inline=True)
    span = DimensionSpan(
        from_mm=30, to_mm=30 + length_mm, feet_mm=(40, 40), figure=figure(), wordings=("outside {}", "{}")
    )
    draw_dimension(pen, span, axis=axis, lane_mm=46, toward=toward, limit_mm=30 + length_mm if toward > 0 else 30)
    return Drawn(pen.svg())


def test_extension_lines_leave_a_gap_and_pass_the_dimension_line() -> None:
    extensions = [run for run in drawn(40).runs("dimension") if run[0][0] == run[1][0]]
    assert extensions == [
        [(30, 40 + FOOT_GAP_MM), (30, 46 + PAST_MM)],
        [(70, 40 + FOOT_GAP_MM), (70, 46 + PAST_MM)],
    ]


@pytest.mark.parametrize(("length_mm", "text"), [(40.0, "outside 433"), (12.0, "433")])
def test_the_fullest_text_that_fits_stands_in_the_middle(length_mm: float, text: str) -> None:
    written = drawn(length_mm).texts[0]
    assert written.text == text
    assert (written.left + written.right) / 2 == pytest.approx(30 + length_mm / 2)


def test_a_text_that_does_not_fit_stands_beyond_the_extension_line() -> None:
    assert drawn(3).texts[0].left > 33 + ARROW_MM
    assert drawn(3, toward=-1).texts[0].right < 30 - ARROW_MM


def test_arrowheads_turn_outward_where_the_space_is_narrow() -> None:
    wide, narrow = drawn(40).runs("arrow"), drawn(3).runs("arrow")
    assert [tip for tip, *_ in wide] == [(30, 46), (70, 46)]
    assert [tip for tip, *_ in narrow] == [(30, 46), (33, 46)]
    assert wide[0][1][0] == pytest.approx(30 + ARROW_MM)
    assert narrow[0][1][0] == pytest.approx(30 - ARROW_MM)


def test_a_figure_that_runs_up_reads_from_the_right() -> None:
    text = drawn(40, axis=Axis.UP).elements("text")[0]
    assert text.attrib["transform"].startswith("rotate(-90 ")


def test_where_one_figure_goes_beyond_those_that_lost_their_word_go_with_it() -> None:
    pen = Pen(name="test", across_mm=80, up_mm=80, title="", inline=True)
    spans = [
        DimensionSpan(
            from_mm=left,
            to_mm=60 - left,
            feet_mm=(40, 40),
            figure=figure(name),
            wordings=("word {}", "{}"),
            beyond="word {}",
        )
        for name, left in (("sight_across", 28.0), ("outside_across", 24.0))
    ]
    draw_lanes(pen, spans, axis=Axis.ACROSS, lanes_mm=(46, 51), toward=1)
    texts = Drawn(pen.svg()).texts
    assert [text.text for text in texts] == ["word 433", "word 433"]
    assert min(text.left for text in texts) > 36
