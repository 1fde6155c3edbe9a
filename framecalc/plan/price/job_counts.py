"""How much a job takes of what its quote names, whatever that costs: counted in a finished plan, else estimated."""

from collections.abc import Iterable, Sequence
from decimal import Decimal

from framecalc.errors import FrameCalcError
from framecalc.plan.frame import FramePlan
from framecalc.plan.price.counts import FinishedCounts, LaidOut
from framecalc.plan.price.needs import JobNeeds
from framecalc.plan.price.wanted import WantedItem, wanted_of
from framecalc.price.quantities import JobQuantity, quantity_of
from framecalc.project import Item
from framecalc.records import Record
from framecalc.units import describe_length


class Problem(Record):
    """Why an item cannot be counted: the field of it at fault, and a sentence."""

    field: str
    says: str


class CountedItem(Record):
    """How much of an item a job takes; nothing of one that cannot be counted."""

    quantity: JobQuantity
    problem: Problem | None = None


class JobCounts:
    """Counts the items of a job. What was counted last is known: another price counts nothing anew."""

    def __init__(self, plans: Sequence[FramePlan]) -> None:
        """Count in the plans of all frames."""
        self._plans, self._needs = plans, JobNeeds(plans)
        self._last: tuple[FinishedCounts, dict[WantedItem, CountedItem]] = FinishedCounts(plans, LaidOut()), {}

    def of(self, items: Iterable[Item], *, laid_out: LaidOut) -> tuple[CountedItem, ...]:
        """How much of each item the job takes.

        Args:
            laid_out: the cutting plans and sheet layouts that are finished.
        """
        finished, known = self._last
        if finished.laid_out != laid_out:
            finished, known = FinishedCounts(self._plans, laid_out), {}
        wanted = tuple(map(self._wanted, items))
        counted = {one: known.get(one) or self._counted(one, finished) for one in wanted}
        self._last = finished, counted
        return tuple(counted[one] for one in wanted)

    def _wanted(self, item: Item) -> WantedItem:
        first = self._plans[0]
        kerf_mm, trim_mm = first.figures["slant_kerf"].exact_mm, first.project.shop.end_trim.mm
        return wanted_of(item, kerf_mm=kerf_mm, trim_mm=trim_mm)

    def _counted(self, wanted: WantedItem, finished: FinishedCounts) -> CountedItem:
        """A counted quantity goes before an estimate."""
        quantity = finished.of(wanted)
        return CountedItem(quantity=quantity) if quantity else self._estimated(wanted)

    def _estimated(self, wanted: WantedItem) -> CountedItem:
        needs = self._needs.of(wanted)
        try:
            quantity = quantity_of(wanted.measure, needs=needs, amount=wanted.amount, stock=wanted.stock)
        except FrameCalcError as error:
            problem = Problem(field=_FIELDS.get(error.field, "measure"), says=self._worded(error))
            nothing = JobQuantity(total=Decimal(0), weights=tuple(Decimal(0) for _ in needs))
            return CountedItem(quantity=nothing, problem=problem)
        return CountedItem(quantity=quantity)

    def _worded(self, error: FrameCalcError) -> str:
        if error.field in ("stick_mm", "sheet_across_mm", "sheet_up_mm"):
            return "Enter the size that it is sold in"
        unit = self._plans[0].unit
        lengths = {name: describe_length(length_mm, unit=unit) for name, length_mm in error.lengths.items()}
        return error.wording.format_map(lengths)


_FIELDS = {
    "stick_mm": "stick_length",
    "stick_length": "stick_length",
    "sheet_across": "sheet_across",
    "sheet_across_mm": "sheet_across",
    "sheet_up_mm": "sheet_up",
}
