"""Timber groups of small projects, and their cutting plans."""

from time import monotonic
from typing import Any

from panel import PANEL_IN_INCHES

from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.whole import Plan
from framecalc.project import read_project
from framecalc.search.watch import start_watch
from framecalc.timber.sticks.answer import StickPlan
from framecalc.timber.sticks.plan import plan_sticks

STICK = {"id": "s1", "name": "stick", "length": "2400 mm"}


BOARD = {"id": "b1", "name": "board", "length": "2400 mm", "width": "150 mm"}


def frame(name: str, **more: Any) -> dict[str, Any]:
    section = PANEL_IN_INCHES["frames"][0]["section"] | more.pop("section", {})
    return PANEL_IN_INCHES["frames"][0] | {"id": name, "name": name, "section": section} | more


def groups(*stock: dict[str, Any], frames: tuple[dict[str, Any], ...] = (), **timber: Any) -> tuple[TimberGroup, ...]:
    frames = frames or (frame("f1"),)
    document = PANEL_IN_INCHES | {"frames": list(frames), "timber": {"stock": list(stock)} | timber}
    return Plan(read_project(document)).timber.groups


def planned(group: TimberGroup) -> StickPlan:
    return plan_sticks(group.problem, watch=start_watch(20, clock=monotonic))
