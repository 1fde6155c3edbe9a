"""How moist wood becomes in a room: equilibrium moisture content, humidity indoors from outdoors, a meter's reading.

*Relative humidity* is what the air holds of what it could hold. *Moisture content* is the water in wood against its dry
mass. Left long enough in air of one humidity and temperature every wood comes to nearly the same moisture content, its
*equilibrium*.
"""

from math import exp

from framecalc.errors import OutOfRange
from framecalc.findings import Finding, Severity
from framecalc.limits import require_between
from framecalc.records import Record

WOOD_TEMPERATURES_C = (-2.0, 60.0)
"""Where the equation of equilibrium is used here; the handbook's table goes a little higher."""

WOOD_HUMIDITIES_PCT = (5.0, 95.0)
"""Where the equation of equilibrium is used here."""

AIR_TEMPERATURES_C = (-45.0, 60.0)
"""Where the equation of saturation is good."""

METER_RANGE_PCT = (6.0, 30.0)
"""Where a pin meter can be trusted. Source: Wood Handbook FPL-GTR-190, p. 13-3."""

USUAL_DIFFERENCE_PCT = 2.0
"""Wood further than this from the room's equilibrium is left to settle first (common practice, no source)."""


class MeterReading(Record):
    """A meter's reading beside the room's equilibrium, and the humidity of air in which it would be at rest."""

    wood_pct: float
    room_pct: float
    difference_pct: float
    rests_at_humidity_pct: float


def equilibrium_pct(temperature_c: float, *, humidity_pct: float) -> float:
    """Find the moisture content that wood comes to in still air.

    ``M = 1800/W · [K·h/(1 − K·h) + (K₁·K·h + 2·K₁·K₂·K²·h²)/(1 + K₁·K·h + K₁·K₂·K²·h²)]``, with W, K, K₁ and K₂
    quadratic in the temperature.

    Args:
        temperature_c: of the air [°C], −2 to 60.
        humidity_pct: relative, 5 to 95 [%].
    Raises:
        OutOfRange: outside these.
    Source: Wood Handbook, FPL-GTR-282 (2021), chapter 4, equation 4-5, Celsius form, read second hand.

    >>> round(equilibrium_pct(20, humidity_pct=50), 2)
    9.27
    """
    require_between(*WOOD_TEMPERATURES_C, temperature_c=temperature_c)
    t = temperature_c
    return _two_hydrates_pct(
        w=349 + 1.29 * t + 0.0135 * t**2,
        k=0.805 + 0.000736 * t - 0.00000273 * t**2,
        k1=6.27 - 0.00938 * t - 0.000303 * t**2,
        k2=1.91 + 0.0407 * t - 0.000293 * t**2,
        humidity_pct=humidity_pct,
    )


def resting_humidity_pct(moisture_pct: float, *, temperature_c: float) -> float:
    """Find the humidity of air in which wood of a moisture content is at rest: the equation above, turned around.

    Args:
        moisture_pct: of the wood [%], within what the equation gives from 5 to 95 % humidity.
        temperature_c: of the air [°C], −2 to 60.
    Raises:
        OutOfRange: no humidity from 5 to 95 % holds the wood there.
    Source: derived (halving; the equilibrium grows with the humidity).

    >>> round(resting_humidity_pct(9.27, temperature_c=20), 1)
    50.0
    """
    low_pct, high_pct = WOOD_HUMIDITIES_PCT
    least_pct = equilibrium_pct(temperature_c, humidity_pct=low_pct)
    most_pct = equilibrium_pct(temperature_c, humidity_pct=high_pct)
    if not least_pct <= moisture_pct <= most_pct:
        raise OutOfRange(
            f"Enter a moisture of {least_pct:.1f} to {most_pct:.1f}%, not {moisture_pct:.1f}%.",
            field="moisture_pct",
        )
    for _ in range(60):
        middle_pct = (low_pct + high_pct) / 2
        drier = equilibrium_pct(temperature_c, humidity_pct=middle_pct) < moisture_pct
        low_pct, high_pct = (middle_pct, high_pct) if drier else (low_pct, middle_pct)
    return (low_pct + high_pct) / 2


def warmed_humidity_pct(*, outdoor_c: float, outdoor_humidity_pct: float, indoor_c: float) -> float:
    """Find the humidity indoors when outdoor air is only warmed, with no water added or taken out.

    ``RH_in = RH_out · e_s(T_out) / e_s(T_in)``

    Args:
        outdoor_c, indoor_c: temperatures [°C], −45 to 60.
        outdoor_humidity_pct: relative, 0 to 100 [%].
    Raises:
        OutOfRange: outside these, or the air would be more than saturated indoors.
    Source: derived (the vapour pressure stays). Cooking, plants and breath add to it: a lower bound in winter.

    >>> round(warmed_humidity_pct(outdoor_c=-5, outdoor_humidity_pct=80, indoor_c=21), 1)
    13.6
    """
    require_between(0, 100, outdoor_humidity_pct=outdoor_humidity_pct)
    ratio = saturation_ratio(outdoor_c) / saturation_ratio(indoor_c)
    indoor_pct = outdoor_humidity_pct * ratio
    require_between(0, 100, indoor_humidity_pct=indoor_pct)
    return indoor_pct


