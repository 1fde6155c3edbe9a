"""A frame as cut: what was measured put in the place of what was typed, and all of the frame planned again.

Pieces of a frame may differ, so there are two plans, by the least and by the greatest of each measurement; they are one
where all came out alike. Until a side is cut to length the outside follows what came out; once long points are
measured it is what it is, and the clearance follows. Neither ever changes the plan.
"""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from framecalc.bench.as_cut import Quantity, Range, Taken, came_out, in_force, ranges
from framecalc.errors import FrameCalcError
from framecalc.findings import Finding, Severity
from framecalc.plan.inputs import depth_for_package_mm, layers_of
from framecalc.plan.light import Concern
from framecalc.project import project_with
from framecalc.project.corners import CutSide
from framecalc.records import cached_property
from framecalc.sizes.polygons import flats_of_side_mm
from framecalc.sizes.shape import RECTANGLE_SIDES, Shape
from framecalc.units import TOLERANCE_MM

if TYPE_CHECKING:
    from framecalc.plan.frame import FramePlan

_SECTION_FIELD = {
    Quantity.THICKNESS: "section.thickness",
    Quantity.FACE_WIDTH: "section.face_width",
    Quantity.RABBET_WIDTH: "section.rabbet_width",
    Quantity.RABBET_DEPTH: "section.rabbet_depth",
}
_OF_THE_RABBET = (Quantity.RABBET_WIDTH, Quantity.RABBET_DEPTH)
_OF_THE_DEPTH = (Quantity.RABBET_DEPTH, Quantity.PACKAGE)

_BEYOND = Finding(
    code="as-cut.beyond",
    severity=Severity.STOP,
    sentence="What was measured is too far from the plan: measure again, or change the plan.",
    why="No frame can be planned with these sizes.",
    source="derived",
    argument="as_cut",
)


