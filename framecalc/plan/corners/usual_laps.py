"""Lap joints as they are usually laid out: a half-lap mitre, a bridle, and what they leave to run through."""

from framecalc.corners.joints.corner_stock import CornerStock
from framecalc.corners.joints.laps import Bridle, HalfLap, LapLayer, cut_bridle, cut_half_lap, usual_split_mm

Size = tuple[float, float]
"""The outside of the frame, across and up [mm]."""


def usual_half_laps(stock: CornerStock, *, outside_mm: Size) -> tuple[HalfLap, HalfLap]:
    """A half-lap mitre, split as usual: as top and bottom are cut, and as left and right are."""
    across_mm, up_mm = outside_mm
    split_mm = usual_split_mm(stock)
    return (
        cut_half_lap(stock, outside_mm=across_mm, split_mm=split_mm),
        cut_half_lap(stock, outside_mm=up_mm, split_mm=split_mm),
    )


def usual_bridle(stock: CornerStock, *, outside_mm: Size) -> Bridle:
    """A bridle joint with a tenon of a third of the thickness, in its middle."""
    third_mm = stock.thickness_mm / 3
    return cut_bridle(stock, outside_mm=min(outside_mm), tenon_low_mm=third_mm, tenon_high_mm=2 * third_mm)


def layer_of(half_laps: tuple[HalfLap, HalfLap] | None, bridle: Bridle | None, *, outside_mm: Size) -> LapLayer | None:
    """What a half-lap or a bridle cuts away and lets run through; nothing where there is neither."""
    across_mm, up_mm = outside_mm
    if half_laps:
        low_mm, high_mm, reach_mm = 0.0, half_laps[0].split_mm, half_laps[0].lap_mm
    elif bridle:
        low_mm, high_mm, reach_mm = bridle.tenon_low_mm, bridle.tenon_high_mm, bridle.slot_depth_mm
    else:
        return None
    return LapLayer(low_mm=low_mm, high_mm=high_mm, reach_mm=reach_mm, level_long_mm=across_mm, upright_long_mm=up_mm)
