"""The running record of a saw: Student's table, coverage by simulation, when the evidence is enough."""

import random
from statistics import stdev

import pytest
from scipy.stats import t as student

from framecalc.corners.saw_record import ENOUGH_CUTS, SawVerdict, cuts_needed, read_record, student_95_ratio
from framecalc.errors import FrameCalcError

FINEST_DEG = 0.01


@pytest.mark.parametrize("degrees_of_freedom", [*range(1, 60), 100, 1000])
def test_the_table_is_students(degrees_of_freedom: int) -> None:
    nearly = 0.0006 if degrees_of_freedom <= 30 else 0.00012
    assert student_95_ratio(degrees_of_freedom) == pytest.approx(student.ppf(0.975, degrees_of_freedom), abs=nearly)


def test_the_range_holds_the_true_setting_nineteen_times_out_of_twenty() -> None:
    chance, held = random.Random(20), 0
    for _ in range(4000):
        record = read_record([chance.gauss(0.1, 0.05) for _ in range(5)], tolerance_deg=0.05, finest_deg=1e-9)
        held += record.least_deg <= 0.1 <= record.most_deg
    assert held / 4000 == pytest.approx(0.95, abs=0.012)


def test_mean_and_spread_are_those_of_the_statistics_books() -> None:
    errors = [0.12, 0.17, 0.09, 0.14]
    record = read_record(errors, tolerance_deg=0.05, finest_deg=FINEST_DEG)
    assert record.count == 4
    assert record.mean_deg == pytest.approx(0.13)
    assert record.spread_deg == pytest.approx(stdev(errors))
    assert record.most_deg - record.mean_deg == pytest.approx(3.182 * stdev(errors) / 2, rel=1e-3)


@pytest.mark.parametrize(
    ("errors", "verdict"),
    [
        ([0.2], SawVerdict.ANOTHER_CUT),
        ([0.2, 0.21], SawVerdict.TURN),
        ([0.2, -0.1], SawVerdict.ANOTHER_CUT),
        ([0.01, -0.01, 0.0, 0.01], SawVerdict.LEAVE),
        ([-0.2, -0.21, -0.19], SawVerdict.TURN),
        ([0.9, -0.9, 0.5, -0.4], SawVerdict.ANOTHER_CUT),
        ([0.9, -0.9, 0.5, -0.4, 0.1], SawVerdict.UNSTEADY),
    ],
)
def test_the_evidence_is_enough_when_the_whole_range_says_one_thing(errors: list[float], verdict: SawVerdict) -> None:
    assert read_record(errors, tolerance_deg=0.06, finest_deg=FINEST_DEG).verdict is verdict


@pytest.mark.parametrize(
    ("errors", "verdict"),
    [
        ([-0.13, -0.14, -0.12], SawVerdict.TURN),
        ([-0.13, -0.14, -0.12, -0.09], SawVerdict.TURN),
        ([-0.13, -0.14, -0.12, -0.09, -0.1], SawVerdict.TURN),
        ([-0.13, -0.14, -0.12, 0.05], SawVerdict.ANOTHER_CUT),
        ([-0.09, -0.13, -0.14, -0.12], SawVerdict.ANOTHER_CUT),
        ([0.0, 0.01, 0.0], SawVerdict.LEAVE),
        ([0.0, 0.01, 0.0, 0.4], SawVerdict.ANOTHER_CUT),
    ],
)
def test_a_verdict_is_kept_by_cuts_that_agree_with_it(errors: list[float], verdict: SawVerdict) -> None:
    """Fault: three cuts said “turn it”, and a fourth at −0.09° brought the mean to the tolerance and said “wait”."""
    assert read_record(errors, tolerance_deg=0.125, finest_deg=FINEST_DEG).verdict is verdict


def test_a_saw_left_alone_is_looked_at_again_once_the_mean_has_left_the_tolerance() -> None:
    """Each cut agrees with those before it; the mean, 0.06° of tolerance, goes from 0.02° to just past it."""
    errors = [0.02, 0.02, -0.01, 0.09, 0.14, 0.1]
    verdicts = [read_record(errors[:count], tolerance_deg=0.06, finest_deg=0.01).verdict for count in (5, 6)]
    assert verdicts == [SawVerdict.LEAVE, SawVerdict.ANOTHER_CUT]


def test_two_readings_that_agree_prove_no_more_than_the_feeler_can_tell() -> None:
    coarse = read_record([0.0, 0.0], tolerance_deg=0.06, finest_deg=0.06)
    fine = read_record([0.0, 0.0], tolerance_deg=0.06, finest_deg=0.001)
    assert (coarse.verdict, fine.verdict) == (SawVerdict.ANOTHER_CUT, SawVerdict.LEAVE)


@pytest.mark.parametrize("spread", [0.01, 0.03, 0.1])
def test_the_cuts_needed_are_just_enough(spread: float) -> None:
    needed = cuts_needed(spread, tolerance_deg=0.06)
    assert student_95_ratio(needed - 1) * spread / needed**0.5 <= 0.06
    assert needed == 2 or student_95_ratio(needed - 2) * spread / (needed - 1) ** 0.5 > 0.06


def test_a_saw_that_wanders_is_not_settled_by_patience() -> None:
    assert cuts_needed(2.0, tolerance_deg=0.06) == ENOUGH_CUTS + 1


def test_an_empty_record_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="Enter a test cut first"):
        read_record([], tolerance_deg=0.06, finest_deg=FINEST_DEG)


def test_a_cut_that_was_set_wrong_does_not_enter_the_record() -> None:
    with pytest.raises(FrameCalcError, match="Enter -5° to 5°"):
        read_record([0.1, 12.0], tolerance_deg=0.06, finest_deg=FINEST_DEG)


def test_earlier_settings_make_one_cut_enough_and_do_not_move_the_mean() -> None:
    alone = read_record([0.3], tolerance_deg=0.06, finest_deg=FINEST_DEG)
    known = read_record(
        [0.3], tolerance_deg=0.06, finest_deg=FINEST_DEG, earlier_deg=[[-0.11, -0.09, -0.1], [0.52, 0.5], []]
    )
    assert alone.verdict is SawVerdict.ANOTHER_CUT and known.verdict is SawVerdict.TURN
    assert known.mean_deg == alone.mean_deg == 0.3 and known.earlier_count == 5


def test_the_pooled_range_holds_the_true_setting_nineteen_times_out_of_twenty() -> None:
    chance, held = random.Random(7), 0
    for _ in range(4000):
        earlier = [[chance.gauss(setting, 0.05) for _ in range(3)] for setting in (-0.4, 0.3)]
        now = [chance.gauss(0.1, 0.05) for _ in range(2)]
        record = read_record(now, tolerance_deg=0.05, finest_deg=1e-9, earlier_deg=earlier)
        held += record.least_deg <= 0.1 <= record.most_deg
    assert held / 4000 == pytest.approx(0.95, abs=0.012)
