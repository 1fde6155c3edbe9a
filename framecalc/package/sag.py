"""The sag of the bottom member under the pane and the package, and how many lift the frame.

The bottom member is a beam on two supports, the corners; the package rests on it evenly, over the whole rabbet. Its
*span* is the rabbet size across. It bends across its face: a wide face is stiff, a deep rabbet takes stiffness away.
"""

from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.limits import require_between, require_not_negative, require_positive
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

LIMIT_OF_SPAN_RATIO = 1 / 360
"""The eye sees a line that sags by more. Source: common practice, no source."""

FAR_TOO_MUCH = 2
"""So many times the limit is a stop: the corners open, the pane wedges. Source: common practice, no source."""

ONE_LIFTS_KG = 15.0
"""A frame with a pane that weighs more is lifted by two. Source: common practice, no source."""

ONE_REACHES_MM = 1500.0
"""A frame with a pane that is longer is carried by two (60 in). Source: common practice, no source."""

GRAVITY_N_PER_KG = 9.80665
"""Source: standard gravity, 3rd CGPM (1901), from memory, not re-read."""

WIDEST_FACE = 4
"""No way out asks for a face wider than this many times the present one."""

_KG_M3_PER_KG_MM3 = 1e9


class Beam(Record):
    """The bottom member: its span, what it carries, its stiffness, and its section.

    `second_moment_mm4` is that of the true section; the sizes of its blank and its rabbet serve the ways out alone.
    """

    span_mm: float
    package_kg: float
    elasticity_mpa: float
    second_moment_mm4: float
    area_mm2: float
    density_kg_m3: float
    face_width_mm: float
    thickness_mm: float
    rabbet_width_mm: float
    rabbet_depth_mm: float

    @property
    def own_kg(self) -> float:
        """What the member itself weighs over its span."""
        return self.area_mm2 * self.span_mm * self.density_kg_m3 / _KG_M3_PER_KG_MM3

    @property
    def sag_mm(self) -> float:
        """How far its middle sags."""
        return beam_sag_mm(
            span_mm=self.span_mm,
            load_n=(self.package_kg + self.own_kg) * GRAVITY_N_PER_KG,
            elasticity_mpa=self.elasticity_mpa,
            second_moment_mm4=self.second_moment_mm4,
        )

    @property
    def corner_kg(self) -> float:
        """What each of its corners carries, as a weight."""
        return (self.package_kg + self.own_kg) / 2

    @property
    def limit_mm(self) -> float:
        """How far it may."""
        return self.span_mm * LIMIT_OF_SPAN_RATIO


def beam_sag_mm(*, span_mm: float, load_n: float, elasticity_mpa: float, second_moment_mm4: float) -> float:
    """The sag in the middle of a beam on two supports under an even load.

    ``sag = 5 w L⁴ / (384 E I)`` with ``w = load / L``

    Args:
        span_mm: between the supports [mm], > 0.
        load_n: all of it [N], ≥ 0.
        elasticity_mpa: along the grain [N/mm²], > 0.
        second_moment_mm4: of the section about its axis [mm⁴], > 0.
    Raises:
        OutOfRange: a quantity is out of range.
    Source: beam theory (Euler and Bernoulli), any textbook.

    >>> round(beam_sag_mm(span_mm=1000, load_n=100, elasticity_mpa=10_000, second_moment_mm4=50_000), 3)
    2.604
    """
    require_positive(span_mm=span_mm, elasticity_mpa=elasticity_mpa, second_moment_mm4=second_moment_mm4)
    require_not_negative(load_n=load_n)
    return 5 * load_n * span_mm**3 / (384 * elasticity_mpa * second_moment_mm4)


def plain_second_moment_mm4(
    *, face_width_mm: float, thickness_mm: float, rabbet_width_mm: float, rabbet_depth_mm: float
) -> float:
    """The second moment of a plain section less its rabbet, about the line through its centroid along the thickness.

    Args:
        face_width_mm, thickness_mm: the blank [mm], > 0.
        rabbet_width_mm, rabbet_depth_mm: [mm], less than the blank's.
    Raises:
        OutOfRange: a length is out of range.
    Source: derived (rectangles; parallel axes).

    >>> round(plain_second_moment_mm4(face_width_mm=30, thickness_mm=20, rabbet_width_mm=10, rabbet_depth_mm=10))
    32167
    """
    require_positive(face_width_mm=face_width_mm, thickness_mm=thickness_mm)
    require_between(0, face_width_mm, rabbet_width_mm=rabbet_width_mm)
    require_between(0, thickness_mm, rabbet_depth_mm=rabbet_depth_mm)
    blank_mm2, rabbet_mm2 = face_width_mm * thickness_mm, rabbet_width_mm * rabbet_depth_mm
    at_rabbet_mm = face_width_mm - rabbet_width_mm / 2
    moment_mm3 = blank_mm2 * face_width_mm / 2 - rabbet_mm2 * at_rabbet_mm
    about_side_mm4 = thickness_mm * face_width_mm**3 / 3 - rabbet_mm2 * (rabbet_width_mm**2 / 12 + at_rabbet_mm**2)
    return about_side_mm4 - moment_mm3**2 / (blank_mm2 - rabbet_mm2)


