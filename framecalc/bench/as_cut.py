"""As cut: what was measured after machining, beside what was planned.

A *quantity* is measured on a *piece*: one side, or all sides alike. Later words about the same piece replace earlier
ones; the pieces of a frame may differ, so a quantity has a least and a greatest value.
"""

from collections.abc import Iterable
from enum import StrEnum

from framecalc.findings import Finding, Severity
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM


class Quantity(StrEnum):
    """What is measured at the bench."""

    THICKNESS = "thickness"
    FACE_WIDTH = "face width"
    RABBET_WIDTH = "rabbet width"
    RABBET_DEPTH = "rabbet depth"
    PACKAGE = "package"


ALL_SIDES = "all sides"


class Taken(Record):
    """One measurement: of which sides, what, and how much."""

    side: str
    quantity: Quantity
    value_mm: float


class Range(Record):
    """The least and the greatest of what was measured of one quantity, beside what was planned."""

    quantity: Quantity
    planned_mm: float
    least_mm: float
    greatest_mm: float

    @property
    def is_as_planned(self) -> bool:
        """Whether it came out as planned."""
        return max(abs(self.least_mm - self.planned_mm), abs(self.greatest_mm - self.planned_mm)) <= TOLERANCE_MM

    @property
    def furthest_mm(self) -> float:
        """The one of the two that is further from the plan."""
        return max((self.least_mm, self.greatest_mm), key=lambda one_mm: abs(one_mm - self.planned_mm))


def in_force(taken: Iterable[Taken]) -> tuple[Taken, ...]:
    """The measurements that count: the last of each piece; one of all sides replaces those before it.

    Source: derived.

    >>> depth = Quantity.RABBET_DEPTH
    >>> told = (("top", 9), (ALL_SIDES, 12), ("top", 11))
    >>> said = [Taken(side=side, quantity=depth, value_mm=value_mm) for side, value_mm in told]
    >>> [(one.side, one.value_mm) for one in in_force(said)]
    [('all sides', 12), ('top', 11)]
    """
    kept: dict[tuple[Quantity, str], Taken] = {}
    for one in taken:
        if one.side == ALL_SIDES:
            kept = {key: other for key, other in kept.items() if key[0] is not one.quantity}
        kept.pop((one.quantity, one.side), None)
        kept[one.quantity, one.side] = one
    return tuple(kept.values())


def ranges(taken: Iterable[Taken], *, planned_mm: dict[Quantity, float]) -> tuple[Range, ...]:
    """The range of every quantity that was measured and is planned, in the order of the work.

    Source: derived.
    """
    values: dict[Quantity, list[float]] = {}
    for one in in_force(taken):
        values.setdefault(one.quantity, []).append(one.value_mm)
    return tuple(
        Range(
            quantity=quantity,
            planned_mm=planned_mm[quantity],
            least_mm=min(values[quantity]),
            greatest_mm=max(values[quantity]),
        )
        for quantity in Quantity
        if quantity in values and quantity in planned_mm
    )


_MORE_AND_LESS = {
    Quantity.THICKNESS: ("thick", "thin"),
    Quantity.FACE_WIDTH: ("wide", "narrow"),
    Quantity.RABBET_WIDTH: ("wide", "narrow"),
    Quantity.RABBET_DEPTH: ("deep", "shallow"),
    Quantity.PACKAGE: ("thick", "thin"),
}
_NAMES = {
    Quantity.THICKNESS: "Members",
    Quantity.FACE_WIDTH: "Members",
    Quantity.RABBET_WIDTH: "Rabbet",
    Quantity.RABBET_DEPTH: "Rabbet",
    Quantity.PACKAGE: "Package",
}


def came_out(found: Range, *, effect: str, lengths_mm: dict[str, float], severity: Severity) -> Finding:
    """Say how a quantity came out beside its plan, and what that does.

    Args:
        effect: a short clause that may name lengths in braces.
        lengths_mm: the lengths of the clause [mm].
    Source: derived.

    >>> depth = Range(quantity=Quantity.RABBET_DEPTH, planned_mm=12, least_mm=11.6, greatest_mm=12)
    >>> came_out(depth, effect="{room} left", lengths_mm={"room": 3.6}, severity=Severity.NOTE).sentence
    'Rabbet {off} shallow: {room} left.'
    """
    off_mm = found.furthest_mm - found.planned_mm
    more, less = _MORE_AND_LESS[found.quantity]
    how = more if off_mm > 0 else less
    return Finding(
        code=f"as-cut.{found.quantity.name.lower().replace('_', '-')}",
        severity=severity,
        sentence=f"{_NAMES[found.quantity]} {{off}} {how}: {effect}.",
        why="Planned {planned}, measured {measured}.",
        source="derived",
        argument="as_cut",
        lengths=lengths_mm | {"off": abs(off_mm), "planned": found.planned_mm, "measured": found.furthest_mm},
    )
