"""What the machines do for one cutting plan: boards to crosscut, flatten, rip and plane, and the stops at the saw.

Lists and cards both read it, so that the fence stands at the same number on all of them.
"""

from collections.abc import Mapping

from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.stock import StockOffer
from framecalc.project import Project
from framecalc.records import Record, cached_property, replace
from framecalc.timber.boards import Board
from framecalc.timber.lists import JointLine, RipLine, WidthLine, joint_list, rip_list, width_list
from framecalc.timber.planing import PlaningRun, planing_list, rough_pieces
from framecalc.timber.sticks.answer import CutStick, StickPlan
from framecalc.timber.sticks.problem import Piece, PieceName, Purpose, Stretch, name_of
from framecalc.timber.stops import Stop, stop_list
from framecalc.units import TOLERANCE_MM


class MachineWork(Record, dict=True):
    """The work at the machines for the plan of one group."""

    project: Project
    group: TimberGroup
    plan: StickPlan

    @cached_property
    def new(self) -> StickPlan:
        """The sticks that are not begun: those that are went through the machines before."""
        return replace(self.plan, sticks=tuple(stick for stick in self.plan.sticks if not stick.is_begun))

    @cached_property
    def crosscuts(self) -> tuple[tuple[str, tuple[float, ...]], ...]:
        """The boards to crosscut first, each with the middles of its cuts from the left end [mm]."""
        return tuple(
            (stick.label, tuple((cut.start_mm + cut.end_mm) / 2 for cut in offer.crosscuts))
            for stick in self.new.sticks
            if (offer := self.group.offer_of(stick)) and offer.crosscuts
        )

    @cached_property
    def jointed(self) -> tuple[JointLine, ...]:
        """The boards to flatten; a rest of a board is flat already."""
        lines = joint_list(self.new, boards=boards_of(self._ripped), parts=_parts(self._ripped))
        return tuple(line for line in lines if line.board not in self.rests)

    @cached_property
    def rips(self) -> tuple[RipLine, ...]:
        """The settings of the rip fence, board by board."""
        return rip_list(
            self.new,
            boards=boards_of(self._ripped),
            parts=_parts(self._ripped),
            strips_mm={key: offer.strip_mm for key, offer in self._ripped.items()},
            kerf_mm=self.project.shop.kerf.mm,
        )

    @cached_property
    def planing(self) -> tuple[PlaningRun, ...]:
        """The passes through the planer, thickness by thickness."""
        planed_mm = sorted({offer.planed_mm for offer in self._ripped.values()})
        return tuple(run for one_mm in planed_mm for run in self._planed_to(one_mm))

    @property
    def to_planer_mm(self) -> float:
        """How thick a flattened board must be at least: as its strips leave the planer; 0 where nothing is planed."""
        used = {stick.stock.id for stick in self.new.sticks}
        return max((offer.planed_mm for key, offer in self._ripped.items() if key in used), default=0.0)

    @cached_property
    def widths(self) -> tuple[WidthLine, ...]:
        """The strips that are brought to their finished width."""
        lines = width_list(self.rips, allowance_mm=self.project.timber.width_allowance.mm)
        return tuple(line for line in lines if line.rough_mm - line.finished_mm > TOLERANCE_MM)

    @cached_property
    def stops(self) -> tuple[Stop, ...]:
        """Every stop once, the longest first."""
        return stop_list(self.plan, problem=self.group.problem, both_sides=self.group.both_sides)

    @cached_property
    def pieces(self) -> tuple[tuple[CutStick, int, int, Piece], ...]:
        """Every piece in cutting order, with its stick, its strip and its number; sticks with test pieces first."""
        sticks = sorted(self.plan.sticks, key=lambda stick: not has_tests(stick))
        return tuple(
            (stick, strip, number, piece)
            for stick in sticks
            for number, (strip, piece) in enumerate(in_order(stick), start=1)
        )

    @cached_property
    def cut_before(self) -> frozenset[PieceName]:
        """The pieces that were cut before the rest was planned."""
        placed = (one for stick in self.plan.sticks for strip in stick.strips for one in strip.pieces)
        return frozenset(name_of(one.piece) for one in placed if one.is_cut)

    @property
    def has_rabbet_at_saw(self) -> bool:
        """Whether the sticks have a rabbet when they are cut to length."""
        return has_rabbet_at_saw(self.group)

    @cached_property
    def rests(self) -> frozenset[str]:
        """The boards that others had their strips of before, by what is chalked on them."""
        offers = ((stick.label, self.group.offer_of(stick)) for stick in self.plan.sticks)
        return frozenset(label for label, offer in offers if offer and offer.is_rest)

    def key(self, name: str, number: int) -> str:
        """The key by which a line of one of its lists is ticked off, from 1 on."""
        return tick_key(self.plan.problem_hash, name, number)

    @cached_property
    def _ripped(self) -> dict[str, StockOffer]:
        """The boards among the stock, by id."""
        return {key: offer for key, offer in self.group.offers.items() if offer.board}

    def _planed_to(self, planed_mm: float) -> tuple[PlaningRun, ...]:
        offers = {key: offer for key, offer in self._ripped.items() if offer.planed_mm == planed_mm}
        pieces = rough_pieces(self.new, boards=boards_of(offers), parts=_parts(offers))
        return planing_list(pieces, finished_mm=planed_mm, pass_mm=self.project.timber.planer_pass.mm)


def tick_key(problem_hash: str, name: str, number: int) -> str:
    """The key by which a line of a list is ticked off, from 1 on.

    Source: derived.

    >>> tick_key("0123456789abcdef", "stops", 2)
    '0123456789-stops-2'
    """
    return f"{problem_hash[:10]}-{name}-{number}"


def has_rabbet_at_saw(group: TimberGroup) -> bool:
    """Whether the sticks of a group have a rabbet when they are cut to length.

    Source: derived.
    """
    has_rabbet = any(milled.rabbet or milled.strip for milled in group.milled.values())
    return group.problem.milled or (group.is_milled_long and has_rabbet)


def in_order(stick: CutStick) -> tuple[tuple[int, Piece], ...]:
    """The pieces of a stick in the numbering of its drawing, each with its strip; those cut again are not drawn.

    Source: derived.
    """
    pieces = ((strip.number, placed.piece) for strip in stick.strips for placed in strip.pieces)
    return tuple(one for one in pieces if one[1].purpose is not Purpose.AGAIN)


def has_tests(stick: CutStick) -> bool:
    """Whether test pieces are cut from a stick.

    Source: derived.
    """
    return any(piece.purpose is Purpose.TEST for _, piece in in_order(stick))


def boards_of(offers: Mapping[str, StockOffer]) -> dict[str, Board]:
    """The boards among some offers, by the id of their stock.

    Source: derived.
    """
    return {key: offer.board for key, offer in offers.items() if offer.board}


def _parts(offers: Mapping[str, StockOffer]) -> dict[str, tuple[Stretch, ...]]:
    return {key: offer.parts for key, offer in offers.items()}
