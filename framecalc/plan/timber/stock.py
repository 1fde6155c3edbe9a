"""The stock for one section of member: the sticks that serve it, the strips of the boards, the stock left out."""

from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal

from framecalc.errors import FrameCalcError, quoted
from framecalc.findings import Finding, Severity
from framecalc.plan.timber.profiles import mills_alike, states_a_section
from framecalc.plan.timber.stock_findings import left_out, mixed_woods, ripping_findings
from framecalc.project import Project
from framecalc.project.timber import Stock as TypedStock
from framecalc.records import Record, cached_property, replace
from framecalc.timber.boards import Allowances, Board, stock_of_board
from framecalc.timber.sticks.problem import Stock, Stretch
from framecalc.timber.sticks.refusals import refuse_stock
from framecalc.timber.stops import planing_cautions
from framecalc.timber.thicknessing import (
    MillingChoice,
    Order,
    choose_milling,
    crosscuts_mm,
    equal_part_mm,
    milling_findings,
    parts_of,
)
from framecalc.units import TOLERANCE_MM

BOUGHT = "bought moulding"
"""What a bought moulding without a name is called."""


class MemberSection(Record):
    """The section of members that are cut from one stick at one setting of the saw.

    `wood` is in small letters, and blank where no frame names one. `sides` and their slope give the mitre.
    `profile` tells apart what sticks are milled to that have their rabbet or profile already; blank while plain.
    `moulding` is what a bought one is called; `stick_mm` is what its sticks are sold as, or 0, at
    `stick_price`, and `repeat_mm` is how much more of one each piece may take for its pattern.
    """

    wood: str
    width_mm: float
    thickness_mm: float
    sides: int = 4
    slope_deg: float = 0.0
    profile: str = ""
    moulding: str = ""
    stick_mm: float = 0.0
    stick_price: Decimal = Decimal(0)
    repeat_mm: float = 0.0


class StockOffer(Record):
    """One entry of the stock that serves a section; of a board also the board itself and how it is milled.

    `strip_mm` is how wide a strip is ripped from it, `planed_mm` how thick it comes from the planer. `on_edge`: its
    thickness gives the width of the member, and its strips the thickness. `crosscuts` are where a bowed board is cut
    before it is milled: the saw cut in the middle, and what both ends lose to snipe and squaring; no piece lies there.
    `parts` are what these cuts make of the board, rough, or all of it. `is_rest`: other members had their strips of
    this board before. `passes_mm`: this width of it goes on to other members.
    """

    stock: Stock
    board: Board | None = None
    strip_mm: float = 0.0
    planed_mm: float = 0.0
    on_edge: bool = False
    milling: MillingChoice | None = None
    crosscuts: tuple[Stretch, ...] = ()
    parts: tuple[Stretch, ...] = ()
    is_rest: bool = False
    passes_mm: float = 0.0


Answer = tuple[StockOffer | None, tuple[Finding, ...]]
"""What one entry of the stock comes to: an offer or none, and what was found about it."""


def allowances_of(project: Project) -> Allowances:
    """The allowances of a rough strip over the member.

    Source: derived.
    """
    timber = project.timber
    return Allowances(
        width_mm=timber.width_allowance.mm,
        thickness_mm=timber.thickness_allowance.mm,
        length_mm=2 * timber.part_trim.mm,
        sanding_mm=timber.sanding.mm,
    )


def offers_for(
    section: MemberSection, *, project: Project, lengths_mm: Sequence[float], milled_to: str = ""
) -> tuple[tuple[StockOffer, ...], tuple[Finding, ...]]:
    """Find the typed stock that serves a section; stock that cannot be used is left out with a finding.

    Args:
        lengths_mm: of what must come from one stretch, the longest first [mm]: a part that is crosscut first holds the
            longest of them that it can.
        milled_to: what all members of the section have milled into their sticks, in words; blank where they differ.
    Source: derived.
    """
    counter = _Counter(project=project, section=section, lengths_mm=lengths_mm)
    names = told_apart([typed.name for typed in project.timber.stock])
    answers = [
        counter.answer(typed, name)
        for typed, name in zip(project.timber.stock, names, strict=True)
        if _serves(typed, section) and _has_right_profile(typed, milled_to)
    ]
    offers = tuple(offer for offer, _ in answers if offer is not None)
    found = [finding for _, found in answers for finding in found]
    offers += tuple(_sold_sticks(section, project))
    serving = {offer.stock.id for offer in offers}
    mixed = (
        ()
        if section.wood or section.moulding
        else mixed_woods(typed for typed in project.timber.stock if typed.id in serving)
    )
    return offers, (*found, *mixed)


