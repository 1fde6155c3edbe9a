"""Placing slots in the mitre face: what they need, what walls they leave, where to mark them, the largest that fits.

Going in from the mitre a slot comes nearer to the outer edge, so the bottom of a square-bottomed slot decides its outer
wall, and its mouth the inner one. A slot cut by a disc is deepest in the middle: sunk by less than 0.29 of its radius
(in a square corner) its mouth decides both walls.

Places along the mitre are counted from the tip. The two walls across the member add up to the land less
``(mouth + depth)/√2``; measured within one member the inner one is √2 larger, so the sum is on the safe side.
"""

from collections.abc import Iterable
from math import cos, sin

from framecalc.corners.joints.corner_stock import (
    CornerStock,
    Walls,
    refuse_larger,
    room_across_mm,
    wall_findings,
    walls_around,
)
from framecalc.corners.joints.slot_kinds import TENON_SHARE_RATIO, Slot, outward_reach_mm, slot_area_mm2
from framecalc.errors import ImpossibleJoint, OutOfRange
from framecalc.findings import Finding, Severity
from framecalc.geometry.plane import Rectangle, surround
from framecalc.limits import require_between, require_positive
from framecalc.records import Record, replace
from framecalc.units import TOLERANCE_MM


class SlotMarks(Record):
    """Where to mark a slot on the mitre, all from the tip."""

    near_mm: float
    centre_mm: float
    far_mm: float


class SlotPlace(Record):
    """A slot in its place: marks along the mitre, height above the back, footprint, walls, and where else it may go.

    Its middle may go anywhere from `earliest_mm` to `latest_mm` along the mitre and from `lowest_mm` to `highest_mm`
    above the back, with the walls wanted; when one of them is past the other it fits nowhere at this height.
    """

    slot: Slot
    height_mm: float
    marks: SlotMarks
    footprint: Rectangle
    walls: Walls
    earliest_mm: float
    latest_mm: float
    lowest_mm: float
    highest_mm: float

    @property
    def has_room(self) -> bool:
        """Whether it fits anywhere at all with the walls wanted."""
        return self.earliest_mm <= self.latest_mm and self.lowest_mm <= self.highest_mm


def place_slot(
    stock: CornerStock, slot: Slot, *, height_mm: float, wall_mm: float, from_tip_mm: float | None = None
) -> SlotPlace:
    """Place a slot and measure its walls; without a place it goes to the middle of where it may go.

    Across the member the slot runs from ``s·cos t − reach`` to ``s·cos t + mouth/2 · cos t``.

    Args:
        height_mm: of the middle of the slot above the back [mm].
        wall_mm: the least wall allowed [mm], > 0.
        from_tip_mm: s, of the middle of the slot along the mitre [mm], 0 to m.
    Raises:
        OutOfRange: the place is not on the mitre.
        ImpossibleJoint: the slot is as thick as the member, as long as the mitre or as deep as the member is wide.
    Source: derived (the slot as seen along the member; compared with solids in the tests).

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> from framecalc.corners.joints.slot_kinds import mortise
    >>> stock = corner_stock(face_width_mm=45, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> place = place_slot(stock, mortise(width_mm=20, depth_mm=12, thickness_mm=5), height_mm=8, wall_mm=3)
    >>> round(place.walls.outer_mm, 2), round(place.walls.inner_mm, 2), place.walls.sound
    (8.19, 8.19, True)
    """
    _refuse_outsize(stock, slot)
    low_mm, high_mm = height_mm - slot.thickness_mm / 2, height_mm + slot.thickness_mm / 2
    require_between(slot.thickness_mm / 2, stock.thickness_mm - slot.thickness_mm / 2, height_mm=height_mm)
    begins_mm, ends_mm = room_across_mm(stock, low_mm=low_mm, high_mm=high_mm)
    slant = cos(stock.half_turn_rad)
    earliest_mm = (begins_mm + wall_mm + outward_reach_mm(slot, half_turn_rad=stock.half_turn_rad)) / slant
    latest_mm = (ends_mm - wall_mm) / slant - slot.mouth_mm / 2
    centre_mm = (earliest_mm + latest_mm) / 2 if from_tip_mm is None else from_tip_mm
    require_between(0, stock.mitre_length_mm, from_tip_mm=centre_mm)
    footprint = _footprint(stock, slot, centre_mm=centre_mm, low_mm=low_mm, high_mm=high_mm)
    lowest_mm, highest_mm = _heights_mm(
        stock, _swept(stock, slot, (earliest_mm, latest_mm), low_mm=low_mm, high_mm=high_mm), height_mm, wall_mm
    )
    return SlotPlace(
        slot=slot,
        height_mm=height_mm,
        marks=SlotMarks(
            near_mm=centre_mm - slot.mouth_mm / 2, centre_mm=centre_mm, far_mm=centre_mm + slot.mouth_mm / 2
        ),
        footprint=footprint,
        walls=walls_around(stock, footprint, wanted_mm=wall_mm),
        earliest_mm=earliest_mm,
        latest_mm=latest_mm,
        lowest_mm=lowest_mm,
        highest_mm=highest_mm,
    )


