"""Finish: how many coats of what, when the next may go on, and when the package may be closed in.

A finish is *dry* when the next coat may go on, and *cured* when it gives off no more smell and solvent: only then is
the package closed in. Cold and damp air slow both. The table is for 20 °C and half damp air; the tin comes first.
"""

from enum import StrEnum
from itertools import pairwise
from math import ceil

from framecalc.records import Record


class Finish(StrEnum):
    """The kinds of finish that frames get."""

    NONE = "none"
    OIL = "drying oil"
    HARD_WAX_OIL = "hardwax oil"
    WIPING_VARNISH = "wiping varnish"
    SHELLAC = "shellac"
    WATERBORNE = "waterborne lacquer"
    MILK_PAINT = "milk paint"
    WAX = "paste wax"


_TOLERANCE = 1e-9
"""By so much a product of ratios may be off a whole number."""


class FinishUsual(Record):
    """What a finish usually asks for: coats, hours to the next, days until it is cured, the grits before it.

    `between` is the grit between coats, 0 for none; `oily`: its rags can catch fire by themselves.
    """

    coats: int
    recoat_h: float
    cure_days: int
    grits: tuple[int, ...]
    between: int
    oily: bool


FINISHES = {
    Finish.NONE: FinishUsual(coats=0, recoat_h=0, cure_days=0, grits=(120, 180), between=0, oily=False),
    Finish.OIL: FinishUsual(coats=3, recoat_h=24, cure_days=21, grits=(120, 180, 220), between=320, oily=True),
    Finish.HARD_WAX_OIL: FinishUsual(coats=2, recoat_h=12, cure_days=14, grits=(120, 150), between=0, oily=True),
    Finish.WIPING_VARNISH: FinishUsual(
        coats=3, recoat_h=12, cure_days=14, grits=(120, 180, 220), between=320, oily=True
    ),
    Finish.SHELLAC: FinishUsual(coats=3, recoat_h=2, cure_days=7, grits=(120, 180, 220, 320), between=400, oily=False),
    Finish.WATERBORNE: FinishUsual(coats=3, recoat_h=2, cure_days=7, grits=(120, 180, 220), between=320, oily=False),
    Finish.MILK_PAINT: FinishUsual(coats=2, recoat_h=4, cure_days=7, grits=(120, 180), between=220, oily=False),
    Finish.WAX: FinishUsual(coats=2, recoat_h=4, cure_days=3, grits=(120, 180, 220, 320), between=0, oily=False),
}
"""At 20 °C and 50 %. Source: common practice, no source; what stands on the tin comes first."""

BY_TEMPERATURE = ((5.0, 2.5), (10.0, 1.7), (15.0, 1.3), (20.0, 1.0), (25.0, 0.9), (35.0, 0.8))
BY_HUMIDITY = ((50.0, 1.0), (65.0, 1.3), (80.0, 1.8), (100.0, 3.0))
"""By what times are multiplied in colder and damper air. Source: common practice, no source."""

DAMP_PCT, COLD_C = 70.0, 10.0
"""Above and below this most finishes blush, or do not form a film. Source: common practice, no source."""

RAGS = "Rags catch fire by themselves: spread them flat outdoors, or drown them in water in a lidded tin. Every time."
AIR = "Open a window, wear a filter for vapours, no flame and no sparks until it is dry."
PLAIN_AIR = "Fresh air, and no dust in it."
DUST = "Sanding dust of any wood harms the lungs: extract it, and wear a mask."
"""Source: common practice, no source; the tin's own sheet comes before it."""

SENSITISING = (
    (("oak", "beech"), "Dust of oak and beech is known to cause cancer of the nose: never sand it without a mask."),
    (("walnut",), "Walnut dust may inflame skin and eyes."),
    (("cedar",), "Cedar dust may cause asthma."),
    (("mahogany", "sapele", "utile"), "Mahogany dust may inflame skin and lungs."),
    (("teak", "iroko", "padauk", "wenge"), "This dust makes many people allergic: skin covered, mask on."),
    (("rosewood", "cocobolo", "ebony"), "Rosewoods and ebony make many people allergic: skin covered, mask on."),
)
"""Woods by what their names hold. Source: common practice, no source."""


class FinishTimes(Record):
    """Coats, and the days that they and their cure take; a day counts from that of the first coat, as 0."""

    coats: int
    recoat_h: float
    coat_days: tuple[int, ...]
    cure_days: int

    @property
    def closing_day(self) -> int:
        """The first day on which the package may be closed in."""
        return (self.coat_days[-1] if self.coat_days else 0) + self.cure_days


def finish_times(
    finish: FinishUsual,
    *,
    temperature_c: float,
    humidity_pct: float,
    day_h: float,
    coats: int | None = None,
    recoat_h: float | None = None,
    cure_days: int | None = None,
) -> FinishTimes:
    """When each coat goes on, and when the package may be closed in; what the tin says comes before the table.

    Args:
        finish: what it usually asks for, or what this shop has found.
        day_h: the hours of a working day [h], > 0.
        coats, recoat_h, cure_days: from the tin, at this temperature; None as usual.
    Source: common practice, no source.

    >>> found = finish_times(FINISHES[Finish.SHELLAC], temperature_c=20, humidity_pct=50, day_h=9)
    >>> found.coat_days, found.closing_day
    ((0, 0, 0), 7)
    >>> finish_times(FINISHES[Finish.OIL], temperature_c=20, humidity_pct=50, day_h=9).coat_days
    (0, 1, 2)
    """
    slower_ratio = _ratio(BY_TEMPERATURE, temperature_c) * _ratio(BY_HUMIDITY, humidity_pct)
    between_h = finish.recoat_h * slower_ratio if recoat_h is None else recoat_h
    return FinishTimes(
        coats=finish.coats if coats is None else coats,
        recoat_h=between_h,
        coat_days=tuple(_coat_days(finish.coats if coats is None else coats, between_h, day_h)),
        cure_days=ceil(finish.cure_days * slower_ratio - _TOLERANCE) if cure_days is None else cure_days,
    )


def _coat_days(coats: int, recoat_h: float, day_h: float) -> list[int]:
    """The day of each coat: the next one as soon as it may within the hours, else on a later morning."""
    days, at_h = [], 0.0
    for _ in range(coats):
        day = int(at_h // 24)
        if at_h - 24 * day > day_h:
            day, at_h = day + 1, 24.0 * (day + 1)
        days.append(day)
        at_h += recoat_h
    return days


def _ratio(rows: tuple[tuple[float, float], ...], value: float) -> float:
    at = min(max(value, rows[0][0]), rows[-1][0])
    low, high = next(pair for pair in pairwise(rows) if at <= pair[1][0])
    return low[1] + (at - low[0]) / (high[0] - low[0]) * (high[1] - low[1])


def dust_notes(species: str) -> tuple[str, ...]:
    """What the dust of a wood does, by its name.

    Source: common practice, no source.

    >>> dust_notes("Walnut, black"), dust_notes("pine")
    (('Walnut dust may inflame skin and eyes.',), ())
    """
    words = set(species.lower().replace(",", " ").replace("-", " ").split())
    return tuple(says for names, says in SENSITISING if words & set(names))
