"""The sides as cut: how well the measured sides close, which end to shave, which sides of a batch go together."""

from decimal import Decimal
from math import radians, sin

from framecalc.corners.angles import write_angle
from framecalc.corners.closing import Closing, Tips, close_frame, closing_findings, require_closable
from framecalc.corners.cut_members import RIGHT_DEG, CutMember, error_by_feeler_deg, members_from_the_saw
from framecalc.corners.pairing import LooseMember, Pairing, pair_sides
from framecalc.corners.saw import MOST_ERROR_DEG
from framecalc.corners.shaving import Recut, Shave, best_shave, recut_ends
from framecalc.errors import OutOfRange
from framecalc.findings import Finding
from framecalc.plan.corners.saw import SawPlan
from framecalc.project.corners import Corner, CutSide, Sides
from framecalc.records import cached_property, replace
from framecalc.sizes.chain import Sizes
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.units import Length


class PartsPlan:
    """The plan of the measured sides or, while nothing is measured, of those that the saw will cut."""

    def __init__(self, corner: Corner, sizes: Sizes, saw: SawPlan, *, mitre_length_mm: float) -> None:
        self._corner = corner
        self._sizes = sizes
        self._saw = saw
        self._mitre_length_mm = mitre_length_mm

    @property
    def are_measured(self) -> bool:
        """Whether any side is measured."""
        return self._corner.sides != Sides() or (not self.are_four and any(map(_is_typed, self._typed.values())))

    @property
    def are_foretold(self) -> bool:
        """Whether the sides are those that the saw will cut, by its test cuts."""
        return not self.are_measured and bool(self._saw.current_deg)

    @property
    def are_four(self) -> bool:
        """Whether the frame has four sides, which have names; those of others are numbered."""
        return self._sizes.shape.sides == len(RECTANGLE_SIDES)

    @cached_property
    def members(self) -> tuple[CutMember, ...]:
        """Every side; lengths and angles that are not measured are as planned."""
        if self.are_foretold:
            return self._foretold()
        planned_mm = self._planned_mm
        return tuple(self._member(side, cut, planned_mm[side]) for side, cut in self._typed.items())

    @property
    def _planned_mm(self) -> dict[str, float]:
        """The long edge of every side as planned, by its name or number."""
        shape = self._sizes.shape
        edges_mm = shape.edges_mm(self._sizes.outside_across_mm, self._sizes.outside_up_mm)
        return dict(zip(shape.names, edges_mm, strict=True))

    @property
    def _typed(self) -> dict[str, CutSide]:
        """What is typed of every side, by its name or number."""
        if self.are_four:
            return {side: getattr(self._corner.sides, side) for side in RECTANGLE_SIDES}
        known: dict[str, CutSide] = {one.id: one for one in self._corner.numbered}
        return {name: known.get(f"s{name}", CutSide()) for name in self._sizes.shape.names}

    def path_of(self, side: str) -> str:
        """Where a side is typed, within a frame."""
        return f"corner.sides.{side}" if self.are_four else f"corner.numbered.s{side}"

    @cached_property
    def closing(self) -> Closing | None:
        """How well the sides can close, tips free to slide; None while neither sides nor saw are known."""
        return self._closed(Tips.FREE)

    @cached_property
    def flush(self) -> Closing | None:
        """How well they close when the clamps hold the tips flush."""
        return self._closed(Tips.FLUSH)

    @cached_property
    def shave(self) -> Shave | None:
        """Which end to shave and by how much; None if no gap is visible."""
        if self.closing is None or self.closing.worst_gap_mm <= self._corner.gap.mm:
            return None
        return best_shave(self.members, mitre_length_mm=self._mitre_length_mm)

    @cached_property
    def recut(self) -> Recut | None:
        """Which ends to cut again; nothing where none is off, or no side is in hand."""
        if self.closing is None or not self.are_measured:
            return None
        return recut_ends(
            self.members,
            within_deg=self._saw.tolerance.each_end_deg,
            within_mm=self._corner.gap.mm,
            mitre_length_mm=self._mitre_length_mm,
        )

    @cached_property
    def pairing(self) -> Pairing | None:
        """Which sides of a batch go together, when as many are typed of each kind.

        Raises:
            OutOfRange: the texts are not angles, or the counts of the sides differ.
        """
        kinds = [_loose(side, getattr(self._corner.batch, side)) for side in RECTANGLE_SIDES]
        if not any(kinds):
            return None
        counts = {len(kind) for kind in kinds}
        if len(counts) > 1:
            said = ", ".join(f"{len(kind)} {side}" for kind, side in zip(kinds, RECTANGLE_SIDES, strict=True))
            raise OutOfRange(f"Enter as many of each side; typed are {said}.", field="corner.batch.top")
        return pair_sides(kinds, frames=counts.pop())

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """The findings about the sides."""
        found = closing_findings(self.closing, gap_mm=self._corner.gap.mm) if self.closing else ()
        return tuple(replace(finding, argument=self._place_of(finding.argument)) for finding in found)

    def require_closable(self) -> None:
        """Refuse what is not worked out, without working it out; gaps and steps of the rest stop nobody.

        Raises:
            OutOfRange, ImpossibleSize: as `closing` and `pairing`.
        """
        _ = self.pairing
        if self._is_known:
            self._refuse_names()
            require_closable(self.members, mitre_length_mm=self._mitre_length_mm)

    def _place_of(self, argument: str) -> str:
        """Where an argument of the topic is typed: of a polygon at the first side that is."""
        first = next((name for name, cut in self._typed.items() if _is_typed(cut)), "")
        field = {"angles": "start", "long_mm": "long"}.get(argument)
        return f"{self.path_of(first)}.{field}" if field and first and not self.are_four else argument

    @property
    def _is_known(self) -> bool:
        return self.are_measured or self.are_foretold

    def _closed(self, tips: Tips) -> Closing | None:
        if not self._is_known:
            return None
        self._refuse_names()
        return close_frame(self.members, mitre_length_mm=self._mitre_length_mm, tips=tips)

    def _refuse_names(self) -> None:
        if not self.are_four and self._corner.sides != Sides():
            raise OutOfRange(
                f"Leave the four measured sides blank, for a frame of {self._sizes.shape.sides} sides.",
                field="shape.sides",
            )

    def _member(self, side: str, cut: CutSide, planned_mm: float) -> CutMember:
        return CutMember(
            side=side,
            long_mm=cut.long.mm if cut.long else planned_mm,
            start_deg=self._seen_deg(cut.start, cut.start_gap, f"{self.path_of(side)}.start"),
            finish_deg=self._seen_deg(cut.finish, cut.finish_gap, f"{self.path_of(side)}.finish"),
        )

    def _seen_deg(self, angle: Decimal | None, gap: Length | None, path: str) -> float:
        """The angle of an end as seen from the front, where a right one has 45°; it is measured laid flat."""
        if angle is not None and gap is not None:
            raise OutOfRange("Enter the angle of an end or its gap, not both.", field=f"{path}_gap")
        if gap is not None:
            return self._gauged_deg(gap.mm, path)
        if angle is None:
            return RIGHT_DEG
        right_deg = self._sizes.shape.end_deg
        if abs(float(angle) - right_deg) > MOST_ERROR_DEG:
            least, most = write_angle(right_deg - MOST_ERROR_DEG), write_angle(right_deg + MOST_ERROR_DEG)
            raise OutOfRange(
                f"Enter {least} to {most} for an end that is right at {write_angle(right_deg)}.",
                field=path,
            )
        return RIGHT_DEG + (float(angle) - right_deg) * self._sizes.shape.seen_ratio

    def _gauged_deg(self, gap_mm: float, path: str) -> float:
        """The same of an end that was held against a true block, laid flat."""
        shape = self._sizes.shape
        flat_mm = self._sizes.face_width_mm / sin(radians(shape.end_deg))
        error_deg = error_by_feeler_deg(gap_mm, mitre_length_mm=flat_mm)
        if abs(error_deg) > MOST_ERROR_DEG:
            says = f"Measure again: this gap means {write_angle(abs(error_deg))} at one end."
            raise OutOfRange(says, field=f"{path}_gap")
        return RIGHT_DEG + error_deg * shape.seen_ratio

    def _foretold(self) -> tuple[CutMember, ...]:
        fences, current_deg = self._saw.fences, self._saw.current_deg
        mean_deg = sum(current_deg) / len(current_deg)
        left_deg, right_deg = (fences.left_deg, fences.right_deg) if fences else (mean_deg, mean_deg)
        seen_ratio = self._sizes.shape.seen_ratio
        return members_from_the_saw(
            self._planned_mm, left_error_deg=left_deg * seen_ratio, right_error_deg=right_deg * seen_ratio
        )


def _is_typed(side: CutSide) -> bool:
    """Whether anything of a side is measured."""
    return any((side.long, side.start, side.finish, side.start_gap, side.finish_gap))


def _loose(side: str, typed: str) -> tuple[LooseMember, ...]:
    return tuple(
        LooseMember(name=f"{side} {number}", error_deg=_error_deg(word, side))
        for number, word in enumerate(typed.split(), start=1)
    )


def _error_deg(word: str, side: str) -> float:
    try:
        error_deg = float(word.replace(",", ".").replace("−", "-").removesuffix("°"))
    except ValueError:
        error_deg = 99.0
    if not abs(error_deg) <= 2 * MOST_ERROR_DEG:
        raise OutOfRange("Enter an error of two ends of −10° to 10°", field=f"corner.batch.{side}")
    return error_deg
