"""A box for an object: how deep it must be, the walls that keep the glazing off, and the shadow that the lip throws.

The *walls* are strips that stand in the rabbet between the glazing and the back. A *lamp* stands above or beside the
frame at an angle, measured from straight in front: 0° throws no shadow, 60° a long one.
"""

from math import radians, tan

from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding, Severity
from framecalc.limits import require_between, require_not_negative, require_positive
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

USUAL_AIR_MM = 6.0
"""Air between the object and the glazing (1/4 in). Source: common practice, no source."""

STEEPEST_LAMP_DEG = 80.0


class WallStrip(Record):
    """Walls that are cut alike: how many, how long, how high they stand in the box, how thick."""

    count: int
    length_mm: float
    height_mm: float
    thickness_mm: float


class Box(Record):
    """A box: its walls and the clear space inside them."""

    walls: tuple[WallStrip, WallStrip]
    inside_across_mm: float
    inside_up_mm: float
    inside_depth_mm: float


def box_around(
    *,
    object_depth_mm: float,
    air_mm: float = USUAL_AIR_MM,
    rabbet_across_mm: float,
    rabbet_up_mm: float,
    clearance_mm: float,
    wall_mm: float,
) -> Box:
    """Set out the walls of a box that stands in the rabbet: top and bottom run through, the sides stand between them.

    ``height = object + air``; ``through = rabbet − clearance``; ``between = rabbet − clearance − 2·wall``

    Args:
        object_depth_mm: the object from its back [mm], > 0.
        air_mm: between the object and the glazing [mm], ≥ 0.
        rabbet_across_mm, rabbet_up_mm: rabbet wall to rabbet wall [mm], > 0.
        clearance_mm: total looseness of the box [mm], ≥ 0.
        wall_mm: thickness of the walls [mm], > 0.
    Raises:
        OutOfRange: length out of range.
        ImpossibleSize: the walls leave nothing between them.
    Source: plane geometry; the air is common practice, no source.

    >>> box = box_around(object_depth_mm=30, rabbet_across_mm=300, rabbet_up_mm=400, clearance_mm=2, wall_mm=5)
    >>> [(wall.count, wall.length_mm, wall.height_mm) for wall in box.walls]
    [(2, 298.0, 36.0), (2, 388.0, 36.0)]
    """
    require_positive(object_depth_mm=object_depth_mm, wall_thickness_mm=wall_mm)
    require_positive(rabbet_across_mm=rabbet_across_mm, rabbet_up_mm=rabbet_up_mm)
    require_not_negative(air_mm=air_mm, clearance_mm=clearance_mm)
    height_mm = object_depth_mm + air_mm
    across_mm, up_mm = float(rabbet_across_mm - clearance_mm), float(rabbet_up_mm - clearance_mm)
    if min(across_mm, up_mm) - 2 * wall_mm <= TOLERANCE_MM:
        raise ImpossibleSize(
            "Nothing left inside {room}: enter walls thinner than {wall}.",
            field="wall_thickness_mm",
            lengths={"wall": wall_mm, "room": min(across_mm, up_mm)},
        )
    through = WallStrip(count=2, length_mm=across_mm, height_mm=height_mm, thickness_mm=wall_mm)
    between = WallStrip(count=2, length_mm=up_mm - 2 * wall_mm, height_mm=height_mm, thickness_mm=wall_mm)
    return Box(
        walls=(through, between),
        inside_across_mm=across_mm - 2 * wall_mm,
        inside_up_mm=between.length_mm,
        inside_depth_mm=height_mm,
    )


def shadow_mm(*, depth_mm: float, lamp_deg: float) -> float:
    """Find how far the shadow of the lip falls onto a surface behind it.

    ``shadow = depth · tan(lamp)``

    Args:
        depth_mm: from the edge that throws the shadow to the surface: lip thickness, glazing and air with it [mm], ≥ 0.
        lamp_deg: angle of the light from straight in front, 0 to 80 [°].
    Raises:
        OutOfRange: depth or angle out of range.
    Source: plane geometry (a lamp far off; the sight edge square, so that its face side throws the shadow).

    >>> round(shadow_mm(depth_mm=50, lamp_deg=30), 2)
    28.87
    """
    require_not_negative(depth_mm=depth_mm)
    require_between(0, STEEPEST_LAMP_DEG, lamp_deg=lamp_deg)
    return depth_mm * tan(radians(lamp_deg))


