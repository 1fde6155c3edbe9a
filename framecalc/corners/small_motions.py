"""The small motions of four members that lie in a ring: which gaps and steps they make, and which motions are best.

Each member may shift across and up and turn a little about the middle of its outer edge. To the first order in motions
and errors every gap at a mitre and every step at the tips is a sum of slopes times motions, so the best motions are
found by linear programmes. Members go clockwise from the top as seen from the front, x across and y up; a corner takes
the number of the member that ends there.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import inf, sqrt
from typing import Any

from framecalc.search.silent import silent_solver

_ALONG = ((1.0, 0.0), (0.0, -1.0), (-1.0, 0.0), (0.0, 1.0))
"""Clockwise along top, right, bottom, left."""

_MOTIONS = 12
"""Across, up and turn of each of four members; a turn is counted as the way it moves a point at `reach`."""

_Vector = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """Four members as cut: half the nominal outside size, what each is too long, and the wedge at each corner."""

    half_across_mm: float
    half_up_mm: float
    too_long_mm: tuple[float, float, float, float]
    wedges_rad: tuple[float, float, float, float]
    mitre_length_mm: float

    @property
    def half(self) -> tuple[float, float]:
        """Half of the outside, across and up."""
        return self.half_across_mm, self.half_up_mm

    @property
    def reach_mm(self) -> float:
        """The arm at which a turn is counted as a length, so that all motions are of one size."""
        return max(self.half)


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A length that depends evenly on the motions: `constant + Σ slope · motion`."""

    constant_mm: float
    slopes: tuple[float, ...]

    def at(self, motions: Sequence[float]) -> float:
        return self.constant_mm + sum(slope * motion for slope, motion in zip(self.slopes, motions, strict=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """`least ≤ slopes · columns ≤ most`."""

    slopes: tuple[float, ...]
    least_mm: float = float("-inf")
    most_mm: float = float("inf")


@dataclass(frozen=True, slots=True, kw_only=True)
class Forms:
    """All that the motions of one ring change: gaps outside and inside, corner by corner, and the steps at the tips."""

    gaps: tuple[Form, ...]
    steps: tuple[Form, ...]


def forms_of(ring: Ring) -> Forms:
    """Write the gaps and steps of a ring as sums of slopes times motions.

    Source: derived (plane geometry to the first order).

    >>> ring = Ring(half_across_mm=200, half_up_mm=150, too_long_mm=(0, 0, 0, 0), wedges_rad=(0, 0, 0, 0),
    ...             mitre_length_mm=50)
    >>> {gap.at(12 * (0.0,)) for gap in forms_of(ring).gaps}
    {0.0}
    """
    ends = [(corner, along_mm) for corner in range(4) for along_mm in (0.0, ring.mitre_length_mm)]
    return Forms(
        gaps=tuple(_gap(ring, corner, along_mm) for corner, along_mm in ends),
        steps=tuple(_step(ring, corner) for corner in range(4)),
    )


def best_motions(forms: Forms, *, step_mm: float = inf) -> tuple[float, ...]:
    """Find the motions with the least worst gap, then the least worst step, then the least gaps together.

    Three linear programmes, each within what the one before has won: ``0 ≤ gap ≤ G``, ``|step| ≤ S``.

    Args:
        step_mm: the largest step allowed [mm], ≥ 0; none when the tips are held flush.
    Source: derived.

    >>> ring = Ring(half_across_mm=200, half_up_mm=150, too_long_mm=(0, 0, 0, 0), wedges_rad=(0.004, 0, 0, 0),
    ...             mitre_length_mm=50)
    >>> forms = forms_of(ring)
    >>> round(max(gap.at(best_motions(forms)) for gap in forms.gaps), 6)
    0.05
    """
    gap_mm = _least_worst(forms, forms.gaps, gap_mm=inf, step_mm=step_mm)
    least_step_mm = _least_worst(forms, forms.steps, gap_mm=gap_mm, step_mm=step_mm)
    together = tuple(sum(slopes) for slopes in zip(*(gap.slopes for gap in forms.gaps), strict=True))
    return _minimise(together, _limits(forms, gap_mm=gap_mm, step_mm=least_step_mm))


def _gap(ring: Ring, corner: int, along_mm: float) -> Form:
    """The gap between the faces of a corner, so far in from the tips: square to the joint, from one to the next."""
    before, after = corner, (corner + 1) % 4
    joint = _scaled(_plus(_ALONG[before], _ALONG[after]), 1 / sqrt(2))
    inward = _scaled(_plus(_ALONG[after], _ALONG[before], -1.0), 1 / sqrt(2))
    too_long_mm = ring.too_long_mm[before] + ring.too_long_mm[after]
    return Form(
        constant_mm=-too_long_mm / (2 * sqrt(2)) - ring.wedges_rad[corner] * along_mm,
        slopes=_apart(ring, _plus(_corner_point(ring, corner), inward, along_mm), joint, before=before, after=after),
    )


def _step(ring: Ring, corner: int) -> Form:
    """How far the tip of the side before stands proud of the outer edge of the side after."""
    before, after = corner, (corner + 1) % 4
    inward = _scaled(_plus(_ALONG[after], _ALONG[before], -1.0), 0.5)
    return Form(
        constant_mm=(ring.too_long_mm[before] - ring.too_long_mm[after]) / 4,
        slopes=_apart(ring, _corner_point(ring, corner), inward, before=before, after=after),
    )


def _apart(ring: Ring, point: _Vector, direction: _Vector, *, before: int, after: int) -> tuple[float, ...]:
    """How the motions move the side after away from the side before, at a point, in a direction."""
    slopes = [0.0] * _MOTIONS
    for member, sign in ((before, -1.0), (after, 1.0)):
        arm = _plus(point, _middle(ring, member), -1.0)
        turning = (direction[1] * arm[0] - direction[0] * arm[1]) / ring.reach_mm
        slopes[3 * member : 3 * member + 3] = [sign * direction[0], sign * direction[1], sign * turning]
    return tuple(slopes)


def _corner_point(ring: Ring, corner: int) -> _Vector:
    return _plus(_middle(ring, corner), _middle(ring, (corner + 1) % 4))


def _middle(ring: Ring, member: int) -> _Vector:
    """The middle of a member's outer edge: a quarter turn to the left of its direction."""
    along = _ALONG[member]
    return -along[1] * ring.half_across_mm, along[0] * ring.half_up_mm


def _plus(one: _Vector, other: _Vector, times: float = 1.0) -> _Vector:
    return one[0] + times * other[0], one[1] + times * other[1]


def _scaled(vector: _Vector, times: float) -> _Vector:
    return times * vector[0], times * vector[1]


def _least_worst(forms: Forms, chosen: tuple[Form, ...], *, gap_mm: float, step_mm: float) -> float:
    """The least value that the largest of some forms can have, either way."""
    rows = [_Row(slopes=(*row.slopes, 0.0), least_mm=row.least_mm, most_mm=row.most_mm)
            for row in _limits(forms, gap_mm=gap_mm, step_mm=step_mm)]  # fmt: skip
    rows += [_Row(slopes=(*form.slopes, 1.0), least_mm=-form.constant_mm) for form in chosen]
    rows += [_Row(slopes=(*form.slopes, -1.0), most_mm=-form.constant_mm) for form in chosen]
    motions = _minimise((0.0,) * _MOTIONS + (1.0,), rows)[:_MOTIONS]
    return max(abs(form.at(motions)) for form in chosen)


def _limits(forms: Forms, *, gap_mm: float, step_mm: float) -> list[_Row]:
    """No overlap, no gap and no step past what is allowed; the first member stays where it is."""
    rows = [_Row(slopes=gap.slopes, least_mm=-gap.constant_mm, most_mm=gap_mm - gap.constant_mm) for gap in forms.gaps]
    rows += [
        _Row(slopes=step.slopes, least_mm=-step_mm - step.constant_mm, most_mm=step_mm - step.constant_mm)
        for step in forms.steps
    ]
    held = [tuple(float(column == motion) for column in range(_MOTIONS)) for motion in range(3)]
    return rows + [_Row(slopes=slopes, least_mm=0.0, most_mm=0.0) for slopes in held]


def _minimise(costs: tuple[float, ...], rows: list[_Row]) -> tuple[float, ...]:
    """Solve one linear programme in free columns. The solver is imported here so that nobody else waits for it."""
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
    """Hand all rows over at once, which is several times as fast as one by one."""
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
