"""What an item of a quote says of how much of it is wanted, whatever it is called and costs."""

from decimal import Decimal

from framecalc.price.costs import CostGroup
from framecalc.price.counts import COUNTED_SHEETS, COUNTED_WOOD
from framecalc.price.quantities import Measure, SoldAs
from framecalc.project import Item
from framecalc.records import Record


class WantedItem(Record):
    """By what an item is counted: for which frame (blank for all), layer and group, and what it is sold as."""

    measure: Measure
    group: CostGroup
    layer: str
    frame: str
    amount: Decimal
    stock: SoldAs

    @property
    def is_wood(self) -> bool:
        """Whether a cutting plan counts it."""
        return self.group is CostGroup.WOOD and self.measure in COUNTED_WOOD

    @property
    def is_sheet(self) -> bool:
        """Whether a sheet layout counts it."""
        return self.measure in COUNTED_SHEETS

    def is_for(self, frame_id: str) -> bool:
        """Whether a frame pays for it."""
        return self.frame in ("", frame_id)


def wanted_of(item: Item, *, kerf_mm: float, trim_mm: float) -> WantedItem:
    """What an item says of how much of it is wanted.

    Args:
        kerf_mm, trim_mm: what a saw cut takes of a stick, and what is cut off its ends [mm], ≥ 0.
    """
    return WantedItem(
        measure=item.measure,
        group=item.group,
        layer=item.layer,
        frame=item.frame,
        amount=item.amount,
        stock=SoldAs(
            stick_mm=item.stick_length.mm if item.stick_length else 0,
            sheet_across_mm=item.sheet_across.mm if item.sheet_across else 0,
            sheet_up_mm=item.sheet_up.mm if item.sheet_up else 0,
            kerf_mm=kerf_mm,
            trim_mm=trim_mm,
        ),
    )
