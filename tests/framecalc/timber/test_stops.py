"""The stop list: every length once, longest first, mates together; and the cautions at saw and planer."""

from collections import Counter

import pytest
from cutting_jobs import cut, frame_of, loose

from framecalc.findings import Finding, Severity
from framecalc.records import replace
from framecalc.timber.sticks.problem import Piece, Purpose, StickProblem, Stock, place_round, short_edge_mm
from framecalc.timber.stops import (
    FILLER,
    TEST_FIRST,
    StopSide,
    cutting_cautions,
    hints_at_the_saw,
    planing_cautions,
    ripping_cautions,
    stop_list,
)

PIECES = (
    *frame_of("hall", across_mm=348, up_mm=471, copies=2),
    *frame_of("den", across_mm=471, up_mm=600),
    Piece(frame="hall", side="top", length_mm=348, purpose=Purpose.SPARE),
)
PROBLEM = StickProblem(pieces=PIECES, stock=(Stock(name="ash", length_mm=2400),), kerf_mm=3, width_mm=30)
PLAN = cut(PROBLEM)


def test_every_length_is_listed_once_and_the_longest_first() -> None:
    stops = stop_list(PLAN, problem=PROBLEM, both_sides=False)
    assert [(stop.number, stop.long_mm, stop.short_mm, stop.count) for stop in stops] == [
        (1, 600, 540, 2),
        (2, 471, 411, 6),
        (3, 348, 288, 5),
    ]


def test_every_piece_of_the_plan_is_cut_at_one_stop() -> None:
    cut_at = Counter(piece for stop in stop_list(PLAN, problem=PROBLEM, both_sides=False) for piece in stop.pieces)
    assert cut_at == Counter(PIECES)


def test_opposite_sides_follow_each_other() -> None:
    for stop in stop_list(PLAN, problem=PROBLEM, both_sides=False):
        members = [piece for piece in stop.pieces if piece.purpose is Purpose.MEMBER]
        for first, second in zip(members[::2], members[1::2], strict=True):
            assert (first.frame, first.copy) == (second.frame, second.copy)
            assert {first.side, second.side} in ({"top", "bottom"}, {"left", "right"})


def test_a_saw_that_swings_over_needs_the_stop_on_both_sides() -> None:
    assert all(stop.sides == (StopSide.RIGHT,) for stop in stop_list(PLAN, problem=PROBLEM, both_sides=False))
    assert all(
        stop.sides == (StopSide.LEFT, StopSide.RIGHT) for stop in stop_list(PLAN, problem=PROBLEM, both_sides=True)
    )


def test_lengths_that_no_tool_tells_apart_share_a_stop() -> None:
    problem = replace(PROBLEM, pieces=loose([300.0, 300.0 + 1e-9, 300.01]))
    assert [stop.count for stop in stop_list(cut(problem), problem=problem, both_sides=False)] == [1, 2]


def test_test_pieces_are_on_a_list_of_their_own() -> None:
    test = Piece(frame="corner", side="test", length_mm=700, purpose=Purpose.TEST)
    problem = replace(PROBLEM, pieces=(*PIECES, test))
    stops = stop_list(cut(problem), problem=problem, both_sides=False)
    assert [stop.long_mm for stop in stops] == [600, 471, 348]


def test_the_filler_strip_is_for_sticks_with_a_rabbet() -> None:
    assert FILLER in hints_at_the_saw(milled=True, tested=True)
    assert FILLER not in hints_at_the_saw(milled=False, tested=True)


def test_without_test_pieces_the_first_line_is_to_cut_a_test_corner() -> None:
    assert hints_at_the_saw(milled=False, tested=False)[0] is TEST_FIRST
    assert TEST_FIRST not in hints_at_the_saw(milled=False, tested=True)


def _worded(findings: tuple[Finding, ...]) -> list[tuple[str, Severity]]:
    for finding in findings:
        finding.sentence.format_map(finding.lengths)
        finding.why.format_map(finding.lengths)
        assert "manual" in finding.why
    return [(finding.code, finding.severity) for finding in findings]


def test_short_pieces_are_held_down() -> None:
    assert _worded(cutting_cautions(loose([210.0, 400.0]), slope_mm=30)) == []
    assert _worded(cutting_cautions(loose([209.0, 400.0]), slope_mm=30)) == [("stops.short-piece", Severity.WARN)]


def test_of_short_pieces_the_shortest_is_named_and_counted_in_millimetres_of_its_short_edge() -> None:
    pieces = loose([209.0, 150.0, 400.0, 180.0])
    (finding,) = cutting_cautions(pieces, slope_mm=30)
    assert finding.lengths["short"] == min(short_edge_mm(piece, slope_mm=30) for piece in pieces) == 90
    assert "3 pieces" in finding.sentence and pieces[1].label in finding.sentence


def test_of_pieces_too_short_for_the_planer_the_shortest_is_said() -> None:
    (finding,) = planing_cautions([299.0, 120.0, 900.0, 250.0], shortest_mm=300)
    assert finding.lengths == {"shortest": 120.0, "least": 300}
    assert finding.sentence.startswith("3 pieces")


def test_opposite_sides_of_many_sides_follow_each_other_too() -> None:
    pieces = tuple(Piece(frame="hall", side=str(number), length_mm=300) for number in range(1, 7))
    problem = replace(PROBLEM, pieces=pieces, sides=6)
    (stop,) = stop_list(cut(problem), problem=problem, both_sides=False)
    places = [place_round(piece.side, sides=6) for piece in stop.pieces]
    assert all(abs(one - other) == 3 for one, other in zip(places[::2], places[1::2], strict=True))


@pytest.mark.parametrize(("strip_mm", "code"), [(49.9, "stops.narrow-strip"), (50.0, "stops.ripping")])
def test_narrow_strips_want_a_push_block(strip_mm: float, code: str) -> None:
    assert [found for found, _ in _worded(ripping_cautions(strip_mm=strip_mm))] == [code]


def test_pieces_too_short_for_the_planer_stop_the_job() -> None:
    assert _worded(planing_cautions([300.0, 900.0], shortest_mm=300)) == []
    assert _worded(planing_cautions([299.0, 900.0], shortest_mm=300)) == [("stops.too-short-to-plane", Severity.STOP)]
