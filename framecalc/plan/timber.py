"""The timber of a whole project: what has to be cut, and the cutting problem for each wood and section of member.

It stops at the problem; solving it is a job beside the plan. Frames of one wood, one width of member and one thickness
share their sticks.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from framecalc.boards import Allowances, Board, stock_of_board
from framecalc.errors import FrameCalcError, ImpossibleTimber, quoted
from framecalc.findings import Finding, Severity
from framecalc.plan.frame import FramePlan
from framecalc.project import Project
from framecalc.project.timber import Stock as TypedStock
from framecalc.sticks.problem import Piece, Purpose, StickProblem, Stretch, hash_of
from framecalc.sticks.problem import Stock as StickStock
from framecalc.thicknessing import Order, choose_milling, milling_findings
from framecalc.units import TOLERANCE_MM

USUAL_STICK_MM = 2400.0
"""What an estimate is worked out with while no stock is typed (common practice, no source: about 8 ft)."""

SIDES = ("top", "right", "bottom", "left")


@dataclass(frozen=True, slots=True, kw_only=True)
class MemberSection:
    """What members must have in common to be cut from one stick. `wood` is blank where no frame names one."""

    wood: str
    width_mm: float
    thickness_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TimberGroup:
    """All pieces of one section, the problem of cutting them, and what was found about the stock on the way."""

    section: MemberSection
    frames: tuple[FramePlan, ...]
    problem: StickProblem
    findings: tuple[Finding, ...]
    boards: Mapping[str, Board]
    is_estimate: bool

    @property
    def key(self) -> str:
        """The hash of the problem: what a cutting plan belongs to."""
        return hash_of(self.problem)

    @property
    def names(self) -> tuple[str, ...]:
        """The names of its frames."""
        return tuple(frame.frame.name for frame in self.frames)

    @property
    def total_mm(self) -> float:
        """The long edges of all pieces together [mm]."""
        return sum(piece.length_mm for piece in self.problem.pieces)


class TimberPlan:
    """What a project asks of the rack and the yard."""

    def __init__(self, project: Project, frames: Mapping[str, FramePlan]) -> None:
        self._project = project
        self._frames = frames

    @cached_property
    def groups(self) -> tuple[TimberGroup, ...]:
        """One group for each wood and section of member, the widest first.

        Raises:
            FrameCalcError: a frame cannot be computed.
        """
        by_section: dict[MemberSection, list[FramePlan]] = {}
        for frame in self._frames.values():
            by_section.setdefault(_section_of(frame), []).append(frame)
        ordered = sorted(by_section, key=lambda section: (-section.width_mm, -section.thickness_mm, section.wood))
        return tuple(self._group(section, by_section[section]) for section in ordered)

    @property
    def allowances(self) -> Allowances:
        """What a rough strip is larger by than the member."""
        timber = self._project.timber
        return Allowances(
            width_mm=timber.width_allowance.mm,
            thickness_mm=timber.thickness_allowance.mm,
            sanding_mm=timber.sanding.mm,
        )

    def _group(self, section: MemberSection, frames: list[FramePlan]) -> TimberGroup:
        pieces = tuple(self._pieces(frames))
        offered = self._offered(section, max(piece.length_mm for piece in pieces))
        return TimberGroup(
            section=section,
            frames=tuple(frames),
            problem=self._problem(section, pieces, offered.stock),
            findings=tuple(offered.findings),
            boards=offered.boards,
            is_estimate=not offered.stock,
        )

    def _problem(self, section: MemberSection, pieces: tuple[Piece, ...], stock: Iterable[StickStock]) -> StickProblem:
        timber, shop = self._project.timber, self._project.shop
        return StickProblem(
            pieces=pieces,
            stock=tuple(stock) or (_usual_stick(shop.end_trim.mm),),
            kerf_mm=shop.kerf.mm,
            width_mm=section.width_mm,
            grain=timber.grain,
            corner=timber.corner,
            turned=timber.turned,
            milled=timber.milled,
            shortest_useful_mm=timber.shortest_useful.mm,
        )

    def _pieces(self, frames: list[FramePlan]) -> Iterable[Piece]:
        timber = self._project.timber
        for frame in frames:
            lengths_mm = (frame.sizes.outside_across_mm, frame.sizes.outside_up_mm) * 2
            for copy in range(1, frame.frame.count + 1):
                yield from _sides(frame, copy, lengths_mm, Purpose.MEMBER)
            for copy in range(1, timber.spares + 1):
                yield from _sides(frame, copy, lengths_mm[:2], Purpose.SPARE)
        for copy in range(1, timber.tests + 1):
            yield Piece(frame="corner", copy=copy, side="test", length_mm=timber.test_length.mm, purpose=Purpose.TEST)

    def _offered(self, section: MemberSection, longest_mm: float) -> "_Offered":
        offered = _Offered(stock=[], boards={}, findings=[])
        for typed in self._project.timber.stock:
            if _same_wood(typed.species, section.wood):
                self._offer(typed, section, longest_mm, offered)
        return offered

    def _offer(self, typed: TypedStock, section: MemberSection, longest_mm: float, offered: "_Offered") -> None:
        """Add a stick as it is; a board with the strips it yields, or what keeps it from yielding any."""
        if typed.width is None:
            offered.stock.append(self._stick(typed))
            return
        board = self._board(typed, section)
        found = self._milling(board, typed, section, longest_mm)
        offered.findings.extend(found)
        if any(finding.severity is Severity.STOP for finding in found):
            return
        try:
            strip_mm = section.width_mm + self.allowances.width_mm
            stock = stock_of_board(board, strip_mm=strip_mm, kerf_mm=self._project.shop.kerf.mm)
        except ImpossibleTimber as refusal:
            offered.findings.append(_left_out(refusal, typed))
        else:
            offered.stock.append(stock)
            offered.boards[stock.name] = board

    def _milling(
        self, board: Board, typed: TypedStock, section: MemberSection, longest_mm: float
    ) -> tuple[Finding, ...]:
        if typed.thickness is None:
            return ()
        timber, least_mm = self._project.timber, self._project.timber.shortest_machined.mm
        part_mm = min(max(longest_mm + self.allowances.length_mm, least_mm), board.length_mm)
        choice = choose_milling(
            board,
            thickness_mm=section.thickness_mm,
            part_mm=part_mm,
            allowances=self.allowances,
            shortest_mm=min(timber.shortest_machined.mm, part_mm),
        )
        named = f"{quoted(typed.name)}: "
        left_out = " It is left out of the plan." if choice.order is Order.NEITHER else ""
        return tuple(
            replace(finding, sentence=f"{named}{finding.sentence}{left_out}") for finding in milling_findings(choice)
        )

    def _board(self, typed: TypedStock, section: MemberSection) -> Board:
        timber = self._project.timber
        assert typed.width is not None
        thickness_mm = section.thickness_mm + self.allowances.thickness_mm + self.allowances.sanding_mm
        return Board(
            name=typed.name,
            species=typed.species,
            thickness_mm=typed.thickness.mm if typed.thickness else thickness_mm,
            width_mm=typed.width.mm,
            length_mm=typed.length.mm,
            count=typed.count,
            price=typed.price,
            priced_by=typed.priced_by,
            in_hand=typed.in_hand,
            bow_mm=typed.bow.mm,
            twist_mm=typed.twist.mm,
            edge_mm=timber.edge.mm,
            trim_mm=self._project.shop.end_trim.mm,
            defects=_defects(typed),
        )

    def _stick(self, typed: TypedStock) -> StickStock:
        return StickStock(
            name=typed.name,
            length_mm=typed.length.mm,
            count=typed.count,
            price=typed.price,
            in_hand=typed.in_hand,
            trim_mm=self._project.shop.end_trim.mm,
            defects=_defects(typed),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Offered:
    """What of the stock serves a section, as it is gathered."""

    stock: list[StickStock]
    boards: dict[str, Board]
    findings: list[Finding]


def _section_of(frame: FramePlan) -> MemberSection:
    return MemberSection(
        wood=frame.frame.species,
        width_mm=round(frame.settled.face_width_mm / TOLERANCE_MM) * TOLERANCE_MM,
        thickness_mm=frame.frame.section.thickness.mm,
    )


def _same_wood(stock: str, wood: str) -> bool:
    """Whether a stock serves a wood; a blank on either side serves any."""
    return not stock or not wood or stock.casefold() == wood.casefold()


def _sides(frame: FramePlan, copy: int, lengths_mm: tuple[float, ...], purpose: Purpose) -> Iterable[Piece]:
    for side, length_mm in zip(SIDES, lengths_mm, strict=False):
        yield Piece(frame=frame.frame.name, copy=copy, side=side, length_mm=length_mm, purpose=purpose)


def _defects(typed: TypedStock) -> tuple[Stretch, ...]:
    if typed.defect_from is None or typed.defect_to is None:
        return ()
    return (Stretch(start_mm=typed.defect_from.mm, end_mm=typed.defect_to.mm),)


def _usual_stick(trim_mm: float) -> StickStock:
    return StickStock(name="usual stick", length_mm=USUAL_STICK_MM, trim_mm=trim_mm)


def _left_out(refusal: FrameCalcError, typed: TypedStock) -> Finding:
    """A board that yields nothing is left out of the plan, and that is said."""
    return Finding(
        code="timber.left-out",
        severity=Severity.WARN,
        sentence=f"{refusal.wording} It is left out of the plan.",
        why="A wider board would do, or narrower edges to lose.",
        source="derived",
        argument=f"timber.stock.{typed.id}.width",
        lengths=refusal.lengths,
    )