def box_findings(
    box: Box, *, lip_mm: float, glazing_mm: float, margin_mm: float, lamp_deg: float, covered_mm: float
) -> tuple[Finding, ...]:
    """Report where the object lies in the lip's shadow, and where the walls stand in view.

    Args:
        lip_mm: thickness of the lip at the sight edge [mm].
        glazing_mm: thickness of the glazing [mm].
        margin_mm: from the sight edge to the object, on the side of the lamp [mm].
        lamp_deg: angle of the light from straight in front [°].
        covered_mm: what the lip covers of the package, centred [mm].
    Source: plane geometry.

    >>> box = box_around(object_depth_mm=30, rabbet_across_mm=300, rabbet_up_mm=400, clearance_mm=2, wall_mm=8)
    >>> [finding.code for finding in box_findings(box, lip_mm=6, glazing_mm=3, margin_mm=20, lamp_deg=35, covered_mm=5)]
    ['box.shadow', 'box.walls-in-view']
    """
    back_mm = lip_mm + glazing_mm + box.inside_depth_mm
    shadow = shadow_mm(depth_mm=back_mm, lamp_deg=lamp_deg)
    found, (wall, _) = [], box.walls
    if shadow > margin_mm + TOLERANCE_MM:
        found.append(_shadow_finding(shadow, margin_mm, lamp_deg))
    if wall.thickness_mm > covered_mm + TOLERANCE_MM:
        found.append(_walls_finding(wall.thickness_mm, covered_mm))
    return tuple(found)


def box_depth_findings(box: Box, *, around_mm: float, rabbet_depth_mm: float, spacer_mm: float) -> tuple[Finding, ...]:
    """Report where the rabbet is too shallow for the box, and where the layers do not count its walls.

    Args:
        around_mm: glazing, backing and back together [mm].
        rabbet_depth_mm: [mm].
        spacer_mm: the spacers among the layers: walls count as one, as thick as they are high [mm].
    Source: plane geometry.

    >>> box = box_around(object_depth_mm=30, rabbet_across_mm=300, rabbet_up_mm=400, clearance_mm=2, wall_mm=8)
    >>> [finding.code for finding in box_depth_findings(box, around_mm=5, rabbet_depth_mm=40, spacer_mm=36)]
    ['box.shallow']
    """
    needed_mm = box.inside_depth_mm + around_mm
    checks = (
        (needed_mm > rabbet_depth_mm + TOLERANCE_MM, _shallow_finding(needed_mm, rabbet_depth_mm)),
        (abs(spacer_mm - box.inside_depth_mm) > TOLERANCE_MM, _layers_finding(spacer_mm, box.inside_depth_mm)),
    )
    return tuple(finding for found, finding in checks if found)


def _shallow_finding(needed_mm: float, rabbet_depth_mm: float) -> Finding:
    return Finding(
        code="box.shallow",
        severity=Severity.STOP,
        sentence="The box is {needed} deep with its glazing and back, and the rabbet {depth}.",
        why="What stands out behind the frame keeps it off the wall: a deeper rabbet, or a strip built up on the back.",
        source="plane geometry",
        argument="rabbet_depth_mm",
        lengths={"needed": needed_mm, "depth": rabbet_depth_mm},
    )


def _layers_finding(spacer_mm: float, height_mm: float) -> Finding:
    return Finding(
        code="box.layers",
        severity=Severity.NOTE,
        sentence="The walls are {height} high, and the spacers among the layers {spacer}.",
        why="Walls stand between glazing and back as a spacer does: list them as one, as thick as they are high.",
        source="plane geometry",
        argument="layer",
        lengths={"height": height_mm, "spacer": spacer_mm},
    )


def _shadow_finding(shadow: float, margin_mm: float, lamp_deg: float) -> Finding:
    return Finding(
        code="box.shadow",
        severity=Severity.NOTE,
        sentence=(
            f"In light from {lamp_deg:g}° the lip's shadow falls {{shadow}} onto the back, "
            "and the object begins at {margin}."
        ),
        why="A steep lamp leaves the top of a deep box dark.",
        source="plane geometry",
        argument="layer",
        lengths={"shadow": shadow, "margin": margin_mm},
    )


def _walls_finding(wall_mm: float, covered_mm: float) -> Finding:
    return Finding(
        code="box.walls-in-view",
        severity=Severity.NOTE,
        sentence="The walls are {wall} thick, and the lip covers {covered}: their edge is in view, so finish it.",
        why="What the lip does not cover is seen from the front.",
        source="plane geometry",
        argument="rabbet_width_mm",
        lengths={"wall": wall_mm, "covered": covered_mm},
    )