def place_pair(
    stock: CornerStock, slot: Slot, *, height_mm: float, wall_mm: float, from_tip_mm: float | None = None
) -> tuple[SlotPlace, ...]:
    """Place two equal slots beside each other along the mitre; one alone where there is no room for two.

    Their middles are half of their room apart, and at least ``mouth + wall``, on both sides of the place given.

    Args:
        height_mm, wall_mm, from_tip_mm: as in `place_slot`; the place is that of the middle between them.
    Raises:
        OutOfRange, ImpossibleJoint: as in `place_slot`.
    Source: derived; that two dowels keep a mitre from turning is common practice, no source.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> from framecalc.corners.joints.slot_kinds import mortise
    >>> stock = corner_stock(face_width_mm=60, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> hole = mortise(width_mm=6, depth_mm=16, thickness_mm=6)
    >>> [round(place.marks.centre_mm, 2) for place in place_pair(stock, hole, height_mm=10, wall_mm=3)]
    [34.71, 57.65]
    """
    alone = place_slot(stock, slot, height_mm=height_mm, wall_mm=wall_mm, from_tip_mm=from_tip_mm)
    room_mm, least_mm = alone.latest_mm - alone.earliest_mm, slot.mouth_mm + wall_mm
    if room_mm < least_mm - TOLERANCE_MM:
        return (alone,)
    apart_mm, middle_mm = max(room_mm / 2, least_mm), alone.marks.centre_mm
    return tuple(
        place_slot(stock, slot, height_mm=height_mm, wall_mm=wall_mm, from_tip_mm=middle_mm + side * apart_mm / 2)
        for side in (-1, 1)
    )


def deepest_mm(stock: CornerStock, slot: Slot, *, height_mm: float, wall_mm: float) -> float:
    """Find how deep a square-bottomed slot of this mouth may go with both walls just as wanted.

    ``depth = (room − 2·wall − mouth · cos t) / sin t``, the room being the land behind the lip, the width within it.

    Args:
        height_mm: of its middle above the back [mm].
        wall_mm: [mm], > 0.
    Raises:
        ImpossibleJoint: so wide a mouth leaves no depth at all.
    Source: derived from the two walls.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> from framecalc.corners.joints.slot_kinds import mortise
    >>> stock = corner_stock(face_width_mm=45, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> round(deepest_mm(stock, mortise(width_mm=20, depth_mm=1, thickness_mm=5), height_mm=8, wall_mm=3), 2)
    26.67
    """
    room_mm = _room_mm(stock, slot, height_mm=height_mm, wall_mm=wall_mm)
    depth_mm = (room_mm - slot.mouth_mm * cos(stock.half_turn_rad)) / sin(stock.half_turn_rad)
    if depth_mm <= 0:
        raise ImpossibleJoint(
            "No depth left between walls of {wall}: enter a mouth under {mouth}.",
            field="mouth_mm",
            lengths={"mouth": slot.mouth_mm, "wall": wall_mm},
        )
    return depth_mm