def sag_findings(beam: Beam) -> tuple[Finding, ...]:
    """Report a bottom member that sags too far.

    Source: beam theory; the limit is usual practice.

    >>> thin = Beam(span_mm=1340, package_kg=9, elasticity_mpa=8550, second_moment_mm4=38_000, area_mm2=520,
    ...     density_kg_m3=400, face_width_mm=31.75, thickness_mm=19, rabbet_width_mm=6.35, rabbet_depth_mm=12)
    >>> [(finding.code, finding.severity.value) for finding in sag_findings(thin)]
    [('sag.bottom', 'stop')]
    """
    if beam.sag_mm <= beam.limit_mm + TOLERANCE_MM:
        return ()
    return (
        Finding(
            code="sag.bottom",
            severity=Severity.STOP if beam.sag_mm > FAR_TOO_MUCH * beam.limit_mm else Severity.WARN,
            sentence="The bottom member sags by {sag} under the package; up to {limit} is usual.",
            why="Its corners open. A stiffener or cleat screwed behind it, struts, or lighter glazing help too.",
            source=SAG_SOURCE,
            argument="face_width_mm",
            lengths={"sag": beam.sag_mm, "limit": beam.limit_mm},
            ways=_stiffer(beam),
        ),
    )


def takes_two(*, mass_kg: float, longest_mm: float, is_glazed: bool) -> bool:
    """Whether two people lift a frame: it is heavy, or long with a pane in it.

    Args:
        mass_kg: frame and package [kg], ≥ 0.
        longest_mm: its longer side outside [mm], > 0.
        is_glazed: whether there is a pane in it.
    Source: common practice, no source.

    >>> takes_two(mass_kg=11, longest_mm=3053, is_glazed=True), takes_two(mass_kg=11, longest_mm=3053, is_glazed=False)
    (True, False)
    """
    return mass_kg > ONE_LIFTS_KG or (is_glazed and longest_mm > ONE_REACHES_MM + TOLERANCE_MM)


def lift_findings(*, mass_kg: float, longest_mm: float, is_glazed: bool) -> tuple[Finding, ...]:
    """Report a frame that two people lift.

    Args:
        mass_kg: frame and package [kg], ≥ 0.
        longest_mm: its longer side outside [mm], > 0.
        is_glazed: whether there is a pane in it.
    Source: common practice, no source.

    >>> [finding.code for finding in lift_findings(mass_kg=18, longest_mm=1400, is_glazed=True)]
    ['lift.by-two']
    """
    if not takes_two(mass_kg=mass_kg, longest_mm=longest_mm, is_glazed=is_glazed):
        return ()
    is_heavy = mass_kg > ONE_LIFTS_KG
    reason = "The frame is heavy" if is_heavy else "With a pane in it, {longest} is long"
    return (
        Finding(
            code="lift.by-two",
            severity=Severity.WARN,
            sentence=f"{reason} for one person: fit, lift and hang it as two people.",
            why="A frame that is let down on one corner opens there, and its pane breaks.",
            source="usual practice",
            argument="layer",
            lengths={} if is_heavy else {"longest": longest_mm},
        ),
    )


SAG_SOURCE = "beam theory; the limit, 1/360 of the span, is usual practice"


def _stiffer(beam: Beam) -> tuple[Way, ...]:
    """A wider face, or a thicker member: the least of each with which the sag comes down to its limit."""
    ways = (
        ("face_width_mm", "make the face wider", beam.face_width_mm),
        ("thickness_mm", "make the member thicker", beam.thickness_mm),
    )
    return tuple(
        Way(argument=argument, value_mm=value_mm, says=says, rounding=Rounding.UP)
        for argument, says, now_mm in ways
        if (value_mm := _least_mm(beam, argument, now_mm))
    )


def _least_mm(beam: Beam, argument: str, now_mm: float) -> float:
    """The least size that is stiff enough, by halving; 0 where none up to WIDEST_FACE times the present one is."""
    low_mm, high_mm = now_mm, WIDEST_FACE * now_mm
    if _sag_with_mm(beam, argument, high_mm) > beam.limit_mm:
        return 0.0
    while high_mm - low_mm > TOLERANCE_MM:
        middle_mm = (low_mm + high_mm) / 2
        is_stiff = _sag_with_mm(beam, argument, middle_mm) <= beam.limit_mm
        low_mm, high_mm = (low_mm, middle_mm) if is_stiff else (middle_mm, high_mm)
    return high_mm


def _sag_with_mm(beam: Beam, argument: str, size_mm: float) -> float:
    """The sag with another face width or thickness; what the profile takes away stays in proportion."""
    now = {
        "face_width_mm": beam.face_width_mm,
        "thickness_mm": beam.thickness_mm,
        "rabbet_width_mm": beam.rabbet_width_mm,
        "rabbet_depth_mm": beam.rabbet_depth_mm,
    }
    share = beam.second_moment_mm4 / plain_second_moment_mm4(**now)
    own_kg = beam.own_kg * size_mm / now[argument]
    return beam_sag_mm(
        span_mm=beam.span_mm,
        load_n=(beam.package_kg + own_kg) * GRAVITY_N_PER_KG,
        elasticity_mpa=beam.elasticity_mpa,
        second_moment_mm4=share * plain_second_moment_mm4(**now | {argument: size_mm}),
    )
