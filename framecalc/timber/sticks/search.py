"""The search for the cheapest plan: by hand's rules first, by exact trial where the job is small, by the solver last.

What comes back is a plan in whole numbers, the strongest certificate found, and whether every cheaper plan was ruled
out.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import islice

from framecalc.errors import ImpossibleTimber
from framecalc.search.solver import Outcome
from framecalc.search.watch import SoFar, Watch
from framecalc.timber.sticks.bounds import StickCertificate, certify_by_counting, certify_by_length, certify_prices
from framecalc.timber.sticks.cheaper import Tour
from framecalc.timber.sticks.columns import (
    Column,
    PricedColumns,
    all_columns,
    columns_of,
    least_by_prices,
    plan_of_columns,
    price_columns,
)
from framecalc.timber.sticks.opening_sticks import open_greedily, open_purchase, rooms_of
from framecalc.timber.sticks.packing import GaveUp, pack_exactly, pack_snugly
from framecalc.timber.sticks.purchases import Purchase, purchases
from framecalc.timber.sticks.whole_numbers import UM_PER_MM, Counted, OpenedStick, Pattern, cost_of, money_of

FEW_PARTS = 14
"""Up to so many parts every purchase is tried exactly, without the solver."""

MOST_TRIES, PARTS_TRIED = 12, 2400
"""Purchases that are tried before the solver is asked, and parts that are packed in all of these tries."""

MOST_LENGTHS = 300
"""Different lengths beyond which the solver is not asked: it would not get far in the time of a job."""

MOST_ROUNDS = 400
"""Rounds of making patterns for the bound; they end by themselves much earlier. Measured."""

CHOOSE_S = 5.0
"""The time for choosing among patterns in whole numbers [s]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundPlan:
    """The best plan found, the cost that no plan beats, and whether every cheaper purchase is ruled out.

    `certificates` prove the least cost: no purchase that costs less covers all of them.
    """

    opened: tuple[OpenedStick, ...]
    certificates: tuple[StickCertificate, ...]
    least: int
    ruled_out: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _State:
    """A search in progress, perhaps without a plan yet."""

    opened: tuple[OpenedStick, ...] | None
    certificates: tuple[StickCertificate, ...]
    least: int
    ruled_out: bool = False

    def cost(self, counted: Counted) -> int:
        """What the plan in hand costs; more than any plan where there is none."""
        if self.opened is None:
            return 1 + sum(kind.cost * kind.limit for kind in counted.kinds)
        return cost_of(self.opened, counted=counted)

    def proved(self, counted: Counted) -> bool:
        """Whether the bound shows that no plan is cheaper."""
        return self.cost(counted) <= self.least

    def open(self, counted: Counted) -> bool:
        """Whether a cheaper plan is still possible."""
        return not self.ruled_out and not self.proved(counted)

    def bounded(self, certificate: StickCertificate) -> "_State":
        """With one more certificate, where it is stronger."""
        _refuse_too_little(certificate)
        least = certificate.cost or 0
        return replace(self, certificates=(certificate,), least=least) if least > self.least else self


def find_plan(counted: Counted, *, watch: Watch) -> FoundPlan:
    """Find the cheapest plan, or the best that the time allows, with a bound.

    Raises:
        ImpossibleTimber: the stock cannot hold the pieces, or no plan was found in the time.
    Source: derived.
    """
    by_length = certify_by_length(counted)
    _refuse_too_short(by_length, counted)
    start = _State(opened=open_greedily(counted), certificates=(by_length,), least=by_length.cost or 0)
    state = _told(start, counted, watch)
    if state.open(counted):
        state = _told(_try_purchases(counted, by_length, state, watch), counted, watch)
    if not state.proved(counted):
        state = _told(state.bounded(certify_by_counting(counted, target=state.cost(counted))), counted, watch)
    if not state.proved(counted) and not watch.over and len(counted.counts) <= MOST_LENGTHS:
        state = _ask_solver(counted, state, watch)
    if state.opened is None:
        raise _no_plan(ruled_out=state.ruled_out or state.proved(counted))
    return FoundPlan(opened=state.opened, certificates=state.certificates, least=state.least, ruled_out=state.ruled_out)


