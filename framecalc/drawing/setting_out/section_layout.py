"""The layout of a section on its sheet: the member, the labels of its package, the break.

The labels stand above the member, or to the right of its lip, whichever leaves the member larger. A member that is very
wide for its thickness is broken: a part of its land, where the face runs straight, is left out between two freehand
lines, so that its rabbet can be read.
"""

from collections.abc import Sequence

from framecalc.drawing.dimension import OUTWARD_MM
from framecalc.drawing.package.layers import LABEL_MM, LEADER_MM, Named, widest_label_mm
from framecalc.drawing.sheet import Area, Sheet, View, fit_scale
from framecalc.geometry.outline import Line, Outline
from framecalc.records import Record
from framecalc.units import Unit

TO_LEADERS_MM, TO_BREAK_MM = 4.0, 3.0
"""From the sight edge to the first leader, and from the last one to where the package is broken off."""

OVER_LIP_MM = OUTWARD_MM + 1
"""From the lowest label beside the lip to the lip: the arrow of a shallow rabbet stands there."""

BREAK_GAP_MM = 1.5
"""Between the two lines of a broken member."""

SHALLOW_MM, WORTH_A_BREAK = 6.0, 1.6
"""A member is broken where its rabbet would be drawn shallower than this, and is then larger by this factor."""


class Body(Record):
    """The parts that take room: the member, the depth of its rabbet, what reaches below its back, and what is named."""

    outline: Outline
    face_width_mm: float
    thickness_mm: float
    land_mm: float
    rabbet_depth_mm: float
    below_mm: float
    layers: tuple[Named, ...]

    @property
    def up_mm(self) -> float:
        """From the face to the lowest of all."""
        return self.thickness_mm + self.below_mm

    @property
    def labels_up_mm(self) -> float:
        """The height of the labels, one under the other."""
        return len(self.layers) * LABEL_MM

    @property
    def leaders_mm(self) -> float:
        """From the first leader to the last."""
        return max(0, len(self.layers) - 1) * LEADER_MM

    @property
    def beside_mm(self) -> float:
        """From the sight edge to where the package is broken off."""
        return TO_LEADERS_MM + self.leaders_mm + TO_BREAK_MM

    def beside_labels_mm(self, sheet: Sheet) -> float:
        """The same where labels stand right of the leaders, over the lanes beside the break."""
        labels_mm = TO_LEADERS_MM + self.leaders_mm + 2 + widest_label_mm(self.layers)
        return max(self.beside_mm, labels_mm - sheet.lane(1))


class Layout(Record):
    """The places of the parts: the view of the rabbet's side, the outside, the cut-out, labels, leaders and break."""

    view: View
    outer_mm: float
    cut_mm: tuple[float, float] | None
    labels_left: bool
    labels_mm: float
    leaders_mm: float
    break_mm: float


def lay_out(body: Body, *, sheet: Sheet, room: Area, unit: Unit) -> Layout:
    """Fill the room with a section, and centre it in what is left."""
    room = room.less(
        left_mm=sheet.first_lane_mm + sheet.figure_mm,
        right_mm=sheet.lane(1) + 1.2,
        bottom_mm=sheet.lanes(3 if sheet.is_paper else 2),
    )
    tall, above, beside = _tallest(body, sheet, room), _above(body, room), _beside(body, sheet, room)
    whole = max(min(tall, above), beside)
    straight = straight_part(body)
    broken = min(tall, _broken(body, room, straight))
    is_broken = whole * body.rabbet_depth_mm < SHALLOW_MM and broken > WORTH_A_BREAK * whole
    scale = fit_scale(broken if is_broken else whole, sheet=sheet, unit=unit)
    cut = _cut(body, room, straight, scale) if is_broken else None
    return _placed(body, sheet, room, scale=scale, cut=cut, labels_left=is_broken or min(tall, above) >= beside)


def straight_part(body: Body) -> tuple[float, float]:
    """The part of the land over which the face runs straight, less a margin at both ends; empty where there is none."""
    margin_mm = body.thickness_mm * 0.25
    lines = [line for line in body.outline.segments if isinstance(line, Line) and _is_face(line, body)]
    if not lines:
        return 0.0, 0.0
    longest = max(lines, key=lambda line: line.start[0] - line.end[0])
    start_mm, end_mm = longest.end[0] + margin_mm, min(longest.start[0], body.land_mm) - margin_mm
    return (start_mm, end_mm) if end_mm > start_mm else (0.0, 0.0)


def _is_face(line: Line, body: Body) -> bool:
    """Whether a line of the outline is on the face: above the rabbet, and (counter-clockwise) from right to left."""
    return line.start[0] > line.end[0] and min(line.start[1], line.end[1]) > body.rabbet_depth_mm


def _tallest(body: Body, sheet: Sheet, room: Area) -> float:
    return (room.up_mm - body.labels_up_mm - sheet.lanes_above(1)) / body.up_mm


def _above(body: Body, room: Area) -> float:
    return (room.across_mm - body.beside_mm) / body.face_width_mm


def _broken(body: Body, room: Area, straight: Sequence[float]) -> float:
    return (room.across_mm - body.beside_mm - BREAK_GAP_MM) / (body.face_width_mm - (straight[1] - straight[0]))


def _beside(body: Body, sheet: Sheet, room: Area) -> float:
    return min(
        (room.up_mm - sheet.lanes_above(1)) / body.up_mm,
        (room.up_mm - body.labels_up_mm - OVER_LIP_MM) / (body.rabbet_depth_mm + body.below_mm),
        (room.across_mm - body.beside_labels_mm(sheet)) / body.face_width_mm,
    )


def _cut(body: Body, room: Area, straight: tuple[float, float], scale: float) -> tuple[float, float] | None:
    """The part to leave out at this scale, in the middle of the straight part."""
    kept_mm = (room.across_mm - body.beside_mm - BREAK_GAP_MM) / scale
    half_mm = min(body.face_width_mm - kept_mm, straight[1] - straight[0]) / 2
    middle_mm = (straight[0] + straight[1]) / 2
    return (middle_mm - half_mm, middle_mm + half_mm) if half_mm > 0 else None


def _placed(
    body: Body, sheet: Sheet, room: Area, *, scale: float, cut: tuple[float, float] | None, labels_left: bool
) -> Layout:
    top_mm = sheet.lanes_above(1) + (body.labels_up_mm if labels_left else 0)
    if not labels_left:
        top_mm = max(top_mm, body.labels_up_mm + OVER_LIP_MM - (body.thickness_mm - body.rabbet_depth_mm) * scale)
    member_mm = body.face_width_mm * scale - ((cut[1] - cut[0]) * scale - BREAK_GAP_MM if cut else 0)
    across_mm = member_mm + (body.beside_mm if labels_left else body.beside_labels_mm(sheet))
    start_mm = room.top_mm + (room.up_mm - top_mm - body.up_mm * scale) / 2
    outer_mm = room.left_mm + max(0.0, (room.across_mm - across_mm) / 2)
    sight_mm = outer_mm + member_mm
    return Layout(
        view=View(
            scale=scale,
            left_mm=sight_mm - body.face_width_mm * scale,
            base_mm=start_mm + top_mm + body.thickness_mm * scale,
        ),
        outer_mm=outer_mm,
        cut_mm=cut,
        labels_left=labels_left,
        labels_mm=start_mm + LABEL_MM / 2,
        leaders_mm=sight_mm + TO_LEADERS_MM,
        break_mm=sight_mm + body.beside_mm,
    )
