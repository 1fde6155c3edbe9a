"""The corner at a larger scale: the upper left one, as seen from the front, with the length of its mitre.

It shows details too small for the front: the rabbet wall, the package with its clearance, the strip that the lip
covers. In a tray it shows the gap around the artwork, and the ledge behind it.
"""

from collections.abc import Iterator, Sequence
from math import inf

from framecalc.corners.angles import write_angle
from framecalc.drawing.breaks import break_line, swing_at_mm
from framecalc.drawing.dimension import Axis, DimensionSpan, angle_arc, arrow, draw_dimension
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.record import Drawing
from framecalc.drawing.setting_out.members import MITRE_PAPER
from framecalc.drawing.setting_out.turn import CornerTurn
from framecalc.drawing.sheet import Area, Sheet, fit_scale
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM, Unit
from framecalc.words import Words, say

UP_MM = 52.0
"""The height of the panel."""

WIDE_MM, RUN_MM, ROW_MM = 21.0, 13.0, 4.8
"""How wide the member is drawn at most, how far it runs past the corner, and from one label to the next."""


ANGLE_ROOM_MM = 5.6
"""A strip narrower than this on the sheet has no room for the angle's figure."""

APART_RATIO = 0.02
"""A package nearer to the rabbet wall than this part of the face width would run into it, and is not drawn."""


class EdgeLine(Record):
    """A line round the corner: its name, and its distance in from the outside."""

    name: str
    inset_mm: float
    role: Role


class RingStrip(Record):
    """An area between two lines round the corner."""

    from_mm: float
    to_mm: float
    role: Role


class SizeAcross(Record):
    """A size across the member: its two ends in from the outside, its figure, its possible wordings."""

    from_mm: float
    to_mm: float
    figure: Figure
    wordings: tuple[str, ...]


class CornerView(Record):
    """All that the drawing of the corner reads from a plan; `arrises_mm` are nameless lines of the face itself."""

    strips: tuple[RingStrip, ...]
    edges: tuple[EdgeLine, ...]
    arrises_mm: tuple[float, ...]
    sizes: tuple[SizeAcross, ...]
    mitre_mm: float
    mitre: Figure
    turn: CornerTurn
    unit: Unit
    words: Words
    name: str

    @property
    def depth_mm(self) -> float:
        """The distance of the innermost line from the outside."""
        return max(edge.inset_mm for edge in self.edges)


def read_corner(plan: FramePlan) -> CornerView:
    """Read from a plan what the corner shows."""
    parts = _tray_parts(plan) if plan.is_tray else _rabbet_parts(plan)
    strips, edges, sizes = parts
    return CornerView(
        strips=strips,
        edges=edges,
        arrises_mm=tuple(_arrises_mm(plan)),
        sizes=sizes,
        mitre_mm=plan.figures["face_width"].exact_mm * plan.shape.flat_ratio,
        mitre=plan.figures["mitre_length"],
        turn=CornerTurn(half_turn_deg=plan.shape.half_turn_deg, slopes=plan.shape.slopes),
        unit=plan.unit,
        words=plan.project.shop.words,
        name=plan.frame.name,
    )


def _arrises_mm(plan: FramePlan) -> Iterator[float]:
    """The typed points of a face between its two edges, in from the outside."""
    face_mm = plan.figures["face_width"].exact_mm
    for point in plan.profile_points:
        if TOLERANCE_MM < point.across_mm < face_mm - TOLERANCE_MM:
            yield (face_mm - point.across_mm) * plan.shape.flat_ratio


Parts = tuple[tuple[RingStrip, ...], tuple[EdgeLine, ...], tuple[SizeAcross, ...]]


