"""Frames from a stick or a board in hand: which frames of a project it makes, and how wide its members could be."""

from collections.abc import Iterator, Mapping
from contextlib import suppress
from functools import lru_cache

from framecalc.errors import FrameCalcError, ImpossibleSize, ImpossibleTimber
from framecalc.findings import Rounding
from framecalc.plan.figures import Figure, named_figure
from framecalc.plan.frame import FramePlan
from framecalc.plan.inputs import repeat_mm
from framecalc.plan.timber.stock import allowances_of, from_the_pattern
from framecalc.project import Project
from framecalc.records import Record, cached_property, replace
from framecalc.sizes.members import slant_kerf_mm
from framecalc.sizes.shape import RECTANGLE
from framecalc.timber.boards import Allowances, Board, stock_of_board
from framecalc.timber.frames_from_a_stick import (
    ANY,
    ROUND,
    Point,
    Shares,
    clear_lengths,
    frontier,
    largest_of_shape,
    most_up_mm,
)
from framecalc.timber.sticks.problem import Grain, Stock, Stretch
from framecalc.timber.sticks.refusals import refuse_stock
from framecalc.timber.widest_member import FrameToCut, Saw, WidestMember, widest_member
from framecalc.units import TOLERANCE_MM, Unit, parse_length
from framecalc.words import worded

USUAL_LENGTH = {Unit.MM: parse_length("2400 mm"), Unit.INCH: parse_length("8 ft")}
"""What is taken while no length is typed (common practice, no source)."""

LEAST_OPENING_MM = 25.0
"""A frame with a smaller opening is not drawn: about an inch. Ours."""

_widest = lru_cache(maxsize=64)(widest_member)


class Spot(Record):
    """One frame of the project: whether the stick or board makes one, and whether in grain order."""

    number: int
    name: str
    across_mm: float
    up_mm: float
    fits: bool
    fits_round: bool


class Largest(Record):
    """The largest frame of one shape: its outside size and its rabbet size, both rounded down."""

    shape: str
    across: Figure
    up: Figure
    rabbet_across: Figure
    rabbet_up: Figure


