"""The sheets of a whole project: for each material its parts, its stock, and the problem of laying them out.

It stops at the problem; solving it is a job beside the plan. Where no stock is typed for a material, a size that is
usually sold stands in, and the group says that it is an estimate.
"""

from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from decimal import Decimal
from typing import TypeAlias

from framecalc.errors import FrameCalcError, ImpossibleLayout
from framecalc.plan.frame import FramePlan
from framecalc.plan.sheets.parts import Material, MaterialParts, PolygonPart, distinct, sheet_parts
from framecalc.project import Project
from framecalc.project.sheets import StockSheet as TypedSheet
from framecalc.records import Record, cached_property, replace
from framecalc.sheets.answer import SheetLayout
from framecalc.sheets.check import faults_of
from framecalc.sheets.materials import name_as_sold, sizes_sold
from framecalc.sheets.problem import SheetPart, SheetProblem, StockSheet, sheet_problem
from framecalc.tables.sheets import SoldSheet
from framecalc.units import TOLERANCE_MM, describe_length
from framecalc.words import say


class SheetGroup(Record, dict=True):
    """One material: its parts, its stock, and the problem, or the sentence that says why there is none.

    `left_out` are parts that fit no sheet, each by its name with the sentence that says why; the problem is about the
    others. `shared` names stock that also counts for another thickness.
    """

    material: Material
    parts: tuple[SheetPart, ...]
    polygons: tuple[PolygonPart, ...]
    problem: SheetProblem | None
    refusal: str
    left_out: Mapping[str, str]
    is_estimate: bool
    shared: tuple[str, ...]

    @cached_property
    def key(self) -> str:
        """The hash of the problem, which is the key of its layout; blank without a problem."""
        return self.problem.fingerprint if self.problem else ""

    def faults(self, layout: SheetLayout) -> tuple[str, ...]:
        """The faults of a layout of this group that an independent check finds; usually none."""
        if self.problem is None or layout.fingerprint != self.key:
            return ("it answers another question",)
        return faults_of(layout, problem=self.problem)


SheetsBefore: TypeAlias = "Callable[[], SheetsPlan | None]"
"""Finds the sheets of an earlier plan."""


def no_sheets() -> None:
    """No earlier plan."""


