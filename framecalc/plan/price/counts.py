"""Quantities from finished cutting plans and sheet layouts, for the price of a job."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from fractions import Fraction
from functools import lru_cache

from framecalc.errors import ImpossibleSize
from framecalc.package.layers import LayerKind
from framecalc.plan.frame import FramePlan
from framecalc.plan.sheets.covers import FrameCover, covers_of, cut_covers
from framecalc.plan.sheets.sheets import SheetGroup
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.wood_use import wood_use
from framecalc.plan.whole import Plan
from framecalc.price.costs import CostGroup
from framecalc.price.counts import COUNTED_SHEETS, COUNTED_WOOD, MaterialUse, quantity_taken
from framecalc.price.quantities import JobQuantity, Measure
from framecalc.project import Item
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


Find = Callable[[Plan], LaidOut]
"""Finds what is finished of a plan."""

_Material = tuple[tuple[Fraction, ...], MaterialUse | None]
"""How much of a material each frame needs, and what its plan takes, where that is finished."""


def nothing_laid_out(plan: Plan) -> LaidOut:
    """No cutting plan and no layout yet."""
    return LaidOut()


class FinishedCounts:
    """Counts items in the finished plans of a job: each material once, whatever the items that ask for it.

    Source: derived.
    """

    def __init__(self, plans: Sequence[FramePlan], laid_out: LaidOut) -> None:
        """Count in what is laid out of all frames."""
        self._plans, self._laid_out = plans, laid_out
        self._of_layers: dict[str, tuple[_Material, ...]] = {}

    def of(self, item: Item) -> JobQuantity | None:
        """The quantity of an item; None where a plan of its materials is missing, or none counts it."""
        if item.layer == LayerKind.DUST_COVER and item.measure in AREAS:
            return _of_covers(item, self._plans)
        wanted = [item.frame in ("", plan.frame.id) for plan in self._plans]
        of_wood = item.group is CostGroup.WOOD and item.measure in COUNTED_WOOD
        materials = self._woods if of_wood else self._sheets(item) if item.measure in COUNTED_SHEETS else ()
        taken = [one for needs, one in materials if any(need for need, pays in zip(needs, wanted, strict=True) if pays)]
        known = [one for one in taken if one]
        if not known or len(known) < len(taken):
            return None
        counted_by = "the cutting plan" if of_wood else "the sheet layout"
        return quantity_taken(item.measure, taken=known, wanted=wanted, amount=item.amount, counted_by=counted_by)

    @cached_property
    def _woods(self) -> tuple[_Material, ...]:
        return tuple(_woods(self._plans, self._laid_out))

    def _sheets(self, item: Item) -> tuple[_Material, ...]:
        if item.layer not in self._of_layers:
            self._of_layers[item.layer] = tuple(_sheets(item.layer, self._plans, self._layouts))
        return self._of_layers[item.layer]

    @cached_property
    def _layouts(self) -> tuple[tuple[SheetGroup, MaterialUse | None], ...]:
        """Every sheet material with what its layout takes, whatever kinds of layers that is shared out among."""
        return tuple(
            (group, _sheets_taken(group, layout) if layout else None) for group, layout in self._laid_out.sheets
        )


def _of_covers(item: Item, plans: Sequence[FramePlan]) -> JobQuantity | None:
    """The area of the roll that dust covers take, shared out by their sizes; without a roll that of the covers."""
    payers = [plan for plan in plans if item.frame in ("", plan.frame.id)]
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
                item.measure, taken=[taken], wanted=[True] * len(plans), amount=item.amount, counted_by=THE_ROLL
            )
    taken = MaterialUse(pieces=1, shares=tuple(areas), area_mm2=sum(areas, Fraction(0)), estimate=COVER_SIZES)
    return quantity_taken(item.measure, taken=[taken], wanted=[True] * len(plans), amount=item.amount, counted_by="")


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
    for group, taken in layouts:
        needs = tuple(_area_of(frame, layer, group) for frame in plans)
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


def _area_of(plan: FramePlan, layer: str, group: SheetGroup) -> Fraction:
    """The package's rectangle for every layer of a kind that is cut from this material."""
    layers = [one for one in plan.layers if layer and one.kind == layer]
    count = sum(group.material.is_called(one.name) for one in layers) * plan.frame.count
    if not count:
        return Fraction(0)
    across_mm, up_mm = (plan.figures[f"package_{way}"].exact_mm for way in ("across", "up"))
    return Fraction(across_mm) * Fraction(up_mm) * count
