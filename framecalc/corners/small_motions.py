"""Small motions of the members of a frame: the gaps and steps that they make, and the best motions.

Each member may shift across and up and turn a little about the middle of its outer edge. To the first order in motions
and errors every gap at a mitre and every step at the tips is linear in the motions, so linear programmes find the best
motions. Members go clockwise as seen from the front, x across and y up, four from the top, others from the bottom; a
corner has the number of the member that ends there, where the frame turns by 360°/n.
"""

from collections.abc import Sequence
from itertools import accumulate
from math import cos, inf, pi, sin
from typing import Any

from framecalc.records import Record
from framecalc.search.silent import silent_solver
from framecalc.sizes.shape import RECTANGLE_SIDES

_EACH = 3
"""Motions of one member: across, up and turn; a turn is measured by the distance it moves a point at `reach_mm`."""

_ROUNDS_TO = 15
"""Decimals of a direction, so that one along an axis has no other part."""

_Vector = tuple[float, float]


class Ring(Record):
    """Members as cut: half the nominal outside size, the excess length of each, and the wedge at each corner.

    Four make a rectangle, any other number a regular polygon, whose halves are both half of its flats.
    """

    half_across_mm: float
    half_up_mm: float
    too_long_mm: tuple[float, ...]
    wedges_rad: tuple[float, ...]
    mitre_length_mm: float

    @property
    def sides(self) -> int:
        """The number of members."""
        return len(self.too_long_mm)

    @property
    def half_turn_rad(self) -> float:
        """Half of what the frame turns by at a corner."""
        return pi / self.sides

    def along(self, member: int) -> tuple[float, float]:
        """The direction of a member, clockwise."""
        first_rad = 0.0 if self.sides == len(RECTANGLE_SIDES) else pi
        turned_rad = first_rad - 2 * self.half_turn_rad * member
        return round(cos(turned_rad), _ROUNDS_TO) + 0.0, round(sin(turned_rad), _ROUNDS_TO) + 0.0

    @property
    def half(self) -> tuple[float, float]:
        """Half of the outside, across and up."""
        return self.half_across_mm, self.half_up_mm

    @property
    def reach_mm(self) -> float:
        """The arm at which a turn is measured as a length, so that all motions are of similar size."""
        return max(self.half)


class LinearLength(Record):
    """A length that is linear in the motions: `constant + Σ slope · motion`."""

    constant_mm: float
    slopes: tuple[float, ...]

    def at(self, motions: Sequence[float]) -> float:
        return self.constant_mm + sum(slope * motion for slope, motion in zip(self.slopes, motions, strict=True))


class _Row(Record):
    """`least ≤ slopes · columns ≤ most`."""

    slopes: tuple[float, ...]
    least_mm: float = float("-inf")
    most_mm: float = float("inf")


class GapsAndSteps(Record):
    """The lengths that the motions change: gaps outside and inside, corner by corner, and the steps at the tips."""

    gaps: tuple[LinearLength, ...]
    steps: tuple[LinearLength, ...]


def gaps_and_steps(ring: Ring) -> GapsAndSteps:
    """Write the gaps and steps of a ring as linear functions of the motions.

    Source: derived (plane geometry to the first order).

    >>> ring = Ring(half_across_mm=200, half_up_mm=150, too_long_mm=(0, 0, 0, 0), wedges_rad=(0, 0, 0, 0),
    ...             mitre_length_mm=50)
    >>> {gap.at(12 * (0.0,)) for gap in gaps_and_steps(ring).gaps}
    {0.0}
    """
    ends = [(corner, along_mm) for corner in range(ring.sides) for along_mm in (0.0, ring.mitre_length_mm)]
    return GapsAndSteps(
        gaps=tuple(_gap(ring, corner, along_mm) for corner, along_mm in ends),
        steps=tuple(_step(ring, corner) for corner in range(ring.sides)),
    )


def best_motions(lengths: GapsAndSteps, *, step_mm: float = inf) -> tuple[float, ...]:
    """Find the motions with the smallest worst gap, then the smallest worst step, then the smallest sum of gaps.

    Three linear programmes, each within the optimum of the one before: ``0 ≤ gap ≤ G``, ``|step| ≤ S``.

    Args:
        step_mm: the largest step allowed [mm], ≥ 0; 0 when the tips are held flush.
    Source: derived.

    >>> ring = Ring(half_across_mm=200, half_up_mm=150, too_long_mm=(0, 0, 0, 0), wedges_rad=(0.004, 0, 0, 0),
    ...             mitre_length_mm=50)
    >>> lengths = gaps_and_steps(ring)
    >>> round(max(gap.at(best_motions(lengths)) for gap in lengths.gaps), 6)
    0.05
    """
    gap_mm = _least_worst(lengths, lengths.gaps, gap_mm=inf, step_mm=step_mm)
    least_step_mm = _least_worst(lengths, lengths.steps, gap_mm=gap_mm, step_mm=step_mm)
    together = tuple(sum(slopes) for slopes in zip(*(gap.slopes for gap in lengths.gaps), strict=True))
    return _minimise(together, _limits(lengths, gap_mm=gap_mm, step_mm=least_step_mm))