class SheetsPlan:
    """The sheets of a project: its materials, their parts and stock.

    Where a plan before this one has the same parts and stock, its groups are taken over.
    """

    def __init__(self, project: Project, frames: Mapping[str, FramePlan], *, before: SheetsBefore = no_sheets) -> None:
        """Plan the sheets of a project.

        Args:
            before: finds the sheets of a plan before this one.
        """
        self._project = project
        self._frames = frames
        self._before = before

    @cached_property
    def groups(self) -> tuple[SheetGroup, ...]:
        """One group for each material, in the order of the packages.

        Raises:
            FrameCalcError: a frame cannot be computed.
        """
        before = self._before()
        return before._own_groups if before and self._is_like(before) else self._own_groups

    @cached_property
    def _own_groups(self) -> tuple[SheetGroup, ...]:
        return tuple(self._group(one) for one in self._materials)

    def _is_like(self, before: "SheetsPlan") -> bool:
        """Whether everything from which groups follow is the same."""
        ours, theirs = self._project, before._project
        is_shared = ours.sheets is theirs.sheets and ours.shop is theirs.shop and ours.unit is theirs.unit
        with suppress(FrameCalcError):
            return is_shared and self._materials == before._materials
        return False

    @cached_property
    def idle(self) -> tuple[TypedSheet, ...]:
        """Stock that serves no part of this project."""
        return tuple(
            typed
            for typed in self._project.sheets.stock
            if not any(_serves(typed, one.material) for one in self._materials)
        )

    def stock_of(self, material: Material) -> tuple[TypedSheet, ...]:
        """The typed stock that a material is cut from."""
        return tuple(typed for typed in self._project.sheets.stock if _serves(typed, material))

    @cached_property
    def _materials(self) -> tuple[MaterialParts, ...]:
        return sheet_parts(self._frames.values(), upright=self._project.sheets.upright)

    def _group(self, wanted: MaterialParts) -> SheetGroup:
        material = wanted.material
        stock = _told_apart(_offered(typed) for typed in self.stock_of(material))
        problem, refusal = self._posed(wanted, stock)
        left_out = self._left_out(wanted, stock) if refusal else {}
        if left_out:
            fitting = replace(wanted, parts=tuple(part for part in wanted.parts if part.name not in left_out))
            problem, refusal = self._posed(fitting, stock)
        return SheetGroup(
            material=material,
            parts=wanted.parts,
            polygons=wanted.polygons,
            problem=problem,
            refusal=refusal,
            left_out=left_out,
            is_estimate=not stock,
            shared=tuple(self._shared(material)),
        )

    def _left_out(self, wanted: MaterialParts, stock: tuple[StockSheet, ...]) -> dict[str, str]:
        """The parts that cannot be cut even alone, with the reason; none where none of them can."""
        alone = {part.name: self._posed(replace(wanted, parts=(part,)), stock)[1] for part in wanted.parts}
        found = {name: refusal for name, refusal in alone.items() if refusal}
        return found if len(found) < len(alone) else {}

    def _posed(self, wanted: MaterialParts, stock: tuple[StockSheet, ...]) -> tuple[SheetProblem | None, str]:
        try:
            return (self._problem(wanted, stock) if stock else self._estimate(wanted)), ""
        except FrameCalcError as error:
            return None, self._worded(error)

    def _problem(self, wanted: MaterialParts, stock: Iterable[StockSheet]) -> SheetProblem:
        cutting = wanted.material.cutting
        way = self._project.sheets.way(cutting)
        blade_mm = self._project.shop.kerf.mm if cutting.is_sawn else 0.0
        return sheet_problem(
            parts=wanted.parts,
            stock=stock,
            kerf_mm=blade_mm if way.kerf is None else way.kerf.mm,
            trim_mm=way.trim.mm,
            least_strip_mm=way.least_strip.mm,
            goal=self._project.sheets.aim,
        )

    def _estimate(self, wanted: MaterialParts) -> SheetProblem:
        """The problem with the smallest sheet as sold that holds every part, those of the project's unit first."""
        sold = sizes_sold(wanted.material.substance, unit=self._project.unit)
        refusal: FrameCalcError = ImpossibleLayout(
            "Nothing to cut from: add a sheet, on hand or to buy.",
            field="stock",
        )
        for sheet in sold:
            try:
                return self._problem(wanted, (_as_sold(sheet),))
            except FrameCalcError as error:
                refusal = error
        raise refusal

    def _shared(self, material: Material) -> Iterable[str]:
        for typed in self.stock_of(material):
            served = sum(_serves(typed, one.material) for one in self._materials)
            if typed.count is not None and served > 1:
                yield typed.name

    def _worded(self, error: FrameCalcError) -> str:
        """An error in the project's unit and words."""
        unit = self._project.unit
        lengths = {name: describe_length(length_mm, unit=unit) for name, length_mm in error.lengths.items()}
        sentence = error.wording.format_map(lengths) if lengths else error.sentence
        return say(sentence, self._project.shop.words)


def _serves(typed: TypedSheet, material: Material) -> bool:
    """Whether stock is for a material: by the name of its layers, and the thickness where one is typed."""
    same = typed.thickness is None or abs(typed.thickness.mm - material.thickness_mm) <= TOLERANCE_MM
    return same and material.is_called(typed.serves)


def _offered(typed: TypedSheet) -> StockSheet:
    return StockSheet(
        name=typed.name,
        across_mm=typed.across.mm,
        up_mm=typed.up.mm,
        count=typed.count,
        cost=typed.price or Decimal(0),
    )


def _as_sold(sheet: SoldSheet) -> StockSheet:
    return StockSheet(name=name_as_sold(sheet), across_mm=sheet.across_mm, up_mm=sheet.up_mm)


def _told_apart(stock: Iterable[StockSheet]) -> tuple[StockSheet, ...]:
    sheets = tuple(stock)
    names = distinct(sheet.name for sheet in sheets)
    return tuple(replace(sheet, name=name) for sheet, name in zip(sheets, names, strict=True))
