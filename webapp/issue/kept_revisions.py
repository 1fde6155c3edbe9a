"""Which revisions the shop has acted on: shown to a client, approved, cut."""

from datetime import datetime

from webapp.data.errors import UnreadableFile
from webapp.data.rack import RackFolder
from webapp.data.thinning import Used
from webapp.issue.issued import Shelf


def acted_on(project_id: str, *, shelf: Shelf, rack: RackFolder) -> Used:
    """What links and cuts of a project refer to.

    Raises:
        UnreadableFile: a record that may be of this project is damaged, so nobody can say.
    """
    lost = shelf.unreadable(project_id)
    if lost:
        raise UnreadableFile(f"{lost[0]} is damaged: it may say what a client has approved, so nothing is removed")
    cuts = (cut for cut in rack.read().cuts if cut.project == project_id)
    return Used(
        numbers=frozenset(share.issued.revision for share in shelf.of_project(project_id)),
        moments=tuple(datetime.fromisoformat(cut.when) for cut in cuts),
    )
