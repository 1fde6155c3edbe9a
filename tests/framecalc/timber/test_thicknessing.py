"""Bow, twist and what thickness they leave, milled long or crosscut first."""

from math import sqrt

import pytest

from framecalc.errors import ImpossibleTimber, OutOfRange
from framecalc.findings import Severity
from framecalc.records import replace
from framecalc.timber.boards import Allowances, Board
from framecalc.timber.thicknessing import (
    MillingChoice,
    Order,
    bow_of_part_mm,
    choose_milling,
    crosscuts_mm,
    equal_part_mm,
    longest_part_mm,
    milling_findings,
    parts_of,
    reachable_thickness_mm,
    twist_of_part_mm,
)

BOARD = Board(name="ash", species="white_ash", thickness_mm=26, width_mm=150, length_mm=2400, bow_mm=6, twist_mm=2)


@pytest.mark.parametrize("part_mm", [300.0, 800.0, 1600.0, 2400.0])
def test_the_bow_of_a_part_is_the_rise_of_the_same_arc(part_mm: float) -> None:
    bow_mm, length_mm = 6.0, 2400.0
    radius_mm = (length_mm / 2) ** 2 / (2 * bow_mm) + bow_mm / 2
    rise_mm = radius_mm - sqrt(radius_mm**2 - (part_mm / 2) ** 2)
    assert bow_of_part_mm(bow_mm, length_mm=length_mm, part_mm=part_mm) == pytest.approx(rise_mm, rel=1e-4)


def test_half_a_board_has_a_quarter_of_the_bow_and_half_of_the_twist() -> None:
    assert bow_of_part_mm(6, length_mm=2400, part_mm=1200) == 1.5
    assert twist_of_part_mm(6, length_mm=2400, part_mm=1200) == 3


def test_a_shorter_part_never_reaches_less() -> None:
    reached = [
        choose_milling(BOARD, thickness_mm=20, part_mm=part_mm, allowances=Allowances()).crosscut_mm
        for part_mm in (2400, 1800, 1200, 600, 300)
    ]
    assert reached == sorted(reached)
    assert reached[0] == choose_milling(BOARD, thickness_mm=20, part_mm=600, allowances=Allowances()).long_mm


@pytest.mark.parametrize(
    ("thickness_mm", "order", "severities"),
    [
        (16.2, Order.LONG, []),
        (16.3, Order.CROSSCUT, [Severity.WARN]),
        (21.7, Order.CROSSCUT, [Severity.WARN]),
        (21.8, Order.NEITHER, [Severity.STOP]),
    ],
)
def test_the_order_follows_from_both_thicknesses(thickness_mm: float, order: Order, severities: list[Severity]) -> None:
    choice = choose_milling(BOARD, thickness_mm=thickness_mm, part_mm=1200, allowances=Allowances())
    assert (choice.long_mm, choice.crosscut_mm) == (16.5, 22.0)
    assert choice.order is order
    findings = milling_findings(choice)
    assert [finding.severity for finding in findings] == severities
    for finding in findings:
        finding.sentence.format_map(finding.lengths)


def test_a_flat_board_loses_only_the_clean_up() -> None:
    assert reachable_thickness_mm(rough_mm=25.4, bow_mm=0, twist_mm=0, clean_up_mm=2) == pytest.approx(23.4)
    assert reachable_thickness_mm(rough_mm=4, bow_mm=6, twist_mm=0) < 0


def test_a_part_too_short_for_the_machines_is_refused() -> None:
    with pytest.raises(
        ImpossibleTimber, match="Part of 250 mm too short for planer and jointer: 300 mm or more"
    ) as refused:
        choose_milling(BOARD, thickness_mm=20, part_mm=250, allowances=Allowances())
    assert refused.value.field == "part_mm"


def test_a_part_longer_than_its_board_is_refused() -> None:
    with pytest.raises(OutOfRange) as refused:
        choose_milling(replace(BOARD, length_mm=1000), thickness_mm=20, part_mm=1200, allowances=Allowances())
    assert refused.value.field == "part_mm"


@pytest.mark.parametrize(("bow_mm", "twist_mm"), [(6.0, 2.0), (6.0, 0.0), (0.0, 6.0), (9.0, 9.0)])
@pytest.mark.parametrize("needed_mm", [19.0, 21.0, 24.0])
def test_the_longest_part_just_reaches_the_thickness(bow_mm: float, twist_mm: float, needed_mm: float) -> None:
    board = replace(BOARD, bow_mm=bow_mm, twist_mm=twist_mm)
    part_mm = longest_part_mm(board, needed_mm=needed_mm)
    choice = choose_milling(board, thickness_mm=20, part_mm=part_mm, allowances=Allowances(), shortest_mm=1)
    assert part_mm == board.length_mm or choice.crosscut_mm == pytest.approx(needed_mm)
    assert choice.crosscut_mm >= needed_mm - 1e-9


