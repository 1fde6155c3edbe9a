"""The PDF: bars and outlines at their true size, leaf by leaf, and put together again."""

import io
from math import hypot

import pdfplumber
import pytest
from drawn_plans import FRAMES, plan_of
from pdfplumber.page import Page
from shapely import LineString, MultiLineString, box, unary_union

from framecalc.drawing.templates.leaf import PrinterUsed
from framecalc.drawing.templates.pdf import printer_leaf_pdf, template_pdf
from framecalc.drawing.templates.tiles import BARS_ROOM_MM, PAPER_WORDS, Paper, paper_called, tiling_of
from framecalc.errors import FrameCalcError, ImpossibleSize, OutOfRange
from framecalc.geometry.outline import Line, Point, flatten
from framecalc.plan.templates.templates import FrameTemplates, templates_of
from framecalc.templates.printer import CHECK_MM, Correction, correction_of
from framecalc.templates.template import Template

MM = 25.4 / 72
OF_FRAMES = {frame: templates_of(plan_of(demo, frame)) for demo, frame in FRAMES}
NAMED = [
    (frame, name)
    for name, frame in {one.name: frame for frame, made in OF_FRAMES.items() for one in made.templates}.items()
]
"""One of each kind, from whichever demo has it."""

WHOLE_MM = 0.02


def of(frame: str, name: str) -> tuple[Template, FrameTemplates]:
    found = OF_FRAMES[frame].named(name)
    assert found is not None
    return found, OF_FRAMES[frame]


def pages(pdf: bytes) -> list[Page]:
    return list(pdfplumber.open(io.BytesIO(pdf)).pages)


def printed(frame: str, name: str, paper: Paper, printer: PrinterUsed | None = None) -> list[Page]:
    template, made = of(frame, name)
    return pages(template_pdf(template, stamp=made.stamp, paper=paper, printer=printer))


def runs(page: Page) -> list[list[Point]]:
    """Every line and curve of a leaf, in millimetres from its lower left corner."""
    height = float(page.height)
    return [
        [(float(x) * MM, (height - float(top)) * MM) for x, top in one["pts"]] for one in (*page.lines, *page.curves)
    ]


def lengths(page: Page) -> list[tuple[float, float]]:
    return [(abs(run[0][0] - run[-1][0]), abs(run[0][1] - run[-1][1])) for run in runs(page)]


def has(page: Page, across_mm: float, up_mm: float, tolerance_mm: float = WHOLE_MM) -> bool:
    return any(abs(x - across_mm) <= tolerance_mm and abs(y - up_mm) <= tolerance_mm for x, y in lengths(page))


@pytest.mark.parametrize("paper", PAPER_WORDS)
@pytest.mark.parametrize("name", ["mat", "reference-block", "set-up-blocks"])
def test_every_leaf_is_as_large_as_its_paper_and_bears_both_bars_both_ways(name: str, paper: str) -> None:
    wanted = paper_called(paper)
    for page in printed("oak5", name, wanted):
        assert (float(page.width) * MM, float(page.height) * MM) == pytest.approx(
            (wanted.across_mm, wanted.up_mm), abs=WHOLE_MM
        )
        for bar_mm in (100.0, 101.6):
            assert has(page, bar_mm, 0) and has(page, 0, bar_mm)


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize(("frame", "name"), NAMED)
def test_the_leaves_put_together_are_the_template(frame: str, name: str, paper: str) -> None:
    """Each leaf shows its room; laid where they belong, they show every outline, and nothing of it elsewhere."""
    template, _ = of(frame, name)
    wanted = paper_called(paper)
    tiling = tiling_of(template.across_mm, template.up_mm, paper=wanted)
    outlines = [
        LineString([*(p := flatten(one, tolerance_mm=0.002)), p[0]]) for one in (*template.holes, *template.outlines)
    ]
    whole = unary_union([*outlines, *(LineString([mark.start, mark.end]) for mark in template.marks)])
    rooms, found = [], []
    for tile, page in zip(tiling.tiles, printed(frame, name, wanted), strict=True):
        room = box(
            tile.left_mm, tile.bottom_mm, tile.left_mm + wanted.room_across_mm, tile.bottom_mm + wanted.room_up_mm
        )
        by = (tile.left_mm - wanted.margin_mm, tile.bottom_mm - wanted.margin_mm)
        drawn = MultiLineString([[(x + by[0], y + by[1]) for x, y in run] for run in runs(page)])
        rooms.append(room)
        found.append(drawn.intersection(room))
    assert unary_union(rooms).buffer(0.001).covers(whole)
    straight = unary_union(
        [
            LineString([one.start, one.end])
            for part in template.outlines
            for one in part.segments
            if isinstance(one, Line)
        ]
    )
    marks = unary_union([LineString([mark.start, mark.end]) for mark in template.marks])
    together = unary_union(found).buffer(WHOLE_MM)
    assert straight.difference(together).length < 0.001
    assert marks.difference(together).length < 0.001


