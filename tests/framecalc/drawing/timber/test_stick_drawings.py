"""Sticks and boards of a cutting plan: drawn where they lie, those cut alike once, on paper at the stated scales."""

from collections import Counter
from time import monotonic
from typing import Any

import pytest
from drawn_plans import demo
from svg_reading import Drawn

from framecalc.drawing.sheet import PAPERS, TitleBlock
from framecalc.drawing.timber.cuts import DrawnCut, alike, cuts_of
from framecalc.drawing.timber.stick_sheet import draw_stick_sheet, sheets_of
from framecalc.drawing.timber.sticks import LENGTH_MM, draw_stick
from framecalc.plan import Plan
from framecalc.plan.timber.group import TimberGroup
from framecalc.project import read_project
from framecalc.search.watch import start_watch
from framecalc.timber.sticks.answer import StickPlan
from framecalc.timber.sticks.plan import plan_sticks
from framecalc.units import Unit

BOARD = {"id": "b1", "name": "oak board", "length": "2400 mm", "width": "150 mm"}
KNOT = {"defects": [{"id": "d1", "start": "900 mm", "end": "960 mm"}]}
BOWED = {"thickness": "26 mm", "bow": "9 mm"}


def planned(*stock: dict[str, Any], count: int = 5, **timber: Any) -> tuple[StickPlan, TimberGroup]:
    """The cutting plan of a batch of one demo frame."""
    document = demo("cafe-prints")
    document["timber"] = {"stock": list(stock)} | timber
    document["frames"][0]["count"] = count
    (group,) = Plan(read_project(document)).timber.groups
    return plan_sticks(group.problem, watch=start_watch(20, clock=monotonic)), group


def cuts(*stock: dict[str, Any], unit: Unit = Unit.MM, **more: Any) -> tuple[DrawnCut, ...]:
    plan, group = planned(*stock, **more)
    return cuts_of(plan, group=group, unit=unit)


BLOCK = TitleBlock(
    project="job", frame="oak 22 mm × 20 mm", drawing="Cutting plan", revision="revision 1", date="today", unit=Unit.MM
)


@pytest.mark.parametrize("more", [{}, KNOT, BOWED])
def test_every_piece_is_drawn_where_it_lies(more: dict[str, Any]) -> None:
    plan, _ = planned(BOARD | more)
    (cut,) = cuts(BOARD | more)
    drawn = Drawn(draw_stick(cut, name="cut"))
    lies = [placed for strip in plan.sticks[0].strips for placed in strip.pieces]
    runs = drawn.runs("wood")
    assert len(runs) == len(lies) == 20
    scale = LENGTH_MM / 2400
    for placed, run in zip(lies, runs, strict=True):
        assert run[1][0] - run[0][0] == pytest.approx(placed.piece.length_mm * scale, abs=0.002)
        assert run[0][0] - 1 == pytest.approx(placed.start_mm * scale, abs=0.002)


@pytest.mark.parametrize("is_upright", [False, True])
def test_every_piece_and_every_long_off_cut_bears_its_length(is_upright: bool) -> None:
    (cut,) = cuts(BOARD | KNOT)
    drawn = Drawn(draw_stick(cut, name="cut", is_upright=is_upright))
    written = Counter(text.text.split()[0] for text in drawn.texts)
    wanted = Counter(piece.length.removesuffix(" mm") for strip in cut.strips for piece in strip.pieces)
    long = (left for strip in cut.strips for left in strip.left if left.end_mm - left.start_mm > 100)
    wanted += Counter(left.length.removesuffix(" mm") for left in long)
    assert sum(wanted.values()) > 20 and all(written[length] == count for length, count in wanted.items())
    assert not [
        (one, other) for one in drawn.texts for other in drawn.texts if one is not other and one.overlaps(other)
    ]


