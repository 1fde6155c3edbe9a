"""The search for the cheapest plan: by rules of thumb first, by exact trial where the job is small, by the solver last.

The result is a plan in whole numbers, the strongest certificate found, and whether every cheaper plan is ruled out.
"""

from collections.abc import Sequence
from itertools import islice

from framecalc.errors import ImpossibleTimber
from framecalc.records import Record, replace
from framecalc.search.solver import Outcome
from framecalc.search.watch import SoFar, Watch
from framecalc.timber.sticks.bounds import StickCertificate, certify_by_counting, certify_by_length, certify_prices
from framecalc.timber.sticks.cheaper import Tour
from framecalc.timber.sticks.column_lists import Column, PricedColumns, all_columns, columns_of
from framecalc.timber.sticks.columns import least_by_prices, plan_of_columns, price_columns
from framecalc.timber.sticks.opening_sticks import open_greedily, open_purchase, rooms_of
from framecalc.timber.sticks.packing import GaveUp, pack_exactly, pack_snugly
from framecalc.timber.sticks.purchases import Purchase, purchases
from framecalc.timber.sticks.whole_numbers import UM_PER_MM, OpenedStick, Pattern, WholeNumbers, cost_of, money_of

FEW_PARTS = 14
"""Up to so many parts every purchase is tried exactly, without the solver. Ours."""

MOST_TRIES, PARTS_TRIED = 12, 2400
"""Purchases that are tried before the solver is asked, and parts that are packed in all of these tries."""

MOST_LENGTHS = 300
"""Different lengths beyond which the solver is not asked: it would not get far in the time of a job. Ours."""

MOST_ROUNDS = 400
"""Rounds of making patterns for the bound; they end by themselves much earlier. Measured."""

CHOOSE_S = 5.0
"""The time for choosing among patterns in whole numbers [s]. Ours."""


class FoundPlan(Record):
    """The best plan found, the cost that no plan beats, and whether every cheaper purchase is ruled out.

    `certificates` prove the least cost: no purchase that costs less covers all of them.
    """

    opened: tuple[OpenedStick, ...]
    certificates: tuple[StickCertificate, ...]
    least: int
    ruled_out: bool


class _State(Record):
    """A search in progress, perhaps without a plan yet."""

    opened: tuple[OpenedStick, ...] | None
    certificates: tuple[StickCertificate, ...]
    least: int
    ruled_out: bool = False

    def cost(self, whole_numbers: WholeNumbers) -> int:
        """What the plan in hand costs; more than any plan where there is none."""
        if self.opened is None:
            return 1 + sum(kind.cost * kind.limit for kind in whole_numbers.kinds)
        return cost_of(self.opened, whole_numbers=whole_numbers)

    def proved(self, whole_numbers: WholeNumbers) -> bool:
        """Whether the bound shows that no plan is cheaper."""
        return self.cost(whole_numbers) <= self.least

    def open(self, whole_numbers: WholeNumbers) -> bool:
        """Whether a cheaper plan is still possible."""
        return not self.ruled_out and not self.proved(whole_numbers)

    def bounded(self, certificate: StickCertificate) -> "_State":
        """With one more certificate, where it is stronger."""
        _refuse_too_little(certificate)
        least = certificate.cost or 0
        return replace(self, certificates=(certificate,), least=least) if least > self.least else self


def find_plan(whole_numbers: WholeNumbers, *, watch: Watch) -> FoundPlan:
    """Find the cheapest plan, or the best that the time allows, with a bound.

    Raises:
        ImpossibleTimber: the stock cannot hold the pieces, or no plan was found in the time.
    Source: derived.
    """
    by_length = certify_by_length(whole_numbers)
    _refuse_too_short(by_length, whole_numbers)
    start = _State(opened=open_greedily(whole_numbers), certificates=(by_length,), least=by_length.cost or 0)
    state = _told(start, whole_numbers, watch)
    if state.open(whole_numbers):
        state = _told(_try_purchases(whole_numbers, by_length, state, watch), whole_numbers, watch)
    if not state.proved(whole_numbers):
        state = _told(
            state.bounded(certify_by_counting(whole_numbers, target=state.cost(whole_numbers))), whole_numbers, watch
        )
    if not state.proved(whole_numbers) and not watch.over and len(whole_numbers.counts) <= MOST_LENGTHS:
        state = _ask_solver(whole_numbers, state, watch)
    if state.opened is None:
        raise _no_plan(ruled_out=state.ruled_out or state.proved(whole_numbers))
    return FoundPlan(opened=state.opened, certificates=state.certificates, least=state.least, ruled_out=state.ruled_out)


def _told(state: _State, whole_numbers: WholeNumbers, watch: Watch) -> _State:
    """Report progress to the watch, and return the state unchanged."""
    least_money, least_sticks = money_of(state.least, whole_numbers=whole_numbers)
    money, sticks = (
        (None, None) if state.opened is None else money_of(state.cost(whole_numbers), whole_numbers=whole_numbers)
    )
    watch.tell(SoFar(money=money, sticks=sticks, least_money=least_money, least_sticks=least_sticks))
    return state


