"""Passes of a router table: how high the bit stands after each, from the depth, the bit and the wood.

Every pass but the last takes about as much as the next; the *light pass* at the end takes off what the others tore.
"""

from math import ceil, floor

from framecalc.limits import require_not_negative, require_positive
from framecalc.units import TOLERANCE_MM

LIGHT_PASS_MM = 0.8
"""The last pass, 1/32 in: it takes off torn grain. Source: common practice, no source."""

SOFT_PASS_MM, HARD_PASS_MM = 6.0, 3.2
"""The deepest pass in softwood, 1/4 in, and in hard wood, 1/8 in. Source: common practice, no source."""

HARD_FROM_KG_M3 = 560.0
"""A wood this heavy is taken as hard. Source: common practice, no source."""


def deepest_pass_mm(*, bit_mm: float, density_kg_m3: float) -> float:
    """Find how deep one pass may be: half the bit, and no more than the wood bears.

    Args:
        bit_mm: the diameter of the bit [mm], > 0.
        density_kg_m3: of the wood; 0 where it is not known, which counts as hard.
    Raises:
        OutOfRange: the bit has no diameter.
    Source: common practice, no source; the manual of the machine and of the bit comes first.

    >>> deepest_pass_mm(bit_mm=19, density_kg_m3=400), deepest_pass_mm(bit_mm=6, density_kg_m3=700)
    (6.0, 3.0)
    """
    require_positive(bit_mm=bit_mm)
    require_not_negative(density_kg_m3=density_kg_m3)
    is_soft = 0 < density_kg_m3 < HARD_FROM_KG_M3
    return min(bit_mm / 2, SOFT_PASS_MM if is_soft else HARD_PASS_MM)


def pass_heights_mm(
    depth_mm: float, *, deepest_mm: float, step_mm: float, light_mm: float = LIGHT_PASS_MM
) -> tuple[float, ...]:
    """List how high the bit stands at each pass, in whole steps of the tape but for the last, which is the depth.

    Args:
        depth_mm: of the whole cut [mm], > 0.
        deepest_mm: the deepest pass [mm], > 0.
        step_mm: of the tape [mm], > 0; steps too coarse for the passes are not kept to.
        light_mm: the least left for the last pass [mm], ≥ 0.
    Raises:
        OutOfRange: a length is out of its range.
    Source: derived; the depths are common practice, no source.

    >>> pass_heights_mm(12, deepest_mm=6, step_mm=0.5), pass_heights_mm(0.6, deepest_mm=6, step_mm=0.5)
    ((5.5, 11.0, 12), (0.6,))
    """
    require_positive(depth_mm=depth_mm, deepest_mm=deepest_mm, step_mm=step_mm)
    require_not_negative(light_mm=light_mm)
    before_mm = depth_mm - light_mm
    if before_mm <= TOLERANCE_MM:
        return (depth_mm,)
    steps, most = floor((before_mm + TOLERANCE_MM) / step_mm), floor((deepest_mm + TOLERANCE_MM) / step_mm)
    if steps and most and depth_mm - steps * step_mm <= deepest_mm + TOLERANCE_MM:
        count = ceil(steps / most)
        return (*(ceil(steps * number / count) * step_mm for number in range(1, count + 1)), depth_mm)
    count = ceil((before_mm - TOLERANCE_MM) / deepest_mm)
    return (*(before_mm * number / count for number in range(1, count + 1)), depth_mm)
