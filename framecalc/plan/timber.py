"""The timber of a whole project: what has to be cut, and the cutting problem for each width of member.

It stops at the problem; solving it is a job beside the plan. Frames whose members are of one width share their sticks.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from framecalc.boards import strips_across
from framecalc.plan.frame import FramePlan
from framecalc.project import Project
from framecalc.project.timber import Stock as TypedStock
from framecalc.sticks.problem import Piece, Purpose, StickProblem, Stretch, hash_of
from framecalc.sticks.problem import Stock as StickStock
from framecalc.units import TOLERANCE_MM

USUAL_STICK_MM = 2400.0
"""What an estimate is worked out with while no stock is typed (common practice, no source: about 8 ft)."""

SIDES = ("top", "right", "bottom", "left")


@dataclass(frozen=True, slots=True, kw_only=True)
class TimberGroup:
    """All pieces of one width of member, and the problem of cutting them."""

    width_mm: float
    frames: tuple[str, ...]
    problem: StickProblem
    is_estimate: bool

    @property
    def key(self) -> str:
        """The hash of the problem: what a cutting plan belongs to."""
        return hash_of(self.problem)

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
        """One group for each width of member, the widest first.

        Raises:
            FrameCalcError: a frame cannot be computed.
        """
        by_width: dict[float, list[FramePlan]] = {}
        for frame in self._frames.values():
            width_mm = round(frame.settled.face_width_mm / TOLERANCE_MM) * TOLERANCE_MM
            by_width.setdefault(width_mm, []).append(frame)
        return tuple(self._group(width_mm, frames) for width_mm, frames in sorted(by_width.items(), reverse=True))

    def _group(self, width_mm: float, frames: list[FramePlan]) -> TimberGroup:
        timber, shop = self._project.timber, self._project.shop
        stock = tuple(self._stock(typed, width_mm) for typed in timber.stock)
        usable = tuple(one for one in stock if one.strips > 0)
        problem = StickProblem(
            pieces=tuple(self._pieces(frames)),
            stock=usable or (_usual_stick(shop.end_trim.mm),),
            kerf_mm=shop.kerf.mm,
            width_mm=width_mm,
            grain=timber.grain,
            turned=timber.turned,
            shortest_useful_mm=timber.shortest_useful.mm,
        )
        names = tuple(frame.frame.name for frame in frames)
        return TimberGroup(width_mm=width_mm, frames=names, problem=problem, is_estimate=not usable)

    def _pieces(self, frames: list[FramePlan]) -> Iterable[Piece]:
        for frame in frames:
            lengths_mm = (frame.sizes.outside_across_mm, frame.sizes.outside_up_mm) * 2
            for copy in range(1, frame.frame.count + 1):
                for side, length_mm in zip(SIDES, lengths_mm, strict=True):
                    yield Piece(frame=frame.frame.name, copy=copy, side=side, length_mm=length_mm)
            for spare in range(1, self._project.timber.spares + 1):
                for side, length_mm in zip(SIDES[:2], lengths_mm[:2], strict=True):
                    yield Piece(
                        frame=frame.frame.name, copy=spare, side=side, length_mm=length_mm, purpose=Purpose.SPARE
                    )

    def _stock(self, typed: TypedStock, width_mm: float) -> StickStock:
        timber, shop = self._project.timber, self._project.shop
        strips = 1
        if typed.width is not None:
            strips = strips_across(
                width_mm=typed.width.mm,
                edge_mm=timber.edge.mm,
                strip_mm=width_mm + timber.width_allowance.mm,
                kerf_mm=shop.kerf.mm,
            )
        return StickStock(
            name=typed.name,
            length_mm=typed.length.mm,
            count=typed.count,
            price=typed.price,
            in_hand=typed.in_hand,
            strips=strips,
            trim_mm=shop.end_trim.mm,
            defects=_defects(typed),
        )


def _defects(typed: TypedStock) -> tuple[Stretch, ...]:
    if typed.defect_from is None or typed.defect_to is None:
        return ()
    return (Stretch(start_mm=typed.defect_from.mm, end_mm=typed.defect_to.mm),)


def _usual_stick(trim_mm: float) -> StickStock:
    return StickStock(name="usual stick", length_mm=USUAL_STICK_MM, trim_mm=trim_mm)
