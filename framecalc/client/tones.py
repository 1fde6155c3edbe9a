"""The colour of a member on the screen: the tone of its wood, and how light falls on its profile.

A *tone* is the colour of planed heartwood under a clear finish, as a screen shows it: a help for the eye, no promise.
*Stripes* are the parts of a profile that look to the front, each with its slope; light falls from the upper left, so
the four sides of a frame differ. A stripe's *shade* is its brightness as a part of that of a level face.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from math import sqrt

from framecalc.geometry.outline import Outline, Point, flatten
from framecalc.tables.reading import read_rows
from framecalc.units import TOLERANCE_MM

USUAL_TONE = "#d8b88a"
"""A wood that the table does not know. Common practice, no source."""

LIGHT = (-0.42, 0.58, 0.70)
"""Where the light comes from: across, up and from the front; length 1 to a hundredth. Common practice, no source."""

AMBIENT_RATIO = 0.5
"""How much of the light comes from everywhere. Common practice, no source."""

SAGITTA_MM = 0.05
"""How finely an arc is cut into stripes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stripe:
    """A part of the face between two places in from the outer side; its rise per millimetre toward the picture."""

    from_mm: float
    to_mm: float
    slope_ratio: float


def wood_tone(species: str) -> str:
    """The colour of a wood by its name: the entry with the longest name found in it.

    Source: tables/wood_tones.csv, common practice, no source: wood differs from board to board.

    >>> wood_tone("Quartersawn white oak"), wood_tone("something else") == USUAL_TONE
    ('#c8ab7b', True)
    """
    words = species.casefold().replace(",", " ").split()
    said = f" {' '.join(words)} {' '.join(reversed(words))} "
    found = [word for word in _tones() if f" {word} " in said]
    return _tones()[max(found, key=len)] if found else USUAL_TONE


def stripes(outline: Outline, *, face_width_mm: float) -> tuple[Stripe, ...]:
    """The parts of an outline that look to the front, from the outer side to the picture.

    Args:
        face_width_mm: where the member ends, as seen from the front [mm].
    Source: derived.

    >>> from framecalc.geometry.outline import join
    >>> bevelled = Outline(segments=join([(0, 0), (30, 0), (30, 14), (0, 20), (0, 0)]))
    >>> stripes(bevelled, face_width_mm=30)
    (Stripe(from_mm=0, to_mm=30, slope_ratio=-0.2),)
    """
    return tuple(sorted(_stripes(outline, face_width_mm), key=lambda stripe: stripe.from_mm))


def shade_ratio(stripe: Stripe, *, inward: Point) -> float:
    """The brightness of a stripe to that of a level face: what is ambient, and the rest by the cosine to the light.

    Args:
        inward: the direction from the outer side of the member to the picture, across and up, 1 long.
    Source: Lambert's cosine law.

    >>> level = Stripe(from_mm=0, to_mm=30, slope_ratio=0)
    >>> [round(shade_ratio(level, inward=inward), 6) for inward in ((0, -1), (-1, 0), (0.6, 0.8))]
    [1.0, 1.0, 1.0]
    """
    slope = stripe.slope_ratio
    facing = LIGHT[2] - slope * (inward[0] * LIGHT[0] + inward[1] * LIGHT[1])
    lit = max(0.0, facing / sqrt(1 + slope**2)) / LIGHT[2]
    return AMBIENT_RATIO + (1 - AMBIENT_RATIO) * lit


def shaded(colour: str, *, by_ratio: float) -> str:
    """A colour in more or less light: darker toward black, brighter toward white.

    Args:
        colour: six hexadecimal digits after a #.
        by_ratio: brightness to what it was, ≥ 0.
    Source: derived.

    >>> shaded("#808080", by_ratio=0.5), shaded("#808080", by_ratio=1.5), shaded("#808080", by_ratio=9)
    ('#404040', '#c0c0c0', '#ffffff')
    """
    parts = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    bright = min(by_ratio - 1, 1.0)
    lit = (part * by_ratio if by_ratio <= 1 else part + (255 - part) * bright for part in parts)
    return "#" + "".join(f"{round(part):02x}" for part in lit)


@cache
def _tones() -> dict[str, str]:
    return {row["word"]: row["colour"] for row in read_rows("wood_tones.csv")}


def _stripes(outline: Outline, face_width_mm: float) -> Iterator[Stripe]:
    """Counter-clockwise, whatever looks to the front runs from the picture outward."""
    points = flatten(outline, tolerance_mm=SAGITTA_MM)
    for (right, high), (left, low) in pairwise((*points, points[0])):
        to_mm = min(right, face_width_mm)
        if to_mm - left > TOLERANCE_MM:
            yield Stripe(from_mm=left, to_mm=to_mm, slope_ratio=(high - low) / (right - left))
