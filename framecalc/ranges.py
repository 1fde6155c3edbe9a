"""Refusing quantities that cannot be: one sentence each, which names the argument, its value and what would do.

The words and the unit of the sentence are read from the argument's own name: `face_width_mm` is "face width", in mm.
"""

from math import isfinite

from framecalc.errors import OutOfRange

_UNIT_WORDS = {"mm": " mm", "deg": "°", "pct": " %", "c": " °C", "n": " N", "mm2": " mm²", "ratio": ""}


def require_positive(**quantities: float) -> None:
    """Refuse what is not more than nothing.

    Raises:
        OutOfRange: a quantity is zero, negative or not finite; `field` is its name.
    Source: derived.

    >>> require_positive(face_width_mm=30)
    """
    for name, value in quantities.items():
        if not isfinite(value) or value <= 0:
            raise OutOfRange(f"{_written(name, value)} cannot be: more than {_unit(name, 0)} would do", field=name)


def require_not_negative(**quantities: float) -> None:
    """Refuse what is less than nothing.

    Raises:
        OutOfRange: a quantity is negative or not finite; `field` is its name.
    Source: derived.

    >>> require_not_negative(kerf_mm=0)
    """
    for name, value in quantities.items():
        if not isfinite(value) or value < 0:
            raise OutOfRange(f"{_written(name, value)} cannot be: {_unit(name, 0)} or more would do", field=name)


def require_between(least: float, most: float, **quantities: float) -> None:
    """Refuse what lies outside a range; its ends belong to it.

    Raises:
        OutOfRange: a quantity lies outside or is not finite; `field` is its name.
    Source: derived.

    >>> require_between(0, 90, slope_deg=38)
    """
    for name, value in quantities.items():
        if not isfinite(value) or not least <= value <= most:
            range_words = f"{_unit(name, least)} to {_unit(name, most)}"
            raise OutOfRange(f"{_written(name, value)} cannot be: {range_words} would do", field=name)


def _written(name: str, value: float) -> str:
    words = name.rsplit("_", 1)[0] if name.rsplit("_", 1)[-1] in _UNIT_WORDS else name
    return f"a {words.replace('_', ' ')} of {_unit(name, value)}"


def _unit(name: str, value: float) -> str:
    return f"{value:g}{_UNIT_WORDS.get(name.rsplit('_', 1)[-1], '')}"
