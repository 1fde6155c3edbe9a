"""The record of one saw in the whole shop: the test cuts of every other frame cut on it.

A saw is identified by its typed name, the last change made to it, and the way its ends are cut; frames without a name
share the shop's one saw.
"""

from collections.abc import Iterable, Iterator
from contextlib import suppress

from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan
from framecalc.plan.corners.same_saw import Saw, saw_of
from framecalc.project import Frame, Project, items_at, read_project
from framecalc.records import Record, replace
from webapp.data.revisions import Revision
from webapp.data.store import Store

Setting = tuple[float, ...]


class SawCut(Record):
    """The errors of one setting of a saw [°]; `frame_id` is blank where the frame is another project's."""

    saw: Saw
    setting_deg: Setting
    frame_id: str = ""


def record_of(store: Store, project: Project, project_id: str) -> tuple[SawCut, ...]:
    """Every setting of any saw of the shop: of a project as it is now, then of all others as they are saved."""
    others = store.of_each(_cuts_in).items()
    return (*_cuts_of(project), *(cut for other, cuts in others if other != project_id for cut in cuts))


def cuts_elsewhere_deg(record: Iterable[SawCut], *, of: Frame) -> tuple[Setting, ...]:
    """The errors of each setting of a frame's saw, from all other frames of the shop [°]."""
    saw = saw_of(of.corner)
    return tuple(cut.setting_deg for cut in record if cut.saw == saw and cut.frame_id != of.id)


def _cuts_in(_: str, revision: Revision) -> tuple[SawCut, ...]:
    """What a saved project adds to the record; nothing where it is no project that can be read."""
    document = revision.document
    if not any(items_at(frame, "corner.tests") for frame in items_at(document, "frames")):
        return ()
    try:
        return tuple(replace(cut, frame_id="") for cut in _cuts_of(read_project(document)))
    except FrameCalcError:
        return ()


def _cuts_of(project: Project) -> Iterator[SawCut]:
    for frame in project.frames:
        if frame.corner.tests:
            with suppress(FrameCalcError):
                for setting in FramePlan(project, frame).corners.saw.settings_deg:
                    yield SawCut(saw=saw_of(frame.corner), setting_deg=setting, frame_id=frame.id)