def _gap(ring: Ring, corner: int, along_mm: float) -> LinearLength:
    """The gap between the faces of a corner at a distance in from the tips, measured square to the joint."""
    before, after = corner, (corner + 1) % ring.sides
    joint = _scaled(_plus(ring.along(before), ring.along(after)), 1 / (2 * cos(ring.half_turn_rad)))
    too_long_mm = ring.too_long_mm[before] + ring.too_long_mm[after]
    inward = _inward(ring, corner)
    return LinearLength(
        constant_mm=-too_long_mm * cos(ring.half_turn_rad) / 2 - ring.wedges_rad[corner] * along_mm,
        slopes=_apart(ring, _plus(_corner_point(ring, corner), inward, along_mm), joint, before=before, after=after),
    )


def _step(ring: Ring, corner: int) -> LinearLength:
    """How far the tip of the first side stands proud of the outer edge of the next."""
    before, after = corner, (corner + 1) % ring.sides
    inward = _scaled(_inward(ring, corner), cos(ring.half_turn_rad))
    return LinearLength(
        constant_mm=(ring.too_long_mm[before] - ring.too_long_mm[after]) * sin(2 * ring.half_turn_rad) / 4,
        slopes=_apart(ring, _corner_point(ring, corner), inward, before=before, after=after),
    )


def _inward(ring: Ring, corner: int) -> _Vector:
    """Along the mitre of a corner, from its tip."""
    before, after = ring.along(corner), ring.along((corner + 1) % ring.sides)
    return _scaled(_plus(after, before, -1.0), 1 / (2 * sin(ring.half_turn_rad)))


def _apart(ring: Ring, point: _Vector, direction: _Vector, *, before: int, after: int) -> tuple[float, ...]:
    """The slopes with which the motions part two neighbours at a point, in a direction."""
    slopes = [0.0] * (_EACH * ring.sides)
    for member, sign in ((before, -1.0), (after, 1.0)):
        arm = _plus(point, _middle(ring, member), -1.0)
        turning = (direction[1] * arm[0] - direction[0] * arm[1]) / ring.reach_mm
        slopes[_EACH * member : _EACH * (member + 1)] = [sign * direction[0], sign * direction[1], sign * turning]
    return tuple(slopes)


def _corner_point(ring: Ring, corner: int) -> _Vector:
    middles = _plus(_middle(ring, corner), _middle(ring, (corner + 1) % ring.sides))
    return _scaled(middles, 1 / (1 + cos(2 * ring.half_turn_rad)))


def _middle(ring: Ring, member: int) -> _Vector:
    """The middle of a member's outer edge: a quarter turn to the left of its direction."""
    along = ring.along(member)
    return -along[1] * ring.half_across_mm, along[0] * ring.half_up_mm


def _plus(one: _Vector, other: _Vector, times: float = 1.0) -> _Vector:
    return one[0] + times * other[0], one[1] + times * other[1]


def _scaled(vector: _Vector, times: float) -> _Vector:
    return times * vector[0], times * vector[1]


def _least_worst(lengths: GapsAndSteps, chosen: tuple[LinearLength, ...], *, gap_mm: float, step_mm: float) -> float:
    """The smallest possible value of the largest of some lengths, either sign."""
    rows = [_Row(slopes=(*row.slopes, 0.0), least_mm=row.least_mm, most_mm=row.most_mm)
            for row in _limits(lengths, gap_mm=gap_mm, step_mm=step_mm)]  # fmt: skip
    rows += [_Row(slopes=(*length.slopes, 1.0), least_mm=-length.constant_mm) for length in chosen]
    rows += [_Row(slopes=(*length.slopes, -1.0), most_mm=-length.constant_mm) for length in chosen]
    motions = _minimise((0.0,) * len(chosen[0].slopes) + (1.0,), rows)[:-1]
    return max(abs(length.at(motions)) for length in chosen)


def _limits(lengths: GapsAndSteps, *, gap_mm: float, step_mm: float) -> list[_Row]:
    """No overlap, no gap and no step larger than allowed; the first member does not move."""
    rows = [
        _Row(slopes=gap.slopes, least_mm=-gap.constant_mm, most_mm=gap_mm - gap.constant_mm) for gap in lengths.gaps
    ]
    rows += [
        _Row(slopes=step.slopes, least_mm=-step_mm - step.constant_mm, most_mm=step_mm - step.constant_mm)
        for step in lengths.steps
    ]
    columns = range(len(lengths.gaps[0].slopes))
    held = [tuple(float(column == motion) for column in columns) for motion in range(_EACH)]
    return rows + [_Row(slopes=slopes, least_mm=0.0, most_mm=0.0) for slopes in held]


def _minimise(costs: tuple[float, ...], rows: list[_Row]) -> tuple[float, ...]:
    """Solve one linear programme in free columns. The solver loads slowly, so it is imported only here."""
    import highspy

    solver, columns = silent_solver(), len(costs)
    solver.addVars(columns, [-highspy.kHighsInf] * columns, [highspy.kHighsInf] * columns)
    solver.changeColsCost(columns, list(range(columns)), list(costs))
    _add_rows(solver, rows)
    solver.run()
    if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        raise RuntimeError(f"the solver stopped with {solver.getModelStatus()}")
    return tuple(solver.getSolution().col_value)


def _add_rows(solver: Any, rows: list[_Row]) -> None:
    """Add all rows in one call, several times as fast as one by one."""
    used = [[(column, slope) for column, slope in enumerate(row.slopes) if slope] for row in rows]
    entries = [entry for row in used for entry in row]
    solver.addRows(
        len(rows),
        [row.least_mm for row in rows],
        [row.most_mm for row in rows],
        len(entries),
        list(accumulate((len(row) for row in used[:-1]), initial=0)),
        [column for column, _ in entries],
        [slope for _, slope in entries],
    )