def widest_mm(stock: CornerStock, slot: Slot, *, height_mm: float, wall_mm: float) -> float:
    """Find how wide the mouth of a square-bottomed slot of this depth may be with both walls just as wanted.

    ``mouth = (room − 2·wall − depth · sin t) / cos t``

    Args:
        height_mm: of its middle above the back [mm].
        wall_mm: [mm], > 0.
    Raises:
        ImpossibleJoint: so deep a slot leaves no mouth at all.
    Source: derived from the two walls.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> from framecalc.corners.joints.slot_kinds import mortise
    >>> stock = corner_stock(face_width_mm=45, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> round(widest_mm(stock, mortise(width_mm=1, depth_mm=12, thickness_mm=5), height_mm=8, wall_mm=3), 2)
    34.67
    """
    room_mm = _room_mm(stock, slot, height_mm=height_mm, wall_mm=wall_mm)
    mouth_mm = (room_mm - slot.depth_mm * sin(stock.half_turn_rad)) / cos(stock.half_turn_rad)
    if mouth_mm <= 0:
        raise ImpossibleJoint(
            "No mouth left between walls of {wall}: enter a depth under {depth}.",
            field="depth_mm",
            lengths={"depth": slot.depth_mm, "wall": wall_mm},
        )
    return mouth_mm


def largest_that_fits(
    stock: CornerStock, slots: Iterable[Slot], *, height_mm: float, wall_mm: float
) -> tuple[SlotPlace, ...]:
    """Place every slot that fits with its walls as wanted, the one with most glue area first.

    The glue area counted is that of both broad sides, ``2 · mouth · depth`` (two thirds of it under an arc).

    Args:
        slots: what is available.
        height_mm: of the middle of the slot above the back [mm].
        wall_mm: [mm], > 0.
    Raises:
        OutOfRange: height or wall out of range.
    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> from framecalc.corners.joints.slot_kinds import biscuit_slot
    >>> from framecalc.tables.wood import biscuits
    >>> stock = corner_stock(face_width_mm=45, thickness_mm=20, rabbet_width_mm=0, rabbet_depth_mm=0)
    >>> slots = [biscuit_slot(biscuit) for biscuit in biscuits()]
    >>> [place.slot.name for place in largest_that_fits(stock, slots, height_mm=10, wall_mm=3)]
    ['biscuit #0']
    """
    require_positive(wall_mm=wall_mm)
    require_between(0, stock.thickness_mm, height_mm=height_mm)
    places = [_sound_place(stock, slot, height_mm=height_mm, wall_mm=wall_mm) for slot in slots]
    return tuple(sorted(filter(None, places), key=lambda place: -slot_area_mm2(place.slot)))


def slot_findings(stock: CornerStock, place: SlotPlace) -> tuple[Finding, ...]:
    """Report where a slot breaks out or leaves too little, and when it is thicker than usual.

    Source: common practice, no source.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> from framecalc.corners.joints.slot_kinds import mortise
    >>> stock = corner_stock(face_width_mm=30, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> place = place_slot(stock, mortise(width_mm=20, depth_mm=12, thickness_mm=8), height_mm=8, wall_mm=3)
    >>> [finding.code for finding in slot_findings(stock, place)]
    ['joints.wall-thin', 'joints.wall-thin', 'joints.slot-thick']
    """
    walls = wall_findings(place.walls, joint=place.slot.name, across="from_tip_mm", up="height_mm")
    usual_mm = TENON_SHARE_RATIO * stock.thickness_mm
    return walls if place.slot.thickness_mm <= usual_mm else (*walls, _thick(place.slot, usual_mm))


def lone_dowel_finding(slot: Slot) -> Finding:
    """Say that a mitre has room for one dowel alone.

    Source: common practice, no source.

    >>> from framecalc.corners.joints.slot_kinds import mortise
    >>> lone_dowel_finding(mortise(width_mm=6, depth_mm=16, thickness_mm=6)).code
    'joints.one-dowel'
    """
    return Finding(
        code="joints.one-dowel",
        severity=Severity.NOTE,
        sentence="Only one dowel of {thickness} has room in this mitre: clamp the corner so that it cannot turn.",
        why="Two dowels keep a mitre from turning; thinner ones may have room.",
        source="usual practice",
        argument="joint_thickness_mm",
        lengths={"thickness": slot.thickness_mm},
    )


