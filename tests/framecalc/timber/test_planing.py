"""The passes through the planer: first setting, last setting, step, and who joins in where."""

from itertools import pairwise
from math import ceil

import pytest

from framecalc.errors import OutOfRange
from framecalc.timber.planing import PlaningRun, RoughPiece, planing_list


def pieces(*thick_mm: float) -> list[RoughPiece]:
    return [RoughPiece(thickness_mm=thick, length_mm=900) for thick in thick_mm]


def settings_of(run: PlaningRun) -> list[float]:
    """Every setting of a run, from what its line says."""
    between = [run.first_mm - number * run.pass_mm for number in range(run.passes - 1)]
    return [*between, run.finished_mm]


def test_twenty_six_to_twenty_one_and_two_tenths_in_half_millimetres_is_one_line() -> None:
    (run,) = planing_list(pieces(26, 26), finished_mm=21.2, pass_mm=0.5)
    assert (run.rough_mm, run.first_mm, run.finished_mm, run.pass_mm, run.passes) == (26, 25.5, 21.2, 0.5, 10)
    assert run.last_mm == pytest.approx(0.3)
    assert len(run.pieces) == 2


@pytest.mark.parametrize("pass_mm", [0.5, 1.5, 3.0])
@pytest.mark.parametrize("rough_mm", [20.1, 21.5, 26.0])
def test_no_pass_is_deeper_than_allowed_and_all_but_the_last_are_alike(rough_mm: float, pass_mm: float) -> None:
    (run,) = planing_list(pieces(rough_mm), finished_mm=20, pass_mm=pass_mm)
    taken = [high - low for high, low in pairwise([rough_mm, *settings_of(run)])]
    assert sum(taken) == pytest.approx(rough_mm - 20) and len(taken) == ceil((rough_mm - 20) / pass_mm - 1e-6)
    assert taken[:-1] == pytest.approx([pass_mm] * (len(taken) - 1))
    assert taken[-1] == pytest.approx(run.last_mm) and 0 < run.last_mm <= pass_mm + 1e-5


def test_thinner_pieces_join_in_where_the_planer_comes_down_to_them() -> None:
    runs = planing_list(pieces(26, 24, 21, 20), finished_mm=20, pass_mm=2)
    assert [(run.rough_mm, settings_of(run)) for run in runs] == [(26, [24, 22, 20]), (24, [22, 20]), (21, [20])]
    assert [run.last_mm for run in runs] == [2, 2, 1]


def test_all_runs_share_the_settings_of_the_thickest() -> None:
    runs = planing_list(pieces(26.3, 25.1, 22.2), finished_mm=20, pass_mm=1.5)
    thickest = [round(one, 6) for one in settings_of(runs[0])]
    for run in runs[1:]:
        assert [round(one, 6) for one in settings_of(run)] == thickest[-run.passes :]


def test_what_is_thick_enough_is_not_planed() -> None:
    assert planing_list(pieces(20), finished_mm=20) == ()
    assert planing_list([], finished_mm=20) == ()


def test_a_piece_thinner_than_finished_is_refused() -> None:
    with pytest.raises(OutOfRange):
        planing_list(pieces(19), finished_mm=20)
