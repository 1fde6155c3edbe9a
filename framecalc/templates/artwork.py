"""The template of the artwork: its outline, what stays in view of it, where work is safe, where it may be held down.

Everything outside what is in view is covered: clamps and screws may hold it down there. A *V-groove* cannot be narrower
at the surface than its bit is at that depth.
"""

from collections.abc import Sequence
from math import radians, tan

from framecalc.geometry.offset import parallel
from framecalc.geometry.outline import Point
from framecalc.limits import require_between, require_positive
from framecalc.templates.shapes import polygon
from framecalc.templates.template import Side, Step, Template, at_origin

SAFE_MM = 3.0
"""Inside what is in view, for the play of the artwork and the width of a line (common practice, no source: 1/8 in)."""


def narrowest_groove_mm(*, depth_mm: float, bit_deg: float) -> float:
    """Find how wide a V-groove is at the surface, at the least: ``w = 2 h · tan(α/2)``.

    Args:
        depth_mm: h, of the groove [mm], > 0.
        bit_deg: α, of the bit from side to side [degrees], 1 to 179.
    Raises:
        OutOfRange: a bit or a depth that is none.
    Source: plane geometry.

    >>> round(narrowest_groove_mm(depth_mm=1, bit_deg=60), 3), round(narrowest_groove_mm(depth_mm=1, bit_deg=90), 3)
    (1.155, 2.0)
    """
    require_positive(depth_mm=depth_mm)
    require_between(1, 179, bit_deg=bit_deg)
    return 2 * depth_mm * tan(radians(bit_deg / 2))


def artwork_panel(
    corners: Sequence[Point], *, in_view: Sequence[Point], safe_mm: float, title: str, purpose: str
) -> Template:
    """Make the artwork with what stays in view of it and the safe zone inside that, both only drawn.

    Args:
        corners, in_view: of the artwork and of what is in view, from one place.
        safe_mm: how far the safe zone lies inside what is in view [mm], > 0.
    Raises:
        ImpossibleSize: nothing is left of the safe zone.
    Source: plane geometry.

    >>> panel = artwork_panel([(0, 0), (90, 0), (90, 60), (0, 60)], in_view=[(5, 5), (85, 5), (85, 55), (5, 55)],
    ...                       safe_mm=3, title="", purpose="")
    >>> panel.across_mm, panel.zones[1].segments[0].start
    (90, (8.0, 8.0))
    """
    view = polygon(in_view)
    return at_origin(
        Template(
            name="artwork",
            title=title,
            purpose=purpose,
            side=Side.FACE,
            step=Step.ARTWORK,
            outlines=(polygon(corners),),
            zones=(view, parallel(view, by_mm=-safe_mm)),
        )
    )