def _told(state: _State, counted: Counted, watch: Watch) -> _State:
    """Tell the watch how far the search is, and go on with the state as it is."""
    least_money, least_sticks = money_of(state.least, counted=counted)
    money, sticks = (None, None) if state.opened is None else money_of(state.cost(counted), counted=counted)
    watch.tell(SoFar(money=money, sticks=sticks, least_money=least_money, least_sticks=least_sticks))
    return state


def _try_purchases(counted: Counted, by_length: StickCertificate, state: _State, watch: Watch) -> _State:
    """Try the cheapest purchases in turn; the first that can be packed is the best, if all before it cannot be."""
    tries = purchases(counted.kinds, most=by_length.most, needed=by_length.needed, below=state.cost(counted))
    complete, enough = True, min(MOST_TRIES, 1 + PARTS_TRIED // sum(counted.counts))
    for number, (_, purchase) in enumerate(islice(tries, enough + 1)):
        if not purchase or number == enough or watch.over:
            return state
        packed, exact = _pack(counted, purchase)
        if packed is not None:
            opened = open_purchase(purchase, packed=packed, counted=counted)
            return replace(state, opened=opened, ruled_out=complete)
        complete = complete and exact
    return replace(state, ruled_out=complete)


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
    """Go through the purchases that are cheaper; if one stays open, choose among all patterns, where these are few."""
    state = _told(_go_through(counted, state, watch), counted, watch)
    listed = all_columns(counted) if state.open(counted) else None
    if listed is None:
        return state
    priced = price_columns(counted, columns=listed, settled={}, rounds=1, watch=watch)
    if priced.part_prices:
        by_prices = certify_prices(counted, prices=priced.part_prices, target=state.cost(counted))
        state = _told(state.bounded(by_prices), counted, watch)
    near = _near_columns(counted, state, priced) or listed
    return _choose(counted, state, near, CHOOSE_S, watch)


def _go_through(counted: Counted, state: _State, watch: Watch) -> _State:
    """Fill the purchases that cost less than the plan in hand, or rule them out by shares."""
    tour = Tour(
        counted=counted,
        cost=state.cost(counted),
        columns=columns_of(state.opened or (), counted=counted),
        certificates=list(state.certificates),
        watch=watch,
    )
    tour.run()
    for certificate in tour.certificates:
        _refuse_too_little(certificate)
    toured = replace(state, opened=tour.opened or state.opened)
    if tour.least <= state.least:
        return toured
    return replace(toured, certificates=tour.fewest_certificates(), least=tour.least)


def _cheaper(counted: Counted, state: _State, opened: tuple[OpenedStick, ...] | None) -> _State:
    """Keep the cheaper of two plans."""
    cheaper = opened is not None and cost_of(opened, counted=counted) < state.cost(counted)
    return replace(state, opened=opened) if cheaper else state


def _near_columns(counted: Counted, state: _State, priced: PricedColumns) -> tuple[Column, ...] | None:
    """All columns that a plan cheaper than the one in hand can hold; None where they are too many or not known."""
    if state.opened is None or not priced.part_prices:
        return None
    return all_columns(counted, priced=priced, gap=state.cost(counted) - least_by_prices(counted, priced=priced))


def _choose(counted: Counted, state: _State, columns: Sequence[Column], share_s: float, watch: Watch) -> _State:
    """Find the cheapest plan of these columns; where they are all that count, one not found does not exist."""
    if not state.open(counted):
        return state
    opened, outcome = plan_of_columns(
        counted,
        columns=columns,
        settled={},
        least=state.least,
        below=state.cost(counted),
        watch=watch.at_most(share_s),
    )
    ruled_out = outcome in (Outcome.BEST, Outcome.IMPOSSIBLE)
    return replace(_cheaper(counted, state, opened), ruled_out=ruled_out)


def _refuse_too_little(certificate: StickCertificate) -> None:
    if certificate.cost is None:
        raise _no_plan(ruled_out=True)


def _refuse_too_short(by_length: StickCertificate, counted: Counted) -> None:
    if by_length.cost is not None:
        return
    held = sum(most * kind.limit for most, kind in zip(by_length.most, counted.kinds, strict=True))
    raise ImpossibleTimber(
        "The pieces with their saw cuts take {needed}, and all the stock holds at most {held} of that: "
        "add sticks for {missing}, or let one be bought.",
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