def _try_purchases(whole_numbers: WholeNumbers, by_length: StickCertificate, state: _State, watch: Watch) -> _State:
    """Try the cheapest purchases in turn; the first that can be packed is the best, if all before it cannot be."""
    tries = purchases(
        whole_numbers.kinds, most=by_length.most, needed=by_length.needed, below=state.cost(whole_numbers)
    )
    complete, enough = True, min(MOST_TRIES, 1 + PARTS_TRIED // sum(whole_numbers.counts))
    for number, (_, purchase) in enumerate(islice(tries, enough + 1)):
        if not purchase or number == enough or watch.over:
            return state
        packed, exact = _pack(whole_numbers, purchase)
        if packed is not None:
            opened = open_purchase(purchase, packed=packed, whole_numbers=whole_numbers)
            return replace(state, opened=opened, ruled_out=complete)
        complete = complete and exact
    return replace(state, ruled_out=complete)


def _pack(whole_numbers: WholeNumbers, purchase: Purchase) -> tuple[tuple[Pattern, ...] | None, bool]:
    """Pack a purchase; whether the answer is exact."""
    rooms = rooms_of(purchase, whole_numbers=whole_numbers)
    if sum(whole_numbers.counts) <= FEW_PARTS:
        try:
            return pack_exactly(whole_numbers.lengths_um, counts=whole_numbers.counts, rooms_um=rooms), True
        except GaveUp:
            pass
    return pack_snugly(whole_numbers.lengths_um, counts=whole_numbers.counts, rooms_um=rooms), False


def _ask_solver(whole_numbers: WholeNumbers, state: _State, watch: Watch) -> _State:
    """Try the cheaper purchases in turn; if one stays open, choose among all patterns if these are few."""
    state = _told(_go_through(whole_numbers, state, watch), whole_numbers, watch)
    listed = all_columns(whole_numbers) if state.open(whole_numbers) else None
    if listed is None:
        return state
    priced = price_columns(whole_numbers, columns=listed, settled={}, rounds=1, watch=watch)
    if priced.part_prices:
        by_prices = certify_prices(whole_numbers, prices=priced.part_prices, target=state.cost(whole_numbers))
        state = _told(state.bounded(by_prices), whole_numbers, watch)
    near = _near_columns(whole_numbers, state, priced) or listed
    return _choose(whole_numbers, state, near, CHOOSE_S, watch)


def _go_through(whole_numbers: WholeNumbers, state: _State, watch: Watch) -> _State:
    """Fill the purchases that cost less than the plan in hand, or rule them out by shares."""
    tour = Tour(
        whole_numbers=whole_numbers,
        cost=state.cost(whole_numbers),
        columns=columns_of(state.opened or (), whole_numbers=whole_numbers),
        certificates=list(state.certificates),
        watch=watch,
    )
    tour.run()
    for certificate in tour.certificates:
        _refuse_too_little(certificate)
    toured = replace(state, opened=tour.opened or state.opened, ruled_out=tour.ruled_out)
    if tour.least <= state.least:
        return toured
    return replace(toured, certificates=tour.fewest_certificates(), least=tour.least)


def _cheaper(whole_numbers: WholeNumbers, state: _State, opened: tuple[OpenedStick, ...] | None) -> _State:
    """Keep the cheaper of two plans."""
    cheaper = opened is not None and cost_of(opened, whole_numbers=whole_numbers) < state.cost(whole_numbers)
    return replace(state, opened=opened) if cheaper else state


def _near_columns(whole_numbers: WholeNumbers, state: _State, priced: PricedColumns) -> tuple[Column, ...] | None:
    """All columns that a plan cheaper than the one in hand can hold; None where they are too many or not known."""
    if state.opened is None or not priced.part_prices:
        return None
    return all_columns(
        whole_numbers, priced=priced, gap=state.cost(whole_numbers) - least_by_prices(whole_numbers, priced=priced)
    )


def _choose(
    whole_numbers: WholeNumbers, state: _State, columns: Sequence[Column], share_s: float, watch: Watch
) -> _State:
    """Find the cheapest plan of these columns; if no others matter, a plan that is not found does not exist."""
    if not state.open(whole_numbers):
        return state
    opened, outcome = plan_of_columns(
        whole_numbers,
        columns=columns,
        settled={},
        least=state.least,
        below=state.cost(whole_numbers),
        watch=watch.at_most(share_s),
    )
    ruled_out = outcome in (Outcome.BEST, Outcome.IMPOSSIBLE)
    return replace(_cheaper(whole_numbers, state, opened), ruled_out=ruled_out)


def _refuse_too_little(certificate: StickCertificate) -> None:
    if certificate.cost is None:
        raise _no_plan(ruled_out=True)


def _refuse_too_short(by_length: StickCertificate, whole_numbers: WholeNumbers) -> None:
    if by_length.cost is not None:
        return
    held = sum(most * kind.limit for most, kind in zip(by_length.most, whole_numbers.kinds, strict=True))
    raise ImpossibleTimber(
        "Add sticks for {missing}: the stock holds at most {held} of {needed}.",
        field="stock",
        lengths={
            "needed": by_length.needed / UM_PER_MM,
            "held": held / UM_PER_MM,
            "missing": (by_length.needed - held) / UM_PER_MM,
        },
    )


def _no_plan(*, ruled_out: bool) -> ImpossibleTimber:
    if ruled_out:
        says = "All the stock cannot hold the pieces, however they are arranged: add a stick, or let one be bought."
    else:
        says = "No plan was found in this time, and whether there is one is not known: allow more time, or add a stick."
    return ImpossibleTimber(says, field="stock")
