"""Groups of members that may share boards: their common problem, and what each group gets of the answer.

Only boards that are milled long are shared: a board that is crosscut first for one section would be cut for all.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal

from framecalc.plan.timber.begun import sharing_stock
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.stock import StockOffer
from framecalc.records import Record, cached_property, replace
from framecalc.timber.boards import Board, strips_across
from framecalc.timber.common.check import SharedWidth, faults_of_sharing
from framecalc.timber.common.plan import CommonPlan, RippedStock, least_fill_ratio
from framecalc.timber.common.problem import CommonProblem, CommonStock, Rip, alone, taken_mm, ways_to_rip
from framecalc.timber.sticks.answer import StickPlan
from framecalc.timber.sticks.problem import Stock


class SharingGroups(Record, dict=True):
    """Groups that take from the same boards, in the order in which their strips are ripped."""

    groups: tuple[TimberGroup, ...]
    kerf_mm: float
    rips: Mapping[str, tuple[Rip, ...]]

    @cached_property
    def problem(self) -> CommonProblem:
        """Their common problem."""
        stock = (CommonStock(id=key, rips=rips) for key, rips in self.rips.items())
        return CommonProblem(sections=tuple(group.searched for group in self.groups), stock=tuple(stock))

    @cached_property
    def key(self) -> str:
        """The key of its answer."""
        return self.problem.key

    @property
    def is_of_boards(self) -> bool:
        """Whether they take nothing but boards."""
        return all(self._board(key) for key in self.rips)

    def place_of(self, group: TimberGroup) -> int:
        """The place of a group among them; -1 for another."""
        return next((place for place, one in enumerate(self.groups) if one.section == group.section), -1)

    def allotted(self, place: int, common: CommonPlan) -> TimberGroup:
        """A group with the stock that it gets, and no other."""
        group = self.groups[place]
        offers = {offer.stock.id: offer for offer in self._offers(place, common)}
        stock = tuple(offer.stock for offer in offers.values())
        return replace(group.with_stock(stock), offers=offers, is_allotted=True)

    def faults(self, plans: Sequence[StickPlan]) -> tuple[str, ...]:
        """The faults that an independent check finds in the plans of all of them; usually none."""
        return faults_of_sharing(plans, boards={key: self._shared(key) for key in self.rips if self._board(key)})

    def least_fill_ratio(self, count: int) -> float:
        """The least that the strips with their saw cuts fill of so many boards; 0 where boards differ, or sticks serve.

        Source: derived.
        """
        (key, *others) = self.rips
        if others or self._board(key) is None:
            return 0.0
        first = self._first(key)
        return least_fill_ratio(
            self.problem,
            strips_mm=[group.offers[key].strip_mm + self.kerf_mm for group in self.groups],
            room_mm=first.width_mm - 2 * first.edge_mm + self.kerf_mm,
            count=count,
        )

    def _offers(self, place: int, common: CommonPlan) -> Iterator[StockOffer]:
        """The stock that a group gets, as it gets it; boards and sticks are numbered through."""
        next_number: dict[str, int] = {}
        for entry, ripped in enumerate(common.ripped, start=1):
            number = next_number.get(ripped.id, self._first_number(ripped.id))
            next_number[ripped.id] = number + ripped.count
            if ripped.rip[place]:
                yield self._offer(place, ripped, f"{ripped.id}.{entry}", number)

    def _offer(self, place: int, ripped: RippedStock, new_id: str, number: int) -> StockOffer:
        offer = self.groups[place].offers[ripped.id]
        is_rest = any(ripped.rip[:place])
        stock = replace(offer.stock, id=new_id, count=ripped.count, first=number)
        if offer.board is None or (not is_rest and not any(ripped.rip[place + 1 :])):
            return replace(offer, stock=stock)
        board = self._left(offer.board, ripped, place)
        after_mm = self._left(offer.board, ripped, place + 1).width_mm
        goes_on = any(ripped.rip[place + 1 :])
        return replace(
            offer,
            stock=replace(_paid(stock, is_rest), strips=self._strips(place, ripped, board)),
            board=board,
            is_rest=is_rest,
            passes_mm=after_mm if goes_on else 0.0,
        )

    def _strips(self, place: int, ripped: RippedStock, board: Board) -> int:
        """As many strips as are allotted; for the last group as many as there are."""
        if any(ripped.rip[place + 1 :]):
            return ripped.rip[place]
        first = self._first(ripped.id)
        strip_mm = self.groups[place].offers[ripped.id].strip_mm
        return strips_across(
            width_mm=board.width_mm - first.edge_mm, edge_mm=0.0, strip_mm=strip_mm, kerf_mm=self.kerf_mm
        )

    def _left(self, board: Board, ripped: RippedStock, place: int) -> Board:
        """What the groups before a place leave of a board: one edge is lost to the first cut, the other is still on."""
        before = ripped.rip[:place]
        if not any(before):
            return board
        widths_mm = [offer.strip_mm if (offer := one.offers.get(ripped.id)) else None for one in self.groups[:place]]
        used_mm = taken_mm(before, strips_mm=widths_mm, kerf_mm=self.kerf_mm)
        return replace(board, width_mm=board.width_mm - board.edge_mm - used_mm, edge_mm=0.0)

    def _first_number(self, key: str) -> int:
        """The number on the first board or stick of an entry: above 1 where those before are begun."""
        return next(group.offers[key].stock.first for group in self.groups if key in group.offers)

    def _first(self, key: str) -> Board:
        board = self._board(key)
        assert board is not None
        return board

    def _board(self, key: str) -> Board | None:
        return next((group.offers[key].board for group in self.groups if key in group.offers), None)

    def _shared(self, key: str) -> SharedWidth:
        board = self._first(key)
        return SharedWidth(
            width_mm=board.width_mm,
            edge_mm=board.edge_mm,
            kerf_mm=self.kerf_mm,
            count=board.count,
            strips_mm=[offer.strip_mm if (offer := one.offers.get(key)) else None for one in self.groups],
        )


def sharing_of(groups: Sequence[TimberGroup], *, kerf_mm: float) -> tuple[SharingGroups, ...]:
    """Find the groups that may share boards.

    Source: derived.
    """
    return tuple(
        SharingGroups(groups=together, kerf_mm=kerf_mm, rips=rips)
        for together in sharing_stock(groups)
        if (rips := _rips(together, kerf_mm=kerf_mm))
    )


def _rips(groups: tuple[TimberGroup, ...], *, kerf_mm: float) -> dict[str, tuple[Rip, ...]]:
    """The ways to rip all stock of some groups; nothing where they share no board, or there are too many ways."""
    keys = dict.fromkeys(key for group in groups for key in group.offers)
    shared = [key for key in keys if _is_shared(key, groups)]
    rips = {key: _ways(key, groups, kerf_mm=kerf_mm, is_shared=key in shared) for key in keys}
    return rips if shared and all(rips.values()) else {}


def _is_shared(key: str, groups: Iterable[TimberGroup]) -> bool:
    """Whether several groups may rip a board, and none crosscuts it first."""
    offers = [group.offers[key] for group in groups if key in group.offers]
    return len(offers) > 1 and all(offer.board and not offer.crosscuts for offer in offers)


def _ways(key: str, groups: Sequence[TimberGroup], *, kerf_mm: float, is_shared: bool) -> tuple[Rip, ...]:
    offers = [group.offers.get(key) for group in groups]
    board = next((offer.board for offer in offers if offer and offer.board), None)
    if board is None or not is_shared:
        return alone([offer.stock.strips if offer else 0 for offer in offers])
    strips_mm = [offer.strip_mm if offer else None for offer in offers]
    return ways_to_rip(width_mm=board.width_mm, edge_mm=board.edge_mm, strips_mm=strips_mm, kerf_mm=kerf_mm)


def _paid(stock: Stock, is_rest: bool) -> Stock:
    """A rest is paid for already."""
    return replace(stock, price=Decimal(0), in_hand=True) if is_rest else stock