def test_no_part_of_a_board_is_thicker_than_the_board() -> None:
    assert longest_part_mm(BOARD, needed_mm=26) == 0
    assert longest_part_mm(replace(BOARD, bow_mm=0, twist_mm=0), needed_mm=26) == 0
    assert longest_part_mm(replace(BOARD, bow_mm=0, twist_mm=0), needed_mm=24.5) == 2400


@pytest.mark.parametrize("least_mm", [300.0, 500.0, 790.0, 1100.0])
@pytest.mark.parametrize("needed_mm", [18.0, 21.0, 23.5])
def test_equal_parts_are_the_longest_that_reach_the_thickness(least_mm: float, needed_mm: float) -> None:
    longest_mm = longest_part_mm(BOARD, needed_mm=needed_mm)
    part_mm = equal_part_mm(BOARD, needed_mm=needed_mm, least_mm=least_mm)
    equal = [2400 / number for number in range(2, 100) if least_mm <= 2400 / number <= longest_mm]
    assert part_mm == max(equal, default=least_mm)


@pytest.mark.parametrize(("part_mm", "count"), [(2400.0, 0), (2399.0, 0), (2398.0, 1), (1200.0, 1), (700.0, 3)])
def test_a_board_is_cut_between_parts_and_never_at_its_very_end(part_mm: float, count: int) -> None:
    assert crosscuts_mm(BOARD, part_mm=part_mm, kerf_mm=3) == tuple(n * part_mm for n in range(1, count + 1))


@pytest.mark.parametrize("part_mm", [2400.0, 1200.0, 700.0, 650.0])
def test_parts_and_saw_cuts_make_up_the_board(part_mm: float) -> None:
    parts = parts_of(BOARD, part_mm=part_mm, kerf_mm=3)
    cuts = crosscuts_mm(BOARD, part_mm=part_mm, kerf_mm=3)
    assert sum(part.length_mm for part in parts) + 3 * len(cuts) == pytest.approx(2400)
    assert len(parts) == len(cuts) + 1 and all(0 < part.length_mm <= part_mm for part in parts)


@pytest.mark.parametrize(
    ("bow_mm", "says"),
    [
        (
            40,
            "Milled long, nothing of the board is left; {needed} is needed. Crosscut to {part} first: then it reaches",
        ),
        (900, "Milled long, nothing of the board is left, nor of a part of {part}; {needed} is needed."),
    ],
)
def test_no_thickness_below_zero_is_told(bow_mm: float, says: str) -> None:
    board = Board(name="ash", species="ash", thickness_mm=26, width_mm=150, length_mm=2400, bow_mm=bow_mm)
    (finding,) = milling_findings(choose_milling(board, thickness_mm=20, part_mm=600, allowances=Allowances()))
    assert finding.sentence.startswith(says)


@pytest.mark.parametrize(("bow_mm", "part_mm"), [(0, 600), (9, 2400)], ids=["flat", "too short to be parted"])
def test_where_crosscutting_gains_nothing_no_length_is_told(bow_mm: float, part_mm: float) -> None:
    board = replace(BOARD, bow_mm=bow_mm, twist_mm=0)
    (finding,) = milling_findings(choose_milling(board, thickness_mm=25, part_mm=part_mm, allowances=Allowances()))
    assert finding.severity is Severity.STOP
    assert finding.sentence == (
        "Milled long, the board reaches {long}, and crosscutting it first gains nothing; {needed} is needed."
    )


@pytest.mark.parametrize("spare_mm", [0.5, 0.01])
def test_of_a_board_with_little_to_spare_a_short_part_still_comes_to_thickness(spare_mm: float) -> None:
    """What bow and twist take of the part, as they do of a part of its share, is just what there is to spare."""
    board = Board(name="ash", species="", thickness_mm=26, width_mm=150, length_mm=2400, bow_mm=6, twist_mm=4)
    part_mm = longest_part_mm(board, needed_mm=26 - 1.5 - spare_mm, clean_up_mm=1.5)
    share = part_mm / 2400
    assert part_mm > 0 and 6 * share**2 + 4 * share == pytest.approx(spare_mm)
    assert longest_part_mm(board, needed_mm=26 - 1.5, clean_up_mm=1.5) == 0


@pytest.mark.parametrize(
    ("long_mm", "crosscut_mm", "says"),
    [
        (0.5, 0.7, "the board reaches {long}, crosscut to {part} first it reaches {crosscut}; {needed} is needed."),
        (-1, 0.5, "nothing of the board is left, crosscut to {part} first it reaches {crosscut}; {needed} is needed."),
        (-2, -1, "nothing of the board is left, nor of a part of {part}; {needed} is needed."),
    ],
)
def test_half_a_millimetre_that_is_left_is_told(long_mm: float, crosscut_mm: float, says: str) -> None:
    (finding,) = milling_findings(
        MillingChoice(needed_mm=5, long_mm=long_mm, crosscut_mm=crosscut_mm, part_mm=600, order=Order.NEITHER)
    )
    assert finding.sentence == f"Milled long, {says}"
