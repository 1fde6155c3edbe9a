"""The way from a sheet problem to a layout: write it in whole numbers, search, write the sheets out, check."""

from collections import Counter
from collections.abc import Callable
from decimal import Decimal

from framecalc.errors import ImpossibleLayout
from framecalc.search.watch import Watch
from framecalc.sheets.answer import CutSheet, LayoutProof, PartShare, Purchase, SheetCapacity, SheetLayout
from framecalc.sheets.check import faults_of
from framecalc.sheets.columns import ColumnSearch
from framecalc.sheets.cutting import cut_sheets
from framecalc.sheets.layout import find_layout
from framecalc.sheets.problem import Goal, SheetProblem
from framecalc.sheets.whole_numbers import LayoutJob, job_of


def tell_nobody(layout: SheetLayout) -> None:
    """Tell nobody how the search is going. Source: derived."""


def lay_out_sheets(
    problem: SheetProblem,
    *,
    watch: Watch,
    report: Callable[[SheetLayout], None] = tell_nobody,
    most_beginnings: int | None = None,
) -> SheetLayout:
    """Lay parts out on sheets: the least bought or paid, then the fewest sheets cut, then the largest left-over.

    Takes no longer than the watch allows; belongs into a thread of its own. When time is up or somebody cancels it,
    the best layout so far comes back, with what could be saved at most.

    Args:
        problem: made by `sheet_problem`.
        watch: how long it may take, and whether it is cancelled.
        report: called now and then with the best layout so far.
        most_beginnings: how often to begin anew where the proof fails; None while the time lasts.
    Raises:
        ImpossibleLayout: the layout found fails its own check.
    Source: derived.

    >>> from time import monotonic
    >>> from framecalc.sheets.problem import SheetPart, StockSheet, sheet_problem
    >>> from framecalc.search.watch import start_watch
    >>> glass = SheetPart(name="hall glass", across_mm=297, up_mm=420, count=8)
    >>> sheet = StockSheet(name="815 × 1120", across_mm=815, up_mm=1120)
    >>> layout = lay_out_sheets(sheet_problem(parts=[glass], stock=[sheet], kerf_mm=0, least_strip_mm=12),
    ...                         watch=start_watch(5, clock=monotonic))
    >>> layout.verdict
    '2 sheets to buy; proved: no layout needs fewer.'
    """
    job = job_of(problem)

    def pass_on(search: ColumnSearch) -> None:
        report(_answer(search, job, problem))

    layout = _answer(find_layout(job, watch=watch, report=pass_on, most_beginnings=most_beginnings), job, problem)
    faults = faults_of(layout, problem=problem)
    if faults:
        raise ImpossibleLayout(f"The layout was thrown away, because its own check failed: {faults[0]}.", field="stock")
    return layout


def _answer(search: ColumnSearch, job: LayoutJob, problem: SheetProblem) -> SheetLayout:
    sheets = cut_sheets(search.layout, job=job, problem=problem)
    least_main, least_cut = divmod(search.least_price, job.unit)
    is_fewest = problem.goal is Goal.FEWEST
    purchases = _purchases(sheets)
    cost = sum((sheet.stock.cost for sheet in sheets), Decimal(0))
    return SheetLayout(
        fingerprint=problem.fingerprint,
        goal=problem.goal,
        sheets=sheets,
        purchases=purchases,
        cost=cost,
        least_bought=least_main if is_fewest else 0,
        least_cost=Decimal(0) if is_fewest else min(cost, Decimal(least_main * job.coin) / 100),
        least_cut=least_cut,
        is_proved=search.is_proved,
        tried_every_way=search.is_proved and search.ruled_out == search.price,
        proof=_proof(search, job, problem),
        is_exhausted=search.is_exhausted and not search.is_proved,
    )


def _purchases(sheets: tuple[CutSheet, ...]) -> tuple[Purchase, ...]:
    bought = Counter(sheet.stock for sheet in sheets if sheet.stock.is_bought)
    return tuple(Purchase(stock=stock, count=count, cost=count * stock.cost) for stock, count in bought.items())


def _proof(search: ColumnSearch, job: LayoutJob, problem: SheetProblem) -> LayoutProof:
    """Write the shares as ratios of the most that a sheet yields."""
    shares = search.certificate.shares
    whole = max(shares.capacities) or 1
    at_hand = [(sheet, most) for sheet, most in zip(job.sheets, shares.capacities, strict=True) if not sheet.is_missing]
    wanted = sum(share * piece.count for share, piece in zip(shares.pieces, job.pieces, strict=True))
    return LayoutProof(
        parts=tuple(_part_share(number, share / whole, job, problem) for number, share in enumerate(shares.pieces)),
        sheets=tuple(
            SheetCapacity(stock=problem.stock[sheet.stock], most_ratio=most / whole) for sheet, most in at_hand
        ),
        wanted_ratio=wanted / whole,
    )


def _part_share(number: int, share_ratio: float, job: LayoutJob, problem: SheetProblem) -> PartShare:
    piece = job.pieces[number]
    parts = [problem.parts[part] for part in dict.fromkeys(piece.parts)]
    return PartShare(
        names=tuple(part.name for part in parts),
        across_mm=parts[0].across_mm,
        up_mm=parts[0].up_mm,
        count=piece.count,
        share_ratio=share_ratio,
    )
