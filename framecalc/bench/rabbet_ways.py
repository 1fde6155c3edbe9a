"""The ways in which a shop cuts a rabbet: what is set at each cut, and the section that it leaves.

*Router table*: the back lies on the table and the sight edge runs along the fence, in passes. *Table saw*: two cuts,
the second with the face against the fence, so that the waste falls free beside the blade and is never between the two.
*Bearing bit*: the frame is glued first, and a bit that rolls on the sight edge cuts round the inside; its corners stay
round. *Strip*: a board for the face, and a narrower strip glued behind it, whose edge is the rabbet's wall.
"""

from collections.abc import Iterator
from enum import StrEnum
from math import hypot, sqrt

from framecalc.bench.passes import pass_heights_mm
from framecalc.bench.sections import Blank, face_board, rabbeted, slotted, solid
from framecalc.geometry.outline import Point
from framecalc.limits import require_positive
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM


class RabbetWay(StrEnum):
    """How the shop cuts its rabbets."""

    ROUTER_TABLE = "router table"
    TABLE_SAW = "table saw"
    BEARING = "bearing bit"
    STRIP = "strip"


class Tools(Record):
    """What the rabbet is cut with: the blade's kerf, the deepest pass of the bit, and the step of the tape."""

    kerf_mm: float
    deepest_pass_mm: float
    step_mm: float


class RabbetCut(Record):
    """One cut of a rabbet: what it is, its two settings, what to mind, and the section before and after it.

    Each setting is its name and its length; the one that changes from cut to cut comes first.
    """

    does: str
    settings: tuple[tuple[str, float], ...]
    says: str
    before: tuple[Point, ...]
    after: tuple[Point, ...]


class RoundCorner(Record):
    """What a bearing bit leaves in a corner of the rabbet: how far the middle of its round stands off either wall.

    `touches`: the corner of a package in the middle of its clearance is in the way of it.
    """

    radius_mm: float
    off_walls_mm: float
    touches: bool


_LAST = "Last pass, light: it cleans the wall and the floor."
_SLOT = "Back down, outer edge against the fence. Nothing comes off yet."
_FREE = (
    "Stand it on its sight edge, face against the fence. The waste falls on the open side; with the back against the "
    "fence it would be trapped and thrown."
)
_ROUND = "Frame face down. Move the router clockwise round the inside."
_GLUE_ON = "Glue it flush with the outer edge; its other edge is the rabbet's wall."


def rabbet_cuts(way: RabbetWay, blank: Blank, tools: Tools) -> tuple[RabbetCut, ...]:
    """List the cuts of a rabbet in their order, each with the section that it leaves.

    Raises:
        OutOfRange: a length is out of its range.
    Source: derived; the ways are common practice, no source.

    >>> blank = Blank(width_mm=30, rabbet_width_mm=6, rabbet_depth_mm=12, top=((30, 20), (0, 20)))
    >>> cuts = rabbet_cuts(RabbetWay.TABLE_SAW, blank, Tools(kerf_mm=3, deepest_pass_mm=6, step_mm=0.5))
    >>> [cut.settings[0] for cut in cuts]
    [('Fence to blade', 24), ('Fence to blade', 8)]
    """
    return tuple(_CUTS[way](blank, tools))


def _on_router_table(blank: Blank, tools: Tools) -> Iterator[RabbetCut]:
    fence = ("Bit out of the fence", blank.rabbet_width_mm)
    yield from _passes(blank, tools, fence=fence, says="Sight edge against the fence, back down.")


def _with_bearing(blank: Blank, tools: Tools) -> Iterator[RabbetCut]:
    yield from _passes(blank, tools, fence=("Bit cuts, past its bearing", blank.rabbet_width_mm), says=_ROUND)


def _passes(blank: Blank, tools: Tools, *, fence: tuple[str, float], says: str) -> Iterator[RabbetCut]:
    heights_mm = pass_heights_mm(blank.rabbet_depth_mm, deepest_mm=tools.deepest_pass_mm, step_mm=tools.step_mm)
    before = solid(blank)
    for number, height_mm in enumerate(heights_mm, start=1):
        after = rabbeted(blank, depth_mm=height_mm)
        is_last = number == len(heights_mm) > 1
        yield RabbetCut(
            does=f"Pass {number} of {len(heights_mm)}",
            settings=(("Bit height", height_mm), fence),
            says=f"{says} {_LAST}" if is_last else says,
            before=before,
            after=after,
        )
        before = after


def _on_table_saw(blank: Blank, tools: Tools) -> Iterator[RabbetCut]:
    first, whole = slotted(blank, kerf_mm=tools.kerf_mm), rabbeted(blank, depth_mm=blank.rabbet_depth_mm)
    yield RabbetCut(
        does="Cut 1, the wall",
        settings=(("Fence to blade", blank.land_mm), ("Blade height", blank.rabbet_depth_mm)),
        says=_SLOT,
        before=solid(blank),
        after=first,
    )
    if blank.rabbet_width_mm > tools.kerf_mm + TOLERANCE_MM:
        yield RabbetCut(
            does="Cut 2, the floor",
            settings=(("Fence to blade", blank.lip_mm), ("Blade height", blank.rabbet_width_mm)),
            says=_FREE,
            before=first,
            after=whole,
        )


def _from_strip(blank: Blank, tools: Tools) -> Iterator[RabbetCut]:
    board = face_board(blank)
    yield RabbetCut(
        does="Face board",
        settings=(("Thickness", blank.lip_mm), ("Width", blank.width_mm)),
        says="Plane it to what stands over the rabbet.",
        before=board,
        after=board,
    )
    yield RabbetCut(
        does="Strip behind it",
        settings=(("Width", blank.land_mm), ("Thickness", blank.rabbet_depth_mm)),
        says=_GLUE_ON,
        before=board,
        after=rabbeted(blank, depth_mm=blank.rabbet_depth_mm),
    )


_CUTS = {
    RabbetWay.ROUTER_TABLE: _on_router_table,
    RabbetWay.TABLE_SAW: _on_table_saw,
    RabbetWay.BEARING: _with_bearing,
    RabbetWay.STRIP: _from_strip,
}


def round_corner(radius_mm: float, *, clearance_across_mm: float, clearance_up_mm: float) -> RoundCorner:
    """Find what a bearing bit leaves in a corner, and whether the package's square corner meets it.

    The middle of the round stands ``R (1 − 1/√2)`` off either wall. A package with its corner at (a, b) off the walls
    meets it where ``a < R``, ``b < R`` and ``(R − a)² + (R − b)² > R²``; centred, a and b are half the clearances.

    Args:
        radius_mm: R of the bit [mm], > 0.
        clearance_across_mm, clearance_up_mm: total clearances [mm].
    Raises:
        OutOfRange: the bit has no radius.
    Source: derived (plane geometry).

    >>> corner = round_corner(16, clearance_across_mm=3, clearance_up_mm=3)
    >>> round(corner.off_walls_mm, 2), corner.touches
    (4.69, True)
    """
    require_positive(radius_mm=radius_mm)
    short_across_mm, short_up_mm = (
        max(0.0, radius_mm - max(0.0, clearance_mm) / 2) for clearance_mm in (clearance_across_mm, clearance_up_mm)
    )
    return RoundCorner(
        radius_mm=radius_mm,
        off_walls_mm=radius_mm * (1 - 1 / sqrt(2)),
        touches=hypot(short_across_mm, short_up_mm) > radius_mm + TOLERANCE_MM,
    )
