"""The buttons of the page: minutes written down or removed, and what a step took handed to the costs."""

from collections.abc import Callable, Mapping
from decimal import Decimal

from framecalc.bench.hours import WorkStep, experience
from framecalc.errors import FrameCalcError
from framecalc.money import number_text
from framecalc.plan import Plan
from framecalc.price.costs import CostGroup
from framecalc.price.quantities import Measure
from framecalc.project import items_at, read_project, with_value
from framecalc.project.document import Document
from framecalc.records import replace
from webapp.live.desk import Desk, new_id
from webapp.live.typed.forms import Draft, Typed
from webapp.live.work.hours import past_spells, read_minutes, size_of, with_spell

MINUTES, STEP = "minutes", "step"
"""What is typed afterwards."""

_HUNDREDTH = Decimal("0.01")


def carry_out(desk: Desk, draft: Draft, typed: Typed, _: str) -> Draft:
    """Apply the pressed button."""
    name, _, argument = typed.do.partition(":")
    act = _ACTS.get(name)
    if act is None:
        return draft
    try:
        document = act(desk, draft, typed, argument)
        return replace(draft, document=document, checked=read_project(document))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {MINUTES: error.sentence})


def _write(desk: Desk, draft: Draft, typed: Typed, _: str) -> Document:
    step = next((one for one in WorkStep if one.value == typed.beside.get(STEP)), WorkStep.FINISHING)
    return with_spell(draft.document, Plan(draft.checked), step, read_minutes(typed.beside.get(MINUTES, "")))


def _remove(desk: Desk, draft: Draft, typed: Typed, spell_id: str) -> Document:
    kept = [one for one in items_at(draft.document, "bench.hours") if one["id"] != spell_id]
    return with_value(draft.document, "bench.hours", kept)


def _to_costs(desk: Desk, draft: Draft, typed: Typed, step_name: str) -> Document:
    """The hours of a step in the costs: those of the item of its name, or a new one."""
    step = next((one for one in WorkStep if one.value == step_name), None)
    past = past_spells(desk, but=typed.project)
    found = experience(past, step=step, size=size_of(Plan(draft.checked))) if step else None
    if found is None:
        return draft.document
    amount = number_text((Decimal(found.median_min) / 60).quantize(_HUNDREDTH))
    items = items_at(draft.document, "quote.items")
    known = any(item["name"] == step_name for item in items)
    one: Document = {"name": step_name, "group": CostGroup.WORK.value, "measure": Measure.HOUR.value, "amount": amount}
    kept = [
        item | {"amount": amount, "measure": one["measure"]} if item["name"] == step_name else item for item in items
    ]
    return with_value(draft.document, "quote.items", kept if known else [*items, {"id": new_id(), **one}])


_ACTS: Mapping[str, Callable[[Desk, Draft, Typed, str], Document]] = {
    "write-hours": _write,
    "remove-hours": _remove,
    "use-hours": _to_costs,
}
