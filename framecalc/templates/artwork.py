"""The template of the artwork: its outline, what stays in view of it, where work is safe, where it may be held down.

Everything outside what is in view is covered: along each side lies a strip, its *hold-down zone*, for clamps, screws or
tape. A *V-groove* cannot be narrower at the surface than its bit is at that depth.
"""

from collections.abc import Iterator, Sequence
from math import hypot, radians, tan

from framecalc.geometry.offset import parallel
from framecalc.geometry.outline import Outline, Point, bounds
from framecalc.limits import require_between, require_positive
from framecalc.records import replace
from framecalc.templates.shapes import polygon
from framecalc.templates.template import CutFrom, Side, Template, TemplateStep, Word, at_origin
from framecalc.units import TOLERANCE_MM

SAFE_MM = 3.0
"""Inside what is in view, for the play of the artwork and the width of a line (common practice, no source: 1/8 in)."""

LEAST_HOLD_MM, HOLD_AIR_MM = 4.0, 1.0
"""A narrower strip holds nothing; round a zone, so that it meets no other line (common practice, no source)."""

NOTE_MM = 2.0
"""Type size of the names of the zones. Ours, no source."""

MOST_LETTER_MM = 3.0
"""Type size of the name of a zone to hold down, where it is wide enough. Ours, no source."""


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
    """Make the artwork with what stays in view of it, the safe zone inside that, and hold-down zones, all only drawn.

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
    view, holds = polygon(in_view), hold_down_zones(corners, in_view=in_view)
    safe = parallel(view, by_mm=-safe_mm)
    is_covered = any(_strip_mm(*side) > TOLERANCE_MM for side in _sides(corners, in_view))
    return at_origin(
        Template(
            name="artwork",
            title=title,
            purpose=purpose,
            side=Side.FACE,
            step=TemplateStep.ARTWORK,
            outlines=(polygon(corners),),
            zones=(*([view] if is_covered else []), safe, *holds),
            notes=(_named("safe", safe.segments[0].start), *(_in_strip(one) for one in _lowest(holds))),
            cut_from=CutFrom.ARTWORK,
        )
    )


def hold_down_zones(corners: Sequence[Point], *, in_view: Sequence[Point]) -> tuple[Outline, ...]:
    """Lay out the strips that are covered, one along each side of the artwork where it is wide enough.

    Args:
        corners, in_view: of the artwork and of what is in view, from one place and in one order.
    Source: plane geometry.

    >>> zones = hold_down_zones([(0, 0), (90, 0), (90, 60), (0, 60)], in_view=[(5, 5), (85, 5), (85, 60), (5, 60)])
    >>> len(zones), round(zones[0].segments[0].start[1], 6)
    (3, 1.0)
    """
    wide = (side for side in _sides(corners, in_view) if _strip_mm(*side) >= LEAST_HOLD_MM - TOLERANCE_MM)
    return tuple(parallel(polygon(side), by_mm=-HOLD_AIR_MM) for side in wide)


def _sides(corners: Sequence[Point], in_view: Sequence[Point]) -> Iterator[tuple[Point, Point, Point, Point]]:
    """Each side of the artwork with that of what is in view: along the edge, and back inside."""
    pairs = list(zip(corners, in_view, strict=True))
    for (outer, inner), (next_outer, next_inner) in zip(pairs, [*pairs[1:], pairs[0]], strict=True):
        yield outer, next_outer, next_inner, inner


def _strip_mm(start: Point, end: Point, _: Point, inner: Point) -> float:
    """How wide the strip along a side is."""
    (x, y), (along_x, along_y) = (inner[0] - start[0], inner[1] - start[1]), (end[0] - start[0], end[1] - start[1])
    return abs(along_x * y - along_y * x) / hypot(along_x, along_y)


def _lowest(zones: Sequence[Outline]) -> Sequence[Outline]:
    """The zone that lies lowest, if there is one."""
    return sorted(zones, key=lambda zone: bounds(zone.segments).top_mm)[:1]


def _in_strip(zone: Outline) -> Word:
    """The name of a hold-down zone, in its middle."""
    box = bounds(zone.segments)
    letter_mm = min(MOST_LETTER_MM, box.top_mm - box.bottom_mm)
    x_mm, y_mm = (box.left_mm + box.right_mm) / 2, (box.bottom_mm + box.top_mm) / 2
    word = Word(text="hold down", at=(x_mm, y_mm), letter_mm=letter_mm)
    return replace(word, at=(x_mm - word.across_mm / 2, y_mm - letter_mm / 3))


def _named(text: str, corner: Point) -> Word:
    """A name just inside the corner of a zone."""
    x_mm, y_mm = corner
    return Word(text=text, at=(x_mm + NOTE_MM, y_mm + NOTE_MM), letter_mm=NOTE_MM)
