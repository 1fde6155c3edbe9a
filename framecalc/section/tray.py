"""The tray section: an L whose wall stands around the artwork and whose ledge carries it from behind.

Across runs from the outer side (x = 0) over the wall to the ledge, up from the back (y = 0) to the wall's top. Nothing
laps over the artwork; an even gap stays between it and the wall.
"""

from framecalc.errors import ImpossibleSection
from framecalc.evidence import USUAL_PRACTICE
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.geometry.outline import Outline, area_mm2, join
from framecalc.limits import require_positive
from framecalc.records import Record
from framecalc.section.profile import Edge, FaceShape, milled_profile
from framecalc.units import TOLERANCE_MM

LEAST_WALL_MM = 6.0
"""Under 1/4 in a mitred wall is hard to glue and to keep straight. Source: common practice, no source."""

LEAST_LEDGE_MM = 6.0
"""Under 1/4 in a ledge does not hold the head of a screw. Source: common practice, no source."""


class TraySection(Record):
    """A member of a tray: what it was milled from, its outline, its area. `depth_mm` is the wall above the ledge."""

    wall_mm: float
    height_mm: float
    ledge_width_mm: float
    ledge_thickness_mm: float
    sight_edge: Edge
    back_edge: Edge
    outline: Outline
    depth_mm: float
    area_mm2: float


def tray_section(
    *,
    wall_mm: float,
    height_mm: float,
    ledge_width_mm: float,
    ledge_thickness_mm: float,
    sight_edge: Edge,
    back_edge: Edge,
) -> TraySection:
    """Mill an L: wall by height, a ledge on its inner side at the back, shapes on both edges of the wall's top.

    Args:
        wall_mm, height_mm: the wall [mm], > 0.
        ledge_width_mm: from the wall's inner side [mm], > 0.
        ledge_thickness_mm: [mm], > 0 and less than the height.
        sight_edge: shape on the inner edge of the wall's top; back_edge: shape on its outer edge.
    Raises:
        OutOfRange: a length is not above zero.
        ImpossibleSection: the ledge leaves no wall, or a shape takes all of a side or of the top.
    Source: derived; the section is common practice, no source.

    >>> from framecalc.section.profile import EdgeShape
    >>> square = Edge(shape=EdgeShape.SQUARE, size_mm=1)
    >>> tray = tray_section(wall_mm=8, height_mm=40, ledge_width_mm=20, ledge_thickness_mm=8, sight_edge=square,
    ...     back_edge=square)
    >>> tray.depth_mm, tray.area_mm2
    (32, 480.0)
    """
    require_positive(tray_wall_mm=wall_mm, tray_height_mm=height_mm)
    require_positive(tray_ledge_width_mm=ledge_width_mm, tray_ledge_thickness_mm=ledge_thickness_mm)
    _require_wall_over_ledge(ledge_thickness_mm, height_mm)
    profile = milled_profile(
        width_mm=wall_mm,
        height_mm=height_mm,
        floor_mm=ledge_thickness_mm,
        sight_side="inner side",
        sight_edge=sight_edge,
        back_edge=back_edge,
        face=FaceShape.FLAT,
        face_drop_mm=0,
    )
    foot_mm = wall_mm + ledge_width_mm
    ledge = join([(0, 0), (foot_mm, 0), (foot_mm, ledge_thickness_mm), (wall_mm, ledge_thickness_mm)])
    outline = Outline(segments=(*ledge, *profile.chain))
    return TraySection(
        wall_mm=wall_mm,
        height_mm=height_mm,
        ledge_width_mm=ledge_width_mm,
        ledge_thickness_mm=ledge_thickness_mm,
        sight_edge=sight_edge,
        back_edge=back_edge,
        outline=outline,
        depth_mm=height_mm - ledge_thickness_mm,
        area_mm2=area_mm2(outline),
    )


def tray_section_findings(tray: TraySection) -> tuple[Finding, ...]:
    """What will go wrong with a tray that can be milled: thin wall, thin ledge.

    Source: common practice, no source.

    >>> from framecalc.section.profile import EdgeShape
    >>> square = Edge(shape=EdgeShape.SQUARE, size_mm=1)
    >>> tray = tray_section(wall_mm=8, height_mm=40, ledge_width_mm=12, ledge_thickness_mm=4, sight_edge=square,
    ...     back_edge=square)
    >>> [finding.code for finding in tray_section_findings(tray)]
    ['tray.ledge-thin']
    """
    return tuple(finding for finding in (_wall_finding(tray), _ledge_finding(tray)) if finding)


def _require_wall_over_ledge(ledge_thickness_mm: float, height_mm: float) -> None:
    if ledge_thickness_mm > height_mm - TOLERANCE_MM:
        raise ImpossibleSection(
            "No side left above the ledge: enter under {height}, not {ledge}.",
            field="tray_ledge_thickness_mm",
            lengths={"ledge": ledge_thickness_mm, "height": height_mm},
        )


def _wall_finding(tray: TraySection) -> Finding | None:
    if tray.wall_mm >= LEAST_WALL_MM - TOLERANCE_MM:
        return None
    thicker = Way(argument="tray_wall_mm", value_mm=LEAST_WALL_MM, says="make the wall thicker", rounding=Rounding.UP)
    return Finding(
        code="tray.wall-thin",
        severity=Severity.WARN,
        sentence="The wall is only {wall} thick; {limit} is usual.",
        why="A thin wall warps, and its mitres have little to glue.",
        source=USUAL_PRACTICE,
        argument="tray_wall_mm",
        lengths={"wall": tray.wall_mm, "limit": LEAST_WALL_MM},
        ways=(thicker,),
    )


def _ledge_finding(tray: TraySection) -> Finding | None:
    if tray.ledge_thickness_mm >= LEAST_LEDGE_MM - TOLERANCE_MM:
        return None
    thicker = Way(
        argument="tray_ledge_thickness_mm",
        value_mm=LEAST_LEDGE_MM,
        says="make the ledge thicker",
        rounding=Rounding.UP,
    )
    return Finding(
        code="tray.ledge-thin",
        severity=Severity.WARN,
        sentence="The ledge is only {ledge} thick; {limit} is usual.",
        why="The artwork is screwed on through the ledge, and hangs by it.",
        source=USUAL_PRACTICE,
        argument="tray_ledge_thickness_mm",
        lengths={"ledge": tray.ledge_thickness_mm, "limit": LEAST_LEDGE_MM},
        ways=(thicker,) if tray.height_mm > LEAST_LEDGE_MM + TOLERANCE_MM else (),
    )
