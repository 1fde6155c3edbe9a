"""What is cheaper than the plan in hand: each purchase is filled, ruled out by shares, or left open.

The purchases that the shares so far allow are tried by their price; of those at one price the roomiest comes
first, since it is the easiest to fill. Shares that rule one out are kept: they usually rule out the next ones too.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import groupby

from framecalc.search.watch import Watch
from framecalc.timber.sticks.bounds import StickCertificate, certify_against
from framecalc.timber.sticks.columns import Column, PricedColumns
from framecalc.timber.sticks.filling import UNCUT_UM, fill, given_sticks, price_given, prices_in_costs
from framecalc.timber.sticks.purchases import Purchase, purchases
from framecalc.timber.sticks.whole_numbers import OpenedStick, WholeNumbers, cost_of

ROOMY_UM = 1500
"""Room for each stick that makes a purchase easy to fill. Measured: with half of it one needs luck."""


@dataclass(slots=True, kw_only=True)
class Tour:
    """A tour of what is cheaper than a plan in hand of this cost, with patterns to start from and the shares so far.

    `opened` is the best plan found, if there is one. `left_open` are the purchases tried without success; `open_costs`
    are the costs of all that stay open.
    """

    whole_numbers: WholeNumbers
    cost: int
    columns: Iterable[Column]
    certificates: list[StickCertificate]
    watch: Watch
    opened: tuple[OpenedStick, ...] | None = None
    left_open: set[Purchase] = field(default_factory=set)
    open_costs: list[int] = field(default_factory=list)

    @property
    def least(self) -> int:
        """What no plan beats: the cost of the plan in hand, or of the cheapest purchase that stays open."""
        return min([self.cost, *self.open_costs])

    def run(self) -> None:
        """Take the roomy purchases first, for a good plan in hand, then all that are cheaper than it."""
        self._pass(roomy=True)
        self.open_costs = []
        self._pass(roomy=False)

    def _pass(self, *, roomy: bool) -> None:
        """Take one price after another; once time is over, the cheapest purchase that is left stays open."""
        for _, alike in groupby(
            self._allowed_by(self.certificates[0]), key=lambda each: each[0] // self.whole_numbers.weight
        ):
            for cost, purchase in sorted(alike, key=lambda each: -self._spare_um(each[1])):
                if self._counts(cost, purchase) and (not roomy or self._is_roomy(purchase)):
                    self._take(cost, purchase)
            if self.open_costs and self.watch.over:
                return

    def _counts(self, cost: int, purchase: Purchase) -> bool:
        """Whether it is cheaper than the plan in hand, and not ruled out."""
        return cost < self.cost and all(certificate.covers(purchase) for certificate in self.certificates)

    def fewest_certificates(self) -> tuple[StickCertificate, ...]:
        """One certificate that shows by itself what no plan beats, or a few that rule out together what is cheaper."""
        alone = next((one for one in self.certificates if one.cost is None or one.cost >= self.least), None)
        if alone is not None:
            return (alone,)
        chosen = self._chosen(self.certificates[0])
        return min((chosen, *(self._chosen(first) for first in chosen[1:])), key=len)

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
        if not purchase or purchase in self.left_open or self.watch.over:
            self.open_costs.append(cost)
            return
        given = given_sticks(self.whole_numbers, purchase=purchase)
        priced = price_given(given, columns=self.columns, watch=self.watch)
        self.columns = priced.columns
        certificate = self._against(purchase, given, priced)
        if certificate is not None:
            self.certificates.append(certificate)
            return
        half = self.watch.at_most(self.watch.remaining_s / 2)
        opened = None if priced.uncut_um > UNCUT_UM else fill(given, priced=priced, watch=half)
        if opened is None:
            self.open_costs.append(cost)
            self.left_open.add(purchase)
        else:
            self.opened, self.cost = opened, cost_of(opened, whole_numbers=self.whole_numbers)

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
