"""Quantities from finished cutting plans and sheet layouts, for the price of a job."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from fractions import Fraction
from functools import lru_cache

from framecalc.errors import ImpossibleSize
from framecalc.package.layers import LayerKind
from framecalc.plan.frame import FramePlan
from framecalc.plan.price.wanted import WantedItem
from framecalc.plan.sheets.covers import FrameCover, covers_of, cut_covers
from framecalc.plan.sheets.sheets import SheetGroup
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.wood_use import wood_use
from framecalc.price.counts import MaterialUse, quantity_taken
from framecalc.price.quantities import JobQuantity, Measure
from framecalc.records import Record, cached_property, replace
from framecalc.sheets.answer import SheetLayout
from framecalc.timber.sticks.answer import CutStick, StickPlan

USUAL_STICK = "a cutting plan with sticks of the usual length, as no stock is typed"
THE_ROLL, COVER_SIZES = "the rows on the roll", "the sizes of the dust covers"
AREAS = frozenset({Measure.AREA_M2, Measure.AREA_FT2})
USUAL_SHEET = "a layout on sheets of a usual size, as no stock is typed"


class LaidOut(Record):
    """Every wood and every sheet material of a job, each with its cutting plan or layout where that is finished."""

    wood: tuple[tuple[TimberGroup, StickPlan | None], ...] = ()
    sheets: tuple[tuple[SheetGroup, SheetLayout | None], ...] = ()


_Material = tuple[tuple[Fraction, ...], MaterialUse | None]
"""How much of a material each frame needs, and what its plan takes, where that is finished."""


class FinishedCounts:
    """Counts items in the finished plans of a job: each material once, whatever the items that ask for it.

    Source: derived.
    """

    def __init__(self, plans: Sequence[FramePlan], laid_out: LaidOut) -> None:
        """Count in what is laid out of all frames."""
        self._plans, self.laid_out = plans, laid_out
        self._of_layers: dict[str, tuple[_Material, ...]] = {}

    def of(self, wanted: WantedItem) -> JobQuantity | None:
        """The quantity of an item; None where a plan of its materials is missing, or none counts it."""
        if wanted.layer == LayerKind.DUST_COVER and wanted.measure in AREAS:
            return _of_covers(wanted, self._plans)
        paying = [wanted.is_for(plan.frame.id) for plan in self._plans]
        materials = self._woods if wanted.is_wood else self._sheets(wanted.layer) if wanted.is_sheet else ()
        taken = [one for needs, one in materials if any(need for need, pays in zip(needs, paying, strict=True) if pays)]
        known = [one for one in taken if one]
        if not known or len(known) < len(taken):
            return None
        counted_by = "the cutting plan" if wanted.is_wood else "the sheet layout"
        return quantity_taken(wanted.measure, taken=known, wanted=paying, amount=wanted.amount, counted_by=counted_by)

    @cached_property
    def _woods(self) -> tuple[_Material, ...]:
        return tuple(_woods(self._plans, self.laid_out))

    def _sheets(self, layer: str) -> tuple[_Material, ...]:
        if layer not in self._of_layers:
            self._of_layers[layer] = tuple(_sheets(layer, self._plans, self._layouts))
        return self._of_layers[layer]

    @cached_property
    def _layouts(self) -> tuple[tuple[SheetGroup, MaterialUse | None], ...]:
        """Every sheet material with what its layout takes, whatever kinds of layers that is shared out among."""
        return tuple(
            (group, _sheets_taken(group, layout) if layout else None) for group, layout in self.laid_out.sheets
        )


def _of_covers(wanted: WantedItem, plans: Sequence[FramePlan]) -> JobQuantity | None:
    """The area of the roll that dust covers take, shared out by their sizes; without a roll that of the covers."""
    payers = [plan for plan in plans if wanted.is_for(plan.frame.id)]
    covers = {one.frame_id: one for one in covers_of(payers)}
    if not covers:
        return None
    areas = [_cover_mm2(covers.get(plan.frame.id)) for plan in plans]
    with suppress(ImpossibleSize):
        if roll := cut_covers(plans[0].project, covers.values()):
            taken = MaterialUse(
                pieces=1, shares=tuple(areas), area_mm2=Fraction(roll.length_mm) * Fraction(roll.width_mm)
            )
            return quantity_taken(
                wanted.measure, taken=[taken], wanted=[True] * len(plans), amount=wanted.amount, counted_by=THE_ROLL
            )
    taken = MaterialUse(pieces=1, shares=tuple(areas), area_mm2=sum(areas, Fraction(0)), estimate=COVER_SIZES)
    return quantity_taken(
        wanted.measure, taken=[taken], wanted=[True] * len(plans), amount=wanted.amount, counted_by=""
    )


def _cover_mm2(cover: FrameCover | None) -> Fraction:
    return Fraction(cover.across_mm) * Fraction(cover.up_mm) * cover.count if cover else Fraction(0)


def _woods(plans: Sequence[FramePlan], laid_out: LaidOut) -> Iterator[_Material]:
    """The woods that are milled here; bought mouldings have lines of their own."""
    for group, plan in laid_out.wood:
        if group.section.moulding:
            continue
        ids = {frame.frame.id for frame in group.frames}
        needs = tuple(_stick_of(frame) if frame.frame.id in ids else Fraction(0) for frame in plans)
        yield needs, _wood_taken(group, plan, needs) if plan else None


def _wood_taken(group: TimberGroup, plan: StickPlan, needs: tuple[Fraction, ...]) -> MaterialUse:
    useful_mm = group.problem.shortest_useful_mm
    return MaterialUse(
        pieces=plan.stick_count,
        shares=needs,
        length_mm=sum((_used_up(stick, useful_mm) for stick in plan.sticks), Fraction(0)),
        wood_mm3=wood_use(plan, group).stock.mm3,
        estimate=USUAL_STICK if group.is_estimate else "",
    )


def _used_up(stick: CutStick, useful_mm: float) -> Fraction:
    """The length of a stick, or of the strips of a board, less what goes back to the rack."""
    strips = [strip for strip in stick.strips if strip.pieces]
    left_mm = (stretch.left_over_mm for strip in strips for stretch in strip.stretches)
    kept = sum((Fraction(left) for left in left_mm if left >= useful_mm), Fraction(0))
    return Fraction(stick.stock.length_mm) * len(strips) - kept


def _sheets(
    layer: str, plans: Sequence[FramePlan], layouts: Iterable[tuple[SheetGroup, MaterialUse | None]]
) -> Iterator[_Material]:
    """The sheet materials, by what each frame needs of them for its layers of a kind."""
    areas = [_areas_of(plan, layer) for plan in plans]
    for group, taken in layouts:
        needs = tuple(one.get(group.material.name.casefold(), Fraction(0)) for one in areas)
        if any(needs):
            yield needs, replace(taken, shares=needs) if taken else None


def _sheets_taken(group: SheetGroup, layout: SheetLayout) -> MaterialUse:
    """What a layout takes, shared among nobody yet."""
    sizes_mm = tuple((part.across_mm, part.up_mm) for _, part in layout.parts())
    return MaterialUse(
        pieces=len(layout.sheets),
        shares=(),
        area_mm2=_area_mm2(sizes_mm),
        estimate=USUAL_SHEET if group.is_estimate else "",
    )


@lru_cache(maxsize=256)
def _area_mm2(sizes_mm: tuple[tuple[float, float], ...]) -> Fraction:
    """The area of all parts of a layout; kept, since a layout stays while most sizes are typed."""
    return sum((Fraction(across_mm) * Fraction(up_mm) for across_mm, up_mm in sizes_mm), Fraction(0))


def _stick_of(plan: FramePlan) -> Fraction:
    return Fraction(plan.figures["stick_needed"].exact_mm) * plan.frame.count


def _areas_of(plan: FramePlan, layer: str) -> dict[str, Fraction]:
    """The package's rectangle for every layer of a kind, together by what they are called."""
    layers = Counter(one.name.casefold() for one in plan.layers if layer and one.kind == layer)
    across_mm, up_mm = (plan.figures[f"package_{way}"].exact_mm for way in ("across", "up"))
    return {name: _area_mm2(((across_mm, up_mm),)) * count * plan.frame.count for name, count in layers.items()}
