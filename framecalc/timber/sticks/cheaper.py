"""What is cheaper than the plan in hand: each purchase is filled, ruled out by shares, or left open.

The purchases that the shares so far allow are tried by their price; of those at one price the roomiest comes
first, since it is the easiest to fill. Shares that rule one out are kept: they usually rule out the next ones too.
What stays open is tried again, each time by other choices, until the time is up.
"""

from collections.abc import Iterable, Iterator
from itertools import count, groupby
from random import Random

from framecalc.records import Mutable, field
from framecalc.search.solver import Outcome
from framecalc.search.watch import Watch
from framecalc.timber.sticks.bounds import StickCertificate, certify_against
from framecalc.timber.sticks.column_lists import Column, PricedColumns
from framecalc.timber.sticks.filling import UNCUT_UM, Filled, decide, fill, given_sticks, price_given, prices_in_costs
from framecalc.timber.sticks.purchases import Purchase, purchases
from framecalc.timber.sticks.whole_numbers import OpenedStick, WholeNumbers, cost_of

FULL_RATIO, TIGHT_RATIO = 0.002, 0.05
"""Where the sticks have no more room to spare than this share of the parts' length, the few patterns left are all
listed, and the solver decides: before anything is priced, and after."""

MOST_DECISIONS = 2
"""How often a purchase is decided in this way before it is filled by luck alone."""

ROOMY_UM = 1500
"""Room for each stick that makes a purchase easy to fill. Measured: with half of it one needs luck."""


