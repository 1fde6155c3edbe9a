"""Figures: each size written once, in the direction that a mistake would cost least."""

from math import pi, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.findings import Rounding
from framecalc.plan.figures import KINDS, Figure, step_of_member, write_figures, write_short_point
from framecalc.units import TOLERANCE_MM, Step


@given(
    name=st.sampled_from(sorted(KINDS)), length_mm=st.floats(min_value=0, max_value=5000), step=st.sampled_from(Step)
)
def test_what_is_written_errs_on_the_safe_side(name: str, length_mm: float, step: Step) -> None:
    written = write_figures([(name, length_mm)], step=step)[name].written
    if KINDS[name].rounding is Rounding.UP:
        assert written.written_mm >= length_mm - TOLERANCE_MM
    elif KINDS[name].rounding is Rounding.DOWN:
        assert written.written_mm <= length_mm + TOLERANCE_MM
    assert written.written_mm + written.remainder_mm == pytest.approx(length_mm, abs=TOLERANCE_MM)


def test_a_size_that_must_not_come_out_small_is_written_up() -> None:
    assert KINDS["rabbet_across"].rounding is KINDS["outside_up"].rounding is Rounding.UP


def test_a_sheet_that_must_not_come_out_large_is_written_down() -> None:
    assert KINDS["package_across"].rounding is Rounding.DOWN


def test_a_name_that_is_no_figure_is_refused() -> None:
    with pytest.raises(KeyError):
        write_figures([("girth", 1.0)], step=Step.MILLIMETRE)


SIDES = st.integers(min_value=3, max_value=24).filter(lambda sides: sides != 4)


def polygon(long_mm: float, width_mm: float, *, sides: int, step: Step) -> dict[str, Figure]:
    """The member of a polygon, whose ends run back by its width and the half turn of its corners."""
    short_mm = long_mm - 2 * width_mm * tan(pi / sides)
    return write_figures([("member_long", long_mm), ("member_short", short_mm)], step=step, sides=sides)


@given(
    sides=SIDES,
    long_mm=st.floats(min_value=300, max_value=900),
    width_mm=st.floats(min_value=5, max_value=80),
    step=st.sampled_from(Step),
)
def test_long_point_short_point_width_and_angle_of_a_polygon_agree_as_written(
    sides: int, long_mm: float, width_mm: float, step: Step
) -> None:
    long, short = polygon(long_mm, width_mm, sides=sides, step=step).values()
    step_mm = float(step_of_member(step, sides=sides).size_mm)
    apart_mm = long.written.written_mm - short.written.written_mm
    assert apart_mm == pytest.approx(2 * width_mm * tan(pi / sides), abs=step_mm / 2 + TOLERANCE_MM)
    at_stop = write_short_point(short.exact_mm, long_mm=long_mm, sides=sides, step=step)
    assert at_stop.text == short.text


def test_a_hexagon_says_the_short_point_that_comes_out_of_its_stop() -> None:
    """8 7/16 and a hair is cut as 8 15/32; less 2 · 1 5/8 · tan 30° that leaves 6.592."""
    long, short = polygon(8.44 * 25.4, 1.625 * 25.4, sides=6, step=Step.SIXTEENTH).values()
    assert (long.text, short.text) == ("8 15/32", "6 19/32")


@given(sides=SIDES, long_mm=st.floats(min_value=60, max_value=900))
def test_members_cut_as_written_keep_a_polygon_near_its_measure_across_the_flats(sides: int, long_mm: float) -> None:
    """Within a step of the tape; of many sides, within what a sixty-fourth comes to."""
    (long,) = write_figures([("member_long", long_mm)], step=Step.SIXTEENTH, sides=sides).values()
    larger_mm = -long.written.remainder_mm / tan(pi / sides)
    assert larger_mm <= max(25.4 / 16, 25.4 / 64 / tan(pi / sides)) + TOLERANCE_MM


@given(
    outside_mm=st.floats(min_value=200, max_value=900),
    face=st.integers(min_value=1, max_value=60),
    step=st.sampled_from(Step),
)
def test_outside_and_sight_as_written_differ_by_the_face(outside_mm: float, face: int, step: Step) -> None:
    face_mm = face * float(step.size_mm)
    lengths = [("outside_across", outside_mm), ("sight_across", outside_mm - 2 * face_mm)]
    outside, sight = write_figures(lengths, step=step).values()
    assert outside.written.written_mm - sight.written.written_mm == pytest.approx(2 * face_mm, abs=TOLERANCE_MM)


@given(inside_mm=st.floats(min_value=50, max_value=900), step=st.sampled_from(Step))
def test_the_inside_of_a_tray_is_one_size_by_both_its_names(inside_mm: float, step: Step) -> None:
    lengths = [("outside_across", inside_mm + 13.3), ("sight_across", inside_mm), ("rabbet_across", inside_mm)]
    _, sight, rabbet = write_figures(lengths, step=step, is_tray=True).values()
    assert (sight.text, sight.label) == (rabbet.text, rabbet.label)


def test_the_layers_add_up_to_the_package_and_with_the_room_behind_to_the_depth() -> None:
    stack, room = write_figures([("stack", 8.3), ("left_over", 4.2)], step=Step.HALF_MILLIMETRE).values()
    assert (stack.text, room.text) == ("8.3", "4.2")


@pytest.mark.parametrize(
    ("sides", "has_sheets", "text"), [(4, True, "21 3/16"), (6, True, "21 1/4"), (4, False, "21 7/32")]
)
def test_a_package_is_rounded_as_it_is_cut(sides: int, has_sheets: bool, text: str) -> None:
    """Sheets of a rectangle are cut down to the tape, those of a polygon out of what holds it; a panel is not cut."""
    lengths = [("package_across", 21.21875 * 25.4)]
    (package,) = write_figures(lengths, step=Step.SIXTEENTH, sides=sides, has_sheets=has_sheets).values()
    assert package.text == text
