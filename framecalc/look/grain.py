"""The grain on the face of one member, as shapes to be tinted: bands of late wood, fibres, pores, rays.

A *member* is a stretch of its board; the fineness of everything follows the *pixels* that a millimetre of it is seen
at, so that a large frame takes no more shapes than a small one. Bands of one *weight* are nested: the tone runs softly
on one side of a ring and sharply on the other. Places are along the member and across its face from the outer side.
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import chain, pairwise
from math import ceil, cos, radians, sin, sqrt
from random import Random

from framecalc.geometry.outline import Point
from framecalc.look.figure import Porosity, Sawn, WoodFigure
from framecalc.look.levels import Run, framed, level_loops, simplified
from framecalc.look.light import Facet
from framecalc.look.rings import RingedBoard, board_of, wave
from framecalc.records import Record

BANDS = {
    Porosity.RING: ((0.0, 0.18, 0.40), (0.0, 0.38, 0.34), (-0.04, 0.66, 0.26)),
    Porosity.SEMI: ((0.0, 0.14, 0.25), (-0.22, 0.26, 0.35), (-0.5, 0.4, 0.40)),
    Porosity.DIFFUSE: ((0.90, 1.0, 0.45), (0.68, 1.0, 0.30), (0.36, 1.02, 0.25)),
    Porosity.SOFT: ((0.86, 1.0, 0.40), (0.66, 1.0, 0.35), (0.40, 1.0, 0.25)),
}
"""Where in a ring it is dark, from, to, and how strongly. Our own, set by eye, no source."""

STRONG_SHARE, STRONG_RATIO, WEAK_RATIO = 0.55, 1.25, 0.7
"""Some years are plainer than others. Our own, set by eye, no source."""

FEATHER = {Sawn.FLAT: 0.10, Sawn.RIFT: 0.07, Sawn.QUARTERED: 0.035}
"""How far fibres carry the edge of a ring to and fro, in rings: cut one by one they feather it. Our own, set by eye, no
source."""

PORE_AT = {Porosity.RING: (0.04, 0.12, 0.21, 0.32), Porosity.SEMI: (0.0, 0.2, 0.45, 0.7), Porosity.DIFFUSE: (0.3, 0.8)}
"""On which levels of a ring pores lie. Our own, set by eye, no source."""

FACE_BEYOND_MM, LEAST_PORES, STEEP_RATIO = 1.0, 0.1, 0.22
"""How far past the face the grid goes; below which strength pores are not seen; a vessel runs along the fibre, so
that a level curve that is steeper than this bears none."""

LEAST_RING_PX = 2.4
"""Rings nearer to each other than this are drawn as fewer."""


class DrawnStretch(Record):
    """What is drawn of a member: its board and where on it, its section, and how finely it is seen."""

    wood: WoodFigure
    sawn: Sawn
    seed: str
    start_mm: float
    from_mm: float
    to_mm: float
    face_mm: float
    facets: tuple[Facet, ...]
    px_per_mm: float

    @property
    def detail_ratio(self) -> float:
        """How fine the grid is: 1 at four pixels a millimetre."""
        return self.px_per_mm / 4

    @property
    def tolerance_mm(self) -> float:
        """How far a curve may be off: less than half a pixel."""
        return 0.11 / self.detail_ratio


class Band(Record):
    """Bands of late wood: how strongly they are tinted, and their loops, to be filled even-odd."""

    tint_ratio: float
    loops: tuple[Run, ...]


class DrawnGrain(Record):
    """All that is drawn on a member. A ray is a lens: tip, side, tip, side."""

    bands: tuple[Band, ...]
    fibres: tuple[Run, ...]
    pores: tuple[Run, ...]
    rays: tuple[tuple[Point, Point, Point, Point], ...]

    @property
    def points_count(self) -> int:
        """How many points it has: what it weighs."""
        loops = sum(len(loop) for band in self.bands for loop in band.loops)
        return loops + sum(map(len, self.fibres)) + sum(map(len, self.pores)) + 4 * len(self.rays)


@lru_cache(maxsize=256)
def grain_of(stretch: DrawnStretch) -> DrawnGrain:
    """Draw the grain of a member; the same stretch has the same grain.

    Source: our own model, set by eye, no source.
    """
    board = board_of(stretch.wood, stretch.sawn, face_mm=stretch.face_mm, seed=stretch.seed)
    random = Random(f"{stretch.seed}/{stretch.start_mm:.1f}")
    grid = _Grid(stretch, board)
    feathered = _feathered(grid, stretch)
    return DrawnGrain(
        bands=tuple(_bands(grid, feathered, stretch)),
        fibres=tuple(_fibres(stretch, board, random)),
        pores=tuple(_pores(grid, stretch, random)),
        rays=tuple(_rays(stretch, random)),
    )


def mean_tint_ratio(wood: WoodFigure) -> float:
    """How much of the late tone there is in the mean of a face: each band by its share of the ring and its weight.

    Source: derived.

    >>> from framecalc.look.figure import USUAL_FIGURE
    >>> 0 < mean_tint_ratio(USUAL_FIGURE) < 0.3
    True
    """
    shares = sum((end - start) * weight for start, end, weight in BANDS[wood.porosity])
    strength = STRONG_SHARE * STRONG_RATIO + (1 - STRONG_SHARE) * WEAK_RATIO
    return wood.contrast_ratio * strength * shares


class _Grid:
    """The ring numbers over a face, and the places that they belong to."""

    def __init__(self, stretch: DrawnStretch, board: RingedBoard) -> None:
        step_mm = (6 if stretch.sawn is Sawn.FLAT else 14) / stretch.detail_ratio
        across_mm = stretch.face_mm + 2 * FACE_BEYOND_MM
        self.xs_mm = _places(stretch.from_mm, stretch.to_mm, least=4, step_mm=step_mm)
        self.ys_mm = _places(-1, across_mm - 1, least=6, step_mm=1 / sqrt(stretch.detail_ratio))
        heights = [_height_at(stretch.facets, y) for y in self.ys_mm]
        stride = max(1, ceil(LEAST_RING_PX / (stretch.wood.ring_mm * stretch.px_per_mm)))
        self.rings = [
            [ring / stride for ring in board.rings_across(x + stretch.start_mm, across_mm=self.ys_mm, up_mm=heights)]
            for x in self.xs_mm
        ]
        self.feather = FEATHER[stretch.sawn] * (0.6 if stretch.wood.porosity is Porosity.DIFFUSE else 1)
        all_rings = [*chain.from_iterable(self.rings)]
        self.first, self.last = int(min(all_rings)) - 1, int(max(all_rings)) + 2

    def loops(self, rings: Sequence[Sequence[float]], levels: Sequence[float]) -> tuple[Run, ...]:
        """The loops of some levels, closed round the face."""
        closed, xs_mm, ys_mm = framed(rings, xs_mm=self.xs_mm, ys_mm=self.ys_mm)
        return level_loops(closed, xs_mm=xs_mm, ys_mm=ys_mm, levels=levels)


def _places(from_mm: float, to_mm: float, *, least: int, step_mm: float) -> list[float]:
    count = max(least, int((to_mm - from_mm) / step_mm))
    return [from_mm + (to_mm - from_mm) * number / count for number in range(count + 1)]


def _height_at(parts: Sequence[Facet], across_mm: float) -> float:
    """The height of the face below its highest part; beside the face that of its ends. Eased edges bend no line."""
    top_mm = max(part.from_up_mm for part in parts)
    inside_mm = min(max(across_mm, parts[0].from_mm + 1.3), parts[-1].to_mm - 1.3)
    for part in parts:
        if inside_mm <= part.to_mm:
            share = max(0.0, inside_mm - part.from_mm) / (part.to_mm - part.from_mm)
            return part.from_up_mm + (part.to_up_mm - part.from_up_mm) * share - top_mm
    return parts[-1].to_up_mm - top_mm


def _feathered(grid: _Grid, stretch: DrawnStretch) -> list[list[float]]:
    """The rings with a slow wave of its own on each line of fibres, which runs through the whole board."""
    random, reach = Random(f"{stretch.seed}/fibres"), grid.feather
    waves = [wave(random, (reach, 74), (reach * 0.6, 31)) for _ in grid.ys_mm]
    return [
        [ring + one.at(x + stretch.start_mm) for ring, one in zip(column, waves, strict=True)]
        for x, column in zip(grid.xs_mm, grid.rings, strict=True)
    ]


def _year(seed: str, ring: int) -> Random:
    return Random(f"{seed}/{ring}")


def _bands(grid: _Grid, rings: Sequence[Sequence[float]], stretch: DrawnStretch) -> Iterator[Band]:
    for start, end, weight in BANDS[stretch.wood.porosity]:
        for is_strong, ratio in ((False, WEAK_RATIO), (True, STRONG_RATIO)):
            levels = sorted(_levels(grid, stretch.seed, start, end, is_strong))
            loops = (simplified(loop, tolerance_mm=stretch.tolerance_mm) for loop in grid.loops(rings, levels))
            yield Band(tint_ratio=stretch.wood.contrast_ratio * weight * ratio, loops=tuple(loops))


def _levels(grid: _Grid, seed: str, start: float, end: float, is_strong: bool) -> Iterator[float]:
    """From which ring number to which it is dark, in the strong years or in the weak ones."""
    for ring in range(grid.first, grid.last):
        year = _year(seed, ring)
        if (year.random() < STRONG_SHARE) is is_strong:
            yield ring + start
            yield ring + end + (year.uniform(-0.06, 0.06) if end < 1 else 0)


def _fibres(stretch: DrawnStretch, board: RingedBoard, random: Random) -> Iterator[Run]:
    """Fibres run with the pith, not with the lines of the rings."""
    middle_mm = board.pith_across_mm(stretch.start_mm + (stretch.from_mm + stretch.to_mm) / 2)
    for _ in range(int((stretch.face_mm + 2) * 1.4 * stretch.detail_ratio)):
        y = random.uniform(-1, stretch.face_mm + 1)
        points: list[Point] = []
        x = stretch.from_mm - random.uniform(0, 90)
        while not points or points[-1][0] < stretch.to_mm:
            points.append((x, y + (board.pith_across_mm(stretch.start_mm + x) - middle_mm) * 0.8))
            x += 70
        yield simplified(points, tolerance_mm=stretch.tolerance_mm)


def _pores(grid: _Grid, stretch: DrawnStretch, random: Random) -> Iterator[Run]:
    """Rows of pores: level curves of the early wood, where they run along the fibre; each begins elsewhere."""
    wood = stretch.wood
    if wood.pores_ratio < LEAST_PORES:
        return
    places = PORE_AT.get(wood.porosity, ())
    levels = sorted(ring + place for ring in range(grid.first, grid.last) for place in places)
    for loop in grid.loops(grid.rings, levels):
        turn = random.randrange(len(loop))
        for row in _along(loop[turn:] + loop[: turn + 1]):
            yield simplified(_begun(row, random), tolerance_mm=stretch.tolerance_mm * 1.6)


def _along(points: Sequence[Point]) -> Iterator[list[Point]]:
    """The parts of a curve that run along the fibre, of more than three points."""
    row: list[Point] = []
    for here, after in pairwise((*points, points[-1])):
        if abs(after[1] - here[1]) < STEEP_RATIO * abs(after[0] - here[0]):
            row = row or [here]
            row.append(after)
            continue
        if len(row) > 3:
            yield row
        row = []


def _begun(row: list[Point], random: Random) -> list[Point]:
    """A row that begins a little before its first point: dashes start anew on every row, and would line up."""
    (x, y), (after, _) = row[0], row[1]
    return [(x - (1 if after > x else -1) * random.uniform(0, 40), y), *row[1:]]


def _rays(stretch: DrawnStretch, random: Random) -> Iterator[tuple[Point, Point, Point, Point]]:
    """Rays cut along: thin bright ribbons across the rings, wide ones on a quartered face."""
    if not stretch.wood.rays_ratio or stretch.sawn is Sawn.FLAT or stretch.px_per_mm < 1:
        return
    is_quartered = stretch.sawn is Sawn.QUARTERED
    area_mm2 = (stretch.to_mm - stretch.from_mm) * stretch.face_mm
    for _ in range(int(area_mm2 / (70 if is_quartered else 40) * stretch.wood.rays_ratio)):
        x, y = random.uniform(stretch.from_mm, stretch.to_mm), random.uniform(-1, stretch.face_mm + 1)
        long_mm = random.uniform(1.5, 4) + (random.random() < 0.2) * random.uniform(2, 8) * is_quartered
        turn_rad = radians(random.gauss(64, 10))
        yield _lens((x, y), long_mm, random.uniform(0.22, 0.5 if is_quartered else 0.34), turn_rad)


def _lens(middle: Point, long_mm: float, wide_mm: float, turn_rad: float) -> tuple[Point, Point, Point, Point]:
    (x, y), right, over = middle, cos(turn_rad), sin(turn_rad)
    half, bulge = long_mm / 2, wide_mm
    return (
        (x - right * half, y - over * half),
        (x - over * bulge, y + right * bulge),
        (x + right * half, y + over * half),
        (x + over * bulge, y - right * bulge),
    )