def _rabbet_parts(plan: FramePlan) -> Parts:
    face, rabbet = plan.figures["face_width"], plan.figures["rabbet_width"]
    face_mm, land_mm = (
        width_mm * plan.shape.flat_ratio for width_mm in (face.exact_mm, face.exact_mm - rabbet.exact_mm)
    )
    package_mm = land_mm + plan.sizes.clearance_across_mm / 2
    strips = (
        RingStrip(from_mm=0, to_mm=face_mm, role=Role.WOOD),
        RingStrip(from_mm=package_mm, to_mm=face_mm, role=Role.COVERED),
    )
    package = EdgeLine(name="package", inset_mm=package_mm, role=Role.HIDDEN)
    tells_apart = package_mm - land_mm > APART_RATIO * face_mm
    edges = (
        EdgeLine(name="outside", inset_mm=0, role=Role.OUTLINE),
        EdgeLine(name="rabbet wall", inset_mm=land_mm, role=Role.HIDDEN),
        *([package] if tells_apart else []),
        EdgeLine(name="sight edge", inset_mm=face_mm, role=Role.OUTLINE),
    )
    sizes = (
        SizeAcross(from_mm=land_mm, to_mm=face_mm, figure=rabbet, wordings=("rabbet {}", "{}")),
        SizeAcross(from_mm=0, to_mm=face_mm, figure=face, wordings=("face width {}", "face {}", "{}")),
    )
    return strips, edges, sizes


def _tray_parts(plan: FramePlan) -> Parts:
    wall, gap, ledge = (plan.figures[name] for name in ("face_width", "tray_gap", "ledge_width"))
    wall_mm, artwork_mm = wall.exact_mm, wall.exact_mm + gap.exact_mm
    ledge_mm = wall_mm + ledge.exact_mm
    strips = (
        RingStrip(from_mm=0, to_mm=wall_mm, role=Role.WOOD),
        RingStrip(from_mm=wall_mm, to_mm=artwork_mm, role=Role.SHADOW),
        RingStrip(from_mm=artwork_mm, to_mm=ledge_mm, role=Role.PICTURE),
    )
    edges = (
        EdgeLine(name="outside", inset_mm=0, role=Role.OUTLINE),
        EdgeLine(name="inside", inset_mm=wall_mm, role=Role.OUTLINE),
        EdgeLine(name="artwork", inset_mm=artwork_mm, role=Role.EDGE),
        EdgeLine(name="ledge", inset_mm=ledge_mm, role=Role.HIDDEN),
    )
    sizes = (
        SizeAcross(from_mm=wall_mm, to_mm=artwork_mm, figure=gap, wordings=("gap {}", "{}")),
        SizeAcross(from_mm=0, to_mm=wall_mm, figure=wall, wordings=("wall {}", "{}")),
    )
    return strips, edges, sizes


