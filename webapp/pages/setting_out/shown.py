"""What the setting-out page shows beside its fields, as strings: sizes, table, findings, hints, drawings, frames.

Templates take these records as they are; nothing is computed or formatted there.
"""

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import Any

from markupsafe import Markup

from framecalc.drawing import PANELS, draw_panel, draw_where
from framecalc.drawing.setting_out.field_sketches import PLACES
from framecalc.errors import FrameCalcError
from framecalc.findings import Rounding, Severity
from framecalc.package.shelf import ready_made
from framecalc.plan import FramePlan
from framecalc.plan.advice import WayOut
from framecalc.plan.figures import KINDS
from framecalc.project import Frame
from framecalc.units import Unit
from framecalc.words import Words, say
from webapp.data.shop import differences
from webapp.live.answer import Answer, verdict_of
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.forms import without_unit
from webapp.live.render import drawing
from webapp.live.slots import field_views, slots_of
from webapp.pages.setting_out.hints import NO_HINTS, hints_of, is_measured_twice

LOOK_BACK = 60
"""How many revisions are looked through for the last one that can be drawn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BigSize:
    """One of the sizes that come first: what it is, its figures, and a word under them."""

    label: str
    lines: tuple[str, ...]
    says: str
    is_list: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeRow:
    """One line of the sizes table."""

    label: str
    text: str
    remainder: str
    direction: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawingPanel:
    """One drawing on the page."""

    name: str
    title: str
    svg: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class Button:
    """A way out: what the button sends, the field it fills and with what, and the words on it."""

    do: str
    path: str
    text: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingView:
    """A finding as it is listed."""

    severity: Severity
    sentence: str
    why: str
    source: str
    path: str
    ways: tuple[Button, ...]
    take_out: str = ""


DIRECTIONS = {Rounding.UP: "up", Rounding.DOWN: "down", Rounding.NEAREST: "nearest"}


def big_sizes(plan: FramePlan) -> tuple[BigSize, ...]:
    """The sizes that come first."""
    inner = (
        (_big(plan, "rabbet", "Inside", "wall to wall"), _big(plan, "artwork", "Artwork", "on the ledge"))
        if plan.is_tray
        else (_big(plan, "sight", "Sight", "stays in view"), _big(plan, "rabbet", "Rabbet size", "wall to wall"))
    )
    ledges = (_pieces(plan, "Ledge strips", "ledge_long"),) if plan.has_loose_ledge else ()
    return (_big(plan, "outside", "Outside", "edge to edge"), *inner, _pieces(plan, "Members", "outside"), *ledges)


def _big(plan: FramePlan, name: str, label: str, says: str) -> BigSize:
    across, up = plan.figures[f"{name}_across"], plan.figures[f"{name}_up"]
    return BigSize(label=label, lines=(across.text, f"× {up.text}"), says=says)


def _pieces(plan: FramePlan, label: str, size: str) -> BigSize:
    """The four pieces that go round by the long edges of a size, in pairs."""
    pairs = 2 * plan.frame.count
    lines = tuple(f"{pairs} of {plan.figures[f'{size}_{way}'].text}" for way in ("across", "up"))
    return BigSize(label=label, lines=lines, says="long points", is_list=True)


def rows_of(plan: FramePlan) -> tuple[SizeRow, ...]:
    """The sizes table: every figure with its remainder and its direction."""
    return tuple(
        SizeRow(
            label=figure.label[:1].upper() + figure.label[1:],
            text=figure.text,
            remainder=figure.remainder,
            direction=DIRECTIONS[KINDS[figure.name].rounding],
        )
        for figure in plan.figures.values()
    )


def findings_of(answer: Answer) -> Iterable[FindingView]:
    """The findings, the worst first, each with its buttons; those of one code are numbered through."""
    numbers: Counter[str] = Counter()
    for advice in answer.advice:
        yield FindingView(
            severity=advice.severity,
            sentence=advice.sentence,
            why=advice.why,
            source=advice.source,
            path=advice.path if advice.path in answer.fields else "",
            ways=tuple(_button(advice.code, way, numbers, answer.project.unit) for way in advice.ways),
            take_out=advice.take_out,
        )


def _button(code: str, way: WayOut, numbers: Counter[str], unit: Unit) -> Button:
    numbers[code] += 1
    do = f"fix:{code}:{numbers[code] - 1}"
    return Button(
        do=do,
        path=way.path,
        text=without_unit(way.text, unit),
        says=f"{way.says[:1].upper()}{way.says[1:]}: {way.text}",
    )


def panels_of(plan: FramePlan) -> tuple[DrawingPanel, ...]:
    """The drawings of the page, as fragments."""
    return tuple(
        DrawingPanel(name=name, title=title, svg=drawing(draw_panel(name, plan))) for name, title in PANELS.items()
    )


@lru_cache(maxsize=256)
def where(path: str, words: Words) -> Markup:
    """The small drawing of where a field is measured, if there is one; its title in the shop's words."""
    if path not in PLACES:
        return Markup()
    return drawing(re.sub(r"(?<=<title>)[^<]*", lambda title: say(title[0], words), draw_where(path)))


