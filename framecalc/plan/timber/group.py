"""A group of members: all pieces of one section, the stock that serves it, and their cutting problem."""

from collections import Counter
from collections.abc import Iterable, Mapping

from framecalc.corners.saw import CutMethod
from framecalc.errors import FrameCalcError, ImpossibleTimber
from framecalc.findings import Finding
from framecalc.plan.figures import write_long_point, write_short_point
from framecalc.plan.frame import FramePlan
from framecalc.plan.timber.profiles import Milled, common_words
from framecalc.plan.timber.runs import FrameRun
from framecalc.plan.timber.stock import MemberSection, StockOffer
from framecalc.records import Record, cached_property, field, replace
from framecalc.timber.sticks.answer import CutStick, StickPlan
from framecalc.timber.sticks.begun import LeftToCut, whole_plan
from framecalc.timber.sticks.problem import Piece, StickProblem, Stock, first_of_each_length, hash_of
from framecalc.timber.sticks.refusals import refuse_impossible
from framecalc.timber.stops import Stop
from framecalc.units import Step, WrittenLength

_UNSERVED = "No plan: of the stock typed for these, nothing can be used. See above."


class TimberGroup(Record, dict=True):
    """All pieces of one section, their cutting problem, and the findings about the stock.

    `offers` is the stock that serves it, by id; none where it is an estimate with sticks of the usual length.
    `is_ledge`: all of them are strips that are glued to members. `planed_with` are the other sections planed to the
    same thickness. `runs` are those of its frames. `milled`: what is milled into the pieces, by the name of their run.
    `left`: what is left to cut, where sticks are begun, and `begun_offers` the offers that they were.
    `is_unserved`: stock is typed for it, and none of that can be used, so a plan would be one for sticks that nobody
    has. `is_allotted`: its stock is what it gets beside others that share it.
    """

    section: MemberSection
    frames: tuple[FramePlan, ...]
    problem: StickProblem
    findings: tuple[Finding, ...]
    offers: Mapping[str, StockOffer]
    milled: Mapping[str, Milled]
    runs: tuple[FrameRun, ...] = ()
    is_ledge: bool = False
    is_unserved: bool = False
    is_allotted: bool = False
    planed_with: tuple[MemberSection, ...] = ()
    left: LeftToCut | None = None
    begun_offers: Mapping[str, StockOffer] = field(default_factory=dict)

    @cached_property
    def key(self) -> str:
        """The hash of what is searched for, which is the key of its cutting plan."""
        return hash_of(self.searched)

    def holds(self, frame: FramePlan) -> bool:
        """Whether its pieces are for this frame too, in whichever plan of the project that was planned."""
        return any(one.frame.id == frame.frame.id for one in self.frames)

    @property
    def searched(self) -> StickProblem:
        """The problem that a plan is searched for: that of all its pieces, or of what is left to cut."""
        return self.left.problem if self.left else self.problem

    @property
    def is_all_cut(self) -> bool:
        """Whether nothing is left to cut, so that nothing is searched for."""
        return self.left is not None and self.left.is_done

    def whole(self, rest: StickPlan | None) -> StickPlan | None:
        """The plan of all pieces, from the answer to what is searched for; None while there is none."""
        if self.left and (rest or self.is_all_cut):
            return whole_plan(rest, left=self.left)
        return rest

    @property
    def is_strip(self) -> bool:
        """Whether its pieces are the strips of built-up rabbets: glued on before the saw, they have no stops."""
        return bool(self.runs) and all(run.is_strip for run in self.runs)

    def still_here(self, plan: StickPlan) -> StickPlan:
        """A plan without the begun sticks that were put away: what was left of them lies on the rack by now."""
        gone = {(one.stock.id, one.number) for one in self.left.begun if one.is_put_away} if self.left else set()
        if not gone:
            return plan
        return replace(
            plan,
            sticks=tuple(one for one in plan.sticks if not one.is_begun or (one.stock.id, one.number) not in gone),
        )

    @property
    def part_ripped(self) -> tuple[str, ...]:
        """The begun boards of which a part is not ripped: while pieces are left to cut, no plan takes that part."""
        begun = self.left.begun if self.left and not self.is_all_cut else ()
        return tuple(f"{one.stock.name} #{one.number}" for one in begun if one.is_part_ripped)

    @property
    def of_other_section(self) -> tuple[str, ...]:
        """The begun sticks that were cut to another section: no plan takes, and no rack gets, what is left of them."""
        begun = self.left.begun if self.left else ()
        return tuple(f"{one.stock.name} #{one.number}" for one in begun if one.is_other)

    @property
    def is_estimate(self) -> bool:
        """Whether no typed stock serves it."""
        return not self.offers and not self.begun_offers

    @property
    def refusal(self) -> ImpossibleTimber | None:
        """Why it can have no plan, where all stock that is typed for it is left out."""
        return ImpossibleTimber(_UNSERVED, field="timber.stock") if self.is_unserved else None

    @cached_property
    def refused_at_sight(self) -> FrameCalcError | None:
        """Why its members can have no cutting plan, for a reason that is known at once."""
        if self.is_all_cut:
            return None
        try:
            refuse_impossible(self.searched)
        except FrameCalcError as refusal:
            return refusal.with_traceback(None)
        return None

    @property
    def names(self) -> tuple[str, ...]:
        """The names of its frames."""
        return tuple(frame.frame.name for frame in self.frames)

    @property
    def total_mm(self) -> float:
        """The long edges of all pieces together [mm]."""
        return sum(piece.length_mm for piece in self.problem.pieces)

    def long_point(self, length_mm: float) -> str:
        """A long point as the tape has it, in words."""
        return self._long(length_mm).full

    def long_point_mm(self, length_mm: float) -> float:
        """A long point as the tape has it [mm]."""
        return self._long(length_mm).written_mm

    @property
    def written_mm(self) -> float:
        """The long points of all pieces together, each as the tape has it [mm]."""
        pieces = self.problem.pieces
        written = {one.length_mm: self.long_point_mm(one.length_mm) for one in first_of_each_length(pieces)}
        return sum(written[piece.length_mm] for piece in pieces)

    @property
    def step(self) -> Step:
        """The step of the tape."""
        return self.frames[0].step

    def short_point(self, stop: Stop) -> str:
        """The short point of what is cut at a stop, in words."""
        sides = self.section.sides
        return write_short_point(
            stop.short_mm, long_mm=stop.long_mm, sides=sides, step=self.step, is_ledge=self._is_fitted
        ).full

    def _long(self, length_mm: float) -> WrittenLength:
        return write_long_point(length_mm, sides=self.section.sides, step=self.step, is_ledge=self._is_fitted)

    @property
    def _is_fitted(self) -> bool:
        """Whether its pieces go into the frame, and so must not come out long."""
        return self.is_ledge and not self.is_strip

    @property
    def both_sides(self) -> bool:
        """Whether the saw is swung over for the other end, so that a stop is needed on both sides of the blade."""
        return any(frame.frame.corner.cutting is CutMethod.TWO_SETTINGS for frame in self.frames)

    @property
    def planed_mm(self) -> frozenset[float]:
        """The planed thicknesses of its boards; empty with sticks alone."""
        return frozenset(round(offer.planed_mm, 3) for offer in self.offers.values() if offer.board)

    @property
    def is_milled_long(self) -> bool:
        """Whether rabbet and profile are in the sticks before the saw; pieces that are turned over get them later."""
        return not self.problem.turned

    def profile_of(self, pieces: Iterable[Piece]) -> str:
        """What a strip has milled into it that these pieces are cut from, in words; blank where they differ.

        A bought moulding is called by its name.
        """
        if self.section.moulding:
            return self.section.moulding
        milled = [self.milled[piece.frame] for piece in pieces if piece.frame in self.milled]
        return common_words(milled) if self.is_milled_long else ""

    @property
    def milled_to(self) -> str:
        """What all of its sticks have milled into them before the saw, in words; blank where they differ."""
        return common_words(self.milled.values()) if self.is_milled_long else ""

    def offer_of(self, stick: CutStick) -> StockOffer | None:
        """The offer of a stick in the plan."""
        return (self.begun_offers if stick.is_begun else self.offers).get(stick.stock.id)

    def shares_stock_with(self, other: "TimberGroup") -> bool:
        """Whether both may take sticks of one entry of the stock."""
        return not self._served_by.isdisjoint(other._served_by)

    @property
    def _served_by(self) -> frozenset[str]:
        """The ids of all stock that serves it, begun or whole."""
        return frozenset({*self.offers, *self.begun_offers})

    def after(self, plans: Iterable[StickPlan]) -> "TimberGroup":
        """The same group with the stock that these plans leave; its numbers continue theirs."""
        taken = Counter(stick.stock.id for plan in plans for stick in plan.sticks)
        if not taken:
            return self
        return self.with_stock(tuple(_less(one, taken[one.id]) for one in self.searched.stock))

    def with_stock(self, stock: tuple[Stock, ...]) -> "TimberGroup":
        """The same group with other stock to search in."""
        searched = replace(self.searched, stock=stock)
        if self.left:
            return replace(self, left=replace(self.left, problem=searched))
        return replace(self, problem=searched)


def _less(stock: Stock, taken: int) -> Stock:
    count = None if stock.count is None else max(0, stock.count - taken)
    return replace(stock, count=count, first=stock.first + taken)
