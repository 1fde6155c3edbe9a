"""A test joint: where to read its two gaps, and the gaps themselves, magnified, once they are read."""

from dataclasses import dataclass

from framecalc.corners.saw import MeasuredJoint
from framecalc.drawing.corners.open_corner import MitreGap, OpenCorner, draw_open_corner, factor_for
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.record import Drawing
from framecalc.drawing.sheet import Area, Sheet
from framecalc.drawing.style import Role
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.units import Unit, write_gap
from framecalc.words import Words, say, worded

WIDTH_MM, REACH_MM, OPEN_MM = 22.0, 40.0, 8.0
TIP_MM = (12.0, 8.0)
"""Where the tip lies on the sheet."""

UP_MM = 58.0
EXAMPLE = MitreGap(outside_mm=4.0, inside_mm=0.0)
"""What is drawn before anything is read: it only shows where to read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GapsView:
    """What the drawing reads from a plan: the last test cut read, if any."""

    opening: MitreGap | None
    tried: MeasuredJoint
    unit: Unit
    words: Words


def read_gaps(plan: FramePlan) -> GapsView:
    """Read from a plan the last test cut."""
    cuts = [read for read in plan.corners.saw.cuts if read.is_current]
    opening = MitreGap(outside_mm=cuts[-1].outside_gap.mm, inside_mm=cuts[-1].inside_gap.mm) if cuts else None
    return GapsView(
        opening=opening,
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
    factor = factor_for(view.opening.widest_mm, room_mm=OPEN_MM) if view.opening else 1
    opening = view.opening.magnified(factor) if view.opening else EXAMPLE
    corner = OpenCorner(tip=TIP_MM, toward=(1, 1), width_mm=WIDTH_MM, reach_mm=REACH_MM)
    draw_open_corner(pen, corner, opening)
    texts = _texts(view)
    _point_at(pen, corner.at(opening.outside_mm * 0.7, 0.0), (36.0, 3.8), texts[0])
    _point_at(pen, corner.at(WIDTH_MM + opening.inside_mm * 0.7, WIDTH_MM), (36.5, 41.0), texts[1])
    unit = "inches" if view.unit is Unit.INCH else "mm"
    foot = f"in {unit}, gaps shown ×{factor:g}" if view.opening else "read both, by feeler"
    pen.text(foot, (sheet.across_mm - 1, sheet.up_mm - 1.4), role=Role.FAINT, anchor="end")
    return 0.0


def _texts(view: GapsView) -> tuple[str, str]:
    tips, inner = "at the tips", say("at the inside", view.words)
    if view.opening is None:
        return tips, inner
    read_mm = (view.opening.outside_mm, view.opening.inside_mm)
    outside, inside = (write_gap(gap_mm, unit=view.unit) for gap_mm in read_mm)
    return f"{outside} {tips}", f"{inside} {inner}"


def _point_at(pen: Pen, place: Point, text_at: Point, text: str) -> None:
    """A text with a leader to a place."""
    pen.line(run([place, (text_at[0] - 1.0, text_at[1] - 1.2)]), Role.LEADER)
    pen.text(text, text_at)


GAPS = Drawing(name="gaps", read=read_gaps, title=gaps_title, draw=draw_gaps, up_mm=UP_MM)