def test_a_circle_stays_round() -> None:
    template, _ = of("oak5", "reference-block")
    paper = paper_called("a4")
    (page,) = printed("oak5", "reference-block", paper)
    (tile,) = tiling_of(template.across_mm, template.up_mm, paper=paper).tiles
    centre = template.holes[0].segments[0].centre  # type: ignore[union-attr]
    x, y = centre[0] - tile.left_mm + paper.margin_mm, centre[1] - tile.bottom_mm + paper.margin_mm
    height = float(page.height)
    pieces = [[(px * MM, (height - top) * MM) for px, top in curve["pts"]] for curve in page.curves]
    ends = [piece[at] for piece in pieces for at in (0, -1)]
    assert len(ends) == 16
    assert [hypot(px - x, py - y) for px, py in ends] == pytest.approx([4.0] * 16, abs=0.01)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_bars_lie_inside_what_is_kept(paper: str) -> None:
    wanted = paper_called(paper)
    template, _ = of("oak5", "mat")
    tiling = tiling_of(template.across_mm, template.up_mm, paper=wanted)
    half_mm = wanted.margin_mm + wanted.overlap_mm / 2
    kept = box(half_mm, half_mm, wanted.across_mm - half_mm, wanted.up_mm - half_mm)
    assert tiling.columns > 1 and tiling.rows > 1
    for page in printed("oak5", "mat", wanted):
        bars = [run for run, size in zip(runs(page), lengths(page), strict=True) if size in _bars(page)]
        assert len(bars) == 4
        assert all(kept.contains(LineString(run)) for run in bars)


def _bars(page: Page) -> list[tuple[float, float]]:
    sizes = ((100, 0), (0, 100), (101.6, 0), (0, 101.6))
    return [one for one in lengths(page) if any(hypot(one[0] - x, one[1] - y) < WHOLE_MM for x, y in sizes)]


def test_crosses_of_neighbours_are_one_place_and_half_of_each_survives_the_cut() -> None:
    template, _ = of("oak5", "mat")
    paper = paper_called("a4")
    tiling = tiling_of(template.across_mm, template.up_mm, paper=paper)
    places: dict[tuple[int, int], int] = {}
    for tile in tiling.tiles:
        right, below = tiling.cut_right_mm(tile), tiling.cut_below_mm(tile)
        for x, y in tiling.crosses(tile):
            assert x == right or y == below or x == paper.margin_mm + paper.overlap_mm / 2 or tile.row
            at = (round((x + tile.left_mm) * 10), round((y + tile.bottom_mm) * 10))
            places[at] = places.get(at, 0) + 1
    assert places and min(places.values()) >= 2


def test_a_leaf_says_job_side_place_and_whether_its_printer_was_checked() -> None:
    first, *_ = printed("oak5", "mat", paper_called("a4"))
    text = first.extract_text()
    assert "5 × Linocut, matted" in text and "face down" in text
    assert "Leaf A1 of A1 to B3" in text
    assert "Unchecked: measure the bars" in text and "True" not in text
    checked, *_ = printed(
        "oak5", "mat", paper_called("a4"), PrinterUsed(name="Office", correction=Correction(across_ratio=1.01))
    )
    assert "True on Office only" in checked.extract_text() and "Unchecked" not in checked.extract_text()


def test_a_corrected_leaf_is_off_by_what_the_printer_takes_back() -> None:
    """A printer that prints 0.994 across and 1.003 up: its leaf is drawn the other way by as much."""
    diagonal = hypot(0.994, 1.003) * CHECK_MM
    correction = correction_of(
        across_mm=0.994 * CHECK_MM, up_mm=1.003 * CHECK_MM, rising_mm=diagonal, falling_mm=diagonal
    )
    page, *_ = printed("oak5", "mat", paper_called("a4"), PrinterUsed(name="Office", correction=correction))
    assert has(page, 100 / 0.994, 0) and has(page, 0, 100 / 1.003)
    assert not has(page, 100, 0)


@pytest.mark.parametrize("paper", PAPER_WORDS)
def test_the_leaf_of_the_check_has_its_square_its_diagonals_and_its_bars(paper: str) -> None:
    (page,) = pages(printer_leaf_pdf(paper_called(paper)))
    for size in ((CHECK_MM, 0), (0, CHECK_MM), (CHECK_MM, CHECK_MM), (100, 0), (0, 101.6)):
        assert has(page, *size)


def test_papers_have_their_standard_sizes() -> None:
    sizes = {name: (paper_called(name).across_mm, paper_called(name).up_mm) for name in PAPER_WORDS}
    assert sizes["a4"] == (210, 297) and sizes["a3"] == (297, 420)
    inches = {name: tuple(round(length / 25.4, 6) for length in sizes[name]) for name in ("letter", "legal", "tabloid")}
    assert inches == {"letter": (8.5, 11), "legal": (8.5, 14), "tabloid": (11, 17)}


def own(**changes: float) -> Paper:
    return Paper(name="own", **{"across_mm": 210, "up_mm": 297} | changes)


@pytest.mark.parametrize(
    ("changes", "error"),
    [
        ({"margin_mm": 45}, ImpossibleSize),
        ({"overlap_mm": 5}, OutOfRange),
        ({"overlap_mm": 41}, OutOfRange),
        ({"margin_mm": -1}, OutOfRange),
        ({"across_mm": 0}, OutOfRange),
        ({"across_mm": 100}, ImpossibleSize),
    ],
)
def test_a_paper_without_room_for_the_bars_is_refused(changes: dict[str, float], error: type[FrameCalcError]) -> None:
    with pytest.raises(error):
        own(**changes)
    assert own(across_mm=BARS_ROOM_MM + 32, up_mm=BARS_ROOM_MM + 32)


def test_more_leaves_than_anybody_puts_together_are_refused() -> None:
    with pytest.raises(ImpossibleSize, match="choose a larger paper"):
        tiling_of(3000, 3000, paper=paper_called("a4"))


def test_what_just_fits_takes_one_leaf_and_a_hair_more_takes_two() -> None:
    paper = paper_called("a4")
    assert tiling_of(188, 275, paper=paper).columns == tiling_of(188, 275, paper=paper).rows == 1
    assert tiling_of(188.01, 275, paper=paper).columns == 2
