"""Joints that are cut on the member itself: the half-lap mitre and the mitred bridle, for square corners.

*Half-lap mitre*: above the *split* both members are mitred; below it one runs through to its square end and the other
is cut back to butt against it. *Mitred bridle*: both faces are mitred; between two heights one member keeps a *tenon*
that runs through the other's open slot. From the front both look like a plain mitre, and the long edges stay as long.
"""

from math import sqrt

from framecalc.corners.joints.corner_stock import CornerStock, refuse_larger, room_across_mm
from framecalc.errors import ImpossibleJoint
from framecalc.findings import Finding, Severity
from framecalc.limits import require_between, require_positive
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

SHARE_RANGE = (1 / 3, 2 / 3)
"""Of the thickness: where a split may lie so that neither half is weak (common practice, no source)."""


class HalfLap(Record):
    """A half-lap mitre: the split, how far the lap reaches from the end, and what is left of the back that is cut.

    `lap_area_mm2` is long grain on long grain, `mitre_area_mm2` what is left of the mitre, for each corner.
    """

    split_mm: float
    lap_mm: float
    long_mm: float
    cut_back_mm: float
    lap_area_mm2: float
    mitre_area_mm2: float


class Bridle(Record):
    """A mitred bridle: the tenon's heights, how far it runs through, how deep the slot is, and the glue areas."""

    tenon_low_mm: float
    tenon_high_mm: float
    tenon_mm: float
    slot_depth_mm: float
    long_mm: float
    cheek_area_mm2: float
    mitre_area_mm2: float


class LapLayer(Record):
    """The layer of a corner in which one pair of members runs through and the other is cut back between them.

    The back of a half-lap mitre, the middle of a bridle. Left and right run through; before and behind the layer, and
    along the long edges, all four members stay as long as planned.
    """

    low_mm: float
    high_mm: float
    reach_mm: float
    level_long_mm: float
    upright_long_mm: float

    @property
    def between_mm(self) -> float:
        """How long top and bottom are within the layer, from shoulder to shoulder."""
        return self.level_long_mm - 2 * self.reach_mm


def usual_split_mm(stock: CornerStock) -> float:
    """Find where to split: at the rabbet floor where that is near the middle, else in the middle.

    At the rabbet floor the lap has one width and no step.

    Source: common practice, no source (between a third and two thirds of the thickness).

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> usual_split_mm(corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12))
    12
    """
    share = stock.rabbet_depth_mm / stock.thickness_mm
    return stock.rabbet_depth_mm if SHARE_RANGE[0] <= share <= SHARE_RANGE[1] else stock.thickness_mm / 2


def cut_half_lap(stock: CornerStock, *, outside_mm: float, split_mm: float) -> HalfLap:
    """Size a half-lap mitre for the member that is cut back and the one that runs through.

    Below the split the one that runs through is as long as the outside and as wide as the land; the other ends there:
    ``cut back = outside − 2·lap``. Half of the lap's square is glued, ``lap²/2``.

    Args:
        outside_mm: of the member [mm], > 2w.
        split_mm: height of the split above the back [mm], > 0, less than t.
    Raises:
        OutOfRange: a length is out of range.
        ImpossibleJoint: the corner is not square, the split is not within it, or the members leave no frame.
    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> lap = cut_half_lap(stock, outside_mm=400, split_mm=12)
    >>> lap.lap_mm, lap.cut_back_mm, lap.lap_area_mm2
    (34.0, 332.0, 578.0)
    """
    _refuse_unfit(stock, outside_mm)
    require_positive(split_mm=split_mm)
    refuse_larger("split height", split_mm, than="thickness", limit_mm=stock.thickness_mm, field="split_mm")
    lap_mm = room_across_mm(stock, low_mm=0.0, high_mm=split_mm)[1]
    return HalfLap(
        split_mm=split_mm,
        lap_mm=lap_mm,
        long_mm=outside_mm,
        cut_back_mm=outside_mm - 2 * lap_mm,
        lap_area_mm2=lap_mm**2 / 2,
        mitre_area_mm2=_mitre_between_mm2(stock, low_mm=split_mm, high_mm=stock.thickness_mm),
    )


