"""The wall of a job: which frames hang where, where their nails go, and what is found about that."""

from collections.abc import Iterator, Mapping
from contextlib import suppress
from itertools import chain, islice

from framecalc.errors import FrameCalcError, ImpossibleSize
from framecalc.findings import Finding, Severity
from framecalc.hanging.groups import (
    Arrangement,
    Grouping,
    Hung,
    OnWall,
    Spacing,
    WallLine,
    arrange,
    balanced_order,
    freely,
    overlapping,
)
from framecalc.hanging.things import Thing, thing_findings
from framecalc.hanging.wall import anchor_findings, hook_height_mm, walkway_findings
from framecalc.plan.frame import FramePlan
from framecalc.project import Project
from framecalc.project.wall import MOST_PIECES
from framecalc.records import Record, cached_property
from framecalc.units import TOLERANCE_MM
from framecalc.words import worded

USUAL_GAP_MM = 75.0
"""A usual gap between frames (3 in). Source: common practice, no source."""


class WallPiece(Record):
    """One copy of a frame, to hang."""

    key: str
    name: str
    plan: FramePlan


class Nail(Record):
    """Where one hook goes: from the corner that is measured from, over the floor, and over the level line.

    `key` is that of the piece, `number` its place in the order of the wall.
    """

    key: str
    number: int
    frame_id: str
    name: str
    hook: str
    across_mm: float
    height_mm: float
    over_level_mm: float


