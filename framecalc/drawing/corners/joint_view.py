"""What the drawings of a joint show: the mitre face and the corner from the front, with every cut."""

from collections.abc import Iterable, Sequence
from enum import StrEnum
from math import cos, sqrt

from framecalc.corners.joints.corner_stock import CornerStock
from framecalc.corners.joints.slots import SlotPlace
from framecalc.corners.joints.splines import Spline
from framecalc.drawing.record import PaperDrawing
from framecalc.errors import ImpossibleJoint
from framecalc.geometry.plane import Point
from framecalc.plan import FramePlan
from framecalc.plan.corners.joint import JointPlan
from framecalc.plan.figures import Figure, fine_figure
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM, Unit
from framecalc.words import Words

JOINT_PAPER = PaperDrawing(name="joint", label="Joint")
"""The sheet that both drawings of a joint share, at full size where the paper is large enough."""


class JointTrouble(StrEnum):
    """What is wrong with a cut, a pin or a wedge."""

    NONE = ""
    MEETS = "meets another"
    BREAKS_OUT = "breaks out"


class Hole(Record):
    """A slot, spline, pin or wedge: its place on the mitre face, and its shape from the front."""

    name: str
    near_mm: float
    far_mm: float
    low_mm: float
    high_mm: float
    plan: tuple[Point, ...]
    trouble: JointTrouble = JointTrouble.NONE


class DrawnSize(Record):
    """A dimension: its two ends and its figure."""

    from_mm: float
    to_mm: float
    figure: Figure
    word: str = ""


class JointView(Record):
    """All that the two drawings of a joint read from a plan.

    `along` are sizes along the mitre from the tip, `heights` from the back, `walls` the wood below and above it on the
    mitre face, `across` from the outer edge into the member, `outer_edge` along that edge from the tip. The zone is
    where the slot's mouth may lie with the walls wanted.
    """

    mitre_length_mm: float
    face_width_mm: float
    land_mm: float
    half_turn_deg: float
    shape: tuple[Point, ...]
    holes: tuple[Hole, ...]
    zone: Hole | None
    along: tuple[DrawnSize, ...]
    heights: tuple[DrawnSize, ...]
    walls: tuple[DrawnSize, ...]
    across: tuple[DrawnSize, ...]
    outer_edge: tuple[DrawnSize, ...]
    unit: Unit
    words: Words
    name: str

    @property
    def thickness_mm(self) -> float:
        """The thickness of the member, from back to face."""
        return max(y for _, y in self.shape)


def can_be_drawn(joint: JointPlan) -> bool:
    """Whether there is a slot, a spline, a pin or a wedge to draw."""
    return any((joint.slot_place, joint.splines, joint.pin, joint.wedge))


def read_joint(plan: FramePlan) -> JointView:
    """Read from a plan what the drawings of its joint show.

    Raises:
        ImpossibleJoint: there is none that could be drawn; see `can_be_drawn`.
        FrameCalcError: the joint cannot be placed.
    """
    joint = plan.corners.joint
    if not can_be_drawn(joint):
        raise ImpossibleJoint("Choose a joint to draw: a slot, spline, pin or wedge.", field="joint")
    stock, unit = joint.stock, plan.unit
    return JointView(
        mitre_length_mm=stock.mitre_length_mm,
        face_width_mm=stock.face_width_mm,
        land_mm=stock.land_mm,
        half_turn_deg=stock.half_turn_deg,
        shape=stock.mitre_shape,
        holes=tuple(_holes(stock, joint)),
        zone=_zone(joint.slot_place) if joint.slot_place else None,
        along=_given(_along(joint, unit)),
        heights=_given(_heights(stock, joint, unit)),
        walls=_given(_walls(joint, unit)),
        across=_given(_across(joint.slot_places, unit)) if joint.slot_places else (),
        outer_edge=_outer_edge(joint.splines[0], unit) if joint.splines else (),
        unit=unit,
        words=plan.project.shop.words,
        name=plan.frame.name,
    )


def _holes(stock: CornerStock, joint: JointPlan) -> Iterable[Hole]:
    """Every cut, pin and wedge, each with its trouble; two that meet have the names of the clash."""
    meeting = {name for clash in joint.clashes if not clash.apart_mm for name in (clash.one, clash.other)}
    for prism, (near_mm, far_mm, wall_mm) in zip(joint.prisms, _extents(stock, joint), strict=True):
        out = JointTrouble.BREAKS_OUT if wall_mm < 0 else JointTrouble.NONE
        yield Hole(
            name=prism.name,
            near_mm=near_mm,
            far_mm=far_mm,
            low_mm=prism.low_mm,
            high_mm=prism.high_mm,
            plan=prism.plan,
            trouble=JointTrouble.MEETS if prism.name in meeting else out,
        )


