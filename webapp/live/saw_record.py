"""The record of one saw in the whole shop: the test cuts of every other frame cut on it.

A saw is identified by its typed name, the last change made to it, and the way its ends are cut; frames without a name
share the shop's one saw.
"""

from collections.abc import Iterable
from contextlib import suppress
from functools import lru_cache

from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan
from framecalc.plan.corners.same_saw import Saw, saw_of
from framecalc.project import Frame, Project, items_at, read_project
from webapp.data.errors import StoreError
from webapp.data.store import Store

Setting = tuple[float, ...]


def cuts_elsewhere_deg(store: Store, project: Project, project_id: str, *, of: Frame) -> tuple[Setting, ...]:
    """The errors of each setting of a frame's saw, from all other frames of the shop [°]."""
    saw = saw_of(of.corner)
    others = (frame for frame in project.frames if frame.id != of.id)
    found = [setting for other, setting in _settings_in(project, others) if other == saw]
    for summary in store.list():
        if summary.project_id != project_id:
            with suppress(FrameCalcError, StoreError):
                known = _settings_of(store, summary.project_id, summary.number)
                found += [setting for other, setting in known if other == saw]
    return tuple(found)


@lru_cache(maxsize=512)
def _settings_of(store: Store, project_id: str, number: int) -> tuple[tuple[Saw, Setting], ...]:
    """Every setting of any saw in a revision; cached, since a revision never changes."""
    document = store.revision(project_id, number).document
    if not any(items_at(frame, "corner.tests") for frame in items_at(document, "frames")):
        return ()
    project = read_project(document)
    return tuple(_settings_in(project, project.frames))


def _settings_in(project: Project, frames: Iterable[Frame]) -> Iterable[tuple[Saw, Setting]]:
    for frame in frames:
        if frame.corner.tests:
            with suppress(FrameCalcError):
                for setting in FramePlan(project, frame).corners.saw.settings_deg:
                    yield saw_of(frame.corner), setting
