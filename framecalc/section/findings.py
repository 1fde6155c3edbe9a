"""What will go wrong with a section that can be milled: thin lip, thin land, narrow rabbet, no hold for screws."""

from math import inf

from framecalc.errors import FrameCalcError
from framecalc.evidence import USUAL_PRACTICE
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.records import replace
from framecalc.section.profile import EdgeShape, FaceShape
from framecalc.section.rabbeted import KEPT_UNDER_FACE_MM, Section, longest_screw_mm, milled_section
from framecalc.units import TOLERANCE_MM

LEAST_LIP_MM = 5.0
"""Under this a lip splits off easily, in milling and in fitting. Source: common practice, no source."""

LEAST_LAND_MM = 10.0
"""Narrower land gives points, plates and screws no hold. Source: common practice, no source."""

USUAL_RABBET_MM = 6.0
"""Overlap on the glazing, 1/4 in. Source: common practice, no source."""

NARROW_RABBET_MM = 5.0
"""The least overlap on the glazing, 3/16 in, for small light frames. Source: common practice, no source."""

LEAST_SCREW_MM = 10.0
"""The shortest screw, 3/8 in, that holds hanging hardware. Source: common practice, no source."""

HALVINGS = 30
"""So often a depth is halved until it is found to a millionth of a millimetre."""


def section_findings(section: Section) -> tuple[Finding, ...]:
    """What will go wrong with a section that can be milled.

    Source: common practice, no source.

    >>> from framecalc.section.profile import Edge, EdgeShape
    >>> square = Edge(shape=EdgeShape.SQUARE, size_mm=1)
    >>> section = milled_section(face_width_mm=30, thickness_mm=16, rabbet_width_mm=6, rabbet_depth_mm=12,
    ...     sight_edge=square, back_edge=square, face=FaceShape.FLAT, face_drop_mm=0)
    >>> [(finding.code, finding.severity.value) for finding in section_findings(section)]
    [('section.lip-thin', 'warn')]
    """
    checks = (_lip_finding, _root_finding, _land_finding, _narrow_rabbet_finding, _screw_finding)
    return tuple(finding for check in checks if (finding := check(section)))


def _lip_finding(section: Section) -> Finding | None:
    missing_mm = LEAST_LIP_MM - section.least_lip_mm
    if missing_mm <= TOLERANCE_MM:
        return None
    ways = tuple(way for way in _ways_to_a_lip(section, missing_mm) if _leaves_lip(section, way))
    return Finding(
        code="section.lip-thin",
        severity=Severity.WARN,
        sentence=f"The lip is only {{lip}} thick{_where(section)}; {{limit}} is usual.",
        why="A thin lip splits off in milling, in fitting, or when the frame is knocked.",
        source=USUAL_PRACTICE,
        argument=ways[0].argument if ways else "thickness_mm",
        lengths={"lip": section.least_lip_mm, "limit": LEAST_LIP_MM, "inside": _thinnest_inside_mm(section)},
        ways=ways,
    )


def _root_finding(section: Section) -> Finding | None:
    """A hollow of a typed profile beside the lip, near the corner of the rabbet."""
    is_beside = section.least_wood_mm < min(section.least_lip_mm, LEAST_LIP_MM) - TOLERANCE_MM
    if section.face is not FaceShape.POINTS or not is_beside:
        return None
    return Finding(
        code="section.root-thin",
        severity=Severity.WARN,
        sentence="Beside the lip only {wood} is left between the face and the rabbet; {limit} is usual.",
        why="There the lip breaks off at its root.",
        source=USUAL_PRACTICE,
        argument="rabbet_depth_mm",
        lengths={"wood": section.least_wood_mm, "limit": LEAST_LIP_MM},
        ways=tuple(
            way
            for way in _ways_to_a_lip(section, _shallower_by_mm(section))
            if _milled_wood_mm(section, way) >= LEAST_LIP_MM - TOLERANCE_MM
        ),
    )


