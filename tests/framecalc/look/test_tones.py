"""Tones: the table is whole, and the tones of early and late wood have the wood's tone as their mean."""

import pytest

from framecalc.look.figure import figure_of
from framecalc.look.finish import BARE
from framecalc.look.grain import mean_tint_ratio
from framecalc.look.tones import USUAL_TONE, _linear, early_and_late, is_dark, saturated, shaded, wood_tone
from framecalc.tables.reading import read_rows

TONES = {row["word"]: row["colour"] for row in read_rows("wood_tones.csv")}


def parts(colour: str) -> list[int]:
    return [int(colour[at : at + 2], 16) for at in (1, 3, 5)]


@pytest.mark.parametrize("word", TONES)
def test_every_wood_has_its_own_tone_in_any_spelling(word: str) -> None:
    assert wood_tone(word.upper()) == wood_tone(f"{word}, planed") == TONES[word]
    assert len(TONES[word]) == 7 and int(TONES[word][1:], 16) >= 0


@pytest.mark.parametrize(
    ("species", "word"),
    [("oak, white", "white oak"), ("hard maple", "maple"), ("black walnut", "walnut"), ("Douglas fir", "douglas fir")],
)
def test_a_name_is_found_in_the_trades_words(species: str, word: str) -> None:
    assert wood_tone(species) == TONES[word]


@pytest.mark.parametrize("species", ["", "<script>", "🌳", "whitewash"])
def test_an_unknown_wood_has_the_usual_tone(species: str) -> None:
    assert wood_tone(species) == USUAL_TONE


@pytest.mark.parametrize("colour", ["#000000", "#ffffff", "#12ab9f"])
def test_one_times_the_light_changes_no_colour(colour: str) -> None:
    assert shaded(colour, by_ratio=1) == colour
    assert shaded(colour, by_ratio=0) == "#000000"


def test_black_is_white_in_twice_the_light_and_not_before() -> None:
    assert (shaded("#000000", by_ratio=2), shaded("#000000", by_ratio=1.997)) == ("#ffffff", "#fefefe")


def test_where_the_curve_of_a_screen_begins_it_is_in_one_piece() -> None:
    """Source: IEC 61966-2-1, sRGB: a straight part of slope 1/12.92 and a power of 2.4 meet at 0.04045; from memory."""
    assert _linear(0.04045) == pytest.approx(_linear(0.0404501), abs=1e-6)
    assert (_linear(0), _linear(1)) == (0, pytest.approx(1))


@pytest.mark.parametrize("word", TONES)
def test_early_and_late_wood_together_have_the_tone_of_the_table(word: str) -> None:
    share = mean_tint_ratio(figure_of(word))
    early, late = (parts(tone) for tone in early_and_late(TONES[word], late_share_ratio=share))
    mean = [one * (1 - share) + other * share for one, other in zip(early, late, strict=True)]
    assert mean == pytest.approx(parts(TONES[word]), abs=1)
    assert sum(late) < sum(early)


@pytest.mark.parametrize("row", list(read_rows("wood_figure.csv")), ids=lambda row: row["word"])
def test_every_wood_has_its_own_figure(row: dict[str, str]) -> None:
    """The fir is in the Douglas fir: the longer name is the one that is meant."""
    found = figure_of(f"{row['word'].upper()}, planed")
    assert (found.ring_mm, found.contrast_ratio) == (float(row["ring_mm"]), float(row["contrast_ratio"]))


@pytest.mark.parametrize(
    ("colour", "on_white"),
    [("#0000ff", 8.59), ("#ff0000", 4.00), ("#00ff00", 1.37), ("#757575", 4.61), ("#767676", 4.54)],
)
def test_white_letters_are_for_what_has_more_contrast_with_white_than_with_black(colour: str, on_white: float) -> None:
    """Contrast with white and with black multiply to 21. Source: W3C, WCAG 2.1, contrast ratio; from memory."""
    assert is_dark(colour) is (on_white > 21 / on_white)


def test_wood_without_a_finish_keeps_its_tone() -> None:
    assert (BARE.deeper_ratio, BARE.saturation_ratio) == (0, 1) and not BARE.hides
    assert saturated("#b98a4f", by_ratio=BARE.saturation_ratio) == "#b98a4f"


@pytest.mark.parametrize("colour", ["#000000", "#0a0a0a", "#000a00", "#0a0000", "#00000a"])
def test_what_is_almost_black_is_dark(colour: str) -> None:
    assert is_dark(colour)


@pytest.mark.parametrize("word", TONES)
def test_late_wood_is_darker_than_the_wood_and_far_from_black(word: str) -> None:
    _, late = early_and_late(TONES[word], late_share_ratio=0.2)
    wood, dark = parts(TONES[word]), parts(late)
    assert 0.5 < sum(dark) / sum(wood) < 0.8
