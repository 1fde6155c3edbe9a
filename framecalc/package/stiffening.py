"""What keeps a bottom member from sagging: a strip or a bar screwed along it, or a strut up to the top member.

A *strip* is of the frame's own wood, a *bar* of flat steel on edge; both are screwed to the land of the bottom member,
lap over the back where they are higher than the land, and bend beside the member: screws slip, so that nothing is
counted for one stiff section. A *strut* ties the middles of the bottom and the top member, which then share the load.
"""

from enum import StrEnum

from framecalc.findings import Finding, Severity
from framecalc.limits import require_positive
from framecalc.package.sag import FAR_TOO_MUCH, GRAVITY_N_PER_KG, SAG_SOURCE, Beam, beam_sag_mm
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM
from framecalc.weights import MM3_PER_M3


class Stiffener(StrEnum):
    """What stiffens a bottom member."""

    STRIP = "strip"
    BAR = "bar"
    STRUT = "strut"


STEEL_MPA, STEEL_KG_M3 = 200_000.0, 7850.0
"""Structural steel. Source: common values, from memory, not re-read."""

USUAL_OUT_MM = {Stiffener.STRIP: 12.0, Stiffener.BAR: 3.0, Stiffener.STRUT: 12.0}
"""How thick each is, out from the back (1/2 in; a bar 1/8 in). Source: common practice, no source."""

STRUT_WIDE_MM = 38.0
"""A strut is so wide (1 1/2 in). Source: common practice, no source."""

LEAST_HIGH_MM, MOST_HIGH_MM = 12.0, 100.0
"""A strip or a bar is at least so high (1/2 in), for its screws, and at most (4 in). Source: common
practice, no source."""

STRUT_IN_MM = 6.0
"""It ends so far inside the outer edges (1/4 in). Source: common practice, no source."""


class Back(Record):
    """What a stiffener is screwed to: how high one along it may be, the wood, the frame's height, its top member."""

    most_high_mm: float
    up_mm: float
    density_kg_m3: float
    top_kg: float


class Stiffened(Record):
    """A bottom member with its stiffener: how long, wide and thick that is, what it weighs, how far the member sags."""

    kind: Stiffener
    long_mm: float
    wide_mm: float
    out_mm: float
    mass_kg: float
    sag_mm: float
    limit_mm: float

    @property
    def is_enough(self) -> bool:
        """Whether the sag is within its limit."""
        return self.sag_mm <= self.limit_mm + TOLERANCE_MM


def stiffened(beam: Beam, back: Back, *, kind: Stiffener, out_mm: float, wide_mm: float) -> Stiffened:
    """Stiffen a bottom member by a strip, a bar or a strut of a thickness.

    Along it: ``sag = 5 W L³ / (384 (E I + E₂ t h³ / 12))``, ``h`` its height. A strut: half of what both members carry,
    ``sag = 5 (W + W_top) L³ / (2 · 384 E I) + m g L³ / (2 · 48 E I)``.

    Args:
        out_mm: how thick it is, out from the back [mm], > 0.
        wide_mm: how high it is up the back, or how wide a strut is [mm], > 0.
    Raises:
        OutOfRange: a quantity is out of range.
    Source: beam theory (Euler and Bernoulli), any textbook; the tie of two beams derived.

    >>> beam = Beam(span_mm=1000, package_kg=6, elasticity_mpa=10_000, second_moment_mm4=20_000, area_mm2=400,
    ...     density_kg_m3=500, face_width_mm=25, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=10)
    >>> back = Back(most_high_mm=100, up_mm=800, density_kg_m3=500, top_kg=0.2)
    >>> [round(stiffened(beam, back, kind=kind, out_mm=12, wide_mm=20).sag_mm, 2) for kind in Stiffener]
    [2.88, 0.57, 2.09]
    """
    require_positive(out_mm=out_mm, wide_mm=wide_mm, up_mm=back.up_mm)
    if kind is Stiffener.STRUT:
        return _with_strut(beam, back, out_mm, wide_mm)
    return _along(beam, back, kind, out_mm, wide_mm)


