"""The members as cut: trapezoids with the long edge up, as they lie against a saw's fence, both ends sloping inward.

Under each end stand the corners that it belongs to, as seen from the front: TL top left, BR bottom right. A member that
is long for its width is drawn broken, so that its ends can be read; its figures are true.
"""

from math import radians, tan

from framecalc.corners.angles import write_angle
from framecalc.drawing.breaks import break_line, swing_at_mm
from framecalc.drawing.dimension import Axis, DimensionSpan, angle_arc, draw_dimension
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, circle, number, run
from framecalc.drawing.record import Drawing, PaperDrawing
from framecalc.drawing.setting_out.section_layout import BREAK_GAP_MM
from framecalc.drawing.sheet import Area, Sheet, fit_scale
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure
from framecalc.records import Record
from framecalc.sizes.members import Member
from framecalc.units import Unit
from framecalc.words import Words, joined, say

MITRE_PAPER = PaperDrawing(name="mitre", label="Mitre layout")
"""The sheet that the members share with their corner."""

UP_MM = 52.0
"""The height of the panel."""

LEAST_UP_MM, MOST_UP_MM, MOST_UP_ON_PAPER_MM = 6.4, 9.6, 24.0
"""How tall a member is drawn at least, broken if need be, and at most."""

TAG_MM = 2.4
"""Radius of the ring around a member's letter."""

LINE_MM = 4.3
"""From one line of letters to the next: no measured face is higher by more than a hair."""

NAMED_MM, STEEP_RATIO = 5.5, 0.95
"""An end that slopes less has no room for the names of its corners; one that slopes less for its width than this is
steeper than that of a flat rectangle."""

CORNERS: dict[tuple[str, ...], tuple[tuple[str, ...], tuple[str, ...]]] = {
    ("top", "bottom"): (("TL", "BR"), ("TR", "BL")),
    ("left", "right"): (("BL", "TR"), ("TL", "BR")),
}
"""The corners at the left and at the right end of a pair of members that lie with the long edge up, face up."""


class MemberPair(Record):
    """The members that are cut alike, a pair of a rectangle or all of a polygon: their name, count and lengths."""

    letter: str
    sides: tuple[str, ...]
    count: int
    long: Figure
    short: Figure


class Members(Record):
    """All that the drawing of the members reads from a plan.

    `line_mm` is the distance of the rabbet wall (or the tray's wall) from the long edge; `line_is_seen` in a tray.
    """

    pieces: tuple[MemberPair, ...]
    width_mm: float
    line_mm: float
    line_is_seen: bool
    end_deg: float
    unit: Unit
    words: Words
    name: str

    @property
    def slant_ratio(self) -> float:
        """How far an end runs along the member for its width."""
        return tan(radians(90 - self.end_deg))


def read_members(plan: FramePlan) -> Members:
    """Read from a plan what the drawing of the members shows; a tray's short edge is that of its ledge."""
    across = plan.members[0]
    short = "ledge" if plan.is_tray else "sight"
    wall_mm = across.width_mm - plan.figures["rabbet_width"].exact_mm if not plan.is_tray else across.width_mm
    ledge_mm = plan.figures["ledge_width"].exact_mm if plan.is_tray else 0
    return Members(
        pieces=_pieces(plan, short),
        width_mm=across.width_mm + ledge_mm,
        line_mm=wall_mm,
        line_is_seen=plan.is_tray,
        end_deg=plan.shape.end_deg,
        unit=plan.unit,
        words=plan.project.shop.words,
        name=plan.frame.name,
    )


def _pieces(plan: FramePlan, short: str) -> tuple[MemberPair, ...]:
    if not plan.shape.is_rectangle:
        (member,) = plan.members
        return (_piece(plan, member, "member_long", "ledge_short" if plan.is_tray else "member_short"),)
    across, up = plan.members
    return _piece(plan, across, "outside_across", f"{short}_across"), _piece(plan, up, "outside_up", f"{short}_up")


def _piece(plan: FramePlan, member: Member, long: str, short: str) -> MemberPair:
    return MemberPair(
        letter=member.letter,
        sides=member.sides,
        count=member.count * plan.frame.count,
        long=plan.figures[long],
        short=plan.figures[short],
    )


def members_title(members: Members) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    parts = (
        f"{piece.count} of {piece.letter}, {piece.long.text} {members.unit} long point to long point"
        for piece in members.pieces
    )
    return say("Members of {name} as cut: {parts}", members.words, name=members.name, parts=joined("; ", parts))


