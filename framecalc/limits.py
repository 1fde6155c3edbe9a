"""Range checks for arguments: each error is one sentence with the argument, its value and the range.

The words and the unit of the sentence come from the argument's name: `face_width_mm` is "face width", a length, which
`plan` may write in the project's unit; `slope_deg` is "slope", in degrees.
"""

from math import isfinite

from framecalc.errors import OutOfRange

_MEASURES = {"c": "°C", "n": "N", "mpa": "MPa"}
_UNIT_WORDS = {"deg": "°", "pct": "%", "c": " °C", "n": " N", "mpa": " MPa", "mm2": " mm²", "ratio": "", "px": " px"}
_LENGTH = "mm"


def require_positive(**quantities: float) -> None:
    """Refuse quantities that are not above zero.

    Raises:
        OutOfRange: a quantity is zero, negative or not finite; `field` is its name.
    Source: derived.

    >>> require_positive(face_width_mm=30)
    """
    for name, value in quantities.items():
        if not isfinite(value) or value <= 0:
            raise _refusal(name, value, "more than {least}", least=0)


def require_not_negative(**quantities: float) -> None:
    """Refuse quantities below zero.

    Raises:
        OutOfRange: a quantity is negative or not finite; `field` is its name.
    Source: derived.

    >>> require_not_negative(kerf_mm=0)
    """
    for name, value in quantities.items():
        if not isfinite(value) or value < 0:
            raise _refusal(name, value, "{least} or more", least=0)


def require_between(least: float, most: float, /, **quantities: float) -> None:
    """Refuse quantities outside a range, which includes its ends.

    Raises:
        OutOfRange: a quantity lies outside or is not finite; `field` is its name.
    Source: derived.

    >>> require_between(0, 90, slope_deg=38)
    """
    for name, value in quantities.items():
        if not isfinite(value) or not least <= value <= most:
            raise _refusal(name, value, "{least} to {most}", least=least, most=most)


def _refusal(name: str, value: float, advice: str, **limits: float) -> OutOfRange:
    """Write the error; finite lengths and measures stay in braces, to be written in the project's unit."""
    words, _, unit = name.rpartition("_")
    known = unit == _LENGTH or unit in _UNIT_WORDS
    wording = f"Enter {advice} for the {(words if known else name).replace('_', ' ')}, not {{value}}."
    numbers = {"value": value, **limits}
    if unit == _LENGTH and isfinite(value):
        return OutOfRange(wording, field=name, lengths=numbers)
    if unit in _MEASURES and isfinite(value):
        return OutOfRange(
            wording, field=name, measures={key: (number, _MEASURES[unit]) for key, number in numbers.items()}
        )
    sign = f" {_LENGTH}" if unit == _LENGTH else _UNIT_WORDS.get(unit, "")
    return OutOfRange(wording.format_map({key: f"{number:g}{sign}" for key, number in numbers.items()}), field=name)
