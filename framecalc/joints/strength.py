"""How strong a corner is against a bare mitre: glue areas, each counted by the grain it lies on. Relative, no load.

A glued face holds best along the grain and worst on end grain; between the two the share follows the angle of the face
to the grain. What end grain is worth against long grain is not known well, so everything is worked out for a low and a
high value, and the answer is a range.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, radians, sin

from framecalc.errors import ImpossibleJoint
from framecalc.joints.corner_stock import CornerStock
from framecalc.ranges import require_between, require_not_negative

END_GRAIN_RATIOS = (0.1, 0.4)
"""What glue on end grain is worth against long grain, low and high: assumed, no source; the answer is a range."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueFace:
    """A glued face in one member: its area, and the angle of the grain to it (0° lies in it, 90° is end grain)."""

    area_mm2: float
    grain_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RelativeStrength:
    """How many times a bare mitre, at least and at most, for the two values of end grain."""

    least_ratio: float
    most_ratio: float


def grain_share_ratio(grain_deg: float, *, end_grain_ratio: float) -> float:
    """Find what a glue face is worth against long grain.

    ``q / (sin²θ + q·cos²θ)``

    Args:
        grain_deg: θ, 0 long grain to 90 end grain [°].
        end_grain_ratio: q, what end grain is worth, 0.01 to 1.
    Raises:
        OutOfRange: no such angle or ratio.
    Source: Hankinson's formula, Wood Handbook FPL-GTR-190, chapter 5, with exponent 2, from memory, not re-read.

    >>> grain_share_ratio(0, end_grain_ratio=0.25), round(grain_share_ratio(90, end_grain_ratio=0.25), 6)
    (1.0, 0.25)
    """
    require_between(0, 90, grain_deg=grain_deg)
    require_between(0.01, 1, end_grain_ratio=end_grain_ratio)
    angle_rad = radians(grain_deg)
    return end_grain_ratio / (sin(angle_rad) ** 2 + end_grain_ratio * cos(angle_rad) ** 2)


def relative_strength(
    stock: CornerStock, faces: Sequence[GlueFace], *, mouth_area_mm2: float = 0.0
) -> RelativeStrength:
    """Compare a corner with the bare mitre of the same stock.

    ``((A_mitre − A_mouths) · f_mitre + Σ A · f) / (A_mitre · f_mitre)``; the mitre's grain lies at 90° − half turn.

    Args:
        faces: what the joint adds, in one member.
        mouth_area_mm2: what its mouths take of the mitre [mm²], ≥ 0.
    Raises:
        OutOfRange: an area is none.
        ImpossibleJoint: the mouths are larger than the mitre.
    Source: derived; a comparison of glue areas only, common practice, no source.

    >>> from framecalc.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> found = relative_strength(stock, [GlueFace(area_mm2=480, grain_deg=0)], mouth_area_mm2=100)
    >>> round(found.least_ratio, 1), round(found.most_ratio, 1)
    (1.7, 3.5)
    """
    require_not_negative(mouth_area_mm2=mouth_area_mm2, **{f"area_{i}_mm2": f.area_mm2 for i, f in enumerate(faces)})
    if mouth_area_mm2 >= stock.mitre_area_mm2:
        raise ImpossibleJoint("The mouths of the joint take the whole mitre.", field="mouth_mm")
    ratios = [_ratio(stock, faces, mouth_area_mm2, end_grain) for end_grain in END_GRAIN_RATIOS]
    return RelativeStrength(least_ratio=min(ratios), most_ratio=max(ratios))


def _ratio(stock: CornerStock, faces: Sequence[GlueFace], mouth_area_mm2: float, end_grain_ratio: float) -> float:
    mitre_share = grain_share_ratio(90 - stock.half_turn_deg, end_grain_ratio=end_grain_ratio)
    added = sum(face.area_mm2 * grain_share_ratio(face.grain_deg, end_grain_ratio=end_grain_ratio) for face in faces)
    left_mm2 = stock.mitre_area_mm2 - mouth_area_mm2
    return (left_mm2 * mitre_share + added) / (stock.mitre_area_mm2 * mitre_share)
