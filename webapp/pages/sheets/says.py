"""The sentences of the sheets page about stock, a running search, and a layout."""

from collections.abc import Iterator
from math import floor

from framecalc.errors import quoted
from framecalc.money import Currency, tag_text
from framecalc.plan.sheets.sheets import SheetGroup
from framecalc.project.sheets import StockSheet
from framecalc.sheets.answer import LayoutProof, SheetLayout
from framecalc.sheets.problem import Goal
from framecalc.units import Unit, describe_size
from webapp.live.answers import Big, Table
from webapp.pages.sheets.lists import money_of, waste_ratio


def needs_of(group: SheetGroup) -> Iterator[str]:
    """The notes above a layout: it is an estimate, parts stay upright, stock is counted twice."""
    if group.is_estimate and group.problem:
        name = group.problem.stock[0].name
        yield (
            f"Estimate: no sheet is typed for this material, so it is laid out on the smallest usual size that holds "
            f"every part, {name} (usual practice)."
        )
    if not all(part.may_turn for part in group.parts):
        yield "The parts stay upright, as the sheet lies: none is turned."
    for name in group.shared:
        yield quoted(name) + (
            " is counted here and for another thickness as well: type the thickness that it is for, so that it is not "
            "used twice."
        )


def so_far_words(layout: SheetLayout, currency: Currency) -> str:
    """The progress of a running search."""
    if layout.goal is Goal.CHEAPEST:
        cost, least = (tag_text(one, currency=currency) for one in (layout.cost, layout.least_cost))
        return f"So far {cost}; at least {least} for certain."
    return f"So far {_sheets(layout.bought)} to buy; at least {layout.least_bought} for certain."


def bigs_of(layout: SheetLayout, unit: Unit, currency: Currency) -> Iterator[Big]:
    """The main figures of a layout."""
    money = money_of(layout)
    yield Big(
        label="To buy",
        text=_sheets(layout.bought) if layout.bought else "Nothing to buy",
        says=tag_text(money, currency=currency) if money else "no price yet" if layout.bought else "",
    )
    yield Big(label="To cut", text=_sheets(len(layout.sheets)), says=f"{layout.least_cut} at least")
    if layout.goal is Goal.CHEAPEST:
        yield Big(label="No layout costs less than", text=tag_text(layout.least_cost, currency=currency))
    else:
        yield Big(label="No layout buys fewer than", text=_sheets(layout.least_bought))
    left = layout.largest_left_over
    size = describe_size(left.across_mm, left.up_mm, unit=unit) if left else "nothing"
    yield Big(label="Largest left-over", text=size, says="in one piece" if left else "")
    yield Big(
        label="In no part", text=f"{100 * waste_ratio(layout):.0f}%", says="of the sheets cut, left-overs included"
    )


def quality_words(layout: SheetLayout, currency: Currency) -> str:
    """Whether a layout is the best possible, or else what might do."""
    if layout.is_proved:
        return "Best possible."
    if layout.missing:
        return "Not proved: fewer might do."
    if layout.goal is Goal.CHEAPEST and layout.cost > layout.least_cost:
        return f"Not proved: {tag_text(layout.least_cost, currency=currency)} might do."
    if layout.bought > layout.least_bought:
        return f"Not proved: {_sheets(layout.least_bought)} might do."
    return f"Not proved: cutting {_sheets(layout.least_cut)} might do."


def proof_words(layout: SheetLayout) -> Iterator[str]:
    """The proof in words that a person can follow; or how much better a layout could be."""
    wanted = layout.proof.wanted_ratio
    if wanted:
        yield (
            "Give every part its share in the table. However a sheet is cut, the shares of its parts add up to no more "
            f"than the other table says; all parts together come to {wanted:.2f}."
        )
    if layout.tried_every_way:
        yield "Every way with fewer was tried as well: there is none."
    if not layout.is_proved:
        yield from _one_fewer(layout)
    if layout.is_exhausted:
        yield "The search ended before its time: however it started over, it met nothing that it had not tried."
    yield "The largest off-cut found; a larger one may exist."


def _one_fewer(layout: SheetLayout) -> Iterator[str]:
    """What would have to be true to buy one sheet less."""
    if layout.goal is Goal.FEWEST and layout.bought > layout.least_bought and layout.fill_with_one_fewer_ratio:
        filled = floor(100 * layout.fill_with_one_fewer_ratio)
        yield (
            f"To buy one sheet fewer, the parts would have to fill at least {filled}% of all sheets, those at hand "
            "included; no such layout was found."
        )


def share_tables(proof: LayoutProof, unit: Unit) -> Iterator[Table]:
    """The shares that the proof rests on."""
    parts = tuple(
        (
            ", ".join(part.names),
            describe_size(part.across_mm, part.up_mm, unit=unit),
            str(part.count),
            _share(part.share_ratio),
        )
        for part in proof.parts
    )
    yield Table(caption="The share of each part", heads=("Part", "Size", "Count", "Share of one"), rows=parts)
    sheets = tuple((sheet.stock.name, _share(sheet.most_ratio)) for sheet in proof.sheets)
    yield Table(caption="The most that one sheet holds", heads=("Sheet", "Shares"), rows=sheets)


def _share(ratio: float) -> str:
    return f"{ratio:.3f}"


def stock_words(entry: StockSheet, unit: Unit, currency: Currency) -> str:
    """One line for the fold: size, count, price of one."""
    size = describe_size(entry.across.mm, entry.up.mm, unit=unit)
    many = "for sale" if entry.count is None else f"{entry.count} at hand"
    price = f", {tag_text(entry.price, currency=currency)} each" if entry.price else ""
    thickness = f", only {entry.thickness.text}" if entry.thickness else ""
    return f"{many}{price}{thickness}" if entry.name == size else f"{size}, {many}{price}{thickness}"


def _sheets(number: int) -> str:
    return "1 sheet" if number == 1 else f"{number} sheets"
