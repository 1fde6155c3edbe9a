"""The one place that calls the solver: a linear programme in, its values and prices out.

HiGHS is imported when first needed. Every solve has an object of its own: adding columns to a solved one and switching
it to whole numbers has been seen to give a wrong optimum (HiGHS 1.16.0). Its objective is never used; callers add up
costs from the values, in whole numbers.
"""

from collections.abc import Callable, Iterable, Sequence
from enum import StrEnum
from itertools import accumulate
from typing import TYPE_CHECKING

from framecalc.records import Record
from framecalc.search.silent import silent_solver
from framecalc.search.watch import Watch

if TYPE_CHECKING:
    from highspy import Highs, HighsLp

COST_STEP = 1
"""Costs are whole numbers: a solution closer than this to the bound is the best."""


class Outcome(StrEnum):
    """How a solve ended."""

    BEST = "no better solution exists, says the solver"
    FOUND = "stopped with a solution"
    IMPOSSIBLE = "no solution exists, says the solver"
    NOTHING = "stopped without a solution"


class Condition(Record):
    """One condition: least ≤ Σ factor · variable ≤ most; None for no limit."""

    terms: Sequence[tuple[int, int]]
    least: int | None = None
    most: int | None = None


class Programme(Record):
    """Variables with their costs, least values and upper limits (None for none), and the conditions on them."""

    costs: Sequence[int]
    floors: Sequence[int]
    limits: Sequence[int | None]
    rows: Sequence[Condition]


Values = tuple[float, ...]


def _to_nobody(values: Values) -> None:
    """Tell nobody of a solution that is better than those before."""


class Solution(Record):
    """The values of the variables and the price of each row; empty where nothing was found."""

    outcome: Outcome
    values: Values = ()
    prices: Values = ()

    @property
    def counts(self) -> tuple[int, ...]:
        """The values as whole numbers."""
        return whole_of(self.values)


def whole_of(values: Values) -> tuple[int, ...]:
    """Values of variables as whole numbers. Source: derived."""
    return tuple(map(round, values))


def solve(
    programme: Programme,
    *,
    whole: bool,
    watch: Watch,
    most_nodes: int | None = None,
    better: Callable[[Values], None] = _to_nobody,
) -> Solution:
    """Find the least cost of a linear programme, in fractions or in whole numbers.

    Args:
        most_nodes: where the search in whole numbers stops with what it has; None for no stop but the watch's.
        better: called with the values of each solution in whole numbers that is better than those before.
    Source: HiGHS, an open solver of linear and integer programmes.
    """
    if watch.over:
        return Solution(outcome=Outcome.NOTHING)
    highs = silent_solver()
    highs.setOptionValue("time_limit", watch.remaining_s)
    highs.setOptionValue("mip_rel_gap", 0.0)
    highs.setOptionValue("mip_abs_gap", COST_STEP / 2)
    if most_nodes is not None:
        highs.setOptionValue("mip_max_nodes", most_nodes)
    highs.cbMipInterrupt += lambda event: event.interrupt(watch.over)
    highs.cbMipImprovingSolution += lambda event: better(tuple(event.data_out.mip_solution))
    highs.passModel(_model(programme, whole))
    highs.run()
    return _solution(highs)


def _model(programme: Programme, whole: bool) -> "HighsLp":
    from highspy import HighsLp, HighsVarType, MatrixFormat, kHighsInf

    def bounds(limits: Iterable[int | None], unlimited: float) -> list[float]:
        return [unlimited if limit is None else float(limit) for limit in limits]

    terms = [term for row in programme.rows for term in row.terms]
    model = HighsLp()
    model.num_col_, model.num_row_ = len(programme.costs), len(programme.rows)
    model.col_cost_ = [float(cost) for cost in programme.costs]
    model.col_lower_ = bounds(programme.floors, 0.0)
    model.col_upper_ = bounds(programme.limits, kHighsInf)
    model.row_lower_ = bounds((row.least for row in programme.rows), -kHighsInf)
    model.row_upper_ = bounds((row.most for row in programme.rows), kHighsInf)
    model.a_matrix_.format_ = MatrixFormat.kRowwise
    model.a_matrix_.start_ = list(accumulate((len(row.terms) for row in programme.rows), initial=0))
    model.a_matrix_.index_ = [variable for variable, _ in terms]
    model.a_matrix_.value_ = [float(factor) for _, factor in terms]
    if whole:
        model.integrality_ = [HighsVarType.kInteger] * len(programme.costs)
    return model


def _solution(highs: "Highs") -> Solution:
    from highspy import HighsModelStatus, SolutionStatus

    status, info, found = highs.getModelStatus(), highs.getInfo(), highs.getSolution()
    if status == HighsModelStatus.kInfeasible:
        return Solution(outcome=Outcome.IMPOSSIBLE)
    if info.primal_solution_status != SolutionStatus.kSolutionStatusFeasible:
        return Solution(outcome=Outcome.NOTHING)
    outcome = Outcome.BEST if status == HighsModelStatus.kOptimal else Outcome.FOUND
    return Solution(outcome=outcome, values=tuple(found.col_value), prices=tuple(found.row_dual))
