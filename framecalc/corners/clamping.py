"""A strap around the frame: the pressure on each mitre, where it is lowest, and whether it is enough.

Without friction the tension is the same everywhere, and it squeezes each member along its length. With friction every
corner holds some of it back, so corners far from the ratchet get less pressure: the tension past a corner is that
before it times ``e^(−μ·turn)``. *Easing* the ratchet slackens the near parts of the strap first; the far ones keep
their tension, and the corners become more equal. Tightening again brings the old pattern back.
"""

from enum import StrEnum
from math import cos, exp, radians

from framecalc.corners.joints.corner_stock import CornerStock
from framecalc.findings import Finding, Severity
from framecalc.limits import require_between, require_positive
from framecalc.records import Record
from framecalc.sizes.polygons import half_turn_deg

USUAL_PRESSURE_RANGE_MPA = (0.7, 1.7)
"""Needed on a glue line: 100 to 250 psi (common practice, no source; softwoods at the low end)."""

CLAMP_CAUTION = (
    "Tighten a little at each corner in turn and check the diagonals; a strap pulled off-square glues off-square."
)
RING_CAUTION = "Tighten a little at a time, all round: a strap pulled in one go lifts the ring off the bench."
"""Of a polygon. Common practice, no source, both."""


class Ratchet(StrEnum):
    """Where the strap is tightened."""

    ON_A_SIDE = "on a side"
    AT_A_CORNER = "at a corner"


class PressureLevel(StrEnum):
    """How the pressure on the weakest mitre compares with what is usual."""

    LITTLE = "less than usual"
    ENOUGH = "in the usual range"
    MUCH = "more than usual"


class Strap(Record):
    """A strap around a frame: the tension in each part of it, corner after corner, and the force on each mitre.

    The parts start at the ratchet and go once around; a corner lies between one part and the next. With the ratchet at
    a corner that corner comes last.
    """

    tensions_n: tuple[float, ...]
    forces_n: tuple[float, ...]

    @property
    def weakest_n(self) -> float:
        """The force on the mitre that is pressed least."""
        return min(self.forces_n)

    @property
    def evenness_ratio(self) -> float:
        """The least force against the greatest; 1 when all mitres are pressed alike."""
        return min(self.forces_n) / max(self.forces_n)


class Pressure(Record):
    """Pressure on the mitre that is pressed least, and the verdict on it."""

    least_mpa: float
    pressing: PressureLevel


def mitre_force_n(tension_n: float, *, sides: int = 4) -> float:
    """Find the force on each mitre of a strap without friction.

    ``N = T / cos(180°/n)``, √2·T for a rectangle: the member passes T along its length, the corner block the rest.

    Args:
        tension_n: T [N], > 0.
        sides: 3 to 24.
    Raises:
        OutOfRange: no tension, or no polygon.
    Source: derived (equilibrium of half a frame; rebuilt from forces in the tests).

    >>> round(mitre_force_n(300), 1)
    424.3
    """
    require_positive(tension_n=tension_n)
    return tension_n / cos(radians(half_turn_deg(sides)))


def strap_around(tension_n: float, *, friction_ratio: float, ratchet: Ratchet, sides: int = 4) -> Strap:
    """Follow the tension of a strap around a frame, from the ratchet both ways.

    ``T_k = T · e^(−μ·2π·k/n)`` past k corners; a mitre feels the mean of the parts beside it: ``N = (T₁ + T₂)/2 /
    cos(180°/n)``.

    Args:
        tension_n: at the ratchet, T [N], > 0.
        friction_ratio: μ between strap and corner, 0 to 1.
        ratchet: on a side or at a corner.
        sides: 3 to 24.
    Raises:
        OutOfRange: tension, friction or polygon out of range.
    Source: belt friction (capstan equation), any textbook of mechanics, from memory, not re-read; the mean is derived.

    >>> strap = strap_around(300, friction_ratio=0.25, ratchet=Ratchet.ON_A_SIDE)
    >>> [round(tension) for tension in strap.tensions_n], round(strap.evenness_ratio, 2)
    ([300, 203, 137, 203], 0.68)
    """
    return _strap(_pulled_n(tension_n, friction_ratio, ratchet, sides), sides)


