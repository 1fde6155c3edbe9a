"""What the seasons do to a mitred corner: month by month, where it opens and how far, and what would reduce it.

A member that dries gets narrower and not shorter, so its mitre is no longer 45°: drying opens the joint at the
*inside*, swelling at the *outside*. The gap given is that of *free movement*, each member at rest with the air and
nothing holding the joint: an upper bound, since glue, splines and finish hold some and wood follows the air slowly.
"""

from collections.abc import Sequence
from enum import StrEnum
from functools import lru_cache
from math import cos, pi, radians, sin

from framecalc.errors import OutOfRange
from framecalc.limits import require_between, require_positive
from framecalc.records import Record
from framecalc.sizes.members import mitre_length_mm
from framecalc.sizes.polygons import half_turn_deg
from framecalc.sizes.shape import Shape
from framecalc.wood.moisture import equilibrium_pct
from framecalc.wood.movement import Coefficients, coefficient_per_pct

MONTHS = 12
COLDEST_MONTH = 1
"""January, north of the equator; half a year later south of it."""

FREE_MOVEMENT = (
    "Free movement, an upper bound: glue, finish and splines hold some of it, and wood follows the air slowly."
)
"""To be said beside every number of this module."""


class OpensAt(StrEnum):
    """Where a joint opens."""

    NOWHERE = "stays closed"
    INSIDE = "opens at the inside"
    OUTSIDE = "opens at the outside"


class Air(Record):
    """The air of a room."""

    temperature_c: float
    humidity_pct: float


class MonthGap(Record):
    """A corner in one month: the wood's moisture, how far the joint opens by free movement, and where."""

    month: int
    moisture_pct: float
    gap_mm: float
    opens: OpensAt


class Year(Record):
    """A corner through a year, month after month, with the worst gap at the inside and at the outside."""

    months: tuple[MonthGap, ...]
    inside_mm: float
    outside_mm: float

    @property
    def worst_mm(self) -> float:
        """The widest gap of the year, wherever it is."""
        return max(self.inside_mm, self.outside_mm)


class Levers(Record):
    """What would reduce the worst gap of the year, each by itself, as the worst gap that it leaves.

    `best_moisture_pct` is the moisture content at which the frame is best put together; `widest_mm` the width of member
    that keeps the worst gap within the gap allowed, the present width where it does; `splined_mm` what is left past a
    spline that holds the mitre as far as it is deep.
    """

    now_mm: float
    quarter_sawn_mm: float
    settled_mm: float
    best_moisture_pct: float
    widest_mm: float
    splined_mm: float


def mitre_gap_mm(face_width_mm: float, *, coefficient_per_pct: float, change_pct: float, sides: int = 4) -> float:
    """Find how far a mitre opens when its members change their moisture content together.

    ``gap = 2·w·C·|ΔM|·sin t``, which is √2·w·C·|ΔM| for a rectangle: the cut turns by ``s·sin t·cos t`` in each member.

    Args:
        face_width_mm: w [mm], > 0.
        coefficient_per_pct: C, per 1 % [fraction], > 0.
        change_pct: ΔM; negative is drying [%], −30 to 30.
        sides: 3 to 24.
    Raises:
        OutOfRange: width, coefficient, change or polygon out of range.
    Source: derived (first order in the strain; compared with the exact angle in the tests).

    >>> round(mitre_gap_mm(60, coefficient_per_pct=0.00248, change_pct=-3), 3)
    0.631
    """
    require_positive(face_width_mm=face_width_mm, coefficient_per_pct=coefficient_per_pct)
    require_between(-30, 30, change_pct=change_pct)
    strain_ratio = coefficient_per_pct * abs(change_pct)
    return 2 * face_width_mm * strain_ratio * sin(radians(half_turn_deg(sides)))


KEPT_ROOMS = 64
"""Rooms and corners whose year is kept: typing a size, which the air does not hang on, follows none anew."""


@lru_cache(maxsize=KEPT_ROOMS)
def two_seasons(winter: Air, summer: Air, *, coldest_month: int = COLDEST_MONTH) -> tuple[Air, ...]:
    """Spread two seasons over the year: winter air in the coldest month, summer air half a year later.

    ``x = (winter + summer)/2 + (winter − summer)/2 · cos(2π(month − coldest)/12)``

    Args:
        winter, summer: the room's air at its driest and moistest season.
        coldest_month: 1 to 12.
    Raises:
        OutOfRange: month out of range.
    Source: common practice, no source (a year runs like a wave).

    >>> year = two_seasons(Air(temperature_c=20, humidity_pct=30), Air(temperature_c=24, humidity_pct=60))
    >>> year[0].humidity_pct, year[6].humidity_pct, round(year[3].humidity_pct)
    (30.0, 60.0, 45)
    """
    require_between(1, MONTHS, coldest_month=coldest_month)
    waves = [cos(2 * pi * (month - coldest_month) / MONTHS) for month in range(1, MONTHS + 1)]
    return tuple(
        Air(
            temperature_c=_between(winter.temperature_c, summer.temperature_c, wave),
            humidity_pct=_between(winter.humidity_pct, summer.humidity_pct, wave),
        )
        for wave in waves
    )


