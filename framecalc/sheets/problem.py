"""A sheet layout as it is asked for: the parts to cut, the sheets on hand and to buy, and how they are cut.

A *sheet part* is a rectangle of glass, board or panel, wanted so many times. *Stock* is what it is cut from: sheets
and off-cuts on hand, so many of each, and sheets to buy, as many as are wanted. Every cut runs *edge to edge* of the
piece being cut. *Kerf* is what a cut takes (nothing where glass is scored); *trim* is what is cut away along all four
edges of a sheet before anything else; the *least strip* is the narrowest that breaks off cleanly.
"""

from collections.abc import Iterable
from decimal import Decimal
from enum import StrEnum
from functools import lru_cache
from hashlib import sha256
from json import dumps
from math import isfinite

from framecalc.errors import ImpossibleLayout, OutOfRange, quoted
from framecalc.findings import Rounding
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record, parts_of, replace
from framecalc.units import TOLERANCE_MM, whole_steps_mm
from framecalc.words import worded

_HASHED_AS = "sheets 2"
"""Part of every fingerprint: raised when the same problem may get another answer."""

MOST_PARTS = 500
"""The largest layout taken on; the method is measured up to 200 parts."""

LEAST_GLASS_STRIP_MM = 12.0
"""The narrowest strip of picture glass that breaks off cleanly. Source: common practice, no source."""


class Goal(StrEnum):
    """What a layout is to save first; the number of sheets cut comes second, the largest left-over third."""

    FEWEST = "fewest sheets to buy"
    CHEAPEST = "least cost"


class SheetPart(Record):
    """A part wanted `count` times; one that may not turn keeps its grain, its print or its flutes upright."""

    name: str
    across_mm: float
    up_mm: float
    count: int = 1
    may_turn: bool = True


class StockSheet(Record):
    """A sheet or an off-cut and its cost: how many are on hand, or `None` where as many as are wanted can be bought."""

    name: str
    across_mm: float
    up_mm: float
    count: int | None = None
    cost: Decimal = Decimal(0)

    @property
    def is_bought(self) -> bool:
        """Whether it is to buy, not on hand."""
        return self.count is None


class SheetProblem(Record):
    """Parts, stock and the way of cutting. Made by `sheet_problem`, which refuses what cannot be laid out."""

    parts: tuple[SheetPart, ...]
    stock: tuple[StockSheet, ...]
    kerf_mm: float
    trim_mm: float
    least_strip_mm: float
    goal: Goal

    @property
    def fingerprint(self) -> str:
        """A hash of the content: the same problem has the same one, in every run."""
        return _fingerprint(self)


@lru_cache(maxsize=64)
def _fingerprint(problem: SheetProblem) -> str:
    """Hash a problem; kept, since from one keystroke to the next the parts of most materials stay what they are."""
    return sha256(f"{_HASHED_AS} {dumps(_plain(problem), sort_keys=True)}".encode()).hexdigest()


class CutSize(Record):
    """The size a sheet part is cut to."""

    across_mm: float
    up_mm: float


@lru_cache(maxsize=1024)
def size_to_cut(
    *,
    rabbet_across_mm: float,
    rabbet_up_mm: float,
    clearance_across_mm: float,
    clearance_up_mm: float,
    step_mm: float,
) -> CutSize:
    """Find the size to cut of a part that lies in the rabbet, in whole steps that never come out too large.

    ``cut = rabbet size - clearance``, rounded down.

    Args:
        rabbet_across_mm, rabbet_up_mm: rabbet wall to rabbet wall [mm], more than the clearance.
        clearance_across_mm, clearance_up_mm: total looseness of this part, both sides together [mm], >= 0.
        step_mm: what the cutter is set to [mm], > 0.
    Raises:
        OutOfRange: a clearance is negative or leaves nothing.
    Source: plane geometry; rounding down is common practice, no source.

    >>> size_to_cut(rabbet_across_mm=300.7, rabbet_up_mm=423, clearance_across_mm=3, clearance_up_mm=3, step_mm=0.5)
    CutSize(across_mm=297.5, up_mm=420.0)
    """
    require_positive(step_mm=step_mm)
    require_not_negative(clearance_across_mm=clearance_across_mm, clearance_up_mm=clearance_up_mm)
    across_mm = whole_steps_mm(rabbet_across_mm - clearance_across_mm, step_mm=step_mm, rounding=Rounding.DOWN)
    up_mm = whole_steps_mm(rabbet_up_mm - clearance_up_mm, step_mm=step_mm, rounding=Rounding.DOWN)
    require_positive(across_mm=across_mm, up_mm=up_mm)
    return CutSize(across_mm=across_mm, up_mm=up_mm)