def least_high_mm(beam: Beam, back: Back, *, kind: Stiffener, out_mm: float) -> float:
    """The least height of a strip or a bar that brings the sag within its limit, by halving; 0 where none does.

    Args:
        out_mm: how thick it is [mm], > 0.
    Raises:
        OutOfRange: a quantity is out of range.
    Source: derived.

    >>> beam = Beam(span_mm=1000, package_kg=6, elasticity_mpa=10_000, second_moment_mm4=20_000, area_mm2=400,
    ...     density_kg_m3=500, face_width_mm=25, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=10)
    >>> back = Back(most_high_mm=100, up_mm=800, density_kg_m3=500, top_kg=0.2)
    >>> round(least_high_mm(beam, back, kind=Stiffener.STRIP, out_mm=12), 1)
    20.9
    """
    low_mm, high_mm = min(LEAST_HIGH_MM, back.most_high_mm), back.most_high_mm
    for end_mm, is_end in ((low_mm, True), (high_mm, False)):
        if stiffened(beam, back, kind=kind, out_mm=out_mm, wide_mm=end_mm).is_enough is is_end:
            return end_mm if is_end else 0.0
    while high_mm - low_mm > TOLERANCE_MM:
        middle_mm = (low_mm + high_mm) / 2
        is_stiff = stiffened(beam, back, kind=kind, out_mm=out_mm, wide_mm=middle_mm).is_enough
        low_mm, high_mm = (low_mm, middle_mm) if is_stiff else (middle_mm, high_mm)
    return high_mm


def stiffened_findings(found: Stiffened) -> tuple[Finding, ...]:
    """Report a member that still sags too far.

    Source: beam theory; the limit is usual practice.
    """
    if found.is_enough:
        return ()
    return (
        Finding(
            code="sag.bottom",
            severity=Severity.STOP if found.sag_mm > FAR_TOO_MUCH * found.limit_mm else Severity.WARN,
            sentence="Stiffened, the bottom member still sags by {sag}; up to {limit} is usual.",
            why="Its corners open. A thicker or stiffer one, a wider face, or lighter glazing help.",
            source=SAG_SOURCE,
            argument="stiffener",
            lengths={"sag": found.sag_mm, "limit": found.limit_mm},
        ),
    )


def _along(beam: Beam, back: Back, kind: Stiffener, out_mm: float, wide_mm: float) -> Stiffened:
    elasticity_mpa, density_kg_m3 = (
        (STEEL_MPA, STEEL_KG_M3) if kind is Stiffener.BAR else (beam.elasticity_mpa, back.density_kg_m3)
    )
    mass_kg = beam.span_mm * wide_mm * out_mm * density_kg_m3 / MM3_PER_M3
    more_mm4 = elasticity_mpa / beam.elasticity_mpa * out_mm * wide_mm**3 / 12
    sag_mm = beam_sag_mm(
        span_mm=beam.span_mm,
        load_n=(beam.package_kg + beam.own_kg + mass_kg) * GRAVITY_N_PER_KG,
        elasticity_mpa=beam.elasticity_mpa,
        second_moment_mm4=beam.second_moment_mm4 + more_mm4,
    )
    return Stiffened(
        kind=kind,
        long_mm=beam.span_mm,
        wide_mm=wide_mm,
        out_mm=out_mm,
        mass_kg=mass_kg,
        sag_mm=sag_mm,
        limit_mm=beam.limit_mm,
    )


def _with_strut(beam: Beam, back: Back, out_mm: float, wide_mm: float) -> Stiffened:
    long_mm = back.up_mm - 2 * STRUT_IN_MM
    mass_kg = long_mm * wide_mm * out_mm * back.density_kg_m3 / MM3_PER_M3
    spread_mm = beam_sag_mm(
        span_mm=beam.span_mm,
        load_n=(beam.package_kg + beam.own_kg + back.top_kg) / 2 * GRAVITY_N_PER_KG,
        elasticity_mpa=beam.elasticity_mpa,
        second_moment_mm4=beam.second_moment_mm4,
    )
    stiff = 48 * beam.elasticity_mpa * beam.second_moment_mm4 / beam.span_mm**3
    return Stiffened(
        kind=Stiffener.STRUT,
        long_mm=long_mm,
        wide_mm=wide_mm,
        out_mm=out_mm,
        mass_kg=mass_kg,
        sag_mm=spread_mm + mass_kg * GRAVITY_N_PER_KG / 2 / stiff,
        limit_mm=beam.limit_mm,
    )