class AsCutPlan:
    """What was measured of a frame, and the frame planned by it."""

    def __init__(self, planned: "FramePlan") -> None:
        self._planned = planned
        self._frame = planned.frame

    @property
    def is_measured(self) -> bool:
        """Whether anything was, long points included."""
        return bool(self._frame.as_cut) or bool(self._long_mm)

    @cached_property
    def planned_mm(self) -> dict[Quantity, float]:
        """What can be measured of the frame, as planned [mm]; a tray has no rabbet.

        Raises:
            FrameCalcError: the frame cannot be computed.
        """
        planned, section = self._planned, self._frame.section
        sizes_mm = {
            Quantity.THICKNESS: section.thickness.mm,
            Quantity.FACE_WIDTH: planned.settled.face_width_mm,
            Quantity.RABBET_WIDTH: section.rabbet_width.mm,
            Quantity.RABBET_DEPTH: section.rabbet_depth.mm,
            Quantity.PACKAGE: planned.stack.nominal_mm,
        }
        left_out = _OF_THE_RABBET if planned.is_tray else ()
        return {quantity: size_mm for quantity, size_mm in sizes_mm.items() if quantity not in left_out}

    @cached_property
    def taken(self) -> tuple[Taken, ...]:
        """The measurements that count, the oldest first."""
        typed = (Taken(side=one.side, quantity=one.quantity, value_mm=one.size.mm) for one in self._frame.as_cut)
        return in_force(typed)

    @cached_property
    def ranges(self) -> tuple[Range, ...]:
        """How every measured quantity came out, beside its plan.

        Raises:
            FrameCalcError: the frame cannot be computed.
        """
        return ranges(self.taken, planned_mm=self.planned_mm)

    @cached_property
    def is_as_planned(self) -> bool:
        """Whether all that was measured came out as planned."""
        return all(one.is_as_planned for one in self.ranges) and not self._is_cut_otherwise

    @property
    def _is_cut_otherwise(self) -> bool:
        """Whether the measured long points make another outside than the planned one."""
        sizes = self._planned.sizes
        planned_mm = (sizes.outside_across_mm, sizes.outside_up_mm)
        return self.outside_mm is not None and any(
            abs(cut_mm - size_mm) > TOLERANCE_MM for cut_mm, size_mm in zip(self.outside_mm, planned_mm, strict=True)
        )

    @property
    def _long_mm(self) -> dict[str, float]:
        """The long points that were measured, by the name or number of their side [mm]."""
        corner, shape = self._frame.corner, Shape(sides=self._frame.shape.sides)
        cut: dict[str, CutSide] = {one.id.removeprefix("s"): one for one in corner.numbered}
        if shape.is_rectangle:
            cut = {side: getattr(corner.sides, side) for side in RECTANGLE_SIDES}
        return {side: one.long.mm for side, one in cut.items() if one.long and side in shape.names}

    @cached_property
    def outside_mm(self) -> tuple[float, float] | None:
        """The outside across and up by the measured long points, the shorter of two [mm]; None before any.

        Of a polygon both are the measure across the flats, by its shortest side.
        """
        if not self._long_mm:
            return None
        planned, sizes = self._planned, self._planned.sizes
        edges_mm = planned.shape.edges_mm(sizes.outside_across_mm, sizes.outside_up_mm)
        long_mm = dict(zip(planned.shape.names, edges_mm, strict=True)) | self._long_mm
        if not planned.shape.is_rectangle:
            return (flats_of_side_mm(min(long_mm.values()), sides=planned.shape.sides),) * 2
        return min(long_mm["top"], long_mm["bottom"]), min(long_mm["left"], long_mm["right"])

    @cached_property
    def by_least(self) -> "FramePlan":
        """The frame planned by the least of each measurement; the plan itself where nothing came out otherwise."""
        return self._replanned({one.quantity: one.least_mm for one in self.ranges})

    @cached_property
    def by_greatest(self) -> "FramePlan":
        """The frame planned by the greatest of each measurement."""
        greatest_mm = {one.quantity: one.greatest_mm for one in self.ranges}
        if all(abs(one.greatest_mm - one.least_mm) <= TOLERANCE_MM for one in self.ranges):
            return self.by_least
        return self._replanned(greatest_mm)

    @cached_property
    def for_the_saw(self) -> "FramePlan":
        """The plan that the stops are set by: the larger one, since an opening too small takes no package."""
        return max(
            (self.by_greatest, self.by_least), key=lambda one: one.sizes.outside_across_mm + one.sizes.outside_up_mm
        )

    @cached_property
    def room_mm(self) -> float:
        """The least room behind the package, less than 0 where it stands proud [mm]."""
        found = {one.quantity: one for one in self.ranges}
        depth_mm, package_mm = depth_for_package_mm(self._frame), self._planned.stack.nominal_mm
        if Quantity.RABBET_DEPTH in found:
            depth_mm = found[Quantity.RABBET_DEPTH].least_mm
        if Quantity.PACKAGE in found:
            package_mm = found[Quantity.PACKAGE].greatest_mm
        return depth_mm - package_mm

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """How each quantity came out that did not come out as planned, and what it does."""
        found = tuple(self._came_out(one) for one in self.ranges if not one.is_as_planned)
        return (*found, *([_BEYOND] if self._is_beyond else []))

    @cached_property
    def concerns(self) -> tuple[tuple["FramePlan", Concern], ...]:
        """What is found or refused as cut and was not as planned, each with the plan that says it."""
        if self.is_as_planned:
            return ()
        before = {(one.code, one.severity) for one in self._planned.concerns}
        new: dict[str, tuple[FramePlan, Concern]] = {}
        for plan in (self.by_least, self.by_greatest):
            for one in plan.concerns:
                if one.severity is not Severity.NOTE and (one.code, one.severity) not in before:
                    new.setdefault(one.code, (plan, one))
        return tuple(new.values())

    def _came_out(self, found: Range) -> Finding:
        try:
            effect, lengths_mm = self._effect(found.quantity)
        except FrameCalcError:
            effect, lengths_mm = "planned so, it cannot be made", {}
        return came_out(found, effect=effect, lengths_mm=lengths_mm, severity=Severity.NOTE)

    def _effect(self, quantity: Quantity) -> tuple[str, dict[str, float]]:
        """What a quantity that came out otherwise does, in a short clause."""
        if quantity in _OF_THE_DEPTH:
            if self.room_mm < 0:
                return "the package stands {room} proud", {"room": -self.room_mm}
            enough = "" if self.concerns else ", still enough"
            return "{room} left behind the package" + enough, {"room": self.room_mm}
        if quantity is Quantity.THICKNESS:
            return "the lip comes out {lip}", {"lip": self._least_lip_mm}
        sizes = self.for_the_saw.sizes
        if self.outside_mm:
            return "clearance {clearance}", {"clearance": min(sizes.clearance_across_mm, sizes.clearance_up_mm)}
        return "cut long points {across} × {up}", {"across": sizes.outside_across_mm, "up": sizes.outside_up_mm}

    @property
    def _least_lip_mm(self) -> float:
        lips_mm = (
            one.frame.section.thickness.mm - depth_for_package_mm(one.frame) for one in self._both if not one.is_tray
        )
        return min(lips_mm, default=0.0)

    @property
    def _both(self) -> tuple["FramePlan", "FramePlan"]:
        return self.by_least, self.by_greatest

    def _replanned(self, sizes_mm: Mapping[Quantity, float]) -> "FramePlan":
        """The frame planned with these sizes; the plan itself where they are those of the plan."""
        if self.is_as_planned:
            return self._planned
        try:
            project = project_with(self._planned.project, self._changed(sizes_mm))
        except FrameCalcError:
            return self._planned
        return type(self._planned)(project, project.frame(self._frame.id) or self._frame)

    def _changed(self, sizes_mm: Mapping[Quantity, float]) -> dict[str, str]:
        """The texts by their full paths."""
        return {f"frames.{self._frame.id}.{field}": text for field, text in self._changes(sizes_mm)}

    @cached_property
    def _is_beyond(self) -> bool:
        """Whether what was measured is beyond what any frame is planned with."""
        return not self.is_as_planned and self._planned in (self.by_least, self.by_greatest)

    def _changes(self, sizes_mm: Mapping[Quantity, float]) -> Iterator[tuple[str, str]]:
        """The fields of the frame that what came out changes, with their texts."""
        for quantity, size_mm in sizes_mm.items():
            if quantity in _SECTION_FIELD:
                yield _SECTION_FIELD[quantity], _text(size_mm)
        if Quantity.PACKAGE in sizes_mm:
            yield from self._layers(sizes_mm[Quantity.PACKAGE] - self._planned.stack.nominal_mm)
        start = self._frame.start
        if Quantity.FACE_WIDTH in sizes_mm and start.given == "stick" and start.stick_solves == "face width":
            yield "start.given", "artwork"
        if self.outside_mm and not self._planned.is_tray and start.given in ("artwork", "stock", "stick"):
            yield from self._clearances(self.outside_mm, sizes_mm)

    def _layers(self, more_mm: float) -> Iterator[tuple[str, str]]:
        """The package as thick as it was measured: the thickest layer takes the difference, and none is uncertain."""
        layers = layers_of(self._frame)
        if not layers:
            return
        thickest = max(layers, key=lambda layer: layer.thickness.mm)
        yield f"package.layers.{thickest.id}.thickness", _text(thickest.thickness.mm + more_mm)
        for layer in layers:
            yield f"package.layers.{layer.id}.tolerance", _text(0.0)

    def _clearances(
        self, outside_mm: tuple[float, float], sizes_mm: Mapping[Quantity, float]
    ) -> Iterator[tuple[str, str]]:
        """The clearance that an outside of this size leaves round the package."""
        size_mm = {**self.planned_mm, **sizes_mm}
        land_mm = size_mm[Quantity.FACE_WIDTH] - size_mm[Quantity.RABBET_WIDTH]
        sizes = self._planned.sizes
        across_mm, up_mm = outside_mm
        yield "package.clearance_across", _text(across_mm - 2 * land_mm - sizes.package_across_mm)
        yield "package.clearance_up", _text(up_mm - 2 * land_mm - sizes.package_up_mm)


def _text(length_mm: float) -> str:
    return f"{length_mm:.4f} mm"
