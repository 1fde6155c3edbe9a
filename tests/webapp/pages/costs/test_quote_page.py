"""How large a quote is lettered, so that one sheet is enough and nothing is left out."""

import pytest

from webapp.pages.costs.quote import SIZES_PT, QuotedFrame, fit_of

FRAME = QuotedFrame(
    name="Linocut", says="white oak, oil, ivory, glass", size="433 × 365 mm", count="5", each="$90.00", amount="$450.00"
)


def test_a_small_job_has_large_letters() -> None:
    assert fit_of([FRAME] * 3, sums=4, notes=["Ready in three weeks."]) == 0


@pytest.mark.parametrize("more", [1, 5, 20])
def test_more_frames_never_have_larger_letters(more: int) -> None:
    for frames in range(1, 60):
        assert fit_of([FRAME] * (frames + more), sums=4, notes=[]) >= fit_of([FRAME] * frames, sums=4, notes=[])


def test_a_longer_note_never_has_larger_letters() -> None:
    fits = [fit_of([FRAME] * 10, sums=4, notes=["word " * length]) for length in range(0, 401, 40)]
    assert fits == sorted(fits) and fits[-1] > fits[0]


def test_lines_of_a_note_count_however_short_they_are() -> None:
    assert fit_of([FRAME], sums=4, notes=["\n" * 60]) > 0


def test_what_no_sheet_holds_is_said() -> None:
    frames = [FRAME] * 60
    assert fit_of(frames, sums=4, notes=["word " * 100]) < len(SIZES_PT)
    assert fit_of(frames, sums=4, notes=["\n" * 1999, "W" * 2000]) == len(SIZES_PT)
