"""A plan marked as cut is kept with the rack first, then its project is told; what a crash left untold is told later.

The rack keeps with each cut that its project does not know of it yet, in the same write: nothing is told twice or lost.
"""

from contextlib import suppress

from framecalc.errors import FrameCalcError
from framecalc.project.document import Document
from webapp.data.errors import StoreError, UnreadableFile
from webapp.data.rack_file import CutEntry
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.work.pieces_cut import with_all_away, with_none_away


def tell(desk: Desk, cut: CutEntry, *, tab: str) -> None:
    """Tell a project of a cut that was made or undone, if it does not know yet and is still there.

    Raises:
        NotWritten: the disk refused; it is told the next time.
    """
    if not cut.untold:
        return
    if desk.store.has(cut.project):
        desk.change(cut.project, lambda head: _told(desk, head, cut), tab=tab)
    desk.rack.told(cut)


def tell_all(desk: Desk) -> None:
    """Tell every project of the cuts that a crash left untold; one that cannot be told keeps nobody from the others."""
    with suppress(UnreadableFile):
        for cut in desk.rack.untold():
            with suppress(FrameCalcError, StoreError):
                tell(desk, cut, tab="")


def _told(desk: Desk, head: ProjectAtRevision, cut: CutEntry) -> Document:
    if cut.undone:
        return with_none_away(head.document, cut.id)
    marked = head
    with suppress(StoreError):
        marked = desk.open_revision(cut.project, cut.untold)
    return with_all_away(desk, head, marked=marked, problem=cut.problem, cut_id=cut.id)
