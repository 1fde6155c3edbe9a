"""How much room letters need, whatever face the reader's machine finds.

Faces differ, so a width is an upper bound: the widest of the faces in `style.FONTS` and of what stands in for them
(measured on DejaVu Sans, the widest of them), letter by letter in four classes.
"""

from functools import lru_cache

from framecalc.drawing.style import LETTER_MM

_NARROW, _WIDE = frozenset(" .,:;'’|!()[]/-ijlIftr·"), frozenset("mwMW@%—…−×")
_RATIOS = {"narrow": 0.42, "usual": 0.65, "capital": 0.8, "wide": 1.0}


@lru_cache(maxsize=2048)
def text_across_mm(text: str, *, size_mm: float = LETTER_MM) -> float:
    """An upper bound of the width of a text on one line.

    >>> round(text_across_mm("13 1/8"), 2)
    12.04
    """
    return sum(_RATIOS[_breadth(letter)] for letter in text) * size_mm


def shortened(text: str, *, to_mm: float, size_mm: float = LETTER_MM) -> str:
    """The text, cut with an ellipsis where it needs more room than there is.

    >>> shortened("five prints for a wall", to_mm=30)
    'five prints fo…'
    """
    if text_across_mm(text, size_mm=size_mm) <= to_mm:
        return text
    kept = text
    while kept and text_across_mm(kept + "…", size_mm=size_mm) > to_mm:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def wrapped(text: str, *, to_mm: float, lines: int, size_mm: float = LETTER_MM) -> tuple[str, ...]:
    """The text on at most so many lines, broken between words; what still finds no room is cut with an ellipsis.

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


def _breadth(letter: str) -> str:
    if letter in _NARROW:
        return "narrow"
    if letter in _WIDE or ord(letter) > 0x2FF:
        return "wide"
    return "capital" if letter.isupper() else "usual"