def _shallower_by_mm(section: Section) -> float:
    """By how much less of the rabbet, at the least, the usual wood is left; found by halving, as the way is slanted."""
    little_mm, enough_mm = 0.0, section.rabbet_depth_mm
    for _ in range(HALVINGS):
        tried_mm = (little_mm + enough_mm) / 2
        depth = Way(argument="rabbet_depth_mm", value_mm=section.rabbet_depth_mm - tried_mm, says="")
        is_enough = _milled_wood_mm(section, depth) >= LEAST_LIP_MM
        little_mm, enough_mm = (little_mm, tried_mm) if is_enough else (tried_mm, enough_mm)
    return enough_mm


def _milled_wood_mm(section: Section, way: Way) -> float:
    """The least wood after a way out; none where it cannot be milled."""
    try:
        return _milled_with(section, way).least_wood_mm
    except FrameCalcError:
        return -inf


def _thinnest_inside_mm(section: Section) -> float:
    return section.face_width_mm - section.least_lip_at_mm


def _where(section: Section) -> str:
    if section.least_lip_mm >= section.lip_mm - TOLERANCE_MM:
        return ""
    return " at the sight edge" if _thinnest_inside_mm(section) <= TOLERANCE_MM else " {inside} from the sight edge"


def _ways_to_a_lip(section: Section, missing_mm: float) -> tuple[Way, ...]:
    """Each takes what is missing out of one length, the cheapest first; whether it helps is tried by milling it."""
    return (
        *_way_to_a_smaller_edge(section, missing_mm),
        *_way_to_less_fall(section, missing_mm),
        Way(
            argument="rabbet_depth_mm",
            value_mm=section.rabbet_depth_mm - missing_mm,
            says="cut the rabbet shallower; offset clips hold a package that stands proud",
            rounding=Rounding.DOWN,
        ),
        Way(
            argument="thickness_mm",
            value_mm=section.thickness_mm + missing_mm,
            says="take thicker stock",
            rounding=Rounding.UP,
        ),
    )


def _way_to_a_smaller_edge(section: Section, missing_mm: float) -> tuple[Way, ...]:
    """How far an edge shape comes down the side grows in step with its size."""
    if section.sight_edge.shape is EdgeShape.SQUARE:
        return ()
    fall_mm = section.face_drop_mm if section.face is FaceShape.TOWARD else 0.0
    reach_down_mm = section.thickness_mm - fall_mm - section.sight_side_top_mm
    if reach_down_mm <= missing_mm + TOLERANCE_MM:
        return ()
    smaller_mm = section.sight_edge.size_mm * (1 - missing_mm / reach_down_mm)
    return (
        Way(
            argument="sight_edge_mm",
            value_mm=smaller_mm,
            says="mill less off the sight edge",
            rounding=Rounding.DOWN,
        ),
    )


def _way_to_less_fall(section: Section, missing_mm: float) -> tuple[Way, ...]:
    """A bevel has come down by its share of the fall where the lip is thinnest; at its upper end it takes nothing."""
    across_ratio = section.least_lip_at_mm / section.face_width_mm
    shares_ratio = {FaceShape.TOWARD: across_ratio, FaceShape.AWAY: 1 - across_ratio}
    share_ratio = shares_ratio.get(section.face)
    if share_ratio is None or share_ratio * section.face_drop_mm <= missing_mm + TOLERANCE_MM:
        return ()
    less_mm = section.face_drop_mm - missing_mm / share_ratio
    return (Way(argument="face_drop_mm", value_mm=less_mm, says="let the face fall less", rounding=Rounding.DOWN),)


def _leaves_lip(section: Section, way: Way) -> bool:
    try:
        return _milled_with(section, way).least_lip_mm >= LEAST_LIP_MM - TOLERANCE_MM
    except FrameCalcError:
        return False