def corner_title(corner: CornerView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    length = f"{corner.mitre.text} {corner.unit}"
    return say("Corner of {name}: mitre length {length}", corner.words, name=corner.name, length=length)


class _Place(Record):
    """The corner on the sheet: its tip, the scale, and the breaks of the members."""

    left_mm: float
    top_mm: float
    scale: float
    right_mm: float
    run_mm: float
    turn: CornerTurn

    def y(self, inset_mm: float) -> float:
        """Where a line runs along the first member."""
        return self.top_mm + inset_mm * self.scale

    def inner(self, inset_mm: float) -> Point:
        """Where a line turns the corner."""
        return self.left_mm + inset_mm * self.scale * self.turn.tip_ratio, self.y(inset_mm)

    def foot(self, inset_mm: float, *, more_mm: float = 0.0) -> Point:
        """Where a line along the second member ends at its break, or so much further."""
        (along_x, along_y), (in_x, in_y) = self.turn.along, self.turn.inward
        run_mm, in_mm = self.run_mm + more_mm, inset_mm * self.scale
        return self.left_mm + run_mm * along_x + in_mm * in_x, self.top_mm + run_mm * along_y + in_mm * in_y

    @property
    def bottom_mm(self) -> float:
        """The end of the second member, where that comes straight down."""
        return self.top_mm + self.run_mm


def draw_corner(corner: CornerView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the corner; returns the scale."""
    place = _placed(corner, sheet, room)
    clip = pen.clip(_shape(place, corner.depth_mm))
    for strip in corner.strips:
        pen.area(_strip_path(place, strip), strip.role, clip=clip)
    for arris_mm in corner.arrises_mm:
        pen.line(_edge_path(place, arris_mm, corner.depth_mm), Role.EDGE)
    for edge in corner.edges:
        pen.line(_edge_path(place, edge.inset_mm, corner.depth_mm), edge.role)
    for wave in _breaks(place, corner.depth_mm):
        pen.line(wave, Role.BREAK)
    _draw_mitre(corner, place, pen)
    _draw_names(corner, place, pen, room)
    _draw_mitre_length(corner, place, pen)
    _draw_sizes(corner, sheet, place, pen)
    return place.scale


def _placed(corner: CornerView, sheet: Sheet, room: Area) -> _Place:
    most_mm = min(WIDE_MM if not sheet.is_paper else 60.0, room.up_mm - sheet.lanes(2) - RUN_MM * 0.75 - 2)
    scale = fit_scale(most_mm / corner.depth_mm / max(1.0, corner.turn.tip_ratio), sheet=sheet, unit=corner.unit)
    wide_mm = corner.depth_mm * scale
    run_mm = wide_mm * corner.turn.tip_ratio + RUN_MM * 0.75
    left_mm, top_mm = room.left_mm + 4 + max(0.0, -run_mm * corner.turn.along[0]), room.top_mm + 1.8
    return _Place(
        left_mm=left_mm,
        top_mm=top_mm,
        scale=scale,
        right_mm=left_mm + wide_mm * max(1.0, corner.turn.tip_ratio) + RUN_MM,
        run_mm=run_mm,
        turn=corner.turn,
    )


def _breaks(place: _Place, depth_mm: float) -> tuple[str, str]:
    """The lines at which the top member and the left one are broken off."""
    return (
        break_line((place.right_mm, place.top_mm), (place.right_mm, place.y(depth_mm))),
        break_line(place.foot(depth_mm), place.foot(0.0), along=place.turn.along),
    )


def _shape(place: _Place, depth_mm: float) -> str:
    """Path data of both members up to their breaks."""
    right, below = _breaks(place, depth_mm)
    inner = run([place.inner(depth_mm), place.foot(depth_mm)])
    return f"{right}L{inner[1:]}{below[below.index('C') :]}L{run([(place.left_mm, place.top_mm)])[1:]}Z"


def _strip_path(place: _Place, strip: RingStrip) -> str:
    """The area between two lines round the corner, a little longer than its members are drawn."""
    near, far = place.inner(strip.from_mm), place.inner(strip.to_mm)
    right = place.right_mm + 1
    outer = [place.foot(strip.from_mm, more_mm=1), near, (right, near[1])]
    return run([*outer, (right, far[1]), far, place.foot(strip.to_mm, more_mm=1)], closed=True)


def _edge_path(place: _Place, inset_mm: float, depth_mm: float) -> str:
    """A line round the corner that ends on the break lines."""
    ratio = inset_mm / depth_mm
    foot = place.foot(inset_mm, more_mm=swing_at_mm(1 - ratio))
    return run([foot, place.inner(inset_mm), (place.right_mm + swing_at_mm(ratio), place.y(inset_mm))])


def _draw_mitre(corner: CornerView, place: _Place, pen: Pen) -> None:
    """The joint line, and its angle where the outermost strip has room for it."""
    tip = (place.left_mm, place.top_mm)
    pen.line(run([tip, place.inner(corner.mitre_mm)]), Role.MITRE)
    lines_mm = sorted([*(edge.inset_mm for edge in corner.edges), *corner.arrises_mm])
    if lines_mm[1] * place.scale < ANGLE_ROOM_MM:
        return
    radius_mm = min(8.0, corner.mitre_mm * place.scale * 0.8)
    angle_arc(pen, tip, radius_mm=radius_mm, from_deg=0, to_deg=90 - corner.turn.half_turn_deg)
    pen.text(write_angle(90 - corner.turn.half_turn_deg), (tip[0] + radius_mm + 1, tip[1] + 4.4))


def _draw_mitre_length(corner: CornerView, place: _Place, pen: Pen) -> None:
    """The mitre's length, on a shelf under the names of the lines, in the opening."""
    inner = place.inner(corner.mitre_mm)
    down_mm = max(place.y(corner.depth_mm) + 5.5, _name_heights(corner, place)[-1] + 8.2) - inner[1]
    turn = (inner[0] + down_mm, inner[1] + down_mm)
    text = say("mitre length {length}", corner.words, length=corner.mitre.text)
    pen.line(run([inner, turn, (turn[0] + text_across_mm(text) + 1, turn[1])]), Role.LEADER)
    arrow(pen, inner, from_point=turn)
    pen.text(text, (turn[0] + 1, turn[1] - 1), figure=corner.mitre.name)


def _name_heights(corner: CornerView, place: _Place) -> list[float]:
    heights = [place.y(edge.inset_mm) for edge in corner.edges]
    return spread(heights, apart_mm=ROW_MM, least_mm=place.top_mm)


def _draw_names(corner: CornerView, place: _Place, pen: Pen, room: Area) -> None:
    """Name the lines to the right of the break, spread so that the names never touch."""
    names = [say(edge.name, corner.words) for edge in corner.edges]
    heights = [place.y(edge.inset_mm) for edge in corner.edges]
    text_mm = min(place.right_mm + 11, room.right_mm - max(text_across_mm(name) for name in names))
    for name, from_mm, at_mm in zip(names, heights, _name_heights(corner, place), strict=True):
        pen.line(run([(place.right_mm + 1.6, from_mm), (text_mm - 2.4, at_mm), (text_mm - 0.7, at_mm)]), Role.LEADER)
        pen.text(name, (text_mm, at_mm + LETTER_MM * 0.36))


def spread(places_mm: Sequence[float], *, apart_mm: float, least_mm: float = -inf) -> list[float]:
    """Move places apart as little as needed; their order and, if possible, their middle stay.

    Args:
        places_mm: in rising order [mm].
        apart_mm: the least distance of two [mm].
        least_mm: none comes to lie before this [mm].
    Source: derived.

    >>> spread([0, 1, 10], apart_mm=4), spread([0, 1, 10], apart_mm=4, least_mm=0)
    ([-1.5, 2.5, 10], [0, 4, 10])
    """
    groups: list[list[float]] = []
    for place_mm in places_mm:
        groups.append([place_mm])
        while len(groups) > 1 and _spread(groups[-2], apart_mm)[-1] + apart_mm > _spread(groups[-1], apart_mm)[0]:
            last = groups.pop()
            groups[-1] += last
    spread_mm: list[float] = []
    for place_mm in (place_mm for group in groups for place_mm in _spread(group, apart_mm)):
        spread_mm.append(max(place_mm, spread_mm[-1] + apart_mm if spread_mm else least_mm))
    return spread_mm


def _spread(group: Sequence[float], apart_mm: float) -> list[float]:
    if len(group) == 1:
        return list(group)
    first = sum(group) / len(group) - apart_mm * (len(group) - 1) / 2
    return [first + row * apart_mm for row in range(len(group))]


def _draw_sizes(corner: CornerView, sheet: Sheet, place: _Place, pen: Pen) -> None:
    """The widths, under a member that comes straight down and shows them as they are."""
    if not corner.turn.is_square or corner.turn.slopes:
        return
    for lane, size in enumerate(corner.sizes):
        span = DimensionSpan(
            from_mm=place.inner(size.from_mm)[0],
            to_mm=place.inner(size.to_mm)[0],
            feet_mm=(place.bottom_mm + 0.4, place.bottom_mm + 0.4),
            figure=size.figure,
            wordings=tuple(say(wording, corner.words) for wording in size.wordings),
        )
        draw_dimension(
            pen,
            span,
            axis=Axis.ACROSS,
            lane_mm=place.bottom_mm + sheet.lane(lane),
            toward=1,
            limit_mm=place.inner(max(size.to_mm for size in corner.sizes))[0],
        )


CORNER = Drawing(
    name="corner",
    label="Corner",
    read=read_corner,
    title=corner_title,
    draw=draw_corner,
    up_mm=UP_MM,
    of_every_frame=True,
    paper=MITRE_PAPER,
)
