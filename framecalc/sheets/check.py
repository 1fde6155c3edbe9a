"""An independent look at a layout before anyone cuts: only the problem and what is written for the bench are used.

Every part is there exactly as often as it is wanted, at its size, inside the trim, turned only where it may; parts are
a kerf apart; no more sheets are taken than there are.
"""

from collections import Counter
from collections.abc import Iterator
from itertools import combinations

from framecalc.sheets.answer import CutSheet, PlacedPart, SheetLayout
from framecalc.sheets.problem import SheetPart, SheetProblem

SAME_MM = 0.001
"""Lengths closer than this are one length: a micrometre."""


def faults_of(layout: SheetLayout, *, problem: SheetProblem) -> tuple[str, ...]:
    """List what is wrong with a layout, in plain sentences; nothing where it can be cut as it stands.

    Source: derived.
    """
    wanted = _by_name(problem)
    return (
        *_wrong_counts(layout, problem),
        *_wrong_stock(layout, problem),
        *(fault for sheet in layout.sheets for fault in _wrong_parts(sheet, problem, wanted)),
        *(fault for sheet in layout.sheets for fault in _too_close(sheet, problem)),
    )


def _wrong_counts(layout: SheetLayout, problem: SheetProblem) -> Iterator[str]:
    cut = Counter((part.name, part.number) for _, part in layout.parts())
    yield from (f"{name} {number} is cut {times} times" for (name, number), times in cut.items() if times > 1)
    wanted = Counter[str]()
    for part in problem.parts:
        wanted[part.name] += part.count
    placed = Counter(part.name for _, part in layout.parts())
    for name in wanted | placed:
        if wanted[name] != placed[name]:
            yield f"{name} is cut {placed[name]} times, not {wanted[name]}"


def _wrong_stock(layout: SheetLayout, problem: SheetProblem) -> Iterator[str]:
    taken = Counter(problem.stock.index(sheet.stock) for sheet in layout.sheets if not sheet.is_missing)
    for number, times in taken.items():
        there = problem.stock[number].count
        if there is not None and times > there:
            yield f"{problem.stock[number].name} is taken {times} times, and there are {there}"


def _by_name(problem: SheetProblem) -> dict[str, list[SheetPart]]:
    """The parts that are wanted under each name."""
    found: dict[str, list[SheetPart]] = {}
    for part in problem.parts:
        found.setdefault(part.name, []).append(part)
    return found


def _wrong_parts(sheet: CutSheet, problem: SheetProblem, wanted: dict[str, list[SheetPart]]) -> Iterator[str]:
    for placed in sheet.parts:
        if not any(_is(placed, part) for part in wanted.get(placed.name, ())):
            yield f"{placed.label} is not the size that is wanted, or turned although it may not"
        if not _is_inside(placed, sheet, problem):
            yield f"{placed.label} reaches into the trim"


def _is(placed: PlacedPart, part: SheetPart) -> bool:
    size = (part.up_mm, part.across_mm) if placed.is_turned else (part.across_mm, part.up_mm)
    return (placed.across_mm, placed.up_mm) == size and (part.may_turn or not placed.is_turned)


def _is_inside(placed: PlacedPart, sheet: CutSheet, problem: SheetProblem) -> bool:
    least_mm = problem.trim_mm - SAME_MM
    right_mm = sheet.stock.across_mm - placed.x_mm - placed.across_mm
    above_mm = sheet.stock.up_mm - placed.y_mm - placed.up_mm
    return min(placed.x_mm, placed.y_mm, right_mm, above_mm) >= least_mm


def _too_close(sheet: CutSheet, problem: SheetProblem) -> Iterator[str]:
    for one, other in combinations(sheet.parts, 2):
        beside_mm = max(other.x_mm - one.x_mm - one.across_mm, one.x_mm - other.x_mm - other.across_mm)
        above_mm = max(other.y_mm - one.y_mm - one.up_mm, one.y_mm - other.y_mm - other.up_mm)
        if max(beside_mm, above_mm) < problem.kerf_mm - SAME_MM:
            yield f"{one.label} and {other.label} lie too close for the cut between them"