def sheet_problem(
    *,
    parts: Iterable[SheetPart],
    stock: Iterable[StockSheet],
    kerf_mm: float,
    trim_mm: float = 0.0,
    least_strip_mm: float = 0.0,
    goal: Goal = Goal.FEWEST,
) -> SheetProblem:
    """Pose a layout, refusing what no layout can do.

    Args:
        parts: at least one, at most MOST_PARTS counted singly.
        stock: at least one sheet; a count of 0 means that none is left.
        kerf_mm: what a cut takes [mm], >= 0; 0 for scored glass.
        trim_mm: cut away along every edge of a sheet, its kerf included [mm], >= 0.
        least_strip_mm: the narrowest strip that can be cut off [mm], >= 0; 0 where any can.
        goal: what is saved first.
    Raises:
        OutOfRange: a length, a count or a cost is none.
        ImpossibleLayout: nothing to cut or to cut from, too many parts, a part that fits no sheet or is narrower than
            the least strip.
    Source: derived.
    """
    problem = SheetProblem(
        parts=tuple(part for part in parts if part.count),
        stock=tuple(sheet for sheet in stock if sheet.count != 0),
        kerf_mm=kerf_mm,
        trim_mm=trim_mm,
        least_strip_mm=least_strip_mm,
        goal=goal,
    )
    require_not_negative(kerf_mm=kerf_mm, trim_mm=trim_mm, least_strip_mm=least_strip_mm)
    _refuse_impossible_numbers(problem)
    _refuse_impossible_amounts(problem)
    _refuse_strips_that_do_not_break(problem)
    for part in _first_of_each_size(problem.parts):
        _refuse_part_without_sheet(part, problem)
    return replace(problem, stock=tuple(sheet for sheet in problem.stock if _is_left_of(sheet, trim_mm=trim_mm)))


def usable_mm(sheet: StockSheet, *, trim_mm: float) -> tuple[float, float]:
    """Find what the trim leaves of a sheet, across and up [mm].

    ``usable = sheet - 2 * trim``

    Source: plane geometry.

    >>> usable_mm(StockSheet(name="", across_mm=1000, up_mm=2000), trim_mm=5)
    (990, 1990)
    """
    return sheet.across_mm - 2 * trim_mm, sheet.up_mm - 2 * trim_mm


def _is_left_of(sheet: StockSheet, *, trim_mm: float) -> bool:
    """Whether the trim leaves anything of a sheet."""
    return min(usable_mm(sheet, trim_mm=trim_mm)) > 0


def _plain(value: object, *, name: str = "") -> object:
    """Write a record in JSON's own types, one way for each value: 348 mm is 348.0 mm, 2.50 is 2.5."""
    if isinstance(value, Record):
        return {key: _plain(part, name=key) for key, part in parts_of(value)}
    if isinstance(value, tuple):
        return [_plain(part) for part in value]
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    return float(value) if name.endswith("_mm") and isinstance(value, int) else value


def _refuse_impossible_numbers(problem: SheetProblem) -> None:
    items: list[SheetPart | StockSheet] = [*problem.parts, *problem.stock]
    for item in items:
        _refuse_no_rectangle(item)
        if item.count is not None and item.count < 0:
            says = "Enter 0 or more of {name}, not {count}."
            raise OutOfRange(worded(says, count=item.count, name=quoted(item.name)), field="count")
    for sheet in problem.stock:
        if not sheet.cost.is_finite() or sheet.cost < 0 or sheet.cost != round(sheet.cost, 2):
            says = "Enter a cost of 0 or more for {name}, not {cost}."
            raise OutOfRange(worded(says, cost=sheet.cost, name=quoted(sheet.name)), field="cost")


def _refuse_no_rectangle(item: SheetPart | StockSheet) -> None:
    for direction, length_mm in (("across", item.across_mm), ("up", item.up_mm)):
        if not isfinite(length_mm) or length_mm <= 0:
            raise OutOfRange(
                quoted(item.name) + f" is {length_mm:g} mm {direction}: enter more than 0 mm.",
                field=f"{direction}_mm",
            )


