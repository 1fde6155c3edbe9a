"""Pins and brads through the outer edge, and steel wedges from behind: what they reach and what they leave.

A *pin* is driven square into the outer edge of one member, so far from the corner, crosses the mitre and runs on in the
other member along its grain, just as far from that one's outer edge. A *wedge* is a bent strip of steel, driven from
behind across the mitre; its point lies toward the picture, its two legs run from there square to the outer edges.
Both are set out for square corners.
"""

from math import cos, sin, sqrt

from framecalc.corners.joints.clash import Prism, on_the_mitre
from framecalc.corners.joints.corner_stock import CornerStock, Walls, refuse_larger, wall_findings, walls_around
from framecalc.errors import ImpossibleJoint
from framecalc.evidence import USUAL_PRACTICE
from framecalc.findings import Finding, Severity
from framecalc.geometry.plane import Rectangle, surround
from framecalc.limits import require_between, require_positive
from framecalc.records import Record

HOLD_SHARE_RATIO = 0.5
"""Of a pin's length, that should be in the second member (common practice, no source)."""

PREDRILL_WITHIN_MM = 19.05
"""Nearer to an end than this a hole is drilled first (common practice, no source: 3/4 in)."""

MOST_WEDGE_SHARE_RATIO = 2 / 3
"""Of the thickness, for the highest usual wedge (common practice, no source)."""


class Pin(Record):
    """A pin in its place: how far from the corner and above the back, how much of it holds, and its walls."""

    diameter_mm: float
    length_mm: float
    from_corner_mm: float
    height_mm: float
    holds_mm: float
    walls: Walls


class Wedge(Record):
    """A wedge in its place: its point along the mitre from the tip, and its walls; the back is where it goes in."""

    height_mm: float
    leg_mm: float
    from_tip_mm: float
    walls: Walls


def place_pin(
    stock: CornerStock,
    *,
    diameter_mm: float,
    length_mm: float,
    from_corner_mm: float,
    height_mm: float,
    wall_mm: float,
) -> Pin:
    """Place a pin and measure how much of it holds and what it leaves.

    ``holds = length − from corner``: the mitre is just as deep under the outer edge as it is far from the corner.

    Args:
        diameter_mm, length_mm: of the pin [mm], > 0.
        from_corner_mm: where it goes in, along the outer edge [mm], 0 to the land.
        height_mm: above the back [mm].
        wall_mm: the least wall allowed [mm], > 0.
    Raises:
        OutOfRange: a length is out of range.
        ImpossibleJoint: the corner is not square, or the pin is as thick as the member, or does not reach the mitre.
    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> pin = place_pin(stock, diameter_mm=1.2, length_mm=30, from_corner_mm=12, height_mm=8, wall_mm=3)
    >>> pin.holds_mm, round(pin.walls.inner_mm, 2)
    (18, 21.4)
    """
    _refuse_unsquare(stock)
    require_positive(diameter_mm=diameter_mm, length_mm=length_mm, wall_mm=wall_mm)
    refuse_larger("pin", diameter_mm, than="member's thickness", limit_mm=stock.thickness_mm, field="pin_diameter_mm")
    require_between(0, stock.land_mm, from_corner_mm=from_corner_mm)
    require_between(diameter_mm / 2, stock.thickness_mm - diameter_mm / 2, height_mm=height_mm)
    _refuse_short(length_mm, from_corner_mm)
    return Pin(
        diameter_mm=diameter_mm,
        length_mm=length_mm,
        from_corner_mm=from_corner_mm,
        height_mm=height_mm,
        holds_mm=length_mm - from_corner_mm,
        walls=walls_around(stock, _round_footprint(from_corner_mm, height_mm, diameter_mm / 2), wanted_mm=wall_mm),
    )


def place_wedge(stock: CornerStock, *, height_mm: float, leg_mm: float, from_tip_mm: float, wall_mm: float) -> Wedge:
    """Place a wedge driven from behind and measure what it leaves.

    Across the member it reaches from its point outward by its leg; up from the back by its height.

    Args:
        height_mm: of the wedge [mm], > 0, less than the thickness.
        leg_mm: length of a leg, seen from the back [mm], > 0.
        from_tip_mm: of its point, along the mitre [mm], 0 to m.
        wall_mm: the least wall allowed [mm], > 0.
    Raises:
        OutOfRange: a length is out of range.
        ImpossibleJoint: the wedge is as high as the member is thick, or the corner is not square.
    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> wedge = place_wedge(stock, height_mm=10, leg_mm=9, from_tip_mm=30, wall_mm=3)
    >>> wedge.walls.face_mm, round(wedge.walls.inner_mm, 2), wedge.walls.sound
    (10.0, 12.79, True)
    """
    _refuse_unsquare(stock)
    require_positive(height_mm=height_mm, leg_mm=leg_mm, wall_mm=wall_mm)
    refuse_larger("wedge", height_mm, than="member's thickness", limit_mm=stock.thickness_mm, field="wedge_height_mm")
    require_between(0, stock.mitre_length_mm, from_tip_mm=from_tip_mm)
    across_mm = from_tip_mm / sqrt(2)
    footprint = Rectangle(left_mm=across_mm - leg_mm, right_mm=across_mm, low_mm=0.0, high_mm=height_mm)
    around = surround([(x, y or -stock.thickness_mm) for x, y in stock.shape], footprint)
    return Wedge(
        height_mm=height_mm,
        leg_mm=leg_mm,
        from_tip_mm=from_tip_mm,
        walls=Walls(
            outer_mm=around.left_mm,
            inner_mm=around.right_mm,
            back_mm=wall_mm,
            face_mm=around.high_mm,
            nearest_mm=around.nearest_mm,
            wanted_mm=wall_mm,
        ),
    )