def test_a_defect_is_hatched_from_edge_to_edge() -> None:
    (cut,) = cuts(BOARD | KNOT)
    lines = Drawn(draw_stick(cut, name="cut")).runs("defect")
    scale = LENGTH_MM / 2400
    xs = [point[0] for line in lines for point in line]
    assert len(lines) > 10
    assert min(xs) == pytest.approx(1 + 900 * scale, abs=0.01) and max(xs) == pytest.approx(1 + 960 * scale, abs=0.01)


def test_no_piece_lies_over_a_defect_or_a_crosscut() -> None:
    (cut,) = cuts(BOARD | KNOT | BOWED)
    avoided = [*cut.defects, *cut.crosscuts]
    assert [(stretch.start_mm, stretch.end_mm) for stretch in cut.defects] == [(900, 960)] and cut.crosscuts
    for strip in cut.strips:
        for piece in strip.pieces:
            assert not any(piece.start_mm < one.end_mm - 1e-6 and one.start_mm < piece.end_mm - 1e-6 for one in avoided)


def test_edges_strips_saw_cuts_and_rest_make_up_the_board() -> None:
    (cut,) = cuts(BOARD)
    assert 2 * cut.edge_mm + len(cut.strips) * (cut.strip_mm + cut.kerf_mm) + cut.rest_mm == pytest.approx(150)


def test_sticks_that_are_cut_alike_are_drawn_once() -> None:
    stick = {"id": "s1", "name": "stick", "length": "1000 mm"}
    plan, _ = planned(stick, count=20)
    drawn = cuts(stick, count=20)
    assert len(drawn) == len(alike(plan.sticks)) < plan.stick_count
    assert sum(len(each) for each in alike(plan.sticks).values()) == plan.stick_count
    assert any(" × stick #" in cut.title for cut in drawn)


@pytest.mark.parametrize("paper", sorted(PAPERS))
@pytest.mark.parametrize("unit", list(Unit))
def test_a_sheet_is_to_its_scale_and_nothing_leaves_it(paper: str, unit: Unit) -> None:
    drawn_cuts = cuts(BOARD | KNOT, count=30, unit=unit)
    sheets = sheets_of(drawn_cuts, paper=paper)
    assert tuple(cut for sheet in sheets for cut in sheet) == drawn_cuts
    for number, sheet in enumerate(sheets, start=1):
        svg = draw_stick_sheet(drawn_cuts, number=number, paper=paper, block=BLOCK)
        drawn = Drawn(svg)
        stated = next(text.text for text in drawn.texts if text.text.startswith("along 1:"))
        along = 1 / float(stated.split()[1].removeprefix("1:").rstrip(","))
        runs = drawn.runs("wood")
        pieces = [piece for cut in sheet for strip in cut.strips for piece in strip.pieces]
        for piece, run in zip(pieces, runs, strict=True):
            assert run[1][0] - run[0][0] == pytest.approx((piece.end_mm - piece.start_mm) * along, abs=0.002)
        assert all(0 <= x <= PAPERS[paper].across_mm and 0 <= y <= PAPERS[paper].up_mm for x, y in drawn.all_points())
        assert not [
            (one, other) for one in drawn.texts for other in drawn.texts if one is not other and one.overlaps(other)
        ]


def test_a_sheet_that_is_not_there_is_refused() -> None:
    with pytest.raises(IndexError):
        draw_stick_sheet(cuts(BOARD), number=9, paper="a4", block=BLOCK)


@pytest.mark.parametrize("board", [BOARD, {"id": "s1", "name": "stick", "length": "1000 mm"}])
def test_paper_tells_of_every_piece_what_it_is(board: dict[str, Any]) -> None:
    drawn_cuts = cuts(board, count=7)
    sheets = range(1, len(sheets_of(drawn_cuts, paper="a4")) + 1)
    drawings = [Drawn(draw_stick_sheet(drawn_cuts, number=number, paper="a4", block=BLOCK)) for number in sheets]
    written = [text.text.partition(": ")[2] or text.text for drawing in drawings for text in drawing.texts]
    for cut in drawn_cuts:
        for strip in cut.strips:
            assert all(piece.words in written for piece in strip.pieces)