def from_the_pattern(stock: Stock, repeat_mm: float) -> Stock:
    """A stick of a pattern that must meet at the corners: its start is not used, up to where the pattern begins.

    Source: derived.

    >>> from_the_pattern(Stock(name="ogee", length_mm=3000, trim_mm=10), 40).defects
    (Stretch(start_mm=0.0, end_mm=50),)
    """
    if not repeat_mm:
        return stock
    start = Stretch(start_mm=0.0, end_mm=stock.trim_mm + repeat_mm)
    return replace(stock, defects=(start, *stock.defects))


def told_apart(names: Sequence[str]) -> list[str]:
    """Number repeated names, so that each is unique on a chalked label.

    Source: derived.

    >>> told_apart(["ash", "oak", "ash", "ash"])
    ['ash', 'oak', 'ash (2)', 'ash (3)']
    """
    told: list[str] = []
    for name in names:
        number, free = 1, name
        while free in told or (number > 1 and free in names):
            number += 1
            free = name + f" ({number})"
        told.append(free)
    return told


class _Counter(Record, dict=True):
    """Turns the entries of the stock into offers for one section."""

    project: Project
    section: MemberSection
    lengths_mm: Sequence[float]

    @cached_property
    def allowances(self) -> Allowances:
        """What a rough strip has over the member."""
        return allowances_of(self.project)

    def answer(self, typed: TypedStock, name: str) -> Answer:
        """A stick as it is; a board with the strips it yields, lying flat or else on edge."""
        if typed.width is None:
            return self._tried(typed, lambda: self._stick(typed, name))
        flat = self._tried(typed, lambda: self._board(typed, name, on_edge=False))
        if flat[0] is not None or typed.thickness is None:
            return flat
        on_edge = self._tried(typed, lambda: self._board(typed, name, on_edge=True))
        return flat if on_edge[0] is None else on_edge

    def _tried(self, typed: TypedStock, see: Callable[[], Answer]) -> Answer:
        try:
            return see()
        except FrameCalcError as refusal:
            return None, (left_out(refusal, typed),)

    def _stick(self, typed: TypedStock, name: str) -> Answer:
        stock = Stock(
            name=name,
            length_mm=typed.length.mm,
            count=typed.count,
            price=typed.price or Decimal(0),
            in_hand=typed.in_hand,
            trim_mm=self.project.shop.end_trim.mm,
            defects=_defects(typed),
            id=typed.id,
        )
        refuse_stock(stock)
        return StockOffer(stock=stock), ()

    def _board(self, typed: TypedStock, name: str, *, on_edge: bool) -> Answer:
        allowances, flat = self.allowances, (self.section.thickness_mm, self.section.width_mm)
        thickness_mm, width_mm = flat[::-1] if on_edge else flat
        board = self._rough(typed, name, thickness_mm)
        milling = self._milling(board, thickness_mm) if typed.thickness else None
        found = tuple(self._milling_findings(typed, board, milling))
        if any(finding.severity is Severity.STOP for finding in found):
            return None, found
        strip_mm = width_mm + allowances.width_mm
        stock = stock_of_board(board, strip_mm=strip_mm, kerf_mm=self.project.shop.kerf.mm)
        refuse_stock(stock)
        crosscuts = tuple(self._crosscuts(board, milling))
        offer = StockOffer(
            stock=replace(stock, id=typed.id, defects=(*stock.defects, *crosscuts, *self._stub(board, milling))),
            board=board,
            strip_mm=strip_mm,
            planed_mm=thickness_mm + allowances.sanding_mm,
            on_edge=on_edge,
            milling=milling,
            crosscuts=crosscuts,
            parts=self._parts(board, milling),
        )
        ripped = ripping_findings(board, key=typed.id, strip_mm=strip_mm, planed_mm=offer.planed_mm, on_edge=on_edge)
        return offer, (*found, *ripped)

    def _rough(self, typed: TypedStock, name: str, thickness_mm: float) -> Board:
        allowances, timber = self.allowances, self.project.timber
        usual_mm = thickness_mm + allowances.thickness_mm + allowances.sanding_mm
        return Board(
            name=name,
            species=typed.species,
            thickness_mm=typed.thickness.mm if typed.thickness else usual_mm,
            width_mm=typed.width.mm if typed.width else 0.0,
            length_mm=typed.length.mm,
            count=typed.count,
            price=typed.price or Decimal(0),
            priced_by=typed.priced_by,
            in_hand=typed.in_hand,
            bow_mm=typed.bow.mm,
            twist_mm=typed.twist.mm,
            edge_mm=timber.edge.mm,
            trim_mm=self.project.shop.end_trim.mm,
            defects=_defects(typed),
        )

    def _milling(self, board: Board, thickness_mm: float) -> MillingChoice:
        """The milling for the longest piece, or for a shorter one if the board is too thin."""
        choices = [self._milling_for(length_mm, board, thickness_mm) for length_mm in self.lengths_mm]
        return next((choice for choice in choices if choice.order is not Order.NEITHER), choices[0])

    def _milling_for(self, length_mm: float, board: Board, thickness_mm: float) -> MillingChoice:
        """Parts hold the piece between what their ends lose, and are no shorter than the machines hold."""
        allowances, timber, kerf_mm = self.allowances, self.project.timber, self.project.shop.kerf.mm
        ends_mm, clean_up_mm = max(allowances.length_mm, 2 * board.trim_mm), timber.clean_up.mm
        part_mm = equal_part_mm(
            board,
            needed_mm=thickness_mm + allowances.sanding_mm,
            least_mm=max(length_mm + ends_mm, timber.shortest_machined.mm) + kerf_mm,
            clean_up_mm=clean_up_mm,
        )
        return choose_milling(
            board,
            thickness_mm=thickness_mm,
            part_mm=part_mm,
            allowances=allowances,
            clean_up_mm=clean_up_mm,
            shortest_mm=part_mm,
        )

    def _milling_findings(self, typed: TypedStock, board: Board, milling: MillingChoice | None) -> Iterator[Finding]:
        """The findings about milling the board, and about the order of its cuts."""
        path, named = f"timber.stock.{typed.id}", quoted(board.name) + ": "
        if milling is not None:
            for finding in milling_findings(milling):
                out = " It is left out of the plan." if milling.order is Order.NEITHER else ""
                yield replace(finding, sentence=named + finding.sentence + out, argument=f"{path}.thickness")
        machined_mm = board.length_mm if milling is None or milling.order is Order.LONG else milling.part_mm
        for finding in planing_cautions([machined_mm], shortest_mm=self.project.timber.shortest_machined.mm):
            yield replace(finding, sentence=named + _TOO_SHORT, argument=f"{path}.length")

    def _parts(self, board: Board, milling: MillingChoice | None) -> tuple[Stretch, ...]:
        part_mm = milling.part_mm if milling and milling.order is Order.CROSSCUT else board.length_mm
        return parts_of(board, part_mm=part_mm, kerf_mm=self.project.shop.kerf.mm)

    def _crosscuts(self, board: Board, milling: MillingChoice | None) -> Iterator[Stretch]:
        if milling is None or milling.order is not Order.CROSSCUT:
            return
        half_mm = max(self.project.shop.kerf.mm, 2 * TOLERANCE_MM) / 2
        lost_mm = half_mm + self.project.timber.part_trim.mm
        for at_mm in crosscuts_mm(board, part_mm=milling.part_mm, kerf_mm=2 * half_mm):
            start_mm, end_mm = max(0.0, at_mm - lost_mm), min(board.length_mm, at_mm + lost_mm)
            yield Stretch(start_mm=start_mm, end_mm=end_mm)

    def _stub(self, board: Board, milling: MillingChoice | None) -> Iterator[Stretch]:
        """A last part that is too short for planer and jointer: nothing is cut from it."""
        if milling is None or milling.order is not Order.CROSSCUT:
            return
        last = self._parts(board, milling)[-1]
        if last.length_mm < self.project.timber.shortest_machined.mm - TOLERANCE_MM:
            yield last