def unmeasured_finding(kind: str) -> Finding:
    """Ask for the size of a tenon, biscuit or dowel that is chosen: until then nothing says whether it has room.

    Source: derived.

    >>> unmeasured_finding("biscuit").sentence
    'Measure the biscuits you have, then choose their size.'
    """
    is_tenon = kind == "loose tenon"
    return Finding(
        code="joints.no-size",
        severity=Severity.WARN,
        sentence=(
            "Measure the tenon: enter its thickness, and its length or the depth of its slot."
            if is_tenon
            else f"Measure the {kind}s you have, then choose their size."
        ),
        why="Its walls are worked out from it; sizes that fit are listed below.",
        source="derived",
        argument="tenon_thickness_mm" if is_tenon else "joint_thickness_mm",
    )


def _footprint(stock: CornerStock, slot: Slot, *, centre_mm: float, low_mm: float, high_mm: float) -> Rectangle:
    across_mm = centre_mm * cos(stock.half_turn_rad)
    return Rectangle(
        left_mm=across_mm - outward_reach_mm(slot, half_turn_rad=stock.half_turn_rad),
        right_mm=across_mm + slot.mouth_mm / 2 * cos(stock.half_turn_rad),
        low_mm=low_mm,
        high_mm=high_mm,
    )


def _swept(
    stock: CornerStock, slot: Slot, centres_mm: tuple[float, float], *, low_mm: float, high_mm: float
) -> Rectangle:
    """What the slot sweeps of the section on its way from one end of its room to the other."""
    first, last = (
        _footprint(stock, slot, centre_mm=centre_mm, low_mm=low_mm, high_mm=high_mm)
        for centre_mm in (min(centres_mm), max(centres_mm))
    )
    return replace(first, right_mm=last.right_mm)


def _heights_mm(stock: CornerStock, swept: Rectangle, height_mm: float, wall_mm: float) -> tuple[float, float]:
    """How low and how high the middle may go until the back or the face wall of all that is swept is just as wanted."""
    around = surround(stock.shape, swept)
    return height_mm - (around.low_mm - wall_mm), height_mm + (around.high_mm - wall_mm)


def _room_mm(stock: CornerStock, slot: Slot, *, height_mm: float, wall_mm: float) -> float:
    require_positive(wall_mm=wall_mm)
    half_mm = slot.thickness_mm / 2
    begins_mm, ends_mm = room_across_mm(stock, low_mm=height_mm - half_mm, high_mm=height_mm + half_mm)
    return ends_mm - begins_mm - 2 * wall_mm


def _sound_place(stock: CornerStock, slot: Slot, *, height_mm: float, wall_mm: float) -> SlotPlace | None:
    """A slot in the middle of its room; nothing where a wall is too thin, or it is too large to be placed at all."""
    try:
        place = place_slot(stock, slot, height_mm=height_mm, wall_mm=wall_mm)
    except (ImpossibleJoint, OutOfRange):
        return None
    return place if place.walls.sound else None


def _refuse_outsize(stock: CornerStock, slot: Slot) -> None:
    refuse_larger(
        f"{slot.name} thickness",
        slot.thickness_mm,
        than="member's thickness",
        limit_mm=stock.thickness_mm,
        field="thickness_mm",
    )
    refuse_larger(
        f"{slot.name} mouth", slot.mouth_mm, than="mitre's length", limit_mm=stock.mitre_length_mm, field="mouth_mm"
    )
    refuse_larger(
        f"{slot.name} depth", slot.depth_mm, than="member's width", limit_mm=stock.face_width_mm, field="depth_mm"
    )


def _thick(slot: Slot, usual_mm: float) -> Finding:
    return Finding(
        code="joints.slot-thick",
        severity=Severity.NOTE,
        sentence=f"The {slot.name} is {{thickness}} thick; a third of the stock, {{usual}}, is usual.",
        why="A thick slot leaves cheeks that bend when the joint is glued.",
        source="usual practice",
        argument="joint_thickness_mm",
        lengths={"thickness": slot.thickness_mm, "usual": usual_mm},
    )
