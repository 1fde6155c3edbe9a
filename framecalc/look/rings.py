"""A board as a piece of its tree: rings about a wandering pith, and which ring a place on its face belongs to.

Places are given along the board, across its face from the outer side, and by the height of the face there, so that a
hollow bends the lines as it does in wood. The number of a ring counts from the pith; its fraction runs from the early
wood of a year to the late.
"""

from bisect import bisect_right
from collections.abc import Sequence
from math import hypot, sin, tau
from random import Random

from framecalc.look.figure import Sawn, WoodFigure
from framecalc.records import Record

RADIUS_MM = 460.0
"""How far from the pith rings are counted."""


class Wave(Record, kw_only=False):
    """A smooth wander along a board: sines of given height and length, each with its own start."""

    parts: tuple[tuple[float, float, float], ...]

    def at(self, x_mm: float) -> float:
        """Its height at a place."""
        return sum([height * sin(turn * x_mm + start) for height, turn, start in self.parts])


def wave(random: Random, *parts: tuple[float, float]) -> Wave:
    """A wave of heights and lengths [mm], its starts drawn by lot.

    Source: derived.

    >>> wave(Random("a"), (0, 60)).at(10)
    0.0
    """
    return Wave(tuple((height, tau / long_mm, random.uniform(0, tau)) for height, long_mm in parts))


class PithPlace(Record):
    """Where the pith lies from a board's face: across from its outer side, and below; how a tree tapers, by length."""

    across_mm: float
    below_mm: float
    taper_ratio: float
    wander_across_mm: float
    wander_below_mm: float


class RingedBoard(Record):
    """One board of a wood. `edges_mm` are the radii at which its rings end."""

    wood: WoodFigure
    sawn: Sawn
    seed: str
    pith: PithPlace
    across: Wave
    below: Wave
    tremor: Wave
    tilt_ratio: float
    edges_mm: tuple[float, ...]

    def pith_across_mm(self, x_mm: float) -> float:
        """Where the pith lies across, at a place along the board."""
        return self.pith.across_mm + self.across.at(x_mm)

    def rings_across(self, x_mm: float, *, across_mm: Sequence[float], up_mm: Sequence[float]) -> list[float]:
        """The ring numbers on one line across the face."""
        middle_mm, below_mm = self.pith_across_mm(x_mm), self.pith.below_mm + self.below.at(x_mm)
        grown_mm, edges = self.pith.taper_ratio * x_mm, self.edges_mm
        rings = []
        for y_mm, z_mm in zip(across_mm, up_mm, strict=True):
            radius = hypot(y_mm - middle_mm, z_mm + below_mm) + grown_mm + self.tremor.at(x_mm + y_mm * self.tilt_ratio)
            ring = min(max(bisect_right(edges, radius) - 1, 0), len(edges) - 2)
            rings.append(ring + (radius - edges[ring]) / (edges[ring + 1] - edges[ring]))
        return rings


def board_of(wood: WoodFigure, sawn: Sawn, *, face_mm: float, seed: str) -> RingedBoard:
    """Saw a board out of a tree; the same seed gives the same board.

    Args:
        face_mm: the width of its face [mm], > 0.
    Source: our own model, set by eye, no source.

    >>> from framecalc.look.figure import USUAL_FIGURE
    >>> board = board_of(USUAL_FIGURE, Sawn.QUARTERED, face_mm=30, seed="a")
    >>> board == board_of(USUAL_FIGURE, Sawn.QUARTERED, face_mm=30, seed="a")
    True
    """
    random = Random(f"{seed}/{sawn}")
    ring_mm, pith = wood.ring_mm, _pith(random, wood, sawn, face_mm)
    return RingedBoard(
        wood=wood,
        sawn=sawn,
        seed=seed,
        pith=pith,
        across=wave(random, (pith.wander_across_mm, 620), (pith.wander_across_mm * 0.4, 230)),
        below=wave(random, (pith.wander_below_mm, 410), (pith.wander_below_mm * 0.5, 170)),
        tremor=wave(random, (0.10 * ring_mm, 61), (0.05 * ring_mm, 23)),
        tilt_ratio=random.uniform(-0.5, 0.5),
        edges_mm=_edges(random, ring_mm),
    )


def _pith(random: Random, wood: WoodFigure, sawn: Sawn, face_mm: float) -> PithPlace:
    """Quartered: far to the side. Rift: aside and below. Flat: under the face, so that level curves run to arches."""
    side, ring_mm = random.choice((-1, 1)), wood.ring_mm
    if sawn is Sawn.FLAT:
        place = face_mm * random.uniform(0.3, 0.7), max(16, face_mm * 0.9)
        return _place(*place, ring_mm / 105, face_mm * 0.16, ring_mm * 0.75)
    if sawn is Sawn.RIFT:
        return _place(face_mm / 2 + side * 95, 90, ring_mm / 260, 1.6, 1.2)
    return _place(face_mm / 2 + side * 190, 14, ring_mm / 420, 1.1, 2.5)


def _place(across_mm: float, below_mm: float, taper: float, wander_across_mm: float, wander_mm: float) -> PithPlace:
    return PithPlace(
        across_mm=across_mm,
        below_mm=below_mm,
        taper_ratio=taper,
        wander_across_mm=wander_across_mm,
        wander_below_mm=wander_mm,
    )


def _edges(random: Random, ring_mm: float) -> tuple[float, ...]:
    """Wet and dry years: widths that wander slowly, each with its own chance."""
    slow, edges = wave(random, (0.22, 9), (0.16, 4.3)), [0.0]
    while edges[-1] < RADIUS_MM:
        width = ring_mm * max(0.45, 1 + slow.at(len(edges)) + random.gauss(0, 0.13))
        edges.append(edges[-1] + width)
    return tuple(edges)
