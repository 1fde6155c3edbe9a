"""The search for the cheapest plan: by hand's rules first, by exact trial where the job is small, by the solver last.

What comes back is a plan in whole numbers, the strongest certificate found, and whether every cheaper plan was ruled
out.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import islice

from framecalc.errors import ImpossibleTimber
from framecalc.sticks.bounds import (
    Certificate,
    Measure,
    certify_by_counting,
    certify_by_length,
    certify_prices,
    stronger,
)
from framecalc.sticks.columns import Column, Priced, all_columns, columns_of, plan_of_columns, price_columns
from framecalc.sticks.counted import UM_PER_MM, Counted, Opened, Pattern, cost_of, money_of
from framecalc.sticks.diving import dive, recut
from framecalc.sticks.opening import open_greedily, open_purchase, rooms_of
from framecalc.sticks.packing import GaveUp, pack_exactly, pack_snugly
from framecalc.sticks.purchases import Purchase, purchases
from framecalc.sticks.solver import Outcome
from framecalc.sticks.watch import SoFar, Watch

FEW_PARTS = 14
"""Up to so many parts every purchase is tried exactly, without the solver."""

MOST_TRIES, PARTS_TRIED = 12, 2400
"""Purchases that are tried before the solver is asked, and parts that are packed in all of these tries."""

MOST_LENGTHS = 300
"""Different lengths beyond which the solver is not asked: it would not get far in the time of a job."""

FIRST_ROUNDS, MOST_ROUNDS = 25, 400
"""Rounds of making patterns, for a plan and for the bound; the latter end by themselves much earlier. Measured."""

FIRST_CHOOSE_S, CHOOSE_S = 0.5, 5.0
"""The time for choosing among patterns in whole numbers, at first and at last [s]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """The best plan found, the bound on all plans, and whether every cheaper plan was tried and ruled out."""

    opened: tuple[Opened, ...]
    certificate: Certificate
    ruled_out: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _State:
    """A search under way: no plan may be in hand yet."""

    opened: tuple[Opened, ...] | None
    certificate: Certificate
    ruled_out: bool = False

    def cost(self, counted: Counted) -> int:
        """What the plan in hand costs; more than any plan where there is none."""
        if self.opened is None:
            return 1 + sum(kind.cost * kind.limit for kind in counted.kinds)
        return cost_of(self.opened, counted=counted)

    def proved(self, counted: Counted) -> bool:
        """Whether the bound shows that no plan is cheaper."""
        return self.cost(counted) <= (self.certificate.cost or 0)

    def open(self, counted: Counted) -> bool:
        """Whether a cheaper plan is still possible."""
        return not self.ruled_out and not self.proved(counted)


def find_plan(counted: Counted, *, watch: Watch) -> Found:
    """Find the cheapest plan, or the best that the time allows, with a bound.

    Raises:
        ImpossibleTimber: the stock cannot hold the pieces, or no plan was found in the time.
    Source: derived.
    """
    certificate = certify_by_length(counted)
    _refuse_too_little(certificate, counted)
    state = _told(_State(opened=open_greedily(counted), certificate=certificate), counted, watch)
    if state.open(counted):
        state = _told(_try_purchases(counted, state, watch), counted, watch)
    if not state.proved(counted):
        by_counting = certify_by_counting(counted, target=state.cost(counted))
        state = _told(replace(state, certificate=stronger(state.certificate, by_counting)), counted, watch)
    if not state.proved(counted) and not watch.over and len(counted.counts) <= MOST_LENGTHS:
        state = _ask_solver(counted, state, watch)
    if state.opened is None:
        raise _no_plan(ruled_out=state.ruled_out)
    return Found(opened=state.opened, certificate=state.certificate, ruled_out=state.ruled_out)


def _told(state: _State, counted: Counted, watch: Watch) -> _State:
    """Tell the watch how far the search is, and go on with the state as it is."""
    least_money, least_sticks = money_of(state.certificate.cost or 0, counted=counted)
    money, sticks = (None, None) if state.opened is None else money_of(state.cost(counted), counted=counted)
    watch.tell(SoFar(money=money, sticks=sticks, least_money=least_money, least_sticks=least_sticks))
    return state


