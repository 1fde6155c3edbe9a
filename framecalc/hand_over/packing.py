"""The box of a frame: its inside and outside size, what it weighs, who carries it, whether the glass is taped."""

from collections.abc import Iterator
from enum import StrEnum

from framecalc.findings import Finding, Severity
from framecalc.limits import require_between, require_not_negative, require_positive
from framecalc.package.glazing import Glazing
from framecalc.package.sag import takes_two
from framecalc.records import Record

LEAST_BLOCK_MM = 25.0
"""A corner block of less than this (1 in) is soon pressed flat. Source: common practice, no source."""

FROM_FACE_MM = 20.0
"""Tape on the glass stays so far inside the sight edge (3/4 in). Source: common practice, no source."""


class Tape(StrEnum):
    """What to do about tape on the glazing."""

    NO_GLAZING = "no glazing"
    NEVER = "never"
    CLEAR_OF_FACE = "clear of the face"
    STRIPS = "strips"


TAPE_SAYS = {
    Tape.NO_GLAZING: "No glazing: lay card over the face so that it touches only the frame.",
    Tape.NEVER: "No tape on acrylic: it harms the surface. Cover it with its own film, or soft paper and card.",
    Tape.CLEAR_OF_FACE: "Tape the glass in strips, {clear} clear of the frame: tape lifts gilding and paint.",
    Tape.STRIPS: "Tape the glass in strips, on the glass alone. Not on coated glass.",
}
"""What is done. Source: common practice, no source."""


class Packed(Record):
    """A box with its frames: inside and outside sizes, across, up and deep, what the frames weigh, who lifts it."""

    inside_mm: tuple[float, float, float]
    outside_mm: tuple[float, float, float]
    mass_kg: float
    is_for_two: bool


def pack(
    *,
    across_mm: float,
    up_mm: float,
    deep_mm: float,
    mass_kg: float,
    block_mm: float,
    wall_mm: float,
    frames: int = 1,
    between_mm: float = 0.0,
    is_glazed: bool = False,
) -> Packed:
    """Size a box: ``inside = frame + 2 · block`` each way; deep, the frames and what lies between them.

    Args:
        across_mm, up_mm, deep_mm: of one frame outside, with all that stands out of it [mm], > 0.
        mass_kg: of one frame [kg], ≥ 0.
        block_mm: the thickness of the corner blocks [mm], ≥ 0.
        wall_mm: the thickness of the box [mm], ≥ 0.
        frames: how many lie in it, ≥ 1.
        between_mm: from one frame to the next [mm], ≥ 0.
        is_glazed: whether there are panes in them.
    Raises:
        OutOfRange: a quantity is out of range.
    Source: plane geometry.

    >>> box = pack(across_mm=500, up_mm=400, deep_mm=30, mass_kg=3, block_mm=40, wall_mm=7, frames=2, between_mm=10)
    >>> box.inside_mm, box.outside_mm, box.mass_kg
    ((580, 480, 150), (594, 494, 164), 6)
    """
    require_positive(across_mm=across_mm, up_mm=up_mm, deep_mm=deep_mm)
    require_not_negative(block_mm=block_mm, wall_mm=wall_mm, between_mm=between_mm, mass_kg=mass_kg)
    require_between(1, 1000, frames=frames)
    stack_mm = frames * deep_mm + (frames - 1) * between_mm
    inside_mm = (across_mm + 2 * block_mm, up_mm + 2 * block_mm, stack_mm + 2 * block_mm)
    across, up, deep = (size_mm + 2 * wall_mm for size_mm in inside_mm)
    return Packed(
        inside_mm=inside_mm,
        outside_mm=(across, up, deep),
        mass_kg=frames * mass_kg,
        is_for_two=takes_two(mass_kg=frames * mass_kg, longest_mm=max(across_mm, up_mm), is_glazed=is_glazed),
    )


def tape_for(glazing: Glazing, *, is_gilded: bool) -> Tape:
    """Say how the glazing is taped: glass in strips, clear of a gilded or painted face; acrylic never.

    Source: common practice, no source.

    >>> [tape_for(glazing, is_gilded=True).value for glazing in Glazing]
    ['no glazing', 'clear of the face', 'never']
    """
    if glazing is Glazing.GLASS:
        return Tape.CLEAR_OF_FACE if is_gilded else Tape.STRIPS
    return Tape.NO_GLAZING if glazing is Glazing.NONE else Tape.NEVER


def packing_findings(packed: Packed, *, block_mm: float) -> Iterator[Finding]:
    """Report blocks that are thin, and a box for two people.

    Args:
        block_mm: the thickness of the corner blocks [mm].
    Source: common practice, no source.

    >>> box = pack(across_mm=900, up_mm=700, deep_mm=30, mass_kg=16, block_mm=10, wall_mm=7)
    >>> [one.code for one in packing_findings(box, block_mm=10)]
    ['packing.block', 'packing.by-two']
    """
    if block_mm < LEAST_BLOCK_MM:
        yield Finding(
            code="packing.block",
            severity=Severity.NOTE,
            sentence="Corner blocks of {block} are thin: {least} and more takes a knock.",
            why="A box is set down on a corner, and the mitre opens there.",
            source="usual practice",
            argument="packing.block",
            lengths={"block": block_mm, "least": LEAST_BLOCK_MM},
        )
    if packed.is_for_two:
        yield Finding(
            code="packing.by-two",
            severity=Severity.NOTE,
            sentence="Two people carry this box: write it on two sides.",
            why="A box that one person cannot hold level is set down on a corner.",
            source="usual practice",
            argument="packing.per_box",
        )
