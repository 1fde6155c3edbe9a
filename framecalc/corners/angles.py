"""Saw settings for sides that slope: the mitre gauge, the blade tilt and the angle between neighbouring faces.

The *half turn* is half of what the frame turns by at a corner, 45° for a rectangle. The *slope* of a side is that of
its face against the wall: 0° lies flat like an ordinary picture frame, 90° stands on edge like a box. The *mitre* is
the gauge's angle from a square cut, the *tilt* the blade's angle from upright, the *dihedral* the angle between two
neighbouring faces, 180° when they lie in one plane.
"""

from math import asin, atan2, cos, degrees, radians, sin

from framecalc.findings import Finding, Severity
from framecalc.limits import require_between
from framecalc.records import Record

USUAL_MOST_TILT_DEG = 45.0
"""How far a saw blade usually tilts (common practice, no source)."""

USUAL_MOST_GAUGE_DEG = 60.0
"""How far a mitre gauge usually swings from square (common practice, no source)."""


class Settings(Record):
    """One set-up of the saw for a corner: what the gauge and the blade are set to, and the corner that comes of it."""

    mitre_deg: float
    tilt_deg: float
    dihedral_deg: float


class GaugeReadings(Record):
    """The same mitre on the scales that gauges carry: 0 at a square cut, or 90 at a square cut, swung either way."""

    from_square_deg: float
    below_ninety_deg: float
    above_ninety_deg: float


def flat_on_the_table(*, half_turn_deg: float, slope_deg: float) -> Settings:
    """Set gauge and blade for a side cut with its face flat on the table.

    ``tan M = cos S · tan t``, ``sin B = sin S · sin t``, ``dihedral = 180° − 2B``

    Args:
        half_turn_deg: t, 180°/n of a regular frame, else half of (180° − the corner's plan angle) [°], 1 to 89.
        slope_deg: S, 0 flat on the wall to 90 on edge [°]. Both sides of a corner have the same.
    Raises:
        OutOfRange: an angle is no such angle.
    Source: derived (normals of the two faces and of the joint plane; rebuilt from vectors in the tests).

    >>> settings = flat_on_the_table(half_turn_deg=45, slope_deg=45)
    >>> round(settings.mitre_deg, 2), round(settings.tilt_deg, 2), round(settings.dihedral_deg, 2)
    (35.26, 30.0, 120.0)
    """
    turn_rad, slope_rad = _checked(half_turn_deg=half_turn_deg, slope_deg=slope_deg)
    tilt_deg = degrees(asin(sin(slope_rad) * sin(turn_rad)))
    return Settings(
        mitre_deg=degrees(atan2(cos(slope_rad) * sin(turn_rad), cos(turn_rad))),
        tilt_deg=tilt_deg,
        dihedral_deg=180 - 2 * tilt_deg,
    )


def propped_at_its_slope(*, half_turn_deg: float, slope_deg: float) -> Settings:
    """Set gauge and blade for a side propped as it will sit, the plane of the frame parallel to the table.

    ``M = t``, ``B = 0``, whatever the slope.

    Args:
        half_turn_deg: t [°], 1 to 89.
        slope_deg: S [°], 0 to 90.
    Raises:
        OutOfRange: an angle is no such angle.
    Source: derived (the joint plane is upright when the frame lies as it hangs).

    >>> propped_at_its_slope(half_turn_deg=45, slope_deg=38).mitre_deg
    45
    """
    flat = flat_on_the_table(half_turn_deg=half_turn_deg, slope_deg=slope_deg)
    return Settings(mitre_deg=half_turn_deg, tilt_deg=0.0, dihedral_deg=flat.dihedral_deg)


def spring_angle_deg(slope_deg: float) -> float:
    """Find the spring angle by which a moulding of a slope is sold: it is measured from the wall that it leans on.

    ``spring = 90° − S``: a crown moulding leans between wall and ceiling, and the frame's plane is the ceiling.

    Args:
        slope_deg: S, 0 to 90 [°].
    Raises:
        OutOfRange: angle out of range.
    Source: common practice, no source.

    >>> spring_angle_deg(52)
    38
    """
    require_between(0, 90, slope_deg=slope_deg)
    return 90 - slope_deg


def gauge_readings(mitre_deg: float) -> GaugeReadings:
    """Read one mitre on every gauge: 0 at square, or 90 at square and counting down one way, up the other.

    ``M``, ``90° − M``, ``90° + M``

    Args:
        mitre_deg: M, from a square cut [°], 0 to 90.
    Raises:
        OutOfRange: angle out of range.
    Source: derived.

    >>> readings = gauge_readings(22.5)
    >>> readings.below_ninety_deg, readings.above_ninety_deg
    (67.5, 112.5)
    """
    require_between(0, 90, mitre_deg=mitre_deg)
    return GaugeReadings(from_square_deg=mitre_deg, below_ninety_deg=90 - mitre_deg, above_ninety_deg=90 + mitre_deg)


def write_angle(angle_deg: float) -> str:
    """Write an angle to a hundredth of a degree, without trailing zeros.

    Source: derived.

    >>> write_angle(22.5), write_angle(35.2644), write_angle(3.5e-15)
    ('22.5°', '35.26°', '0°')
    """
    return f"{angle_deg:.2f}".rstrip("0").rstrip(".") + "°"


def settings_findings(
    settings: Settings,
    *,
    most_tilt_deg: float = USUAL_MOST_TILT_DEG,
    most_gauge_deg: float = USUAL_MOST_GAUGE_DEG,
) -> tuple[Finding, ...]:
    """Report which setting this saw cannot reach, and that propping the side avoids the tilt.

    Args:
        most_tilt_deg: how far the blade tilts [°].
        most_gauge_deg: how far the gauge swings from square [°].
    Source: common practice, no source.

    >>> [finding.code for finding in settings_findings(flat_on_the_table(half_turn_deg=60, slope_deg=80))]
    ['angles.tilt-out-of-reach']
    """
    findings = []
    if settings.tilt_deg > most_tilt_deg:
        findings.append(_tilt_out_of_reach(settings, most_tilt_deg))
    if settings.mitre_deg > most_gauge_deg:
        findings.append(_gauge_out_of_reach(settings, most_gauge_deg))
    return tuple(findings)


def _checked(*, half_turn_deg: float, slope_deg: float) -> tuple[float, float]:
    require_between(1, 89, half_turn_deg=half_turn_deg)
    require_between(0, 90, slope_deg=slope_deg)
    return radians(half_turn_deg), radians(slope_deg)


def _tilt_out_of_reach(settings: Settings, most_tilt_deg: float) -> Finding:
    return Finding(
        code="angles.tilt-out-of-reach",
        severity=Severity.STOP,
        sentence=f"The blade would have to tilt {settings.tilt_deg:.2f}°, and it tilts to {most_tilt_deg:g}°.",
        why="Propped at its slope against a tall fence the side is cut with the blade upright.",
        source="usual practice",
        argument="slope_deg",
    )


def _gauge_out_of_reach(settings: Settings, most_gauge_deg: float) -> Finding:
    return Finding(
        code="angles.gauge-out-of-reach",
        severity=Severity.STOP,
        sentence=f"The gauge would have to swing {settings.mitre_deg:.2f}°, and it goes to {most_gauge_deg:g}°.",
        why="A sled with a fence fixed at the complement, the stock against its end, reaches what the gauge does not.",
        source="usual practice",
        argument="sides",
    )
