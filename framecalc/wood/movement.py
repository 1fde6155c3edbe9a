"""How much a wood moves: from its table of coefficients, from its shrinkage, by the angle of its rings.

Wood moves across its grain only. *Flat-sawn* stock has its growth rings along its face (ring angle 0°) and moves most,
tangentially; *quarter-sawn* stock has them square to it (90°) and moves radially, about half as much. A *coefficient*
is the change of width per 1 % of moisture content, as a fraction of the width; the tables hold from 6 to 14 %.
"""

from math import cos, radians, sin

from framecalc.findings import Finding, Severity
from framecalc.limits import require_between, require_positive
from framecalc.records import Record
from framecalc.tables.wood import Species

TABLE_RANGE_PCT = (6.0, 14.0)
"""Moisture contents for which the coefficients hold. Source: Wood Handbook FPL-GTR-190, table 13-5."""

MOST_MOISTURE_PCT = 30.0


class Coefficients(Record):
    """What a wood moves per 1 % of moisture content, along and across its rings; and whether two tables agree on it."""

    radial_per_pct: float
    tangential_per_pct: float
    from_table: bool
    agrees: bool


def coefficients_of(species: Species) -> Coefficients:
    """Take the coefficients of a wood: the larger of the table's and of those that its shrinkage gives.

    Where the handbook has none, those of the shrinkage.

    Source: Wood Handbook FPL-GTR-190, table 13-5; ``C = (S/f) / (100 − S·(f − 10)/f)`` from the shrinkage S, where
        it begins at f % (chapter 13, from memory, not re-read).

    >>> from framecalc.tables.wood import wood_species
    >>> cherry = next(species for species in wood_species() if species.species_id == "black_cherry")
    >>> coefficients_of(cherry).tangential_per_pct
    0.00248
    """
    return Coefficients(
        radial_per_pct=max(species.table_radial_per_pct, species.derived_radial_per_pct),
        tangential_per_pct=max(species.table_tangential_per_pct, species.derived_tangential_per_pct),
        from_table=species.table_tangential_per_pct >= species.derived_tangential_per_pct,
        agrees=not species.table_tangential_per_pct
        or abs(species.table_tangential_per_pct / species.derived_tangential_per_pct - 1) < 0.01,
    )


def coefficient_per_pct(coefficients: Coefficients, *, ring_deg: float) -> float:
    """Find the coefficient across a face whose rings stand at an angle to it.

    ``C = C_T·cos²θ + C_R·sin²θ``

    Args:
        ring_deg: θ [°], 0 to 90; 0 is flat-sawn, 90 quarter-sawn.
    Raises:
        OutOfRange: angle out of range.
    Source: derived (strain in a turned direction; rings taken as straight, shear as none).

    >>> cherry = Coefficients(radial_per_pct=0.00126, tangential_per_pct=0.00248, from_table=True, agrees=True)
    >>> round(coefficient_per_pct(cherry, ring_deg=45), 5)
    0.00187
    """
    require_between(0, 90, ring_deg=ring_deg)
    turn_rad = radians(ring_deg)
    return coefficients.tangential_per_pct * cos(turn_rad) ** 2 + coefficients.radial_per_pct * sin(turn_rad) ** 2


def change_mm(width_mm: float, *, coefficient_per_pct: float, from_pct: float, to_pct: float) -> float:
    """Find how much wider stock becomes; negative when it shrinks.

    ``ΔD = D · C · (M₂ − M₁)``

    Args:
        width_mm: D, across the grain, at the first moisture content [mm], > 0.
        coefficient_per_pct: C, per 1 % [fraction], > 0.
        from_pct, to_pct: moisture contents, 0 to 30 [%].
    Raises:
        OutOfRange: width, coefficient or moisture out of range.
    Source: Wood Handbook FPL-GTR-190, equation 13-2, read second hand.

    >>> round(change_mm(232, coefficient_per_pct=0.00245, from_pct=8, to_pct=11), 3)
    1.705
    """
    require_positive(width_mm=width_mm, coefficient_per_pct=coefficient_per_pct)
    require_between(0, MOST_MOISTURE_PCT, from_pct=from_pct, to_pct=to_pct)
    return width_mm * coefficient_per_pct * (to_pct - from_pct)


def movement_findings(coefficients: Coefficients, *, least_pct: float, most_pct: float) -> tuple[Finding, ...]:
    """Report when coefficients are used outside their table, and when the two sources do not agree.

    Args:
        least_pct, most_pct: the driest and the moistest that the wood will be [%].
    Source: Wood Handbook FPL-GTR-190, table 13-5 (6 to 14 %).

    >>> cherry = Coefficients(radial_per_pct=0.00126, tangential_per_pct=0.00248, from_table=True, agrees=True)
    >>> [finding.code for finding in movement_findings(cherry, least_pct=5, most_pct=9)]
    ['movement.outside-table']
    """
    found = []
    if least_pct < TABLE_RANGE_PCT[0] or most_pct > TABLE_RANGE_PCT[1]:
        found.append(_outside_table(least_pct, most_pct))
    if not coefficients.agrees:
        found.append(_disagree(coefficients))
    return tuple(found)


def _outside_table(least_pct: float, most_pct: float) -> Finding:
    return Finding(
        code="movement.outside-table",
        severity=Severity.NOTE,
        sentence=f"The wood goes from {least_pct:.1f} to {most_pct:.1f}%; its coefficients are given for 6 to 14%.",
        why="Outside that range wood moves a little differently; take the number as a guide.",
        source="Wood Handbook FPL-GTR-190, table 13-5",
        argument="humidity_pct",
    )


def _disagree(coefficients: Coefficients) -> Finding:
    which = "movement" if coefficients.from_table else "shrinkage"
    return Finding(
        code="movement.tables-disagree",
        severity=Severity.NOTE,
        sentence=f"For this wood two tables do not agree; the larger, from its {which}, is used.",
        why="They rest on different samples, or one is for a group of woods sold under one name.",
        source="Wood Handbook FPL-GTR-190, tables 4-3, 4-4 and 13-5",
        argument="species",
    )