def _refuse_impossible_amounts(problem: SheetProblem) -> None:
    if not problem.parts:
        raise ImpossibleLayout("Nothing to cut yet: add a part.", field="parts")
    if not problem.stock:
        raise ImpossibleLayout("Nothing to cut from: add a sheet, on hand or to buy.", field="stock")
    number = sum(part.count for part in problem.parts)
    if number > MOST_PARTS:
        raise ImpossibleLayout(
            f"Lay out at most {MOST_PARTS} parts at a time, not {number}.",
            field="parts",
        )


def _refuse_strips_that_do_not_break(problem: SheetProblem) -> None:
    least_mm = problem.least_strip_mm
    if 0 < problem.trim_mm < least_mm - TOLERANCE_MM:
        raise ImpossibleLayout(
            "Enter no trim, or {least} or more, not {trim}: it must break.",
            field="trim_mm",
            lengths={"trim": problem.trim_mm, "least": least_mm},
        )
    for part in problem.parts:
        if min(part.across_mm, part.up_mm) < least_mm - TOLERANCE_MM:
            raise ImpossibleLayout(
                quoted(part.name) + " is {narrow} wide, too narrow to break: enter {least} or more.",
                field="least_strip_mm",
                lengths={"narrow": min(part.across_mm, part.up_mm), "least": least_mm},
            )


def _first_of_each_size(parts: Iterable[SheetPart]) -> Iterable[SheetPart]:
    """One part for all that fit a sheet alike."""
    found: dict[tuple[float, float, bool], SheetPart] = {}
    for part in parts:
        found.setdefault((part.across_mm, part.up_mm, part.may_turn), part)
    return found.values()


def _refuse_part_without_sheet(part: SheetPart, problem: SheetProblem) -> None:
    if any(_fits(part, sheet, problem) for sheet in problem.stock):
        return
    largest = max(problem.stock, key=lambda sheet: sheet.across_mm * sheet.up_mm)
    across_mm, up_mm = usable_mm(largest, trim_mm=problem.trim_mm)
    if not _is_left_of(largest, trim_mm=problem.trim_mm):
        raise _eaten_by_trim(largest, trim_mm=problem.trim_mm)
    if any(_fits(part, sheet, replace(problem, least_strip_mm=0.0)) for sheet in problem.stock):
        raise _leaves_no_strip(part, problem)
    turned = "even turned" if part.may_turn else "and it may not turn"
    raise ImpossibleLayout(
        worded(
            "No sheet holds {name}, {across} × {up}, {turned}. The largest, {largest}, leaves "
            "{usable_across} × {usable_up} inside its trim. Add a larger sheet.",
            name=quoted(part.name),
            turned=turned,
            largest=quoted(largest.name),
        ),
        field="stock",
        lengths={"across": part.across_mm, "up": part.up_mm, "usable_across": across_mm, "usable_up": up_mm},
    )


def _leaves_no_strip(part: SheetPart, problem: SheetProblem) -> ImpossibleLayout:
    return ImpossibleLayout(
        quoted(part.name) + " leaves too narrow a strip to break: add one {least} larger.",
        field="least_strip_mm",
        lengths={"across": part.across_mm, "up": part.up_mm, "least": problem.least_strip_mm},
    )


def _eaten_by_trim(sheet: StockSheet, *, trim_mm: float) -> ImpossibleLayout:
    return ImpossibleLayout(
        quoted(sheet.name) + ": a trim of {trim} leaves nothing. Enter a narrower one.",
        field="trim_mm",
        lengths={"across": sheet.across_mm, "up": sheet.up_mm, "trim": trim_mm},
    )


def _fits(part: SheetPart, sheet: StockSheet, problem: SheetProblem) -> bool:
    across_mm, up_mm = usable_mm(sheet, trim_mm=problem.trim_mm)
    ways = [(part.across_mm, part.up_mm), (part.up_mm, part.across_mm)][: 2 if part.may_turn else 1]
    return any(
        _can_be_left(across_mm - wide_mm, problem) and _can_be_left(up_mm - high_mm, problem)
        for wide_mm, high_mm in ways
    )


def _can_be_left(left_mm: float, problem: SheetProblem) -> bool:
    """Whether a part can be cut with this much of the sheet beside it: nothing, no more than the kerf, or a strip."""
    within_kerf = -TOLERANCE_MM <= left_mm <= problem.kerf_mm + TOLERANCE_MM
    return within_kerf or left_mm >= problem.kerf_mm + problem.least_strip_mm - TOLERANCE_MM
