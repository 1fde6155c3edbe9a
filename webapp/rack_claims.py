"""Who counts on what: the projects that have a stick of the rack in their stock and have not cut it yet.

Nothing on the rack is set aside for a project: whoever cuts first takes the stick. So everybody who counts on it is
told of the others beforehand: on the page of the project, on the rack, and before a plan is marked as cut.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from webapp.desk import Desk
from webapp.errors import StoreError
from webapp.rack_file import RackFile
from webapp.store import Store

KEPT = 1000
"""How many projects' stocks are remembered: a revision never changes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """A project that counts on a stick, by its id and its name."""

    project_id: str
    name: str


Claims = dict[str, tuple[Claim, ...]]
"""The projects that count on a stick, by its tag."""


def claims_on(desk: Desk, file: RackFile, *, but: str = "") -> Claims:
    """Find which projects count on what stands on the rack; a deleted project counts on nothing.

    Args:
        but: the id of a project that is left out.
    """
    claims: Claims = {entry.tag: () for entry in file.sticks}
    for project_id, number in sorted(desk.store.newest().items()):
        if project_id == but:
            continue
        name, tags = _stock_of(desk.store, project_id, number)
        for tag in tags - _cut_of(file, project_id):
            if tag in claims:
                claims[tag] = (*claims[tag], Claim(project_id=project_id, name=name))
    return {tag: found for tag, found in claims.items() if found}


def _cut_of(file: RackFile, project_id: str) -> frozenset[str]:
    """The tags of what the project has cut already."""
    return frozenset(entry.tag for cut in file.cuts_of(project_id) for entry in cut.taken)


@lru_cache(maxsize=KEPT)
def _stock_of(store: Store, project_id: str, number: int) -> tuple[str, frozenset[str]]:
    """The name of a project, and what of the rack its newest revision names."""
    try:
        document = store.head(project_id).document
    except StoreError:
        return "", frozenset()
    return str(document.get("name", project_id)), frozenset(_named(document))


def _named(document: dict[str, object]) -> Iterator[str]:
    timber = document.get("timber")
    stock = timber.get("stock") if isinstance(timber, dict) else None
    for one in stock if isinstance(stock, list) else ():
        if isinstance(one, dict) and one.get("on_rack"):
            yield str(one.get("name"))
