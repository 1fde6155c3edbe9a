"""A test joint: where to read its two gaps, and the gaps themselves, magnified, once they are read."""

from math import cos, radians, tan

from framecalc.corners.saw import MeasuredJoint
from framecalc.drawing.corners.open_corner import MitreGap, OpenCorner, draw_open_corner, factor_for
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.record import Drawing
from framecalc.drawing.sheet import Area, Sheet
from framecalc.drawing.style import Role
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.records import Record
from framecalc.units import Unit, write_gap
from framecalc.words import Words, say, worded

WIDTH_MM, REACH_MM, OPEN_MM = 22.0, 40.0, 8.0
LEFT_MM, TOP_MM, RIGHT_MM = 12.0, 8.0, 79.0
"""Where the joint begins on the sheet, and where all ends."""

UP_MM = 58.0
EXAMPLE = MitreGap(outside_mm=4.0, inside_mm=0.0)
"""What is drawn before anything is read: it only shows where to read."""


class GapsView(Record):
    """What the drawing reads from a plan: the last test cut read, if any."""

    opening: MitreGap | None
    mitre_deg: float
    tried: MeasuredJoint
    unit: Unit
    words: Words


def read_gaps(plan: FramePlan) -> GapsView:
    """Read from a plan the last test cut."""
    cuts = [read for read in plan.corners.saw.cuts if read.is_current]
    opening = MitreGap(outside_mm=cuts[-1].outside_gap.mm, inside_mm=cuts[-1].inside_gap.mm) if cuts else None
    return GapsView(
        opening=opening,
        mitre_deg=90 - plan.shape.half_turn_deg,
        tried=cuts[-1].cut.tried if cuts else MeasuredJoint.ONE_JOINT,
        unit=plan.unit,
        words=plan.project.shop.words,
    )


def gaps_title(view: GapsView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    says = "A test joint: the gap is read at the tips and at the inside, where the inner edges meet, {tried}"
    return say(says, view.words, tried=worded(view.tried))


def draw_gaps(view: GapsView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the joint; to no scale."""
    widest_mm = view.opening.widest_mm(mitre_deg=view.mitre_deg) if view.opening else 0
    factor = factor_for(widest_mm, room_mm=OPEN_MM)
    opening = view.opening.magnified(factor) if view.opening else EXAMPLE
    corner = corner_of(view.mitre_deg)
    draw_open_corner(pen, corner, opening)
    texts, inner = _texts(view), corner.inner
    beside_mm = corner.across_mitre((corner.reach_mm, corner.width_mm))[0] + 2
    inner_at = (corner.tip[0] + 24.5, 41.0) if beside_mm < 24.5 else (corner.tip[0] + beside_mm, 33.0)
    _point_at(pen, corner.at(opening.outside_mm * 0.7, 0.0), (corner.tip[0] + 24.0, 3.8), texts[0])
    _point_at(pen, corner.at(inner[0] + opening.inside_mm * 0.7, inner[1]), inner_at, texts[1])
    unit = "inches" if view.unit is Unit.INCH else "mm"
    foot = f"in {unit}, gaps shown ×{factor:g}" if view.opening else "read both, by feeler"
    pen.text(foot, (sheet.across_mm - 1, sheet.up_mm - 1.4), role=Role.FAINT, anchor="end")
    return 0.0


def corner_of(mitre_deg: float) -> OpenCorner:
    """The corner as large as the sheet has room for: a blunt one reaches to both sides of its tip."""
    back = max(-cos(radians(2 * mitre_deg)), 0.0)
    reach_mm = min(REACH_MM, (RIGHT_MM - LEFT_MM) / (1 + back))
    return OpenCorner(
        tip=(LEFT_MM + back * reach_mm, TOP_MM),
        toward=(1, 1),
        width_mm=min(WIDTH_MM, WIDTH_MM * tan(radians(mitre_deg))),
        reach_mm=reach_mm,
        mitre_deg=mitre_deg,
    )


def _texts(view: GapsView) -> tuple[str, str]:
    tips, inner = "at the tips", say("at the inside", view.words)
    if view.opening is None:
        return tips, inner
    read_mm = (view.opening.outside_mm, view.opening.inside_mm)
    outside, inside = (write_gap(gap_mm, unit=view.unit) for gap_mm in read_mm)
    return f"{outside} {tips}", f"{inside} {inner}"


def _point_at(pen: Pen, place: Point, text_at: Point, text: str) -> None:
    """A text with a leader to a place."""
    left_mm = min(text_at[0], RIGHT_MM - text_across_mm(text))
    pen.line(run([place, (left_mm - 1.0, text_at[1] - 1.2)]), Role.LEADER)
    pen.text(text, (left_mm, text_at[1]))


GAPS = Drawing(name="gaps", read=read_gaps, title=gaps_title, draw=draw_gaps, up_mm=UP_MM)