class WallPlan:
    """The frames of a job on its wall."""

    def __init__(self, project: Project, frames: Mapping[str, FramePlan]) -> None:
        self._project = project
        self._frames = frames
        self._typed = project.wall

    @property
    def is_measured(self) -> bool:
        """Whether somebody has typed the wall."""
        return self._typed.across is not None

    @cached_property
    def pieces(self) -> tuple[WallPiece, ...]:
        """Every copy of every frame, in the order of the wall.

        Raises:
            ImpossibleSize: there are more than a wall is planned for.
        """
        found = {piece.key: piece for piece in self._pieces()}
        order = [key for key in self._typed.order if key in found]
        return tuple(found[key] for key in (*order, *(key for key in found if key not in order)))

    def _pieces(self) -> Iterator[WallPiece]:
        if sum(plan.frame.count for plan in self._frames.values()) > MOST_PIECES:
            raise ImpossibleSize(f"One wall is planned for up to {MOST_PIECES} frames.", field="wall.arrangement")
        for plan in self._frames.values():
            for number in range(1, plan.frame.count + 1):
                name = f"{plan.frame.name} {number}" if plan.frame.count > 1 else plan.frame.name
                yield WallPiece(key=f"{plan.frame.id}{number}", name=name, plan=plan)

    @property
    def line_mm(self) -> float:
        """The line that the frames hang by, over the floor: as typed, else the eye line."""
        return self._typed.line.mm if self._typed.line else self._project.frames[0].look.eye_line.mm

    @property
    def level_mm(self) -> float:
        """The level line that nails are measured from."""
        return self._typed.level.mm if self._typed.level else self.line_mm

    @cached_property
    def placed(self) -> tuple[OnWall, ...]:
        """Every piece in its place.

        Raises:
            FrameCalcError: a frame cannot be computed, or there are too many.
        """
        hung = [_hung(piece) for piece in self.pieces]
        placed = arrange(hung, self.grouping, middle_mm=0.0, line_mm=self.line_mm)
        middle_mm = self._middle_mm(placed)
        placed = arrange(hung, self.grouping, middle_mm=middle_mm, line_mm=self.line_mm)
        if self.grouping.arrangement is not Arrangement.FREE:
            return placed
        return freely(placed, {one.id: (one.across.mm, one.up.mm) for one in self._typed.places})

    @property
    def gap_mm(self) -> float:
        """The gap between frames; where middles stand equally far apart, the usual one."""
        return self._typed.gap.mm if self.grouping.spacing is Spacing.GAPS else USUAL_GAP_MM

    @property
    def grouping(self) -> Grouping:
        """How the frames stand together."""
        wall = self._typed
        rise_ratio = (wall.stair_rise.mm if wall.stair_rise else 0.0) / wall.stair_going.mm
        return Grouping(
            arrangement=Arrangement(wall.arrangement),
            spacing=Spacing(wall.spacing),
            gap_mm=wall.gap.mm,
            line=WallLine(wall.on_line),
            columns=wall.columns,
            rise_ratio=-rise_ratio if wall.stair_falls else rise_ratio,
        )

    @property
    def across_mm(self) -> float:
        """The width of the wall: as typed, or as wide as the group needs."""
        return self._typed.across.mm if self._typed.across else max(one.right_mm for one in self.placed)

    @property
    def up_mm(self) -> float | None:
        """The height of the wall, if it is typed."""
        return self._typed.up.mm if self._typed.up else None

    @cached_property
    def things(self) -> tuple[Thing, ...]:
        """What else is on the wall."""
        return tuple(
            Thing(
                kind=one.kind,
                name=one.name,
                place=OnWall(
                    key=one.id,
                    across_mm=one.across.mm,
                    up_mm=one.up.mm,
                    x_mm=one.left.mm + one.across.mm / 2,
                    y_mm=one.low.mm + one.up.mm / 2,
                ),
            )
            for one in self._typed.things
        )

    @cached_property
    def nails(self) -> tuple[Nail, ...]:
        """Where every hook goes; a frame whose drop is not known has none yet."""
        return tuple(
            nail for piece, at in zip(self.pieces, self.placed, strict=True) for nail in self._nails(piece, at)
        )

    @property
    def balanced(self) -> tuple[str, ...]:
        """The order of a row in which both halves weigh alike to the eye."""
        return balanced_order([_hung(piece) for piece in self.pieces])

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What is found about the wall.

        Raises:
            FrameCalcError: it cannot be worked out.
        """
        return tuple(self._found())

    def _found(self) -> Iterator[Finding]:
        names = {piece.key: piece.name for piece in self.pieces}
        if self.grouping.arrangement is Arrangement.FREE:
            for one, other in overlapping(self.placed):
                yield _overlap(names[one.key], names[other.key])
        outside = [names[at.key] for at in self.placed if self.is_measured and not self._is_inside(at)]
        if outside:
            yield _outside(", ".join(outside))
        yield from thing_findings([(names[at.key], at) for at in self.placed], self.things)
        for plan in self._frames.values():
            yield from self._found_of(plan)
        if self._typed.is_damp:
            yield _damp()

    def _found_of(self, plan: FramePlan) -> Iterator[Finding]:
        """What is found about a frame, of all its copies once; one whose hangers cannot be placed says so itself."""
        hangers, anchor, name = plan.hangers, self._typed.anchor, plan.frame.name
        places = [at for piece, at in zip(self.pieces, self.placed, strict=True) if piece.plan is plan]
        with suppress(FrameCalcError):
            if self._typed.is_walkway:
                found = (
                    walkway_findings(name, low_mm=at.low_mm, high_mm=at.high_mm, out_mm=hangers.out_mm) for at in places
                )
                yield from islice(chain.from_iterable(found), 1)
            yield from anchor_findings(
                name,
                load_kg=hangers.hook_kg,
                rating_kg=anchor.kg if anchor else None,
                factor_ratio=float(self._typed.factor),
                pull_n=hangers.pull_n,
            )

    def _nails(self, piece: WallPiece, at: OnWall) -> Iterator[Nail]:
        with suppress(FrameCalcError):
            hangers = piece.plan.hangers
            height_mm = hook_height_mm(centre_mm=at.y_mm, top_mm=at.up_mm / 2, drop_mm=hangers.drop_mm)
            hooks_mm = hangers.hooks_mm
            sides = ("left", "right") if len(hooks_mm) == 2 else ("middle",)
            for side, hook_mm in zip(sides, hooks_mm, strict=True):
                across_mm = at.x_mm + hook_mm
                yield Nail(
                    key=piece.key,
                    number=self.pieces.index(piece) + 1,
                    frame_id=piece.plan.frame.id,
                    name=piece.name,
                    hook=side,
                    across_mm=self.across_mm - across_mm if self._typed.from_right else across_mm,
                    height_mm=height_mm,
                    over_level_mm=height_mm - self.level_mm,
                )

    def _middle_mm(self, placed: tuple[OnWall, ...]) -> float:
        """As typed, else the middle of the wall, else so that the group begins at the left corner."""
        if self._typed.middle:
            return self._typed.middle.mm
        if self._typed.across:
            return self._typed.across.mm / 2
        return (max(one.right_mm for one in placed) - min(one.left_mm for one in placed)) / 2

    def _is_inside(self, at: OnWall) -> bool:
        is_low = self.up_mm is None or at.high_mm <= self.up_mm + TOLERANCE_MM
        return is_low and at.low_mm >= -TOLERANCE_MM and self._is_across(at)

    def _is_across(self, at: OnWall) -> bool:
        return at.left_mm >= -TOLERANCE_MM and at.right_mm <= self.across_mm + TOLERANCE_MM


def _hung(piece: WallPiece) -> Hung:
    """A frame as large as it is cut: its outside as written, which is what every page says of it."""
    across, up = (piece.plan.figures[f"outside_{way}"].written for way in ("across", "up"))
    return Hung(key=piece.key, across_mm=across.written_mm, up_mm=up.written_mm)


def _overlap(one: str, other: str) -> Finding:
    return Finding(
        code="wall.overlap",
        severity=Severity.WARN,
        sentence=worded("{one} lies over {other}: move one of them.", one=one, other=other),
        why="Two frames cannot hang in one place.",
        source="plane geometry",
        argument="wall.arrangement",
    )


def _outside(name: str) -> Finding:
    return Finding(
        code="wall.outside",
        severity=Severity.WARN,
        sentence=worded("Over the edge of the wall: {name}. Take less gap, or another place.", name=name),
        why="The wall ends there.",
        source="plane geometry",
        argument="wall.arrangement",
    )


def _damp() -> Finding:
    return Finding(
        code="wall.damp",
        severity=Severity.WARN,
        sentence="Damp wall: bumpers on all four corners for air behind, no work on paper, steel hooks rust.",
        why="Behind a frame on a cold wall the air is damper still, and mould grows.",
        source="usual practice",
        argument="wall.is_damp",
    )