def saturation_ratio(temperature_c: float) -> float:
    """Find the vapour pressure of saturated air over water, against that at 0 °C.

    ``exp(17.62·T / (243.12 + T))``, since the humidity of frosty air is stated over water too.

    Args:
        temperature_c: T [°C], −45 to 60.
    Raises:
        OutOfRange: outside these.
    Source: Magnus formula with the constants of the WMO guide to instruments (WMO-No. 8), from memory, not re-read.

    >>> round(saturation_ratio(20), 2)
    3.82
    """
    require_between(*AIR_TEMPERATURES_C, temperature_c=temperature_c)
    return exp(17.62 * temperature_c / (243.12 + temperature_c))


def read_meter(wood_pct: float, *, temperature_c: float, humidity_pct: float) -> MeterReading:
    """Compare a moisture meter with the room in which the frame will be.

    Args:
        wood_pct: what the meter says, set to this wood [%].
        temperature_c, humidity_pct: of the room [°C], [%].
    Raises:
        OutOfRange: outside of the equation's range.
    Source: derived.

    >>> reading = read_meter(11.0, temperature_c=20, humidity_pct=40)
    >>> round(reading.difference_pct, 1), round(reading.rests_at_humidity_pct)
    (3.3, 60)
    """
    room_pct = equilibrium_pct(temperature_c, humidity_pct=humidity_pct)
    return MeterReading(
        wood_pct=wood_pct,
        room_pct=room_pct,
        difference_pct=wood_pct - room_pct,
        rests_at_humidity_pct=resting_humidity_pct(wood_pct, temperature_c=temperature_c),
    )


def meter_findings(reading: MeterReading) -> tuple[Finding, ...]:
    """Report when wood is far from the room's equilibrium, and when a meter cannot be trusted so dry or so wet.

    Source: common practice, no source (2 % apart); Wood Handbook FPL-GTR-190, p. 13-3 (meters).

    >>> [finding.code for finding in meter_findings(read_meter(11.0, temperature_c=20, humidity_pct=40))]
    ['moisture.not-settled']
    """
    found = []
    if abs(reading.difference_pct) > USUAL_DIFFERENCE_PCT:
        found.append(_not_settled(reading))
    if not METER_RANGE_PCT[0] <= reading.wood_pct <= METER_RANGE_PCT[1]:
        found.append(_meter_out_of_range(reading))
    return tuple(found)


def unmetered_findings(taken_pct: float) -> tuple[Finding, ...]:
    """Say that a joint is worked out for a moisture that nobody has measured.

    Args:
        taken_pct: what is taken instead [%].
    Source: common practice, no source.

    >>> [finding.code for finding in unmetered_findings(8.1)]
    ['moisture.not-measured']
    """
    return (
        Finding(
            code="moisture.not-measured",
            severity=Severity.WARN,
            sentence=f"The wood's moisture is not measured: {taken_pct:.1f}% is taken, the middle of the year.",
            why="How far the mitres open, and what a joint must hold, follows from it; measure before they are cut.",
            source="usual practice",
            argument="wood_pct",
        ),
    )


def _two_hydrates_pct(*, w: float, k: float, k1: float, k2: float, humidity_pct: float) -> float:
    """The two-hydrate form that both unit systems share; W, K, K₁, K₂ as in the handbook."""
    require_between(*WOOD_HUMIDITIES_PCT, humidity_pct=humidity_pct)
    kh = k * humidity_pct / 100
    hydrates = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return 1800 / w * (kh / (1 - kh) + hydrates)


def _not_settled(reading: MeterReading) -> Finding:
    wetter = reading.difference_pct > 0
    return Finding(
        code="moisture.not-settled",
        severity=Severity.WARN,
        sentence=(
            f"The wood reads {reading.wood_pct:.1f}%, and the room holds it at {reading.room_pct:.1f}%: "
            f"it will {'dry and open the mitres inside' if wetter else 'swell and open the mitres outside'}."
        ),
        why="Wood goes on moving until it is at rest with the air; let it settle before the mitres are cut.",
        source="usual practice",
        argument="wood_pct",
    )


def _meter_out_of_range(reading: MeterReading) -> Finding:
    low, high = METER_RANGE_PCT
    return Finding(
        code="moisture.meter-out-of-range",
        severity=Severity.NOTE,
        sentence=f"A meter is not to be trusted at {reading.wood_pct:.1f}%: it reads well from {low:g} to {high:g}%.",
        why="Drier or wetter than this the resistance of wood says little about its water.",
        source="Wood Handbook FPL-GTR-190, p. 13-3",
        argument="wood_pct",
    )