def _extents(stock: CornerStock, joint: JointPlan) -> Iterable[tuple[float, float, float]]:
    """The ends of each prism along the mitre, and its thinnest wall.

    A pin crosses the mitre of a square corner √2 further along it than along the outer edge.
    """
    for place in joint.slot_places:
        yield place.marks.near_mm, place.marks.far_mm, place.walls.least_mm
    for spline in joint.splines:
        yield 0.0, spline.depth_mm, spline.wall_mm
    if joint.pin:
        half_mm, from_mm = joint.pin.diameter_mm / 2, joint.pin.from_corner_mm
        yield (from_mm - half_mm) * sqrt(2), (from_mm + half_mm) * sqrt(2), joint.pin.walls.least_mm
    if joint.wedge:
        point_mm, leg_mm = joint.wedge.from_tip_mm, joint.wedge.leg_mm
        yield point_mm - leg_mm * cos(stock.half_turn_rad), point_mm, joint.wedge.walls.least_mm


def _zone(place: SlotPlace) -> Hole | None:
    """The zone of the mouth; None if it fits nowhere."""
    if not place.has_room:
        return None
    half_mm, half_thick_mm = place.slot.mouth_mm / 2, place.slot.thickness_mm / 2
    return Hole(
        name="zone",
        near_mm=place.earliest_mm - half_mm,
        far_mm=place.latest_mm + half_mm,
        low_mm=place.lowest_mm - half_thick_mm,
        high_mm=place.highest_mm + half_thick_mm,
        plan=(),
    )


def _along(joint: JointPlan, unit: Unit) -> tuple[DrawnSize, ...]:
    if len(joint.slot_places) > 1:
        first, second = (place.marks.centre_mm for place in joint.slot_places)
        return (_size("mark_first", "first", first, unit), _size("mark_second", "second", second, unit))
    if joint.slot_place:
        marks = joint.slot_place.marks
        return (
            _size("mark_near", "near mark", marks.near_mm, unit),
            _size("mark_far", "far mark", marks.far_mm, unit),
        )
    if joint.splines:
        spline = joint.splines[0]
        wall = fine_figure("spline_wall", "wall", spline.wall_mm, unit=unit)
        ends_mm = spline.depth_mm + spline.wall_mm
        return (
            _size("spline_depth", "depth", spline.depth_mm, unit),
            DrawnSize(from_mm=spline.depth_mm, to_mm=ends_mm, figure=wall, word="wall"),
        )
    return ()


def _heights(stock: CornerStock, joint: JointPlan, unit: Unit) -> tuple[DrawnSize, ...]:
    thickness = _size("thickness", "thickness", stock.thickness_mm, unit)
    if joint.slot_place:
        return (_size("joint_height", "middle", joint.slot_place.height_mm, unit), thickness)
    if joint.splines:
        return (_size("joint_height", "middle", joint.splines[0].height_mm, unit), thickness)
    return (thickness,)


def _walls(joint: JointPlan, unit: Unit) -> tuple[DrawnSize, ...]:
    """The wood behind and before the slot, or the first spline, on the mitre face."""
    if joint.slot_place:
        footprint, walls = joint.slot_place.footprint, joint.slot_place.walls
        low_mm, high_mm, back_mm, face_mm = footprint.low_mm, footprint.high_mm, walls.back_mm, walls.face_mm
    elif joint.splines:
        spline, half_mm = joint.splines[0], joint.splines[0].kerf_mm / 2
        low_mm, high_mm = spline.height_mm - half_mm, spline.height_mm + half_mm
        back_mm, face_mm = spline.back_mm, spline.face_mm
    else:
        return ()
    face = fine_figure("face_wall", "face wall", face_mm, unit=unit)
    back = fine_figure("back_wall", "back wall", back_mm, unit=unit)
    return (
        DrawnSize(from_mm=high_mm, to_mm=high_mm + face_mm, figure=face),
        DrawnSize(from_mm=low_mm - back_mm, to_mm=low_mm, figure=back),
    )


def _across(places: Sequence[SlotPlace], unit: Unit) -> tuple[DrawnSize, ...]:
    """The wall outside the first slot, and inside the last."""
    outer_mm, left_mm = places[0].walls.outer_mm, places[0].footprint.left_mm
    inner_mm, right_mm = places[-1].walls.inner_mm, places[-1].footprint.right_mm
    outer = fine_figure("outer_wall", "outer wall", outer_mm, unit=unit)
    inner = fine_figure("inner_wall", "inner wall", inner_mm, unit=unit)
    return (
        DrawnSize(from_mm=left_mm - outer_mm, to_mm=left_mm, figure=outer),
        DrawnSize(from_mm=right_mm, to_mm=right_mm + inner_mm, figure=inner),
    )


def _given(sizes: Iterable[DrawnSize]) -> tuple[DrawnSize, ...]:
    """The dimensions that can be drawn: one past the edge of the member cannot."""
    return tuple(size for size in sizes if size.to_mm - size.from_mm > TOLERANCE_MM)


def _outer_edge(spline: Spline, unit: Unit) -> tuple[DrawnSize, ...]:
    return (_size("spline_seen", "shows", spline.visible_mm, unit),)


def _size(name: str, word: str, length_mm: float, unit: Unit) -> DrawnSize:
    figure = fine_figure(name, word, length_mm, unit=unit)
    return DrawnSize(from_mm=0.0, to_mm=length_mm, figure=figure, word=word)
