"""The room that letters need, in whatever typeface the reader's machine finds.

Pages bring their own font, a saved drawing cannot. One layout serves both: each letter is given the room it takes in
the widest of that font and the usual sans faces (`tables/letter_widths.csv`).
"""

from functools import cache, lru_cache

from framecalc.drawing.style import LETTER_MM
from framecalc.tables.reading import LetterWidth, letter_widths

_UNMEASURED = LetterWidth(letter="", regular=1.0, bold=1.1)
"""Room for a letter that the table does not hold. Common practice, no source: those of other scripts fill a square."""


@lru_cache(maxsize=2048)
def text_across_mm(text: str, *, size_mm: float = LETTER_MM, bold: bool = False) -> float:
    """An upper bound of the width of a text on one line.

    >>> round(text_across_mm("13 1/8"), 2), round(text_across_mm("13 1/8", bold=True), 2)
    (11.64, 12.42)
    """
    widths = (_widths().get(letter, _UNMEASURED) for letter in text)
    return sum(width.bold if bold else width.regular for width in widths) * size_mm


def shortened(text: str, *, to_mm: float, size_mm: float = LETTER_MM, bold: bool = False) -> str:
    """The text, cut with an ellipsis if it needs more room than there is.

    >>> shortened("five prints for a wall", to_mm=30)
    'five prints for…'
    """
    if text_across_mm(text, size_mm=size_mm, bold=bold) <= to_mm:
        return text
    kept = text
    while kept and text_across_mm(kept + "…", size_mm=size_mm, bold=bold) > to_mm:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def wrapped(text: str, *, to_mm: float, lines: int, size_mm: float = LETTER_MM) -> tuple[str, ...]:
    """The text on a limited number of lines, broken between words; text that still does not fit ends in an ellipsis.

    >>> wrapped("Soda-lime float glass, 2 mm", to_mm=36, lines=2)
    ('Soda-lime float', 'glass, 2 mm')
    """
    words = text.split()
    if lines == 1 or len(words) < 2 or text_across_mm(text, size_mm=size_mm) <= to_mm:
        return (shortened(text, to_mm=to_mm, size_mm=size_mm),)
    first = 1
    while text_across_mm(" ".join(words[: first + 1]), size_mm=size_mm) <= to_mm:
        first += 1
    line = shortened(" ".join(words[:first]), to_mm=to_mm, size_mm=size_mm)
    return line, *wrapped(" ".join(words[first:]), to_mm=to_mm, lines=lines - 1, size_mm=size_mm)


@cache
def _widths() -> dict[str, LetterWidth]:
    return {width.letter: width for width in letter_widths()}