def _milled_with(section: Section, way: Way) -> Section:
    lengths = {
        "thickness_mm": section.thickness_mm,
        "rabbet_depth_mm": section.rabbet_depth_mm,
        "face_drop_mm": section.face_drop_mm,
        "sight_edge_mm": section.sight_edge.size_mm,
    } | {way.argument: way.value_mm}
    return milled_section(
        face_width_mm=section.face_width_mm,
        thickness_mm=lengths["thickness_mm"],
        rabbet_width_mm=section.rabbet_width_mm,
        rabbet_depth_mm=lengths["rabbet_depth_mm"],
        sight_edge=replace(section.sight_edge, size_mm=lengths["sight_edge_mm"]),
        back_edge=section.back_edge,
        face=section.face,
        face_drop_mm=lengths["face_drop_mm"],
        points=section.points,
    )


def _land_finding(section: Section) -> Finding | None:
    missing_mm = LEAST_LAND_MM - section.land_mm
    if missing_mm <= TOLERANCE_MM:
        return None
    return Finding(
        code="section.land-thin",
        severity=Severity.WARN,
        sentence="The land beside the rabbet is only {land} wide; {limit} is usual.",
        why="Points, plates and screws find no hold in a narrow land, and a corner has little to glue.",
        source=USUAL_PRACTICE,
        argument="face_width_mm",
        lengths={"land": section.land_mm, "limit": LEAST_LAND_MM},
        ways=_ways_to_a_land(section, missing_mm),
    )


def _ways_to_a_land(section: Section, missing_mm: float) -> tuple[Way, ...]:
    wider = Way(
        argument="face_width_mm",
        value_mm=section.face_width_mm + missing_mm,
        says="take wider stock",
        rounding=Rounding.UP,
    )
    narrower = Way(
        argument="rabbet_width_mm",
        value_mm=section.rabbet_width_mm - missing_mm,
        says="cut the rabbet narrower",
        rounding=Rounding.DOWN,
    )
    return (wider, narrower) if narrower.value_mm >= USUAL_RABBET_MM - TOLERANCE_MM else (wider,)


def _narrow_rabbet_finding(section: Section) -> Finding | None:
    if section.rabbet_width_mm >= NARROW_RABBET_MM - TOLERANCE_MM:
        return None
    wider = Way(argument="rabbet_width_mm", value_mm=USUAL_RABBET_MM, says="cut the rabbet wider", rounding=Rounding.UP)
    return Finding(
        code="section.rabbet-narrow",
        severity=Severity.NOTE,
        sentence="The rabbet is {rabbet} wide; under {limit} is for small, light frames only.",
        why="The lip alone keeps glazing and artwork from falling forward.",
        source=USUAL_PRACTICE,
        argument="rabbet_width_mm",
        lengths={"rabbet": section.rabbet_width_mm, "limit": NARROW_RABBET_MM},
        ways=(wider,) if section.face_width_mm >= USUAL_RABBET_MM + LEAST_LAND_MM else (),
    )


def _screw_finding(section: Section) -> Finding | None:
    screw_mm = longest_screw_mm(section, x_mm=section.land_mm / 2)
    if screw_mm >= LEAST_SCREW_MM - TOLERANCE_MM:
        return None
    limit = "a screw from behind may be {screw} long at most" if screw_mm > TOLERANCE_MM else "no screw holds there"
    thicker = Way(
        argument="thickness_mm",
        value_mm=section.thickness_mm + LEAST_SCREW_MM - screw_mm,
        says="take thicker stock",
        rounding=Rounding.UP,
    )
    return Finding(
        code="section.screw-short",
        severity=Severity.NOTE,
        sentence=f"In the middle of the land the wood is {{wood}} thick: with {{kept}} kept under the face, {limit}.",
        why="A longer screw comes through the face or lifts it.",
        source=USUAL_PRACTICE,
        argument="thickness_mm",
        lengths={"wood": screw_mm + KEPT_UNDER_FACE_MM, "kept": KEPT_UNDER_FACE_MM, "screw": screw_mm},
        ways=(thicker,),
    )
