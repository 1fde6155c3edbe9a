"""How a package grows and shrinks with the air of its room, the clearance for that, and how a panel is held.

A *room* is three kinds of air: as it was when the package was fitted, at its driest and at its dampest; the warmest and
the coldest of the three count for growth with heat. Each layer is taken at rest with the air, so the growth is the most
that is possible. A *solid panel* moves across its grain only: it is fixed on the line about which it may move, and
slides everywhere else.
"""

from collections.abc import Iterator

from framecalc.errors import quoted
from framecalc.evidence import USUAL_PRACTICE
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.limits import require_between, require_not_negative, require_positive
from framecalc.package.seat import LEAST_COVER_MM
from framecalc.records import Record
from framecalc.sizes.chain import TIGHT_CLEARANCE_MM
from framecalc.tables.sheets import SheetMaterial
from framecalc.units import TOLERANCE_MM
from framecalc.wood.moisture import equilibrium_pct
from framecalc.wood.movement import Coefficients, change_mm, coefficient_per_pct
from framecalc.wood.seasons import Air
from framecalc.words import worded

ACRYLIC_DAMP_PER_PCT = 4e-5
"""Acrylic swells by about 0.35 to 0.4 % from dry to soaked; 0.04 % per 10 % of humidity. Low confidence.
Source: from memory of plastics handbooks, not re-read; the shop's table gives no figure."""


class Room(Record):
    """The air when the package was fitted, and at its driest and dampest afterwards."""

    fitted: Air
    driest: Air
    dampest: Air

    @property
    def warming_k(self) -> float:
        """How much warmer than at fitting it may become, never less than nothing."""
        return max(air.temperature_c for air in (self.fitted, self.driest, self.dampest)) - self.fitted.temperature_c

    @property
    def cooling_k(self) -> float:
        """How much colder."""
        return self.fitted.temperature_c - min(air.temperature_c for air in (self.fitted, self.driest, self.dampest))

    @property
    def damping_pct(self) -> float:
        """How much damper."""
        return max(0.0, self.dampest.humidity_pct - self.fitted.humidity_pct)

    @property
    def drying_pct(self) -> float:
        """How much drier."""
        return max(0.0, self.fitted.humidity_pct - self.driest.humidity_pct)


class Growth(Record):
    """What one dimension of a layer gains and loses against its size at fitting, and the clearance it asks for."""

    length_mm: float
    swells_mm: float
    shrinks_mm: float

    @property
    def clearance_mm(self) -> float:
        """Total looseness that still leaves some play at the largest."""
        return self.swells_mm + TIGHT_CLEARANCE_MM


class PanelHold(Record):
    """How a solid panel is held: where fixed, where it slides, and how long the slot of a screw at its edge must be."""

    fixed: str
    slides: str
    travel_mm: float
    slot_mm: float


def sheet_growth(length_mm: float, *, material: SheetMaterial, room: Room) -> Growth:
    """Find how a sheet of glazing or board grows in one direction.

    ``ΔL = L · (α·ΔT + β·ΔRH)``; acrylic, whose row has no β, takes ACRYLIC_DAMP_PER_PCT.

    Args:
        length_mm: L at fitting [mm], > 0.
    Raises:
        OutOfRange: length out of range.
    Source: physics; α and β as in tables/sheet_materials.csv.

    >>> from framecalc.tables.sheets import sheet_materials
    >>> acrylic = next(sheet for sheet in sheet_materials() if sheet.material_id == "acrylic")
    >>> cool, hot = Air(temperature_c=15, humidity_pct=50), Air(temperature_c=35, humidity_pct=50)
    >>> round(sheet_growth(1000, material=acrylic, room=Room(fitted=cool, driest=hot, dampest=cool)).swells_mm, 2)
    1.4
    """
    require_positive(length_mm=length_mm)
    damp_per_pct = ACRYLIC_DAMP_PER_PCT if material.material_id == "acrylic" else material.growth_per_pct
    return Growth(
        length_mm=length_mm,
        swells_mm=length_mm * (material.growth_per_k * room.warming_k + damp_per_pct * room.damping_pct),
        shrinks_mm=length_mm * (material.growth_per_k * room.cooling_k + damp_per_pct * room.drying_pct),
    )


