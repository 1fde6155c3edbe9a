"""What is wrong with an artwork; every way out is applied and has to end the finding."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.artwork.findings import artwork_findings
from framecalc.artwork.measuring import Measurements, Play, fit_artwork, play
from framecalc.findings import Finding, Severity
from framecalc.geometry.quadrilateral import rectangle
from framecalc.records import replace
from framecalc.sizes.chain import TIGHT_CLEARANCE_MM

TRUE = Measurements(
    across_top_mm=300,
    across_bottom_mm=300,
    up_left_mm=400,
    up_right_mm=400,
    diagonal_rising_mm=500,
    diagonal_falling_mm=500,
)


def findings(
    tape: Measurements, *, clearance_mm: tuple[float, float] = (3.0, 3.0), is_tray: bool = False
) -> tuple[Finding, ...]:
    fit = fit_artwork(tape)
    loose = play(
        fit.corners, rabbet_across_mm=fit.across_mm + clearance_mm[0], rabbet_up_mm=fit.up_mm + clearance_mm[1]
    )
    return artwork_findings(
        tape, fit, loose, clearance_across_mm=clearance_mm[0], clearance_up_mm=clearance_mm[1], is_tray=is_tray
    )


def codes(tape: Measurements, **how: object) -> list[str]:
    return [finding.code for finding in findings(tape, **how)]  # type: ignore[arg-type]


def leaning(difference_mm: float) -> Measurements:
    """Opposite sides agree, and the diagonals are this far apart, consistently."""
    half_mm = difference_mm / 2
    shorter_mm = (500**2 * 2 - (500 + half_mm) ** 2) ** 0.5
    return replace(TRUE, diagonal_rising_mm=500 + half_mm, diagonal_falling_mm=shorter_mm)


def test_sizes_that_are_only_assumed_prove_no_reading_wrong() -> None:
    tape = replace(TRUE, diagonal_rising_mm=520)
    fit = fit_artwork(tape)
    loose = play(fit.corners, rabbet_across_mm=fit.across_mm + 3, rabbet_up_mm=fit.up_mm + 3)
    told = [
        {
            one.code
            for one in artwork_findings(tape, fit, loose, clearance_across_mm=3, clearance_up_mm=3, is_taped=taped)
        }
        for taped in (True, False)
    ]
    assert told[0] - told[1] == {"artwork.misread"} and not told[1] - told[0]


def test_a_true_rectangle_is_no_finding() -> None:
    assert findings(TRUE) == ()


def test_readings_that_a_tape_cannot_tell_apart_are_no_finding() -> None:
    assert findings(replace(TRUE, across_top_mm=300.5, diagonal_rising_mm=500.4)) == ()


def test_opposite_sides_come_before_diagonals() -> None:
    tape = replace(TRUE, across_top_mm=302, up_right_mm=399, diagonal_rising_mm=501)
    assert codes(tape, clearance_mm=(8.0, 8.0)) == [
        "artwork.sides-differ-across",
        "artwork.sides-differ-up",
        "artwork.diagonals-differ",
    ]


def test_equal_diagonals_do_not_silence_sides_that_differ() -> None:
    (finding,) = findings(
        replace(TRUE, across_top_mm=302, diagonal_rising_mm=500.6, diagonal_falling_mm=500.6),
        clearance_mm=(5.0, 5.0),
    )
    assert (finding.code, finding.severity) == ("artwork.sides-differ-across", Severity.NOTE)
    assert finding.lengths == {"first": 302, "second": 300, "difference": 2}


def test_a_leaning_piece_is_said_to_be_out_of_square() -> None:
    piece = leaning(2.0)
    assert codes(piece, clearance_mm=(6.0, 6.0)) == ["artwork.diagonals-differ"]
    assert piece.diagonal_rising_mm and piece.diagonal_falling_mm
    (finding,) = findings(piece, clearance_mm=(6.0, 6.0))
    assert finding.lengths["difference"] == max(
        piece.diagonal_rising_mm - piece.diagonal_falling_mm, piece.diagonal_falling_mm - piece.diagonal_rising_mm
    )


@pytest.mark.parametrize(
    ("error_mm", "expect"),
    [
        (1.95, None),
        (2.05, ("artwork.misfit", "warn")),
        (7.9, ("artwork.misfit", "warn")),
        (8.1, ("artwork.misread", "stop")),
    ],
)
def test_a_diagonal_read_wrong_contradicts_the_other_five(error_mm: float, expect: tuple[str, str] | None) -> None:
    found = findings(replace(TRUE, diagonal_rising_mm=500 + error_mm), clearance_mm=(30.0, 30.0))
    (said,) = [finding for finding in found if "mis" in finding.code] or [None]
    assert (said and (said.code, said.severity.value)) == expect
    assert said is None or said.lengths["reading"] == pytest.approx(error_mm, rel=0.05)


def test_one_diagonal_alone_can_contradict_nothing() -> None:
    assert codes(replace(TRUE, diagonal_falling_mm=None)) == []


def test_a_crooked_piece_that_does_not_enter_is_a_stop() -> None:
    found = findings(leaning(9.0))
    assert [(finding.code, finding.severity) for finding in found] == [
        ("artwork.diagonals-differ", Severity.NOTE),
        ("artwork.does-not-enter", Severity.STOP),
    ]
    assert found[-1].lengths["missing"] > 0


def test_clearance_that_is_short_in_itself_is_left_to_the_sizes() -> None:
    assert codes(leaning(9.0), clearance_mm=(0.0, 3.0)) == ["artwork.diagonals-differ"]
    assert codes(TRUE, clearance_mm=(-1.0, -1.0)) == []


def _more(clearance_mm: tuple[float, float], argument: str, value_mm: float) -> tuple[float, float]:
    across_mm, up_mm = clearance_mm
    if argument == "tray_gap_mm":
        return 2 * value_mm, 2 * value_mm
    return (value_mm, up_mm) if argument == "clearance_across_mm" else (across_mm, value_mm)


@given(
    difference_mm=st.floats(min_value=-16, max_value=16),
    across_mm=st.floats(min_value=1.01, max_value=6),
    up_mm=st.floats(min_value=1.01, max_value=6),
)
def test_every_way_out_leaves_enough_play(difference_mm: float, across_mm: float, up_mm: float) -> None:
    tape = leaning(difference_mm)
    for finding in findings(tape, clearance_mm=(across_mm, up_mm)):
        for way in finding.ways:
            fixed_mm = _more((across_mm, up_mm), way.argument, way.value_mm + 1e-5)
            assert finding.code not in codes(tape, clearance_mm=fixed_mm)
            assert "artwork.little-play" not in codes(tape, clearance_mm=fixed_mm)


@pytest.mark.parametrize("difference_mm", [6.5, 9.0])
def test_a_crooked_piece_has_ways_out_in_both_directions(difference_mm: float) -> None:
    (finding,) = [finding for finding in findings(leaning(difference_mm)) if finding.ways]
    assert [way.argument for way in finding.ways] == ["clearance_across_mm", "clearance_up_mm"]


def test_in_a_tray_the_gap_is_the_way_out() -> None:
    (finding,) = [finding for finding in findings(leaning(9.0), is_tray=True) if finding.ways]
    (way,) = finding.ways
    assert way.argument == finding.argument == "tray_gap_mm"
    assert "artwork.does-not-enter" not in codes(
        leaning(9.0), clearance_mm=_more((3.0, 3.0), way.argument, way.value_mm + 1e-5), is_tray=True
    )


def test_in_a_tray_half_of_what_play_is_missing_is_added_to_the_gap() -> None:
    """By hand: half a millimetre is left, one is usual: the clearance grows from 3 to 3.5, the gap is half of it."""
    for across_mm, up_mm in ((300.5, 403), (303, 400.5)):
        tight = play(rectangle(across_mm=300, up_mm=400), rabbet_across_mm=across_mm, rabbet_up_mm=up_mm)
        (finding,) = artwork_findings(
            TRUE, fit_artwork(TRUE), tight, clearance_across_mm=3, clearance_up_mm=3, is_tray=True
        )
        assert (finding.code, finding.lengths["left"]) == ("artwork.little-play", pytest.approx(0.5))
        assert [way.value_mm for way in finding.ways] == [pytest.approx(1.75)]


def test_a_mat_is_true_however_crooked_the_artwork_behind_it() -> None:
    tape = leaning(9.0)
    around: Play = play(rectangle(across_mm=420, up_mm=530), rabbet_across_mm=423, rabbet_up_mm=533)
    found = artwork_findings(tape, fit_artwork(tape), around, clearance_across_mm=3, clearance_up_mm=3)
    assert [finding.code for finding in found] == ["artwork.diagonals-differ"]


@given(difference_mm=st.floats(min_value=0.6, max_value=40), clearance_mm=st.floats(min_value=1, max_value=12))
def test_every_sentence_names_only_lengths_it_carries(difference_mm: float, clearance_mm: float) -> None:
    for finding in findings(leaning(difference_mm), clearance_mm=(clearance_mm, clearance_mm)):
        said = finding.sentence.format_map(dict.fromkeys(finding.lengths, "so much"))
        assert said.endswith(".")
        assert finding.why.endswith(".")
        assert not any(character.isdigit() for character in said)


def test_play_at_the_usual_limit_is_enough() -> None:
    assert findings(TRUE, clearance_mm=(TIGHT_CLEARANCE_MM, TIGHT_CLEARANCE_MM)) == ()


def test_the_gap_that_is_asked_for_in_a_tray_is_the_least_that_will_do() -> None:
    (way,) = next(finding for finding in findings(leaning(9.0), is_tray=True) if finding.ways).ways
    nearly_mm = _more((3.0, 3.0), way.argument, way.value_mm - 0.05)
    assert any(finding.ways for finding in findings(leaning(9.0), clearance_mm=nearly_mm, is_tray=True))


@pytest.mark.parametrize("difference_mm", [6.5, 9.0])
@pytest.mark.parametrize("argument", ["clearance_across_mm", "clearance_up_mm"])
def test_the_clearance_that_is_asked_for_is_the_least_that_will_do(argument: str, difference_mm: float) -> None:
    (finding,) = [finding for finding in findings(leaning(difference_mm)) if finding.ways]
    (way,) = [way for way in finding.ways if way.argument == argument]
    nearly_mm = _more((3.0, 3.0), argument, way.value_mm - 0.05)
    assert any(other.ways for other in findings(leaning(difference_mm), clearance_mm=nearly_mm))
