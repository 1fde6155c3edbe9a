"""How strong a corner is against a bare mitre: glue areas, each counted by the grain it lies on. Relative, no load.

A glued face holds best along the grain and worst on end grain; between the two the share follows the angle of the face
to the grain. What end grain is worth against long grain is not known well, so everything is worked out for a low and a
high value, and the answer is a range.
"""

from collections.abc import Sequence
from math import cos, radians, sin

from framecalc.corners.joints.corner_stock import CornerStock
from framecalc.corners.joints.laps import Bridle, HalfLap
from framecalc.corners.joints.slot_kinds import Slot, slot_area_mm2
from framecalc.corners.joints.splines import Spline
from framecalc.errors import ImpossibleJoint
from framecalc.limits import require_between, require_not_negative
from framecalc.records import Record

END_GRAIN_RATIOS = (0.1, 0.4)
"""What glue on end grain is worth against long grain, low and high: assumed, no source; the answer is a range."""


class GlueFace(Record):
    """A glued face in one member: its area, and the angle of the grain to it (0° lies in it, 90° is end grain)."""

    area_mm2: float
    grain_deg: float


class RelativeStrength(Record):
    """How many times a bare mitre, at least and at most, for the two values of end grain."""

    least_ratio: float
    most_ratio: float


class GluedArea(Record):
    """What a joint glues in one member, and what it takes of the mitre."""

    faces: tuple[GlueFace, ...]
    mouth_area_mm2: float


def glue_of_slot(slot: Slot) -> GluedArea:
    """Count both broad sides of a slot, which lie along the grain, and its mouth.

    Source: derived.

    >>> from framecalc.corners.joints.slot_kinds import mortise
    >>> glue_of_slot(mortise(width_mm=20, depth_mm=12, thickness_mm=5)).mouth_area_mm2
    100
    """
    face = GlueFace(area_mm2=slot_area_mm2(slot), grain_deg=0.0)
    return GluedArea(faces=(face,), mouth_area_mm2=slot.mouth_mm * slot.thickness_mm)


def glue_of_spline(spline: Spline) -> GluedArea:
    """Count the half of a spline's two faces that lies in one member, and what its kerf takes of the mitre.

    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> from framecalc.corners.joints.splines import place_spline
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> spline = place_spline(stock, depth_mm=25, kerf_mm=3, height_mm=6, cradle_mm=0)
    >>> round(glue_of_spline(spline).faces[0].area_mm2, 6)
    625.0
    """
    face = GlueFace(area_mm2=spline.glue_area_mm2 / 2, grain_deg=0.0)
    return GluedArea(faces=(face,), mouth_area_mm2=spline.depth_mm * spline.kerf_mm)


def glue_of_half_lap(stock: CornerStock, lap: HalfLap) -> GluedArea:
    """Count the lap, along the grain of both members, and what it leaves of the mitre.

    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> from framecalc.corners.joints.laps import cut_half_lap
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> glue_of_half_lap(stock, cut_half_lap(stock, outside_mm=400, split_mm=12)).faces[0].area_mm2
    578.0
    """
    face = GlueFace(area_mm2=lap.lap_area_mm2, grain_deg=0.0)
    return GluedArea(faces=(face,), mouth_area_mm2=stock.mitre_area_mm2 - lap.mitre_area_mm2)


def glue_of_bridle(stock: CornerStock, bridle: Bridle) -> GluedArea:
    """Count both cheeks of a bridle, along the grain of both members, and what its tenon takes of the mitre.

    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> from framecalc.corners.joints.laps import cut_bridle
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> bridle = cut_bridle(stock, outside_mm=400, tenon_low_mm=6, tenon_high_mm=12)
    >>> glue_of_bridle(stock, bridle).faces[0].area_mm2
    1156.0
    """
    face = GlueFace(area_mm2=bridle.cheek_area_mm2, grain_deg=0.0)
    return GluedArea(faces=(face,), mouth_area_mm2=stock.mitre_area_mm2 - bridle.mitre_area_mm2)


def grain_share_ratio(grain_deg: float, *, end_grain_ratio: float) -> float:
    """Find what a glue face is worth against long grain.

    ``q / (sin²θ + q·cos²θ)``

    Args:
        grain_deg: θ, 0 long grain to 90 end grain [°].
        end_grain_ratio: q, what end grain is worth, 0.01 to 1.
    Raises:
        OutOfRange: angle or ratio out of range.
    Source: Hankinson's formula, Wood Handbook FPL-GTR-190, chapter 5, with exponent 2, from memory, not re-read.

    >>> grain_share_ratio(0, end_grain_ratio=0.25), round(grain_share_ratio(90, end_grain_ratio=0.25), 6)
    (1.0, 0.25)
    """
    require_between(0, 90, grain_deg=grain_deg)
    require_between(0.01, 1, end_grain_ratio=end_grain_ratio)
    angle_rad = radians(grain_deg)
    return end_grain_ratio / (sin(angle_rad) ** 2 + end_grain_ratio * cos(angle_rad) ** 2)


def relative_strength(stock: CornerStock, glues: Sequence[GluedArea]) -> RelativeStrength:
    """Compare a corner with the bare mitre of the same stock.

    ``((A_mitre − A_mouths) · f_mitre + Σ A · f) / (A_mitre · f_mitre)``; the mitre's grain lies at 90° − half turn.

    Args:
        glues: what the joints of the corner glue, each in one member.
    Raises:
        OutOfRange: an area is none.
        ImpossibleJoint: the mouths are larger than the mitre.
    Source: derived; a comparison of glue areas only, common practice, no source.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> glue = GluedArea(faces=(GlueFace(area_mm2=480, grain_deg=0),), mouth_area_mm2=100)
    >>> found = relative_strength(stock, [glue])
    >>> round(found.least_ratio, 1), round(found.most_ratio, 1)
    (1.7, 3.5)
    """
    faces = [face for glue in glues for face in glue.faces]
    for area_mm2 in (*(face.area_mm2 for face in faces), *(glue.mouth_area_mm2 for glue in glues)):
        require_not_negative(area_mm2=area_mm2)
    left_mm2 = stock.mitre_area_mm2 - sum(glue.mouth_area_mm2 for glue in glues)
    if left_mm2 < 0:
        raise ImpossibleJoint("The joints of this corner take the whole mitre.", field="mouth_mm")
    ratios = [_ratio(stock, faces, left_mm2, end_grain) for end_grain in END_GRAIN_RATIOS]
    return RelativeStrength(least_ratio=min(ratios), most_ratio=max(ratios))


def _ratio(stock: CornerStock, faces: Sequence[GlueFace], left_mm2: float, end_grain_ratio: float) -> float:
    mitre_share = grain_share_ratio(90 - stock.half_turn_deg, end_grain_ratio=end_grain_ratio)
    added = sum(face.area_mm2 * grain_share_ratio(face.grain_deg, end_grain_ratio=end_grain_ratio) for face in faces)
    return (left_mm2 * mitre_share + added) / (stock.mitre_area_mm2 * mitre_share)