def panel_growth(width_mm: float, *, coefficients: Coefficients, ring_deg: float, room: Room) -> Growth:
    """Find how a solid panel grows across its grain.

    ``ΔW = W · C(θ) · ΔM``, with M the wood's moisture at rest with the air.

    Args:
        width_mm: W across the grain at fitting [mm], > 0.
        ring_deg: θ, the angle of the rings to the face: 0 flat-sawn to 90 quarter-sawn [°].
    Raises:
        OutOfRange: width, angle or air out of range.
    Source: derived from Wood Handbook FPL-GTR-190, equation 13-2, and FPL-GTR-282, equation 4-5, read second hand.

    >>> pine = Coefficients(radial_per_pct=0.00071, tangential_per_pct=0.00212, from_table=True, agrees=True)
    >>> air = [Air(temperature_c=20, humidity_pct=humidity) for humidity in (50, 35, 60)]
    >>> room = Room(fitted=air[0], driest=air[1], dampest=air[2])
    >>> growth = panel_growth(400, coefficients=pine, ring_deg=0, room=room)
    >>> round(growth.swells_mm, 2), round(growth.shrinks_mm, 2)
    (1.47, 1.96)
    """
    moistures_pct = [
        equilibrium_pct(air.temperature_c, humidity_pct=air.humidity_pct)
        for air in (room.fitted, room.driest, room.dampest)
    ]
    coefficient = coefficient_per_pct(coefficients, ring_deg=ring_deg)
    changes_mm = [
        change_mm(width_mm, coefficient_per_pct=coefficient, from_pct=moistures_pct[0], to_pct=moisture_pct)
        for moisture_pct in moistures_pct
    ]
    return Growth(length_mm=width_mm, swells_mm=max(changes_mm), shrinks_mm=-min(changes_mm))


def along_the_grain(length_mm: float) -> Growth:
    """The growth of a solid panel along its grain: too little to reckon with.

    Source: Wood Handbook FPL-GTR-190, chapter 4: 0.1 to 0.2 % from green to dry, from memory, not re-read.

    >>> along_the_grain(500).clearance_mm
    1.0
    """
    require_positive(length_mm=length_mm)
    return Growth(length_mm=length_mm, swells_mm=0.0, shrinks_mm=0.0)


def longest_mm(clearance_mm: float, *, growth_ratio: float) -> float:
    """Find the longest sheet that may grow within a clearance.

    ``L = clearance / growth``

    Args:
        clearance_mm: total looseness, both sides together [mm], ≥ 0.
        growth_ratio: growth of a unit of length, such as α·ΔT, > 0.
    Raises:
        OutOfRange: clearance or growth out of range.
    Source: physics.

    >>> round(longest_mm(3, growth_ratio=70e-6 * 20))
    2143
    """
    require_not_negative(clearance_mm=clearance_mm)
    require_positive(growth_ratio=growth_ratio)
    return clearance_mm / growth_ratio


def hold_panel(growth: Growth, *, grain_runs_up: bool, screw_mm: float, from_edge_mm: float) -> PanelHold:
    """Find how to hold a solid panel so that it can move across its grain.

    A panel fixed on its middle line moves half as much at each edge; a screw there needs a slot as long as its own
    thickness and the whole way of that edge: ``slot = screw + (swells + shrinks)/2 · (1 − 2·distance/width)``.

    Args:
        growth: across the grain.
        screw_mm: the screw's thickness [mm], > 0.
        from_edge_mm: how far the outermost screw stands from the panel's edge [mm], 0 to half the width.
    Raises:
        OutOfRange: screw or place out of range.
    Source: derived; fixing a panel on its middle line is common practice, no source.

    >>> growth = Growth(length_mm=400, swells_mm=2, shrinks_mm=2)
    >>> hold = hold_panel(growth, grain_runs_up=True, screw_mm=4, from_edge_mm=0)
    >>> hold.slot_mm, hold.fixed
    (6.0, 'at the middle of the top and of the bottom')
    """
    require_positive(screw_mm=screw_mm)
    require_between(0, growth.length_mm / 2, from_edge_mm=from_edge_mm)
    share = 1 - 2 * from_edge_mm / growth.length_mm
    travel_mm = (growth.swells_mm + growth.shrinks_mm) / 2 * share
    ends, edges = (
        ("top and of the bottom", "left and right") if grain_runs_up else ("left and of the right", "top and bottom")
    )
    return PanelHold(
        fixed=f"at the middle of the {ends}",
        slides=f"along both edges, {edges}, and everywhere off the middle line",
        travel_mm=travel_mm,
        slot_mm=screw_mm + travel_mm,
    )


