"""Sheet layouts as drawn: to scale, every part and cut where the layout says, and nothing written on anything else."""

from functools import cache
from itertools import combinations, count

import pytest
from svg_reading import Drawn, Text

from framecalc.drawing.sheet import PAPERS, TitleBlock
from framecalc.drawing.sheets.layout import DrawnSheet, draw_layout_panel, draw_layout_paper
from framecalc.records import replace
from framecalc.search.watch import start_watch
from framecalc.sheets.answer import SheetLayout
from framecalc.sheets.materials import SheetCutting
from framecalc.sheets.plan import lay_out_sheets
from framecalc.sheets.problem import SheetPart, SheetProblem, StockSheet, sheet_problem
from framecalc.units import Unit

BLOCK = TitleBlock(
    project="A project", frame="Glass", drawing="Sheet layout", revision="revision 3", date="2026-03-01", unit=Unit.MM
)
SOME_PAPERS = ("a4", "letter-portrait")
LINES = ("outline", "edge", "dimension", "given")
JOBS = {
    "glass": ([("Hall, left of the door", 400, 332, 5), ("Badge", 190, 250, 7)], (815, 1120), 0.0, 0.0),
    "many small": ([("Label", 90, 50, 60), ("Back", 400, 332, 5)], (1220, 2440), 3.2, 10.0),
    "one that fills it": ([("All", 815, 1120, 1)], (815, 1120), 0.0, 0.0),
    "narrow": ([("Strip", 30, 900, 9)], (120, 2000), 3.2, 0.0),
    "flat": ([("Strip", 900, 30, 9)], (2000, 120), 3.2, 0.0),
    "inches": ([("Print", 25.4 * 8.0625, 25.4 * 10, 9)], (25.4 * 32, 25.4 * 40), 0.0, 0.0),
}


def problem(name: str) -> SheetProblem:
    sizes, (across, up), kerf, trim = JOBS[name]
    parts = [SheetPart(name=called, across_mm=a, up_mm=u, count=times) for called, a, u, times in sizes]
    sheet = StockSheet(name="sheet", across_mm=across, up_mm=up)
    return sheet_problem(parts=parts, stock=[sheet], kerf_mm=kerf, trim_mm=trim)


@cache
def layout(name: str) -> SheetLayout:
    ticks = count()
    return lay_out_sheets(problem(name), watch=start_watch(1.0, clock=lambda: next(ticks) * 0.0), most_beginnings=0)


def drawn_sheets(name: str) -> list[DrawnSheet]:
    found = layout(name)
    unit = Unit.INCH if name == "inches" else Unit.MM
    return [
        DrawnSheet(
            sheet=sheet,
            number=number,
            of=len(found.sheets),
            material="Glass, 2 mm",
            cutting=SheetCutting.GLASS,
            trim_mm=JOBS[name][3],
            unit=unit,
        )
        for number, sheet in enumerate(found.sheets, start=1)
    ]


@cache
def drawings(name: str) -> list[Drawn]:
    sheets = drawn_sheets(name)
    panels = [draw_layout_panel(drawn, name="layout-1") for drawn in sheets]
    papers = [
        draw_layout_paper(drawn, block=BLOCK, paper=paper, cuts=words(drawn))
        for drawn in sheets
        for paper in ("a4", "letter-portrait")
    ]
    return [Drawn(svg) for svg in panels + papers]


def words(drawn: DrawnSheet) -> tuple[str, ...]:
    """A line for each cut, as long as a page may write it."""
    return tuple(
        f"{cut.number}. Set to {cut.setting_mm:g} mm from below, through {cut.of}: {cut.gives}"
        for cut in drawn.sheet.cuts
    )


def core(text: Text) -> Text:
    return Text(text.text, "", text.left + 0.25, text.top + 0.25, text.right - 0.25, text.bottom - 0.75)