def _sold_sticks(section: MemberSection, project: Project) -> Iterator[StockOffer]:
    """The sticks that a bought moulding is sold in, as many as are needed."""
    if section.stick_mm:
        stock = Stock(
            name=section.moulding,
            length_mm=section.stick_mm,
            price=section.stick_price,
            trim_mm=project.shop.end_trim.mm,
            id=f"sold {section.moulding}",
        )
        yield StockOffer(stock=stock)


def _serves(typed: TypedStock, section: MemberSection) -> bool:
    """Whether an entry is of the wood and, for a milled stick, of the section; what is blank serves any.

    A bought moulding is cut from sticks of that moulding alone, and these serve nothing else.
    """
    if typed.moulding.casefold() != section.moulding.casefold():
        return False
    wood = typed.species.strip().casefold()
    if wood and section.wood and wood != section.wood:
        return False
    if typed.width is not None:
        return True
    sizes = ((typed.member_width, section.width_mm), (typed.thickness, section.thickness_mm))
    return all(size is None or abs(size.mm - wanted_mm) <= 2 * TOLERANCE_MM for size, wanted_mm in sizes)


def _has_right_profile(typed: TypedStock, milled_to: str) -> bool:
    """Whether a stick that was milled to a stated section serves members of that section."""
    return not states_a_section(typed.profile) or mills_alike(typed.profile, milled_to)


def _defects(typed: TypedStock) -> tuple[Stretch, ...]:
    return tuple(Stretch(start_mm=defect.start.mm, end_mm=defect.end.mm) for defect in typed.defects)


_TOO_SHORT = "{shortest} is too short for planer and jointer, under {least}: left out."