def pin_prism(pin: Pin) -> Prism:
    """Take a pin, as a square bar of its diameter.

    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> pin = place_pin(stock, diameter_mm=2, length_mm=30, from_corner_mm=12, height_mm=8, wall_mm=3)
    >>> pin_prism(pin).plan
    ((11.0, 0.0), (13.0, 0.0), (13.0, 30), (11.0, 30))
    """
    left_mm, right_mm = pin.from_corner_mm - pin.diameter_mm / 2, pin.from_corner_mm + pin.diameter_mm / 2
    return Prism(
        name="pin",
        plan=((left_mm, 0.0), (right_mm, 0.0), (right_mm, pin.length_mm), (left_mm, pin.length_mm)),
        low_mm=pin.height_mm - pin.diameter_mm / 2,
        high_mm=pin.height_mm + pin.diameter_mm / 2,
    )


def wedge_prism(stock: CornerStock, wedge: Wedge) -> Prism:
    """Take a wedge, with all the wood between its legs.

    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> wedge = place_wedge(stock, height_mm=10, leg_mm=10, from_tip_mm=30, wall_mm=3)
    >>> [(round(x, 2), round(y, 2)) for x, y in wedge_prism(stock, wedge).plan]
    [(21.21, 21.21), (11.21, 21.21), (21.21, 11.21)]
    """
    along_mm, square_mm = wedge.leg_mm * cos(stock.half_turn_rad), wedge.leg_mm * sin(stock.half_turn_rad)
    return Prism(
        name="corner wedge",
        plan=(
            on_the_mitre(stock, wedge.from_tip_mm, 0.0),
            on_the_mitre(stock, wedge.from_tip_mm - along_mm, square_mm),
            on_the_mitre(stock, wedge.from_tip_mm - along_mm, -square_mm),
        ),
        low_mm=0.0,
        high_mm=wedge.height_mm,
    )


def pin_findings(pin: Pin) -> tuple[Finding, ...]:
    """Report where a pin breaks out, when too little of it holds, and when to drill first.

    Source: common practice, no source.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> short = place_pin(stock, diameter_mm=1.2, length_mm=20, from_corner_mm=15, height_mm=8, wall_mm=3)
    >>> [finding.code for finding in pin_findings(short)]
    ['joints.pin-short', 'joints.pin-predrill']
    """
    found = list(wall_findings(pin.walls, joint="pin", across="pin_from_corner_mm", up="pin_height_mm"))
    if pin.holds_mm < HOLD_SHARE_RATIO * pin.length_mm:
        found.append(_short(pin))
    if pin.from_corner_mm < PREDRILL_WITHIN_MM:
        found.append(_predrill(pin))
    return tuple(found)


def wedge_findings(stock: CornerStock, wedge: Wedge) -> tuple[Finding, ...]:
    """Report where a wedge comes out, and when it is higher than usual.

    Source: common practice, no source.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> high = place_wedge(stock, height_mm=15, leg_mm=9, from_tip_mm=30, wall_mm=3)
    >>> [finding.code for finding in wedge_findings(stock, high)]
    ['joints.wedge-high']
    """
    found = list(wall_findings(wedge.walls, joint="corner wedge", across="wedge_from_tip_mm", up="wedge_height_mm"))
    if wedge.height_mm > MOST_WEDGE_SHARE_RATIO * stock.thickness_mm:
        found.append(_high(wedge, MOST_WEDGE_SHARE_RATIO * stock.thickness_mm))
    return tuple(found)


def _round_footprint(across_mm: float, height_mm: float, radius_mm: float) -> Rectangle:
    return Rectangle(
        left_mm=across_mm - radius_mm,
        right_mm=across_mm + radius_mm,
        low_mm=height_mm - radius_mm,
        high_mm=height_mm + radius_mm,
    )


def _refuse_unsquare(stock: CornerStock) -> None:
    if stock.half_turn_deg != 45:
        raise ImpossibleJoint("Pins and wedges are set out for square corners only.", field="sides")


def _refuse_short(length_mm: float, from_corner_mm: float) -> None:
    if length_mm <= from_corner_mm:
        raise ImpossibleJoint(
            "Pin too short at {length}: enter more than {needed}, to reach through.",
            field="pin_length_mm",
            lengths={"length": length_mm, "needed": from_corner_mm},
        )


def _short(pin: Pin) -> Finding:
    return Finding(
        code="joints.pin-short",
        severity=Severity.WARN,
        sentence="Only {holds} of the pin is in the second member; half of it, {wanted}, is usual.",
        why="What is in the first member only holds the head.",
        source=USUAL_PRACTICE,
        argument="pin_length_mm",
        lengths={"holds": pin.holds_mm, "wanted": HOLD_SHARE_RATIO * pin.length_mm},
    )


def _predrill(pin: Pin) -> Finding:
    return Finding(
        code="joints.pin-predrill",
        severity=Severity.NOTE,
        sentence="The pin goes in {place} from the end: drill first.",
        why="So near to an end the wood splits.",
        source=USUAL_PRACTICE,
        argument="pin_from_corner_mm",
        lengths={"place": pin.from_corner_mm},
    )


def _high(wedge: Wedge, usual_mm: float) -> Finding:
    return Finding(
        code="joints.wedge-high",
        severity=Severity.WARN,
        sentence="The wedge is {height} high; two thirds of the frame, {usual}, is usual.",
        why="A high wedge lifts the face or shows through; two low ones along the mitre hold as well.",
        source=USUAL_PRACTICE,
        argument="wedge_height_mm",
        lengths={"height": wedge.height_mm, "usual": usual_mm},
    )