class _Bar(Record):
    """A member on the sheet: its long edge lies along `top_mm`; `is_broken` where its length is not to scale."""

    piece: MemberPair
    left_mm: float
    top_mm: float
    long_mm: float
    up_mm: float
    line_mm: float
    slant_ratio: float
    is_broken: bool

    @property
    def slope_mm(self) -> float:
        """How far an end runs along the member."""
        return self.up_mm * self.slant_ratio

    @property
    def right_mm(self) -> float:
        """Its right long point."""
        return self.left_mm + self.long_mm

    @property
    def bottom_mm(self) -> float:
        """Its short edge."""
        return self.top_mm + self.up_mm

    @property
    def ring_mm(self) -> float:
        """Radius of the ring around its letter: it stays inside the wider strip."""
        return min(TAG_MM, max(self.line_mm, self.up_mm - self.line_mm) / 2 - 0.2)

    @property
    def writing_mm(self) -> float:
        """The middle of its wider strip, where words have room."""
        return self.top_mm + (self.line_mm / 2 if 2 * self.line_mm >= self.up_mm else (self.line_mm + self.up_mm) / 2)


def draw_members(members: Members, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the members that are cut alike, one under the other; returns the scale of the widths."""
    scale, is_broken = _scale(members, sheet, room)
    up_mm = members.width_mm * scale
    each_mm = sheet.lanes_above(1) + up_mm + sheet.lanes(1)
    spare_mm = min(8.0, (room.up_mm - len(members.pieces) * each_mm) / (len(members.pieces) + 1))
    for row, piece in enumerate(members.pieces):
        long_mm = _drawn_long_mm(members, piece, room, scale) if is_broken else piece.long.exact_mm * scale
        bar = _Bar(
            piece=piece,
            left_mm=room.left_mm,
            top_mm=room.top_mm + spare_mm * (row + 1) + each_mm * row + sheet.lanes_above(1),
            long_mm=long_mm,
            up_mm=up_mm,
            line_mm=members.line_mm * scale,
            slant_ratio=members.slant_ratio,
            is_broken=is_broken and long_mm < piece.long.exact_mm * scale - 0.1,
        )
        _draw_bar(members, bar, sheet, pen, room)
    return scale


def _scale(members: Members, sheet: Sheet, room: Area) -> tuple[float, bool]:
    """True to scale if both pairs are then wide enough to read, else broken."""
    most_mm = min(
        MOST_UP_ON_PAPER_MM if sheet.is_paper else MOST_UP_MM,
        room.up_mm / len(members.pieces) - sheet.lanes_above(1) - sheet.lanes(1),
    )
    longest_mm = max(piece.long.exact_mm for piece in members.pieces)
    largest = min(room.across_mm / longest_mm, most_mm / members.width_mm)
    whole = fit_scale(largest, sheet=sheet, unit=members.unit)
    if whole * members.width_mm >= LEAST_UP_MM:
        return whole, False
    strip_ratio = max(members.line_mm, members.width_mm - members.line_mm) / members.width_mm
    up_mm = most_mm if sheet.is_paper else min(most_mm, max(LEAST_UP_MM, (2 * TAG_MM + 0.6) / strip_ratio))
    return fit_scale(up_mm / members.width_mm, sheet=sheet, unit=members.unit), True


def _drawn_long_mm(members: Members, piece: MemberPair, room: Area, scale: float) -> float:
    """The drawn length of a broken member: in proportion, but long enough for its words."""
    longest_mm = max(other.long.exact_mm for other in members.pieces)
    least_mm = 2 * members.width_mm * members.slant_ratio * scale + sum(_writing_mm(members, piece)) + 8
    proportional_mm = room.across_mm * piece.long.exact_mm / longest_mm
    return min(max(least_mm, proportional_mm), room.across_mm, piece.long.exact_mm * scale)


def _note(piece: MemberPair) -> str:
    return f"{piece.count} × {', '.join(piece.sides)}" if piece.sides in CORNERS else f"{piece.count} alike"


def _angle_radius_mm(up_mm: float) -> float:
    return min(8.0, up_mm * 1.25)


def _writing_mm(members: Members, piece: MemberPair) -> tuple[float, float, float]:
    """Room for the angle past the slope, for the ring with the letter, and for the count."""
    angle_mm = max(8.5, text_across_mm(write_angle(members.end_deg)) + 2)
    return angle_mm, 2 * TAG_MM + 2, text_across_mm(_note(piece))


def _draw_bar(members: Members, bar: _Bar, sheet: Sheet, pen: Pen, room: Area) -> None:
    _draw_wood(members, bar, pen)
    _draw_words(members, bar, pen, room)
    _draw_lengths(bar, sheet, pen)
    ends = CORNERS[bar.piece.sides] if bar.piece.sides in CORNERS and bar.slope_mm >= NAMED_MM else ((), ())
    for end, x_mm, anchor in zip(ends, (bar.left_mm, bar.right_mm), ("start", "end"), strict=True):
        for row, corner in enumerate(end):
            pen.text(corner, (x_mm, bar.bottom_mm + 1.2 + row * LINE_MM), anchor=anchor, role=Role.FAINT)


def _draw_wood(members: Members, bar: _Bar, pen: Pen) -> None:
    """The trapezoid with its rabbet wall, in two parts where it is broken."""
    left, right, top, bottom = bar.left_mm, bar.right_mm, bar.top_mm, bar.bottom_mm
    slope, line_y = bar.slope_mm, top + bar.line_mm
    line_in_mm = bar.line_mm * bar.slant_ratio
    line_role = Role.EDGE if members.line_is_seen else Role.HIDDEN
    if not bar.is_broken:
        shape = run([(left, top), (right, top), (right - slope, bottom), (left + slope, bottom)], closed=True)
        pen.area(shape, Role.WOOD)
        pen.line(shape, Role.OUTLINE)
        pen.line(run([(left + line_in_mm, line_y), (right - line_in_mm, line_y)]), line_role)
        return
    near = right - slope - 4 - BREAK_GAP_MM
    far = near + BREAK_GAP_MM
    for tip, foot, cut in ((left, left + slope, near), (right, right - slope, far)):
        wave = break_line((cut, top), (cut, bottom))
        pen.area(f"{wave}L{number(foot)},{number(bottom)}L{number(tip)},{number(top)}Z", Role.WOOD)
        pen.line(run([(cut, top), (tip, top), (foot, bottom), (cut, bottom)]), Role.OUTLINE)
        pen.line(wave, Role.BREAK)
        inward = line_in_mm if tip < cut else -line_in_mm
        end = cut + swing_at_mm(bar.line_mm / bar.up_mm)
        pen.line(run([(tip + inward, line_y), (end, line_y)]), line_role)


def _draw_words(members: Members, bar: _Bar, pen: Pen, room: Area) -> None:
    """The angle, the letter and the count: on the wood where they fit, else beside the member."""
    angle_mm, tag_mm, note_mm = _writing_mm(members, bar.piece)
    radius_mm = _angle_radius_mm(bar.up_mm)
    inside_mm = bar.long_mm - bar.slope_mm - _start_mm(bar) - 1 - (6 if bar.is_broken else 0)
    base_mm = bar.writing_mm + LETTER_MM * 0.36
    start_mm = bar.left_mm + max((base_mm - bar.top_mm) * bar.slant_ratio, radius_mm) + 1.2
    if inside_mm >= angle_mm + tag_mm + note_mm:
        angle_arc(pen, (bar.left_mm, bar.top_mm), radius_mm=radius_mm, from_deg=0, to_deg=members.end_deg)
        pen.text(write_angle(members.end_deg), (start_mm, base_mm))
        start_mm += angle_mm
    elif inside_mm < tag_mm + note_mm:
        start_mm = bar.right_mm + 3
    note = _note(bar.piece)
    if start_mm + tag_mm + note_mm > room.right_mm:
        note, start_mm = f"{bar.piece.count} ×", bar.left_mm + bar.slope_mm + 1
    _draw_tag(pen, bar, start_mm + TAG_MM)
    pen.text(note, (start_mm + tag_mm, base_mm))


def _start_mm(bar: _Bar) -> float:
    """What the start of a member takes of the room for words: its slope, or the arc of an end that slopes little."""
    return bar.slope_mm if bar.slope_mm > bar.up_mm * STEEP_RATIO else max(bar.slope_mm, _angle_radius_mm(bar.up_mm))


def _draw_tag(pen: Pen, bar: _Bar, middle_mm: float) -> None:
    pen.area(circle((middle_mm, bar.writing_mm), bar.ring_mm), Role.TAG)
    base = (middle_mm, bar.writing_mm + LETTER_MM * 0.36)
    pen.text(bar.piece.letter, base, anchor="middle", role=Role.STRONG)


def _draw_lengths(bar: _Bar, sheet: Sheet, pen: Pen) -> None:
    """The long edge above; the short edge below."""
    long = DimensionSpan(
        from_mm=bar.left_mm,
        to_mm=bar.right_mm,
        feet_mm=(bar.top_mm, bar.top_mm),
        figure=bar.piece.long,
        wordings=("long points {}", "{}"),
    )
    short = DimensionSpan(
        from_mm=bar.left_mm + bar.slope_mm,
        to_mm=bar.right_mm - bar.slope_mm,
        feet_mm=(bar.bottom_mm, bar.bottom_mm),
        figure=bar.piece.short,
        wordings=("short points {}", "{}"),
    )
    draw_dimension(
        pen, long, axis=Axis.ACROSS, lane_mm=bar.top_mm - sheet.lane_above(0), toward=1, limit_mm=bar.right_mm
    )
    draw_dimension(pen, short, axis=Axis.ACROSS, lane_mm=bar.bottom_mm + sheet.lane(0), toward=1, limit_mm=bar.right_mm)


MEMBERS = Drawing(
    name="members",
    label="Members",
    read=read_members,
    title=members_title,
    draw=draw_members,
    up_mm=UP_MM,
    of_every_frame=True,
    paper=MITRE_PAPER,
)