class Tour(Mutable):
    """A search through the purchases that are cheaper than the plan in hand, until each is filled or ruled out.

    `cost` is that of the plan in hand, `opened` the plan itself once this search has found one. `columns` are patterns
    to start from, `certificates` the shares found so far. Of the purchases, `left_open` could not be filled, `searched`
    cannot hold the parts as the solver says, each with its cost; `untried` are the costs of those that time did not
    reach.
    """

    whole_numbers: WholeNumbers
    cost: int
    columns: Iterable[Column]
    certificates: list[StickCertificate]
    watch: Watch
    opened: tuple[OpenedStick, ...] | None = None
    left_open: dict[Purchase, int] = field(default_factory=dict)
    searched: dict[Purchase, int] = field(default_factory=dict)
    untried: list[int] = field(default_factory=list)

    @property
    def least(self) -> int:
        """What no plan beats, by shares: the cost of the plan in hand, or of the cheapest purchase they allow."""
        return min([self.cost, *self._open_costs(), *self.searched.values()])

    @property
    def ruled_out(self) -> bool:
        """Whether every cheaper purchase is ruled out, by shares or by the solver."""
        return self.cost <= min(self._open_costs(), default=self.cost)

    def run(self) -> None:
        """Take the roomy purchases first, for a good plan in hand, then all that are cheaper than it, then again."""
        self._pass(roomy=True)
        self.untried = []
        self._pass(roomy=False)
        self._try_again()

    def fewest_certificates(self) -> tuple[StickCertificate, ...]:
        """One certificate that shows by itself what no plan beats, or a few that rule out together what is cheaper."""
        alone = next((one for one in self.certificates if one.cost is None or one.cost >= self.least), None)
        if alone is not None:
            return (alone,)
        chosen = self._chosen(self.certificates[0])
        return min((chosen, *(self._chosen(first) for first in chosen[1:])), key=len)

    def _open_costs(self) -> list[int]:
        return [*self.left_open.values(), *self.untried]

    def _pass(self, *, roomy: bool) -> None:
        """Take one price after another; once time is over, the cheapest purchase that is left stays open."""
        for _, alike in groupby(
            self._allowed_by(self.certificates[0]), key=lambda each: each[0] // self.whole_numbers.weight
        ):
            for cost, purchase in sorted(alike, key=lambda each: -self._spare_um(each[1])):
                if self._counts(cost, purchase) and (not roomy or self._is_roomy(purchase)):
                    self._take(cost, purchase)
            if self.watch.over and self._open_costs():
                return

    def _try_again(self) -> None:
        """Fill what stays open by other choices, the cheapest and roomiest first, until time is over."""
        for attempt in count(1):
            cheaper = [(cost, purchase) for purchase, cost in self.left_open.items() if cost < self.cost]
            for cost, purchase in sorted(cheaper, key=lambda each: (each[0], -self._spare_um(each[1]))):
                if self.watch.over:
                    return
                if self._counts(cost, purchase) and purchase in self.left_open:
                    del self.left_open[purchase]
                    self._fill(cost, purchase, attempt)
            if not cheaper:
                return

    def _counts(self, cost: int, purchase: Purchase) -> bool:
        """Whether it is cheaper than the plan in hand, and not ruled out."""
        return cost < self.cost and all(certificate.covers(purchase) for certificate in self.certificates)

    def _chosen(self, first: StickCertificate) -> tuple[StickCertificate, ...]:
        """This certificate, and others that rule out what it allows; all there are where these do not."""
        chosen = [first]
        waiting = [purchase for cost, purchase in self._allowed_by(first) if cost < self.least]
        while waiting:
            chosen.append(max(self.certificates, key=lambda one: sum(not one.covers(each) for each in waiting)))
            left = [purchase for purchase in waiting if chosen[-1].covers(purchase)]
            if len(left) == len(waiting):
                return tuple(self.certificates)
            waiting = left
        return tuple(chosen)

    def _allowed_by(self, first: StickCertificate) -> Iterator[tuple[int, Purchase]]:
        """The purchases that a certificate allows; an empty one for all that are not listed."""
        return purchases(self.whole_numbers.kinds, most=first.most, needed=first.needed, below=self.cost)

    def _take(self, cost: int, purchase: Purchase) -> None:
        """Fill this purchase, or find shares that rule it out, or leave it open."""
        if not purchase or self.watch.over:
            self.untried.append(cost)
        elif purchase not in self.left_open and purchase not in self.searched:
            self._fill(cost, purchase, attempt=0)

    def _fill(self, cost: int, purchase: Purchase, attempt: int) -> None:
        """Where next to nothing may be wasted, few patterns are left and decide; else prices come first, then luck."""
        given = given_sticks(self.whole_numbers, purchase=purchase)
        opened, outcome = self._decided(given, FULL_RATIO, attempt)
        if opened is None:
            priced = price_given(given, columns=self.columns, watch=self.watch)
            self.columns = priced.columns
            certificate = self._against(purchase, given, priced)
            if certificate is not None:
                self.certificates.append(certificate)
                return
            if outcome is not Outcome.IMPOSSIBLE:
                opened, outcome = self._filled(given, priced, attempt)
        self._note(cost, purchase, opened, outcome)

    def _note(self, cost: int, purchase: Purchase, opened: tuple[OpenedStick, ...] | None, outcome: Outcome) -> None:
        if opened is not None:
            self.opened, self.cost = opened, cost_of(opened, whole_numbers=self.whole_numbers)
        elif outcome is Outcome.IMPOSSIBLE:
            self.searched[purchase] = cost
        else:
            self.left_open[purchase] = cost

    def _decided(self, given: WholeNumbers, most_spare_ratio: float, attempt: int) -> Filled:
        """What the solver says of the whole list of patterns; nothing any more after a few attempts."""
        if attempt >= MOST_DECISIONS:
            return None, Outcome.NOTHING
        return decide(given, most_spare_um=round(most_spare_ratio * given.total_um), watch=self._half())

    def _filled(self, given: WholeNumbers, priced: PricedColumns, attempt: int) -> Filled:
        """Fill by luck, each time by other choices, or let the whole list of patterns decide where it is short."""
        opened, outcome = self._decided(given, TIGHT_RATIO, attempt)
        if opened is None and outcome is not Outcome.IMPOSSIBLE and priced.uncut_um <= UNCUT_UM:
            opened = fill(given, priced=priced, watch=self._half(), draw=Random(attempt) if attempt else None)
        return opened, outcome

    def _half(self) -> Watch:
        return self.watch.at_most(self.watch.remaining_s / 2)

    def _against(self, purchase: Purchase, given: WholeNumbers, priced: PricedColumns) -> StickCertificate | None:
        """Shares that rule a purchase out, if even the plan in fractions leaves something uncut."""
        if priced.uncut_um <= UNCUT_UM:
            return None
        prices = prices_in_costs(self.whole_numbers, given=given, priced=priced)
        return certify_against(self.whole_numbers, prices=prices, purchase=purchase)

    def _is_roomy(self, purchase: Purchase) -> bool:
        return self._spare_um(purchase) >= ROOMY_UM * sum(purchase)

    def _spare_um(self, purchase: Purchase) -> int:
        each = zip(self.whole_numbers.kinds, purchase, strict=False)
        return sum(count * sum(kind.rooms_um) for kind, count in each) - self.whole_numbers.total_um