def parts_shown(opened: ProjectAtRevision, answer: Answer) -> dict[str, Any]:
    """What the parts of the page that change while typing show."""
    good = answer.is_good
    return {
        "opened": opened,
        "base": opened.revision.number,
        "place": "setting-out",
        "answer": answer,
        "address": address(answer.project_id, answer.frame.id),
        "words": answer.project.shop.words,
        "verdict": verdict_of(answer),
        "slots": tuple(slots_of(answer)),
        "hints": hints_of(answer.plan) if good else NO_HINTS,
        "sizes": big_sizes(answer.plan) if good else (),
        "rows": rows_of(answer.plan) if good else (),
        "panels": panels_of(answer.plan) if good else (),
        "findings": tuple(findings_of(answer)),
        "kept": "" if good else "as before",
        "unit": answer.project.unit.value,
    }


def page_shown(desk: Desk, opened: ProjectAtRevision, answer: Answer) -> dict[str, Any]:
    """What the whole page shows: the parts, the fields, the frames, and drawings that are older where need be."""
    shown = parts_shown(opened, answer) | {
        "project": answer.project,
        "fields": field_views(answer),
        "layers": answer.frame.package.layers,
        "titles": PANELS,
        "measured_twice": is_measured_twice(answer.frame),
        "frames": tuple(_frame_links(opened, answer)),
        "ready_made": ready_made(),
        "where": partial(where, words=answer.project.shop.words),
        "shop_differs": tuple(differences(answer.document["shop"], desk.shop())),
        "clash": None,
        "renews": False,
    }
    return shown if answer.is_good else shown | _older(desk, opened, answer.frame)


def _older(desk: Desk, opened: ProjectAtRevision, frame: Frame) -> dict[str, Any]:
    """Sizes and drawings of the last revision that can be drawn, where the present state cannot."""
    for number, plan in _earlier_plans(desk, opened, frame.id):
        return {
            "sizes": big_sizes(plan),
            "rows": rows_of(plan),
            "panels": panels_of(plan),
            "kept": f"as saved in revision {number}",
        }
    return {"kept": "none yet"}


def _earlier_plans(desk: Desk, opened: ProjectAtRevision, frame_id: str) -> Iterable[tuple[int, FramePlan]]:
    for revision in desk.earlier(opened, most=LOOK_BACK):
        plan = _drawable(revision, frame_id)
        if plan:
            yield revision.revision.number, plan


def _drawable(opened: ProjectAtRevision, frame_id: str) -> FramePlan | None:
    try:
        plan = opened.plan.frames[frame_id]
        plan.compute_all()
    except (FrameCalcError, KeyError):
        return None
    return plan


def _frame_links(opened: ProjectAtRevision, answer: Answer) -> Iterable[dict[str, Any]]:
    for frame in answer.project.frames:
        yield {
            "id": frame.id,
            "name": frame.name,
            "count": frame.count,
            "href": address(opened.project_id, frame.id),
            "here": frame.id == answer.frame.id,
        }


def address(project_id: str, frame_id: str) -> str:
    """The address of the setting-out page of a frame."""
    return f"/projects/{project_id}/frames/{frame_id}/setting-out"