class FramesFromAStick:
    """A stick or board in hand, and its frames. Sizes are outside sizes, long point to long point."""

    def __init__(self, project: Project, frames: Mapping[str, FramePlan]) -> None:
        self.project = project
        self._frames = frames

    @cached_property
    def frame(self) -> FramePlan:
        """The frame whose member is meant.

        Raises:
            FrameCalcError: it cannot be computed, or it is no flat frame of four sides.
        """
        chosen = self._frames.get(self.project.reach.frame) or next(iter(self._frames.values()))
        chosen.compute_all()
        if chosen.shape != RECTANGLE:
            wording = "What a stick in hand makes is worked out for flat frames of four sides: choose one of these."
            raise ImpossibleSize(wording, field="reach.frame")
        return chosen

    @property
    def face_width_mm(self) -> float:
        """The width of its member."""
        return self.frame.settled.face_width_mm

    @property
    def lap_mm(self) -> float:
        """The lap of the member over the rabbet size, on each side; 0 in a tray."""
        return (self.frame.sizes.rabbet_across_mm - self.frame.sizes.sight_across_mm) / 2

    @property
    def least_mm(self) -> float:
        """The smallest outside size that makes sense."""
        return 2 * self.face_width_mm + LEAST_OPENING_MM

    @property
    def length_mm(self) -> float:
        """The length in hand; the usual one until it is typed."""
        return (self.project.reach.length or USUAL_LENGTH[self.project.unit]).mm

    @cached_property
    def board(self) -> Board | None:
        """The board in hand; None for a stick."""
        in_hand, timber = self.project.reach, self.project.timber
        if in_hand.width is None:
            return None
        return Board(
            name="the board in hand",
            species=self.frame.frame.species,
            thickness_mm=self.frame.blank_thickness_mm,
            width_mm=in_hand.width.mm,
            length_mm=self.length_mm,
            count=in_hand.count,
            in_hand=True,
            edge_mm=timber.edge.mm,
            trim_mm=self.project.shop.end_trim.mm,
            defects=self._defects,
        )

    @cached_property
    def stock(self) -> Stock:
        """The stock for the saw: a stick, or the strips of a board.

        Raises:
            FrameCalcError: it is too narrow for one strip, or its defect cannot be, or the member is not milled here.
        """
        if self.board is not None and self.frame.is_bought:
            says = "A bought moulding is not milled from a board: choose a stick of it."
            raise ImpossibleTimber(says, field="board_width_mm")
        if self.board is None:
            trim_mm, name = self.project.shop.end_trim.mm, "the stick in hand"
            stock = Stock(name=name, length_mm=self.length_mm, trim_mm=trim_mm, defects=self._defects)
            stock = from_the_pattern(stock, repeat_mm(self.frame.frame))
        else:
            strip_mm = self.face_width_mm + self._allowances.width_mm
            stock = stock_of_board(self.board, strip_mm=strip_mm, kerf_mm=self.project.shop.kerf.mm)
        refuse_stock(stock)
        return stock

    @property
    def cut_mm(self) -> float:
        """The length that a mitre cut takes along the stick, and up to one repeat of a pattern to match."""
        return slant_kerf_mm(self.project.shop.kerf.mm, sides=4) + repeat_mm(self.frame.frame)

    @cached_property
    def clear_mm(self) -> tuple[float, ...]:
        """The clear stretches, the longest first.

        Raises:
            ImpossibleTimber: trims and defects leave nothing.
        """
        clear = clear_lengths(self.stock, cut_mm=self.cut_mm, count=self.project.reach.count)
        if not clear:
            says = "Trims and defects leave nothing of {length}: enter a longer stick."
            raise ImpossibleTimber(says, field="stick_length_mm", lengths={"length": self.length_mm})
        return clear

    @cached_property
    def edge(self) -> tuple[Point, ...]:
        """The frontier, sides from anywhere.

        Raises:
            FrameCalcError: not even the smallest frame can be made.
        """
        return self._edge(ANY)

    @cached_property
    def edge_round(self) -> tuple[Point, ...]:
        """The frontier with the grain running round the frame; empty where no frame can be made so."""
        with suppress(ImpossibleTimber):
            return self._edge(ROUND)
        return ()

    @cached_property
    def spots(self) -> tuple[Spot, ...]:
        """The frames of the project whose members are as wide; one that cannot be computed is left out."""
        return tuple(self._spot(number, frame) for number, frame in enumerate(self._alike, start=1))

    @cached_property
    def largest(self) -> tuple[Largest, ...]:
        """The largest frames of some shapes; those that cannot be made at all are left out."""
        return tuple(self._largest(self.edge))

    @cached_property
    def largest_round(self) -> tuple[Largest, ...]:
        """The same with the grain running round."""
        return tuple(self._largest(self.edge_round))

    def widest(self, grain: Grain) -> WidestMember | None:
        """The widest member for which the board still yields all frames of this width; None for a stick.

        Raises:
            FrameCalcError: it does not yield them with any member.
        """
        if self.board is None:
            return None
        shop = self.project.shop
        saw = Saw(rip_kerf_mm=shop.kerf.mm, kerf_mm=shop.kerf.mm, allowances=self._allowances)
        return _widest(self.board, wanted=self.wanted, rabbet_width_mm=self.lap_mm, saw=saw, grain=grain)

    @cached_property
    def wanted(self) -> tuple[FrameToCut, ...]:
        """The frames that the board must yield: those whose members are as wide, each as often as it is made."""
        return tuple(
            FrameToCut(
                name=frame.frame.id,
                rabbet_across_mm=frame.sizes.outside_across_mm - 2 * (self.face_width_mm - self.lap_mm),
                rabbet_up_mm=frame.sizes.outside_up_mm - 2 * (self.face_width_mm - self.lap_mm),
                copies=frame.frame.count,
            )
            for frame in self._alike
        )

    @property
    def _allowances(self) -> Allowances:
        """The allowances of a strip over the face; with the ledge, if a tray is milled from solid."""
        allowances, ledge_mm = allowances_of(self.project), self.frame.blank_width_mm - self.face_width_mm
        return replace(allowances, width_mm=allowances.width_mm + ledge_mm)

    @cached_property
    def _alike(self) -> tuple[FramePlan, ...]:
        return tuple(self._of_this_width())

    def _of_this_width(self) -> Iterator[FramePlan]:
        """The frames whose members have the same face and come from blanks of the same width."""
        wanted_mm = (self.face_width_mm, self.frame.blank_width_mm)
        for frame in self._frames.values():
            with suppress(FrameCalcError):
                if frame.shape != RECTANGLE:
                    continue
                widths_mm = (frame.settled.face_width_mm, frame.blank_width_mm)
                if all(abs(one - wanted) <= 2 * TOLERANCE_MM for one, wanted in zip(widths_mm, wanted_mm, strict=True)):
                    yield frame

    def _edge(self, shares: Shares) -> tuple[Point, ...]:
        return frontier(clear_mm=self.clear_mm, cut_mm=self.cut_mm, least_mm=self.least_mm, shares=shares)

    def _spot(self, number: int, frame: FramePlan) -> Spot:
        across_mm, up_mm = frame.sizes.outside_across_mm, frame.sizes.outside_up_mm
        fits, fits_round = (
            up_mm <= most_up_mm(across_mm, clear_mm=self.clear_mm, cut_mm=self.cut_mm, shares=shares) + TOLERANCE_MM
            for shares in (ANY, ROUND)
        )
        name = frame.frame.name
        return Spot(number=number, name=name, across_mm=across_mm, up_mm=up_mm, fits=fits, fits_round=fits_round)

    def _largest(self, edge: tuple[Point, ...]) -> Iterator[Largest]:
        less_mm = 2 * (self.face_width_mm - self.lap_mm)
        for shape, shape_ratio in self._shapes:
            with suppress(ImpossibleTimber):
                across_mm, up_mm = largest_of_shape(edge, shape_ratio=shape_ratio)
                yield Largest(
                    shape=shape,
                    across=self._figure("largest_across", across_mm),
                    up=self._figure("largest_up", up_mm),
                    rabbet_across=self._figure("largest_rabbet_across", across_mm - less_mm),
                    rabbet_up=self._figure("largest_rabbet_up", up_mm - less_mm),
                )

    @property
    def _shapes(self) -> Iterator[tuple[str, float]]:
        """Shapes by their ratio of up to across."""
        sizes = self.frame.sizes
        yield worded("like {name}", name=self.frame.frame.name), sizes.outside_up_mm / sizes.outside_across_mm
        yield "square", 1.0

    def _figure(self, name: str, length_mm: float) -> Figure:
        """A largest size, rounded down, so that a frame of the written size can be made."""
        step = self.project.shop.step(self.project.unit)
        return named_figure(name, name.replace("_", " "), length_mm, step=step, rounding=Rounding.DOWN)

    @property
    def _defects(self) -> tuple[Stretch, ...]:
        in_hand = self.project.reach
        if in_hand.defect_from is None or in_hand.defect_to is None:
            return ()
        return (Stretch(start_mm=in_hand.defect_from.mm, end_mm=in_hand.defect_to.mm),)
