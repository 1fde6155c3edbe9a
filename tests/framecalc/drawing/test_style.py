"""The table of looks: two widths of line, letters that can be read, and a stylesheet equal to the table."""

from pathlib import Path

import pytest
from svg_reading import LETTER_MM as READ_LETTER_MM

from framecalc.drawing.style import LETTER_MM, LOOKS, PATTERNS, THICK_MM, THIN_MM, Hatch, Role
from framecalc.drawing.stylesheet import css

STYLESHEET = Path(__file__).parents[3] / "static" / "drawing.css"
CSS_PX_MM = 25.4 / 96
GROUND = "#fffdf7"


def luminance(colour: str) -> float:
    """Relative luminance. Source: WCAG 2.2, from memory, not re-read."""
    parts = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_the_stylesheet_is_made_from_the_table() -> None:
    assert STYLESHEET.read_text("utf-8") == css()


def test_every_role_has_a_look_and_every_hatch_a_pattern() -> None:
    assert set(LOOKS) == set(Role)
    assert set(PATTERNS) == set(Hatch)


def test_thick_lines_are_twice_as_wide_as_thin_ones() -> None:
    """ISO 128-2: line widths stand 2 to 1 (from memory, not re-read)."""
    assert THICK_MM == 2 * THIN_MM
    assert {LOOKS[role].width_mm for role in (Role.OUTLINE, Role.MITRE)} == {THICK_MM}
    assert {LOOKS[role].width_mm for role in (Role.HIDDEN, Role.DIMENSION, Role.LEADER, Role.EDGE)} == {THIN_MM}


def test_hidden_edges_are_dashed_and_seen_edges_full() -> None:
    assert LOOKS[Role.HIDDEN].dash_mm
    assert not LOOKS[Role.OUTLINE].dash_mm


def test_letters_are_12_pixels_high_on_a_panel_of_300_pixels() -> None:
    assert LETTER_MM == READ_LETTER_MM
    assert LETTER_MM * 300 / 80 >= 12
    assert LETTER_MM / CSS_PX_MM >= 12


GROUNDS = {
    Role.LETTER: (None, Role.WOOD),
    Role.STRONG: (None, Role.WOOD, Role.TAG),
    Role.FAINT: (None, Role.WOOD, Role.PICTURE),
    Role.GIVEN_LETTER: (None, Role.MAT, Role.PICTURE),
}


@pytest.mark.parametrize(("ink", "ground"), [(ink, ground) for ink, grounds in GROUNDS.items() for ground in grounds])
def test_letters_stand_out_from_every_ground_they_stand_on(ink: Role, ground: Role | None) -> None:
    """4.5 to 1 for text. Source: WCAG 2.2, 1.4.3, from memory, not re-read."""
    letters, under = LOOKS[ink].fill, LOOKS[ground].fill if ground else GROUND
    assert letters is not None
    assert under is not None
    assert contrast(letters, under) >= 4.5


def test_hatches_of_two_layers_differ_in_more_than_colour() -> None:
    marks = [(pattern.path, pattern.across_mm, pattern.turned_deg) for pattern in PATTERNS.values()]
    assert len(set(marks)) == len(marks)
