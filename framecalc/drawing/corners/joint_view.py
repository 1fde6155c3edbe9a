"""What the drawings of a joint show: the mitre face and the corner from the front, with all that is cut into them."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import cos, sqrt

from framecalc.errors import ImpossibleJoint
from framecalc.joints.clash import slot_prism
from framecalc.joints.corner_stock import CornerStock
from framecalc.joints.pins import Pin, Wedge, pin_prism, wedge_prism
from framecalc.joints.slots import SlotPlace
from framecalc.joints.splines import Spline, spline_prism
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure, fine_figure
from framecalc.plan.joint import JointPlan
from framecalc.plane import Point
from framecalc.units import TOLERANCE_MM, Unit
from framecalc.words import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """Something cut or driven into the corner: where it lies on the mitre face, and its shape from the front."""

    name: str
    near_mm: float
    far_mm: float
    low_mm: float
    high_mm: float
    plan: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """A size to give: from where to where, and its figure."""

    from_mm: float
    to_mm: float
    figure: Figure
    word: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class JointView:
    """All that the two drawings of a joint read from a plan.

    `along` are sizes along the mitre from the tip, `heights` from the back, `across` from the outer edge into the
    member, `seen` along the outer edge from the tip. The zone is where the slot's mouth may lie with the walls wanted.
    """

    mitre_length_mm: float
    face_width_mm: float
    land_mm: float
    half_turn_deg: float
    shape: tuple[Point, ...]
    holes: tuple[Hole, ...]
    zone: Hole | None
    along: tuple[Size, ...]
    heights: tuple[Size, ...]
    across: tuple[Size, ...]
    seen: tuple[Size, ...]
    wall: Figure
    unit: Unit
    words: Words
    name: str

    @property
    def thickness_mm(self) -> float:
        """Of the member, from back to face."""
        return max(y for _, y in self.shape)


def can_be_drawn(joint: JointPlan | None) -> bool:
    """Whether there is a slot, a spline, a pin or a wedge to draw."""
    return joint is not None and any((joint.slot_place, joint.splines, joint.pin, joint.wedge))


def read_joint(plan: FramePlan) -> JointView:
    """Take from a plan what the drawings of its joint show.

    Raises:
        ImpossibleJoint: there is none that could be drawn; see `can_be_drawn`.
        FrameCalcError: the joint cannot be placed.
    """
    corners, joint = plan.corners, plan.corners.joint
    if joint is None or corners.stock is None or not can_be_drawn(joint):
        raise ImpossibleJoint(
            "No joint is chosen that could be drawn: a slot, a spline, a pin or a wedge would do.", field="joint"
        )
    stock, unit = corners.stock, plan.unit
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
        across=_given(_across(joint.slot_place, unit)) if joint.slot_place else (),
        seen=_seen(joint.splines[0], unit) if joint.splines else (),
        wall=fine_figure("wall", "least wall", joint.wall_mm, unit=unit),
        unit=unit,
        words=plan.project.shop.words,
        name=plan.frame.name,
    )


def _holes(stock: CornerStock, joint: JointPlan) -> Iterable[Hole]:
    if joint.slot_place:
        yield _slot(stock, joint.slot_place)
    for spline in joint.splines:
        yield _spline(stock, spline)
    if joint.pin:
        yield _pin(joint.pin)
    if joint.wedge:
        yield _wedge(stock, joint.wedge)


def _slot(stock: CornerStock, place: SlotPlace) -> Hole:
    prism = slot_prism(stock, place)
    return Hole(
        name=place.slot.name,
        near_mm=place.marks.near_mm,
        far_mm=place.marks.far_mm,
        low_mm=prism.low_mm,
        high_mm=prism.high_mm,
        plan=prism.plan,
    )


def _spline(stock: CornerStock, spline: Spline) -> Hole:
    prism = spline_prism(stock, spline)
    return Hole(
        name="spline",
        near_mm=0.0,
        far_mm=spline.depth_mm,
        low_mm=prism.low_mm,
        high_mm=prism.high_mm,
        plan=prism.plan,
    )


def _pin(pin: Pin) -> Hole:
    """Where a pin crosses the mitre of a square corner: √2 further along it than along the outer edge."""
    prism, half_mm = pin_prism(pin), pin.diameter_mm / 2
    return Hole(
        name="pin",
        near_mm=(pin.from_corner_mm - half_mm) * sqrt(2),
        far_mm=(pin.from_corner_mm + half_mm) * sqrt(2),
        low_mm=prism.low_mm,
        high_mm=prism.high_mm,
        plan=prism.plan,
    )


def _wedge(stock: CornerStock, wedge: Wedge) -> Hole:
    prism = wedge_prism(stock, wedge)
    return Hole(
        name="corner wedge",
        near_mm=wedge.from_tip_mm - wedge.leg_mm * cos(stock.half_turn_rad),
        far_mm=wedge.from_tip_mm,
        low_mm=prism.low_mm,
        high_mm=prism.high_mm,
        plan=prism.plan,
    )


def _zone(place: SlotPlace) -> Hole | None:
    """Where the mouth may lie at this height; nothing where it fits nowhere."""
    if place.latest_mm < place.earliest_mm:
        return None
    half_mm, half_thick_mm = place.slot.mouth_mm / 2, place.slot.thickness_mm / 2
    return Hole(
        name="zone",
        near_mm=place.earliest_mm - half_mm,
        far_mm=place.latest_mm + half_mm,
        low_mm=place.height_mm - half_thick_mm,
        high_mm=place.height_mm + half_thick_mm,
        plan=(),
    )


def _along(joint: JointPlan, unit: Unit) -> tuple[Size, ...]:
    if joint.slot_place:
        marks = joint.slot_place.marks
        return (
            _size("mark_near", "near mark", marks.near_mm, unit),
            _size("mark_far", "far mark", marks.far_mm, unit),
        )
    if joint.splines:
        return (_size("spline_depth", "depth", joint.splines[0].depth_mm, unit),)
    return ()


def _heights(stock: CornerStock, joint: JointPlan, unit: Unit) -> tuple[Size, ...]:
    thickness = _size("thickness", "thickness", stock.thickness_mm, unit)
    if joint.slot_place:
        return (_size("joint_height", "middle", joint.slot_place.height_mm, unit), thickness)
    if joint.splines:
        return (_size("joint_height", "middle", joint.splines[0].height_mm, unit), thickness)
    return (thickness,)


def _across(place: SlotPlace, unit: Unit) -> tuple[Size, ...]:
    walls, footprint = place.walls, place.footprint
    outer = fine_figure("outer_wall", "outer wall", walls.outer_mm, unit=unit)
    inner = fine_figure("inner_wall", "inner wall", walls.inner_mm, unit=unit)
    return (
        Size(from_mm=footprint.left_mm - walls.outer_mm, to_mm=footprint.left_mm, figure=outer),
        Size(from_mm=footprint.right_mm, to_mm=footprint.right_mm + walls.inner_mm, figure=inner),
    )


def _given(sizes: Iterable[Size]) -> tuple[Size, ...]:
    """The sizes that can be drawn: what lies past the edge of the member has none."""
    return tuple(size for size in sizes if size.to_mm - size.from_mm > TOLERANCE_MM)


def _seen(spline: Spline, unit: Unit) -> tuple[Size, ...]:
    return (_size("spline_seen", "shows", spline.visible_mm, unit),)


def _size(name: str, word: str, length_mm: float, unit: Unit) -> Size:
    figure = fine_figure(name, word, length_mm, unit=unit)
    return Size(from_mm=0.0, to_mm=length_mm, figure=figure, word=word)
