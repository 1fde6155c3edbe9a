"""Ways out for a piece that went wrong, each planned by the whole program: none is offered that brings a stop."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from framecalc.bench.rescue import (
    CUT_PIECE_MIN,
    MAT_MIN,
    MILL_PIECE_MIN,
    REPEAT_RABBET_MIN,
    RIP_MIN,
    STRIP_MIN,
    TRIM_MIN,
    CutAgainOf,
    Looks,
    Rescue,
    Trouble,
    ranked,
)
from framecalc.errors import FrameCalcError, OutOfRange
from framecalc.findings import Rounding, Severity
from framecalc.plan.frame import FramePlan
from framecalc.plan.inputs import mat_of
from framecalc.plan.timber.runs import long_edges_mm
from framecalc.plan.whole import Plan
from framecalc.project import project_with
from framecalc.records import Record, cached_property
from framecalc.sizes.members import slant_kerf_mm
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.units import TOLERANCE_MM, describe_length, format_length
from framecalc.words import joined, worded

_ACROSS = ("top", "bottom")

MOST_SPARES = 4
"""As many sticks are offered for a new side: the shortest that do."""


class Spare(Record):
    """Wood of the right section that is there: what it is called, how long it is, and whether it is milled already.

    `source` is what is chalked on it, `on_rack` whether it stands there, and not among what the cutting plan leaves.
    """

    name: str
    length_mm: float
    is_milled: bool = True
    source: str = ""
    on_rack: bool = False


class RescuePlan:
    """The ways out for one side of a rectangular frame, by how much it is short or its rabbet too wide."""

    def __init__(
        self, plan: Plan, frame: FramePlan, *, trouble: Trouble, side: str, by_mm: float, spares: Sequence[Spare]
    ) -> None:
        if not frame.shape.is_rectangle or frame.shape.slopes:
            raise OutOfRange("Rescue is for flat rectangles: cut this piece again", field="frame")
        self._plan, self._frame, self._trouble = plan, frame, trouble
        self._side, self._by_mm, self._spares = side, by_mm, spares

    @cached_property
    def ways(self) -> tuple[Rescue, ...]:
        """Every way that the whole program lets pass, the best first.

        Raises:
            FrameCalcError: the frame cannot be computed.
        """
        return ranked(way for way in self._thought_of() if self._passes(way.changes))

    @property
    def long_mm(self) -> float:
        """The long point of the side."""
        return self._lengths_mm[self._side]

    @cached_property
    def _lengths_mm(self) -> dict[str, float]:
        """The long points as they follow from what came out; once one is measured, as planned."""
        as_cut = self._frame.as_cut
        return long_edges_mm(self._frame if as_cut.outside_mm else as_cut.for_the_saw, inset_mm=0.0)

    @property
    def _axis(self) -> str:
        return "across" if self._side in _ACROSS else "up"

    @property
    def _other_axis(self) -> str:
        return "up" if self._side in _ACROSS else "across"

    def _thought_of(self) -> Iterator[Rescue]:
        if self._trouble is Trouble.WIDE_RABBET:
            yield from self._of_a_wide_rabbet()
        else:
            yield from self._trimmed()
            yield from self._as_a_shorter_side()
        yield from self.from_other_wood()

    def _trimmed(self) -> Iterator[Rescue]:
        """All that keeps the shortened side: its mate is trimmed alike; the clearance, the rabbet or the mat gives."""
        by, mate = self._said(self._by_mm), "" if self._trouble is Trouble.SPOILED_PAIR else " Trim its mate alike."
        minutes = 2 * TRIM_MIN
        if not self._frame.is_tray:
            yield Rescue(
                says=f"Let the clearance {self._axis} give {by}.{mate}",
                changes=self._clearance(self._axis, -self._by_mm),
                minutes_min=minutes,
            )
            yield Rescue(
                says=f"Widen the rabbet of all four by {self._said(self._by_mm / 2)}.{mate}",
                changes=self._rabbet(self._by_mm / 2) | self._clearance(self._other_axis, self._by_mm),
                minutes_min=minutes + 4 * REPEAT_RABBET_MIN,
            )
        yield from self._smaller()

    def _smaller(self) -> Iterator[Rescue]:
        mat = mat_of(self._frame.frame)
        if mat is None:
            return
        narrower_mm = self._by_mm / 2
        at = f"{self._path}.package.mat"
        changes = {f"{at}.border": _text(mat.border.mm - narrower_mm)}
        if mat.bottom is not None:
            changes[f"{at}.bottom"] = _text(mat.bottom.mm - narrower_mm)
        yield Rescue(
            says=f"Trim all four: the frame {self._said(self._by_mm)} smaller, a new mat with borders"
            f" {self._said(narrower_mm)} narrower.",
            changes=changes,
            minutes_min=4 * TRIM_MIN + MAT_MIN,
            looks=Looks.A_LITTLE,
        )

    def _as_a_shorter_side(self) -> Iterator[Rescue]:
        """A long side that is spoiled still yields a short one: of that less is to be cut."""
        lengths_mm = self._lengths_mm
        shorter = next((side for side in RECTANGLE_SIDES if lengths_mm[side] < self.long_mm - TOLERANCE_MM), None)
        if shorter is None or lengths_mm[shorter] > self.long_mm - self._by_mm + TOLERANCE_MM:
            return
        count = 2 if self._trouble is Trouble.SPOILED_PAIR else 1
        which = "both shorter sides" if count == 2 else f"a {shorter} side"
        yield Rescue(
            says=f"Still to cut {which}? Take this wood for it, and cut {self._said(self.long_mm)} from the wood meant"
            " for it.",
            wood_mm=count * (self.long_mm - lengths_mm[shorter]),
            minutes_min=2 * count * CUT_PIECE_MIN,
        )

    def _of_a_wide_rabbet(self) -> Iterator[Rescue]:
        by = self._said(self._by_mm)
        wider = self._rabbet(self._by_mm)
        more = self._clearance("across", 2 * self._by_mm) | self._clearance("up", 2 * self._by_mm)
        if self._frame.is_tray:
            return
        yield Rescue(
            says=f"Widen the rabbet of all four by {by}; the clearance grows by {self._said(2 * self._by_mm)}.",
            changes=wider | more,
            minutes_min=4 * REPEAT_RABBET_MIN,
        )
        yield Rescue(
            says=f"Widen the rabbet of all four by {by}; cut the long points {self._said(2 * self._by_mm)} shorter.",
            changes=wider,
            minutes_min=4 * REPEAT_RABBET_MIN,
        )
        yield Rescue(
            says=f"Rip all four {by} narrower at the sight edge.",
            changes={f"{self._path}.section.face_width": _text(self._frame.settled.face_width_mm - self._by_mm)},
            minutes_min=4 * RIP_MIN,
            looks=Looks.A_LITTLE,
        )
        yield Rescue(says=f"Glue a strip of {by} into the rabbet and plane it flush.", minutes_min=STRIP_MIN)

    def from_other_wood(self) -> Iterator[Rescue]:
        """A new side from what is there: the shortest piece that is long enough; else it is bought."""
        found = tuple(self._from_what_is_there())
        yield from found[:MOST_SPARES]
        if not found:
            yield self._bought()

    def _from_what_is_there(self) -> Iterator[Rescue]:
        """Each stick whose off-cuts are long enough, the shortest first; else for two sides a stick for each."""
        by_stick: dict[tuple[str, bool], list[Spare]] = {}
        for spare in sorted(self._spares, key=lambda one: one.length_mm):
            by_stick.setdefault((spare.source or spare.name, spare.on_rack), []).append(spare)
        count = len(self._sides)
        taken = [one for spares in by_stick.values() if (one := self._placed(spares, count))]
        if not taken and count > 1:
            singles = [one for spares in by_stick.values() if (one := self._placed(spares, 1))]
            shortest = sorted((spare for (spare,) in singles), key=lambda one: one.length_mm)
            taken = [tuple(shortest[:count])] if len(shortest) >= count else []
        yield from (self._taken(one) for one in sorted(taken, key=lambda one: sum(spare.length_mm for spare in one)))

    def _placed(self, spares: Sequence[Spare], count: int) -> tuple[Spare, ...]:
        """The off-cuts of one stick that give so many sides, each the shortest that still does; none where too few."""
        room_mm = {number: spare.length_mm for number, spare in enumerate(spares)}
        used: list[int] = []
        for _ in range(count):
            wood_mm = {number: self._wood_mm(spares[number], used.count(number)) for number in room_mm}
            fits = [number for number, mm in room_mm.items() if mm >= wood_mm[number] - TOLERANCE_MM]
            if not fits:
                return ()
            best = min(fits, key=room_mm.__getitem__)
            room_mm[best] -= wood_mm[best]
            used.append(best)
        return tuple(spares[number] for number in used)

    def _taken(self, spares: tuple[Spare, ...]) -> Rescue:
        again = tuple(
            CutAgainOf(
                side=side,
                length_mm=self.long_mm,
                wood_mm=self._wood_mm(spare, spares[:number].count(spare)),
                source=spare.source,
                on_rack=spare.on_rack,
            )
            for number, (side, spare) in enumerate(zip(self._sides, spares, strict=True))
        )
        woods = [
            worded("{wood}, {length} long", wood=spare.name, length=self._at_most(spare.length_mm))
            for spare in dict.fromkeys(spares)
        ]
        return Rescue(
            says=joined("", [f"Cut {self._what} again from ", joined(", and ", woods), "."]),
            again=again,
            wood_mm=sum(one.wood_mm for one in again),
            minutes_min=sum(CUT_PIECE_MIN if spare.is_milled else MILL_PIECE_MIN for spare in spares),
        )

    def _bought(self) -> Rescue:
        needed_mm = len(self._sides) * self._wood_mm(None, 1) + 2 * self._plan.project.shop.end_trim.mm
        return Rescue(
            says=f"Buy wood for {self._what}: {self._at_least(needed_mm)} of stick, from the same board if you can.",
            again=tuple(CutAgainOf(side=side, length_mm=self.long_mm) for side in self._sides),
            wood_mm=needed_mm,
            minutes_min=len(self._sides) * MILL_PIECE_MIN,
            looks=Looks.A_LITTLE,
        )

    @property
    def _sides(self) -> tuple[str, ...]:
        """The sides that are spoiled."""
        place, sides = RECTANGLE_SIDES.index(self._side), len(RECTANGLE_SIDES)
        both = (self._side, RECTANGLE_SIDES[(place + 2) % sides])
        return both if self._trouble is Trouble.SPOILED_PAIR else both[:1]

    @property
    def _what(self) -> str:
        return "both sides" if len(self._sides) > 1 else f"the {self._side} side"

    def _wood_mm(self, spare: Spare | None, before: int) -> float:
        """What a new side takes of a stick: its long point, a saw cut, and first the ends of one from the rack."""
        shop = self._plan.project.shop
        ends_mm = 2 * shop.end_trim.mm if spare and spare.on_rack and not before else 0.0
        return self.long_mm + slant_kerf_mm(shop.kerf.mm, sides=len(RECTANGLE_SIDES)) + ends_mm

    def _passes(self, changes: Mapping[str, str]) -> bool:
        """Whether the whole program, with these changes, stops at nothing at which it does not stop today."""
        if not changes:
            return True
        try:
            return not stops_in(Plan(project_with(self._plan.project, changes))) - self._stops_today
        except FrameCalcError:
            return False

    @cached_property
    def _stops_today(self) -> Counter[str]:
        return stops_in(self._plan)

    @property
    def _path(self) -> str:
        return f"frames.{self._frame.frame.id}"

    def _clearance(self, axis: str, more_mm: float) -> dict[str, str]:
        sizes = self._frame.sizes
        now_mm = sizes.clearance_across_mm if axis == "across" else sizes.clearance_up_mm
        return {f"{self._path}.package.clearance_{axis}": _text(now_mm + more_mm)}

    def _rabbet(self, wider_mm: float) -> dict[str, str]:
        return {f"{self._path}.section.rabbet_width": _text(self._frame.frame.section.rabbet_width.mm + wider_mm)}

    def _said(self, length_mm: float) -> str:
        return describe_length(length_mm, unit=self._plan.project.unit)

    def _at_most(self, length_mm: float) -> str:
        return format_length(length_mm, step=self._frame.step, rounding=Rounding.DOWN).full

    def _at_least(self, length_mm: float) -> str:
        return format_length(length_mm, step=self._frame.step, rounding=Rounding.UP).full


def stops_in(plan: Plan) -> Counter[str]:
    """How often each thing stops a job, of every frame and of the whole.

    Source: derived.
    """
    of_frames = (
        f"{frame_id} {one.code}"
        for frame_id, frame in plan.frames.items()
        for one in frame.concerns
        if one.severity is Severity.STOP
    )
    of_job = (one.code for one in plan.obstacles if one.severity is Severity.STOP)
    return Counter([*of_frames, *of_job])


def _text(length_mm: float) -> str:
    return f"{length_mm:.4f} mm"