@lru_cache(maxsize=KEPT_ROOMS)
def through_the_year(
    face_width_mm: float, *, coefficient_per_pct: float, assembled_pct: float, air: tuple[Air, ...], sides: int = 4
) -> Year:
    """Follow a corner through the twelve months of a room.

    Args:
        face_width_mm: w [mm], > 0.
        coefficient_per_pct: C, per 1 % [fraction], > 0.
        assembled_pct: moisture content when it was glued, 0 to 30 [%].
        air: of the twelve months, January first.
        sides: 3 to 24.
    Raises:
        OutOfRange: a value is out of range, or there are not twelve months.
    Source: derived (each month at its equilibrium).

    >>> air = two_seasons(Air(temperature_c=20, humidity_pct=35), Air(temperature_c=20, humidity_pct=60))
    >>> year = through_the_year(76.2, coefficient_per_pct=0.00369, assembled_pct=11.0, air=air)
    >>> round(year.inside_mm, 2), year.months[0].opens.value
    (1.61, 'opens at the inside')
    """
    require_between(0, 30, assembled_pct=assembled_pct)
    _refuse_other_than_twelve(air)
    months = tuple(
        _month_gap(number, month, face_width_mm, coefficient_per_pct, assembled_pct, sides)
        for number, month in enumerate(air, start=1)
    )
    return Year(
        months=months,
        inside_mm=max((month.gap_mm for month in months if month.opens is OpensAt.INSIDE), default=0.0),
        outside_mm=max((month.gap_mm for month in months if month.opens is OpensAt.OUTSIDE), default=0.0),
    )


def find_levers(
    year: Year,
    *,
    face_width_mm: float,
    coefficients: Coefficients,
    ring_deg: float,
    gap_mm: float,
    spline_depth_mm: float,
    sides: int = 4,
) -> Levers:
    """Find what quarter-sawn stock, stock settled to the middle of the year, or narrower members would do.

    Quarter-sawn: the gap shrinks as the coefficient does. Settled: glued midway between the driest and the moistest
    month, the worst gap is that of half their difference. Narrower: the gap goes with the width. A spline holds the
    mitre shut as far as it is deep; past it the wedge has the same angle and less length, ``gap · (1 − D/m)``.

    Args:
        year: as it is now.
        face_width_mm: w [mm], > 0.
        coefficients: of the wood.
        ring_deg: of the stock as it is, 0 flat-sawn to 90 [°].
        gap_mm: the gap allowed [mm], > 0.
        spline_depth_mm: along the mitre from the tip, 0 for none [mm], 0 to its length.
        sides: 3 to 24.
    Raises:
        OutOfRange: a value is out of range.
    Source: derived.

    >>> cherry = Coefficients(radial_per_pct=0.00126, tangential_per_pct=0.00248, from_table=True, agrees=True)
    >>> air = two_seasons(Air(temperature_c=20, humidity_pct=30), Air(temperature_c=22, humidity_pct=60))
    >>> year = through_the_year(60, coefficient_per_pct=0.00248, assembled_pct=6.2, air=air)
    >>> levers = find_levers(year, face_width_mm=60, coefficients=cherry, ring_deg=0, gap_mm=0.3,
    ...                      spline_depth_mm=0)
    >>> round(levers.now_mm / levers.quarter_sawn_mm, 2), round(levers.now_mm / levers.settled_mm, 1)
    (1.97, 2.0)
    """
    require_positive(face_width_mm=face_width_mm, gap_mm=gap_mm)
    joint_mm = mitre_length_mm(face_width_mm, shape=Shape(sides=sides))
    require_between(0, joint_mm, spline_depth_mm=spline_depth_mm)
    moistures_pct = [month.moisture_pct for month in year.months]
    now_per_pct = coefficient_per_pct(coefficients, ring_deg=ring_deg)
    per_pct_mm = mitre_gap_mm(face_width_mm, coefficient_per_pct=now_per_pct, change_pct=1, sides=sides)
    return Levers(
        now_mm=year.worst_mm,
        quarter_sawn_mm=year.worst_mm * coefficient_per_pct(coefficients, ring_deg=90) / now_per_pct,
        settled_mm=per_pct_mm * (max(moistures_pct) - min(moistures_pct)) / 2,
        best_moisture_pct=(max(moistures_pct) + min(moistures_pct)) / 2,
        widest_mm=face_width_mm * gap_mm / year.worst_mm if year.worst_mm > gap_mm else face_width_mm,
        splined_mm=year.worst_mm * (1 - spline_depth_mm / joint_mm),
    )


def _between(winter: float, summer: float, wave: float) -> float:
    return (winter + summer) / 2 + (winter - summer) / 2 * wave


def _month_gap(
    number: int, air: Air, face_width_mm: float, coefficient_per_pct: float, assembled_pct: float, sides: int
) -> MonthGap:
    moisture_pct = equilibrium_pct(air.temperature_c, humidity_pct=air.humidity_pct)
    change_pct = moisture_pct - assembled_pct
    return MonthGap(
        month=number,
        moisture_pct=moisture_pct,
        gap_mm=mitre_gap_mm(face_width_mm, coefficient_per_pct=coefficient_per_pct, change_pct=change_pct, sides=sides),
        opens=_opens(change_pct),
    )


def _opens(change_pct: float) -> OpensAt:
    if change_pct > 0:
        return OpensAt.OUTSIDE
    return OpensAt.INSIDE if change_pct < 0 else OpensAt.NOWHERE


def _refuse_other_than_twelve(air: Sequence[Air]) -> None:
    if len(air) != MONTHS:
        raise OutOfRange(f"A year has twelve months, not {len(air)}.", field="air")