def growth_findings(
    across: Growth,
    up: Growth,
    *,
    name: str,
    clearance_across_mm: float,
    clearance_up_mm: float,
    rabbet_width_mm: float,
    is_tray: bool = False,
) -> tuple[Finding, ...]:
    """Report where a layer outgrows its clearance, has little play left, or shrinks out of the lip's cover.

    Args:
        across, up: the growth of the layer in each direction.
        name: the layer, as typed.
        clearance_across_mm, clearance_up_mm: total looseness at fitting [mm].
        rabbet_width_mm: rabbet wall to sight edge, each side [mm]; 0 where nothing laps over.
        is_tray: whether the looseness is the gap of a tray, on both sides.
    Source: derived; the play and the cover to keep are common practice, no source.

    >>> wide = Growth(length_mm=900, swells_mm=4, shrinks_mm=3)
    >>> [finding.code for finding in growth_findings(wide, wide, name="panel", clearance_across_mm=3, clearance_up_mm=6,
    ...     rabbet_width_mm=6)]
    ['growth.binds-across', 'growth.light-across', 'growth.light-up']
    """
    found: list[Finding] = []
    for direction, growth, clearance_mm in (("across", across, clearance_across_mm), ("up", up, clearance_up_mm)):
        found += _too_large(growth, name, direction, clearance_mm, is_tray=is_tray)
        if rabbet_width_mm:
            found += _too_small(growth, name, direction, clearance_mm, rabbet_width_mm)
    return tuple(found)


def _too_large(growth: Growth, name: str, direction: str, clearance_mm: float, *, is_tray: bool) -> Iterator[Finding]:
    play_mm = clearance_mm - growth.swells_mm
    if growth.swells_mm <= TOLERANCE_MM or play_mm >= TIGHT_CLEARANCE_MM - TOLERANCE_MM:
        return
    binds = play_mm < -TOLERANCE_MM
    argument = "tray_gap_mm" if is_tray else f"clearance_{direction}_mm"
    room = "the gap on both sides together" if is_tray else "the clearance"
    yield Finding(
        code=f"growth.{'binds' if binds else 'tight'}-{direction}",
        severity=Severity.STOP if binds else Severity.WARN,
        sentence=(
            worded("At its largest {name} is {swells} larger ", name=quoted(name))
            + f"{direction} than at fitting, and {room} is {{clearance}}."
        ),
        why="A layer without room to grow bows, or pushes the mitres open.",
        source=USUAL_PRACTICE if not binds else "derived",
        argument=argument,
        lengths={"swells": growth.swells_mm, "clearance": clearance_mm},
        ways=(
            Way(
                argument=argument,
                value_mm=growth.clearance_mm / 2 if is_tray else growth.clearance_mm,
                says="give it room to grow",
                rounding=Rounding.UP,
            ),
        ),
    )


def _too_small(
    growth: Growth, name: str, direction: str, clearance_mm: float, rabbet_width_mm: float
) -> Iterator[Finding]:
    cover_mm = rabbet_width_mm - clearance_mm - growth.shrinks_mm
    if growth.shrinks_mm <= TOLERANCE_MM or cover_mm >= LEAST_COVER_MM - TOLERANCE_MM:
        return
    yield Finding(
        code=f"growth.light-{direction}",
        severity=Severity.WARN,
        sentence=(
            worded("At its smallest {name} may lie only {cover} under the lip on one side ", name=quoted(name))
            + f"{direction}; leave {{least}}."
        ),
        why="A layer that has shrunk and slipped to one side shows its edge, or a line of light.",
        source=USUAL_PRACTICE,
        argument="rabbet_width_mm",
        lengths={"cover": cover_mm, "least": LEAST_COVER_MM},
        ways=(
            Way(
                argument="rabbet_width_mm",
                value_mm=LEAST_COVER_MM + clearance_mm + growth.shrinks_mm,
                says="lap over more",
                rounding=Rounding.UP,
            ),
        ),
    )