@pytest.mark.parametrize("name", JOBS)
def test_no_word_stands_on_a_word_or_on_a_line_and_nothing_leaves_its_sheet(name: str) -> None:
    for drawn in drawings(name):
        pairs = [(one.text, other.text) for one, other in combinations(drawn.texts, 2) if one.overlaps(other)]
        assert pairs == []
        outside = [
            text.text
            for text in drawn.texts
            if text.left < 0 or text.right > drawn.across_mm or text.top < -0.2 or text.bottom > drawn.up_mm + 0.3
        ]
        assert outside == []
        struck = [
            (text.text, role)
            for text in drawn.texts
            for role in LINES
            for segment in drawn.segments(role)
            if core(text).is_crossed_by(*segment)
        ]
        assert struck == []


@pytest.mark.parametrize("name", JOBS)
def test_every_part_is_named_or_marked_and_every_cut_numbered_or_listed(name: str) -> None:
    for sheet in drawn_sheets(name):
        texts = [text.text for text in Drawn(draw_layout_panel(sheet, name="l")).texts]
        said = " ".join(texts)
        for part in sheet.sheet.parts:
            assert part.name.split()[0] in said or part.name[:3] in said
        listed = said.partition("Cuts without room for a number: ")[2].partition(" mm")[0]
        for cut in sheet.sheet.cuts:
            assert str(cut.number) in texts or listed, cut.number


def test_parts_are_drawn_to_scale_where_the_layout_puts_them() -> None:
    (sheet,) = drawn_sheets("glass")[:1]
    drawn = Drawn(draw_layout_panel(sheet, name="l"))
    (outline,) = [run for run in drawn.runs("outline")]
    left, top = min(x for x, _ in outline), min(y for _, y in outline)
    scale = (max(x for x, _ in outline) - left) / 815
    assert (max(y for _, y in outline) - top) / 1120 == pytest.approx(scale, rel=1e-3)
    corners = {
        (round(left + part.x_mm * scale, 1), round(top + (1120 - part.y_mm) * scale, 1)) for part in sheet.sheet.parts
    }
    found = {(round(min(x for x, _ in run), 1), round(max(y for _, y in run), 1)) for run in drawn.runs("thin")}
    assert corners == found


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_paper_states_the_scale_that_it_keeps(paper: str) -> None:
    (sheet,) = drawn_sheets("glass")[:1]
    svg = draw_layout_paper(sheet, block=BLOCK, paper=paper)
    assert "scale 1:10" in svg
    across = max(x for run in Drawn(svg).runs("outline") for x, _ in run)
    assert f'width="{PAPERS[paper].across_mm:g}mm"' in svg and across <= PAPERS[paper].across_mm


def test_the_size_of_the_sheet_is_given_once_in_each_direction() -> None:
    figures = Drawn(draw_layout_panel(drawn_sheets("inches")[0], name="l")).figures()
    assert figures == {"sheet_across": ["32"], "sheet_up": ["40"]}


@pytest.mark.parametrize("off_cut", ["off-cut", "cutoff"])
def test_what_is_left_over_is_called_as_the_shop_calls_it(off_cut: str) -> None:
    drawn = replace(drawn_sheets("glass")[0], off_cut=off_cut)
    for svg in (draw_layout_panel(drawn, name="l"), draw_layout_paper(drawn, block=BLOCK, paper="a4")):
        written = [text.text for text in Drawn(svg).texts]
        assert off_cut in written and "left over" not in written


@pytest.mark.parametrize("paper", SOME_PAPERS)
def test_a_paper_lists_the_cuts_or_says_how_many_are_missing(paper: str) -> None:
    for name in ("glass", "many small"):
        (sheet,) = drawn_sheets(name)[:1]
        texts = [
            text.text for text in Drawn(draw_layout_paper(sheet, block=BLOCK, paper=paper, cuts=words(sheet))).texts
        ]
        listed = sum(". Set to" in text for text in texts)
        more = [text for text in texts if text.startswith("and ")]
        assert listed == len(sheet.sheet.cuts) or more == [f"and {len(sheet.sheet.cuts) - listed} more"]
        assert listed > 10
