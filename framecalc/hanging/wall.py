"""The wall: how high the hooks go, what an uneven pair of them does, how far a frame may stand out into a walkway."""

from collections.abc import Iterator
from enum import StrEnum
from math import atan2, degrees, radians, sin, tan

from framecalc.findings import Finding, Severity
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.units import MM_PER_INCH, TOLERANCE_MM
from framecalc.words import worded

WALKWAY_LOW_MM, WALKWAY_HIGH_MM = float(27 * MM_PER_INCH), float(80 * MM_PER_INCH)
"""A leading edge between these heights over the floor counts. Source: 2010 ADA Standards, 307.2, from memory."""

WALKWAY_OUT_MM = float(4 * MM_PER_INCH)
"""So far an object may stand out into a circulation path. Source: 2010 ADA Standards, 307.2, from memory."""


class WallKind(StrEnum):
    """What a wall is made of, as far as the fixing goes by it."""

    STUD = "stud"
    BOARD = "board"
    PLASTER = "plaster"
    MASONRY = "masonry"
    CONCRETE = "concrete"
    TIMBER = "timber"


FIXINGS = {
    WallKind.STUD: "A wood screw into the stud, or a picture hook nailed into it.",
    WallKind.BOARD: "A hollow-wall anchor or a picture hook, as rated for this board. Heavy frames: find a stud.",
    WallKind.PLASTER: "Plaster of unknown strength: drill, do not hammer; screw into what is behind it.",
    WallKind.MASONRY: "A plug and screw into the brick or block, not into the joint.",
    WallKind.CONCRETE: "A plug and screw in a hammer-drilled hole.",
    WallKind.TIMBER: "A wood screw.",
}
"""The usual kind of fixing. Source: common practice, no source."""


class Levelled(Record):
    """A pair of hooks that came out uneven: how the frame tilts, by how much one edge is off, and what mends it."""

    tilt_deg: float
    edge_off_mm: float
    shim_mm: float
    low_side: str


def hook_height_mm(*, centre_mm: float, top_mm: float, drop_mm: float) -> float:
    """How high a hook goes: ``centre + top over the middle − drop``.

    Args:
        centre_mm: the wanted height of the middle of the frame over the floor [mm].
        top_mm: from the middle of the frame to its top edge [mm]; half its height, of a rectangle.
        drop_mm: from its top edge down to what rests on the hook, as loaded [mm].
    Source: derived.

    >>> round(hook_height_mm(centre_mm=58 * 25.4, top_mm=8 * 25.4, drop_mm=2 * 25.4) / 25.4, 6)
    64.0
    >>> hook_height_mm(centre_mm=1450, top_mm=235.5, drop_mm=95)
    1590.5
    """
    return centre_mm + top_mm - drop_mm


def level_of(*, higher_right_mm: float, apart_mm: float, across_mm: float) -> Levelled:
    """Say what an uneven pair of hooks does: ``tilt = atan(error / apart)``.

    A shim of the error under the ring of the lower hook mends it, or the hook bent up by as much.

    Args:
        higher_right_mm: by how much the right hook came out higher; less than 0 where the left one did [mm].
        apart_mm: from hook to hook [mm], > 0.
        across_mm: the width of the frame [mm], > 0.
    Raises:
        OutOfRange: hooks in one place.
    Source: plane geometry.

    >>> level = level_of(higher_right_mm=2, apart_mm=400, across_mm=600)
    >>> round(level.tilt_deg, 3), round(level.edge_off_mm, 2), level.shim_mm, level.low_side
    (0.286, 3.0, 2, 'left')
    """
    require_positive(apart_mm=apart_mm, across_mm=across_mm)
    tilt_rad = atan2(higher_right_mm, apart_mm)
    return Levelled(
        tilt_deg=degrees(tilt_rad),
        edge_off_mm=abs(across_mm * tan(tilt_rad)),
        shim_mm=abs(higher_right_mm),
        low_side="left" if higher_right_mm > 0 else "right",
    )


def front_out_mm(*, thickness_mm: float, up_mm: float, bumper_mm: float, lean_deg: float) -> float:
    """How far the front of a hung frame stands out from the wall at most: its top, where it leans.

    Args:
        thickness_mm: of the frame, with what stands proud in front [mm], > 0.
        up_mm: its height [mm], > 0.
        bumper_mm: how far its lower back edge is from the wall [mm], ≥ 0.
        lean_deg: how it leans [degrees].
    Raises:
        OutOfRange: a quantity is out of range.
    Source: plane geometry.

    >>> front_out_mm(thickness_mm=20, up_mm=500, bumper_mm=6, lean_deg=0)
    26.0
    """
    require_positive(thickness_mm=thickness_mm, up_mm=up_mm)
    require_not_negative(bumper_mm=bumper_mm)
    return bumper_mm + max(up_mm * sin(radians(lean_deg)), 0.0) + thickness_mm


def walkway_findings(name: str, *, low_mm: float, high_mm: float, out_mm: float) -> Iterator[Finding]:
    """Report a frame that stands out too far into a walkway.

    Args:
        name: of the frame.
        low_mm, high_mm: its lower and its upper edge over the floor [mm].
        out_mm: how far it stands out [mm].
    Source: 2010 ADA Standards for Accessible Design, 307.2, from memory, not re-read; local codes come first.

    >>> [one.code for one in walkway_findings("hall", low_mm=1200, high_mm=1800, out_mm=110)]
    ['wall.walkway']
    >>> list(walkway_findings("hall", low_mm=2040, high_mm=2500, out_mm=110))
    []
    """
    counts = high_mm > WALKWAY_LOW_MM + TOLERANCE_MM and WALKWAY_LOW_MM < low_mm <= WALKWAY_HIGH_MM
    if counts and out_mm > WALKWAY_OUT_MM + TOLERANCE_MM:
        yield Finding(
            code="wall.walkway",
            severity=Severity.WARN,
            sentence=worded(
                "{name} stands out {out} into the walkway; between {low} and {high} over the floor {most} is the most.",
                name=name,
            ),
            why="A person who finds the way with a cane does not feel it. Local codes come first.",
            source="2010 ADA Standards, 307.2",
            argument="wall.is_walkway",
            lengths={"out": out_mm, "low": WALKWAY_LOW_MM, "high": WALKWAY_HIGH_MM, "most": WALKWAY_OUT_MM},
        )


def anchor_findings(
    name: str, *, load_kg: float, rating_kg: float | None, factor_ratio: float, pull_n: float
) -> Iterator[Finding]:
    """Hold what one fixing carries, times the factor, against what its packet says for this wall.

    Args:
        name: of the frame.
        load_kg: on the fixing that carries most [kg].
        rating_kg: as typed from its packet, for this wall [kg]; None until somebody has.
        factor_ratio: how many times the load it is to be rated for, ≥ 1.
        pull_n: what pulls it straight out of the wall besides [N].
    Source: statics; the rating is the user's, the factor common practice, no source.

    >>> [one.code for one in anchor_findings("hall", load_kg=3, rating_kg=10, factor_ratio=4, pull_n=2)]
    ['wall.anchor']
    """
    if rating_kg is not None and load_kg * factor_ratio > rating_kg * (1 + 1e-9):
        yield Finding(
            code="wall.anchor",
            severity=Severity.STOP if load_kg > rating_kg else Severity.WARN,
            sentence=worded(
                "{name}: the fixing's packet says less than this asks for. Take a stronger one.", name=name
            ),
            why=f"It is also pulled straight out of the wall, with {pull_n:.0f} N; ratings are mostly for weight.",
            source="your rating and factor; the load by statics",
            argument="wall.anchor",
        )