def eased_strap(
    tension_n: float, *, eased_to_n: float, friction_ratio: float, ratchet: Ratchet, sides: int = 4
) -> Strap:
    """Follow the tension after the strap was pulled tight and the ratchet eased a little.

    Each part keeps the less of what it had and of what slips back: ``min(T·e^(−μφ), T_eased·e^(+μφ))``.

    Args:
        tension_n: pulled to, T [N], > 0.
        eased_to_n: let down to, at the ratchet [N], > 0, at most T.
        friction_ratio: μ, 0 to 1.
    Raises:
        OutOfRange: tension, friction or polygon out of range.
    Source: derived from belt friction, which acts against the way the strap slips.

    >>> eased = eased_strap(300, eased_to_n=137, friction_ratio=0.25, ratchet=Ratchet.ON_A_SIDE)
    >>> [round(tension) for tension in eased.tensions_n], round(eased.evenness_ratio, 2)
    ([137, 203, 137, 203], 1.0)
    """
    require_positive(eased_to_n=eased_to_n)
    require_between(0, tension_n, eased_to_n=eased_to_n)
    pulled_n = _pulled_n(tension_n, friction_ratio, ratchet, sides)
    slipping_n = [eased_to_n * tension_n / pulled for pulled in pulled_n]
    return _strap([min(both) for both in zip(pulled_n, slipping_n, strict=True)], sides)


def press(stock: CornerStock, strap: Strap, *, usual_mpa: tuple[float, float] = USUAL_PRESSURE_RANGE_MPA) -> Pressure:
    """Spread the force of a strap over the real mitre face, and compare with what is usual.

    ``p = N / A`` with A = √2·[(w − r)·t + r·(t − d)] in a rectangle, or of the section as milled.

    Args:
        usual_mpa: the usual range [MPa].
    Source: derived; the range is common practice, no source.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> press(stock, strap_around(600, friction_ratio=0, ratchet=Ratchet.ON_A_SIDE)).pressing.value
    'in the usual range'
    """
    least_mpa = strap.weakest_n / stock.mitre_area_mm2
    return Pressure(
        least_mpa=least_mpa,
        pressing=_pressing(least_mpa, usual_mpa),
    )


def tension_for_n(
    stock: CornerStock, *, pressure_mpa: float, friction_ratio: float, ratchet: Ratchet, sides: int = 4
) -> float:
    """Find the tension that presses the weakest mitre just so.

    Args:
        pressure_mpa: wanted [MPa], > 0.
        friction_ratio: μ, 0 to 1.
        sides: 3 to 24.
    Raises:
        OutOfRange: pressure, friction or polygon out of range.
    Source: derived (the force grows in step with the tension).

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> round(tension_for_n(stock, pressure_mpa=0.7, friction_ratio=0, ratchet=Ratchet.ON_A_SIDE))
    510
    """
    require_positive(pressure_mpa=pressure_mpa)
    of_one_newton = strap_around(1.0, friction_ratio=friction_ratio, ratchet=ratchet, sides=sides).weakest_n
    return pressure_mpa * stock.mitre_area_mm2 / of_one_newton


def pressure_findings(pressure: Pressure) -> tuple[Finding, ...]:
    """Report when the weakest mitre is pressed less, or more, than usual.

    Source: common practice, no source.

    >>> pressure_findings(Pressure(least_mpa=1.0, pressing=PressureLevel.ENOUGH))
    ()
    """
    if pressure.pressing is PressureLevel.ENOUGH:
        return ()
    little = pressure.pressing is PressureLevel.LITTLE
    return (
        Finding(
            code="clamping.little" if little else "clamping.much",
            severity=Severity.NOTE if little else Severity.WARN,
            sentence=f"The weakest mitre is pressed with {{pressure}}, {pressure.pressing.value}.",
            measures={"pressure": (pressure.least_mpa, "MPa")},
            why=(
                "A mitre that fits without a gap holds with little pressure; one that is pulled together does not."
                if little
                else "Glue is squeezed out of the joint, and soft wood is crushed at the corners."
            ),
            source="usual practice",
            argument="strap_tension_n",
        ),
    )


def _pulled_n(tension_n: float, friction_ratio: float, ratchet: Ratchet, sides: int) -> list[float]:
    """The tension of each part of the strap when it is pulled: less past every corner on the shorter way around."""
    require_positive(tension_n=tension_n)
    require_between(0, 1, friction_ratio=friction_ratio)
    turn_rad = radians(2 * half_turn_deg(sides))
    last = sides if ratchet is Ratchet.ON_A_SIDE else sides - 1
    return [tension_n * exp(-friction_ratio * turn_rad * min(part, last - part)) for part in range(sides)]


def _strap(tensions_n: list[float], sides: int) -> Strap:
    following = tensions_n[1:] + tensions_n[:1]
    slant = cos(radians(half_turn_deg(sides)))
    return Strap(
        tensions_n=tuple(tensions_n),
        forces_n=tuple((one + other) / 2 / slant for one, other in zip(tensions_n, following, strict=True)),
    )


def _pressing(least_mpa: float, usual_mpa: tuple[float, float]) -> PressureLevel:
    if least_mpa < usual_mpa[0]:
        return PressureLevel.LITTLE
    return PressureLevel.MUCH if least_mpa > usual_mpa[1] else PressureLevel.ENOUGH
