"""The room that letters are given."""

import pytest

from framecalc.drawing.lettering import shortened, text_across_mm, wrapped


@pytest.mark.parametrize("text", ["", "a", "outside 34 15/16", "clearance ½ × 3/8", "WWWW"])
@pytest.mark.parametrize("room_mm", [0.0, 4.0, 12.0, 100.0])
def test_a_shortened_text_fits_unless_there_is_no_room_for_a_letter(text: str, room_mm: float) -> None:
    short = shortened(text, to_mm=room_mm)
    assert text_across_mm(short) <= room_mm or short == "…"
    assert short == text or short.endswith("…")


def test_a_longer_text_never_needs_less_room() -> None:
    widths = [text_across_mm("13 15/16 in"[:count]) for count in range(12)]
    assert widths == sorted(widths)


@pytest.mark.parametrize("text", ["Soda-lime float glass, 2 mm", "word", "Unbreakablelongname of it", "a b c d e f"])
@pytest.mark.parametrize("room_mm", [6.0, 20.0, 40.0, 200.0])
@pytest.mark.parametrize("lines", [1, 2, 3])
def test_a_wrapped_text_fits_and_loses_nothing_where_there_is_room(text: str, room_mm: float, lines: int) -> None:
    wrapping = wrapped(text, to_mm=room_mm, lines=lines)
    assert len(wrapping) <= lines
    assert all(text_across_mm(line) <= room_mm for line in wrapping)
    assert " ".join(wrapping) == text or any("…" in line for line in wrapping)
