"""Claims on the rack: which projects have a stick of the rack in their stock and have not cut it yet.

Nothing on the rack is set aside for a project: whoever cuts first takes the stick. So the page of the project, the
rack, and the page that marks a plan as cut all name the other projects that count on it.
"""

from collections.abc import Iterator
from functools import lru_cache

from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.project import read_project
from framecalc.project.document import Document
from framecalc.records import Record
from webapp.data.errors import StoreError
from webapp.data.rack_file import RackFile
from webapp.data.revisions import Revision
from webapp.data.store import Store
from webapp.jobs.running import Jobs
from webapp.jobs.timber import work_of
from webapp.live.desk import Desk

KEPT = 5000
"""How many projects' plans that are cut in part are remembered, a few hundred bytes each: a revision never changes."""


class Claim(Record):
    """A project that counts on a stick, by its id and its name."""

    project_id: str
    name: str


class Counted(Record):
    """What the newest revision of a project counts on: its name, and the sticks of the rack."""

    name: str
    tags: frozenset[str]
    number: int


Claims = dict[str, tuple[Claim, ...]]
"""The projects that count on a stick, by its tag."""


def claims_on(desk: Desk, file: RackFile, *, but: str = "") -> Claims:
    """Find which projects count on each stick of the rack; a deleted project counts on none.

    Args:
        but: the id of a project that is left out.
    """
    claims: Claims = {entry.tag: () for entry in file.sticks}
    for project_id, stock in desk.store.of_each(_counted_in).items():
        if project_id == but or not claims.keys() & stock.tags:
            continue
        cut = frozenset(cut.problem for cut in file.cuts_of(project_id))
        wanted = _still_wanted(desk.store, desk.jobs, project_id, stock, cut, desk.jobs.changes) if cut else stock.tags
        for tag in claims.keys() & wanted:
            claims[tag] = (*claims[tag], Claim(project_id=project_id, name=stock.name))
    return {tag: found for tag, found in claims.items() if found}


@lru_cache(maxsize=KEPT)
def _still_wanted(
    store: Store, jobs: Jobs, project_id: str, stock: Counted, cut: frozenset[str], found: int
) -> frozenset[str]:
    """The stock that a project still counts on: that of the plans it has not cut.

    If its plans can no longer be computed, it counts on all the stock that it names. `found` counts what searches have
    found: a board that several plans share is allotted by one.
    """
    try:
        project = read_project(store.head(project_id).document)
        works = work_of(jobs, Plan(project))
    except (StoreError, FrameCalcError):
        return stock.tags
    wanted = {key for work in works if work.group.key not in cut for key in work.group.offers}
    return frozenset(one.name for one in project.timber.stock if one.on_rack and one.id in wanted)


def _counted_in(project_id: str, revision: Revision) -> Counted:
    document = revision.document
    name = str(document.get("name", project_id))
    return Counted(name=name, tags=frozenset(_named(document)), number=revision.number)


def _named(document: Document) -> Iterator[str]:
    timber = document.get("timber")
    stock = timber.get("stock") if isinstance(timber, dict) else None
    for one in stock if isinstance(stock, list) else ():
        if isinstance(one, dict) and one.get("on_rack"):
            yield str(one.get("name"))
