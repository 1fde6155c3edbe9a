"""Tones and shades: the table is whole, light falls as it must, stripes cover the face."""

from math import isclose

import pytest

from framecalc.client.tones import LIGHT, USUAL_TONE, Stripe, shade_ratio, shaded, stripes, wood_tone
from framecalc.section.profile import Edge, EdgeShape, FaceShape
from framecalc.section.rabbeted import Section, milled_section
from framecalc.tables.reading import read_rows

TONES = {row["word"]: row["colour"] for row in read_rows("wood_tones.csv")}

INWARD = {"top": (0.0, -1.0), "right": (-1.0, 0.0), "bottom": (0.0, 1.0), "left": (1.0, 0.0)}
"""From the outer side of each member of a rectangle to the picture."""


def member(
    face: FaceShape = FaceShape.FLAT, sight: EdgeShape = EdgeShape.SQUARE, back: EdgeShape = EdgeShape.SQUARE
) -> Section:
    return milled_section(
        face_width_mm=30,
        thickness_mm=20,
        rabbet_width_mm=6,
        rabbet_depth_mm=12,
        sight_edge=Edge(shape=sight, size_mm=3),
        back_edge=Edge(shape=back, size_mm=3),
        face=face,
        face_drop_mm=2,
    )


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


@pytest.mark.parametrize("face", [FaceShape.FLAT, FaceShape.TOWARD, FaceShape.AWAY])
@pytest.mark.parametrize("sight", EdgeShape)
@pytest.mark.parametrize("back", EdgeShape)
def test_stripes_cover_the_face_without_gap_or_overlap(face: FaceShape, sight: EdgeShape, back: EdgeShape) -> None:
    found = stripes(member(face, sight, back).outline, face_width_mm=30)
    ends = [end for stripe in found for end in (stripe.from_mm, stripe.to_mm)]
    assert ends[0] == pytest.approx(0, abs=1e-6) and ends[-1] == pytest.approx(30, abs=1e-6)
    assert ends[1:-1:2] == pytest.approx(ends[2:-1:2], abs=1e-6)


def test_what_faces_the_light_is_brighter_and_what_turns_away_is_darker() -> None:
    toward = Stripe(from_mm=0, to_mm=30, slope_ratio=-0.5)
    shades = {side: shade_ratio(toward, inward=inward) for side, inward in INWARD.items()}
    assert shades["bottom"] > 1 > shades["top"]
    assert shades["right"] > 1 > shades["left"]
    away = Stripe(from_mm=0, to_mm=30, slope_ratio=0.5)
    assert shade_ratio(away, inward=INWARD["top"]) == pytest.approx(shades["bottom"])


def test_the_light_has_length_one() -> None:
    assert isclose(sum(part**2 for part in LIGHT), 1, abs_tol=0.01)


def test_no_shade_is_darker_than_what_comes_from_everywhere() -> None:
    steep = Stripe(from_mm=0, to_mm=1, slope_ratio=50)
    assert all(0.5 <= shade_ratio(steep, inward=inward) <= 1.5 for inward in INWARD.values())


@pytest.mark.parametrize("colour", ["#000000", "#ffffff", "#12ab9f"])
def test_one_times_the_light_changes_no_colour(colour: str) -> None:
    assert shaded(colour, by_ratio=1) == colour
    assert shaded(colour, by_ratio=0) == "#000000"
