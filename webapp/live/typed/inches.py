"""Inches that were typed under millimetres: a bare number that is hardly meant in mm is asked about, never changed."""

import re
from collections.abc import Mapping
from functools import lru_cache

from framecalc.records import replace
from framecalc.units import Length, Unit
from webapp.live.typed.forms import Typed
from webapp.live.typed.texts import without_unit

SMALL_MM: Mapping[str, float] = {
    r"frames\.\w+\.(artwork|known|start)\.\w+": 50.0,
    r"timber\.stock\.\w+\.length": 200.0,
    r"timber\.stock\.\w+\.width": 20.0,
    r"sheets\.stock\.\w+\.(across|up)": 100.0,
}
"""What is hardly so small in millimetres, and often so many inches: artworks, sticks, boards, sheets. Ours."""

MOST_IN = 200.0
"""No more inches than this are meant: a board of 5 m."""

_BARE = re.compile(r"[\d\s.,/⁄½¼¾⅛⅜⅝⅞-]+")
_FRACTION = re.compile(r"[/⁄½¼¾⅛⅜⅝⅞]")


@lru_cache(maxsize=4096)
def inches_instead(path: str, length: Length, *, unit: Unit) -> str:
    """The same number in inches, where a bare number under millimetres is hardly meant as such; else blank.

    A fraction is of an inch: no rule is divided so in millimetres.
    """
    text = without_unit(length.text, unit)
    if unit is not Unit.MM or not _BARE.fullmatch(text) or not 0 < length.mm <= MOST_IN:
        return ""
    small_mm = next((most_mm for pattern, most_mm in SMALL_MM.items() if re.fullmatch(pattern, path)), 0.0)
    return f"{text} in" if _FRACTION.search(text) or length.mm <= small_mm else ""


def with_inches(form: Typed) -> Typed:
    """The form with the field in inches whose offer was pressed, as if it had been typed so."""
    do, _, path = form.do.partition(":")
    if do != "inches" or path not in form.texts:
        return form
    return replace(form, texts={**form.texts, path: f"{form.texts[path].strip()} in"}, do="save")
