"""Figures: each size written once, in the direction that a mistake would cost least."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.findings import Rounding
from framecalc.plan.figures import KINDS, write_figures
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
