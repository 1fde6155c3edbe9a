"""The problem of common boards: the sections, each with its pieces and its stock, and the ways to rip every board."""

import hashlib
import json
from collections.abc import Iterator, Sequence
from itertools import product

from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.timber.sticks.problem import StickProblem, Stock, hash_of
from framecalc.units import TOLERANCE_MM

_HASHED_AS = "common boards 1"
"""Part of every hash: raised when the same problem may get another answer."""

MOST_RIPS = 400
"""Ways to rip one board beyond which sections are planned one after another. Ours."""

Rip = tuple[int, ...]
"""How many strips of a board each section gets."""


class CommonStock(Record):
    """Equal boards or sticks, by the id that each section knows them by, and the ways to rip one."""

    id: str
    rips: tuple[Rip, ...]


class CommonProblem(Record):
    """Sections that may share stock: the problem of each, with its stock as if it were alone, and the ways to rip."""

    sections: tuple[StickProblem, ...]
    stock: tuple[CommonStock, ...]

    @property
    def key(self) -> str:
        """The problem by its content: same content, same name."""
        rips = [[one.id, [list(rip) for rip in one.rips]] for one in self.stock]
        written = json.dumps([[hash_of(section) for section in self.sections], rips])
        return hashlib.sha256(f"{_HASHED_AS} {written}".encode()).hexdigest()

    def stock_of(self, section: int, stock_id: str) -> Stock | None:
        """The stock of this id as a section knows it; None where it does not serve it."""
        return next((one for one in self.sections[section].stock if one.id == stock_id), None)


def ways_to_rip(
    *, width_mm: float, edge_mm: float, strips_mm: Sequence[float | None], kerf_mm: float
) -> tuple[Rip, ...]:
    """List every way to rip a board into strips of several widths, fewer strips than would fit too.

    ``Σ n (strip + k) ≤ W − 2·edge + k``

    Args:
        width_mm: of the board [mm], > 0. edge_mm: lost on each edge [mm], ≥ 0.
        strips_mm: the rough width of a strip for each section [mm], > 0; None where it cannot serve.
        kerf_mm: the rip cut [mm], ≥ 0.
    Returns:
        Nothing where there are more than `MOST_RIPS`.
    Raises:
        OutOfRange: a length is out of its range.
    Source: derived.

    >>> ways_to_rip(width_mm=180, edge_mm=5, strips_mm=(66, 36), kerf_mm=3)
    ((0, 1), (0, 2), (0, 3), (0, 4), (1, 0), (1, 1), (1, 2), (2, 0))
    """
    require_positive(width_mm=width_mm)
    require_not_negative(edge_mm=edge_mm, kerf_mm=kerf_mm)
    for strip_mm in strips_mm:
        require_positive(strip_mm=1.0 if strip_mm is None else strip_mm)
    room_mm = width_mm - 2 * edge_mm + kerf_mm + TOLERANCE_MM
    most = [0 if strip_mm is None else int(max(0.0, room_mm) // (strip_mm + kerf_mm)) for strip_mm in strips_mm]
    found: list[Rip] = []
    for rip in product(*(range(count + 1) for count in most)):
        if any(rip) and taken_mm(rip, strips_mm=strips_mm, kerf_mm=kerf_mm) <= room_mm:
            found.append(rip)
        if len(found) > MOST_RIPS:
            return ()
    return tuple(found)


def taken_mm(rip: Rip, *, strips_mm: Sequence[float | None], kerf_mm: float) -> float:
    """What a rip takes of the width of a board, each strip with the saw cut beside it.

    Source: derived.
    """
    return sum(count * (strip_mm + kerf_mm) for count, strip_mm in zip(rip, strips_mm, strict=True) if strip_mm)


def alone(strips: Sequence[int]) -> tuple[Rip, ...]:
    """The rips of stock that only one section at a time can take: a stick, or a board that is crosscut first.

    Args:
        strips: how many strips each section would get of it; 0 where it does not serve.
    Source: derived.

    >>> alone((1, 0, 2))
    ((1, 0, 0), (0, 0, 2))
    """
    return tuple(_alone(strips))


def _alone(strips: Sequence[int]) -> Iterator[Rip]:
    for section, count in enumerate(strips):
        if count:
            yield tuple(count if place == section else 0 for place in range(len(strips)))
