"""Tones: the colour of a wood on the screen, and colours in more or less light.

A *tone* is the colour of planed heartwood under a clear finish, as a screen shows it: a help for the eye, no promise.
"""

from collections.abc import Iterable
from functools import cache, lru_cache

from framecalc.tables.reading import read_rows

USUAL_TONE = "#d8b88a"
"""A wood that the table does not know. Common practice, no source."""

LATE_RATIO, LATE_SATURATION, LATE_WARM, LATE_WARM_RATIO = 0.66, 1.12, "#7d4a20", 0.3
"""The tone of late wood: how bright and how strong in colour beside the wood's tone, and which warmer tone it leans
to. Our own, set by eye, no source."""


@lru_cache(maxsize=256)
def wood_tone(species: str) -> str:
    """The colour of a wood by its name: the entry with the longest name found in it.

    Source: tables/wood_tones.csv, common practice, no source: wood differs from board to board.

    >>> wood_tone("Quartersawn white oak"), wood_tone("something else") == USUAL_TONE
    ('#cdac80', True)
    """
    words = species.casefold().replace(",", " ").split()
    said = f" {' '.join(words)} {' '.join(reversed(words))} "
    found = [word for word in _tones() if f" {word} " in said]
    return _tones()[max(found, key=len)] if found else USUAL_TONE


def shaded(colour: str, *, by_ratio: float) -> str:
    """A colour in more or less light: darker toward black, brighter toward white.

    Args:
        colour: six hexadecimal digits after a #.
        by_ratio: brightness to what it was, ≥ 0.
    Source: derived.

    >>> shaded("#808080", by_ratio=0.5), shaded("#808080", by_ratio=1.5), shaded("#808080", by_ratio=9)
    ('#404040', '#c0c0c0', '#ffffff')
    """
    bright = min(by_ratio - 1, 1.0)
    return _written(part * by_ratio if by_ratio <= 1 else part + (255 - part) * bright for part in _parts(colour))


def mixed(colour: str, other: str, *, by_ratio: float) -> str:
    """A colour on its way to another one: 0 is itself, 1 the other; past either end it goes on as far as there is room.

    Source: derived.

    >>> mixed("#000000", "#ffffff", by_ratio=0.5), mixed("#808080", "#404040", by_ratio=-1)
    ('#808080', '#c0c0c0')
    """
    return _written(one + (two - one) * by_ratio for one, two in zip(_parts(colour), _parts(other), strict=True))


def saturated(colour: str, *, by_ratio: float) -> str:
    """A colour stronger or weaker against a grey as bright.

    Source: derived.

    >>> saturated("#806040", by_ratio=0), saturated("#806040", by_ratio=1)
    ('#606060', '#806040')
    """
    parts = _parts(colour)
    grey = sum(parts) / 3
    return _written(grey + (part - grey) * by_ratio for part in parts)


def early_and_late(tone: str, *, late_share_ratio: float) -> tuple[str, str]:
    """The tones of early and late wood whose mean over a face is the wood's tone.

    ``tone = early · (1 − share) + late · share``

    Args:
        late_share_ratio: how much of the late tone there is in the mean, 0 to < 1.
    Source: derived; how dark late wood is: our own, set by eye, no source.

    >>> early_and_late("#cdac80", late_share_ratio=0)[0]
    '#cdac80'
    """
    late = mixed(
        saturated(shaded(tone, by_ratio=LATE_RATIO), by_ratio=LATE_SATURATION), _warm(tone), by_ratio=LATE_WARM_RATIO
    )
    return mixed(tone, late, by_ratio=-late_share_ratio / (1 - late_share_ratio)), late


def is_dark(colour: str) -> bool:
    """Whether white letters on a colour have more contrast than black ones.

    Source: W3C, Web Content Accessibility Guidelines 2.1, relative luminance and contrast ratio, from memory.

    >>> is_dark("#d9d5cb"), is_dark("#4a5560")
    (False, True)
    """
    red, green, blue = (_linear(part / 255) for part in _parts(colour))
    luminance = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    return (luminance + 0.05) ** 2 < 1.05 * 0.05


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4)


def _warm(tone: str) -> str:
    """The warmer tone, as dark as late wood."""
    return shaded(LATE_WARM, by_ratio=LATE_RATIO * sum(_parts(tone)) / sum(_parts(LATE_WARM)))


@cache
def _tones() -> dict[str, str]:
    return {row["word"]: row["colour"] for row in read_rows("wood_tones.csv")}


def _parts(colour: str) -> list[int]:
    return [int(colour[at : at + 2], 16) for at in (1, 3, 5)]


def _written(parts: Iterable[float]) -> str:
    return "#" + "".join(f"{round(min(max(part, 0), 255)):02x}" for part in parts)