def _try_purchases(counted: Counted, state: _State, watch: Watch) -> _State:
    """Try the cheapest purchases in turn; the first that can be packed is the best, if all before it cannot be."""
    most, needed = state.certificate.most, state.certificate.needed
    tries = purchases(counted.kinds, most=most, needed=needed, below=state.cost(counted))
    complete, enough = True, min(MOST_TRIES, 1 + PARTS_TRIED // sum(counted.counts))
    for number, (_, purchase) in enumerate(islice(tries, enough + 1)):
        if not purchase or number == enough or watch.over:
            return state
        packed, exact = _pack(counted, purchase)
        if packed is not None:
            opened = open_purchase(purchase, packed=packed, counted=counted)
            return _State(opened=opened, certificate=state.certificate, ruled_out=complete)
        complete = complete and exact
    return _State(opened=state.opened, certificate=state.certificate, ruled_out=complete)


def _pack(counted: Counted, purchase: Purchase) -> tuple[tuple[Pattern, ...] | None, bool]:
    """Pack a purchase; whether the answer is exact."""
    rooms = rooms_of(purchase, counted=counted)
    if sum(counted.counts) <= FEW_PARTS:
        try:
            return pack_exactly(counted.lengths_um, counts=counted.counts, rooms_um=rooms), True
        except GaveUp:
            pass
    return pack_snugly(counted.lengths_um, counts=counted.counts, rooms_um=rooms), False


def _ask_solver(counted: Counted, state: _State, watch: Watch) -> _State:
    """Bound by the prices of the linear programme, and look for a cheaper plan among its patterns."""
    listed = all_columns(counted)
    if listed is None:
        return _ask_with_some_columns(counted, state, watch)
    priced = price_columns(counted, columns=listed, settled={}, rounds=1, watch=watch)
    state = _told(_bounded(counted, state, priced), counted, watch)
    state = _choose(counted, state, _near_columns(counted, state, priced) or listed, CHOOSE_S, watch)
    state = _told(state, counted, watch)
    return _recut(counted, state, watch)


def _ask_with_some_columns(counted: Counted, state: _State, watch: Watch) -> _State:
    """First a few patterns and plans from them, then more patterns for the bound, then all that could still matter."""
    start = columns_of(state.opened or (), counted=counted)
    priced = price_columns(counted, columns=start, settled={}, rounds=FIRST_ROUNDS, watch=watch)
    if state.open(counted):
        dived = dive(counted, columns=priced.columns, below=state.cost(counted), watch=watch)
        state = _told(_cheaper(counted, state, dived), counted, watch)
    chosen = _choose(counted, state, priced.columns, FIRST_CHOOSE_S, watch)
    state = _told(replace(chosen, ruled_out=state.ruled_out), counted, watch)
    if not state.proved(counted):
        priced = price_columns(counted, columns=priced.columns, settled={}, rounds=MOST_ROUNDS, watch=watch)
        state = _told(_bounded(counted, state, priced), counted, watch)
        state = _told(_recut(counted, state, watch), counted, watch)
    near = _near_columns(counted, state, priced)
    return state if near is None else _choose(counted, state, near, CHOOSE_S, watch)


def _recut(counted: Counted, state: _State, watch: Watch) -> _State:
    """Cut some sticks of the plan in hand anew, where it is not known to be the best."""
    if state.opened is None or not state.open(counted):
        return state
    return _cheaper(counted, state, recut(counted, state.opened, least=state.certificate.cost or 0, watch=watch))


def _bounded(counted: Counted, state: _State, priced: Priced) -> _State:
    """Add the bound that the prices give."""
    if not priced.part_prices:
        return state
    by_prices = certify_prices(counted, prices=priced.part_prices, target=state.cost(counted))
    certificate = stronger(state.certificate, by_prices)
    _refuse_too_little(certificate, counted)
    return replace(state, certificate=certificate)


def _cheaper(counted: Counted, state: _State, opened: tuple[Opened, ...] | None) -> _State:
    """Keep the cheaper of two plans."""
    cheaper = opened is not None and cost_of(opened, counted=counted) < state.cost(counted)
    return replace(state, opened=opened) if cheaper else state


def _near_columns(counted: Counted, state: _State, priced: Priced) -> tuple[Column, ...] | None:
    """All columns that a plan cheaper than the one in hand can hold; None where they are too many or not known."""
    if state.opened is None or not priced.part_prices:
        return None
    fractions = sum(price * count for price, count in zip(priced.part_prices, counted.counts, strict=True))
    return all_columns(counted, priced=priced, gap=state.cost(counted) - fractions)


def _choose(counted: Counted, state: _State, columns: Sequence[Column], share_s: float, watch: Watch) -> _State:
    """Find the cheapest plan of these columns; where they are all that count, one not found does not exist."""
    if not state.open(counted):
        return state
    opened, outcome = plan_of_columns(
        counted,
        columns=columns,
        settled={},
        least=state.certificate.cost or 0,
        below=state.cost(counted),
        watch=watch.at_most(share_s),
    )
    ruled_out = outcome in (Outcome.BEST, Outcome.IMPOSSIBLE)
    return replace(_cheaper(counted, state, opened), ruled_out=ruled_out)


def _refuse_too_little(certificate: Certificate, counted: Counted) -> None:
    if certificate.cost is not None:
        return
    if certificate.measure is not Measure.LENGTH:
        raise _no_plan(ruled_out=True)
    held = sum(most * kind.limit for most, kind in zip(certificate.most, counted.kinds, strict=True))
    raise ImpossibleTimber(
        "The pieces with their saw cuts take {needed}, and all the stock holds at most {held} of that: "
        "add sticks for {missing}, or let one be bought.",
        field="stock",
        lengths={
            "needed": certificate.needed / UM_PER_MM,
            "held": held / UM_PER_MM,
            "missing": (certificate.needed - held) / UM_PER_MM,
        },
    )


def _no_plan(*, ruled_out: bool) -> ImpossibleTimber:
    if ruled_out:
        says = "All the stock cannot hold the pieces, however they are arranged: add a stick, or let one be bought."
    else:
        says = "No plan was found in this time, and whether there is one is not known: allow more time, or add a stick."
    return ImpossibleTimber(says, field="stock")
