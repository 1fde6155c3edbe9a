"""The sheet parts of a project: their size, count and material.

A part lies in the rabbet: its size to cut is the rabbet size less the clearance, rounded down to the step of the
tape. The part of a polygon is a polygon: it is laid out as the upright rectangle round it, and its corners are cut off
afterwards. Layers of one name, one thickness and one substance are one *material*, and are laid out together.
"""

from collections.abc import Iterable, Iterator
from itertools import count
from typing import TYPE_CHECKING

from framecalc.errors import FrameCalcError, quoted
from framecalc.findings import Rounding
from framecalc.geometry.outline import Point
from framecalc.plan.inputs import material_of
from framecalc.project import Layer
from framecalc.records import Record, replace
from framecalc.sheets.materials import SheetCutting, cutting_of
from framecalc.sheets.problem import CutSize, SheetPart, size_to_cut
from framecalc.units import TOLERANCE_MM, whole_steps_mm
from framecalc.words import typed

if TYPE_CHECKING:
    from framecalc.plan.frame import FramePlan


class Material(Record):
    """A material of parts: the name of their layers, the thickness as first typed, and the substance."""

    name: str
    thickness: str
    thickness_mm: float
    substance: str

    @property
    def title(self) -> str:
        """Its name with the thickness, unless the name already contains it."""
        name = typed(self.name[:1].upper() + self.name[1:])
        return name if self.thickness in name else name + f", {self.thickness}"

    @property
    def cutting(self) -> SheetCutting:
        """The way it is cut."""
        return cutting_of(self.substance)

    def is_called(self, name: str) -> bool:
        """Whether its layers have this name, ignoring case."""
        return self.name.casefold() == name.casefold()


class PolygonPart(Record):
    """A part that is a polygon: its name, its sides, its measure across the flats, and where its corners lie.

    The corners are places in the rectangle that it is cut from, from the left and from below.
    """

    name: str
    sides: int
    flats_mm: float
    corners: tuple[Point, ...]


class MaterialParts(Record):
    """All parts of one material, named by their frames; what is cut to of those that are polygons."""

    material: Material
    parts: tuple[SheetPart, ...]
    polygons: tuple[PolygonPart, ...] = ()

    @property
    def count(self) -> int:
        """How many parts there are."""
        return sum(part.count for part in self.parts)


def sheet_parts(frames: Iterable["FramePlan"], *, upright: Iterable[str]) -> tuple[MaterialParts, ...]:
    """List the sheet parts of frames by material, in the order in which the layers stand in the packages.

    Args:
        frames: the plans of all frames; each is wanted as often as it says.
        upright: names of layers whose parts may not turn.
    Raises:
        FrameCalcError: a frame cannot be computed, or its clearance leaves no part.
    """
    fixed = {name.casefold() for name in upright}
    found: dict[tuple[str, int, str], tuple[Material, list[SheetPart]]] = {}
    plans = tuple(frames)
    named = tuple(zip(plans, distinct(plan.frame.name for plan in plans), strict=True))
    for frame, name in named:
        for material, part in frame.sheet_parts:
            _, parts = found.setdefault(_key(material), (material, []))
            may_turn = material.name.casefold() not in fixed
            is_as_it_is = part.name == name and part.may_turn is may_turn
            parts.append(part if is_as_it_is else replace(part, name=name, may_turn=may_turn))
    polygons = {name: _polygon(frame, name) for frame, name in named if not frame.shape.is_rectangle}
    return tuple(
        MaterialParts(
            material=material,
            parts=tuple(parts),
            polygons=tuple(polygons[part.name] for part in parts if part.name in polygons),
        )
        for material, parts in found.values()
    )


def parts_of_frame(frame: "FramePlan") -> Iterator[tuple[Material, SheetPart]]:
    """The part of each material of one frame, all cut to one size.

    Raises:
        FrameCalcError: the frame cannot be computed, or its clearance leaves no part.
    """
    layers = tuple(_sheet_layers(frame))
    if not layers:
        return
    size, name = _size(frame), frame.frame.name
    for material, times in layers:
        wanted = times * frame.frame.count
        yield material, SheetPart(name=name, across_mm=size.across_mm, up_mm=size.up_mm, count=wanted)


def size_of_part(frame: "FramePlan") -> CutSize:
    """Find the size to cut of a part; of a polygon both are across its flats.

    Raises:
        FrameCalcError: the frame cannot be computed, or its clearance leaves no part.
    """
    try:
        frame.compute_all()
        sizes = frame.sizes
        return size_to_cut(
            rabbet_across_mm=sizes.rabbet_across_mm,
            rabbet_up_mm=sizes.rabbet_up_mm,
            clearance_across_mm=sizes.clearance_across_mm,
            clearance_up_mm=sizes.clearance_up_mm,
            step_mm=float(frame.step.size_mm),
        )
    except FrameCalcError as error:
        named = quoted(frame.frame.name) + ": " + error.wording
        raise type(error)(named, field=error.field, lengths=error.lengths) from error


def distinct(names: Iterable[str]) -> Iterator[str]:
    """Unique names: a repeated one gets a number.

    >>> list(distinct(["hall", "hall", "hall (2)"]))
    ['hall', 'hall (2)', 'hall (2) (2)']
    """
    used: set[str] = set()
    for name in names:
        numbered = (name + f" ({number})" for number in count(2))
        name = name if name not in used else next(other for other in numbered if other not in used)
        used.add(name)
        yield name


def _sheet_layers(frame: "FramePlan") -> Iterator[tuple[Material, int]]:
    """The materials of the sheet layers of one frame, and how many layers have each."""
    counted: dict[tuple[str, int, str], list[Material]] = {}
    for material in (_material(layer) for layer in frame.layers if layer.kind.is_sheet):
        counted.setdefault(_key(material), []).append(material)
    yield from ((alike[0], len(alike)) for alike in counted.values())


def _material(layer: Layer) -> Material:
    return Material(
        name=layer.name,
        thickness=layer.thickness.text,
        thickness_mm=layer.thickness.mm,
        substance=material_of(layer),
    )


def _key(material: Material) -> tuple[str, int, str]:
    return material.name.casefold(), round(material.thickness_mm / TOLERANCE_MM), material.substance


def _size(frame: "FramePlan") -> CutSize:
    """The rectangle that the part is cut as, or that a polygon is cut from, which is rounded up to hold it."""
    size = size_of_part(frame)
    if frame.shape.is_rectangle:
        return size
    step_mm, extent = float(frame.step.size_mm), frame.shape.extent(size.across_mm, size.up_mm)
    across_mm, up_mm = (
        whole_steps_mm(one_mm, step_mm=step_mm, rounding=Rounding.UP) for one_mm in (extent.across_mm, extent.up_mm)
    )
    return CutSize(across_mm=across_mm, up_mm=up_mm)


def _polygon(frame: "FramePlan", name: str) -> PolygonPart:
    """The polygon in its rectangle, in the middle across, its level side below."""
    size, across_mm = size_of_part(frame), _size(frame).across_mm / 2
    extent = frame.shape.extent(size.across_mm, size.up_mm)
    corners = frame.shape.corners(size.across_mm, size.up_mm)
    return PolygonPart(
        name=name,
        sides=frame.shape.sides,
        flats_mm=size.across_mm,
        corners=tuple((round(x_mm + across_mm, 6), round(y_mm + extent.below_mm, 6)) for x_mm, y_mm in corners),
    )