def cut_bridle(stock: CornerStock, *, outside_mm: float, tenon_low_mm: float, tenon_high_mm: float) -> Bridle:
    """Size a mitred bridle.

    The tenon runs through to the outer edge, over the solid that the other member has at its heights; the slot is open
    at the end and as deep. Both cheeks of the half square beyond the mitre are glued: ``2 · tenon²/2``.

    Args:
        outside_mm: of the members [mm], > 2w.
        tenon_low_mm, tenon_high_mm: heights of the tenon above the back [mm], 0 ≤ low < high ≤ t.
    Raises:
        OutOfRange: a length is out of range.
        ImpossibleJoint: the tenon has no thickness, the corner is not square, or the members leave no frame.
    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> bridle = cut_bridle(stock, outside_mm=400, tenon_low_mm=6, tenon_high_mm=12)
    >>> bridle.tenon_mm, bridle.cheek_area_mm2
    (34.0, 1156.0)
    """
    _refuse_unfit(stock, outside_mm)
    require_between(0, stock.thickness_mm, tenon_low_mm=tenon_low_mm, tenon_high_mm=tenon_high_mm)
    if tenon_high_mm - tenon_low_mm <= TOLERANCE_MM:
        raise ImpossibleJoint(
            "A tenon from {low} up to {high} has no thickness.",
            field="tenon_high_mm",
            lengths={"low": tenon_low_mm, "high": tenon_high_mm},
        )
    reach_mm = room_across_mm(stock, low_mm=tenon_low_mm, high_mm=tenon_high_mm)[1]
    return Bridle(
        tenon_low_mm=tenon_low_mm,
        tenon_high_mm=tenon_high_mm,
        tenon_mm=reach_mm,
        slot_depth_mm=reach_mm,
        long_mm=outside_mm,
        cheek_area_mm2=reach_mm**2,
        mitre_area_mm2=stock.mitre_area_mm2 - _mitre_between_mm2(stock, low_mm=tenon_low_mm, high_mm=tenon_high_mm),
    )


def half_lap_findings(stock: CornerStock, lap: HalfLap) -> tuple[Finding, ...]:
    """Report when a split leaves one half weak, or steps over the rabbet floor.

    Source: common practice, no source.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=8)
    >>> [finding.code for finding in half_lap_findings(stock, cut_half_lap(stock, outside_mm=400, split_mm=15))]
    ['joints.lap-weak', 'joints.lap-stepped']
    """
    found = []
    if not SHARE_RANGE[0] <= lap.split_mm / stock.thickness_mm <= SHARE_RANGE[1]:
        found.append(_weak(stock, lap))
    if stock.rabbet_width_mm and lap.split_mm > stock.rabbet_depth_mm + TOLERANCE_MM:
        found.append(_stepped(stock, lap))
    return tuple(found)


def bridle_findings(stock: CornerStock, bridle: Bridle) -> tuple[Finding, ...]:
    """Report when a bridle's tenon or one of its cheeks is thinner than a quarter of the stock.

    Source: common practice, no source (a third each).

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> thin = cut_bridle(stock, outside_mm=400, tenon_low_mm=2, tenon_high_mm=12)
    >>> [finding.code for finding in bridle_findings(stock, thin)]
    ['joints.bridle-thin']
    """
    parts_mm = {
        "cheek behind the tenon": bridle.tenon_low_mm,
        "tenon": bridle.tenon_high_mm - bridle.tenon_low_mm,
        "cheek before the tenon": stock.thickness_mm - bridle.tenon_high_mm,
    }
    least_mm = stock.thickness_mm / 4
    return tuple(
        Finding(
            code="joints.bridle-thin",
            severity=Severity.WARN,
            sentence=f"The {part} is {{part}} thick; a third of the stock, {{usual}}, is usual.",
            why="The thinnest of the three decides what the corner holds.",
            source="usual practice",
            argument="tenon_low_mm",
            lengths={"part": part_mm, "usual": stock.thickness_mm / 3},
        )
        for part, part_mm in parts_mm.items()
        if part_mm < least_mm - TOLERANCE_MM
    )


def _mitre_between_mm2(stock: CornerStock, *, low_mm: float, high_mm: float) -> float:
    """The mitre face between two heights, of the blank with its rabbet."""
    behind_mm = max(min(high_mm, stock.rabbet_depth_mm) - low_mm, 0.0)
    within_mm = max(high_mm - max(low_mm, stock.rabbet_depth_mm), 0.0)
    return sqrt(2) * (behind_mm * stock.land_mm + within_mm * stock.face_width_mm)


def _refuse_unfit(stock: CornerStock, outside_mm: float) -> None:
    require_positive(outside_mm=outside_mm)
    if stock.half_turn_deg != 45:
        raise ImpossibleJoint("Half-laps and bridles are set out for square corners only.", field="sides")
    if outside_mm <= 2 * stock.face_width_mm:
        raise ImpossibleJoint(
            "A member {outside} long is not longer than two of {width}.",
            field="outside_mm",
            lengths={"outside": outside_mm, "width": stock.face_width_mm},
        )


def _weak(stock: CornerStock, lap: HalfLap) -> Finding:
    return Finding(
        code="joints.lap-weak",
        severity=Severity.WARN,
        sentence="Split at {split} of {thickness}, one half is thinner than a third.",
        why="The thinner half decides what the corner holds.",
        source="usual practice",
        argument="split_mm",
        lengths={"split": lap.split_mm, "thickness": stock.thickness_mm},
    )


def _stepped(stock: CornerStock, lap: HalfLap) -> Finding:
    return Finding(
        code="joints.lap-stepped",
        severity=Severity.NOTE,
        sentence="The split at {split} lies above the rabbet floor at {floor}: the lap gets a step.",
        why="Split at the rabbet floor it is one plain cut.",
        source="derived",
        argument="split_mm",
        lengths={"split": lap.split_mm, "floor": stock.rabbet_depth_mm},
    )
