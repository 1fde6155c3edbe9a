"""The mitre face, seen square: its true section stretched along the mitre, the zone of a slot, and the cuts.

The tip is on the left, the sight edge on the right, the back below. On paper it is drawn at full size where it fits.
"""

from framecalc.drawing.corners.joint_view import JOINT_PAPER, DrawnSize, Hole, JointView, read_joint
from framecalc.drawing.dimension import OUTWARD_MM, Axis, DimensionSpan, beyond_mm, draw_beside, draw_lanes
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, rectangle, run
from framecalc.drawing.record import ACROSS_MM, Drawing
from framecalc.drawing.sheet import Area, Sheet, View, fit_scale, panel
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.records import Record, replace
from framecalc.words import say, worded

NAMES_MM, LEGEND_MM = 5.4, 5.2
"""Room over the face for the names of its ends, and under the lanes for each line of the legend."""

MOST_UP_MM, BAR_MM = 78.0, 6.4
"""How tall a panel of the page is at most, and what its scale bar takes."""

FULL_SIZE, CROWDED_MM = 1.0, 9.0
"""On paper a face is drawn no larger than it is; drawn lower than this it has no room for figures beside it."""


class _Face(Record):
    """The face on its sheet."""

    view: View
    sheet: Sheet
    begins_mm: float
    left_mm: float
    right_mm: float
    top_mm: float
    base_mm: float


