"""What the page shows on which the history of a project is thinned."""

from framecalc.records import Record
from framecalc.words import Words
from webapp.data.thinning import KEPT_DAYS
from webapp.live.addresses import PROJECT, REVISIONS
from webapp.live.desk import Desk


class ThinningShown(Record):
    """The rule, and how many revisions it would remove of how many."""

    called: str
    address: str
    project_at: str
    going: int
    there: int
    words: Words
    kept_days: int = KEPT_DAYS


def thinning_shown(desk: Desk, project_id: str, going: tuple[int, ...]) -> ThinningShown:
    """What the page shows of a project of which some revisions can go."""
    return ThinningShown(
        called=str(desk.store.head(project_id).document.get("name", project_id)),
        address=REVISIONS(project_id=project_id),
        project_at=PROJECT(project_id=project_id),
        going=len(going),
        there=desk.store.count(project_id),
        words=desk.shop().words,
    )
