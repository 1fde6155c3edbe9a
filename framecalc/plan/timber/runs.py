"""Runs round a frame: its members, and the ledge of a tray or the rabbet if that is a separate strip.

A *run* is the pieces of one section that go once round: of a built-up rabbet the face is one and its strip another. A
loose ledge is mitred like the members and lies against the inner side of the wall, so its long edges are the short
edges of the wall.
"""

from collections.abc import Iterable, Mapping
from decimal import Decimal

from framecalc.plan.frame import FramePlan
from framecalc.plan.inputs import is_cut_here, is_unsized, repeat_mm
from framecalc.plan.timber.stock import BOUGHT, MemberSection, told_apart
from framecalc.price.moulding import price_of_stick
from framecalc.project.section import Edge, ProfilePoint, Section
from framecalc.records import Record, replace
from framecalc.section.profile import EdgeShape, FaceShape
from framecalc.units import TOLERANCE_MM


class FrameRun(Record):
    """The pieces of one section that go round a frame: their chalk name, and the long edge of every side.

    `is_ledge`: no member but a strip that is glued to one, `is_strip`: the one that makes its rabbet.
    """

    frame: FramePlan
    name: str
    section: MemberSection
    lengths_mm: Mapping[str, float]
    is_ledge: bool = False
    is_strip: bool = False


def runs_of(frames: Iterable[FramePlan]) -> tuple[FrameRun, ...]:
    """The members of every frame that is cut here, then the loose ledges, each with a name of its own.

    Source: derived.
    """
    sized = [frame for frame in frames if is_cut_here(frame.frame) and not is_unsized(frame.frame)]
    ledges = (_ledge(frame) for frame in sized if frame.has_loose_ledge)
    runs = [*map(_members, sized), *ledges, *(_strip(frame) for frame in sized if frame.has_strip)]
    names = told_apart([run.name for run in runs])
    return tuple(run if run.name == name else replace(run, name=name) for run, name in zip(runs, names, strict=True))


def _members(frame: FramePlan) -> FrameRun:
    return FrameRun(
        frame=frame,
        name=frame.frame.name,
        section=_section_of(frame, width_mm=frame.blank_width_mm, thickness_mm=frame.blank_thickness_mm),
        lengths_mm=long_edges_mm(frame, inset_mm=0.0),
    )


def _ledge(frame: FramePlan) -> FrameRun:
    section = frame.frame.section
    width_mm, thickness_mm = section.ledge_width.mm, section.ledge_thickness.mm
    return FrameRun(
        frame=frame,
        name=frame.frame.name + " ledge",
        section=_section_of(frame, width_mm=width_mm, thickness_mm=thickness_mm, is_ledge=True),
        lengths_mm=long_edges_mm(frame, inset_mm=frame.settled.face_width_mm),
        is_ledge=True,
    )


def _strip(frame: FramePlan) -> FrameRun:
    """The strip of a built-up rabbet, flush with the outer edge of its member."""
    width_mm, thickness_mm = frame.strip_mm
    return FrameRun(
        frame=frame,
        name=frame.frame.name + " strip",
        section=_section_of(frame, width_mm=width_mm, thickness_mm=thickness_mm, is_ledge=True),
        lengths_mm=long_edges_mm(frame, inset_mm=0.0),
        is_ledge=True,
        is_strip=True,
    )


def _section_of(frame: FramePlan, *, width_mm: float, thickness_mm: float, is_ledge: bool = False) -> MemberSection:
    return MemberSection(
        wood=frame.frame.species.strip().casefold(),
        width_mm=round(width_mm / TOLERANCE_MM) * TOLERANCE_MM,
        thickness_mm=thickness_mm,
        sides=frame.shape.sides,
        slope_deg=frame.shape.slope_deg,
        profile=_profile_of(frame, is_ledge=is_ledge) if frame.is_bought or frame.project.timber.milled else "",
        moulding=_moulding_of(frame),
        stick_mm=_stick_mm(frame),
        stick_price=_stick_price(frame),
        repeat_mm=repeat_mm(frame.frame),
    )


def _moulding_of(frame: FramePlan) -> str:
    """What a bought moulding is called; one without a name is known by being bought."""
    return (frame.frame.section.moulding.name or BOUGHT) if frame.is_bought else ""


def _stick_mm(frame: FramePlan) -> float:
    """The length that a bought moulding comes in; 0 where that is not known, or where wood is milled."""
    length = frame.frame.section.moulding.stick_length
    return length.mm if length and frame.is_bought else 0.0


def _profile_of(frame: FramePlan, *, is_ledge: bool) -> str:
    """The profile of a milled section: everything milled into it besides its width and thickness."""
    section = frame.frame.section
    if is_ledge:
        return "plain"
    edges = " ".join(_edge_words(edge) for edge in (section.sight_edge, section.back_edge))
    if frame.is_tray:
        return f"tray {frame.has_loose_ledge} {section.ledge_width.mm:g} {section.ledge_thickness.mm:g} {edges}"
    rabbet = f"rabbet {section.rabbet_width.mm:g} {section.rabbet_depth.mm:g}"
    return f"{rabbet} {section.face.value} {_face_words(section)} {edges}"


def _face_words(section: Section) -> str:
    if section.face is FaceShape.POINTS:
        return " ".join(map(_point_words, section.points))
    return f"{0.0 if section.face is FaceShape.FLAT else section.face_drop.mm:g}"


def _point_words(point: ProfilePoint) -> str:
    radius = f" {point.radius.mm:g}" if point.radius else ""
    return f"{point.way.value} {point.across.mm:g} {point.down.mm:g}{radius}"


def _edge_words(edge: Edge) -> str:
    return edge.shape.value if edge.shape is EdgeShape.SQUARE else f"{edge.shape.value} {edge.size.mm:g}"


def _stick_price(frame: FramePlan) -> Decimal:
    """What one whole stick of a bought moulding costs; 0 where its price is not known."""
    moulding = frame.frame.section.moulding
    return price_of_stick(moulding.sale, price=moulding.price or Decimal(0), stick_mm=_stick_mm(frame))


def long_edges_mm(frame: FramePlan, *, inset_mm: float = 0.0) -> dict[str, float]:
    """The long edge of every side, in order round the frame, at a distance in from its outside."""
    sizes = frame.sizes
    edges_mm = sizes.shape.edges_mm(sizes.outside_across_mm - 2 * inset_mm, sizes.outside_up_mm - 2 * inset_mm)
    return dict(zip(sizes.shape.names, edges_mm, strict=True))