def mitre_face_title(joint: JointView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    cut = ", ".join(dict.fromkeys(hole.name for hole in joint.holes))
    return say("Mitre face of {name}, seen square, with {cut}", joint.words, name=joint.name, cut=worded(cut))


def face_up_mm(joint: JointView) -> float:
    """The height of a panel that shows the face across its full width."""
    tall = panel(ACROSS_MM, MOST_UP_MM)
    joint = _without_crowded_walls(joint, tall, tall.room)
    face = _fitted(joint, tall, tall.room)
    return face.base_mm + _below_mm(joint, tall) + BAR_MM


def draw_mitre_face(joint: JointView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the mitre face; returns the scale."""
    joint = _without_crowded_walls(joint, sheet, room)
    face = _fitted(joint, sheet, room)
    outline = run(map(face.view.at, joint.shape), closed=True)
    pen.area(outline, Role.WOOD)
    if joint.zone:
        pen.area(_hole_path(face, joint.zone), Role.GIVEN_AREA)
        pen.line(_hole_path(face, joint.zone), Role.HIDDEN)
    for hole in joint.holes:
        pen.area(_hole_path(face, hole), Role.SHADOW)
        pen.line(_hole_path(face, hole), Role.TROUBLE if hole.trouble else Role.EDGE)
    pen.line(outline, Role.OUTLINE)
    _draw_names(joint, face, pen)
    _draw_sizes(joint, face, pen)
    _draw_legend(joint, face, pen, room)
    return face.view.scale


def _without_crowded_walls(joint: JointView, sheet: Sheet, room: Area) -> JointView:
    """Leave out the walls of a wide face, which is drawn too low for them; a table beside it has them."""
    drawn_mm = joint.thickness_mm * _fitted(joint, sheet, room).view.scale
    return joint if drawn_mm >= CROWDED_MM else replace(joint, walls=())


def _fitted(joint: JointView, sheet: Sheet, room: Area) -> _Face:
    """Lay the face out, smaller if a figure along it stands beyond it."""
    after_mm = max((_figure_mm(wall, sheet) for wall in joint.walls), default=0.0) + sheet.lane(0)
    face = _placed(joint, sheet, room, after_mm=after_mm)
    spans = _along_spans(joint, face)
    past_mm = max((span.to_mm for span in spans), default=0.0) + beyond_mm(spans, sheet) - face.right_mm
    return face if past_mm <= after_mm else _placed(joint, sheet, room, after_mm=beyond_mm(spans, sheet))


def _placed(joint: JointView, sheet: Sheet, room: Area, *, after_mm: float) -> _Face:
    """Lay the face out; a cut that breaks out of it takes room too."""
    begins_mm = min(0.0, *(hole.near_mm for hole in joint.holes))
    ends_mm = max(joint.mitre_length_mm, *(hole.far_mm for hole in joint.holes))
    lanes_mm = _height_lanes(joint, sheet)
    beside_mm = -lanes_mm[-1] + _figure_mm(joint.heights[-1], sheet)
    across_mm = room.across_mm - beside_mm - after_mm - 1
    up_mm = room.up_mm - NAMES_MM - _below_mm(joint, sheet)
    largest = min(across_mm / (ends_mm - begins_mm), up_mm / joint.thickness_mm)
    scale = fit_scale(min(largest, FULL_SIZE) if sheet.is_paper else largest, sheet=sheet, unit=joint.unit)
    left_mm, top_mm = room.left_mm + beside_mm - begins_mm * scale, room.top_mm + NAMES_MM
    base_mm = top_mm + joint.thickness_mm * scale
    return _Face(
        view=View(scale=scale, left_mm=left_mm, base_mm=base_mm),
        sheet=sheet,
        begins_mm=left_mm + begins_mm * scale,
        left_mm=left_mm,
        right_mm=left_mm + ends_mm * scale,
        top_mm=top_mm,
        base_mm=base_mm,
    )


def _hole_path(face: _Face, hole: Hole) -> str:
    return face.view.rectangle(hole.near_mm, hole.low_mm, hole.far_mm, hole.high_mm)


def _draw_names(joint: JointView, face: _Face, pen: Pen) -> None:
    above_mm = face.top_mm - 1.6
    pen.text("tip", (face.left_mm, above_mm), role=Role.FAINT)
    inner = say("sight edge", joint.words)
    pen.text(inner, (max(face.right_mm, face.left_mm + 30), above_mm), role=Role.FAINT, anchor="end")


def _draw_sizes(joint: JointView, face: _Face, pen: Pen) -> None:
    along = _along_spans(joint, face)
    if along:
        lanes_mm = [face.base_mm + _drop_mm(joint) + face.sheet.lane(lane) for lane in range(len(along))]
        draw_lanes(pen, along, axis=Axis.ACROSS, lanes_mm=lanes_mm, toward=1)
    for size, lane_mm in zip(joint.heights, _height_lanes(joint, face.sheet), strict=True):
        span = _height(size, face, face.begins_mm)
        is_short = span.length_mm < face.sheet.figure_mm * 0.75
        draw_beside(pen, span, lane_mm=face.begins_mm + lane_mm, toward=-1, over_short=is_short)
    for wall in _walls(joint, face):
        draw_beside(pen, wall, lane_mm=face.right_mm + face.sheet.lane(0), toward=1, over_short=False)


def _along_spans(joint: JointView, face: _Face) -> list[DimensionSpan]:
    return [_along(size, face) for size in joint.along]


def _height_lanes(joint: JointView, sheet: Sheet) -> list[float]:
    """The distance of each height's dimension line left of the face, clear of the figure before."""
    lanes_mm, at_mm = [], 0.0
    for size in joint.heights:
        at_mm -= sheet.lane(0)
        lanes_mm.append(at_mm)
        at_mm -= _figure_mm(size, sheet) - sheet.lane(0) + 2.4
    return lanes_mm


def _figure_mm(size: DrawnSize, sheet: Sheet) -> float:
    return text_across_mm(size.figure.text, size_mm=sheet.figure_mm) + 1.3


def _walls(joint: JointView, face: _Face) -> list[DimensionSpan]:
    """The walls above and below on the face; where their figures would meet, only the thinner one."""
    spans = [_height(size, face, face.right_mm) for size in joint.walls]
    middles_mm = [(span.from_mm + span.to_mm) / 2 for span in spans]
    if len(spans) > 1 and max(middles_mm) - min(middles_mm) < LETTER_MM * 1.2:
        return [min(spans, key=lambda span: span.length_mm)]
    return spans


def _along(size: DrawnSize, face: _Face) -> DimensionSpan:
    return DimensionSpan(
        from_mm=face.view.x(size.from_mm),
        to_mm=face.view.x(size.to_mm),
        feet_mm=(face.base_mm, face.base_mm),
        figure=size.figure,
        wordings=(f"{size.word} {{}}", "{}"),
    )


def _height(size: DrawnSize, face: _Face, foot_mm: float) -> DimensionSpan:
    """Upward on the sheet is backward along its axis: the larger height comes first."""
    return DimensionSpan(
        from_mm=face.view.y(size.to_mm),
        to_mm=face.view.y(size.from_mm),
        feet_mm=(foot_mm, foot_mm),
        figure=size.figure,
    )


def _below_mm(joint: JointView, sheet: Sheet) -> float:
    """The height below the face: the lanes of its dimensions and the legend."""
    return _lanes_mm(joint, sheet) + LEGEND_MM * len(_legend(joint))


def _lanes_mm(joint: JointView, sheet: Sheet) -> float:
    return _drop_mm(joint) + sheet.lanes(max(len(joint.along), 1))


def _drop_mm(joint: JointView) -> float:
    """The extra drop of the lanes, clear of the outward arrow of a thin wall at the back."""
    return OUTWARD_MM if joint.walls else 0.0


def _legend(joint: JointView) -> list[tuple[str, Role]]:
    """The meanings of the colours in the drawing."""
    zone = [("where the mouth may lie", Role.HIDDEN)] if joint.zone else []
    troubles = dict.fromkeys(hole.trouble.value for hole in joint.holes if hole.trouble)
    return [*zone, *((trouble, Role.TROUBLE) for trouble in troubles)]


def _draw_legend(joint: JointView, face: _Face, pen: Pen, room: Area) -> None:
    base_mm = face.base_mm + _lanes_mm(joint, face.sheet)
    for row, (text, role) in enumerate(_legend(joint), start=1):
        below_mm = base_mm + row * LEGEND_MM - 0.6
        swatch = rectangle(room.left_mm + 1, below_mm - 2.6, room.left_mm + 6, below_mm)
        pen.area(swatch, Role.GIVEN_AREA if role is Role.HIDDEN else Role.SHADOW)
        pen.line(swatch, role)
        pen.text(text, (room.left_mm + 8, below_mm), role=Role.FAINT)


FACE = Drawing(
    name="face", read=read_joint, title=mitre_face_title, draw=draw_mitre_face, up_mm=face_up_mm, paper=JOINT_PAPER
)
